from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch, read_length, snap
from sheets.base.notation import APPROXIMATELY, Notation, Run, format_length

FEET = Notation("feet-inches", inch("1/16"))
INCHES = Notation("inches", inch("1/16"))
MM = Notation("mm", Fraction(1))
NOTATIONS = st.sampled_from(
    [FEET, INCHES, MM, Notation("feet-inches", inch("1/64")), Notation("mm", Fraction(1, 2))]
)


@pytest.mark.parametrize(
    ("inches", "feet_text", "inches_text"),
    [
        ("62.5", "5'-2 1/2\"", '62 1/2"'),
        ("6.5", '6 1/2"', '6 1/2"'),
        ("12", "1'-0\"", '12"'),
        ("120", "10'-0\"", '120"'),
        ("120.25", "10'-0 1/4\"", '120 1/4"'),
        ("0", '0"', '0"'),
        ("1/2", '1/2"', '1/2"'),
        ("1/16", '1/16"', '1/16"'),
        ("383/32", '11 31/32"', '11 31/32"'),
        ("-62.5", "-5'-2 1/2\"", '-62 1/2"'),
        ("1/64", '1/64"', '1/64"'),
    ],
)
def test_inches(inches: str, feet_text: str, inches_text: str) -> None:
    # Feet and inches from a foot up, inches below; 0 inches are shown (common practice).
    assert format_length(inch(inches), FEET).plain == feet_text
    assert format_length(inch(inches), INCHES).plain == inches_text


@pytest.mark.parametrize(
    ("mm", "text"), [("1588", "1588"), ("18.5", "18.5"), ("0", "0"), ("-3", "-3"), ("0.1", "0.1")]
)
def test_millimetres(mm: str, text: str) -> None:
    assert format_length(Fraction(mm), MM).plain == text


def test_rounding_carries_into_the_next_foot_and_says_that_it_rounded() -> None:
    text = format_length(inch("383/32"), FEET, rounded=True)
    assert text.plain == APPROXIMATELY + "1'-0\""
    assert (text.feet, text.inches, text.numerator, text.exact) == (1, 0, 0, False)
    assert format_length(inch("62.5"), FEET, rounded=True).plain == "5'-2 1/2\""


def test_what_no_fraction_shows_is_marked_as_approximate() -> None:
    third = format_length(inch("1/3"), FEET)
    assert not third.exact
    assert third.plain == APPROXIMATELY + '21/64"'
    assert format_length(Fraction(1, 3), MM).plain == APPROXIMATELY + "0.3"


def test_pieces_let_the_fraction_be_stacked_without_a_space() -> None:
    assert format_length(inch("62.5"), FEET).runs == (Run("5'-2"), Run("", 1, 2), Run('"'))
    assert format_length(inch("1/2"), FEET).runs == (Run("", 1, 2), Run('"'))
    assert format_length(inch(12), FEET).runs == (Run("1'-0\""),)


def read_back(text: str, notation: Notation) -> Fraction:
    """The length, mm, that a text written in a notation says."""
    return read_length(text.lstrip().removeprefix(APPROXIMATELY), unit=notation.unit)


@given(st.integers(-(10**6), 10**6), NOTATIONS)
def test_reading_what_was_written_gives_it_back(steps: int, notation: Notation) -> None:
    value = steps * notation.grid
    text = format_length(value, notation)
    assert text.exact
    assert read_back(text.plain, notation) == value


@given(st.fractions(-(10**5), 10**5), NOTATIONS)
def test_any_length_reads_back_within_the_finest_division_or_exactly(
    value: Fraction, notation: Notation
) -> None:
    text = format_length(value, notation)
    back = read_back(text.plain, notation)
    finest = Fraction(1, 10) if notation.kind == "mm" else inch("1/64")
    assert abs(back - value) <= finest / 2
    assert text.exact == (back == value)
    assert text.exact != (APPROXIMATELY in text.plain)


@given(st.fractions(-(10**5), 10**5), NOTATIONS)
def test_a_fraction_is_reduced_and_proper_and_inches_stay_below_a_foot(
    value: Fraction, notation: Notation
) -> None:
    for rounded in (False, True):
        text = format_length(value, notation, rounded=rounded)
        assert text.numerator == 0 or 0 < text.numerator < text.denominator
        assert Fraction(text.numerator, text.denominator).denominator == text.denominator
        if text.feet is not None:
            assert text.feet >= 1
            assert text.inches is not None
            assert text.inches < 12
        if rounded:
            assert read_back(text.plain, notation) == snap(value, notation.grid)
