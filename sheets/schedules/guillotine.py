"""Layouts that a table saw can make of a sheet: rips from edge to edge, then crosscuts, then rips of what is
left, then a trim to length.

A sheet is ripped into strips along its length and each strip is crosscut into segments; or it is first
crosscut into sections and each of those is ripped. A segment wider than its first piece is ripped once more,
and beside that piece lie others as long or shorter. Sheets are filled one after the other by the strips that
use their width best, a knapsack saying what a strip of each width holds (Gilmore and Gomory 1965, two-stage
patterns); what fills the segments up is taken by value. How many sheets are needed at least is not sought:
the plan states what the area alone needs.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum

from sheets.schedules.knapsack import Knapsack, fill

_DEARER = (1.05, 1.2, 1.4, 1.7)
_MOST_TRIED = 60
"""By how much a large piece is dearer than its area: each is tried, unless there are more kinds than this."""
_TRIED = 5
"""So many of the strips that are best without stacking are filled up and compared."""


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


Segment = tuple[Laid, ...]
"""What is cut off a strip: a piece, and those ripped beside it, none longer than the first."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A rip (or a section, when the layout is crosscut first): its width and the segments along it."""

    width: int
    segments: tuple[Segment, ...]

    @property
    def pieces(self) -> tuple[Laid, ...]:
        return tuple(piece for segment in self.segments for piece in segment)


@dataclass(frozen=True, slots=True)
class Layout:
    """How one sheet is cut. sections: it is first crosscut; strips then lie across its length."""

    sections: bool
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class _Side:
    """A piece as it lies for one of the two kinds of layout: its run along the strip, its width across it."""

    kind: int
    turned: bool
    run: int
    width: int


def lay_out(pieces: tuple[Rectangle, ...], along: int, across: int) -> tuple[Layout, ...]:
    """Return layouts of sheets `along` × `across` (kerf added), one for each, that make every piece as often
    as demanded.

    Raises ValueError for a piece that the sheet does not hold.
    """
    if not pieces:
        return ()
    for piece in pieces:
        if not _fits(piece, along, across):
            raise ValueError("a piece is larger than the sheet")
    task = _Task(pieces, along, across)
    demands = tuple(piece.demand for piece in pieces)
    tries = [
        _greedy(task, demands, _areas(pieces, dearer), stacked=stacked)
        for dearer in (_DEARER if len(pieces) <= _MOST_TRIED else _DEARER[:1])
        for stacked in (False, True)
    ]
    best = min(tries, key=lambda layouts: (len(layouts), _last_used(task, layouts)))
    return _without_surplus(best, demands)


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


def _areas(pieces: tuple[Rectangle, ...], dearer: float) -> tuple[float, ...]:
    # Larger pieces dearer than their area, so that they are placed while there is room.
    largest = max(piece.along * piece.across for piece in pieces)
    return tuple((p.along * p.across / largest) ** dearer for p in pieces)


@dataclass(frozen=True, slots=True)
class _Rips:
    """What strips of each width can be worth, from one pass of the knapsack; laid out when chosen."""

    sides: tuple[_Side, ...]  # narrowest first
    run: int
    bag: Knapsack
    worths: tuple[tuple[float, int], ...]  # and the place of the last side that goes in

    def width(self, place: int) -> int:
        return self.sides[place].width

    def strip(self, place: int, most: tuple[int, ...]) -> Strip:
        """Return the strip. most: take no more pieces than so many, however often their kinds were priced."""
        counts = _within_demand(self.bag.counts(self.run, len(self.sides), place + 1), self.sides, most)
        sides = self.sides
        taken = sorted(
            (k for k in range(place + 1) if counts[k]), key=lambda k: (-sides[k].width, -sides[k].run)
        )
        laid = tuple((Laid(sides[k].kind, sides[k].turned),) for k in taken for _ in range(counts[k]))
        return Strip(sides[taken[0]].width, laid)


def _rips(task: _Task, sections: bool, values: tuple[float, ...], most: tuple[int, ...]) -> _Rips:
    """The most valuable strip of each width that a piece has.

    A piece that may lie two ways counts as two kinds, each with the whole demand: what a bound needs, for it
    may only be too generous.
    """
    sides = tuple(side for side in task.sides(sections) if values[side.kind] > 0 and most[side.kind] > 0)
    run = task.run(sections)
    bag = fill(
        tuple(s.run for s in sides),
        tuple(values[s.kind] for s in sides),
        tuple(most[s.kind] for s in sides),
        run,
    )
    worths, before = [], 0.0
    for place, worth in enumerate(bag.growth):
        last_of_width = place + 1 == len(sides) or sides[place + 1].width != sides[place].width
        if last_of_width and worth > before:
            worths.append((worth, place))
            before = worth
    return _Rips(sides, run, bag, tuple(worths))


