"""Single figures by name: code values, shop practice, limits of order and stability.

Lengths come as exact millimetres, ratios and counts as they are.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal

from sheets.base.length import MM_PER_INCH
from sheets.tables.read import Cited, cited, inches, rows

FigureTable = Literal["fireplace", "joinery", "stability", "order"]


@dataclass(frozen=True, slots=True)
class NamedFigure:
    """One figure: mm when the data file gives inches, else in its own unit."""

    name: str
    value: Fraction
    unit: str  # "mm", "ft2", "lb", "count", "of thickness", ...
    cited: Cited


@cache
def figures(table: FigureTable) -> tuple[NamedFigure, ...]:
    """Return the figures of one table in its order."""
    return tuple(
        NamedFigure(
            row["name"],
            inches(row["value"]) if row["unit"] == "in" else inches(row["value"]) / MM_PER_INCH,
            "mm" if row["unit"] == "in" else row["unit"],
            cited(row),
        )
        for row in rows(table)
    )


def figure(table: FigureTable, name: str) -> NamedFigure:
    """Return one figure. Raises KeyError when the table has no such name: our own bug."""
    for each in figures(table):
        if each.name == name:
            return each
    raise KeyError(f"{table}: {name}")
