"""Doing a piece of work in a process beside this one, for a machine with more than one core."""

from __future__ import annotations

import os
import pickle
import traceback
from collections.abc import Callable
from typing import Any, TypeVar

T = TypeVar("T")


def beside(work: Callable[[], T]) -> Callable[[], T]:
    """Begin a piece of work and return what waits for its result.

    It runs in a copy of this process, so it sees all that is known here and changes nothing of it. Where a
    process cannot be copied, or there is one core, it is done when its result is asked for. An exception in
    it is raised where the result is asked for, as a RuntimeError with its traceback.
    """
    if not hasattr(os, "fork") or (os.cpu_count() or 1) < 2:
        return work
    source, sink = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(source)
        _hand_over(work, sink)
    os.close(sink)
    return lambda: _taken(source, child)


def _hand_over(work: Callable[[], object], sink: int) -> None:
    # Leaves by os._exit: nothing that this process has opened or buffered is to be closed or flushed twice.
    try:
        try:
            data = pickle.dumps((True, work()), pickle.HIGHEST_PROTOCOL)
        except BaseException:
            data = pickle.dumps((False, traceback.format_exc()))
        with open(sink, "wb", closefd=False) as pipe:
            pipe.write(data)
    except OSError:
        pass  # the reader is gone
    finally:
        os._exit(0)


def _taken(source: int, child: int) -> Any:
    with open(source, "rb") as pipe:
        data = pipe.read()
    os.waitpid(child, 0)
    if not data:
        raise RuntimeError("a process beside this one ended without a result")
    done, result = pickle.loads(data)
    if not done:
        raise RuntimeError(f"in a process beside this one:\n{result}")
    return result
