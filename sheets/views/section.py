"""The wall cut upright from floor to ceiling and looked at along it."""

from __future__ import annotations

from fractions import Fraction

from sheets.model.wall import Cut, Wall
from sheets.views.frames import around, box_of, frame_of_cut
from sheets.views.plan import depth_of
from sheets.views.room_outline import ceiling_at, section_outline
from sheets.views.scene import look_at
from sheets.views.view import Box, View


def section(wall: Wall, cut: Cut, view_id: str, also: tuple[str, ...] = ()) -> View:
    """Return the section: what is cut, what is beyond it lighter, and the room's floor, wall and ceiling."""
    frame = frame_of_cut("x", cut.at, cut.toward)
    parts = [part for part in wall.parts if part.maker != "room"]
    depth = depth_of(parts)
    u0, u1 = sorted((Fraction(0), frame.u_sign * depth))
    top = Fraction(round(ceiling_at(wall.room, cut.at) * 1000), 1000)
    whole = around(
        [
            Box(u0, u1, Fraction(0), top),
            *(box_of(p.extent, frame) for p in parts if _is_kept(p.extent.span("x"), cut)),
        ]
    )
    scene = look_at(parts, frame, whole, extra=section_outline(wall.room, cut.at, float(depth), frame.u_sign))
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
