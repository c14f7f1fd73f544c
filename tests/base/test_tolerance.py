from sheets.base.length import inch
from sheets.base.tolerance import CHORD_HEIGHT, SAME_POINT, TABLE, settled


def test_each_tolerance_has_a_unit_and_a_reason() -> None:
    assert TABLE
    for name, tolerance in TABLE.items():
        assert tolerance.value > 0, name
        assert tolerance.unit in ("mm", "mm2", "mm3", "rad"), name
        assert len(tolerance.reason) > 20, name


def test_points_that_a_rule_tells_apart_are_never_the_same() -> None:
    assert float(inch("1/64")) / 1000 > SAME_POINT
    assert float(inch("1/64")) / 10 > CHORD_HEIGHT


def test_a_size_that_ends_in_5_is_rounded_one_way_whatever_its_last_bits() -> None:
    hi, lo = 1078.70625 - 1060.45, 1053.30625 - 1035.05  # 23/32 in, 18.25625 mm, at two heights
    assert hi != lo
    assert settled(hi, 4) == settled(lo, 4)
    assert f"{settled(-1e-9, 2):.2f}" == "0.00"
