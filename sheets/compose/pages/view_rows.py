"""Views in rows: side by side at one scale, lined up in height, white space shared out evenly. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import fsum

from sheets.annotate.intent import Annotated
from sheets.compose.page_sizes import PAGE
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.placed import Placed, lowered, title_height
from sheets.compose.scales import Scale
from sheets.geometry.box import Box
from sheets.geometry.path import Point

MOST_LOST = Fraction(7, 5)
"""A view is drawn this much smaller than it could be, at most, to share a sheet."""
_DIVISIBLE = ("elevation", "plan")  # a section is as tall as the room: it has no place to be divided


def in_rows(
    views: Sequence[Annotated],
    fitter: Fitter,
    space: Box,
    kind: int,
    title: str,
    *,
    first: int = 1,
    at_most: Scale | None = None,
) -> tuple[tuple[Page, ...], tuple[Annotated, ...]]:
    """Views side by side at one scale, lined up in height, in as many rows and sheets as they need; and the
    views that no scale gets on a sheet."""
    width, height = size_of(space)
    unplaced: list[Annotated] = []
    fitting: list[Placed] = []
    for v in views:
        placed = fitter.largest(v, width, height)
        parts = fitter.in_parts(v, width, height) if placed is None and v.view.kind in _DIVISIBLE else ()
        if parts:
            fitting += parts
        elif placed is None:
            unplaced.append(v)
        else:
            fitting.append(placed)
    if not fitting:
        return (), tuple(unplaced)
    smallest = min((p.scale for p in fitting), key=lambda s: s.ratio)
    smallest = at_most if at_most and at_most.ratio < smallest.ratio else smallest
    pages: list[Page] = []
    sheets = _fewest([p.annotated for p in fitting], smallest, fitter, (width, height))
    for k, sheet_rows in enumerate(sheets):
        pages.append(
            Page(
                sheet_number(kind, first + k), _plural(title, sheet_rows), tuple(set_rows(sheet_rows, space))
            )
        )
    return tuple(pages), tuple(unplaced)


def _fewest(
    views: Sequence[Annotated], largest: Scale, fitter: Fitter, room: tuple[float, float]
) -> list[list[list[Placed]]]:
    # A little smaller, if that saves a sheet; plans keep the scale of their elevation.
    lost = 1 if views[0].view.kind == "plan" else MOST_LOST
    best: list[list[list[Placed]]] = []
    for scale in fitter.scales(views[0]):
        if scale.ratio > largest.ratio or scale.ratio * lost < largest.ratio:
            continue
        placed = [fitter.roomiest(v, scale, room) for v in views]
        sheets = _sheets(_rows(placed, *room), room[1])
        if not best or len(sheets) < len(best):
            best = sheets
        if len(best) == 1:
            break
    return best


def _plural(title: str, rows: Sequence[Sequence[Placed]]) -> str:
    return title + "S" if sum(len(r) for r in rows) > 1 else title


def _rows(placed: Sequence[Placed], width: float, height: float) -> list[list[Placed]]:
    # Lined up in height, one may reach up where another reaches down: together they are taller than either.
    rows: list[list[Placed]] = []
    used = 0.0
    for p in placed:
        if (
            rows
            and used + PAGE.gap + p.size[0] <= width
            and p.scale == rows[-1][0].scale
            and row_tall([*rows[-1], p]) <= height
        ):
            rows[-1].append(p)
            used += PAGE.gap + p.size[0]
        else:
            rows.append([p])
            used = p.size[0]
    return [row if row_tall(level := levelled(row)) > height else level for row in rows]


def row_tall(row: Sequence[Placed]) -> float:
    """Height of a row lined up at the views' zero."""
    return max(p.box[3] for p in row) - min(p.box[1] for p in row)


def _sheets(rows: Sequence[list[Placed]], height: float) -> list[list[list[Placed]]]:
    sheets: list[list[list[Placed]]] = []
    used = 0.0
    for row in rows:
        tall = row_tall(row)
        if sheets and used + PAGE.gap + tall <= height:
            sheets[-1].append(row)
            used += PAGE.gap + tall
        else:
            sheets.append([row])
            used = tall
    return sheets


def levelled(row: Sequence[Placed]) -> list[Placed]:
    """The views of a row with their titles level; the longer notes under one may then reach lower."""
    lowest = min(title_height(p) for p in row)
    return [lowered(p, title_height(p) - lowest) for p in row]


def set_rows(rows: Sequence[Sequence[Placed]], space: Box) -> list[tuple[Placed, Point]]:
    """Rows in a space, the white space shared out evenly between the views and at the ends."""
    width, height = size_of(space)
    spare = (height - fsum(row_tall(r) for r in rows)) / (len(rows) + 1)
    found: list[tuple[Placed, Point]] = []
    top = space[3] - spare
    for row in rows:
        low, high = min(p.box[1] for p in row), max(p.box[3] for p in row)
        between = (width - fsum(p.size[0] for p in row)) / (len(row) + 1)
        x = space[0] + between
        for p in row:
            found.append((p, (x - p.box[0], top - high)))
            x += p.size[0] + between
        top -= high - low + spare
    return found
