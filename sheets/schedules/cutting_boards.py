"""The cutting plan of boards: for the blanks of one stock and lane width the fewest lengths, kerf and end
trim counted, proven among such plans or with its gap.

A board is ripped into lanes of one width, then each lane is crosscut; blanks of other widths have boards of
their own, and no plan says anything of both together. With several stock lengths the least total length is
sought. Every blank of every part is in one plan, once, save those that no stock holds.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd, lcm

from sheets.base.keys import key_order
from sheets.model import settings
from sheets.model.part import Material, Part
from sheets.model.wall import Wall
from sheets.schedules.cutting_stock import Limits, Plan, Stock, cut
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

    @property
    def proven(self) -> bool:
        return self.cost <= self.bound

    @property
    def statement(self) -> str:
        """What is known of the plan, as printed under it. It is of these blanks by themselves, in lanes of
        one width: what wider or narrower blanks of the same stock leave over is not reckoned with.
        """
        aim = "fewest boards" if len(self.lengths) == 1 else "least length of stock"
        if self.proven:
            return f"{aim} for these blanks alone: proven"
        gap = float(100 * (self.cost - self.bound) / self.bound)
        return f"{aim} for these blanks alone: within {gap:.1f} % of the lower bound"


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
    # Of one length boards are counted, of several their length.
    unit = Fraction(1) if len(lengths) == 1 else _length_unit(lengths)
    prices = [1] if len(lengths) == 1 else [int(length / unit) for length in lengths]
    found = cut(*_whole_numbers(sizes, demands, lengths, prices, rough.lanes, stock), limits)
    return BoardPlan(
        blanks[0].part.material,
        rough.kind,
        rough.label,
        rough.thickness,
        rough.width,
        rough.lanes,
        _boards(found, sizes, lengths, blanks, stock),
        lengths,
        found.cost * unit,
        found.bound * unit,
    )


def _whole_numbers(
    sizes: tuple[Fraction, ...],
    demands: tuple[int, ...],
    lengths: tuple[Fraction, ...],
    prices: list[int],
    lanes: int,
    stock: settings.Stock,
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[Stock, ...]]:
    # A cut follows every piece but the last, so a kerf is added to each piece and to the stock.
    kerf, trim = stock.kerf, stock.end_trim
    whole = lcm(
        kerf.denominator, trim.denominator, *(s.denominator for s in sizes), *(n.denominator for n in lengths)
    )
    stocks = tuple(
        Stock(int((length - 2 * trim + kerf) * whole), price, lanes)
        for length, price in zip(lengths, prices, strict=True)
    )
    return tuple(int((size + kerf) * whole) for size in sizes), demands, stocks


def _length_unit(lengths: tuple[Fraction, ...]) -> Fraction:
    """The longest length that every stock length is a multiple of."""
    whole = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * whole) for length in lengths)), whole)


def _blank_order(blank: Blank) -> tuple[object, ...]:
    return (blank.part.mark, key_order(blank.part.key), blank.which)


def _boards(
    plan: Plan,
    sizes: tuple[Fraction, ...],
    lengths: tuple[Fraction, ...],
    blanks: tuple[Blank, ...],
    stock: settings.Stock,
) -> tuple[Board, ...]:
    """Real blanks put into the lanes of the plan's boards."""
    rough = blanks[0].rough
    waiting: Mapping[Fraction, list[Blank]] = {
        size: sorted((b for b in blanks if b.length == size), key=_blank_order, reverse=True)
        for size in sizes
    }
    boards = []
    for number, board in enumerate(plan.boards, 1):
        length = lengths[board.stock]
        pieces: list[BoardPiece] = []
        offcuts: list[Fraction] = []
        for lane, counts in enumerate(board.lanes):
            filled = [
                waiting[size].pop() for size, count in zip(sizes, counts, strict=True) for _ in range(count)
            ]
            filled.sort(key=lambda blank: (-blank.length, _blank_order(blank)))
            start = stock.end_trim
            for blank in filled:
                pieces.append(_piece(blank, lane, start))
                start += blank.length + stock.kerf
            offcuts.append(length - stock.end_trim - start)
        offcuts += [length - 2 * stock.end_trim] * (rough.lanes - len(board.lanes))
        kept = tuple(offcut for offcut in offcuts if offcut >= stock.keep_offcut)
        boards.append(Board(number, length, rough.width, rough.lanes, tuple(pieces), kept))
    return tuple(boards)


def _piece(blank: Blank, lane: int, start: Fraction) -> BoardPiece:
    part, rough = blank.part, blank.rough
    return BoardPiece(
        part.key,
        part.mark,
        part.name,
        blank.which,
        rough.pieces,
        rough.piece_name,
        lane,
        start,
        blank.length,
        rough.blank[1],
    )
