"""Triangles of earlier revisions on a sheet that changed again. Paper mm.

Each stays by what it marked, in a row where several come together; what marked something that is no longer
drawn stands by the view's title.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sheets.drawing.items import Sheet, Symbol, Viewport
from sheets.drawing.walk import extent, viewports
from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.revisions.keeping.record import TriangleMark
from sheets.revisions.marking.said_on_paper import named_boxes
from sheets.revisions.marking.triangles import Ink, Size, best_spot, spots_beside, triangle_box, view_size

_TOGETHER = 16.0  # triangles that would stand nearer than this stand in a row
_BESIDE = 0.6  # between triangles of a row
_STEPS = (0.0, 3.0, -3.0, 6.0, -6.0, 10.0, -10.0, 15.0, -15.0, 20.0, -20.0)


def placed_again(
    sheet: Sheet, triangles: Sequence[TriangleMark], ink: Ink, fresh: Iterable[TriangleMark] = ()
) -> tuple[TriangleMark, ...]:
    """Return the marks of earlier revisions as they stand on a sheet now. fresh: those of the latest, which
    stand already. What they take is taken from the ink."""
    views = {view.id: view for view in viewports(sheet)}
    named = {view.id: named_boxes(view) for view in views.values()}
    taken: dict[str, list[tuple[Point, Size]]] = {}
    for mark in fresh:
        taken.setdefault(mark.view, []).append((middle_of(mark, views[mark.view]), view_size(mark.number)))
    found: list[TriangleMark] = []
    for mark in triangles:
        view = views.get(mark.view)
        if view is None:
            continue
        size = view_size(mark.number)
        row = taken.setdefault(mark.view, [])
        was = _inside(middle_of(mark, view), sheet.frame, size)
        boxes = named[mark.view].get(mark.about, ())
        if mark.about and not boxes:
            middle = best_spot(_at_title(view, size), ink, sheet.frame, size)
        elif mark.about:
            box = min(boxes, key=lambda b: _apart(((b[0] + b[2]) / 2, (b[1] + b[3]) / 2), was))
            spots = spots_beside(box, size)
            near = min(spots, key=lambda p: _apart(p, was))
            # Where it is, if that is beside what it marked still.
            wanted = was if _apart(near, was) < _TOGETHER else best_spot(spots, ink, sheet.frame, size)
            middle = _near(wanted, row, ink, sheet.frame, size)
        else:
            middle = _near(was, row, ink, sheet.frame, size)
        ink.take(triangle_box(middle, size))
        row.append((middle, size))
        found.append(mark_at(view, mark.number, middle, mark.about))
    return tuple(found)


def mark_at(view: Viewport, number: str, middle: Point, about: str) -> TriangleMark:
    """Return the mark of a triangle that stands round a middle on the sheet."""
    x, y = anchor(view)
    at = (round(middle[0] - x, 4), round(middle[1] - y, 4))
    return TriangleMark(view.id, number, at, float(view.scale), about)


def middle_of(mark: TriangleMark, view: Viewport) -> Point:
    """Return the middle of a triangle on the sheet, wherever its view stands and at whatever scale."""
    x, y = anchor(view)
    factor = float(view.scale) / mark.scale
    return (x + mark.at[0] * factor, y + mark.at[1] * factor)


def anchor(view: Viewport) -> Point:
    """Return what a mark keeps its distance from. A detail's window follows the part that it is about."""
    return view.drawn[:2] if view.id.split("/")[0] == "detail" else view.origin


def _near(wanted: Point, row: Sequence[tuple[Point, Size]], ink: Ink, frame: Box, size: Size) -> Point:
    # In a row with a triangle that stands there already; else there; else about there.
    spots = [
        (at[0] + way * ((other[0] + size[0]) / 2 + _BESIDE), at[1])
        for at, other in row
        if abs(at[0] - wanted[0]) + abs(at[1] - wanted[1]) < _TOGETHER
        for way in (1, -1)
    ]
    spots.sort(key=lambda p: _apart(p, wanted))
    if not spots:
        spots = [wanted]
    around = [(wanted[0] + dx, wanted[1] + dy) for dx in _STEPS for dy in _STEPS]
    spots += sorted(around, key=lambda p: (_apart(p, wanted), p))
    return best_spot(spots, ink, frame, size)


def _at_title(view: Viewport, size: Size) -> list[Point]:
    # Under the title, in a row from its left end; else over it; else around.
    title = next((i for i in view.items if isinstance(i, Symbol) and i.kind == "view title"), None)
    x0, y0, x1, y1 = (extent((title,)) if title is not None else None) or view.drawn
    step = size[0] + _BESIDE
    count = max(1, int((x1 - x0) // step))
    below, above = y0 - size[1] / 2 - _BESIDE, y1 + size[1] / 2 + _BESIDE
    row = [(x0 + size[0] / 2 + k * step, y) for y in (below, above) for k in range(count + 4)]
    return [*row, *spots_beside(Box(x0, y0, x1, y1), size)]


def _inside(p: Point, frame: Box, size: Size) -> Point:
    return (
        min(max(p[0], frame[0] + size[0]), frame[2] - size[0]),
        min(max(p[1], frame[1] + size[1]), frame[3] - size[1]),
    )


def _apart(p: Point, q: Point) -> float:
    return abs(p[0] - q[0]) + abs(p[1] - q[1])
