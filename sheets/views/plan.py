"""The wall cut level and looked down on."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from sheets.model.part import Extent, Part
from sheets.model.wall import Cut, Wall
from sheets.views.frames import around, box_of, frame_of_cut, onto_view
from sheets.views.room_outline import plan_outline
from sheets.views.scene import look_at, outline_traces
from sheets.views.silhouettes import shadow
from sheets.views.view import Frame, Trace, View

_PAST = Fraction(100)  # mm of floor shown in front of what projects most


def plan(wall: Wall, cut: Cut, view_id: str) -> View:
    """Return the plan: cut faces, what stands below lighter, what hangs above the cut as overhead lines."""
    frame = frame_of_cut("z", cut.at, cut.toward)
    things = [part for part in wall.parts if part.maker != "room"]
    depth = depth_of(things)
    half = wall.room.width / 2
    room = [part.extent for part in wall.parts if part.maker == "room"]
    # The bodies of the room run on past the border: they end there in a break, not in an edge.
    ends = Extent(
        min([-half, *(e.x0 for e in room)]), max([half, *(e.x1 for e in room)]),
        min([Fraction(0), *(e.y0 for e in room)]), depth, Fraction(0), Fraction(0),
    )  # fmt: skip
    whole = around([box_of(ends, frame), *(box_of(part.extent, frame) for part in things)])
    above = [part for part in things if _is_above(part, frame) and part.maker == "shop"]
    outline = () if room or frame.v_sign > 0 else plan_outline(wall.room, float(depth))
    # Of the room only what is cut: the floor has no edge that belongs on the plan.
    shown = [part for part in wall.parts if part.maker != "room" or part.extent.z0 < cut.at < part.extent.z1]
    scene = look_at(shown, frame, whole, extra=(*outline, *_overhead(above, frame)))
    return View(
        view_id,
        "plan",
        cut.title or "PLAN",
        "",
        frame,
        whole,
        scene.lines,
        scene.cuts,
        scene.textures,
        scene.seen,
    )


def depth_of(parts: Iterable[Part]) -> Fraction:
    """Return how far out of the wall a view has to reach to show all parts and some floor before them, mm."""
    return max((part.extent.y1 for part in parts), default=Fraction(0)) + _PAST


def _is_above(part: Part, frame: Frame) -> bool:
    at = frame.cut_at
    if at is None:
        return False
    return part.extent.z0 >= at if frame.toward > 0 else part.extent.z1 <= at


def _overhead(above: list[Part], frame: Frame) -> list[Trace]:
    # One outline for each assembly: what hangs there, not each of its boards.
    change = onto_view(frame)
    found: list[Trace] = []
    for key in sorted({part.assembly for part in above}):
        regions = shadow((part.solid for part in above if part.assembly == key), "z")
        found.extend(outline_traces((region.transformed(change) for region in regions), "overhead", key))
    return found
