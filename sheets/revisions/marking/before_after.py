"""Before and after laid over each other, view by view: removed dashed, added heavy, the same light.

The three differ by weight and dash, so that they are told apart in grey print. A view keeps the scale it
has on the
later set; the earlier drawing of it is brought to that scale.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.base.notation import Run
from sheets.compose.pages.text_pages import report_blocks, text_pages
from sheets.drawing.items import Area, Dimension, DrawingSet, Item, Pen, Sheet, Stroke, Text, Viewport
from sheets.drawing.walk import viewports
from sheets.geometry.box import Box, around
from sheets.geometry.path import Arc, Line, Point, Segment, shifted
from sheets.revisions.marking.difference import changed_dimensions, changed_lines
from sheets.revisions.marking.linework import less, pieces

REMOVED: Pen = "hidden"
ADDED: Pen = "cut"
SAME: Pen = "texture"
_PAPERS = ((297.0, 210.0), (420.0, 297.0))  # A4 and A3 lying; else the size of the view's own sheet
_EDGE = 15.0
_HEAD = 5.0
_FOOT = 18.0  # room for the key to the lines
_MOST_FACTORS = (1.0, 0.5, 0.25, 0.125)  # a view too large for the paper is halved until it fits


def overlaid(before: DrawingSet, after: DrawingSet, report: str) -> DrawingSet:
    """Return the set: the report first, then a sheet for each view in which anything changed."""
    old = {view.id: (sheet, view) for sheet in before.sheets for view in viewports(sheet)}
    new = {view.id: (sheet, view) for sheet in after.sheets for view in viewports(sheet)}
    sheets = list(text_pages("Changes", report_blocks(report.splitlines()), after.units, "LIST"))
    for view_id in [*new, *(view_id for view_id in old if view_id not in new)]:
        made = _view_sheet(old.get(view_id), new.get(view_id), len(sheets) + 1)
        if made is not None:
            sheets.append(made)
    return DrawingSet(
        f"Changes: {after.title}", after.number, after.author, after.date, after.units, tuple(sheets)
    )


def _view_sheet(
    before: tuple[Sheet, Viewport] | None, after: tuple[Sheet, Viewport] | None, number: int
) -> Sheet | None:
    shown = after or before
    assert shown is not None
    sheet, view = shown
    now = pieces(after[1]) if after else ()
    if before and after:
        removed, added = changed_lines(before[1], after[1])
    else:
        removed, added = pieces(before[1]) if before else (), now
    if not removed and not added:
        return None
    same = less(now, added)
    reach = around(piece.segment.bounds for piece in (*removed, *added, *same))
    wide, high = next(
        (size for size in _PAPERS if _fits(reach, float(view.scale), _room(*size))),
        (sheet.width, sheet.height),
    )
    frame, room = _frame(wide, high), _room(wide, high)
    factor = next((f for f in _MOST_FACTORS if _fits(reach, float(view.scale) * f, room)), _MOST_FACTORS[-1])
    scale = float(view.scale) * factor
    origin = _centred(reach, scale, room)
    items: list[Item] = []
    for found, pen in ((same, SAME), (removed, REMOVED), (added, ADDED)):
        items += [Stroke((_placed(piece.segment, scale, origin),), pen, piece.key) for piece in found]
    if before and after and factor == 1.0:
        by = (origin[0] - view.origin[0], origin[1] - view.origin[1])
        items += [_moved_dimension(d, by) for d in changed_dimensions(before[1], after[1])]
    box = Box(*_point((reach[0], reach[1]), scale, origin), *_point((reach[2], reach[3]), scale, origin))
    placed = replace(
        view, scale=view.scale * Fraction(factor), origin=origin, box=box, drawn=box, items=tuple(items)
    )
    words = f"{view.number} {view.title}".strip() + ("" if after else " (NO LONGER DRAWN)")
    head = Text((Run(words.upper()),), (frame[0], frame[3] - _HEAD), _HEAD, weight="bold")
    where = Text((Run(_where(before, after)),), (frame[0], frame[3] - 2 * _HEAD - 1.0), 2.5)
    return Sheet(f"VIEW {number}", words, wide, high, frame, (head, where, *_key(frame), placed))


def _frame(wide: float, high: float) -> Box:
    return Box(_EDGE, _EDGE, wide - _EDGE, high - _EDGE)


def _room(wide: float, high: float) -> Box:
    # What the drawn view has, with white round it for its dimensions.
    x0, y0, x1, y1 = _frame(wide, high)
    return Box(x0 + 20.0, y0 + _FOOT + 20.0, x1 - 20.0, y1 - 3 * _HEAD - 20.0)


def _where(before: tuple[Sheet, Viewport] | None, after: tuple[Sheet, Viewport] | None) -> str:
    says = [f"BEFORE: SHEET {before[0].number}" if before else "BEFORE: NOT DRAWN"]
    says.append(f"AFTER: SHEET {after[0].number}" if after else "AFTER: NOT DRAWN")
    return "   ".join(says)


def _key(frame: Box) -> list[Item]:
    items: list[Item] = []
    x, y = frame[0], frame[1] + 4.0
    for words, pen in (("REMOVED", REMOVED), ("ADDED", ADDED), ("THE SAME", SAME)):
        items.append(Stroke((Line((x, y), (x + 22.0, y)),), pen))
        items.append(Text((Run(words),), (x + 25.0, y), 2.5, v="middle"))
        x += 55.0
    return items


def _moved_dimension(item: Dimension, by: Point) -> Dimension:
    change = shifted(*by)

    def stroke(s: Stroke) -> Stroke:
        return replace(s, path=tuple(segment.transformed(change) for segment in s.path))

    def area(a: Area) -> Area:
        return replace(a, regions=tuple(r.transformed(change) for r in a.regions))

    return replace(
        item, text=replace(item.text, at=change(item.text.at)), line_at=change(item.line_at),
        strokes=tuple(stroke(s) for s in item.strokes), heads=tuple(area(a) for a in item.heads),
    )  # fmt: skip


def _fits(reach: Box, scale: float, room: Box) -> bool:
    return (reach[2] - reach[0]) * scale <= room[2] - room[0] and (reach[3] - reach[1]) * scale <= room[
        3
    ] - room[1]


def _centred(reach: Box, scale: float, room: Box) -> Point:
    x = (room[0] + room[2]) / 2 - (reach[0] + reach[2]) / 2 * scale
    y = (room[1] + room[3]) / 2 - (reach[1] + reach[3]) / 2 * scale
    return (round(x, 4), round(y, 4))


def _point(p: Point, scale: float, origin: Point) -> Point:
    return (origin[0] + p[0] * scale, origin[1] + p[1] * scale)


def _placed(segment: Segment, scale: float, origin: Point) -> Segment:
    if isinstance(segment, Arc):
        return replace(segment, centre=_point(segment.centre, scale, origin), radius=segment.radius * scale)
    return Line(_point(segment.a, scale, origin), _point(segment.b, scale, origin))
