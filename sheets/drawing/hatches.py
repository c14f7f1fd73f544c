"""Hatches: families of parallel lines in paper mm, our own drawing, and the lines of one over a box.

A hatch is read at the sheet's scale, so it is given on paper and does not grow with the view. Compose turns
a grain's hatch to the grain by the area's angle.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, cos, floor, fsum, radians, sin

from sheets.drawing.items import Area, Pen
from sheets.geometry.box import Box
from sheets.geometry.joining import difference
from sheets.geometry.path import Point
from sheets.geometry.region import Region, rectangle

MOST_LINES = 20000
"""More strokes than this to fill one box is a pitch gone wrong; the rest is left out."""


@dataclass(frozen=True, slots=True)
class Family:
    """Parallel lines, paper mm at pitch 1. angle: degrees; base: a point of the first; step: to each next
    line, square to it; shift: along it; dashes: strokes and gaps in turn, () if unbroken.
    """

    angle: float
    step: float
    base: Point = (0.0, 0.0)
    shift: float = 0.0
    dashes: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Hatch:
    """A pattern with its name in the trade, as the legend prints it."""

    says: str
    families: tuple[Family, ...]
    pen: Pen = "hatch"


# The trade has no one standard for these (DIN 919-1 has some of its own); each follows common practice in
# what it pictures: rays across the grain, plies, courses, stipple.
HATCHES: dict[str, Hatch] = {
    # End grain of solid wood: close strokes at 45 degrees, uneven, as checks across rings.
    "wood end": Hatch("SOLID WOOD, END GRAIN", (
        Family(45.0, 2.2),
        Family(45.0, 2.2, (0.0, 0.75), 1.9, (3.4, 1.6, 1.2, 2.4)),
    )),
    # Long grain: lines along the grain that stop and start.
    "wood long": Hatch("SOLID WOOD, LONG GRAIN", (
        Family(0.0, 2.4, (0.0, 0.5), 5.0, (11.0, 2.0, 4.0, 2.0)),
        Family(0.0, 2.4, (3.0, 1.6), 7.0, (7.0, 3.0, 2.5, 6.0)),
    )),
    # Plies along the sheet, every other one struck across.
    "panel": Hatch("PANEL PRODUCT, PLIES", (
        Family(0.0, 0.8),
        Family(60.0, 0.8, (0.0, 0.0), 0.46, (0.46, 0.92)),
    )),
    "fibreboard": Hatch("FIBREBOARD", (
        Family(0.0, 1.2, (0.0, 0.4), 0.55, (0.3, 0.8)),
        Family(45.0, 1.7, (0.3, 0.9), 0.8, (0.35, 1.9)),
    )),
    "masonry": Hatch("MASONRY", (Family(45.0, 2.0),)),
    "brick": Hatch("BRICK", (Family(45.0, 1.1),)),
    "concrete": Hatch("CONCRETE", (
        Family(45.0, 3.1, (0.0, 0.0), 1.3, (0.3, 2.0)),
        Family(20.0, 4.3, (1.0, 0.7), 2.1, (0.9, 4.1)),
        Family(140.0, 4.7, (2.0, 1.1), 1.7, (0.8, 4.9)),
    )),
    "stone": Hatch("STONE", (
        Family(45.0, 2.6, (0.0, 0.0), 2.0, (4.0, 1.4)),
        Family(45.0, 2.6, (0.5, 0.0), 2.0, (4.0, 1.4)),
        Family(135.0, 5.2, (0.0, 0.0), 1.1, (1.0, 4.4)),
    )),
    "gypsum": Hatch("GYPSUM BOARD", (
        Family(0.0, 1.1, (0.0, 0.35), 0.7, (0.3, 1.4)),
        Family(0.0, 2.2, (0.5, 0.9), 1.1, (0.3, 2.6)),
    )),
    "other": Hatch("OTHER MATERIAL", (Family(135.0, 2.0),)),
    # Light pictures of a face seen square on.
    "brick face": Hatch("BRICK, IN FACE", (
        Family(0.0, 2.4),
        Family(90.0, 3.6, (0.0, 0.0), 2.4, (2.4, 2.4)),
    ), "texture"),
    "stone face": Hatch("STONE, IN FACE", (
        Family(25.0, 7.0, (0.0, 0.0), 4.0, (3.5, 9.0, 1.5, 7.0)),
        Family(155.0, 9.0, (2.0, 1.0), 3.0, (2.0, 11.0)),
    ), "texture"),
    "wood face": Hatch("WOOD GRAIN, IN FACE", (
        Family(0.0, 3.2, (0.0, 0.8), 9.0, (8.0, 14.0, 3.0, 11.0)),
        Family(0.0, 5.1, (5.0, 2.0), 7.0, (5.0, 19.0)),
    ), "texture"),
    "tile face": Hatch("TILE, IN FACE", (Family(0.0, 5.0), Family(90.0, 5.0)), "texture"),
}


def lines_over(
    name: str, box: Box, *, angle: float = 0.0, pitch: float = 1.0, origin: Point = (0.0, 0.0)
) -> Iterator[tuple[Point, Point]]:
    """Yield the strokes of a hatch in a box, paper mm, turned and spaced as an Area says.

    Raises KeyError for a name that is no hatch.
    """
    budget = MOST_LINES
    for family in HATCHES[name].families:
        for stroke in _family_over(family, box, angle, pitch, origin):
            if budget == 0:
                return
            budget -= 1
            yield stroke


def clear_of_gaps(area: Area) -> tuple[Region, ...]:
    """Return an area's regions less the boxes that it leaves clear for text."""
    gaps = [gap for gap in area.gaps if any(r.bounds.overlaps(gap) for r in area.regions)]
    return difference(area.regions, (rectangle(*gap) for gap in gaps)) if gaps else area.regions


