"""Bays: they add up exactly, whatever spacing was asked for."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.grammar.schema import Graduated, Ratio
from sheets.resolve.shelving import Bays, lay_bays

GRID = inch("1/16")


def test_even_bays_leave_the_remainder_in_the_lowest() -> None:
    # 40 in over three bays: 13 5/16 twice (13.333 to the nearest sixteenth), 13 3/8 at the bottom.
    bays = lay_bays(inch(40), 2, "even", GRID)
    assert bays.heights == (inch("107/8"), inch("213/16"), inch("213/16"))
    assert bays.leftover == inch("1/16")
    assert [bays.is_equal(k) for k in range(3)] == [False, True, True]


def test_bays_of_a_list_keep_what_is_written() -> None:
    bays = lay_bays(inch(40), 3, (inch(12), inch(10), "fill", "fill"), GRID)
    assert bays.heights == (inch(12), inch(10), inch(9), inch(9))


def test_a_list_that_does_not_add_up_is_refused() -> None:
    assert lay_bays(inch(40), 1, (inch(12), inch(12)), GRID).fault
    assert lay_bays(inch(40), 1, (inch(40), "fill"), GRID).fault
    assert lay_bays(inch(40), 2, (inch(12), "fill"), GRID).fault


def test_graduated_bays_step_by_what_is_asked() -> None:
    # Common practice for bookcases: the tallest bay at the bottom. 3 bays, 1 in apart, in 33: 12, 11, 10.
    assert lay_bays(inch(33), 2, Graduated(graduated=inch(1)), GRID).heights == (inch(12), inch(11), inch(10))


def test_bays_that_shrink_to_nothing_are_refused() -> None:
    assert lay_bays(inch(12), 3, Graduated(graduated=inch(6)), GRID).fault
    assert lay_bays(inch("1/8"), 3, "even", GRID).fault


def test_bays_in_a_ratio_grow_downwards() -> None:
    # 1, 2, 4 in the proportion 2: 28 in is 16, 8, 4 from the bottom.
    assert lay_bays(inch(28), 2, Ratio(ratio=Fraction(2)), GRID).heights == (inch(16), inch(8), inch(4))


@pytest.mark.parametrize(
    ("heights", "equal"),
    [
        ((12, 11, 10), (False, False, False)),  # one of a height is equal to none
        ((12, 10, 10), (False, True, True)),
        ((12, 12, 10, 10, 10), (False, False, True, True, True)),  # two of five are not the series
        ((12, 12, 10, 10), (True, True, True, True)),
    ],
)
def test_the_equal_bays_are_those_of_the_height_that_most_have(heights, equal) -> None:  # type: ignore[no-untyped-def]
    bays = Bays(tuple(inch(height) for height in heights))
    assert tuple(bays.is_equal(k) for k in range(len(heights))) == equal


@given(
    st.integers(200, 2000),
    st.integers(0, 8),
    st.sampled_from(["even", Graduated(graduated=inch("1/4")), Ratio(ratio=Fraction(27, 25))]),
)
def test_bays_close(clear: int, count: int, spacing: object) -> None:
    total = inch(Fraction(clear, 32))
    bays = lay_bays(total, count, spacing, GRID)
    if not bays.fault:
        assert sum(bays.heights) == total
        assert len(bays.heights) == count + 1
        assert all(height % GRID == 0 for height in bays.heights[1:])
