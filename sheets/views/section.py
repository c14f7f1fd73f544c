"""The wall cut upright from floor to ceiling and looked at along it."""

from __future__ import annotations

from fractions import Fraction

from sheets.model.part import Extent
from sheets.model.wall import Cut, Wall
from sheets.views.frames import around, box_of, frame_of_cut
from sheets.views.plan import depth_of
from sheets.views.room_outline import ceiling_at, section_outline
from sheets.views.scene import look_at
from sheets.views.view import View

_OVER = Fraction(25)  # mm of what covers the ceiling that is shown above its face


def section(wall: Wall, cut: Cut, view_id: str, also: tuple[str, ...] = ()) -> View:
    """Return the section: what is cut, what is beyond it lighter, and the room's floor, wall and ceiling."""
    frame = frame_of_cut("x", cut.at, cut.toward)
    things = [part for part in wall.parts if part.maker != "room"]
    room = [part.extent for part in wall.parts if part.maker == "room"]
    depth = depth_of(things)
    top = Fraction(round(ceiling_at(wall.room, cut.at) * 1000), 1000)
    # The bodies of the room run on past the border: they end there in a break, not in an edge.
    ends = Extent(
        Fraction(0), Fraction(0), min([Fraction(0), *(e.y0 for e in room)]), depth,
        min([Fraction(0), *(e.z0 for e in room)]), top + (_OVER if room else 0),
    )  # fmt: skip
    shown = [box_of(part.extent, frame) for part in things if _is_kept(part.extent.span("x"), cut)]
    whole = around([box_of(ends, frame), *shown])
    extra = () if room else section_outline(wall.room, cut.at, float(depth), frame.u_sign)
    scene = look_at(wall.parts, frame, whole, extra=extra)
    return View(
        view_id,
        "section",
        cut.title,
        cut.owner,
        frame,
        whole,
        scene.lines,
        scene.cuts,
        scene.textures,
        scene.seen,
        also=also,
    )


def _is_kept(span: tuple[Fraction, Fraction], cut: Cut) -> bool:
    return span[0] < cut.at if cut.toward > 0 else span[1] > cut.at
