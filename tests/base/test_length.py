from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import MM_PER_FOOT, MM_PER_INCH, LengthError, inch, read_length, snap, split_even


def test_an_inch_is_25_4_mm_and_a_foot_304_8() -> None:
    # NIST SP 811 (2008), appendix B.8: 1 in = 2.54 E-02 m, 1 ft = 3.048 E-01 m, both exact.
    assert Fraction("25.4") == MM_PER_INCH
    assert Fraction("304.8") == MM_PER_FOOT


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("5'-2 1/2\"", "62.5"),
        ("5' 2-1/2", "62.5"),
        ("5'2-1/2\"", "62.5"),
        ("5' - 2 1/2\"", "62.5"),
        ("62.5", "62.5"),
        ("62 1/2", "62.5"),
        ('62-1/2"', "62.5"),
        ("5\u2032-2\u00bd\u2033", "62.5"),
        ("5\u2019-2 1/2\u201d", "62.5"),
        ("5 ft 2 1/2 in", "62.5"),
        ("17'-4\"", "208"),
        ("10'", "120"),
        ("1/16", "0.0625"),
        ("23 / 32", "0.71875"),
        (".5", "0.5"),
        ("0", "0"),
        ("-3 1/2", "-3.5"),
        ("-5'-2 1/2\"", "-62.5"),
        ("  62.5  ", "62.5"),
    ],
)
def test_forms_in_inches(text: str, inches: str) -> None:
    assert read_length(text, unit="inch") == Fraction(inches) * Fraction("25.4")


@pytest.mark.parametrize(
    ("text", "mm"), [("1588 mm", 1588), ("158.8 cm", 1588), ("1.588 m", 1588), ("3mm", 3)]
)
@pytest.mark.parametrize("unit", ["inch", "mm"])
def test_a_length_with_its_unit_means_the_same_in_either_spec(text: str, mm: int, unit: str) -> None:
    assert read_length(text, unit=unit) == mm  # type: ignore[arg-type]


def test_a_bare_number_takes_the_unit() -> None:
    assert read_length("62.5", unit="mm") == Fraction("62.5")
    assert read_length("62.5", unit="inch") == Fraction("1587.5")
    assert read_length('2"', unit="mm") == Fraction("50.8")


@pytest.mark.parametrize(
    "text",
    [
        "12:30",
        "1_000",
        "010",
        "00",
        "no",
        "yes",
        "true",
        "null",
        "~",
        "",
        "   ",
        "1e3",
        "1E3",
        "1,5",
        "1,000",
        "5-2",
        "1/0",
        "3 5/4",
        "3 4/4",
        "5'-14\"",
        "5'-12\"",
        "5'-",
        "'",
        '"',
        "-",
        '62"6',
        "--3",
        "5.",
        "1/2/3",
        "0x10",
        ".inf",
        "nan",
        "+5",
        "5 6",
        "5 m 3",
        "5'6'",
        "5.5'-2",
        "\u0663",
        "1" * 200,
        "- 1/2 -",
        "1 000",
        "5mm3",
        "in",
        "mm",
        "6 km",
    ],
)
def test_what_is_no_length_is_never_read_as_one(text: str) -> None:
    with pytest.raises(LengthError) as caught:
        read_length(text, unit="inch")
    assert caught.value.reason


def test_a_dash_after_feet_is_no_minus_and_a_dash_in_a_mixed_number_is_a_plus() -> None:
    assert read_length("2-1/2", unit="inch") == inch("2.5")
    assert read_length("5'-2", unit="inch") == inch(62)


@given(st.fractions(max_denominator=128), st.sampled_from(["inch", "mm"]))
def test_an_exact_decimal_or_fraction_survives(value: Fraction, unit: str) -> None:
    scale = Fraction("25.4") if unit == "inch" else 1
    text = f"{value.numerator}/{value.denominator}"
    if len(text) <= 40:
        assert read_length(text.removesuffix("/1"), unit=unit) == value * scale  # type: ignore[arg-type]


@given(st.text(max_size=60))
def test_any_text_is_a_length_or_a_length_error(text: str) -> None:
    with suppress(LengthError):
        assert isinstance(read_length(text, unit="mm"), Fraction)


def test_snap() -> None:
    grid = inch("1/16")
    assert snap(inch("3.3"), grid) == inch("53/16")
    assert snap(inch("3.3"), grid, "down") == inch("52/16")
    assert snap(inch("3.3"), grid, "up") == inch("53/16")
    assert snap(inch("1/32"), grid) == grid
    assert snap(-inch("1/32"), grid) == -grid
    assert snap(-inch("3.3"), grid, "down") == -inch("53/16")


@given(
    st.integers(1, 5000),
    st.integers(1, 40),
    st.sampled_from([Fraction(127, 80), Fraction(1), Fraction(1, 2)]),
    st.fractions(0, 1).filter(lambda f: f < 1),
)
def test_an_even_split_adds_up_and_is_symmetric(
    steps: int, n: int, grid: Fraction, off_grid: Fraction
) -> None:
    total = (steps + off_grid) * grid
    sizes, leftover = split_even(total, n, grid)
    assert len(sizes) == n
    assert sum(sizes) == total
    assert sizes == sizes[::-1]
    assert 0 <= leftover < n * grid
    if n > 2:
        inner = {size for i, size in enumerate(sizes) if i not in (0, n - 1, n // 2 if n % 2 else 0)}
        assert all((size / grid).denominator == 1 for size in inner)
        assert len(inner) <= 1


def test_three_bays_of_ten_inches_add_up_on_the_grid() -> None:
    sizes, leftover = split_even(inch(10), 3, inch("1/16"))
    assert sizes == (inch("53/16"), inch("54/16"), inch("53/16"))
    assert leftover == inch("1/16")
    sizes, leftover = split_even(inch(10), 4, inch("1/16"))
    assert sizes == (inch("2.5"),) * 4
    assert leftover == 0


@pytest.mark.parametrize(("total", "n"), [(0, 3), (-1, 3), (10, 0)])
def test_nothing_to_split(total: int, n: int) -> None:
    with pytest.raises(ValueError, match="split"):
        split_even(Fraction(total), n, Fraction(1))
