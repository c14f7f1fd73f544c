"""Patterns for the cutting-stock problem: the linear relaxation over all of them, and plans rounded out of
it.

Sources: Gilmore and Gomory 1961, 1963 (patterns priced by a knapsack); Farley 1990 (a bound from any duals).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from math import ceil, gcd

from sheets.schedules.knapsack import fill
from sheets.schedules.relaxation import relaxed

_LARGEST_CAPACITY = (
    60_000  # a knapsack over more steps than this is done on a coarser scale, rounded to be safe
)
_MOST_ROUNDS = 400
_WIDE = 100
_WIDE_ROUNDS, _WIDE_STEP = 60, 3
"""With more sizes times stocks than this, the relaxation is not driven to its end, and a dive takes so many
patterns at a step: what is left open is stated as the gap.
"""
_ROUNDING = 1e-7
_NEARLY = 0.5


@dataclass(frozen=True, slots=True)
class Stock:
    """One length of stock. Whole units; the kerf of the last cut is already added to the capacity."""

    capacity: int
    cost: int


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to cut one stock: how many of each size."""

    stock: int
    counts: tuple[int, ...]


Counted = tuple[tuple[Pattern, int], ...]
"""Patterns with how often each is cut."""


@dataclass(frozen=True, slots=True)
class Task:
    """Distinct whole sizes, how many of each are wanted, and what they are cut from."""

    sizes: tuple[int, ...]
    demands: tuple[int, ...]
    stocks: tuple[Stock, ...]

    @property
    def step(self) -> int:
        """What every cost is a multiple of."""
        return reduce(gcd, (stock.cost for stock in self.stocks))

    @property
    def wide(self) -> bool:
        """Whether there are so many sizes that a plan is sought by fewer steps."""
        return len(self.sizes) * len(self.stocks) > _WIDE

    @property
    def scale(self) -> int:
        return ceil(max(stock.capacity for stock in self.stocks) / _LARGEST_CAPACITY)

    @property
    def exact(self) -> bool:
        """False when the sizes are so fine that patterns are priced on a coarser scale and bound nothing."""
        return self.scale == 1

    def up(self, cost: float) -> int:
        """Return the least cost that stock can add up to, at or above this one."""
        return ceil(cost / self.step - _ROUNDING) * self.step

    def cost(self, plan: Counted) -> int:
        return sum(self.stocks[pattern.stock].cost * times for pattern, times in plan)

    def smallest(self, counts: tuple[int, ...]) -> Pattern:
        """Return the pattern on the cheapest stock that holds it."""
        used = sum(size * count for size, count in zip(self.sizes, counts, strict=True))
        return Pattern(min((s.cost, n) for n, s in enumerate(self.stocks) if s.capacity >= used)[1], counts)


@dataclass(frozen=True, slots=True)
class Priced:
    """Patterns worth having, feasible duals, and the bound they give: no plan costs less."""

    patterns: tuple[Pattern, ...]
    duals: tuple[float, ...]
    bound: float


def generate(task: Task, start: tuple[Pattern, ...]) -> Priced:
    """Solve over the patterns known, price new ones by a knapsack, until none can lift the bound to another
    cost.
    """
    patterns = dict.fromkeys(start)
    bound, duals = 0.0, tuple(0.0 for _ in task.sizes)
    for _ in range(_WIDE_ROUNDS if task.wide else _MOST_ROUNDS):
        prices, value, _x = _relaxed(tuple(patterns), task.demands, task)
        fresh, factor = _price(task, prices, task.demands)
        # Duals scaled down until no pattern is worth more than its stock bound every plan (Farley 1990).
        if value * factor > bound:
            bound, duals = value * factor, tuple(price * factor for price in prices)
        before = len(patterns)
        patterns.update(dict.fromkeys(fresh))
        if len(patterns) == before or task.up(bound) >= task.up(value):
            break
    return Priced(tuple(patterns), duals, bound)


def dive(task: Task, start: tuple[Pattern, ...]) -> Counted:
    """Return a plan: take what the relaxation takes whole, round its largest pattern up, and relax what is
    left.
    """
    left, patterns = task.demands, dict.fromkeys(start)
    plan: list[tuple[Pattern, int]] = []
    while any(left):
        patterns = dict.fromkeys(_clipped(tuple(patterns), left, task))
        prices, _value, _x = _relaxed(tuple(patterns), left, task)
        patterns.update(dict.fromkeys(_price(task, prices, left)[0]))
        known = tuple(patterns)
        _prices, _value, amounts = _relaxed(known, left, task)
        order = sorted(range(len(known)), key=lambda k: (-round(amounts[k], 9), k))
        took = 0
        for k in order:
            times = int(amounts[k] + 1e-6)
            if not times and took >= (_WIDE_STEP if task.wide and amounts[k] > _NEARLY else 1):
                break
            times = min(
                [max(1, times), *(have // c for have, c in zip(left, known[k].counts, strict=True) if c)]
            )
            if times:
                took += 1
                plan.append((known[k], times))
                left = tuple(have - times * c for have, c in zip(left, known[k].counts, strict=True))
    return tuple(plan)


def _price(task: Task, prices: tuple[float, ...], most: tuple[int, ...]) -> tuple[tuple[Pattern, ...], float]:
    """The best pattern of each stock that pays, and the factor that makes the prices feasible duals."""
    scale = task.scale
    weights = tuple(ceil(size / scale) for size in task.sizes)
    bag = fill(weights, prices, most, max(stock.capacity // scale for stock in task.stocks))
    fresh: list[Pattern] = []
    factor = 1.0
    for number, stock in enumerate(task.stocks):
        worth = float(bag.best[stock.capacity // scale])
        if worth > stock.cost + 1e-9:
            factor = min(factor, stock.cost / worth)
            fresh.append(Pattern(number, bag.counts(stock.capacity // scale, len(weights))))
    return tuple(fresh), factor


def _relaxed(
    patterns: tuple[Pattern, ...], demands: tuple[int, ...], task: Task
) -> tuple[tuple[float, ...], float, list[float]]:
    costs = [float(task.stocks[pattern.stock].cost) for pattern in patterns]
    return relaxed([pattern.counts for pattern in patterns], costs, demands)


def _clipped(patterns: tuple[Pattern, ...], left: tuple[int, ...], task: Task) -> list[Pattern]:
    # Cut to what is still wanted, each on the cheapest stock, so that the relaxation stays feasible and
    # cheap.
    clipped = (
        tuple(min(count, have) for count, have in zip(pattern.counts, left, strict=True))
        for pattern in patterns
    )
    return [task.smallest(counts) for counts in clipped if any(counts)]
