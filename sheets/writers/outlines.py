"""Outlines of single glyphs, as lines and cubic curves: how a stacked fraction's digits are drawn."""

from __future__ import annotations

from functools import lru_cache

from fontTools.pens.recordingPen import DecomposingRecordingPen  # type: ignore[import-untyped]
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from sheets.drawing.items import Weight
from sheets.drawing.lettering import font_path
from sheets.geometry.path import Point

Command = tuple[str, tuple[Point, ...]]
"""("move", (p,)), ("line", (p,)), ("curve", (c1, c2, p)) or ("close", ())."""


@lru_cache(maxsize=256)
def outline(character: str, weight: Weight) -> tuple[Command, ...]:
    """Return a character's outline at size 1, from the left end of its baseline; filled by winding number."""
    font = _font(weight)
    glyphs, name = font.getGlyphSet(), font.getBestCmap()[ord(character)]
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    commands: list[Command] = []
    here = (0.0, 0.0)
    for verb, points in pen.value:
        if verb == "closePath":
            commands.append(("close", ()))
        elif verb == "qCurveTo":
            for control, end in _quadratics([_unit(p) for p in points]):
                commands.append(("curve", (_toward(here, control), _toward(end, control), end)))
                here = end
        else:
            here = _unit(points[0])
            commands.append(("move" if verb == "moveTo" else "line", (here,)))
    return tuple(commands)


def _quadratics(points: list[Point]) -> list[tuple[Point, Point]]:
    # A run of off-curve points has on-curve ones implied half way between (TrueType).
    pairs: list[tuple[Point, Point]] = []
    *controls, last = points
    for k, control in enumerate(controls):
        if k + 1 < len(controls):
            after = controls[k + 1]
            pairs.append((control, ((control[0] + after[0]) / 2, (control[1] + after[1]) / 2)))
        else:
            pairs.append((control, last))
    return pairs


def _toward(end: Point, control: Point) -> Point:
    # Raising a quadratic to a cubic: its controls lie two thirds of the way.
    return (end[0] + (control[0] - end[0]) * 2 / 3, end[1] + (control[1] - end[1]) * 2 / 3)


def _unit(point: Point) -> Point:
    return (point[0] / 1000, point[1] / 1000)


@lru_cache(maxsize=2)
def _font(weight: Weight) -> TTFont:
    return TTFont(font_path(weight), lazy=True)
