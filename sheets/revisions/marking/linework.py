"""Which pieces of the lines of a view are not in another drawing of it, however either was split into
strokes.

A line is compared by the straight line or circle it lies on and the stretch it covers, pen by pen. Full
size, mm,
in the view's own coordinates, so that a view that moved on its sheet or got another scale is the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import atan2, cos, floor, hypot, pi, sin, tau

from sheets.compose.placing.free_room import part_in_box
from sheets.compose.placing.sayings import text_boxes
from sheets.compose.view_sizes import STRING
from sheets.drawing.items import Item, Pen, Stroke, Symbol, Viewport
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, Point, Segment
from sheets.views.room_outline import ROOM

MODEL_PENS: frozenset[Pen] = frozenset(
    ("cut", "outline", "step", "edge", "fine", "beyond", "hidden", "overhead", "pattern")
)
"""Pens of what is built; all others say something about it."""

_OFF = 0.02  # mm: lines nearer than this are one line (a hundredth of a pen's width at 1:10)
_SHORTEST = 0.05  # mm: a shorter rest is arithmetic
_TURN = 1e-4  # radians
_BROKEN = STRING.least_piece + 0.1  # mm on paper: a shorter piece beside lettering is not drawn either
_DEPTH = {"section": 0, "plan": 1}  # along which way of the paper the depth of the room is drawn
_Stretch = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a line: its segment in view coordinates, pen and part."""

    segment: Segment
    pen: Pen
    key: str


def pieces(view: Viewport) -> tuple[Piece, ...]:
    """Return the lines of what is built, each segment by itself, at full size in view coordinates."""
    back = 1 / float(view.scale)
    x0, y0 = view.origin

    def place(p: Point) -> Point:
        return ((p[0] - x0) * back, (p[1] - y0) * back)

    found: list[Piece] = []
    for stroke in _strokes(view.items):
        for segment in stroke.path:
            if isinstance(segment, Line):
                moved: Segment = Line(place(segment.a), place(segment.b))
            else:
                moved = Arc(place(segment.centre), segment.radius * back, segment.start, segment.sweep)
            found.append(Piece(moved, stroke.pen, stroke.key))
    return tuple(found)


def less(these: Iterable[Piece], those: Iterable[Piece]) -> tuple[Piece, ...]:
    """Return what of `these` is not covered by `those`, pen by pen."""
    by_line: dict[tuple[object, ...], list[tuple[tuple[float, ...], _Stretch]]] = {}
    for piece in those:
        line, stretches = _carrier(piece.segment)
        for cell in _cells(piece.pen, line, around=True):
            by_line.setdefault(cell, []).extend((line, s) for s in stretches)
    found: list[Piece] = []
    for piece in these:
        line, stretches = _carrier(piece.segment)
        (cell,) = _cells(piece.pen, line, around=False)
        covers = [s for other, s in by_line.get(cell, ()) if _same_line(line, other)]
        for stretch in stretches:
            slack = _SHORTEST / (line[3] if isinstance(piece.segment, Arc) else 1.0)
            for rest in _rest(stretch, covers, slack):
                found.append(Piece(_on(line, rest), piece.pen, piece.key))
    return tuple(found)


def drawn_by(these: Iterable[Piece], view: Viewport, by: Point = (0.0, 0.0)) -> tuple[Piece, ...]:
    """Return what of `these` another drawing of the view would have drawn, if it were there: a fine line is
    left out where lettering stands, and the room ends at the border of what is shown.

    by: how far what the other drawing shows lies from where these are, full-size mm.
    """
    breaks = [_full_size(box.grown(_BROKEN), view, by) for box in text_boxes(view.items)]
    border = _full_size(view.drawn, view, by).grown(_SHORTEST)
    found: list[Piece] = []
    for piece in these:
        left = [piece]
        if piece.key.split("/")[0] == ROOM and isinstance(piece.segment, Line):
            inside = part_in_box(piece.segment.a, piece.segment.b, border)
            left = [_part(piece, *inside)] if inside is not None else []
        if piece.pen == "fine":
            left = [rest for one in left for rest in _outside(one, breaks)]
        found += [one for one in left if one.segment.length > _SHORTEST]
    return tuple(found)


