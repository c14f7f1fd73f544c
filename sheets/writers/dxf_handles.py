"""Handles that follow what an entity is of: its view and its part, its words or its place on the sheet.

A DXF numbers its entities. Numbered through, one line more shifts every number after it, and a change of one
size changes half the file. Here each thing has a block of numbers of its own, found from what it is; what is
drawn of it is numbered through within the block. A block that is taken already gives way to the next one
that the same thing leads to, in the order drawn, so that the same set has the same numbers.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from hashlib import blake2b
from typing import Any

from sheets.drawing.items import Area, Dimension, Item, Stroke, Symbol, Text

_BLOCK = 64  # numbers in a block
_FILLED = 32  # from here on a thing gets another block: what is left is for an entity with many of its own
_FIRST = 0x10000  # below are those of an empty document
_LAST = 0x7FFF0000  # some readers take no more than 31 bits; what is made last of all is numbered from here


@dataclass(slots=True)
class Handles:
    """The blocks given out so far in a document."""

    doc: Any
    _next: dict[str, tuple[int, int, int]] = field(default_factory=dict)  # its number, start and turn
    _taken: set[int] = field(default_factory=set)
    _current: str = ""

    def under(self, what: str) -> None:
        """Number what is drawn from here on as belonging to a thing."""
        numbers = self.doc.entitydb.handles
        if self._current:
            _, start, turn = self._next[self._current]
            self._next[self._current] = (numbers._handle, start, turn)
        number, start, turn = self._next.get(what) or (0, -_BLOCK, -1)
        if number - start >= _FILLED:
            number, turn = self._block(what, turn + 1)
            start = number
            self._next[what] = (number, start, turn)
        self._current = what
        numbers.reset(f"{number:X}")

    def close(self) -> None:
        """Number what is made when the document is written after all else."""
        self.doc.entitydb.handles.reset(f"{_LAST:X}")

    def _block(self, what: str, turn: int) -> tuple[int, int]:
        while True:
            at = digest(f"{what}\n{turn}", (_LAST - _FIRST) // _BLOCK)
            if at not in self._taken:
                self._taken.add(at)
                return _FIRST + at * _BLOCK, turn
            turn += 1


def digest(what: str, below: int) -> int:
    """Return a number below a limit that is the same for the same text on every machine."""
    return int.from_bytes(blake2b(what.encode("utf-8"), digest_size=8).digest(), "big") % below


def identity(item: Item) -> str:
    """Return what an item is of, as far as it can be told when other items come and go."""
    match item:
        case Dimension():
            return f"size {item.id or item.value_text}"
        case Symbol():
            return f"{item.kind} {item.at if not item.fields else sorted(item.fields.items())}"
        case Text():
            return f"words {item.plain}"
        case Stroke() if item.key:
            return f"line {item.key} {item.pen}"
        case Stroke() if item.path:
            (x0, y0), (x1, y1) = item.path[0].first, item.path[-1].last
            return f"line {x0:.2f} {y0:.2f} {x1:.2f} {y1:.2f}"
        case Area():
            return f"area {item.key} {item.hatch}"
    return ""
