"""Boards over a width: full ones and two equal ends, never under half a face."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.resolve.boards import lay_boards

GRID = inch("1/16")


@pytest.mark.parametrize(
    ("width", "face", "full", "end"),
    [
        # By hand from the rule: n = floor(W / f), r = W - n f; n - 1 full, two ends (f + r) / 2.
        ("60", "41/8", 10, "35/8"),  # n 11, r 3 5/8: ten of 5 1/8 and two of 4 3/8: 51 1/4 + 8 3/4 = 60
        ("36", "25/8", 10, "19/8"),  # n 11, r 1 5/8: ten of 3 1/8 and two of 2 3/8
    ],
)
def test_ends_are_balanced(width: str, face: str, full: int, end: str) -> None:
    laid = lay_boards(inch(width), inch(face), GRID)
    assert laid.ripped == inch(end)
    assert laid.faces == (inch(end), *[inch(face)] * full, inch(end))
    assert sum(laid.faces) == inch(width)


def test_a_width_that_boards_fill_is_not_ripped() -> None:
    # 41 in is exactly eight faces of 5 1/8.
    laid = lay_boards(inch(41), inch("41/8"), GRID)
    assert (laid.faces, laid.ripped) == ((inch("41/8"),) * 8, 0)


def test_less_than_a_face_is_one_board() -> None:
    assert lay_boards(inch(4), inch("41/8"), GRID).faces == (inch(4),)


@given(st.integers(1, 4000), st.integers(32, 160))
def test_half_board_rule(width: int, face: int) -> None:
    """Common practice: the first and last board are alike and no narrower than half a board."""
    w, f = inch(Fraction(width, 16)), inch(Fraction(face, 16))
    laid = lay_boards(w, f, GRID)
    assert sum(laid.faces) == w
    assert laid.faces == laid.faces[::-1]
    if w >= f:
        assert all(f / 2 < one <= f for one in laid.faces)
