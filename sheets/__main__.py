"""`python -m sheets`, and `shopset`: the program as the outside world runs it, and how it ends.

Loads nothing heavy before it can answer an interrupt. Whatever ends a run, the user has one line and a
status: 130 after an interrupt, 143 and 129 after the signals to end and to hang up, 141 when nobody reads
on, 2 when standard output cannot be written.
"""

from __future__ import annotations

import errno
import io
import os
import re
import signal
import sys
from contextlib import suppress
from types import FrameType
from typing import TextIO

WRONG = 2
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


class Ended(BaseException):
    """A run was ended from outside. No `Exception`, so that nothing on the way takes it for a fault."""

    def __init__(self, status: int, words: str) -> None:
        super().__init__(words)
        self.status = status


class PlainText(io.TextIOWrapper):
    """A stream of text that sends no control characters to a terminal, whatever a file or a name held.

    They are written as JSON and YAML write them: \\u001b. Raises Ended when the stream cannot be written.
    """

    def write(self, text: str) -> int:
        """Write text and return how long it was."""
        try:
            return super().write(_CONTROL.sub(lambda found: f"\\u{ord(found[0]):04x}", text))
        except OSError as error:
            raise _unwritable(error) from None

    def flush(self) -> None:
        """Hand on what has been written."""
        try:
            super().flush()
        except OSError as error:
            raise _unwritable(error) from None


def main() -> None:
    """Run the program and end the process."""
    with suppress(ValueError):  # not the main thread: then signals are somebody else's
        for name in ("SIGINT", "SIGTERM", "SIGHUP"):
            if hasattr(signal, name) and signal.getsignal(getattr(signal, name)) != signal.SIG_IGN:
                signal.signal(getattr(signal, name), _signalled)
    try:
        sys.stdout, sys.stderr = _plain(sys.stdout), _plain(sys.stderr)
        from sheets.cli import run

        status = run()
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
    except BaseException as error:
        # What a signal raises may come out of a library as an exception of its own.
        ended = error if isinstance(error, Ended) else _ended_by_signal()
        if ended is None:
            raise
        status = ended.status
        with suppress(BaseException):
            print(f"error: {ended}", file=sys.stderr, flush=True)
        _let_go_of_output()
    sys.exit(status)


_ending: list[int] = []


def _signalled(number: int, frame: FrameType | None) -> None:
    # The first lets the run put things back; a second ends it at once, and the next run puts them right.
    if _ending:
        os._exit(128 + number)
    _ending.append(number)
    raise Ended(*_words_of(number))


def _ended_by_signal() -> Ended | None:
    return Ended(*_words_of(_ending[0])) if _ending else None


def _words_of(number: int) -> tuple[int, str]:
    return 128 + number, "interrupted" if number == signal.SIGINT else "ended from outside"


def _unwritable(error: OSError) -> Ended:
    if error.errno == errno.EPIPE:
        return Ended(128 + signal.SIGPIPE, "nobody read on; not all was said")
    return Ended(WRONG, f"what was to be said cannot be written: {error.strerror or error}")


def _plain(stream: TextIO) -> TextIO:
    # Some job runners start a program with its streams closed; then there is none.
    if stream is None or not hasattr(stream, "buffer"):
        return stream
    return PlainText(
        stream.buffer,
        encoding=stream.encoding,
        errors="backslashreplace",
        line_buffering=bool(stream.line_buffering),
    )


def _let_go_of_output() -> None:
    # What could not be written would be tried again at the very end, and complained of.
    with suppress(OSError, ValueError, AttributeError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


if __name__ == "__main__":
    main()
