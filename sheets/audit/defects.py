"""The rules of the audit, one function each: the ink of a sheet in, faults out. Paper mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sheets.audit.sheet_ink import Piece, SheetInk
from sheets.compose.ink import LEAST_TEXT
from sheets.compose.placing.free_room import runs_along, segments_cross
from sheets.compose.scales import Units, is_standard, series
from sheets.drawing.hatches import HATCHES
from sheets.drawing.items import Dimension
from sheets.drawing.pens import WIDTHS, style, where
from sheets.geometry.box import Box, around_points
from sheets.geometry.path import Point
from sheets.geometry.region import contains

_TOUCH = 0.12  # glyph boxes may share this much: the sidebearings of a letter
_FROM_LINE = 2.6  # the ink of a dimension's text lies no further than this from its line
_LEAST_PITCH = 0.5  # a hatch's lines closer than this run together in print (twice the widest of its pens)
_FULL = 1 / 3
_FROM_FRAME = 1.0  # white between what belongs to a view and the frame or the title block


class Fault(NamedTuple):
    kind: str
    sheet: str
    place: Point
    message: str


def _middle(box: Box) -> Point:
    return (round((box[0] + box[2]) / 2, 1), round((box[1] + box[3]) / 2, 1))


def text_over_text(ink: SheetInk) -> Iterator[Fault]:
    """Letters on letters, those of one symbol left aside (the two letters of a centre line are set so)."""
    ordered = sorted(ink.letters, key=lambda one: one.box[0])
    for k, one in enumerate(ordered):
        for other in ordered[k + 1 :]:
            if other.box[0] >= one.box[2] - _TOUCH:
                break
            if one.owner != other.owner and one.box.meets(other.box, -_TOUCH):
                yield Fault(
                    "text over text",
                    ink.sheet.number,
                    _middle(one.box),
                    f"'{one.text.plain}' and '{other.text.plain}'",
                )


def text_over_line(ink: SheetInk) -> Iterator[Fault]:
    """A line through letters that it does not belong to."""
    for one in ink.letters:
        pieces = [p for p in ink.crossing(one.box.grown(-_TOUCH), one.owner) if p.pen != "strike"]
        if one.blank:
            pieces = [p for p in pieces if p.owner > one.owner]
        if pieces:
            pens = ", ".join(sorted({p.pen for p in pieces}))
            yield Fault("text over line", ink.sheet.number, _middle(one.box), f"'{one.text.plain}' on {pens}")


def text_over_hatch(ink: SheetInk) -> Iterator[Fault]:
    """Letters on a hatch that leaves them no gap, on a dark fill, or on the head of a leader."""
    areas = [
        (a, r, r.bounds)
        for a, _ in ink.areas
        if a.hatch or (a.fill is not None and a.fill < 0.9)
        for r in a.regions
    ]
    for one in (letters for letters in ink.letters if not letters.blank):
        for area, shape, around in areas:
            if not one.box.meets(around, -_TOUCH) or any(g.holds(one.box) for g in area.gaps):
                continue
            x0, y0, x1, y1 = one.box
            small = around[2] - around[0] < 4 and around[3] - around[1] < 4
            spots = [(x0 + (x1 - x0) * i / 4, y0 + (y1 - y0) * j / 2) for i in range(5) for j in range(3)]
            if small or any(contains(shape, p) for p in spots):
                yield Fault(
                    "text over hatch",
                    ink.sheet.number,
                    _middle(one.box),
                    f"'{one.text.plain}' on {area.hatch or 'a fill'}",
                )
                break


def text_size(ink: SheetInk) -> Iterator[Fault]:
    """Capitals lower than 2.5 mm, or pressed together to less than three quarters."""
    for one in ink.letters:
        if one.text.height < LEAST_TEXT - 1e-9 or one.text.squeeze < 0.75 - 1e-9:
            yield Fault(
                "text too small",
                ink.sheet.number,
                _middle(one.box),
                f"'{one.text.plain}' is {one.text.height:g} mm high, squeezed to {one.text.squeeze:.2f}",
            )


def text_outside(ink: SheetInk) -> Iterator[Fault]:
    """Words beyond the edge of the paper, or a view's words beyond the drawing space."""
    paper = Box(0.0, 0.0, ink.sheet.width, ink.sheet.height)
    for one in ink.letters:
        room = ink.sheet.frame if one.view else paper
        if not room.grown(0.01).holds(one.box):
            yield Fault("text outside frame", ink.sheet.number, _middle(one.box), f"'{one.text.plain}'")


