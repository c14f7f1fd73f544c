"""One definition a schedule: its fields, of which the table on sheets, the columns of files and their schema
are loops.

A field with a heading stands on sheets, one that says something stands in files; most do both. Files give a
length twice, as the set prints it and in millimetres (`name` and `name_mm`).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Generic, Literal, TypeVar

from sheets.base.notation import Notation
from sheets.schedules.cells import length_cell
from sheets.schedules.table import Align, Cell, Column, TableData, plain

Kind = Literal["text", "count", "length", "number"]
Raw = Cell | int | float | Fraction
"""What a field's value is before it is set: words, a count, an exact length in mm, a number."""
Value = str | int | float
Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class Told:
    """What values are told by: how lengths are written, the sheet of each mark, the waste in percent."""

    notation: Notation
    sheet_of: Mapping[str, str] = field(default_factory=dict)
    waste: int = 0
    rounded: bool = False  # lengths off the grid, as on a curve, are rounded to it

    @property
    def metric(self) -> bool:
        return self.notation.kind == "mm"

    def length(self, value: Fraction) -> Cell:
        return length_cell(value, self.notation, rounded=self.rounded)

    def heading(self, words: str) -> str:
        """Return a heading with its units and the waste put in."""
        units = {"run": "M", "volume": "M³", "area": "M²"} if self.metric else _INCH_UNITS
        return words.format(waste=self.waste, **units)


def begins_a_formula(text: str) -> bool:
    """Return whether a spreadsheet may run a text: it begins with a sign of formulas, of any width, after
    blanks or none; or with a tab or the end of a line, behind which some look for one.
    """
    return text.startswith(_BREAKS) or unicodedata.normalize("NFKC", text).lstrip().startswith(_FORMULA)


_FORMULA = ("=", "+", "-", "@")
_BREAKS = ("\t", "\r", "\n")
_INCH_UNITS = {"run": "FT", "volume": "BD FT", "area": "SQ FT"}


@dataclass(frozen=True, slots=True)
class Field(Generic[Row]):
    """One column: what it is called in files, its value of a row, its heading on sheets and what it says in
    files; without heading or words it is not there. digits: of a number on sheets, inch and metric.
    """

    name: str
    kind: Kind
    value: Callable[[Row, Told], Raw]
    heading: str = ""
    says: str = ""
    align: Align | None = None
    digits: tuple[int, int] = (1, 1)

    def cell(self, raw: Raw, told: Told) -> Cell:
        """Return a value as it is set on a sheet."""
        if self.kind == "length":
            return told.length(_number(raw))
        if self.kind == "number":
            return f"{float(_number(raw)):.{self.digits[told.metric]}f}"
        return raw if isinstance(raw, (str, tuple)) else str(raw)

    def values(self, raw: Raw, told: Told) -> tuple[Value, ...]:
        """Return a value as it stands in files: two columns for a length."""
        if self.kind == "length":
            return plain(told.length(_number(raw))), round(float(_number(raw)), 4)
        if self.kind == "text":
            return (plain(raw) if isinstance(raw, (str, tuple)) else str(raw),)
        return (int(_number(raw)) if self.kind == "count" else round(float(_number(raw)), 4),)

    @property
    def columns(self) -> tuple[FileColumn, ...]:
        """The columns it makes in files."""
        if self.kind != "length":
            return (FileColumn(self.name, self.kind, self.says),)
        return (
            FileColumn(self.name, "text", f"{self.says}, as printed on the sheets"),
            FileColumn(f"{self.name}_mm", "number", f"{self.says}, millimetres"),
        )


@dataclass(frozen=True, slots=True)
class FileColumn:
    """One column of a file."""

    name: str
    kind: Kind
    says: str


@dataclass(frozen=True, slots=True)
class Schedule(Generic[Row]):
    """One schedule: what its file is called and says, its title on sheets, and its fields in order."""

    name: str
    fields: tuple[Field[Row], ...]
    says: str = ""
    title: str = ""

    @property
    def columns(self) -> tuple[FileColumn, ...]:
        """The columns of its file, lengths doubled."""
        return tuple(column for each in self.fields if each.says for column in each.columns)

    def table(
        self, rows: Iterable[Row | Line], told: Told, notes: tuple[str, ...] = (), **named: str
    ) -> TableData:
        """Return its table on sheets. named: another id or title than its own."""
        shown = [each for each in self.fields if each.heading]
        columns = tuple(Column(told.heading(f.heading), f.align or _align(f.kind)) for f in shown)
        cells = []
        for row in rows:
            if isinstance(row, Line):
                cells.append(tuple(
                    f.cell(row.filled[f.name], told) if f.name in row.filled else "" for f in shown
                ))  # fmt: skip
            else:
                cells.append(tuple(f.cell(f.value(row, told), told) for f in shown))
        id, title = named.get("id", self.name), named.get("title", self.title)
        return TableData(id, title, columns, tuple(cells), notes)

    def records(self, rows: Iterable[Row], told: Told) -> Records:
        """Return its rows as files hold them."""
        kept = [each for each in self.fields if each.says]
        found = tuple(tuple(v for f in kept for v in f.values(f.value(row, told), told)) for row in rows)
        return Records(self.name, self.says, self.columns, found)


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a table that is no row of the schedule: a heading, a total. By field what stands in it."""

    filled: Mapping[str, Raw]


@dataclass(frozen=True, slots=True)
class Records:
    """One file's worth of rows. Each row has a value for every column."""

    name: str
    says: str
    columns: tuple[FileColumn, ...]
    rows: tuple[tuple[Value, ...], ...]


def _align(kind: Kind) -> Align:
    return "left" if kind == "text" else "right"


def _number(raw: Any) -> Fraction:
    return Fraction(raw)
