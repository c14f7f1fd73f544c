"""Layouts that a table saw can make of a sheet: rips from edge to edge, then crosscuts, then a trim to width.

A sheet is ripped into strips along its length and each strip is crosscut; or it is first crosscut into
sections and each of those is ripped. A piece narrower than its strip is ripped once more. Layouts are priced
by two knapsacks, one for what a strip holds and one for which strips a sheet holds (Gilmore and Gomory 1965,
two-stage patterns).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from sheets.schedules.knapsack import fill
from sheets.schedules.relaxation import relaxed, whole

_MOST_ROUNDS = 200
_ROUNDING = 1e-7
_EFFORT_A_KIND = 30
"""A search is begun only when the effort allowed is this much for each kind of piece: beyond, the gap is
stated.
"""


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A kind of piece in whole units, kerf added to both sizes: along the sheet's grain, and across it."""

    along: int
    across: int
    demand: int
    may_turn: bool = False


@dataclass(frozen=True, slots=True)
class Laid:
    """One piece of a strip: which kind, and whether it is turned across the grain."""

    kind: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Strip:
    """A rip (or a section, when the layout is crosscut first): its width and the pieces along it."""

    width: int
    pieces: tuple[Laid, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """How one sheet is cut. sections: it is first crosscut; strips then lie across its length."""

    sections: bool
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """One layout a sheet. bound: no way of cutting needs fewer sheets; class_bound: none of these two kinds
    does.
    """

    layouts: tuple[Layout, ...]
    bound: int
    class_bound: int
    stopped: bool = False


@dataclass(frozen=True, slots=True)
class _Side:
    """A piece as it lies for one of the two kinds of layout: its run along the strip, its width across it."""

    kind: int
    turned: bool
    run: int
    width: int


def lay_out(pieces: tuple[Rectangle, ...], along: int, across: int, effort: int, seconds: float) -> SheetPlan:
    """Return layouts of sheets `along` × `across` (kerf added) that make every piece as often as demanded.

    Raises ValueError for a piece that the sheet does not hold.
    """
    if not pieces:
        return SheetPlan((), 0, 0)
    for piece in pieces:
        if not _fits(piece, along, across):
            raise ValueError("a piece is larger than the sheet")
    task = _Task(pieces, along, across)
    demands = tuple(piece.demand for piece in pieces)
    area = sum(piece.along * piece.across * piece.demand for piece in pieces)
    bound = ceil(area / (along * across) - _ROUNDING)
    best = _greedy(task, demands, _areas(pieces))
    if len(best) == bound:
        return SheetPlan(tuple(best), bound, bound)
    known, lowest = _generate(task, best)
    class_bound = max(bound, ceil(lowest - _ROUNDING))
    stopped = len(best) > class_bound and _EFFORT_A_KIND * len(pieces) > effort
    if len(best) > class_bound and not stopped:
        counts = [_counts(layout, len(pieces)) for layout in known]
        times, stopped = whole(counts, [1.0] * len(known), demands, effort, seconds)
        if times is not None and sum(times) < len(best):
            best = [layout for layout, often in zip(known, times, strict=True) for _ in range(often)]
    tidy = _without_surplus(best, demands)
    return SheetPlan(tidy, bound, min(class_bound, len(tidy)), stopped and len(tidy) > class_bound)


@dataclass(frozen=True, slots=True)
class _Task:
    pieces: tuple[Rectangle, ...]
    along: int
    across: int

    def sides(self, sections: bool) -> tuple[_Side, ...]:
        """Every way a piece may lie in such a layout, narrowest first."""
        found = []
        for kind, piece in enumerate(self.pieces):
            for turned in (False, True) if piece.may_turn and piece.along != piece.across else (False,):
                size = (piece.across, piece.along) if turned else (piece.along, piece.across)
                run, width = size[::-1] if sections else size
                if run <= self.run(sections) and width <= self.room(sections):
                    found.append(_Side(kind, turned, run, width))
        return tuple(sorted(found, key=lambda s: (s.width, s.run, s.kind, s.turned)))

    def run(self, sections: bool) -> int:
        """How long a strip is."""
        return self.across if sections else self.along

    def room(self, sections: bool) -> int:
        """How much width the strips share."""
        return self.along if sections else self.across


def _fits(piece: Rectangle, along: int, across: int) -> bool:
    straight = piece.along <= along and piece.across <= across
    return straight or (piece.may_turn and piece.across <= along and piece.along <= across)


def _areas(pieces: tuple[Rectangle, ...]) -> tuple[float, ...]:
    # Larger pieces a little dearer than their area, so that they are placed while there is room.
    largest = max(piece.along * piece.across for piece in pieces)
    return tuple((p.along * p.across / largest) ** 1.05 for p in pieces)


def _best_strips(
    task: _Task, sections: bool, values: tuple[float, ...], most: tuple[int, ...], *, real: bool
) -> tuple[tuple[float, Strip], ...]:
    """The most valuable strip of each width that a piece has, from one pass of the knapsack.

    real: take no more pieces than wanted. Otherwise a piece that may lie two ways counts as two kinds, each
    with the
    whole demand: what a bound needs, for it may only be too generous.
    """
    sides = tuple(side for side in task.sides(sections) if values[side.kind] > 0 and most[side.kind] > 0)
    run = task.run(sections)
    bag = fill(
        tuple(s.run for s in sides),
        tuple(values[s.kind] for s in sides),
        tuple(most[s.kind] for s in sides),
        run,
    )
    found = []
    for place, side in enumerate(sides):
        if place + 1 < len(sides) and sides[place + 1].width == side.width:
            continue
        counts = bag.counts(run, len(sides), place + 1)
        if real:
            counts = _within_demand(counts, sides, most)
        taken = sorted(
            (k for k in range(place + 1) if counts[k]), key=lambda k: (-sides[k].width, -sides[k].run)
        )
        laid = tuple(Laid(sides[k].kind, sides[k].turned) for k in taken for _ in range(counts[k]))
        if laid:
            worth = sum(values[piece.kind] for piece in laid)
            found.append((worth, Strip(sides[taken[0]].width, laid)))
    return tuple(found)


def _within_demand(
    counts: tuple[int, ...], sides: tuple[_Side, ...], most: tuple[int, ...]
) -> tuple[int, ...]:
    # A piece that may lie two ways was priced as two kinds: together they may exceed what is wanted.
    left, kept = list(most), []
    for side, count in zip(sides, counts, strict=True):
        kept.append(min(count, left[side.kind]))
        left[side.kind] -= kept[-1]
    return tuple(kept)


def _greedy(task: _Task, demands: tuple[int, ...], values: tuple[float, ...]) -> list[Layout]:
    """Sheet after sheet, the kind of layout that uses more; in it the strip that uses its width best."""
    left, layouts = demands, []
    while any(left):
        tries = [_one_sheet(task, sections, values, left) for sections in (False, True)]
        layout = max(
            tries, key=lambda made: sum(values[p.kind] for strip in made.strips for p in strip.pieces)
        )
        counts = _counts(layout, len(task.pieces))
        left = tuple(have - count for have, count in zip(left, counts, strict=True))
        layouts.append(layout)
    return layouts


def _one_sheet(task: _Task, sections: bool, values: tuple[float, ...], left: tuple[int, ...]) -> Layout:
    room = task.room(sections)
    strips: list[Strip] = []
    while True:
        rips = _best_strips(task, sections, values, left, real=True)
        choices = [(worth / strip.width, strip) for worth, strip in rips if strip.width <= room]
        if not choices:
            return Layout(sections, tuple(strips))
        strip = max(choices, key=lambda choice: (choice[0], choice[1].width))[1]
        counts = _counts(Layout(sections, (strip,)), len(left))
        while strip.width <= room and all(have >= count for have, count in zip(left, counts, strict=True)):
            strips.append(strip)
            room -= strip.width
            left = tuple(have - count for have, count in zip(left, counts, strict=True))


def _generate(task: _Task, start: list[Layout]) -> tuple[list[Layout], float]:
    """Layouts worth having, and the bound of the relaxation over all layouts of the two kinds."""
    demands = tuple(piece.demand for piece in task.pieces)
    known = list(dict.fromkeys(start))
    bound = 0.0
    for _ in range(_MOST_ROUNDS):
        counts = [_counts(layout, len(demands)) for layout in known]
        prices, value, _x = relaxed(counts, [1.0] * len(known), demands)
        fresh, worth = [], 1.0
        for sections in (False, True):
            layout, valued = _dearest(task, sections, prices, demands)
            worth = max(worth, valued)
            if valued > 1.0 + 1e-9 and layout not in known:
                fresh.append(layout)
        bound = max(bound, value / worth)
        known += fresh
        if not fresh or ceil(bound - _ROUNDING) >= ceil(value - _ROUNDING):
            break
    return known, bound


def _dearest(
    task: _Task, sections: bool, prices: tuple[float, ...], demands: tuple[int, ...]
) -> tuple[Layout, float]:
    """The layout worth most at these prices, and what no layout of the kind can be worth more than."""
    strips = _best_strips(task, sections, prices, demands, real=False)
    if not strips:
        return Layout(sections, ()), 0.0
    room = task.room(sections)
    bag = fill(
        tuple(s.width for _, s in strips),
        tuple(w for w, _ in strips),
        tuple(room // s.width for _, s in strips),
        room,
    )
    counts = bag.counts(room, len(strips))
    chosen = [strip for (_, strip), count in zip(strips, counts, strict=True) for _ in range(count)]
    chosen.sort(key=lambda strip: -strip.width)
    return Layout(sections, tuple(chosen)), float(bag.best[room])


def _counts(layout: Layout, kinds: int) -> tuple[int, ...]:
    found = [0] * kinds
    for strip in layout.strips:
        for piece in strip.pieces:
            found[piece.kind] += 1
    return tuple(found)


def _without_surplus(layouts: list[Layout], demands: tuple[int, ...]) -> tuple[Layout, ...]:
    left, tidy = list(demands), []
    for layout in layouts:
        strips = []
        for strip in layout.strips:
            kept = []
            for piece in strip.pieces:
                if left[piece.kind]:
                    left[piece.kind] -= 1
                    kept.append(piece)
            if kept:
                strips.append(Strip(strip.width, tuple(kept)))
        if strips:
            tidy.append(Layout(layout.sections, tuple(strips)))
    return tuple(tidy)
