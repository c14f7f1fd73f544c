"""Boards that are ripped into lanes of one width before they are crosscut: the least length of stock.

A board is paid for whole, however many of its lanes are used. So lanes are not chosen one by one: how many
boards of each length are bought, and what their lanes hold, is one problem in whole numbers.
"""

from __future__ import annotations

from sheets.schedules.column_generation import Pattern, Stock, Task
from sheets.schedules.cutting_stock import Limits, Plan, fillings, tidy
from sheets.schedules.relaxation import whole_boards

_MOST_PATTERNS = 2000


def cut_lanes(
    sizes: tuple[int, ...], demands: tuple[int, ...], stocks: tuple[Stock, ...], lanes: int, limits: Limits
) -> Plan | None:
    """Return the plan of lanes whose boards cost least, and the bound on what boards cost; None when there
    are too many ways to fill a lane, or none was found in time.

    Sizes are distinct whole numbers, the kerf added to each, and each fits a stock. A pattern is of one
    lane; `cost` is of the lanes one by one, `bound` of the boards.
    """
    task = Task(sizes, demands, stocks)
    patterns: list[Pattern] = []
    for number, stock in enumerate(stocks):
        found = fillings(task, tuple(0.0 for _ in sizes), stock, 0.0, _MOST_PATTERNS - len(patterns))
        if found is None:
            return None
        patterns += [Pattern(number, counts) for counts in found if any(counts)]
    times, _stopped, lowest = whole_boards(
        [pattern.counts for pattern in patterns],
        [pattern.stock for pattern in patterns],
        [float(stock.cost) for stock in stocks],
        lanes,
        demands,
        limits.effort,
        limits.seconds,
    )
    if times is None:
        return None
    plan = tuple((p, often) for p, often in zip(patterns, times, strict=True) if often)
    return tidy(plan, task, task.up(lowest), bounded=False)
