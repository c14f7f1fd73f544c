"""The wall cut level and looked down on."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from sheets.model.part import Extent, Part
from sheets.model.wall import Component, Cut, Wall
from sheets.views.frames import around, as_floats, box_of, frame_of_cut, meet, onto_view
from sheets.views.room_outline import plan_outline
from sheets.views.scene import look_at, outline_traces
from sheets.views.silhouettes import shadow
from sheets.views.view import ExactBox, Frame, Seen, Trace, View

_PAST = Fraction(100)  # mm of floor shown in front of what projects most
_BESIDE = Fraction(120)  # mm shown round the component that a plan is about


def plan(wall: Wall, cut: Cut, view_id: str) -> View:
    """Return the plan: cut faces, what stands below lighter, what hangs above the cut as overhead lines.

    A plan that a component asks for shows that component and a little of what stands beside it.
    """
    frame = frame_of_cut("z", cut.at, cut.toward)
    things = [part for part in wall.parts if part.maker != "room"]
    subject = next((one for one in wall.components if one.key == cut.owner and not one.kind.given), None)
    whole = _window(wall, things, subject, frame)
    above = [part for part in things if _is_above(part, frame) and part.maker == "shop"]
    room = any(part.maker == "room" for part in wall.parts)
    outline = () if room or frame.v_sign > 0 else plan_outline(wall.room, float(depth_of(things)))
    # Of the room only what is cut: the floor has no edge that belongs on the plan.
    shown = [part for part in wall.parts if part.maker != "room" or part.extent.z0 < cut.at < part.extent.z1]
    scene = look_at(shown, frame, whole, extra=(*outline, *_overhead(above, frame)))
    return View(
        view_id,
        "plan",
        cut.title or "PLAN",
        subject.key if subject else "",
        frame,
        whole,
        scene.lines,
        scene.cuts,
        scene.textures,
        (*scene.seen, *_seen_overhead(above, frame, whole)),
    )


def _window(wall: Wall, things: list[Part], subject: Component | None, frame: Frame) -> ExactBox:
    half = wall.room.width / 2
    room = [part.extent for part in wall.parts if part.maker == "room"]
    back = min([Fraction(0), *(e.y0 for e in room)])
    if subject is not None:
        e = subject.extent
        return box_of(Extent(e.x0 - _BESIDE, e.x1 + _BESIDE, back, e.y1 + _BESIDE, e.z0, e.z1), frame)
    # The bodies of the room run on past the border: they end there in a break, not in an edge.
    ends = Extent(
        min([-half, *(e.x0 for e in room)]), max([half, *(e.x1 for e in room)]),
        back, depth_of(things), Fraction(0), Fraction(0),
    )  # fmt: skip
    return around([box_of(ends, frame), *(box_of(part.extent, frame) for part in things)])


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


def _seen_overhead(above: list[Part], frame: Frame, window: ExactBox) -> tuple[Seen, ...]:
    # Only the pieces at the border of their assembly: of the others the outline shows no face.
    found: list[Seen] = []
    for key in sorted({part.assembly for part in above}):
        boxes = [(part, box_of(part.extent, frame)) for part in above if part.assembly == key]
        rim = around([one for _, one in boxes])
        for part, one in boxes:
            shown = meet(one, window)
            if shown is not None and _on_rim(one, rim):
                u0, v0, u1, v1 = as_floats(shown)
                found.append(Seen(part.key, "overhead", shown, ((u0 + u1) / 2, (v0 + v1) / 2)))
    return tuple(found)


def _on_rim(one: ExactBox, rim: ExactBox) -> bool:
    return one.u0 == rim.u0 or one.u1 == rim.u1 or one.v0 == rim.v0 or one.v1 == rim.v1
