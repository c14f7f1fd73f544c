"""The room as the wall meets it: floor, side walls, wall face and ceiling, as lines."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from math import sqrt

from sheets.geometry.path import Arc, Line, Point, Segment, arc_through, radius_from_chord_rise
from sheets.model.part import Part
from sheets.model.wall import Room
from sheets.views.view import Trace

ROOM = "room"


def has_room(parts: Iterable[Part]) -> bool:
    """Return whether floor and walls are there as bodies: then they are cut as such, not drawn as lines."""
    return any(part.maker == "room" for part in parts)


def elevation_outline(room: Room) -> tuple[Trace, ...]:
    """Return floor, side walls and ceiling, flat or vaulted, as seen from the room (u = x, v = z)."""
    half, top = float(room.width / 2), float(room.height)
    spring = float(room.spring) if room.spring is not None else top
    runs: list[Segment] = [
        Line((-half, 0.0), (half, 0.0)),
        Line((-half, 0.0), (-half, spring)),
        Line((half, 0.0), (half, spring)),
        ceiling_curve(room) or Line((-half, top), (half, top)),
    ]
    return _cut(runs)


def ceiling_curve(room: Room) -> Arc | None:
    """Return the vault's arc from the left spring to the right one in (x, z); None for a flat ceiling."""
    if room.spring is None or room.rise <= 0:
        return None
    half, spring = float(room.width / 2), float(room.spring)
    return arc_through((-half, spring), (half, spring), float(room.rise))


def ceiling_at(room: Room, x: Fraction) -> float:
    """Return the height of the ceiling over a place along the wall, mm."""
    if room.spring is None or room.rise <= 0:
        return float(room.height)
    radius = radius_from_chord_rise(float(room.width), float(room.rise))
    return float(room.height) - radius + sqrt(max(0.0, radius * radius - float(x) ** 2))


def plan_outline(room: Room, depth: float) -> tuple[Trace, ...]:
    """Return the wall face and the side walls out to a depth, as looked down on (u = x, v = -y)."""
    half = float(room.width / 2)
    return _cut(
        [
            Line((-half, 0.0), (half, 0.0)),
            Line((-half, 0.0), (-half, -depth)),
            Line((half, 0.0), (half, -depth)),
        ]
    )


def section_outline(room: Room, x: Fraction, depth: float, u_sign: int) -> tuple[Trace, ...]:
    """Return floor, wall face and ceiling as cut at a place along the wall (u = ±y, v = z)."""
    top = ceiling_at(room, x)
    corners: list[Point] = [(u_sign * depth, 0.0), (0.0, 0.0), (0.0, top), (u_sign * depth, top)]
    return _cut([Line(a, b) for a, b in pairwise(corners)])


def _cut(runs: list[Segment]) -> tuple[Trace, ...]:
    return tuple(Trace((run,), "cut", ROOM) for run in runs)
