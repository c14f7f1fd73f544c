"""Which of plans, elevation and sections share a sheet, and where they stand on it. Paper mm.

Orthographic views line up: plans under the elevation in x, sections beside it in height. Of the ways to
arrange them the one with the fewest sheets is taken, as long as no view gets much smaller than it could be.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import fsum

from sheets.annotate.intent import Annotated
from sheets.base.tolerance import SAME_POINT
from sheets.compose.page_sizes import PAGE
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.compose.pages.view_rows import MOST_LOST, in_rows, levelled, row_tall, set_rows
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.placed import Placed, title_height
from sheets.compose.placing.sayings import PLAIN, Crowding
from sheets.compose.scales import Scale
from sheets.geometry.box import Box
from sheets.geometry.path import Point

_KINDS = ("plan", "elevation", "section")  # in the order of the digits of their sheets

Body = tuple[tuple[Placed, Point], ...]


@dataclass(frozen=True, slots=True)
class _Task:
    """The views of a set, how large each could be, and the sheet."""

    elevation: Annotated
    plans: tuple[Annotated, ...]
    sections: tuple[Annotated, ...]
    fitter: Fitter
    space: Box
    largest: dict[str, Fraction]  # of each view alone on a sheet, by its id

    def manners(self, *views: Annotated) -> Iterator[tuple[Scale, Crowding]]:
        """Scales at which none of some views loses too much, largest first, each without keynotes."""
        most = min(self.largest[v.view.id] for v in views)
        for scale in self.fitter.scales(views[0]):
            lost = max(self.largest[v.view.id] for v in views) > scale.ratio * MOST_LOST
            if scale.ratio <= most and not lost:
                for crowding in PLAIN:
                    yield scale, crowding

    def at(self, views: Sequence[Annotated], scale: Scale, crowding: Crowding) -> list[Placed]:
        return [self.fitter.at(v, scale, crowding) for v in views]

    def may_fit(self, column: Sequence[Annotated], row: Sequence[Annotated], scale: Scale) -> bool:
        """False if views one under the other, with a row beside them, are surely too large; soon told."""
        width, height = size_of(self.space)
        down = [self.fitter.least(v, scale, 1) for v in column]
        across = [self.fitter.least(v, scale, 1) for v in row]
        wide = max((w for w, _ in down), default=0.0) + fsum(w for w, _ in across)
        tall = max((fsum(h for _, h in down), *(h for _, h in across)))
        return wide <= width and tall <= height


def orthographic(
    views: Sequence[Annotated], fitter: Fitter, space: Box
) -> tuple[tuple[Page, ...], tuple[Annotated, ...]]:
    """The sheets of plans, elevations and sections, in their order; and the views that no scale gets
    on one."""
    plans, elevations, sections = (tuple(v for v in views if v.view.kind == kind) for kind in _KINDS)
    alone = {v.view.id: fitter.largest(v, *size_of(space)) for v in (*plans, *elevations, *sections)}
    scales = [p.scale for v in (*elevations[:1], *plans) if (p := alone[v.view.id]) is not None]
    shared = min(scales, key=lambda s: s.ratio) if plans and elevations and scales else None
    if not elevations or not (plans or sections) or any(p is None for p in alone.values()):
        return _apart(plans, elevations, sections, shared, fitter, space)
    largest = {key: p.scale.ratio for key, p in alone.items() if p is not None}
    task = _Task(elevations[0], plans, sections, fitter, space, largest)
    pages, unplaced = _apart(plans, elevations, sections, shared, fitter, space)
    for way in _WAYS:
        tried = way(task)
        if tried is None:
            continue
        bodies, left = tried
        more, too_large = _apart(
            tuple(v for v in left if v.view.kind == "plan"),
            (*(v for v in left if v.view.kind == "elevation"), *elevations[1:]),
            tuple(v for v in left if v.view.kind == "section"),
            shared, fitter, space,
        )  # fmt: skip
        if len(bodies) + len(more) < len(pages):
            pages, unplaced = (*(_page(body) for body in bodies), *more), too_large
    return _numbered(pages), unplaced


def _page(body: Body) -> Page:
    kinds = [placed.annotated.view.kind for placed, _ in body]
    names = [k.upper() + ("S" if kinds.count(k) > 1 else "") for k in _KINDS if k in kinds]
    title = " AND ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]
    first = next(k for k, kind in enumerate(_KINDS, 1) if kind in kinds)
    return Page(sheet_number(first, 1), title, body)


def _numbered(pages: Sequence[Page]) -> tuple[Page, ...]:
    # Counted anew within each digit, since sheets of one digit may come from two places.
    counts: dict[str, int] = {}
    found: list[Page] = []
    for page in sorted(pages, key=lambda p: p.number[:3]):
        digit = page.number[2]
        counts[digit] = counts.get(digit, 0) + 1
        found.append(replace(page, number=sheet_number(int(digit), counts[digit])))
    return tuple(found)


def _apart(
    plans: Sequence[Annotated],
    elevations: Sequence[Annotated],
    sections: Sequence[Annotated],
    shared: Scale | None,
    fitter: Fitter,
    space: Box,
) -> tuple[tuple[Page, ...], tuple[Annotated, ...]]:
    # shared: the scale of plans and elevation, so that sizes compare at a glance.
    stack = _stacked([fitter.at(v, shared) for v in plans], space) if shared and plans else None
    pages: list[Page] = [_page(stack)] if stack else []
    unplaced: list[Annotated] = []
    groups = ((1, "PLAN", () if stack else plans), (2, "ELEVATION", elevations), (3, "SECTION", sections))
    for kind, title, group in groups:
        at_most = shared if kind < 3 else None
        more, left = in_rows(group, fitter, space, kind, title, at_most=at_most)
        pages += more
        unplaced += left
    return tuple(pages), tuple(unplaced)


Way = Callable[[_Task], tuple[tuple[Body, ...], tuple[Annotated, ...]] | None]
"""A way to arrange: the sheets it makes, and the views that are left for sheets of their own."""


def _all_on_one(task: _Task) -> tuple[tuple[Body, ...], tuple[Annotated, ...]] | None:
    # Plans under the elevation, sections at its right.
    if not task.plans or not task.sections:
        return None
    x0, y0, x1, y1 = task.space
    for scale, crowding in task.manners(task.elevation, *task.sections):
        if not task.may_fit((task.elevation, *task.plans), task.sections, scale):
            continue
        column = task.at((task.elevation, *task.plans), scale, crowding)
        row = task.at(task.sections, scale, crowding)
        beside = fsum(p.size[0] for p in row)
        wide = max(p.box[2] for p in column) - min(p.box[0] for p in column)
        between = (x1 - x0 - wide - beside) / (len(row) + 2)
        if between < PAGE.gap / 2:
            continue
        stack = _stacked(column, Box(x0 + between, y0, x0 + between + wide, y1))
        if stack is None:
            continue
        level, x, body = stack[0][1][1], x0 + 2 * between + wide, [stack[0]]
        for p in row:
            body.append((p, (x - p.box[0], level)))
            x += p.size[0] + between
        if all(y0 <= at[1] + p.box[1] and at[1] + p.box[3] <= y1 for p, at in body[1:]):
            return ((*body, *stack[1:]),), ()
    return None


def _all_in_a_row(task: _Task) -> tuple[tuple[Body, ...], tuple[Annotated, ...]] | None:
    return _row_of(task, task.plans, ()) if task.plans and task.sections else None


def _elevation_and_sections(task: _Task) -> tuple[tuple[Body, ...], tuple[Annotated, ...]] | None:
    return _row_of(task, (), task.plans) if task.sections else None


def _elevation_over_plans(task: _Task) -> tuple[tuple[Body, ...], tuple[Annotated, ...]] | None:
    if not task.plans:
        return None
    for scale, crowding in task.manners(task.elevation):
        if task.may_fit((task.elevation, *task.plans), (), scale):
            stack = _stacked(task.at((task.elevation, *task.plans), scale, crowding), task.space)
            if stack is not None:
                return (stack,), task.sections
    return None


def _plans_over_sections(task: _Task) -> tuple[tuple[Body, ...], tuple[Annotated, ...]] | None:
    # The elevation has a sheet of its own, and sets the scale of the plans.
    if not task.plans or not task.sections:
        return None
    ratio = min(task.largest[v.view.id] for v in (task.elevation, *task.plans))
    shared = next(s for s in task.fitter.scales(task.elevation) if s.ratio == ratio)
    plans = task.at(task.plans, shared, 0)
    x0, y0, x1, y1 = task.space
    above = fsum(p.size[1] for p in plans) + PAGE.under * (len(plans) - 1)
    for scale, crowding in task.manners(*task.sections):
        row = levelled(task.at(task.sections, scale, crowding))
        spare = (y1 - y0 - above - row_tall(row)) / 3
        if spare < PAGE.under or not _fits_across(row, task.space):
            continue
        stack = _stacked(plans, Box(x0, y1 - 2 * spare - above, x1, y1))
        if stack is not None:
            low = Box(x0, y0, x1, y0 + row_tall(row) + 2 * spare)
            return ((*stack, *set_rows([row], low)),), (task.elevation,)
    return None


_WAYS: tuple[Way, ...] = (
    _all_on_one, _elevation_over_plans, _all_in_a_row, _elevation_and_sections, _plans_over_sections,
)  # fmt: skip


def _row_of(
    task: _Task, plans: Sequence[Annotated], left: tuple[Annotated, ...]
) -> tuple[tuple[Body, ...], tuple[Annotated, ...]] | None:
    # Plans one under the other, the elevation, the sections; all titles level.
    x0, y0, x1, y1 = task.space
    for scale, crowding in task.manners(task.elevation, *task.sections):
        if not task.may_fit(plans, (task.elevation, *task.sections), scale):
            continue
        row = levelled(task.at((task.elevation, *task.sections), scale, crowding))
        column = task.at(plans, scale, crowding)
        wide = max((p.box[2] for p in column), default=0.0) - min((p.box[0] for p in column), default=0.0)
        columns = len(row) + (1 if column else 0)
        between = (x1 - x0 - wide - fsum(p.size[0] for p in row)) / (columns + 1)
        if between * (columns + 1) < PAGE.gap * (columns - 1) or row_tall(row) > y1 - y0:
            continue
        body: list[tuple[Placed, Point]] = set_rows(
            [row], Box(x0 + (wide + between if column else 0.0), y0, x1, y1)
        )
        y = body[0][1][1] + title_height(row[0])
        for p in reversed(column):
            at = (x0 + between - min(q.box[0] for q in column), y - title_height(p))
            body.insert(0, (p, at))
            y = at[1] + p.box[3] + PAGE.under + title_height(p) - p.box[1]
        if all(y0 <= at[1] + p.box[1] and at[1] + p.box[3] <= y1 for p, at in body):
            return (tuple(body),), left
    return None


def _fits_across(row: Sequence[Placed], space: Box) -> bool:
    return fsum(p.size[0] for p in row) + PAGE.gap * (len(row) - 1) <= size_of(space)[0]


def _stacked(column: Sequence[Placed], space: Box) -> Body | None:
    """Views one under the other on one axis, in the middle of a space; None if they do not fit it."""
    left, right = min(p.box[0] for p in column), max(p.box[2] for p in column)
    width, height = size_of(space)
    spare = height - fsum(p.size[1] for p in column)
    inner = len(column) - 1
    if right - left > width + SAME_POINT or spare < PAGE.under * inner:
        return None
    between = max(spare / (inner + 2), PAGE.under)
    x = (space[0] + space[2]) / 2 - (left + right) / 2
    y = space[3] - (spare - between * inner) / 2
    found: list[tuple[Placed, Point]] = []
    for p in column:
        found.append((p, (x, y - p.box[3])))
        y -= p.size[1] + between
    return tuple(found)