def dimension_text(ink: SheetInk) -> Iterator[Fault]:
    """The text of a linear dimension that stands neither at its line nor at a leader."""
    texts = {id(one.text): one.box for one in ink.letters}
    for d, _ in ink.dimensions:
        box = texts.get(id(d.text))
        if d.kind != "linear" or box is None or any(s.pen == "leader" for s in d.strokes):
            continue
        along, across = (0, 1) if d.angle == 0 else (1, 0)
        near = min(abs(box[across] - d.line_at[across]), abs(box[across + 2] - d.line_at[across]))
        run = [
            p[along]
            for s in d.strokes
            for seg in s.path
            for p in (seg.first, seg.last)
            if abs(p[across] - d.line_at[across]) < 1e-6
        ]
        beside = bool(run) and min(run) - 0.6 <= box[along] and box[along + 2] <= max(run) + 0.6
        if near > _FROM_LINE or not beside:
            yield Fault("dimension text astray", ink.sheet.number, _middle(box), f"'{d.text.plain}'")


def dimension_twice(ink: SheetInk) -> Iterator[Fault]:
    """Two dimensions of one view that measure the same two lines."""
    seen: dict[tuple[object, ...], str] = {}
    for d, view in ink.dimensions:
        k = 0 if d.angle == 0 else 1
        if d.kind == "linear":
            key: tuple[object, ...] = (view, k, round(min(d.a[k], d.b[k]), 4), round(max(d.a[k], d.b[k]), 4))
        else:
            key = (view, "radius", round(d.b[0], 3), round(d.b[1], 3), round(float(d.value), 3))
        if key in seen:
            yield Fault(
                "dimension twice",
                ink.sheet.number,
                _rounded(d.line_at),
                f"{d.text.plain} in {view}: {seen[key]}, {d.id}",
            )
        seen.setdefault(key, d.id)


def _rounded(at: Point) -> Point:
    return (round(at[0], 1), round(at[1], 1))


def strings_over_views(ink: SheetInk) -> Iterator[Fault]:
    """A dimension line that runs over a drawn view, its own or another's."""
    for d, view in ink.dimensions:
        if d.kind != "linear":
            continue
        ends = _line_of(d)
        for v in ink.views:
            box = v.drawn.grown(-0.5)
            low = (min(ends[0][0], ends[1][0]), min(ends[0][1], ends[1][1]))
            high = (max(ends[0][0], ends[1][0]), max(ends[0][1], ends[1][1]))
            if low[0] < box[2] and high[0] > box[0] and low[1] < box[3] and high[1] > box[1]:
                yield Fault(
                    "string crosses view",
                    ink.sheet.number,
                    _rounded(d.line_at),
                    f"{d.text.plain} of {view} over {v.id}",
                )


def _line_of(d: Dimension) -> tuple[Point, Point]:
    across = 1 if d.angle == 0 else 0
    for s in d.strokes:
        a, b = s.path[0].first, s.path[-1].last
        if (
            len(s.path) == 1
            and abs(a[across] - d.line_at[across]) < 1e-6
            and abs(b[across] - d.line_at[across]) < 1e-6
        ):
            return a, b
    return d.line_at, d.line_at


