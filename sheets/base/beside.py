"""Doing a piece of work in a process beside this one, for a machine with more than one core."""

from __future__ import annotations

import os
import signal
import sys
import traceback
from collections.abc import Callable
from contextlib import suppress
from multiprocessing import get_context, parent_process
from multiprocessing.connection import Connection
from typing import TypeVar

T = TypeVar("T")
_ENDING = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]

_open: list[Connection] = []
"""Where this process takes results from. A copy of it closes its own: while one were open, what is written to
it would wait for ever once this process is killed, instead of failing."""


def beside(work: Callable[[], T]) -> Callable[[], T]:
    """Begin a piece of work and return what waits for its result; call that once.

    It runs in a copy of this process, so it sees all that is known here and changes nothing of it; only its
    result is handed over, pickled. A pool would pickle what the work is done on as well, and its threads
    would make the next copy unsafe. Where a process cannot safely be copied, where there is one core, and in
    a process that is itself beside another, the work is done when its result is asked for. An exception in it
    is raised there, as a RuntimeError with its traceback.
    """
    if not _worth_it():
        return work
    context = get_context("fork")
    outlet, inlet = context.Pipe(duplex=False)
    _open.append(outlet)
    # A daemon: it ends with this process, should nobody ask for its result.
    process = context.Process(target=_hand_over, args=(work, inlet), daemon=True)
    held = signal.pthread_sigmask(signal.SIG_BLOCK, _ENDING)
    process.start()
    signal.pthread_sigmask(signal.SIG_SETMASK, held)
    inlet.close()  # or the end of a process that fell would not be seen

    def taken() -> T:
        try:
            result, trouble = outlet.recv()
        except EOFError:
            raise RuntimeError("a process beside this one ended without a result") from None
        except BaseException:  # a signal: what it still does is for nobody
            process.terminate()
            raise
        finally:
            outlet.close()
            _open.remove(outlet)
            process.join()
        if trouble:
            raise RuntimeError(f"in a process beside this one:\n{trouble}")
        return result  # type: ignore[no-any-return]

    return taken


def _worth_it() -> bool:
    # Elsewhere than on Linux, system libraries that are loaded do not outlive a copy.
    return sys.platform == "linux" and len(os.sched_getaffinity(0)) > 1 and parent_process() is None


def _hand_over(work: Callable[[], object], inlet: Connection) -> None:
    # It has nothing to put right, so a signal ends it at once. What the run does on one, an exception, may be
    # swallowed where it falls (in a weak reference's callback, say), and whoever waits would wait for ever.
    for number in _ENDING:
        if signal.getsignal(number) != signal.SIG_IGN:
            signal.signal(number, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, _ENDING)
    for outlet in _open:
        outlet.close()
    try:
        said = (work(), "")
    except BaseException:
        said = (None, traceback.format_exc())
    with suppress(BrokenPipeError):  # nobody waits any more
        inlet.send(said)
