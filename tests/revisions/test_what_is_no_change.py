"""What changes on paper and is no change of what is built: a line broken for a label that moved, the room
drawn further, the ends of what is drawn of it. Places in mm, worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.base.notation import Run
from sheets.drawing.items import Item, Stroke, Text, Viewport
from sheets.geometry.box import Box
from sheets.geometry.path import Line
from sheets.revisions.marking.difference import changed_lines, view_difference

TALL, WIDE = 100.0, 60.0  # of the view, paper mm


def joint(x: float, *gaps: tuple[float, float], tall: float = 80.0) -> list[Item]:
    """An upright joint between boards from the foot of the view, left out over the gaps, paper mm."""
    ends = [0.0, *(end for gap in gaps for end in gap), tall]
    return [
        Stroke((Line((x, a), (x, b)),), "fine", "cases/hall/left/board-1")
        for a, b in zip(ends[::2], ends[1::2], strict=True)
    ]


def label(x: float, y: float) -> Text:
    """A letter 2.5 mm high, its middle at a place."""
    return Text((Run("A"),), (x, y), 2.5, "centre", "middle")


def view(
    *items: Item, wide: float = WIDE, scale: Fraction = Fraction(1, 10), name: str = "elevation"
) -> Viewport:
    drawn = Box(0.0, 0.0, wide, TALL)
    return Viewport(name, "1", "E", scale, "", (0.0, 0.0), drawn, drawn, items)


def box_of_change(before: Viewport, after: Viewport) -> list[Box]:
    removed, added = changed_lines(before, after)
    return [piece.segment.bounds for piece in (*removed, *added)]


def test_a_joint_broken_for_a_label_elsewhere_is_the_same_joint() -> None:
    was = view(*joint(20.0, (28.0, 32.0)), label(20.0, 30.0))
    now = view(*joint(20.0, (48.0, 52.0)), label(20.0, 50.0))
    assert box_of_change(was, now) == []
    assert box_of_change(now, was) == []
    assert box_of_change(was, view(*joint(20.0))) == []


def test_nor_is_one_that_a_label_at_its_end_cuts_short() -> None:
    cut = view(*joint(20.0, tall=77.6), label(20.0, 79.4))
    assert box_of_change(view(*joint(20.0)), cut) == []


def test_a_joint_that_is_gone_where_no_label_stands_is_told() -> None:
    # From 28 to 52 mm there is no joint; about 48 to 52 of that lies under the label.
    was, now = view(*joint(20.0)), view(*joint(20.0, (28.0, 52.0)), label(20.0, 50.0))
    (told,) = box_of_change(was, now)
    assert told[:3] == pytest.approx((200.0, 280.0, 200.0))
    assert 460.0 < told[3] < 485.0


def test_a_joint_that_went_is_told_whatever_stands_there_now() -> None:
    was, now = view(*joint(20.0)), view(*joint(30.0), label(20.0, 40.0))
    assert {round(box[0]) for box in box_of_change(was, now)} == {200, 300}


def test_an_edge_is_compared_as_it_is_drawn() -> None:
    """Only fine lines break for lettering: a cut edge that is not drawn under a label is not there."""
    edge = Stroke((Line((20.0, 0.0), (20.0, 80.0)),), "edge", "cases/hall/left/side")
    was, now = view(edge), view(label(20.0, 40.0))
    assert box_of_change(was, now) == [pytest.approx((200.0, 0.0, 200.0, 800.0))]


def floor(wide: float, low: float = 10.0, key: str = "room/floor") -> list[Item]:
    """A floor from the left border to the right one, with its end there, paper mm."""
    return [
        Stroke((Line((0.0, low), (wide, low)),), "cut", key),
        Stroke((Line((wide, low), (wide, low - 2.0)),), "cut", key),
    ]


def test_the_room_drawn_further_is_no_change() -> None:
    was, now = (view(*floor(wide), wide=wide, name="section/cases/hall") for wide in (60.0, 65.0))
    assert box_of_change(was, now) == []
    assert box_of_change(now, was) == []


def test_a_ceiling_that_ends_the_elevation_is_a_change_when_it_is_lower() -> None:
    """The border of an elevation is its ceiling: here 100 mm on paper and then 98."""
    ceilings = [
        replace(
            view(Stroke((Line((0.0, tall), (WIDE, tall)),), "cut", "room")),
            drawn=Box(0.0, 0.0, WIDE, tall),
        )
        for tall in (100.0, 98.0)
    ]
    removed, added = changed_lines(*ceilings)
    assert [piece.segment.bounds[1] for piece in added] == [980.0]
    assert removed == (), "what lies beyond the border now is nowhere to be marked"


def test_a_piece_drawn_further_and_a_floor_that_is_lower_are_changes() -> None:
    longer = [view(*floor(wide, key="cases/hall/left/shelf-1"), wide=wide) for wide in (60.0, 65.0)]
    assert box_of_change(*longer)
    lower = [view(*floor(60.0, low)) for low in (10.0, 12.0)]
    assert box_of_change(*lower)


def test_a_scale_between_the_two_changes_nothing_of_this() -> None:
    was = view(*joint(20.0, (28.0, 32.0)), label(20.0, 30.0))
    half = [s for s in joint(10.0, (23.0, 27.0), tall=40.0)]
    now = view(*half, label(10.0, 25.0), scale=Fraction(1, 20))
    assert box_of_change(was, now) == []


def test_a_label_that_only_moved_is_not_clouded() -> None:
    was, now = (view(*joint(20.0, (y - 2, y + 2)), label(20.0, y)) for y in (30.0, 50.0))
    found = view_difference(was, now)
    assert (found.changed, found.gone) == ((), ())
