"""Keeping a solver's own words off standard output, which belongs to what the user asked for.

HiGHS prints a line of its own when it repairs a solution, whatever its options say. It writes past Python,
so the file descriptor itself is turned away while it runs.
"""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress


@contextmanager
def silenced() -> Iterator[None]:
    """Send what is written to standard output by a library to nowhere; without such an output do nothing."""
    try:
        sys.stdout.flush()
        kept = os.dup(1)
    except (OSError, ValueError, AttributeError):
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(nowhere, 1)
        yield
    finally:
        _flush_library_buffers()
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)


def _flush_library_buffers() -> None:
    # What a C library has buffered would otherwise come out later, on the output given back.
    with suppress(OSError, TypeError, AttributeError):
        ctypes.CDLL(None).fflush(None)
