"""Work done beside: its result comes back, and so does what went wrong in it."""

from __future__ import annotations

import multiprocessing
import os
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from fractions import Fraction

import pytest

from sheets.base.beside import beside


@pytest.fixture(params=[1, 2], ids=["one core", "two cores"])
def cores(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setattr(os, "sched_getaffinity", lambda process: set(range(request.param)), raising=False)
    return int(request.param)


def copied(cores: int) -> bool:
    return cores > 1 and os.uname().sysname == "Linux"


def test_the_result_comes_back_and_with_two_cores_the_work_runs_in_a_copy(cores: int) -> None:
    seen: list[int] = []

    def work() -> tuple[int, list[int]]:
        seen.append(1)
        return os.getpid(), list(seen)

    number, there = beside(work)()
    assert there == [1]
    assert (number != os.getpid()) == copied(cores)
    assert seen == ([] if copied(cores) else [1]), "nothing here was changed by a copy"


def test_large_results_do_not_stop_the_pipe(cores: int) -> None:
    assert len(beside(lambda: b"x" * 5_000_000)()) == 5_000_000


def test_what_goes_wrong_is_raised_where_the_result_is_asked_for(cores: int) -> None:
    def fails() -> int:
        raise ValueError("the board is too short")

    waiting = beside(fails)
    with pytest.raises((RuntimeError, ValueError), match="too short"):
        waiting()


def test_a_process_that_falls_is_told(cores: int) -> None:
    if copied(cores):
        with pytest.raises(RuntimeError, match="ended without a result"):
            beside(lambda: os._exit(3))()


@dataclass(frozen=True, slots=True)
class _Board:
    length: Fraction
    marks: tuple[str, ...] = ()


def test_values_come_back_as_they_were(cores: int) -> None:
    board = _Board(Fraction(127, 5), ("A1",))
    back = beside(lambda: [board, {"same": board}])()
    assert back == [board, {"same": board}]
    assert back[0] is back[1]["same"], "what was one thing is one thing"


def test_several_run_at_once_and_none_is_left(cores: int) -> None:
    waiting = [beside(lambda number=number: number * number) for number in range(4)]  # type: ignore[misc]
    assert [each() for each in waiting] == [0, 1, 4, 9]
    assert not multiprocessing.active_children()


def test_what_runs_in_a_pool_begins_no_process_of_its_own() -> None:
    with ProcessPoolExecutor(1) as pool:
        assert pool.submit(_same_process).result()


def _same_process() -> bool:
    return beside(os.getpid)() == os.getpid()
