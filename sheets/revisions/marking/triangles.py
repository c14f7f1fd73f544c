"""The triangle with a revision's number: its drawing, and where there is room for it beside a cloud. Paper
mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, sqrt

from sheets.base.notation import Run
from sheets.drawing.items import Area, Item, Stroke, Symbol, Text
from sheets.drawing.lettering import width
from sheets.drawing.walk import leaves
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, Point
from sheets.geometry.region import Region, contains, polygon

Size = tuple[float, float]
"""Of a triangle: its base and its height, mm."""

_LETTER = 2.5
_BESIDE = 0.3  # from what a triangle stands beside, mm
_RING, _RINGS = 3.0, 6  # mm between the places tried, and how many rings of them
_VIEW_TALL, _ROW_TALL = 6.06, 4.9  # a row of a table is 4.9 mm high at least
_VIEW_SQUEEZE, _ROW_SQUEEZE = 0.9, 0.75  # of a number of several letters; beside a table there is little room
_BROADEST = 2.0  # base over height: a longer number is pressed together
_LIFT = 0.08  # from the base to the number, over the height


def view_size(number: str) -> Size:
    """Return the size of a triangle in a view: equilateral, or broader for a number of many letters."""
    return _size(number, _VIEW_TALL, _VIEW_SQUEEZE)


def row_size(number: str) -> Size:
    """Return the size of a triangle beside a row of a table."""
    return _size(number, _ROW_TALL, _ROW_SQUEEZE)


def _size(number: str, tall: float, squeeze: float) -> Size:
    # The room for lettering is what the triangle is wide at the lettering's top.
    narrowing = 1 - _LIFT - _LETTER / tall
    base = width(number, _LETTER, "bold") * squeeze / narrowing
    return (round(min(max(base, 2 / sqrt(3) * tall), _BROADEST * tall), 2), tall)


def triangle(middle: Point, number: str, size: Size) -> Symbol:
    """Return the triangle, standing on its base, round a middle halfway up. White, so that what it lies on
    is clear."""
    x, y = middle
    wide, tall = size
    a, b, c = (x - wide / 2, y - tall / 2), (x + wide / 2, y - tall / 2), (x, y + tall / 2)
    base = y - tall / 2 + _LIFT * tall
    room = wide * (1 - _LIFT - _LETTER / tall)
    squeeze = max(0.75, min(1.0, room / width(number, _LETTER, "bold")))
    text = Text((Run(number),), (x, base), _LETTER, "centre", weight="bold", squeeze=squeeze, pen="revision")
    outline = Stroke((Line(a, b), Line(b, c), Line(c, a)), "revision", "triangle", True)
    fill = Area((polygon((a, b, c)),), fill=1.0)
    return Symbol("revision triangle", middle, (outline,), (fill,), (text,), {"revision": number})


def triangle_box(middle: Point, size: Size) -> Box:
    """Return the box of a triangle round its middle."""
    wide, tall = size
    return Box(middle[0] - wide / 2, middle[1] - tall / 2, middle[0] + wide / 2, middle[1] + tall / 2)


def place_beside(box: Box, ink: Ink, within: Box, size: Size) -> Point:
    """Return the middle of a triangle beside a box (a cloud's): clear of lettering, and of lines if it can
    be."""
    return best_spot(spots_beside(box, size), ink, within, size)


def spots_beside(box: Box, size: Size) -> list[Point]:
    """Return middles of triangles round a box, the nearest ring of them first."""
    x0, y0, x1, y1 = box
    x0, y0, x1, y1 = (x0 - size[0] / 2 - _BESIDE, y0 - size[1] / 2 - _BESIDE,
                      x1 + size[0] / 2 + _BESIDE, y1 + size[1] / 2 + _BESIDE)  # fmt: skip
    spots: list[Point] = []
    for ring in range(_RINGS):
        a0, b0, a1, b1 = Box(x0, y0, x1, y1).grown(ring * _RING)
        across = max(1, int((a1 - a0) // _RING))
        up = max(1, int((b1 - b0) // _RING))
        # From the upper right corner, where it is looked for first.
        spots += [(a1, b1 - (b1 - b0) * k / up) for k in range(up + 1)]
        spots += [(a1 - (a1 - a0) * k / across, b1) for k in range(1, across + 1)]
        spots += [(a0, b1 - (b1 - b0) * k / up) for k in range(1, up + 1)]
        spots += [(a1 - (a1 - a0) * k / across, b0) for k in range(across)]
    return spots


def best_spot(spots: Sequence[Point], ink: Ink, within: Box, size: Size) -> Point:
    """Return the first of the spots that hides least: no lettering before few lines, few lines before
    none."""
    best, least = spots[0], (9, 9, 9)
    for spot in spots:
        box = triangle_box(spot, size)
        inside = within[0] <= box[0] and within[1] <= box[1] and box[2] <= within[2] and box[3] <= within[3]
        cost = (int(not inside), ink.texts_hit(box), 0)
        if cost < least:
            cost = (cost[0], cost[1], min(ink.lines_hit(box) + ink.fills_hit(box), 9))
        if cost < least:
            best, least = spot, cost
        if least == (0, 0, 0):
            break
    return (round(best[0], 4), round(best[1], 4))


class Ink:
    """What is on a sheet where a triangle might stand: boxes of lettering and of short pieces of lines."""

    def __init__(self, items: Iterable[Item]) -> None:
        from sheets.drawing.lettering import box as text_box

        self.texts: list[Box] = []
        self._fills: list[Region] = []
        self._lines: dict[tuple[int, int], list[Box]] = {}
        for _, leaf in leaves(items):
            if isinstance(leaf, Text):
                self.texts.append(text_box(leaf))
            elif isinstance(leaf, Stroke):
                for segment in leaf.path:
                    self._draw(segment)
            elif leaf.hatch or (leaf.fill is not None and leaf.fill < 0.9):
                self._fills.extend(leaf.regions)

    def take(self, box: Box) -> None:
        """Keep a box free from here on, as if it held lettering."""
        self.texts.append(box)

    def texts_hit(self, box: Box) -> int:
        """Return how many pieces of lettering a box touches."""
        return sum(box.overlaps(text) for text in self.texts)

    def fills_hit(self, box: Box) -> int:
        """Return how many hatched or grey regions lie under a box: under its corners or its middle."""
        x0, y0, x1, y1 = box
        spots = ((x0, y0), (x1, y0), ((x0 + x1) / 2, y1), ((x0 + x1) / 2, (y0 + y1) / 2))
        return sum(
            box.overlaps(shape.bounds) and any(contains(shape, spot) for spot in spots)
            for shape in self._fills
        )

    def lines_hit(self, box: Box) -> int:
        """Return about how many lines cross a box."""
        cells = {
            (i, j)
            for i in range(int(box[0] // _CELL) - 2, int(box[2] // _CELL) + 1)
            for j in range(int(box[1] // _CELL) - 2, int(box[3] // _CELL) + 1)
        }
        return sum(box.overlaps(piece) for cell in sorted(cells) for piece in self._lines.get(cell, ()))

    def _draw(self, segment: Line | Arc) -> None:
        # No piece reaches further than two cells beyond the one it is kept in.
        pieces = max(1, ceil(segment.length / _CELL))
        for k in range(pieces):
            a, b = segment.point(k / pieces), segment.point((k + 1) / pieces)
            # As broad as a pen: a line along an axis has a box without area.
            box = Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])).grown(_PEN)
            self._lines.setdefault((int(box[0] // _CELL), int(box[1] // _CELL)), []).append(box)


_CELL = 8.0  # mm
_PEN = 0.2  # half of a broad line, mm
