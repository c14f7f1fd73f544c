"""A piece by itself: the face that its joints are cut in, seen square on as it stands in the wall."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from math import fsum

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.cutting import section
from sheets.geometry.solid import Solid, mirrored_x
from sheets.model.marks import is_block, shape
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.frames import box_of, frame_of_cut
from sheets.views.scene import look_at
from sheets.views.view import View

_PLACED = ("dado", "rabbet", "notch")
"""Joints that stand at places of their own in the piece. What runs along the whole of it, as a groove or a
tongue, a mitre, a bevel or a saw cut round an edge, is told by the detail that cuts it and by the schedule;
a curve has its pattern."""
_SKIN = Fraction(1, 10)  # mm under the face where it is looked for what is cut into it


def drawn_parts(wall: Wall) -> tuple[tuple[Part, ...], ...]:
    """Return the pieces that are drawn by themselves, those of one cut together, the drawn one first."""
    found: dict[tuple[object, ...], list[Part]] = {}
    for part in wall.parts:
        placed = any(joint.kind in _PLACED for joint in part.joints)
        if part.maker == "shop" and placed and not is_block(part.solid):
            found.setdefault(_cut_as(part), []).append(part)
    return tuple(tuple(alike) for alike in found.values())


def _cut_as(part: Part) -> tuple[object, ...]:
    # A piece and the one that mirrors it are cut from one drawing.
    return part.name, part.material.key, min(_shape(part.solid, part), _shape(mirrored_x(part.solid), part))


def is_mirrored(part: Part, drawn: Part) -> bool:
    """Return whether a piece of the same cut is made to the mirror image of the one that is drawn."""
    return _shape(part.solid, part) != _shape(drawn.solid, drawn)


def _shape(solid: Solid, part: Part) -> tuple[object, ...]:
    return shape(solid, part.thickness_axis, part.width_axis)


def part_view(alike: tuple[Part, ...]) -> View:
    """Return the view of the first of some pieces that are cut alike; the others are its subjects."""
    part = alike[0]
    frame = replace(
        frame_of_cut(part.thickness_axis, Fraction(0), _cut_side(part)), cut_axis=None, cut_at=None
    )
    window = box_of(part.extent, frame)
    scene = look_at((part,), frame, window, wants_hidden=lambda *_: True)
    return View(
        f"part/{part.key}",
        "part",
        part.name.upper(),
        part.assembly,
        frame,
        window,
        scene.lines,
        textures=scene.textures,
        seen=scene.seen,
        subjects=tuple(one.key for one in alike),
    )


def part_views(wall: Wall) -> Iterable[View]:
    """Return the views of all pieces that are drawn by themselves, in the wall's order."""
    return (part_view(alike) for alike in drawn_parts(wall))


def is_cut_in_both(part: Part) -> bool:
    """Return whether both faces of a piece have joints that do not go through it."""
    low, high = part.extent.span(part.thickness_axis)
    whole = _left(part, (low + high) / 2)
    return max(_left(part, low + _SKIN), _left(part, high - _SKIN)) < whole - SAME_POINT


def _cut_side(part: Part) -> int:
    """The side, 1 or -1, whose face has less wood left: the joints are cut in there."""
    low, high = part.extent.span(part.thickness_axis)
    return 1 if _left(part, high - _SKIN) <= _left(part, low + _SKIN) else -1


def _left(part: Part, at: Fraction) -> float:
    """Area in mm² of what is left of a piece at a depth of its thickness."""
    return fsum(region.area for region in section(part.solid, part.thickness_axis, float(at), 1))
