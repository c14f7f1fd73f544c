"""Work done beside: its result comes back, and so does what went wrong in it."""

from __future__ import annotations

import os

import pytest

from sheets.commands.beside import beside


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
