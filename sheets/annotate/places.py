"""Where the faces of what a view shows lie, and which of them can be measured there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.annotate.intent import Side
from sheets.base.tolerance import SAME_POINT
from sheets.geometry.path import Arc
from sheets.model.part import Axis, Part
from sheets.model.wall import Wall
from sheets.views.frames import box_of
from sheets.views.view import ExactBox, Frame, Seen, View

Direction = Literal["u", "v"]


@dataclass(frozen=True, slots=True)
class Place:
    """A face that shows in a view: its view coordinate along `direction`, and the part it belongs to."""

    direction: Direction
    at: Fraction
    part: str
    how: Literal["cut", "visible", "hidden", "overhead"]


def places(view: View, by_key: dict[str, Part], direction: Direction) -> Iterator[Place]:
    """Yield the faces square to a direction that lie within the view.

    Of what hangs overhead only those on the outline of its assembly, which is all that is drawn of it.
    """
    frame = view.frame
    if frame is None:
        return
    rims = _rims(view, by_key, frame, direction)
    for one in view.seen:
        part = by_key.get(one.part)
        if part is None:
            continue
        whole = span(box_of(part.extent, frame), direction)
        shown = span(one.box, direction)
        for at in dict.fromkeys(whole):
            drawn = one.how != "overhead" or at in rims[part.assembly]
            if drawn and shown[0] <= at <= shown[1]:
                yield Place(direction, at, one.part, one.how)


def _rims(
    view: View, by_key: Mapping[str, Part], frame: Frame, direction: Direction
) -> dict[str, tuple[Fraction, Fraction]]:
    found: dict[str, tuple[Fraction, Fraction]] = {}
    for one in view.seen:
        part = by_key.get(one.part) if one.how == "overhead" else None
        if part is not None:
            low, high = span(box_of(part.extent, frame), direction)
            a, b = found.get(part.assembly, (low, high))
            found[part.assembly] = (min(a, low), max(b, high))
    return found


def span(box: ExactBox, direction: str) -> tuple[Fraction, Fraction]:
    """Return the extent of a rectangle across ("u") or up ("v")."""
    return (box.u0, box.u1) if direction == "u" else (box.v0, box.v1)


def across(box: ExactBox, direction: str) -> tuple[Fraction, Fraction]:
    """Return the extent of a rectangle square to a direction."""
    return (box.v0, box.v1) if direction == "u" else (box.u0, box.u1)


def in_box(box: ExactBox, direction: str, at: Fraction) -> bool:
    """Return whether a coordinate lies in a rectangle, its border included."""
    low, high = span(box, direction)
    return low <= at <= high


def reach(box: ExactBox, side: Side) -> Fraction:
    """Return the border of a rectangle on one side."""
    return {"left": box.u0, "right": box.u1, "below": box.v0, "above": box.v1}[side]


def has_face(one: Seen, direction: str, at: Fraction) -> bool:
    """Return whether what is seen of a part ends at this coordinate."""
    return at in span(one.box, direction)


def foot(view: View, direction: str, at: Fraction, side: Side) -> Fraction:
    """Return where the extension line of a coordinate leaves the object, on the way to the given side.

    That is the face nearest to this side among the parts that have a face there; else the nearest line that
    is drawn there, as of an opening, if no part stands on the way; else the edge of the view.
    """
    crossing = [
        reach(one.box, side) for one in view.seen if one.how != "hidden" and has_face(one, direction, at)
    ]
    if not crossing:
        crossing = [reach(one.box, side) for one in view.seen if has_face(one, direction, at)]
    outermost = max if side in ("above", "right") else min
    if not crossing:
        # What lies beyond a cut is no obstacle to a line drawn on the cut.
        how = "cut" if view.cuts else "visible"
        on_the_way = [
            reach(one.box, side)
            for one in view.seen
            if one.how == how and in_box(one.box, direction, at)
        ]
        drawn = list(_drawn_at(view, direction, at))
        if drawn and outermost(drawn) == outermost([*drawn, *on_the_way]):
            crossing = drawn
    if not crossing:
        return reach(view.box, side)
    return outermost(crossing)


def _drawn_at(view: View, direction: str, at: Fraction) -> Iterator[Fraction]:
    # Across coordinates of the ends of the straight lines that are drawn along a coordinate.
    along, there = (0 if direction == "u" else 1), float(at)
    for trace in view.lines:
        for segment in trace.path if trace.role != "hidden" else ():
            ends = segment.first, segment.last
            if all(abs(end[along] - there) < SAME_POINT for end in ends):
                yield from (exact(end[1 - along]) for end in ends)


def direction_of(frame: Frame, axis: Axis) -> Direction | None:
    """Return whether a world axis runs across ("u") or up ("v") in a view; None for the line of sight."""
    if axis == frame.u_axis:
        return "u"
    return "v" if axis == frame.v_axis else None


def exact(value: float) -> Fraction:
    """Return the size that a float of geometry stands for.

    Sizes on any drawing's grid are whole 3200ths of a millimetre: 1/64 in is 1270 of them, 0.1 mm is 320.
    """
    return Fraction(round(value * 3200), 3200)


def corners(view: View, direction: str, part: str = "") -> frozenset[Fraction]:
    """Return the coordinates of the corners of what is cut in a view: of one part, or of all.

    Where a plane meets an arc is no size on any drawing's grid, and is left out: chord and rise say it.
    """
    k = 0 if direction == "u" else 1
    floats = {
        corner[k]
        for face in view.cuts
        if not part or face.part == part
        for region in face.regions
        for loop in region.loops
        for corner in loop.vertices
    }
    return frozenset(exact(value) for value in floats if abs(float(exact(value)) - value) < SAME_POINT)


def arc_ends(view: View, direction: Direction) -> frozenset[Fraction]:
    """Return the coordinates where the arcs that a view shows start and end."""
    k = 0 if direction == "u" else 1
    return frozenset(
        exact(end[k])
        for trace in view.lines
        if trace.role not in ("hidden", "overhead")
        for segment in trace.path
        if isinstance(segment, Arc)
        for end in (segment.first, segment.last)
    )


def nearer_side(view: View, direction: Direction, at: Fraction) -> Side:
    """Return the side of the view that a dimension of this cross coordinate is nearer to.

    Strings of widths go below and those of heights go right when it lies in the middle.
    """
    low, high = across(view.box, direction)
    if direction == "u":
        return "above" if at - low > high - at else "below"
    return "left" if high - at > at - low else "right"


def parts_by_key(wall: Wall) -> dict[str, Part]:
    """Return the parts of the wall by their keys."""
    return {part.key: part for part in wall.parts}
