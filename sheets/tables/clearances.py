"""How far what burns stands from a masonry fireplace, by body of rules and edition: rows of distances.

One form holds for all: at `where`, a piece that projects more than `projects_over` stands at least
`distance` and `per_projection` times its projection away, unless it is beyond `no_limit_beyond`. A row that
asks more for less projection would be read as it stands: no row of a code does.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal, get_args

from sheets.base.length import LengthError, read_length
from sheets.tables.read import Cited, Confidence, rows

Where = Literal[
    "around", "above", "beside", "air front", "air side", "air back", "lining", "chimney inside",
    "chimney outside", "flue",
]  # fmt: skip
"""Of the opening: all round it, right above it, at its sides. Of the masonry: air before, beside and behind
it. From the inside of the firebox's lining and of the flue's, for what touches the masonry."""
WHERE: tuple[Where, ...] = get_args(Where)
COLUMNS = ("where", "projects_over", "distance", "per_projection", "no_limit_beyond", "source")


@dataclass(frozen=True, slots=True)
class Clearance:
    """One row. Lengths in exact mm."""

    where: Where
    projects_over: Fraction | None  # None: of any projection
    distance: Fraction
    per_projection: Fraction
    no_limit_beyond: Fraction | None
    cited: Cited

    def wanted(self, projection: Fraction) -> Fraction | None:
        """Return the distance that a projection wants, mm; None where the row asks nothing of it."""
        if self.projects_over is not None and projection <= self.projects_over:
            return None
        return self.distance + self.per_projection * projection

    def fails(self, distance: Fraction, projection: Fraction) -> bool:
        """Return whether a piece of this projection is too near."""
        wanted = self.wanted(projection)
        if wanted is None or (self.no_limit_beyond is not None and distance > self.no_limit_beyond):
            return False
        return distance < wanted


@cache
def editions(body: str) -> tuple[str, ...]:
    """Return the editions that a body of rules is known in, oldest first."""
    found = {edition for row in rows("clearances") if row["body"] == body for edition in _split(row)}
    return tuple(sorted(found))


@cache
def clearances(body: str, edition: str = "") -> tuple[Clearance, ...]:
    """Return the rows of a body of rules in an edition; without one, those of all: the worst of them holds.

    body: "" for all bodies: the strictest figures known. A figure is confirmed where a copy of that very
    edition was read.
    """
    found = []
    for row in rows("clearances"):
        known = _split(row)
        if (body and row["body"] != body) or (edition and known and edition not in known):
            continue
        seen = row["confidence"] == "confirmed" and edition in ("", row["read_in"])
        asked = edition or row["read_in"] or " and ".join(known)
        name = f"{row['body']} {row['source']}"
        source = f"{name}, {asked}, read in a copy" if seen else f"{name}, {asked}"
        found.append(_row(row, Cited(source, "confirmed" if seen else "from memory")))
    return tuple(found)


def own_clearances(text: str) -> tuple[Clearance, ...]:
    """Return the rows of a user's own table. Raises ValueError, its message naming the line and what is wrong
    in it.
    """
    reader = csv.DictReader(text.splitlines())
    lacking = [name for name in COLUMNS if name not in (reader.fieldnames or ())]
    if lacking:
        raise ValueError(f"line 1: the column {lacking[0]} is missing; wanted: {', '.join(COLUMNS)}")
    found = tuple(_own_row(row, number) for number, row in enumerate(reader, 2))
    if not found:
        raise ValueError("line 2: no row stands under the head")
    return found


def of_where(table: Iterable[Clearance], *where: Where) -> tuple[Clearance, ...]:
    """Return the rows for some of the places, in the table's order."""
    return tuple(row for row in table if row.where in where)


def strictest(table: Iterable[Clearance], where: Where) -> Clearance | None:
    """Return the row that asks for the greatest distance at a place, whatever projects; None without one."""
    found = of_where(table, where)
    return max(found, key=lambda row: row.distance, default=None)


def _split(row: dict[str, str]) -> tuple[str, ...]:
    return tuple(each for each in row["editions"].split("|") if each)


def _row(row: dict[str, str], cited: Cited) -> Clearance:
    where = row["where"].strip()
    if where not in WHERE:
        raise ValueError(f"'{where}' is no place; known: {', '.join(WHERE)}")
    over, beyond = (_optional(row[name]) for name in ("projects_over", "no_limit_beyond"))
    per = Fraction(row["per_projection"].strip() or "0")
    distance = _length(row["distance"])
    if per < 0 or distance < 0:
        raise ValueError("a distance is 0 or more")
    return Clearance(where, over, distance, per, beyond, cited)


def _own_row(row: dict[str, str], number: int) -> Clearance:
    confidence: Confidence = "not seen"
    try:
        if any(row[name] is None for name in COLUMNS):
            raise ValueError("it has fewer fields than the head")
        if not row["source"].strip():
            raise ValueError("no source is named")
        return _row(row, Cited(row["source"].strip(), confidence))
    except (ValueError, LengthError, ZeroDivisionError) as error:
        raise ValueError(f"line {number}: {error}") from None


def _optional(text: str) -> Fraction | None:
    return _length(text) if text.strip() else None


def _length(text: str) -> Fraction:
    return read_length(text.strip(), unit="inch")
