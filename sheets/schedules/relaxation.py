"""Covering demands by patterns at least cost: the linear relaxation with its duals, and whole numbers by
MILP.

The solver is HiGHS, through scipy; it is loaded when a plan needs it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sheets.schedules.quiet import silenced

_EASY = 500
"""Patterns that a step of branch and bound takes in its stride; of more it takes fewer steps."""


def steps(effort: int, patterns: int) -> int:
    """Return how many steps of branch and bound an effort is worth over so many patterns."""
    return max(5, min(effort, effort * _EASY // max(1, patterns)))


def relaxed(
    patterns: Sequence[tuple[int, ...]], costs: Sequence[float], demands: tuple[int, ...]
) -> tuple[tuple[float, ...], float, list[float]]:
    """Return duals, value and amounts of the relaxation; patterns say how many of each kind they make."""
    from scipy.optimize import linprog

    result: Any = linprog(costs, A_ub=-_matrix(patterns), b_ub=[-d for d in demands], method="highs")
    prices = tuple(
        max(0.0, -float(m)) if d else 0.0 for m, d in zip(result.ineqlin.marginals, demands, strict=True)
    )
    return prices, float(result.fun), [float(x) for x in result.x]


def whole(
    patterns: Sequence[tuple[int, ...]],
    costs: Sequence[float],
    demands: tuple[int, ...],
    nodes: int,
    seconds: float,
) -> tuple[tuple[int, ...] | None, bool]:
    """Return how often to use each pattern at least cost, None if none was found, and whether a limit ended
    it.
    """
    times, stopped, _floor = whole_with_floor(patterns, costs, demands, nodes, seconds)
    return times, stopped


def whole_with_floor(
    patterns: Sequence[tuple[int, ...]],
    costs: Sequence[float],
    demands: tuple[int, ...],
    nodes: int,
    seconds: float,
) -> tuple[tuple[int, ...] | None, bool, float]:
    """Return the same, and what no whole use of these patterns can cost less than."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp

    enough = LinearConstraint(_matrix(patterns), np.array(demands, dtype=float), np.inf)
    with silenced():
        result: Any = milp(
            np.array(costs, dtype=float),
            integrality=np.ones(len(patterns), dtype=int),
            bounds=Bounds(0, np.inf),
            constraints=[enough],
            options={"node_limit": steps(nodes, len(patterns)), "time_limit": seconds, "mip_rel_gap": 0.0},
        )
    lowest = float(result.mip_dual_bound) if result.mip_dual_bound is not None else 0.0
    times = tuple(round(float(x)) for x in result.x) if result.x is not None else None
    if times is not None and not _covers(patterns, times, demands):
        times = None  # whole within the solver's tolerance, but not when rounded
    return times, result.status == 1, lowest


def whole_boards(
    patterns: Sequence[tuple[int, ...]],
    stock_of: Sequence[int],
    prices: Sequence[float],
    lanes: int,
    demands: tuple[int, ...],
    nodes: int,
    seconds: float,
) -> tuple[tuple[int, ...] | None, bool, float]:
    """Return the same where patterns are of lanes, `lanes` of one stock to a board, and boards are paid for.

    stock_of: which stock each pattern is of. prices: of a board of each stock.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csc_array, hstack, vstack

    count, stocks = len(patterns), len(prices)
    of_stock = np.zeros((stocks, count))
    of_stock[list(stock_of), range(count)] = 1.0
    made = hstack([_matrix(patterns), csc_array((len(demands), stocks))])
    room = hstack([csc_array(-of_stock), csc_array(lanes * np.eye(stocks))])
    least = np.concatenate([np.array(demands, dtype=float), np.zeros(stocks)])
    with silenced():
        result: Any = milp(
            np.concatenate([np.zeros(count), np.array(prices, dtype=float)]),
            integrality=np.ones(count + stocks, dtype=int),
            bounds=Bounds(0, np.inf),
            constraints=[LinearConstraint(vstack([made, room]).tocsc(), least, np.inf)],
            options={"node_limit": steps(nodes, len(patterns)), "time_limit": seconds, "mip_rel_gap": 0.0},
        )
    lowest = float(result.mip_dual_bound) if result.mip_dual_bound is not None else 0.0
    times = tuple(round(float(x)) for x in result.x[:count]) if result.x is not None else None
    if times is not None and not _covers(patterns, times, demands):
        times = None
    return times, result.status == 1, lowest


def _covers(patterns: Sequence[tuple[int, ...]], times: tuple[int, ...], demands: tuple[int, ...]) -> bool:
    made = [0] * len(demands)
    for pattern, often in zip(patterns, times, strict=True):
        made = [have + often * count for have, count in zip(made, pattern, strict=True)]
    return all(have >= wanted for have, wanted in zip(made, demands, strict=True))


def _matrix(patterns: Sequence[tuple[int, ...]]) -> Any:
    import numpy as np
    from scipy.sparse import csc_array

    return csc_array(np.array(patterns, dtype=float).T)
