"""Details in columns that are the same on every sheet of a set, in rows as tall as they need. Paper mm.

First as few sheets as the details need at 3" (1:5), then each as large as those sheets have room for.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import fsum, log2

from sheets.annotate.intent import Annotated
from sheets.base.tolerance import SAME_POINT
from sheets.compose.page_sizes import PAGE
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.placed import Placed, title_height
from sheets.compose.placing.sayings import KEYED, PLAIN, Crowding
from sheets.compose.scales import WANTED, Scale
from sheets.geometry.box import Box
from sheets.geometry.path import Point

_COLUMNS = (1, 2, 3, 4, 6, 8, 12)
"""Grids that are tried: of as good ones the coarsest. In a fine one each detail takes several columns."""
_FINE = 4
_HALF = Fraction(1, 2)  # the largest that a detail grows to; full size is for patterns


@dataclass(frozen=True, slots=True)
class _Cell:
    """A detail at a scale, and how many columns it takes."""

    placed: Placed
    span: int

    @property
    def above(self) -> float:
        """Height over the top of its title, which stands level in a row."""
        return self.placed.box[3] - title_height(self.placed)

    @property
    def below(self) -> float:
        return title_height(self.placed) - self.placed.box[1]


_Row = list[_Cell]


@dataclass(frozen=True, slots=True)
class _Grid:
    """Columns of a sheet's space."""

    columns: int
    space: Box

    @property
    def column(self) -> float:
        return size_of(self.space)[0] / self.columns

    def room(self, span: int) -> tuple[float, float]:
        width, height = size_of(self.space)
        return (width if span == self.columns else span * self.column - PAGE.gap, height)

    def sheets(self, cells: Sequence[_Cell]) -> list[list[_Row]]:
        """Rows on sheets: as few sheets as there can be in this order, about equally full."""
        # Titles level, one may reach up where another reaches down: together they are taller than either.
        rows: list[_Row] = []
        height = size_of(self.space)[1]
        for cell in cells:
            across = rows and sum(c.span for c in rows[-1]) + cell.span <= self.columns
            if across and _tall([*rows[-1], cell]) <= height:
                rows[-1].append(cell)
            else:
                rows.append([cell])
        tall = [_tall(row) + PAGE.detail_rows for row in rows]
        return _shared_out(rows, tall, size_of(self.space)[1] + PAGE.detail_rows)


def detail_pages(
    views: Sequence[Annotated], fitter: Fitter, space: Box, name: str = "DETAIL"
) -> tuple[tuple[Page, ...], tuple[Annotated, ...]]:
    """The sheets of details, or of what else `name` says, grouped by what they are about in the order the
    views come in; and those that no scale gets on a sheet."""
    width, _ = size_of(space)
    ordered = _by_subject(views)
    whole = _Grid(1, space)
    fitting = [v for v in ordered if _first(v, fitter, whole) is not None]
    unplaced = tuple(v for v in ordered if v not in fitting)
    if not fitting:
        return (), unplaced
    grid, cells = _best(
        [_Grid(n, space) for n in _COLUMNS if n == 1 or width / n >= PAGE.detail_narrowest], fitting, fitter
    )
    pages = tuple(
        Page(
            sheet_number(5, k),
            f"{name}S" if sum(len(row) for row in rows) > 1 else name,
            tuple(_set(rows, grid)),
        )
        for k, rows in enumerate(grid.sheets(cells), 1)
    )
    return pages, unplaced


def _best(grids: Sequence[_Grid], views: Sequence[Annotated], fitter: Fitter) -> tuple[_Grid, list[_Cell]]:
    # Fewest sheets, then the largest scales, then the order the views come in, then the coarsest grid.
    firsts = [(grid, [_first(v, fitter, grid) for v in views]) for grid in grids]
    starts = [(grid, [c for c in cells if c is not None]) for grid, cells in firsts]
    starts += [(grid, _tallest_first(cells)) for grid, cells in starts]
    fewest = min(len(grid.sheets(cells)) for grid, cells in starts)
    least = [(grid, cells) for grid, cells in starts if len(grid.sheets(cells)) == fewest]
    grown = [(grid, _grown(cells, fitter, grid, fewest)) for grid, cells in least]
    return max(grown, key=lambda g: _worth(g[1]))


def _tallest_first(cells: Sequence[_Cell]) -> list[_Cell]:
    # Within a subject, so that those of a row are about as tall.
    subjects = [c.placed.annotated.view.subject for c in cells]
    return sorted(cells, key=lambda c: (subjects.index(c.placed.annotated.view.subject), -c.placed.size[1]))


