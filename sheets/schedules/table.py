"""A table as content: headings, rows, notes, without position or paper size. Compose sets it on sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sheets.base.notation import Run, plain_text

Align = Literal["left", "centre", "right"]


Cell = str | tuple[Run, ...]
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
    return cell if isinstance(cell, str) else plain_text(cell)