def leaders_cross(ink: SheetInk) -> Iterator[Fault]:
    """Leaders of two items that cross."""
    pieces = sorted((p for p in ink.pieces if p.pen == "leader"), key=lambda p: min(p.a[0], p.b[0]))
    done: set[tuple[int, int]] = set()
    for k, one in enumerate(pieces):
        reach = max(one.a[0], one.b[0])
        for other in pieces[k + 1 :]:
            if min(other.a[0], other.b[0]) > reach:
                break
            pair = (min(one.owner, other.owner), max(one.owner, other.owner))
            if (
                one.owner != other.owner
                and pair not in done
                and segments_cross(one.a, one.b, other.a, other.b)
            ):
                done.add(pair)
                yield Fault("leaders cross", ink.sheet.number, _crossing(one, other), f"in {one.view}")


def leaders_along(ink: SheetInk) -> Iterator[Fault]:
    """Leaders of notes and marks that run along a line of the view, and are read as part of it.

    A revision cloud is no line of the view: it goes round a leader that has changed, however near.
    """
    of_dimensions = {
        (s.first, s.last) for d, _ in ink.dimensions for stroke in d.strokes for s in stroke.path
    }
    solid = [
        p for p in ink.pieces
        if p.view and p.pen not in ("leader", "texture", "hatch", "symbol", "revision")
    ]  # fmt: skip
    lines = np.array([(*p.a, *p.b) for p in solid]) if solid else np.zeros((0, 4))
    for one in ink.pieces:
        if one.pen != "leader" or (one.a, one.b) in of_dimensions:
            continue
        for k in np.nonzero(runs_along(one.a, one.b, lines))[0]:
            if solid[int(k)].owner != one.owner:
                middle = ((one.a[0] + one.b[0]) / 2, (one.a[1] + one.b[1]) / 2)
                yield Fault(
                    "leader along line",
                    ink.sheet.number,
                    _rounded(middle),
                    f"in {one.view}, {solid[int(k)].pen}",
                )
                break


def _crossing(one: Piece, other: Piece) -> Point:
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = one.a, one.b, other.a, other.b
    t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / ((bx - ax) * (dy - cy) - (by - ay) * (dx - cx))
    return _rounded((ax + t * (bx - ax), ay + t * (by - ay)))


def views_placed(ink: SheetInk) -> Iterator[Fault]:
    """Views over the frame's edge, or nearly, or over one another."""
    for k, v in enumerate(ink.views):
        if not ink.sheet.frame.grown(-_FROM_FRAME).holds(v.box):
            yield Fault("view outside frame", ink.sheet.number, _middle(v.box), v.id)
        for other in ink.views[k + 1 :]:
            if v.box.meets(other.box, -0.01):
                yield Fault("view over view", ink.sheet.number, _middle(v.box), f"{v.id} and {other.id}")


def hatch_density(ink: SheetInk) -> Iterator[Fault]:
    """A hatch whose unbroken lines lie closer than its pen can print apart."""
    for area, view in ink.areas:
        if not area.hatch:
            continue
        hatch = HATCHES[area.hatch]
        width = style(hatch.pen, where(view) if view else "sheet").width
        least = min(f.step * area.pitch for f in hatch.families)
        if least < max(_LEAST_PITCH, 2 * width):
            yield Fault(
                "hatch too dense",
                ink.sheet.number,
                _middle(area.regions[0].bounds),
                f"{area.hatch} at {least:.2f} mm with a pen of {width:g} mm",
            )


def scales_standard(ink: SheetInk, units: Units) -> Iterator[Fault]:
    """A view at a scale that is not of the series, or that says another than it has."""
    for v in ink.views:
        texts = {s.ratio: s.text for s in series(units)}
        if not is_standard(v.scale, units) or texts[v.scale] != v.scale_text:
            yield Fault(
                "scale not standard",
                ink.sheet.number,
                _middle(v.box),
                f"{v.id} at {v.scale_text} ({v.scale})",
            )


def line_widths(ink: SheetInk) -> Iterator[Fault]:
    """A pen whose width is not of the ISO 128-2 series."""
    used = sorted({(p.pen, where(p.view) if p.view else "sheet") for p in ink.pieces})
    for pen, kind in used:
        width = style(pen, kind).width
        if width not in WIDTHS:
            yield Fault(
                "line width not standard", ink.sheet.number, (0.0, 0.0), f"{pen} in {kind}: {width:g} mm"
            )


