"""Doing a piece of work in a process beside this one, for a machine with more than one core."""

from __future__ import annotations

import os
import pickle
import signal
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import fields, is_dataclass
from functools import cache
from io import BytesIO
from operator import attrgetter
from typing import Any, TypeVar

S = TypeVar("S")
T = TypeVar("T")

_WIDE = 1 << 20  # bytes; what Linux lets anyone have


def beside(work: Callable[[], T]) -> Callable[[], T]:
    """Begin a piece of work and return what waits for its result.

    It runs in a copy of this process, so it sees all that is known here and changes nothing of it. Where a
    process cannot be copied, or there is one core, it is done when its result is asked for. An exception in
    it is raised where the result is asked for, as a RuntimeError with its traceback.
    """
    if not _can_copy():
        return work
    child, source = _begun(work)
    return lambda: _taken(source, child)


@contextmanager
def ready_beside(
    get_ready: Callable[[], object], work: Callable[[S], T]
) -> Iterator[Callable[[S], Callable[[], T]]]:
    """Let a process beside this one get ready for a piece of work whose matter is not known yet.

    Yields what hands over the matter, once, and returns what waits for the result, as `beside` does. Where
    nothing is handed over, the process is ended.
    """
    if not _can_copy():
        yield lambda matter: lambda: work(matter)
        return
    inlet, outlet = _pipe()
    given = False

    def work_when_given() -> T:
        os.close(outlet)  # or the end of what is handed over would not be seen
        get_ready()
        with open(inlet, "rb") as pipe:
            return work(pickle.load(pipe))

    child, source = _begun(work_when_given)
    os.close(inlet)

    def give(matter: S) -> Callable[[], T]:
        nonlocal given
        given = True
        # A process that has ended says why in its result.
        with suppress(BrokenPipeError), open(outlet, "wb") as pipe:
            pipe.write(_packed(matter))
        return lambda: _taken(source, child)

    try:
        yield give
    finally:
        if not given:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            os.close(outlet)
            os.close(source)


def _begun(work: Callable[[], object]) -> tuple[int, int]:
    # The process, and where its result can be read.
    source, sink = _pipe()
    child = os.fork()
    if child == 0:
        os.close(source)
        _hand_over(work, sink)
    os.close(sink)
    return child, source


def _pipe() -> tuple[int, int]:
    # As wide as the system lets it be, so that neither end waits for the other at every 64 KB.
    source, sink = os.pipe()
    try:
        import fcntl

        fcntl.fcntl(sink, fcntl.F_SETPIPE_SZ, _WIDE)
    except (ImportError, AttributeError, OSError):
        pass
    return source, sink


def _can_copy() -> bool:
    return hasattr(os, "fork") and (os.cpu_count() or 1) > 1


def _hand_over(work: Callable[[], object], sink: int) -> None:
    # Leaves by os._exit: nothing that this process has opened or buffered is to be closed or flushed twice.
    try:
        try:
            data = _packed((True, work()))
        except BaseException:
            data = _packed((False, traceback.format_exc()))
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


def _packed(matter: object) -> bytes:
    out = BytesIO()
    _Pickler(out, pickle.HIGHEST_PROTOCOL).dump(matter)
    return out.getvalue()


class _Pickler(pickle.Pickler):
    # Writes a dataclass as a call of its constructor: less than half the time of its own way, both ways.
    def reducer_override(self, thing: Any) -> Any:
        kind = thing.__class__
        values = _values_of(kind)
        return NotImplemented if values is None else (kind, values(thing))


@cache
def _values_of(kind: type) -> Callable[[Any], tuple[Any, ...]] | None:
    if not is_dataclass(kind) or hasattr(kind, "__post_init__"):
        return None
    names = [field.name for field in fields(kind) if field.init and not field.kw_only]
    if len(names) < max(2, len(fields(kind))):
        return None
    return attrgetter(*names)
