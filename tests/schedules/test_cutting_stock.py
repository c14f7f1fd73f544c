"""The exact cutting of lengths: published optima, and every small case against all partitions."""

from __future__ import annotations

from collections import Counter
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.schedules import cutting_stock
from sheets.schedules.cutting_stock import Limits, Plan, Stock, cut

# OR-Library binpack1, instance u120_00 (Falkenauer): capacity 150, 120 items, optimum 48.
U120_00 = Counter(
    [
        42,
        69,
        67,
        57,
        93,
        90,
        38,
        36,
        45,
        42,
        33,
        79,
        27,
        57,
        44,
        84,
        86,
        92,
        46,
        38,
        85,
        33,
        82,
        73,
        49,
        70,
        59,
        23,
        57,
        72,
        74,
        69,
        33,
        42,
        28,
        46,
        30,
        64,
        29,
        74,
        41,
        49,
        55,
        98,
        80,
        32,
        25,
        38,
        82,
        30,
        35,
        39,
        57,
        84,
        62,
        50,
        55,
        27,
        30,
        36,
        20,
        78,
        47,
        26,
        45,
        41,
        58,
        98,
        91,
        96,
        73,
        84,
        37,
        93,
        91,
        43,
        73,
        85,
        81,
        79,
        71,
        80,
        76,
        83,
        41,
        78,
        70,
        23,
        42,
        87,
        43,
        84,
        60,
        55,
        49,
        78,
        73,
        62,
        36,
        44,
        94,
        69,
        32,
        96,
        70,
        84,
        58,
        78,
        25,
        80,
        58,
        66,
        83,
        24,
        98,
        60,
        42,
        43,
        43,
        39,
    ]
)
# Widely reprinted roll-cutting example, stock 5600 mm: 73 rolls (data from memory, optimum computed by MILP).
ROLLS = {
    1380: 22,
    1520: 25,
    1560: 12,
    1710: 14,
    1820: 18,
    1880: 18,
    1930: 20,
    2000: 10,
    2050: 12,
    2100: 14,
    2140: 16,
    2150: 18,
    2200: 20,
}
# Chvátal, Linear Programming (1983), chapter 13: raws of 100, 453 (from memory).
CHVATAL = {45: 97, 36: 610, 31: 395, 14: 211}
# Winston, Operations Research: 17-ft boards cut to 3, 5 and 9 ft: 19 (data from memory, optimum computed).
BOARDS = {3: 25, 5: 20, 9: 15}


def cut_all(demands: dict[int, int], *lengths: int, limits: Limits | None = None) -> Plan:
    sizes = tuple(sorted(demands))
    stocks = tuple(Stock(n, 1 if len(lengths) == 1 else n) for n in lengths)
    plan = cut(sizes, tuple(demands[size] for size in sizes), stocks, limits or Limits())
    check(plan, sizes, demands, stocks)
    return plan


def check(plan: Plan, sizes: tuple[int, ...], demands: dict[int, int], stocks: tuple[Stock, ...]) -> None:
    made = [0] * len(sizes)
    for board in plan.boards:
        assert 1 <= len(board.lanes) <= stocks[board.stock].lanes
        for counts in board.lanes:
            used = sum(size * count for size, count in zip(sizes, counts, strict=True))
            assert used <= stocks[board.stock].capacity
            made = [have + count for have, count in zip(made, counts, strict=True)]
    assert made == [demands[size] for size in sizes], "each piece exactly once"
    assert plan.cost == sum(stocks[board.stock].price for board in plan.boards)
    assert plan.bound <= plan.cost


@pytest.mark.parametrize(
    ("demands", "length", "optimum"),
    [
        (ROLLS, 5600, 73),
        (CHVATAL, 100, 453),
        (BOARDS, 17, 19),
    ],
    ids=["rolls of 5600", "Chvatal", "17-ft boards"],
)
def test_published_optima_are_met_and_proven(demands: dict[int, int], length: int, optimum: int) -> None:
    plan = cut_all(dict(demands), length)
    assert plan.cost == optimum
    assert plan.proven


def test_beyond_its_reach_a_published_instance_is_first_fit_with_its_gap() -> None:
    # 7078 of 48 x 150 = 7200: by material alone 48 too. First fit, longest first, is known to take 49.
    plan = cut_all(dict(U120_00), 150)
    assert (plan.bound, plan.cost) == (48, 49)
    assert not plan.proven


def test_the_published_instances_are_as_published() -> None:
    assert sum(U120_00.values()) == 120
    assert (
        sum(size * count for size, count in U120_00.items()) == 7078
    )  # reference: sum computed from the data
    waste = 1 - sum(size * count for size, count in ROLLS.items()) / (73 * 5600)
    assert round(100 * waste, 3) == 0.401  # printed with the example


