from sheets.base.length import inch
from sheets.base.tolerance import CHORD_HEIGHT_MM, SAME_POINT_MM, TABLE


def test_each_tolerance_has_a_unit_and_a_reason() -> None:
    assert TABLE
    for name, tolerance in TABLE.items():
        assert tolerance.value > 0, name
        assert tolerance.unit in ("mm", "mm2", "mm3", "rad"), name
        assert len(tolerance.reason) > 20, name


def test_points_that_a_rule_tells_apart_are_never_the_same() -> None:
    assert float(inch("1/64")) / 1000 > SAME_POINT_MM
    assert float(inch("1/64")) / 10 > CHORD_HEIGHT_MM
