"""Details on a grid that is the same on every sheet of a set: one cell each, more for a large one. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from sheets.annotate.intent import Annotated
from sheets.base.diagnostics import Diagnostic
from sheets.compose.arrange import GAP
from sheets.compose.fitting import Fitter, too_large
from sheets.compose.page import Page, sheet_number, size_of
from sheets.compose.placing import Placed
from sheets.compose.scales import DETAIL_WANTED
from sheets.geometry.path import Box, Point
from sheets.model.wall import Paper

_CELL_WIDE, _CELL_TALL = 150.0, 125.0  # least size of a cell: a detail at 3" with its notes


def detail_pages(
    views: Sequence[Annotated], fitter: Fitter, space: Box, paper: Paper
) -> tuple[tuple[Page, ...], tuple[Diagnostic, ...]]:
    """The sheets of details, grouped by what they are about in the order the views come in."""
    width, height = size_of(space)
    columns, rows = max(1, int(width / _CELL_WIDE)), max(1, int(height / _CELL_TALL))
    cell = (width / columns, height / rows)
    found: list[Diagnostic] = []
    chosen: list[tuple[Placed, int, int]] = []
    for view in _by_subject(views):
        sized = _sized(view, fitter, cell, columns, rows)
        if sized is None:
            found.append(too_large(view, fitter, paper.size, paper.orientation, (width, height)))
        else:
            chosen.append(sized)
    pages = _packed(chosen, columns, rows)
    return tuple(
        Page(sheet_number(5, k + 1), "DETAILS" if len(page) > 1 else "DETAIL",
             tuple(_set_in_cell(p, c, r, w, h, space, cell) for p, c, r, w, h in page))
        for k, page in enumerate(pages)
    ), tuple(found)


def _by_subject(views: Sequence[Annotated]) -> list[Annotated]:
    order: dict[str, int] = {}
    for v in views:
        order.setdefault(v.view.subject, len(order))
    return sorted(views, key=lambda v: order[v.view.subject])


def _sized(view: Annotated, fitter: Fitter, cell: tuple[float, float], columns: int, rows: int) -> tuple[Placed, int, int] | None:
    # The largest scale in one cell, if that is a detail's scale; else more cells; else a smaller scale.
    spans = sorted(
        ((w, h) for w in range(1, columns + 1) for h in range(1, rows + 1)), key=lambda s: (s[0] * s[1], s[0])
    )
    wanted = [s for s in fitter.scales(view) if s.ratio >= DETAIL_WANTED]
    smaller = [s for s in fitter.scales(view) if s.ratio < DETAIL_WANTED]
    for scales, allowed in ((wanted, spans), (smaller, spans)):
        for w, h in allowed:
            room = (w * cell[0] - GAP, h * cell[1] - GAP)
            for scale in scales:
                if not fitter.may_fit(view, scale, *room):
                    continue
                placed = fitter.at(view, scale)
                if placed.size[0] <= room[0] and placed.size[1] <= room[1]:
                    return placed, w, h
    return None


def spanned(placed: Placed, cell: tuple[float, float]) -> tuple[int, int]:
    """How many cells a placed view fills across and down."""
    return ceil((placed.size[0] + GAP) / cell[0]), ceil((placed.size[1] + GAP) / cell[1])


def _packed(chosen: Sequence[tuple[Placed, int, int]], columns: int, rows: int) -> list[list[tuple[Placed, int, int, int, int]]]:
    # Each in the first free cells, left to right and down, so that the order of reading is the order of the set.
    pages: list[list[tuple[Placed, int, int, int, int]]] = []
    busy: set[tuple[int, int]] = set()
    for placed, w, h in chosen:
        spot = _first_free(busy, w, h, columns, rows) if pages else None
        if spot is None:
            pages.append([])
            busy = set()
            spot = (0, 0)
        c, r = spot
        busy |= {(c + i, r + j) for i in range(w) for j in range(h)}
        pages[-1].append((placed, c, r, w, h))
    return pages


def _first_free(busy: set[tuple[int, int]], w: int, h: int, columns: int, rows: int) -> tuple[int, int] | None:
    for r in range(rows - h + 1):
        for c in range(columns - w + 1):
            if not any((c + i, r + j) in busy for i in range(w) for j in range(h)):
                return c, r
    return None


def _set_in_cell(placed: Placed, c: int, r: int, w: int, h: int, space: Box, cell: tuple[float, float]) -> tuple[Placed, Point]:
    x0 = space[0] + c * cell[0]
    y0 = space[3] - (r + h) * cell[1]
    across = (w * cell[0] - placed.size[0]) / 2
    up = (h * cell[1] - placed.size[1]) / 2
    return placed, (x0 + across - placed.box[0], y0 + min(up, GAP) - placed.box[1])
