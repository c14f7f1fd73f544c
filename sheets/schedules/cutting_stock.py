"""The least that boards of a list of lengths can be bought for: every way to fill a board is listed, and how
often each is cut is one problem in whole numbers, solved by HiGHS through scipy.

A plan is proven when its cost equals its bound. A stock with too many ways to list is left to first fit, and
the bound is then what the material alone must cost.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from itertools import product
from math import ceil, gcd

_MOST_WAYS = 2_000
"""More ways to fill a stock than this are not listed: the solver would take many seconds over them."""
_MOST_TRIED = 200_000
_EASY = 500
"""Ways that a step of branch and bound takes in its stride; of more it takes fewer steps."""
_ROUNDING = 1e-6
_MOST_WALKED, _MOST_PURCHASES = 2_000, 40


@dataclass(frozen=True, slots=True)
class Stock:
    """One kind of board that is sold: how long, the kerf of the last cut added, for how much, and how many
    lanes it is ripped into. Whole units.
    """

    capacity: int
    price: int
    lanes: int = 1


@dataclass(frozen=True, slots=True)
class Limits:
    """How far a better plan is sought. Effort is counted in steps, the same on every machine; beyond it the
    gap is stated. Seconds guard against hanging.
    """

    effort: int = 1000
    seconds: float = 20.0


Counts = tuple[int, ...]
"""What one lane is cut into: how many of each size."""


@dataclass(frozen=True, slots=True)
class Cut:
    """One board as cut: which stock it is, and its lanes that are used."""

    stock: int
    lanes: tuple[Counts, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """Boards in order, the longest first. No plan costs less than `bound`."""

    boards: tuple[Cut, ...]
    cost: int
    bound: int

    @property
    def proven(self) -> bool:
        return self.cost == self.bound


@dataclass(frozen=True, slots=True)
class _Task:
    sizes: tuple[int, ...]
    demands: Counts
    stocks: tuple[Stock, ...]

    def used(self, counts: Counts) -> int:
        return sum(size * count for size, count in zip(self.sizes, counts, strict=True))

    def smallest(self, counts: Counts) -> int:
        """Return the stock whose lane is the cheapest that holds them."""
        used = self.used(counts)
        fits = [n for n, stock in enumerate(self.stocks) if stock.capacity >= used]
        return min(fits, key=lambda n: (Fraction(self.stocks[n].price, self.stocks[n].lanes), n))

    def cost(self, boards: tuple[Cut, ...]) -> int:
        return sum(self.stocks[board.stock].price for board in boards)


def cut(
    sizes: tuple[int, ...], demands: Counts, stocks: tuple[Stock, ...], limits: Limits | None = None
) -> Plan:
    """Return the cheapest plan found that makes each size as often as demanded, and its bound.

    Sizes are distinct whole numbers, the kerf added to each. Raises ValueError for a size that no stock
    holds.
    """
    if not sizes:
        return Plan((), 0, 0)
    if max(sizes) > max(stock.capacity for stock in stocks):
        raise ValueError("a size is longer than any stock")
    unit = reduce(gcd, sizes)
    task = _Task(
        tuple(size // unit for size in sizes),
        demands,
        tuple(Stock(stock.capacity // unit, stock.price, stock.lanes) for stock in stocks),
    )
    best = min(_first_fits(task), key=task.cost)
    bound = _next_sum(task, _of_material(task), task.cost(best))
    listed = [_ways(task, stock) for stock in task.stocks] if task.cost(best) > bound else []
    ways = [(number, counts) for number, own in enumerate(listed) for counts in own or ()]
    if ways:
        found, lowest = _solved(ways, task, limits or Limits())
        if None not in listed:
            bound = _next_sum(task, max(Fraction(bound), lowest), task.cost(best))
        if found is not None and task.cost(found) < task.cost(best):
            best = _walked(task, task.cost(found)) or found
    return Plan(best, task.cost(best), bound)


def _of_material(task: _Task) -> Fraction:
    """All that is wanted at the price of the stock that is cheapest by length."""
    wanted = task.used(task.demands)
    return min(Fraction(wanted * s.price, s.capacity * s.lanes) for s in task.stocks if s.capacity)


def _next_sum(task: _Task, bound: Fraction, cost: int) -> int:
    """The least sum of prices from the bound up to the cost, one of them that of a stock for the longest."""
    sums = {s.price for s in task.stocks if s.capacity >= max(task.sizes)}
    reached = set(sums)
    while sums:
        sums = {a + s.price for a in sums for s in task.stocks if a + s.price <= cost} - reached
        reached |= sums
    return min((total for total in reached if total >= bound), default=cost)


def _first_fits(task: _Task) -> list[tuple[Cut, ...]]:
    """Each longest piece into the first lane it fits, once for every length that lanes are opened at."""
    order = sorted(range(len(task.sizes)), key=lambda k: -task.sizes[k])
    plans = []
    for length in sorted({s.capacity for s in task.stocks if s.capacity >= max(task.sizes)}):
        lanes: list[list[int]] = []
        room: list[int] = []
        for which in order:
            for _ in range(task.demands[which]):
                place = next((n for n, left in enumerate(room) if left >= task.sizes[which]), len(room))
                if place == len(room):
                    lanes.append([0] * len(task.sizes))
                    room.append(length)
                lanes[place][which] += 1
                room[place] -= task.sizes[which]
        plans.append(_boards(task, [tuple(counts) for counts in lanes]))
    return plans


def _boards(task: _Task, lanes: list[Counts]) -> tuple[Cut, ...]:
    """Lanes, each of the cheapest stock that holds it, side by side into boards; the longest first, so that a
    board is as long as its first lane.
    """
    placed = sorted(
        ((task.smallest(counts), counts) for counts in lanes),
        key=lambda lane: (-task.stocks[lane[0]].capacity, [-count for count in lane[1]]),
    )
    boards = []
    for number in sorted({task.stocks[stock].lanes for stock, _ in placed}):
        own = [lane for lane in placed if task.stocks[lane[0]].lanes == number]
        for first in range(0, len(own), number):
            beside = own[first : first + number]
            boards.append(Cut(beside[0][0], tuple(counts for _, counts in beside)))
    return tuple(boards)


def _ways(task: _Task, stock: Stock) -> list[Counts] | None:
    """Every full lane of a stock; None when there are too many to list."""
    ways: list[Counts] = []
    for tried, counts in enumerate(_fillings(task, task.demands, stock.capacity)):
        if tried > _MOST_TRIED or len(ways) > _MOST_WAYS:
            return None
        if counts is not None and any(counts):
            ways.append(counts)
    return ways


def _fillings(task: _Task, left: Counts, capacity: int) -> Iterator[Counts | None]:
    """Yield the fillings of a lane by what is left to cut that leave no room for more of it, those with most
    of the longest first; None at every step that led to none, so that a caller can count.
    """
    order = sorted((k for k in range(len(left)) if left[k]), key=lambda k: -task.sizes[k])
    counts = [0] * len(left)

    def fill(place: int, room: int) -> Iterator[Counts | None]:
        if place == len(order):
            full = all(counts[k] == left[k] or task.sizes[k] > room for k in order)
            yield tuple(counts) if full else None
            return
        which = order[place]
        for copies in range(min(left[which], room // task.sizes[which]), -1, -1):
            counts[which] = copies
            yield from fill(place + 1, room - copies * task.sizes[which])
        counts[which] = 0

    return fill(0, capacity)


def _solved(
    ways: list[tuple[int, Counts]], task: _Task, limits: Limits
) -> tuple[tuple[Cut, ...] | None, Fraction]:
    """The boards that cost least, None if none was found in time, and what no plan can cost less than.

    A board is paid for whole, however many of its lanes are used: how often each way is cut, and how many
    boards of each stock are bought for it, are the unknowns.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csc_array, hstack, vstack

    count, stocks = len(ways), len(task.stocks)
    made = csc_array(np.array([counts for _, counts in ways], dtype=float).T)
    taken = np.zeros((stocks, count))
    taken[[stock for stock, _ in ways], range(count)] = 1.0
    given = np.diag([float(stock.lanes) for stock in task.stocks])
    rows = vstack(
        [
            hstack([made, csc_array((len(task.demands), stocks))]),
            hstack([csc_array(-taken), csc_array(given)]),
        ]
    )
    result = milp(
        np.array([0.0] * count + [float(stock.price) for stock in task.stocks]),
        integrality=np.ones(count + stocks, dtype=int),
        bounds=Bounds(0, np.inf),
        constraints=[LinearConstraint(rows.tocsc(), [*map(float, task.demands), *[0.0] * stocks], np.inf)],
        options={
            "node_limit": max(5, min(limits.effort, limits.effort * _EASY // count)),
            "time_limit": limits.seconds,
            "mip_rel_gap": 0.0,
        },
    )
    lowest = result.mip_dual_bound
    floor = Fraction(0) if lowest is None or lowest != lowest else Fraction(ceil(float(lowest) - _ROUNDING))
    if result.x is None:
        return None, floor
    lanes = [counts for (_, counts), x in zip(ways, result.x, strict=False) for _ in range(round(x))]
    wanted = _wanted(lanes, task.demands)
    return (None if wanted is None else _boards(task, wanted)), floor


def _wanted(lanes: list[Counts], demands: Counts) -> list[Counts] | None:
    """The lanes without what is cut beyond the demand; None when they do not meet it."""
    left, kept = list(demands), []
    for counts in lanes:
        taken = tuple(min(count, rest) for count, rest in zip(counts, left, strict=True))
        left = [rest - count for rest, count in zip(left, taken, strict=True)]
        if any(taken):
            kept.append(taken)
    return None if any(left) else kept


def _walked(task: _Task, cost: int) -> tuple[Cut, ...] | None:
    """A plan of this cost, the same whichever of its equals the solver named: the first that is met in a
    fixed order, fewest boards first and then fullest lanes; None when it is not met in so many steps.
    """
    for bought in _purchases(task, cost):
        lengths = [s.capacity for s, number in zip(task.stocks, bought, strict=True)
                   for _ in range(number * s.lanes)]  # fmt: skip
        lanes = _packed(task, tuple(sorted(lengths, reverse=True)))
        if lanes is not None:
            boards = _boards(task, lanes)
            if task.cost(boards) == cost:
                return boards
    return None


def _purchases(task: _Task, cost: int) -> list[Counts]:
    """The first few ways to buy boards for just this cost that are long enough together."""
    prices = [stock.price for stock in task.stocks]
    most = [range(cost // price + 1) for price in prices[:-1]]
    found = []
    for some in product(*most):
        rest = cost - sum(n * price for n, price in zip(some, prices, strict=False))
        if rest >= 0 and rest % prices[-1] == 0:
            bought = (*some, rest // prices[-1])
            run = sum(n * s.lanes * s.capacity for n, s in zip(bought, task.stocks, strict=True))
            if run >= task.used(task.demands):
                found.append(bought)
    return sorted(found, key=lambda bought: (sum(bought), bought))[:_MOST_PURCHASES]


def _packed(task: _Task, lengths: tuple[int, ...]) -> list[Counts] | None:
    """Lanes of just these lengths that make all that is wanted, or None."""
    ahead = [sum(lengths[n:]) for n in range(len(lengths) + 1)]
    failed: set[tuple[int, Counts]] = set()
    chosen: list[Counts] = []
    lefts = [task.demands]
    tries = [_fillings(task, task.demands, lengths[0])]
    for _ in range(_MOST_WALKED):
        counts = next(tries[-1], ())
        if counts == ():  # none of the fillings of this lane leads on
            tries.pop()
            failed.add((len(tries), lefts.pop()))
            if not tries:
                return None
            chosen.pop()
            continue
        if counts is None:
            continue
        left = tuple(have - count for have, count in zip(lefts[-1], counts, strict=True))
        if not any(left):
            return [*chosen, counts]
        place = len(tries)
        if task.used(left) > ahead[place] or (place, left) in failed:
            continue
        chosen.append(counts)
        lefts.append(left)
        tries.append(_fillings(task, left, lengths[place]))
    return None
