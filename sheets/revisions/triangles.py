"""The triangle with a revision's number: its drawing, and where there is room for it beside a cloud. Paper
mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import sqrt

from sheets.drawing.items import Area, Item, Run, Stroke, Symbol, Text
from sheets.drawing.lettering import width
from sheets.drawing.walk import leaves
from sheets.geometry.path import Arc, Box, Line, Point
from sheets.geometry.region import boxes_meet, polygon

SIDE = 7.0
"""Side of a triangle in a view, mm."""
ROW_SIDE = 5.4
"""Side of a triangle beside a row of a table, which is 4.9 mm high at least."""
_LETTER = 2.5
_TALL = sqrt(3) / 2


def triangle(middle: Point, number: str, side: float = SIDE) -> Symbol:
    """Return the triangle, standing on its base, round a middle halfway up. White, so that what it lies on
    is clear."""
    x, y = middle
    tall = side * _TALL
    a, b, c = (x - side / 2, y - tall / 2), (x + side / 2, y - tall / 2), (x, y + tall / 2)
    base = y - tall / 2 + 0.09 * tall
    # The lettering's width is that of the triangle at its top.
    room = side * (1 - (base + _LETTER - (y - tall / 2)) / tall) + 0.3
    squeeze = max(0.6, min(1.0, room / width(number, _LETTER, "bold")))
    text = Text((Run(number),), (x, base), _LETTER, "centre", weight="bold", squeeze=squeeze, pen="revision")
    outline = Stroke((Line(a, b), Line(b, c), Line(c, a)), "revision", "triangle", True)
    fill = Area((polygon((a, b, c)),), fill=1.0)
    return Symbol("revision triangle", middle, (outline,), (fill,), (text,), {"revision": number})


def triangle_box(middle: Point, side: float = SIDE) -> Box:
    """Return the box of a triangle round its middle."""
    tall = side * _TALL
    return (middle[0] - side / 2, middle[1] - tall / 2, middle[0] + side / 2, middle[1] + tall / 2)


def place_beside(box: Box, ink: Ink, within: Box) -> Point:
    """Return the middle of a triangle beside a box (a cloud's): clear of lettering, on as few lines as can
    be."""
    half, up = SIDE / 2 + 0.6, SIDE * _TALL / 2 + 0.6
    x0, y0, x1, y1 = box
    spots = [
        (x1 + half, y1 - up),
        (x1 - half, y1 + up),
        (x0 + half, y1 + up),
        (x0 - half, y1 - up),
        (x1 + half, y0 + up),
        (x0 - half, y0 + up),
        (x1 - half, y0 - up),
        (x0 + half, y0 - up),
    ]
    for step in range(1, 8):
        shift = step * SIDE * 0.6
        spots += [
            (x1 + half + shift, y1),
            (x0 - half - shift, y1),
            (x1 + half + shift, y0),
            (x0 - half - shift, y0),
            (x1, y1 + up + shift),
            (x0, y1 + up + shift),
            (x1, y0 - up - shift),
            (x0, y0 - up - shift),
            (x1 + half, y1 - up - shift),
            (x0 - half, y1 - up - shift),
            (x1 - half - shift, y1 + up),
        ]
    return best_spot(spots, ink, within)


def best_spot(spots: Sequence[Point], ink: Ink, within: Box) -> Point:
    """Return the first of the spots that hides least: no lettering before few lines before none."""

    def cost(k: int) -> tuple[int, int, int, int]:
        box = triangle_box(spots[k])
        inside = within[0] <= box[0] and within[1] <= box[1] and box[2] <= within[2] and box[3] <= within[3]
        return (not inside, ink.texts_hit(box), min(ink.lines_hit(box), 9), k)

    x, y = spots[min(range(len(spots)), key=cost)]
    return (round(x, 4), round(y, 4))


class Ink:
    """What is on a sheet where a triangle might stand: boxes of lettering and of short pieces of lines."""

    def __init__(self, items: Iterable[Item]) -> None:
        from sheets.drawing.lettering import box as text_box

        self.texts: list[Box] = []
        self._lines: dict[tuple[int, int], list[Box]] = {}
        for _, leaf in leaves(items):
            if isinstance(leaf, Text):
                self.texts.append(text_box(leaf))
            elif isinstance(leaf, Stroke):
                for segment in leaf.path:
                    self._draw(segment)

    def take(self, box: Box) -> None:
        """Keep a box free from here on, as if it held lettering."""
        self.texts.append(box)

    def texts_hit(self, box: Box) -> int:
        """Return how many pieces of lettering a box touches."""
        return sum(boxes_meet(box, text) for text in self.texts)

    def lines_hit(self, box: Box) -> int:
        """Return about how many lines cross a box."""
        cells = {
            (i, j)
            for i in range(int(box[0] // _CELL), int(box[2] // _CELL) + 1)
            for j in range(int(box[1] // _CELL), int(box[3] // _CELL) + 1)
        }
        return sum(boxes_meet(box, piece) for cell in sorted(cells) for piece in self._lines.get(cell, ()))

    def _draw(self, segment: Line | Arc) -> None:
        pieces = max(1, int(segment.length // _CELL))
        for k in range(pieces):
            a, b = segment.point(k / pieces), segment.point((k + 1) / pieces)
            box = (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
            self._lines.setdefault((int(box[0] // _CELL), int(box[1] // _CELL)), []).append(box)


_CELL = 8.0
