"""The cutting plan of boards: for each stock the fewest lengths, kerf and end trim counted, proven or with
its gap.

A board is ripped into lanes of one width, then each lane is crosscut. With several stock lengths the least
total length is sought. Every blank of every part is in one plan, once, save those that no stock holds.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, gcd, lcm

from sheets.base.keys import key_order
from sheets.model import settings
from sheets.model.part import Material, Part
from sheets.model.wall import Wall
from sheets.schedules.column_generation import Stock
from sheets.schedules.cutting_lanes import cut_lanes
from sheets.schedules.cutting_stock import Limits, Plan, cut
from sheets.schedules.parts import shop_parts
from sheets.schedules.stock import Kind, Rough, rough_of


@dataclass(frozen=True, slots=True)
class BoardPiece:
    """One blank in a board. Sizes in mm; `start` is from the end of the board, trim included."""

    key: str  # of its part
    mark: str
    name: str
    which: int  # of the blanks that its part is made up of, from 1
    of: int
    kind: str  # "strip", "layer", "length" when there are several
    lane: int
    start: Fraction
    length: Fraction
    width: Fraction

    @property
    def label(self) -> str:
        # Strips of one part are alike, so which of them it is need not be said.
        said = self.mark or self.name
        return f"{said} {self.kind}" if self.kind else said


@dataclass(frozen=True, slots=True)
class Board:
    """One board as cut. `offcuts`: what its lanes leave that is long enough to keep, end trim already off."""

    number: int  # counted in its material and stock
    length: Fraction
    width: Fraction
    lanes: int
    pieces: tuple[BoardPiece, ...]
    offcuts: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class BoardPlan:
    """All boards of one stock. cost and bound are counted in boards, or in mm of stock if lengths differ."""

    material: Material
    kind: Kind
    label: str  # "4/4", "1 × 6"
    thickness: Fraction  # nominal
    width: Fraction
    lanes: int
    boards: tuple[Board, ...]
    lengths: tuple[Fraction, ...]  # that it chose from
    cost: Fraction
    bound: Fraction
    stopped: bool

    @property
    def proven(self) -> bool:
        return self.cost <= self.bound

    @property
    def statement(self) -> str:
        """What is known of the plan, as printed under it."""
        aim = "fewest boards" if len(self.lengths) == 1 else "least length of stock"
        if self.proven:
            return f"{aim}: proven"
        gap = float(100 * (self.cost - self.bound) / self.bound)
        return f"{aim}: within {gap:.1f} % of the lower bound"


@dataclass(frozen=True, slots=True)
class Blank:
    """A piece to be cut: its length with allowance, or finished when no stock holds the allowance."""

    part: Part
    rough: Rough
    which: int
    length: Fraction


@dataclass(frozen=True, slots=True)
class BoardCutting:
    """All plans, and the parts that no stock length holds."""

    plans: tuple[BoardPlan, ...]
    too_long: tuple[Part, ...]
    without_allowance: tuple[Part, ...]


def cut_boards(wall: Wall) -> BoardCutting:
    """Return the cutting plans of all parts made of boards."""
    stock = wall.settings.stock
    longest = stock.longest
    groups: dict[tuple[object, ...], list[Blank]] = {}
    too_long, bare = [], []
    for part in shop_parts(wall):
        rough = rough_of(part, stock, wall.units)
        if rough is None or rough.kind == "panel":
            continue
        length = rough.blank[2] if rough.blank[2] <= longest else part.length
        if length > longest:
            too_long.append(part)
            continue
        if length < rough.blank[2]:
            bare.append(part)
        key = (part.material.key, rough.kind, rough.thickness, rough.width, rough.label, rough.lanes)
        groups.setdefault(key, []).extend(Blank(part, rough, n + 1, length) for n in range(rough.pieces))
    plans = tuple(plan_of(tuple(groups[key]), stock) for key in sorted(groups, key=str))
    ranked = sorted(plans, key=lambda p: (p.material.name, p.material.key, p.thickness, p.width, p.lanes))
    return BoardCutting(_numbered(ranked), tuple(too_long), tuple(bare))


def _numbered(plans: list[BoardPlan]) -> tuple[BoardPlan, ...]:
    """Boards counted on through the plans of one stock, so that a number names one board of it."""
    last: dict[tuple[str, str], int] = {}
    made = []
    for plan in plans:
        stock = (plan.material.key, plan.label)
        first = last.get(stock, 0)
        boards = tuple(replace(board, number=first + board.number) for board in plan.boards)
        last[stock] = first + len(boards)
        made.append(replace(plan, boards=boards))
    return tuple(made)


def plan_of(blanks: tuple[Blank, ...], stock: settings.Stock) -> BoardPlan:
    """Return the plan of blanks that are cut from one kind of board. Each fits the longest stock."""
    rough = blanks[0].rough
    lengths = tuple(sorted(set(stock.board_lengths)))
    sizes = tuple(sorted({blank.length for blank in blanks}))
    demands = tuple(sum(1 for blank in blanks if blank.length == size) for size in sizes)
    limits = Limits(stock.search.steps, stock.search.seconds)
    found = cut(*_whole_numbers(sizes, demands, lengths, stock), limits)
    boards = _boards(_lanes(found, sizes, lengths, blanks), rough, stock)
    bound = Fraction(ceil(Fraction(found.bound, rough.lanes)))
    cost = Fraction(len(boards))
    if len(lengths) > 1:
        unit, longest = _length_unit(lengths), sizes[-1] + 2 * stock.end_trim
        cost = _length_of(boards)
        bound = _next_sum(bound * unit, cost, lengths, longest)
        if rough.lanes > 1 and cost > bound:
            exact = cut_lanes(*_whole_numbers(sizes, demands, lengths, stock), rough.lanes, limits)
            tries = [boards]
            if exact is not None:
                tries.append(_boards(_lanes(exact, sizes, lengths, blanks), rough, stock))
                bound = _next_sum(max(bound, exact.bound * unit), cost, lengths, longest)
            if min(_length_of(made) for made in tries) > bound:
                # Lanes of one length fill boards better than the fewest lanes do.
                for length in (each for each in lengths if each >= longest):
                    alone = cut(*_whole_numbers(sizes, demands, (length,), stock), limits)
                    tries.append(_boards(_lanes(alone, sizes, (length,), blanks), rough, stock))
            boards = min(tries, key=lambda made: (_length_of(made), len(made)))
            cost = _length_of(boards)
    return BoardPlan(
        blanks[0].part.material,
        rough.kind,
        rough.label,
        rough.thickness,
        rough.width,
        rough.lanes,
        boards,
        lengths,
        cost,
        min(bound, cost),
        found.stopped,
    )


def _length_of(boards: tuple[Board, ...]) -> Fraction:
    return sum((board.length for board in boards), Fraction(0))


def _whole_numbers(
    sizes: tuple[Fraction, ...],
    demands: tuple[int, ...],
    lengths: tuple[Fraction, ...],
    stock: settings.Stock,
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[Stock, ...]]:
    # A cut follows every piece but the last, so a kerf is added to each piece and to the stock.
    kerf, trim = stock.kerf, stock.end_trim
    whole = lcm(
        kerf.denominator, trim.denominator, *(s.denominator for s in sizes), *(n.denominator for n in lengths)
    )
    unit = _length_unit(lengths)
    stocks = tuple(
        Stock(int((length - 2 * trim + kerf) * whole), 1 if len(lengths) == 1 else int(length / unit))
        for length in lengths
    )
    return tuple(int((size + kerf) * whole) for size in sizes), demands, stocks


def _next_sum(bound: Fraction, cost: Fraction, lengths: tuple[Fraction, ...], longest: Fraction) -> Fraction:
    """The least total of stock lengths from the bound up, one of them holding the longest blank."""
    sums = {length for length in lengths if length >= longest}
    reached = set(sums)
    while sums:
        sums = {total + length for total in sums for length in lengths if total + length <= cost} - reached
        reached |= sums
    return min((total for total in reached if total >= bound), default=cost)


def _length_unit(lengths: tuple[Fraction, ...]) -> Fraction:
    """The longest length that every stock length is a multiple of."""
    whole = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * whole) for length in lengths)), whole)


def _lanes(
    plan: Plan, sizes: tuple[Fraction, ...], lengths: tuple[Fraction, ...], blanks: tuple[Blank, ...]
) -> list[tuple[Fraction, list[Blank]]]:
    """Real blanks put into the patterns, the longest stock first."""
    waiting: Mapping[Fraction, list[Blank]] = {
        size: sorted((b for b in blanks if b.length == size), key=_blank_order, reverse=True)
        for size in sizes
    }
    lanes = []
    for pattern, times in plan.patterns:
        for _ in range(times):
            filled = [
                waiting[size].pop()
                for size, count in zip(sizes, pattern.counts, strict=True)
                for _ in range(count)
            ]
            filled.sort(key=lambda blank: (-blank.length, _blank_order(blank)))
            lanes.append((lengths[pattern.stock], filled))
    return lanes


def _blank_order(blank: Blank) -> tuple[object, ...]:
    return (blank.part.mark, key_order(blank.part.key), blank.which)


def _boards(
    lanes: list[tuple[Fraction, list[Blank]]], rough: Rough, stock: settings.Stock
) -> tuple[Board, ...]:
    """Lanes side by side into boards; a board is as long as its longest lane wants."""
    boards: list[Board] = []
    for first in range(0, len(lanes), rough.lanes):
        beside = lanes[first : first + rough.lanes]
        length = max(lane_length for lane_length, _ in beside)
        pieces: list[BoardPiece] = []
        offcuts: list[Fraction] = []
        for lane, (_, filled) in enumerate(beside):
            start = stock.end_trim
            for blank in filled:
                pieces.append(
                    BoardPiece(
                        blank.part.key,
                        blank.part.mark,
                        blank.part.name,
                        blank.which,
                        blank.rough.pieces,
                        blank.rough.piece_name,
                        lane,
                        start,
                        blank.length,
                        blank.rough.blank[1],
                    )
                )
                start += blank.length + stock.kerf
            offcuts.append(length - stock.end_trim - start)
        offcuts += [length - 2 * stock.end_trim] * (rough.lanes - len(beside))
        kept = tuple(offcut for offcut in offcuts if offcut >= stock.keep_offcut)
        boards.append(Board(len(boards) + 1, length, rough.width, rough.lanes, tuple(pieces), kept))
    return tuple(boards)