def turned_family(
    family: Family, angle: float, pitch: float, origin: Point
) -> tuple[float, Point, Point, tuple[float, ...]]:
    """Return a family as an area uses it: angle in degrees, base point, offset to the next line, dashes with
    gaps negative; paper mm, in the sheet's axes."""
    turn = radians(angle)
    bx, by = family.base[0] * pitch, family.base[1] * pitch
    base = (origin[0] + bx * cos(turn) - by * sin(turn), origin[1] + bx * sin(turn) + by * cos(turn))
    line = radians(family.angle + angle)
    along, across = family.shift * pitch, family.step * pitch
    offset = (along * cos(line) - across * sin(line), along * sin(line) + across * cos(line))
    dashes = tuple(d * pitch if k % 2 == 0 else -d * pitch for k, d in enumerate(family.dashes))
    return family.angle + angle, base, offset, dashes


def _family_over(
    family: Family, box: Box, angle: float, pitch: float, origin: Point
) -> Iterator[tuple[Point, Point]]:
    degrees, base, _, dashes = turned_family(family, angle, pitch, origin)
    c, s = cos(radians(degrees)), sin(radians(degrees))
    corners = [(x - base[0], y - base[1]) for x in (box[0], box[2]) for y in (box[1], box[3])]
    us = [x * c + y * s for x, y in corners]
    vs = [-x * s + y * c for x, y in corners]
    step, shift = family.step * pitch, family.shift * pitch
    for k in range(ceil(min(vs) / step - 1e-9), floor(max(vs) / step + 1e-9) + 1):
        v = k * step
        x, y = base[0] - v * s, base[1] + v * c
        reach = _within((x, y), (c, s), box, min(us), max(us))
        for u0, u1 in _dashed(*reach, k * shift, dashes) if reach else ():
            yield (x + u0 * c, y + u0 * s), (x + u1 * c, y + u1 * s)


def _dashed(
    low: float, high: float, start: float, dashes: tuple[float, ...]
) -> Iterator[tuple[float, float]]:
    # The strokes of one line between low and high, the dash series beginning at start.
    if not dashes:
        yield low, high
        return
    period = fsum(abs(d) for d in dashes)
    at = start + floor((low - start) / period) * period
    while at < high:
        for dash in dashes:
            if dash > 0 and at + dash > low and at < high:
                yield max(at, low), min(at + dash, high)
            at += abs(dash)


def _within(at: Point, way: Point, box: Box, low: float, high: float) -> tuple[float, float] | None:
    # The part of a line, by distance from a point of it, that lies in a box.
    for start, rate, least, most in ((at[0], way[0], box[0], box[2]), (at[1], way[1], box[1], box[3])):
        if abs(rate) < 1e-12:
            if not least <= start <= most:
                return None
            continue
        enter, leave = sorted(((least - start) / rate, (most - start) / rate))
        low, high = max(low, enter), min(high, leave)
    return (low, high) if low < high else None
