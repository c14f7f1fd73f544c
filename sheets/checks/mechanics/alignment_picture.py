"""A small elevation of the wall with the lines that almost meet drawn across it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from sheets.checks.finding import Figure, PictureStroke, PictureText
from sheets.model.part import Axis
from sheets.model.wall import Component, Wall

Placing = Callable[[float, float], tuple[float, float]]
_WIDTH, _EDGE, _FOOT = 110.0, 4.0, 8.0
_TALLEST = 70.0  # of the wall as drawn: a narrow one leaves the sheet to the findings


def alignment_picture(wall: Wall, near: tuple[tuple[Axis, Fraction, Fraction], ...]) -> Figure:
    """Return the boxes of the components in elevation, and each pair of near lines from side to side or floor
    to top.
    """
    width, height = float(wall.room.width), float(wall.room.height)
    scale = min((_WIDTH - 2 * _EDGE) / width, _TALLEST / height)

    def at(x: float, z: float) -> tuple[float, float]:
        return (_WIDTH / 2 + x * scale, _FOOT + z * scale)

    strokes = [
        PictureStroke(_ring(at, -width / 2, width / 2, 0.0, height), "edge"),
        PictureStroke((at(0, 0), at(0, height)), "centre"),
    ]
    owners = {part.assembly for part in wall.parts if part.does.lines}
    for component in wall.components:
        if component.key in owners and component.kind.arrives != "by the length":
            strokes.append(PictureStroke(_box(at, component), "outline"))
    for axis, one, other in near:
        for value in (float(one), float(other)):
            ends = (
                (at(-width / 2, value), at(width / 2, value))
                if axis == "z"
                else (at(value, 0), at(value, height))
            )
            strokes.append(PictureStroke(ends, "hidden"))
    said = (
        f"{len(near)} PAIR{'' if len(near) == 1 else 'S'} OF LINES ALMOST MEET"
        if near
        else "NO LINES ALMOST MEET"
    )
    full = _FOOT + height * scale + _EDGE
    return Figure("Alignments", _WIDTH, full, tuple(strokes), (PictureText((_WIDTH / 2, 2.0), said),))


def _box(at: Placing, component: Component) -> tuple[tuple[float, float], ...]:
    box = component.extent
    return _ring(at, float(box.x0), float(box.x1), float(box.z0), float(box.z1))


def _ring(at: Placing, x0: float, x1: float, z0: float, z1: float) -> tuple[tuple[float, float], ...]:
    return (at(x0, z0), at(x1, z0), at(x1, z1), at(x0, z1), at(x0, z0))
