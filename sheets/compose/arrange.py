"""Views on sheets: plan with elevation, sections in rows, in the order of a set. Paper mm.

Orthographic views line up: plan and elevation in x, sections of one row in height.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sheets.annotate.intent import Annotated
from sheets.base.diagnostics import Diagnostic
from sheets.compose.fitting import Fitter, too_large
from sheets.compose.page import Page, sheet_number, size_of
from sheets.compose.placing import Placed, lowered, title_height
from sheets.compose.scales import Scale
from sheets.geometry.path import Box, Point
from sheets.model.wall import Paper

GAP = 10.0
"""Least white space between views, mm."""
_TOGETHER = Fraction(1, 16)
"""Plan and elevation share a sheet if they may be at 3/4" or larger; smaller, if apart they gain no more
than a step."""
_A_STEP = Fraction(8, 5)
_DIVISIBLE = ("elevation", "plan")  # a section is as tall as the room: it has no place to be divided


def plans_and_elevations(
    views: Sequence[Annotated], fitter: Fitter, space: Box, paper: Paper
) -> tuple[tuple[Page, ...], tuple[Diagnostic, ...]]:
    """The sheets of plans and elevations: the first of each aligned on one sheet where they fit."""
    plans = [v for v in views if v.view.kind == "plan"]
    elevations = [v for v in views if v.view.kind == "elevation"]
    pages: list[Page] = []
    found: list[Diagnostic] = []
    together = _pair(elevations[0], plans[0], fitter, space) if plans and elevations else None
    at_most = _common(elevations[0], plans[0], fitter, space) if plans and elevations else None
    if together:
        pages.append(Page(sheet_number(1, 1), "PLAN AND ELEVATION", together))
        plans, elevations = plans[1:], elevations[1:]
    for kind, title, group in ((1, "PLAN", plans), (2, "ELEVATION", elevations)):
        start = 1 + sum(1 for p in pages if p.number.startswith(f"Z-{kind}"))
        more, problems = in_rows(group, fitter, space, paper, kind, title, first=start, at_most=at_most)
        pages += more
        found += problems
    return tuple(sorted(pages, key=lambda p: p.number)), tuple(found)


def _pair(
    elevation: Annotated, plan: Annotated, fitter: Fitter, space: Box
) -> tuple[tuple[Placed, Point], ...] | None:
    # None: apart they are larger by more than a step of the series, and then it is better that they are
    # apart.
    width, height = size_of(space)
    alone = fitter.largest(elevation, width, height)
    for scale in fitter.scales(elevation):
        least = [fitter.least(v, scale) for v in (elevation, plan)]
        if max(w for w, _ in least) > width or sum(h for _, h in least) + GAP > height:
            continue
        if alone and scale.ratio < _TOGETHER and alone.scale.ratio > scale.ratio * _A_STEP:
            return None
        above, below = fitter.at(elevation, scale), fitter.at(plan, scale)
        left, right = min(above.box[0], below.box[0]), max(above.box[2], below.box[2])
        if right - left > width or above.size[1] + below.size[1] + GAP > height:
            continue
        x = (space[0] + space[2]) / 2 - (left + right) / 2
        spare = (height - above.size[1] - below.size[1]) / 3
        return (
            (above, (x, space[3] - spare - above.box[3])),
            (below, (x, space[1] + spare - below.box[1])),
        )
    return None


def _common(elevation: Annotated, plan: Annotated, fitter: Fitter, space: Box) -> Scale | None:
    # Apart they still share a scale, so that sizes compare at a glance.
    alone = [fitter.largest(v, *size_of(space)) for v in (elevation, plan)]
    scales = [p.scale for p in alone if p is not None]
    return min(scales, key=lambda s: s.ratio) if scales else None


def in_rows(
    views: Sequence[Annotated],
    fitter: Fitter,
    space: Box,
    paper: Paper,
    kind: int,
    title: str,
    *,
    first: int = 1,
    at_most: Scale | None = None,
) -> tuple[tuple[Page, ...], tuple[Diagnostic, ...]]:
    """Views side by side at one scale, lined up in height, in as many rows and sheets as they need."""
    width, height = size_of(space)
    found: list[Diagnostic] = []
    fitting: list[Placed] = []
    for v in views:
        placed = fitter.largest(v, width, height)
        parts = fitter.in_parts(v, width, height) if placed is None and v.view.kind in _DIVISIBLE else ()
        if parts:
            fitting += parts
        elif placed is None:
            found.append(too_large(v, fitter, paper.size, paper.orientation, (width, height)))
        else:
            fitting.append(placed)
    if not fitting:
        return (), tuple(found)
    smallest = min((p.scale for p in fitting), key=lambda s: s.ratio)
    smallest = at_most if at_most and at_most.ratio < smallest.ratio else smallest
    fitting = [fitter.roomiest(p.annotated, smallest, (width, height)) for p in fitting]
    pages: list[Page] = []
    rows = _rows(fitting, width, height)
    sheets = _sheets(rows, height)
    for k, sheet_rows in enumerate(sheets):
        pages.append(
            Page(
                sheet_number(kind, first + k), _plural(title, sheet_rows), tuple(_set_rows(sheet_rows, space))
            )
        )
    return tuple(pages), tuple(found)


def _plural(title: str, rows: Sequence[Sequence[Placed]]) -> str:
    return title + "S" if sum(len(r) for r in rows) > 1 else title


def _rows(placed: Sequence[Placed], width: float, height: float) -> list[list[Placed]]:
    rows: list[list[Placed]] = []
    used = 0.0
    for p in placed:
        if rows and used + GAP + p.size[0] <= width and p.scale == rows[-1][0].scale:
            rows[-1].append(p)
            used += GAP + p.size[0]
        else:
            rows.append([p])
            used = p.size[0]
    return [row if _row_tall(level := _level(row)) > height else level for row in rows]


def _row_tall(row: Sequence[Placed]) -> float:
    return max(p.box[3] for p in row) - min(p.box[1] for p in row)


def _sheets(rows: Sequence[list[Placed]], height: float) -> list[list[list[Placed]]]:
    sheets: list[list[list[Placed]]] = []
    used = 0.0
    for row in rows:
        tall = _row_tall(row)
        if sheets and used + GAP + tall <= height:
            sheets[-1].append(row)
            used += GAP + tall
        else:
            sheets.append([row])
            used = tall
    return sheets


def _level(row: Sequence[Placed]) -> list[Placed]:
    # Titles of a row stand level; the longer notes under one may then reach lower.
    lowest = min(title_height(p) for p in row)
    return [lowered(p, title_height(p) - lowest) for p in row]


def _set_rows(rows: Sequence[Sequence[Placed]], space: Box) -> list[tuple[Placed, Point]]:
    # White space is shared out evenly, between the views and at the ends.
    width, height = size_of(space)
    spare = (height - sum(_row_tall(r) for r in rows)) / (len(rows) + 1)
    found: list[tuple[Placed, Point]] = []
    top = space[3] - spare
    for row in rows:
        low, high = min(p.box[1] for p in row), max(p.box[3] for p in row)
        between = (width - sum(p.size[0] for p in row)) / (len(row) + 1)
        x = space[0] + between
        for p in row:
            found.append((p, (x - p.box[0], top - high)))
            x += p.size[0] + between
        top -= high - low + spare
    return found
