"""What is being done, on a terminal."""

from __future__ import annotations

import sys

from sheets.base.text_file import shown_name
from sheets.commands.drawing import Job


class Progress:
    """One line on a terminal that says what is being done; nothing elsewhere."""

    def __init__(self) -> None:
        # The terminal itself: what goes through sys.stderr may not move its cursor.
        self._terminal = sys.__stderr__ if sys.__stderr__ is not None and sys.__stderr__.isatty() else None
        self._width = 0

    def show(self, job: Job, stage: str) -> None:
        """Say that a stage begins."""
        if self._terminal is not None:
            line = f"{shown_name(job.spec.name)}: {stage}"
            self._write(line.ljust(self._width))
            self._width = max(self._width, len(line))

    def clear(self) -> None:
        """Wipe the line."""
        if self._width:
            self._write(" " * self._width + "\r")

    def _write(self, line: str) -> None:
        if self._terminal is not None:
            self._terminal.write("\r" + line)
            self._terminal.flush()
