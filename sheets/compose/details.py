"""Details on a grid that is the same on every sheet of a set: one cell each, more for a large one. Paper
mm."""

from __future__ import annotations

from collections.abc import Sequence

from sheets.annotate.intent import Annotated
from sheets.base.diagnostics import Diagnostic
from sheets.compose.fitting import Fitter, too_large
from sheets.compose.page import Page, sheet_number, size_of
from sheets.compose.placing import Placed
from sheets.compose.rows import GAP
from sheets.compose.said import CROWDINGS
from sheets.compose.scales import DETAIL_WANTED
from sheets.geometry.path import Box, Point
from sheets.model.wall import Paper

_CELL_WIDE, _CELL_TALL = 150.0, 125.0  # least size of a cell: a detail at 3" with its notes


def detail_pages(
    views: Sequence[Annotated], fitter: Fitter, space: Box, paper: Paper
) -> tuple[tuple[Page, ...], tuple[Diagnostic, ...]]:
    """The sheets of details, grouped by what they are about in the order the views come in."""
    width, height = size_of(space)
    most = (max(1, int(width / _CELL_WIDE)), max(1, int(height / _CELL_TALL)))
    ordered = _by_subject(views)
    found = [
        too_large(v, fitter, paper.size, paper.orientation, (width, height))
        for v in ordered
        if fitter.largest(v, width, height) is None
    ]
    fitting = [v for v in ordered if fitter.largest(v, width, height) is not None]
    # The coarsest grid, and so the largest scales, that takes no more sheets than the finest.
    grids = sorted(
        ((c, r) for c in range(1, most[0] + 1) for r in range(1, most[1] + 1)), key=lambda g: (g[0] * g[1], g)
    )
    tried = {
        grid: _on_grid(fitting, fitter, (width / grid[0], height / grid[1]), grid) for grid in (*grids[-1:],)
    }
    fewest = len(tried[grids[-1]])
    grid = grids[-1]
    for coarser in grids[:-1]:
        pages = _on_grid(fitting, fitter, (width / coarser[0], height / coarser[1]), coarser)
        if len(pages) <= fewest:
            grid, tried[coarser] = coarser, pages
            break
    cell = (width / grid[0], height / grid[1])
    return tuple(
        Page(
            sheet_number(5, k + 1),
            "DETAILS" if len(page) > 1 else "DETAIL",
            tuple(_set_page(page, space, cell)),
        )
        for k, page in enumerate(tried[grid])
    ), tuple(found)


Spot = tuple[Placed, int, int, int, int]
"""A view in the grid: column, row from the top, cells across, cells down."""


def _on_grid(
    views: Sequence[Annotated], fitter: Fitter, cell: tuple[float, float], grid: tuple[int, int]
) -> list[list[Spot]]:
    chosen = [s for s in (_sized(view, fitter, cell, *grid) for view in views) if s is not None]
    return _packed(chosen, *grid)


def _by_subject(views: Sequence[Annotated]) -> list[Annotated]:
    order: dict[str, int] = {}
    for v in views:
        order.setdefault(v.view.subject, len(order))
    return sorted(views, key=lambda v: order[v.view.subject])


def _sized(
    view: Annotated, fitter: Fitter, cell: tuple[float, float], columns: int, rows: int
) -> tuple[Placed, int, int] | None:
    # The largest scale in one cell, if that is a detail's scale; else more cells; else a more crowded manner;
    # else a smaller scale.
    spans = sorted(
        ((w, h) for w in range(1, columns + 1) for h in range(1, rows + 1)), key=lambda s: (s[0] * s[1], s[0])
    )
    wanted = [s for s in fitter.scales(view) if s.ratio >= DETAIL_WANTED]
    smaller = [s for s in fitter.scales(view) if s.ratio < DETAIL_WANTED]
    for scales in (wanted, smaller):
        for crowding in CROWDINGS:
            for w, h in spans:
                room = (w * cell[0] - (GAP if columns > 1 else 0), h * cell[1] - (GAP if rows > 1 else 0))
                fitting = (fitter.fits(view, scale, room, crowding) for scale in scales)
                placed = next((p for p in fitting if p is not None), None)
                if placed is not None:
                    return placed, w, h
    return None


def _packed(chosen: Sequence[tuple[Placed, int, int]], columns: int, rows: int) -> list[list[Spot]]:
    # Each in the first free cells, left to right and down; a later one may fill what an earlier sheet left
    # free.
    pages: list[list[Spot]] = []
    busy: list[set[tuple[int, int]]] = []
    for placed, w, h in chosen:
        for k in range(len(pages) + 1):
            if k == len(pages):
                pages.append([])
                busy.append(set())
            spot = _first_free(busy[k], w, h, columns, rows)
            if spot is not None:
                c, r = spot
                busy[k] |= {(c + i, r + j) for i in range(w) for j in range(h)}
                pages[k].append((placed, c, r, w, h))
                break
    return [sorted(page, key=lambda s: (s[2], s[1])) for page in pages]


def _first_free(
    busy: set[tuple[int, int]], w: int, h: int, columns: int, rows: int
) -> tuple[int, int] | None:
    for r in range(rows - h + 1):
        for c in range(columns - w + 1):
            if not any((c + i, r + j) in busy for i in range(w) for j in range(h)):
                return c, r
    return None


def _set_page(page: Sequence[Spot], space: Box, cell: tuple[float, float]) -> list[tuple[Placed, Point]]:
    # Each in the middle of its cells across; the titles of those that end in one row of cells stand level.
    spare: dict[int, float] = {}
    for placed, _, r, _, h in page:
        left = (h * cell[1] - placed.size[1]) / 2
        spare[r + h] = min(spare.get(r + h, left), left)
    found: list[tuple[Placed, Point]] = []
    for placed, c, r, w, h in page:
        x = space[0] + c * cell[0] + (w * cell[0] - placed.size[0]) / 2
        y = space[3] - (r + h) * cell[1] + spare[r + h]
        found.append((placed, (x - placed.box[0], y - placed.box[1])))
    return found