def _within_demand(
    counts: tuple[int, ...], sides: tuple[_Side, ...], most: tuple[int, ...]
) -> tuple[int, ...]:
    # A piece that may lie two ways was priced as two kinds: together they may exceed what is wanted.
    left, kept = list(most), []
    for side, count in zip(sides, counts, strict=True):
        kept.append(min(count, left[side.kind]))
        left[side.kind] -= kept[-1]
    return tuple(kept)


def _greedy(
    task: _Task, demands: tuple[int, ...], values: tuple[float, ...], *, stacked: bool
) -> list[Layout]:
    """Sheet after sheet, the kind of layout that uses more; in it the strip that uses its width best."""
    left, layouts = demands, []
    while any(left):
        tries = [_one_sheet(task, sections, values, left, stacked=stacked) for sections in (False, True)]
        layout = max(
            tries, key=lambda made: fsum(values[p.kind] for strip in made.strips for p in strip.pieces)
        )
        counts = _counts(layout, len(task.pieces))
        left = tuple(have - count for have, count in zip(left, counts, strict=True))
        layouts.append(layout)
    return layouts


def _last_used(task: _Task, layouts: list[Layout]) -> float:
    """How much of the sheet that is used least is ripped: of plans of as many sheets the one that leaves the
    most in one piece is the better.
    """
    return min(fsum(strip.width for strip in each.strips) / task.room(each.sections) for each in layouts)


def _one_sheet(
    task: _Task, sections: bool, values: tuple[float, ...], left: tuple[int, ...], *, stacked: bool
) -> Layout:
    room, sides = task.room(sections), task.sides(sections)
    strips: list[Strip] = []
    while True:
        rips = _rips(task, sections, values, left)
        ranked = sorted(
            (place for _, place in rips.worths if rips.width(place) <= room),
            key=lambda place: (-rips.bag.growth[place] / rips.width(place), -rips.width(place)),
        )
        if not ranked:
            return Layout(sections, tuple(strips))
        tried = [rips.strip(place, left) for place in ranked[:_TRIED]]
        if stacked:
            tried = [_filled(strip, sides, values, left) for strip in tried]
        strip = max(tried, key=lambda each: (_worth(each, values) / each.width, each.width))
        counts = _counts(Layout(sections, (strip,)), len(left))
        while strip.width <= room and all(have >= count for have, count in zip(left, counts, strict=True)):
            strips.append(strip)
            room -= strip.width
            left = tuple(have - count for have, count in zip(left, counts, strict=True))


def _filled(
    strip: Strip, sides: tuple[_Side, ...], values: tuple[float, ...], left: tuple[int, ...]
) -> Strip:
    """The strip with pieces ripped beside those that are narrower than it."""
    by_lying = {(side.kind, side.turned): side for side in sides}
    rest = list(left)
    for piece in strip.pieces:
        rest[piece.kind] -= 1
    # By value, so that what is hardest to place goes in first.
    ranked = sorted(sides, key=lambda s: (-values[s.kind], s.kind, s.turned))
    segments: list[Segment] = []
    for segment in strip.segments:
        first = by_lying[segment[0].kind, segment[0].turned]
        room = strip.width - first.width
        pieces = list(segment)
        for side in ranked:
            if side.run > first.run or side.width > room or values[side.kind] <= 0:
                continue
            copies = min(rest[side.kind], room // side.width)
            pieces += [Laid(side.kind, side.turned)] * copies
            rest[side.kind] -= copies
            room -= copies * side.width
        segments.append(tuple(pieces))
    return Strip(strip.width, tuple(segments))


def _worth(strip: Strip, values: tuple[float, ...]) -> float:
    return fsum(values[piece.kind] for piece in strip.pieces)


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
            segments = []
            for segment in strip.segments:
                kept = []
                for piece in segment:
                    if left[piece.kind]:
                        left[piece.kind] -= 1
                        kept.append(piece)
                if kept:
                    segments.append(tuple(kept))
            if segments:
                strips.append(Strip(strip.width, tuple(segments)))
        if strips:
            tidy.append(Layout(layout.sections, tuple(strips)))
    return tuple(tidy)
