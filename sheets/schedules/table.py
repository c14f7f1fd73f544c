"""A table as content: headings, rows, notes, without position or paper size. Compose sets it on sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Align = Literal["left", "centre", "right"]


@dataclass(frozen=True, slots=True)
class CellRun:
    """A piece of a cell: words, or a fraction that is set stacked where the medium can."""

    text: str = ""
    numerator: int = 0
    denominator: int = 0  # 0: the run is `text`

    @property
    def plain(self) -> str:
        return f"{self.numerator}/{self.denominator}" if self.denominator else self.text


Cell = str | tuple[CellRun, ...]
"""What stands in a cell: plain words, or runs with stacked fractions."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading, and how it is aligned."""

    header: str
    align: Align = "left"


@dataclass(frozen=True, slots=True)
class TableData:
    """One table. Every row has as many cells as there are columns."""

    id: str  # stable: "parts", "lumber", "hardware"
    title: str  # as printed: "SCHEDULE OF PARTS"
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[str, ...] = ()  # printed under the table


def plain(cell: Cell) -> str:
    """Return a cell on one line: runs joined, a space between a whole number and its fraction."""
    if isinstance(cell, str):
        return cell
    text = ""
    for run in cell:
        text += " " + run.plain if run.denominator and text[-1:].isdigit() else run.plain
    return text