def fewest_by_trying_all(pieces: list[int], length: int) -> int:
    """Every way to put a few pieces into bins: slow and plain."""
    best = len(pieces)
    for where in product(range(len(pieces)), repeat=len(pieces) - 1):
        bins: dict[int, int] = {0: pieces[0]}
        for piece, place in zip(pieces[1:], where, strict=True):
            bins[place] = bins.get(place, 0) + piece
        if max(bins.values()) <= length:
            best = min(best, len(bins))
    return best


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.lists(st.integers(3, 20), min_size=1, max_size=6))
def test_small_cases_agree_with_trying_all(pieces: list[int]) -> None:
    plan = cut_all(dict(Counter(pieces)), 20)
    assert plan.proven
    assert plan.cost == fewest_by_trying_all(pieces, 20)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.dictionaries(st.integers(100, 900), st.integers(1, 9), min_size=1, max_size=12))
def test_several_lengths_cost_no_more_than_any_one(demands: dict[int, int]) -> None:
    plan = cut_all(demands, 1000, 1300, 1700)
    assert plan.cost <= min(cut_all(demands, length).cost * length for length in (1000, 1300, 1700))


def test_a_piece_longer_than_any_stock_is_refused() -> None:
    with pytest.raises(ValueError, match="longer than any stock"):
        cut_all({101: 1}, 100)


def test_no_pieces_need_no_stock() -> None:
    assert cut((), (), (Stock(10, 1),)).cost == 0


def test_of_plans_that_cost_the_same_one_is_always_named(monkeypatch: pytest.MonkeyPatch) -> None:
    # The solver may name any of its equals: another release of it, or the ways listed in another order.
    demands = {266: 8, 169: 5, 125: 7, 146: 3, 218: 3}
    sizes, stocks = tuple(sorted(demands)), (Stock(1000, 10), Stock(1300, 13), Stock(1700, 17))
    first = cut(sizes, tuple(demands[size] for size in sizes), stocks)
    forward = cutting_stock._ways
    monkeypatch.setattr(cutting_stock, "_ways", lambda *given: forward(*given)[::-1])
    second = cut(sizes, tuple(demands[size] for size in sizes), stocks)
    assert first == second
    assert first.proven


def test_priced_boards_are_bought_for_the_least_money() -> None:
    # By hand: four of 60 fit two by two into boards of 120, or one by one into boards of 100. At 5 for the
    # long and 2 for the short one the four short ones are cheaper, at 3 the two long ones.
    for price, boards in ((5, 4), (3, 2)):
        plan = cut((60,), (4,), (Stock(100, 2), Stock(120, price)))
        assert (len(plan.boards), plan.cost, plan.proven) == (boards, min(8, 2 * price), True)


def test_a_wide_board_is_bought_where_its_lanes_are_cheaper() -> None:
    # By hand: six of 90, one to a lane. A board of two lanes for 3 beats one of one lane for 2.
    stocks = (Stock(100, 2, 1), Stock(100, 3, 2))
    plan = cut((90,), (6,), stocks)
    check(plan, (90,), {90: 6}, stocks)
    assert (plan.cost, plan.proven) == (9, True)


def test_lanes_are_paid_for_by_the_board() -> None:
    # Two lanes to a board of 5 or 8. Lanes of 5, 3 and 3: one by one the cheapest are 5 + 3 + 3 on stock of 5
    # and 8, yet one board of 8 holds 5 + 3 in one lane and 3 in the other.
    stocks = (Stock(5, 5, 2), Stock(8, 8, 2))
    plan = cut((3, 5), (2, 1), stocks)
    check(plan, (3, 5), {3: 2, 5: 1}, stocks)
    assert (plan.cost, plan.bound, len(plan.boards)) == (8, 8, 1)


def least_by_trying_all(pieces: list[int], stocks: tuple[int, ...], lanes: int) -> int:
    """Every way to put a few pieces into lanes, and the lanes into boards: slow and plain."""
    best = len(pieces) * max(stocks)
    for where in product(range(len(pieces)), repeat=len(pieces)):
        used: dict[int, int] = {}
        for piece, lane in zip(pieces, where, strict=True):
            used[lane] = used.get(lane, 0) + piece
        if max(used.values()) > max(stocks):
            continue
        longest_first = sorted((min(s for s in stocks if s >= u) for u in used.values()), reverse=True)
        best = min(best, sum(longest_first[::lanes]))
    return best


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.lists(st.integers(2, 12), min_size=1, max_size=5), st.integers(2, 3))
def test_few_lanes_agree_with_trying_all(pieces: list[int], lanes: int) -> None:
    sizes = tuple(sorted(set(pieces)))
    demands = tuple(pieces.count(size) for size in sizes)
    stocks = tuple(Stock(n, n, lanes) for n in (8, 10, 12))
    plan = cut(sizes, demands, stocks)
    check(plan, sizes, dict(zip(sizes, demands, strict=True)), stocks)
    assert plan.cost == plan.bound == least_by_trying_all(pieces, (8, 10, 12), lanes)
