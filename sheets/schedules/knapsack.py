"""The bounded knapsack at every capacity at once, which prices patterns for both cutting plans.

Weights and capacities are whole numbers; values are floats. Numpy does one pass over the capacities for each
item, a demand of n being split into about log2(n) items, so that hundreds of parts price in milliseconds.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

_NOISE = 1e-11
"""A value gained that is smaller than this is rounding, and would only make a pattern depend on it."""


@dataclass(frozen=True, slots=True)
class Knapsack:
    """Best values for capacities 0 to the greatest, and how to read the items back."""

    best: Any  # float array, one value a capacity
    taken: tuple[Any, ...]  # for each split item, at which capacities it was taken
    items: tuple[tuple[int, int, int], ...]  # (which, copies, weight of them together)
    growth: tuple[float, ...] = ()  # best value of the whole capacity with the kinds up to each one

    def counts(self, capacity: int, kinds: int, first: int | None = None) -> tuple[int, ...]:
        """Return how many of each kind the best filling of a capacity takes.

        first: only the first so many kinds were there to take; the one pass answers for every such beginning.
        """
        found = [0] * kinds
        left = capacity
        for (which, copies, weight), taken in zip(reversed(self.items), reversed(self.taken), strict=True):
            if (first is None or which < first) and taken[left]:
                found[which] += copies
                left -= weight
        return tuple(found)


def fill(
    weights: tuple[int, ...], values: tuple[float, ...], most: tuple[int, ...], capacity: int
) -> Knapsack:
    """Return the best fillings up to a capacity, each kind taken at most `most` times; kinds are added in
    order.
    """
    best = np.zeros(capacity + 1)
    taken: list[Any] = []
    items: list[tuple[int, int, int]] = []
    growth: list[float] = []
    for which in range(len(weights)):
        if values[which] <= _NOISE or weights[which] > capacity:
            growth.append(float(best[capacity]))
            continue
        for copies in _split(min(most[which], capacity // weights[which])):
            weight = copies * weights[which]
            gain = best[: capacity + 1 - weight] + copies * values[which]
            better = np.zeros(capacity + 1, dtype=bool)
            better[weight:] = gain > best[weight:] + _NOISE
            best[weight:] = np.where(better[weight:], gain, best[weight:])
            taken.append(better)
            items.append((which, copies, weight))
        growth.append(float(best[capacity]))
    return Knapsack(best, tuple(taken), tuple(items), tuple(growth))


def _split(count: int) -> list[int]:
    # 1, 2, 4, ... and a rest: every number of copies up to `count` is a sum of some of them, none beyond it
    # is.
    parts, power = [], 1
    while count > 0:
        parts.append(min(power, count))
        count -= parts[-1]
        power *= 2
    return parts