def _by_subject(views: Sequence[Annotated]) -> list[Annotated]:
    order: dict[str, int] = {}
    for v in views:
        order.setdefault(v.view.subject, len(order))
    return sorted(views, key=lambda v: order[v.view.subject])


def _first(view: Annotated, fitter: Fitter, grid: _Grid) -> _Cell | None:
    # At the least scale that is wanted, in one column if it can be; else more crowded; else smaller.
    least = WANTED[view.view.kind]
    wanted = [s for s in fitter.scales(view) if s.ratio >= least][::-1]
    smaller = [s for s in fitter.scales(view) if s.ratio < least]
    for scales in (wanted[:1], smaller):
        for crowdings, most in ((PLAIN, 1), (PLAIN, grid.columns), (KEYED, grid.columns)):
            for scale in scales:
                cell = _cell(view, scale, fitter, grid, crowdings, most)
                if cell is not None:
                    return cell
    return None


def _cell(
    view: Annotated, scale: Scale, fitter: Fitter, grid: _Grid, crowdings: Sequence[Crowding], most: int
) -> _Cell | None:
    for span in range(1, most + 1):
        for crowding in crowdings:
            placed = fitter.fits(view, scale, grid.room(span), crowding)
            if placed is not None:
                return _Cell(placed, span)
    return None


def _grown(cells: Sequence[_Cell], fitter: Fitter, grid: _Grid, sheets: int) -> list[_Cell]:
    # Round by round each detail one scale larger, as long as all still go on as many sheets.
    found = list(cells)
    while True:
        before = list(found)
        for k, cell in enumerate(found):
            for larger in _larger(cell, fitter, grid):
                tried = [*found[:k], larger, *found[k + 1 :]]
                if len(grid.sheets(tried)) <= sheets:
                    found = tried
                    break
        if found == before:
            return found


def _larger(cell: _Cell, fitter: Fitter, grid: _Grid) -> Iterator[_Cell]:
    view = cell.placed.annotated
    scales = [s for s in fitter.scales(view) if s.ratio > cell.placed.scale.ratio]
    if scales and scales[-1].ratio <= _HALF:
        found = _cell(view, scales[-1], fitter, grid, PLAIN, grid.columns)
        if found is not None:
            yield found


def _worth(cells: Sequence[_Cell]) -> float:
    # Doubling a detail's scale counts one; keynotes, which send the reader to and fro, count as half.
    keyed = fsum(0.5 for c in cells if any(getattr(i, "kind", "") == "keynote" for i in c.placed.items))
    return round(fsum(log2(c.placed.scale.ratio) for c in cells) - keyed, 6)


def _tall(row: Sequence[_Cell]) -> float:
    return max(c.above for c in row) + max(c.below for c in row)


def _shared_out(rows: list[_Row], tall: Sequence[float], height: float) -> list[list[_Row]]:
    # The fewest sheets, and of the ways to break the rows over them the one whose fullest is least full.
    def broken(most: float) -> list[list[_Row]]:
        sheets: list[list[_Row]] = []
        used = most + 1.0
        for row, size in zip(rows, tall, strict=True):
            if used + size > most + SAME_POINT:
                sheets.append([])
                used = 0.0
            sheets[-1].append(row)
            used += size
        return sheets

    fewest = broken(height)
    sums = {fsum(tall[i:j]) for i, j in itertools.combinations(range(len(tall) + 1), 2)}
    heights = sorted(h for h in sums if max(tall) - SAME_POINT <= h <= height)
    return next((s for h in heights if len(s := broken(h)) == len(fewest)), fewest)


def _set(rows: Sequence[_Row], grid: _Grid) -> list[tuple[Placed, Point]]:
    # Each in the middle of its columns, titles of a row level, white space shared out between the rows.
    x0, _, _, y1 = grid.space
    spare = (size_of(grid.space)[1] - fsum(_tall(row) for row in rows)) / (len(rows) + 1)
    between = max(spare, PAGE.detail_rows) if len(rows) > 1 else spare
    found: list[tuple[Placed, Point]] = []
    top = y1 - (size_of(grid.space)[1] - fsum(_tall(r) for r in rows) - between * (len(rows) - 1)) / 2
    for row in rows:
        level = top - max(c.above for c in row)
        # On a fine grid the columns left over are white space between the details of the row.
        free = grid.columns - sum(c.span for c in row) if grid.columns >= _FINE else 0
        column = free / (len(row) + 1)
        for cell in row:
            p = cell.placed
            x = x0 + column * grid.column + (cell.span * grid.column - p.size[0]) / 2
            found.append((p, (x - p.box[0], level - title_height(p))))
            column += cell.span + free / (len(row) + 1)
        top -= _tall(row) + between
    return found
