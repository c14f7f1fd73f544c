"""Work done beside: its result comes back, and so does what went wrong in it."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from fractions import Fraction

import pytest

from sheets.base.beside import beside, ready_beside


def test_the_result_comes_back_and_the_work_ran_in_a_copy() -> None:
    seen: list[int] = []

    def work() -> tuple[int, list[int]]:
        seen.append(1)
        return os.getpid(), list(seen)

    number, there = beside(work)()
    assert there == [1]
    if hasattr(os, "fork") and (os.cpu_count() or 1) > 1:
        assert number != os.getpid()
        assert seen == [], "nothing here was changed by it"


def test_large_results_do_not_stop_the_pipe() -> None:
    assert len(beside(lambda: b"x" * 5_000_000)()) == 5_000_000


def test_what_goes_wrong_is_raised_where_the_result_is_asked_for() -> None:
    def fails() -> int:
        raise ValueError("the board is too short")

    waiting = beside(fails)
    with pytest.raises((RuntimeError, ValueError), match="too short"):
        waiting()


@dataclass(frozen=True, slots=True)
class _Board:
    length: Fraction
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    name: str
    board: _Board


@dataclass(frozen=True, slots=True)
class _Bare:
    size: int = field(init=False, default=3)


def test_values_come_back_as_they_were() -> None:
    board = _Board(Fraction(127, 5), ("A1",))
    given = [board, _Named(name="left", board=board), _Bare(), {"kind": _Board, "same": board}]
    back = beside(lambda: given)()
    assert back == given
    assert back[0] is back[1].board is back[3]["same"], "what was one thing is one thing"


def test_what_is_ready_beside_works_on_what_it_is_given() -> None:
    large = list(range(400_000))
    with ready_beside(lambda: None, sum) as sum_of:
        waiting = sum_of(large)
    assert waiting() == 399_999 * 200_000


def test_getting_ready_is_done_where_the_work_is() -> None:
    seen: list[str] = []

    with ready_beside(lambda: seen.append("ready"), lambda given: [*seen, given]) as work_on:
        assert work_on("given")() in (
            ["ready", "given"],
            ["given"],
        )  # on one core there is nothing to get ready
    assert seen == []


def test_what_goes_wrong_in_getting_ready_or_in_the_work_is_raised_where_the_result_is_asked_for() -> None:
    def fails(*_: object) -> int:
        raise ValueError("the board is too short")

    with (
        ready_beside(lambda: None, fails) as work_on,
        pytest.raises((RuntimeError, ValueError), match="too short"),
    ):
        work_on(b"x" * 5_000_000)()
    if hasattr(os, "fork") and (os.cpu_count() or 1) > 1:
        with ready_beside(fails, len) as work_on, pytest.raises(RuntimeError, match="too short"):
            work_on(b"x" * 5_000_000)()


def test_no_process_is_left_where_nothing_was_given() -> None:
    with pytest.raises(KeyError), ready_beside(lambda: None, len):
        raise KeyError("the set has an error")
    if hasattr(os, "fork"):
        with pytest.raises(ChildProcessError):
            os.waitpid(-1, os.WNOHANG)
