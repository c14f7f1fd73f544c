"""A small picture of the opening seen from the side: how far pieces stand out, and how far up."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from sheets.checks.finding import Figure, PictureStroke, PictureText
from sheets.checks.mechanics.fireside import block_of
from sheets.checks.wording import length
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall

_WIDEST, _LEAST_WIDTH, _HEIGHT, _EDGE = 90.0, 60.0, 70.0, 6.0


Limits = tuple[tuple[Fraction, Fraction], ...]
"""The border of what is allowed: projection against height above the opening, mm."""


def clearance_picture(wall: Wall, opening: Opening, parts: tuple[Part, ...], border: Limits) -> Figure:
    """Return the pieces above the opening in side view, with the border of what is allowed drawn as a stair
    or a slope.
    """
    over = [part for part in parts if _above(part, opening)]
    limits = tuple((float(x), float(z)) for x, z in border)
    reach = max([float(_projection(part, opening)) for part in over] + [x for x, _ in limits] + [100.0])
    rise = max(
        [float(_height(part, opening) + part.extent.size("z")) for part in over]
        + [z for _, z in limits]
        + [100.0]
    )
    scale = min((_WIDEST - 2 * _EDGE) / reach, (_HEIGHT - 2 * _EDGE - 8) / rise)

    width = max(_LEAST_WIDTH, reach * scale + 2 * _EDGE)

    def at(out: float, up: float) -> tuple[float, float]:
        return (_EDGE + out * scale, _EDGE + up * scale)

    strokes = [
        PictureStroke((at(0, 0), at(0, rise)), "edge"),
        PictureStroke((at(0, 0), at(reach, 0)), "centre"),
    ]
    strokes += [PictureStroke(_side(part, opening, at), "outline") for part in over]
    if limits:
        strokes.append(PictureStroke(tuple(at(x, z) for x, z in limits), "hidden"))
    texts = [PictureText((width / 2, 1.5), "TOP OF OPENING")]
    if over:
        lowest = min(over, key=lambda part: (part.extent.z0, part.key))
        texts.append(
            PictureText((width / 2, _HEIGHT - 4), f"LOWEST PIECE {length(wall, _height(lowest, opening))} UP")
        )
    return Figure("Clearance above the opening, from the side", width, _HEIGHT, tuple(strokes), tuple(texts))


def _above(part: Part, opening: Opening) -> bool:
    hole = opening.extent
    return part.extent.x0 < hole.x1 and part.extent.x1 > hole.x0 and part.extent.z0 >= hole.z1


def _side(
    part: Part, opening: Opening, at: Callable[[float, float], tuple[float, float]]
) -> tuple[tuple[float, float], ...]:
    back = float(max(part.extent.y0 - opening.extent.y1, Fraction(0)))
    front = float(_projection(part, opening))
    low = float(_height(part, opening))
    high = low + float(part.extent.size("z"))
    return (at(back, low), at(front, low), at(front, high), at(back, high), at(back, low))


def _projection(part: Part, opening: Opening) -> Fraction:
    return block_of(part.extent, opening).projection


def _height(part: Part, opening: Opening) -> Fraction:
    return part.extent.z0 - opening.extent.z1
