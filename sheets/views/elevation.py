"""The whole wall as seen from the room."""

from __future__ import annotations

from fractions import Fraction

from sheets.geometry.sight import Sighted
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.frames import ELEVATION, around, box_of
from sheets.views.roles import lies_inside
from sheets.views.room_outline import elevation_outline
from sheets.views.scene import look_at
from sheets.views.view import ExactBox, View

_LONG_MM = 60.0  # longer than any shelf is thick


def elevation(wall: Wall) -> View:
    """Return the elevation: silhouettes and steps by their depth, joints fine, housed shelf ends dashed."""
    room = wall.room
    half = room.width / 2
    parts = [part for part in wall.parts if part.maker != "room"]
    whole = around(
        [ExactBox(-half, half, Fraction(0), room.height), *(box_of(part.extent, ELEVATION) for part in parts)]
    )
    scene = look_at(parts, ELEVATION, whole, extra=elevation_outline(room), wants_hidden=_is_housed)
    return View(
        "elevation",
        "elevation",
        "ELEVATION",
        "",
        ELEVATION,
        whole,
        scene.lines,
        scene.cuts,
        scene.textures,
        scene.seen,
    )


def _is_housed(part: Part, piece: Sighted, own: ExactBox) -> bool:
    # Shelves let into the sides, and the sides they are let into: both behind the stiles. The long grooves of
    # the sides are left to the plan.
    if not (part.does.bears or "end" in part.does.bounds) or not any(
        joint.kind == "dado" for joint in part.joints
    ):
        return False
    _, v0, _, v1 = piece.curve.bounds
    return part.does.bears is not None or not (lies_inside(piece, own) and v1 - v0 > _LONG_MM)