def is_end_of_room(piece: Piece, view: Viewport, by: Point = (0.0, 0.0)) -> bool:
    """Return whether a line is only where the drawing of the room ends before and behind the wall: it lies
    along that border of a plan or a section. (Those of an elevation are its walls and ceiling.)

    by: how far the line was shifted from where the view has it, full-size mm.
    """
    depth = _DEPTH.get(view.id.split("/")[0])
    if piece.key.split("/")[0] != ROOM or depth is None:
        return False
    border, line = _full_size(view.drawn, view, by), piece.segment.bounds
    return any(abs(line[depth] - at) < _OFF and abs(line[depth + 2] - at) < _OFF for at in border[depth::2])


def _full_size(box: Box, view: Viewport, by: Point) -> Box:
    back = 1 / float(view.scale)
    (x0, y0), (dx, dy) = view.origin, by
    return Box(
        (box[0] - x0) * back + dx, (box[1] - y0) * back + dy,
        (box[2] - x0) * back + dx, (box[3] - y0) * back + dy,
    )  # fmt: skip


def _outside(piece: Piece, boxes: Iterable[Box]) -> list[Piece]:
    segment = piece.segment
    if not isinstance(segment, Line):
        return [piece]
    covers = [span for box in boxes if (span := part_in_box(segment.a, segment.b, box)) is not None]
    return [_part(piece, *rest) for rest in _rest((0.0, 1.0), covers, 0.0)]


def _part(piece: Piece, low: float, high: float) -> Piece:
    assert isinstance(piece.segment, Line)
    return Piece(piece.segment.part(low, high), piece.pen, piece.key)


def _strokes(items: Iterable[Item]) -> Iterator[Stroke]:
    for item in ungrouped(items):
        if isinstance(item, Stroke) and item.pen in MODEL_PENS:
            yield item
        elif isinstance(item, Symbol):
            yield from (s for s in item.strokes if s.pen in MODEL_PENS)


def _carrier(segment: Segment) -> tuple[tuple[float, ...], list[_Stretch]]:
    # The infinite line as (0, direction, distance from the origin), the circle as (1, x, y, radius); the
    # stretches covered, along the line in mm or round the circle in radians.
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.a, segment.b
        if hypot(bx - ax, by - ay) < _SHORTEST:
            return (0.0, 0.0, 0.0), []
        angle = atan2(by - ay, bx - ax) % pi
        if pi - angle < _TURN / 2:
            angle = 0.0
        c, s = cos(angle), sin(angle)
        low, high = sorted((ax * c + ay * s, bx * c + by * s))
        return (0.0, angle, (ay + by) / 2 * c - (ax + bx) / 2 * s), [(low, high)]
    first, last = sorted((segment.start, segment.start + segment.sweep))
    turn = floor(first / tau) * tau
    first, last = first - turn, last - turn
    around = [(first, last)] if last <= tau else [(first, tau), (0.0, last - tau)]
    return (1.0, *segment.centre, segment.radius), around


def _cells(pen: Pen, line: tuple[float, ...], *, around: bool) -> list[tuple[object, ...]]:
    # A hash grid: what is stored goes into the neighbouring cells too, so that nearness never falls in a gap.
    steps = (_TURN, 2 * _OFF) if line[0] == 0.0 else (2 * _OFF, 2 * _OFF)
    a, b = (floor(value / step) for value, step in zip(line[1:3], steps, strict=True))
    offsets = (-1, 0, 1) if around else (0,)
    return [(pen, line[0], a + i, b + j) for i in offsets for j in offsets]


def _same_line(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    if one[0] == 0.0:
        return abs(one[1] - other[1]) <= _TURN and abs(one[2] - other[2]) <= _OFF
    return all(abs(a - b) <= _OFF for a, b in zip(one[1:], other[1:], strict=True))


def _rest(stretch: _Stretch, covers: Iterable[_Stretch], slack: float) -> list[_Stretch]:
    left = [stretch]
    for low, high in sorted(covers):
        left = [
            part
            for a, b in left
            for part in ((a, min(b, low)), (max(a, high), b))
            if part[1] - part[0] > slack
        ]
    return left


def _on(line: tuple[float, ...], stretch: _Stretch) -> Segment:
    low, high = stretch
    if line[0] == 1.0:
        return Arc((line[1], line[2]), line[3], low, high - low)
    c, s = cos(line[1]), sin(line[1])
    return Line(
        (low * c - line[2] * s, low * s + line[2] * c), (high * c - line[2] * s, high * s + line[2] * c)
    )