def marks_and_targets(inks: Sequence[SheetInk]) -> Iterator[Fault]:
    """Marks that lead to no view of the set or to the wrong sheet; sections and details that no mark
    leads to."""
    on_sheet = {v.id: ink.sheet.number for ink in inks for v in ink.views}
    numbers = {v.id: v.number for ink in inks for v in ink.views}
    led_to: set[str] = set()
    for ink in inks:
        for symbol, _ in ink.symbols:
            if not symbol.target:
                continue
            led_to.add(symbol.target)
            says = (symbol.fields.get("number"), symbol.fields.get("sheet"))
            if says != (numbers.get(symbol.target), on_sheet.get(symbol.target)):
                yield Fault(
                    "mark without target",
                    ink.sheet.number,
                    _rounded(symbol.at),
                    f"{symbol.kind} to {symbol.target} says {says}",
                )
    for ink in inks:
        for v in ink.views:
            if where(v.id) in ("section", "detail") and v.id not in led_to:
                yield Fault("target without mark", ink.sheet.number, _middle(v.drawn), v.id)


def nearly_empty(inks: Sequence[SheetInk]) -> Iterator[Fault]:
    """A sheet under a third full whose neighbour of the same kind has room for all that is on it."""
    grids = [_filled(ink) for ink in inks]
    for k, ink in enumerate(inks):
        if grids[k].mean() >= _FULL or not grids[k].any():
            continue
        rows, columns = np.nonzero(grids[k].any(axis=1))[0], np.nonzero(grids[k].any(axis=0))[0]
        tall, wide = int(rows[-1] - rows[0]) + 2, int(columns[-1] - columns[0]) + 2
        for j in (k - 1, k + 1):
            same_kind = 0 <= j < len(inks) and _kind(inks[j]) == _kind(ink)
            if same_kind and _has_room(grids[j], tall, wide):
                yield Fault(
                    "sheet nearly empty",
                    ink.sheet.number,
                    _middle(ink.sheet.frame),
                    f"{grids[k].mean():.0%} full, and {inks[j].sheet.number} has room for it",
                )
                break


def _kind(ink: SheetInk) -> tuple[str, str]:
    # Schedules and cutting diagrams share a number's digit and are still not one thing.
    return ink.sheet.number[:3], ink.sheet.title.removesuffix("S")


def _has_room(grid: NDArray[np.bool_], tall: int, wide: int) -> bool:
    ny, nx = grid.shape
    if tall > ny or wide > nx:
        return False
    s = np.zeros((ny + 1, nx + 1), dtype=np.int64)
    s[1:, 1:] = grid.cumsum(0).cumsum(1)
    filled = s[tall:, wide:] - s[:-tall, wide:] - s[tall:, :-wide] + s[:-tall, :-wide]
    return bool((filled == 0).any())


def _filled(ink: SheetInk) -> NDArray[np.bool_]:
    # The drawing space in squares of about a centimetre: those that have a view, a table or words in them.
    x0, y0, x1, y1 = ink.sheet.frame
    grid = np.zeros((max(1, round((y1 - y0) / 10)), max(1, round((x1 - x0) / 10))), dtype=bool)
    dy, dx = (y1 - y0) / grid.shape[0], (x1 - x0) / grid.shape[1]
    ruled = [around_points((p.a, p.b)) for p in ink.pieces if p.pen in ("table rule", "table border")]
    for box in [*(v.box for v in ink.views), *ruled, *(one.box for one in ink.letters if not one.view)]:
        if box.meets(ink.sheet.frame):
            grid[
                max(0, int((box[1] - y0) / dy)) : int((box[3] - y0) / dy) + 1,
                max(0, int((box[0] - x0) / dx)) : int((box[2] - x0) / dx) + 1,
            ] = True
    return grid
