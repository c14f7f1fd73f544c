"""What is seen of a case between its uprights, made equal, and where its dividers stand behind that."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor

from sheets.base.length import snap, split_even
from sheets.resolve.layout import Standing

Span = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Openings:
    """The compartments of a case along x, exact mm; none where boards or stiles leave no room for them.

    standing: of the case, which leaves more to its scribes where they hide what is left over. seen: between
    stiles and mullions, all alike; without a frame as clear. clear: between sides and dividers. leftover:
    what the grid leaves over, and where it went.
    """

    standing: Standing
    seen: tuple[Span, ...]
    clear: tuple[Span, ...]
    leftover: Fraction = Fraction(0)
    placed: str = ""


def lay_openings(standing: Standing, board: Fraction, grid: Fraction) -> Openings:
    """Return the compartments of a case whose sides and dividers are `board` thick."""
    case, count = standing.case, standing.case.bays
    if standing.width - (count + 1) * board < count * grid:
        return Openings(standing, (), ())
    if case.frame is None:
        widths, over = split_even(standing.width - (count + 1) * board, count, grid)
        spans = _spans(standing.x0 + board, widths, board)
        return Openings(standing, spans, spans, over if count > 1 else Fraction(0), "half at each end")
    if count == 1:
        edges = (standing.x0 + case.frame.stile, standing.x1 - case.frame.stile)
        return Openings(standing, (edges,), ((standing.x0 + board, standing.x1 - board),))
    return _framed(standing, case.frame.stile, board, grid)


def _framed(standing: Standing, stile: Fraction, board: Fraction, grid: Fraction) -> Openings:
    count = standing.case.bays
    total = standing.width - (count + 1) * stile
    scribed = [end.gap > 0 for end in (standing.left, standing.right)]
    if any(scribed):
        over = total - count * snap(total / count, grid, "down")
        standing, total = _narrower(standing, over), total - over
    row = _row(total, count, grid)
    seen: list[Span] = []
    at = standing.x0 + stile + row.at_each_end
    for k in range(count if row.each > 0 else 0):
        seen.append((at, at + row.each))
        at += row.each + stile + (row.in_the_middle if 2 * (k + 1) == count else 0)
    behind = _behind(standing, board, row.each + stile - board, grid)
    if any(scribed):
        return Openings(standing, tuple(seen), behind, over, "in the scribe")
    over = 2 * row.at_each_end + row.in_the_middle
    placed = "on the stiles" if row.at_each_end else "on the middle mullion"
    return Openings(standing, tuple(seen), behind, over, placed)


def _narrower(standing: Standing, over: Fraction) -> Standing:
    """The case narrower by what is left over: its scribes take that, half of it each where there are two."""
    left, right = standing.left, standing.right
    share = over / ((left.gap > 0) + (right.gap > 0))
    if left.gap:
        left, x0 = replace(left, gap=left.gap + share), standing.x0 + share
        standing = replace(standing, left=left, x0=x0)
    if right.gap:
        right, x1 = replace(right, gap=right.gap + share), standing.x1 - share
        standing = replace(standing, right=right, x1=x1)
    return standing


@dataclass(frozen=True, slots=True)
class _Row:
    """Equal sizes, and what stiles and the middle mullion take so that these are on the grid."""

    each: Fraction
    at_each_end: Fraction
    in_the_middle: Fraction


def _row(total: Fraction, count: int, grid: Fraction) -> _Row:
    """The largest equal sizes on the grid whose leftover keeps the row symmetric: half of it to each end, and
    an odd step to the upright in the middle, where there is one. Else the sizes are a step smaller.
    """
    each = snap(total / count, grid, "down")
    steps = floor((total - count * each) / grid)
    if steps % 2 and count % 2:
        each, steps = each - grid, steps + count
    middle = grid if steps % 2 else Fraction(0)
    return _Row(each, (total - count * each - middle) / 2, middle)


def _behind(standing: Standing, board: Fraction, inner: Fraction, grid: Fraction) -> tuple[Span, ...]:
    """The compartments behind mullions, whose middles the dividers stand behind as near as the grid "
    "has it."""
    count = standing.case.bays
    inner = snap(inner, grid)
    end = (standing.width - (count + 1) * board - (count - 2) * inner) / 2
    if min(inner, end) <= 0:
        return ()
    return _spans(standing.x0 + board, [end, *[inner] * (count - 2), end], board)


def _spans(start: Fraction, widths: Sequence[Fraction], between: Fraction) -> tuple[Span, ...]:
    found = []
    for width in widths:
        found.append((start, start + width))
        start += width + between
    return tuple(found)
