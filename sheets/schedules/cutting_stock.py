"""The fewest stock to cut a list of lengths from, exactly: patterns by column generation, then whole numbers
by MILP.

A plan is proven when its cost equals the bound. The bound is the linear relaxation over all patterns, rounded
up to what costs can add up to; where that leaves a gap, every pattern that a cheaper plan could use is listed
and solved.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from math import gcd

from sheets.schedules.column_generation import Counted, Pattern, Priced, Stock, Task, dive, generate
from sheets.schedules.relaxation import whole_with_floor

_MOST_PATTERNS = 6_000
_MOST_STEPS = 200_000
_SLACK = 1e-7


@dataclass(frozen=True, slots=True)
class Limits:
    """How far a better plan is sought. Effort is counted in nodes, the same on every machine; beyond it the
    gap is stated. Seconds guard against hanging."""

    effort: int = 1000
    seconds: float = 20.0


@dataclass(frozen=True, slots=True)
class Plan:
    """Patterns with how often each is cut. No plan costs less than `bound`. `stopped`: by a limit."""

    patterns: Counted
    cost: int
    bound: int
    stopped: bool = False

    @property
    def proven(self) -> bool:
        return self.cost == self.bound


STANDARD = Limits()


def cut(
    sizes: tuple[int, ...], demands: tuple[int, ...], stocks: tuple[Stock, ...], limits: Limits = STANDARD
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
    task = Task(
        tuple(size // unit for size in sizes),
        demands,
        tuple(Stock(stock.capacity // unit, stock.cost) for stock in stocks),
    )
    best, bound, stopped = _sought(task, limits)
    if task.cost(best) > bound and len(stocks) > 1 and not _too_wide(task, limits):
        best = min(best, *_of_one_length(task, limits), key=task.cost)
    return tidy(best, task, bound, stopped)


def _of_one_length(task: Task, limits: Limits) -> list[Counted]:
    """Plans that use one stock only: a smaller search, which a wider one that was cut short may not reach."""
    plans = []
    for number, stock in enumerate(task.stocks):
        if stock.capacity >= max(task.sizes):
            found, _, _ = _sought(Task(task.sizes, task.demands, (Stock(stock.capacity, 1),)), limits)
            plans.append(tuple((Pattern(number, pattern.counts), times) for pattern, times in found))
    return plans


def _sought(task: Task, limits: Limits) -> tuple[Counted, int, bool]:
    best = min(_first_fits(task), key=task.cost)
    bound = _material_bound(task)
    if task.cost(best) <= bound:
        return best, bound, False
    priced = generate(task, tuple(pattern for pattern, _ in best))
    if task.exact:
        bound = max(bound, task.up(priced.bound))
    if task.cost(best) > bound:
        best = min(best, dive(task, priced.patterns), key=task.cost)
    if task.cost(best) <= bound:
        return best, bound, False
    if _too_wide(task, limits):
        return best, bound, True
    found, stopped, _ = _whole(priced.patterns, task, limits)
    best = min(best, found or best, key=task.cost)
    if not task.exact or task.cost(best) <= bound:
        return best, bound, stopped
    patterns = _all_useful(task, priced, task.cost(best) - task.step - priced.bound)
    if patterns is None:
        return best, bound, True
    found, stopped, proven = _whole(patterns, task, limits)
    best = min(best, found or best, key=task.cost)
    return best, max(bound, min(task.up(proven), task.cost(best))), stopped


def _too_wide(task: Task, limits: Limits) -> bool:
    # One step of branch and bound over this many patterns takes about as long as this many nodes.
    return 8 * len(task.sizes) * len(task.stocks) > limits.effort


def _material_bound(task: Task) -> int:
    wanted = sum(size * count for size, count in zip(task.sizes, task.demands, strict=True))
    # All of it at the price of the stock whose length is cheapest.
    return min(task.up(wanted * stock.cost / stock.capacity) for stock in task.stocks if stock.capacity)


def _first_fits(task: Task) -> list[Counted]:
    """Each longest piece into the first stock it fits, once for every length the stock is opened at."""
    order = sorted(range(len(task.sizes)), key=lambda k: -task.sizes[k])
    plans = []
    for stock in sorted({s.capacity for s in task.stocks if s.capacity >= max(task.sizes)}):
        boards: list[list[int]] = []
        room: list[int] = []
        for which in order:
            for _ in range(task.demands[which]):
                place = next((n for n, left in enumerate(room) if left >= task.sizes[which]), len(room))
                if place == len(room):
                    boards.append([0] * len(task.sizes))
                    room.append(stock)
                boards[place][which] += 1
                room[place] -= task.sizes[which]
        plans.append(_counted([task.smallest(tuple(counts)) for counts in boards]))
    return plans


def _counted(patterns: list[Pattern]) -> Counted:
    times: dict[Pattern, int] = {}
    for pattern in patterns:
        times[pattern] = times.get(pattern, 0) + 1
    return tuple(times.items())


def _whole(patterns: tuple[Pattern, ...], task: Task, limits: Limits) -> tuple[Counted | None, bool, float]:
    """Whole numbers of the given patterns at least cost: the plan, whether a limit ended it, and the proven
    floor.
    """
    costs = [float(task.stocks[pattern.stock].cost) for pattern in patterns]
    counts = [pattern.counts for pattern in patterns]
    times, stopped, lowest = whole_with_floor(counts, costs, task.demands, limits.effort, limits.seconds)
    plan = (
        tuple((p, often) for p, often in zip(patterns, times, strict=True) if often)
        if times is not None
        else None
    )
    return plan, stopped, lowest


def _all_useful(task: Task, priced: Priced, slack: float) -> tuple[Pattern, ...] | None:
    """Every pattern a cheaper plan could use: full ones with a reduced cost within the slack. None if too
    many.
    """
    found: dict[Pattern, None] = dict.fromkeys(priced.patterns)
    for number, stock in enumerate(task.stocks):
        listed = fillings(
            task, priced.duals, stock, stock.cost - slack - _SLACK, _MOST_PATTERNS - len(found)
        )
        if listed is None:
            return None
        found.update(dict.fromkeys(Pattern(number, counts) for counts in listed))
    return tuple(found)


def fillings(
    task: Task, duals: tuple[float, ...], stock: Stock, least: float, most: int
) -> list[tuple[int, ...]] | None:
    """Return full fillings of one stock whose duals add up to `least` or more; None if too many to list."""
    order = sorted(range(len(task.sizes)), key=lambda k: (-duals[k] / task.sizes[k], k))
    found: list[tuple[int, ...]] = []
    counts = [0] * len(task.sizes)
    steps = 0

    def search(place: int, room: int, value: float) -> bool:
        nonlocal steps
        steps += 1
        if len(found) > most or steps > _MOST_STEPS:
            return False
        if place == len(order):
            full = all(counts[k] == task.demands[k] or task.sizes[k] > room for k in order)
            if full and value >= least:
                found.append(tuple(counts))
            return True
        which = order[place]
        if value + room * duals[which] / task.sizes[which] < least:
            return True  # the rest is worth no more an inch than this one
        for copies in range(min(task.demands[which], room // task.sizes[which]), -1, -1):
            counts[which] = copies
            if not search(place + 1, room - copies * task.sizes[which], value + copies * duals[which]):
                return False
        counts[which] = 0
        return True

    return found if search(0, stock.capacity, 0.0) else None


def tidy(plan: Counted, task: Task, bound: int, stopped: bool = False, *, bounded: bool = True) -> Plan:
    """Return the plan without what is cut beyond the demand, each board of the cheapest stock that still
    holds it, sorted. bounded: the bound is on these boards' cost, so that it is not above it.
    """
    left = list(task.demands)
    boards: list[Pattern] = []
    for pattern, times in plan:
        for _ in range(times):
            counts = tuple(min(count, rest) for count, rest in zip(pattern.counts, left, strict=True))
            left = [rest - count for rest, count in zip(left, counts, strict=True)]
            if any(counts):
                boards.append(task.smallest(counts))
    tidy = _counted(boards)
    ranked = sorted(tidy, key=lambda row: (-task.stocks[row[0].stock].capacity, [-c for c in row[0].counts]))
    cost = task.cost(tidy)
    return Plan(tuple(ranked), cost, min(bound, cost) if bounded else bound, stopped and cost > bound)
