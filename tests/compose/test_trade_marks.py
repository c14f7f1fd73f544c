"""How marks look and what they are called, so that nobody takes one for another."""

from __future__ import annotations

import pytest

from sheets.compose.placing import mark_symbols as marks
from sheets.geometry.box import Box
from sheets.geometry.path import Arc
from sheets.resolve.baseboard import BASEBOARD
from sheets.resolve.case import CASE
from sheets.resolve.mantel import MANTEL
from sheets.resolve.overmantel import OVERMANTEL


def test_the_place_of_a_detail_is_a_box_with_cut_corners() -> None:
    stroke = marks.detail_outline(Box(10.0, 20.0, 50.0, 40.0), "detail/cap")
    assert (stroke.pen, stroke.closed, stroke.key) == ("detail place", True, "detail/cap")
    assert not any(isinstance(piece, Arc) for piece in stroke.path)
    assert len(stroke.path) == 8
    points = [piece.first for piece in stroke.path]
    assert (min(x for x, _ in points), max(x for x, _ in points)) == (10.0, 50.0)
    assert (min(y for _, y in points), max(y for _, y in points)) == (20.0, 40.0)
    # It closes: each piece begins where the last one ended.
    assert [piece.last for piece in stroke.path] == [*points[1:], points[0]]


@pytest.mark.parametrize("side", [0.3, 1.0, 3.0, 7.0])
def test_a_small_place_keeps_a_side_of_its_box(side: float) -> None:
    assert 0 < marks.corner_of(Box(0.0, 0.0, side, 40.0)) <= side / 3


def test_no_mark_begins_as_the_trade_marks_cabinets() -> None:
    """B is a base cabinet everywhere, W a wall cabinet (common practice); trim has T."""
    letters = [kind.letter for kind in (CASE, MANTEL, OVERMANTEL, BASEBOARD)]
    assert BASEBOARD.letter == "T"
    assert not {"B", "W"} & set(letters)
    assert len(set(letters)) == len(letters)
