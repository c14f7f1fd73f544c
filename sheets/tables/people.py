"""People and what they put on shelves: bodies, reach, eye heights, pictures, books. Exact mm."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from sheets.tables.read import Cited, cited, inches, length, rows


@dataclass(frozen=True, slots=True)
class Range:
    """A range of a measure: of bodies from a small woman to a large man, or of a habit."""

    name: str
    least: Fraction
    most: Fraction
    cited: Cited


@dataclass(frozen=True, slots=True)
class BookFormat:
    """Clear height between shelves and depth that a format of book wants."""

    name: str
    clear_height: Fraction
    depth: Fraction
    cited: Cited


@cache
def ranges() -> tuple[Range, ...]:
    """Return every range in the order of the data file."""
    return tuple(
        Range(row["name"], length(row["least"]), length(row["most"]), cited(row))
        for row in rows("anthropometry")
    )


def body(name: str) -> Range:
    """Return one range by its name."""
    return next(each for each in ranges() if each.name == name)


def seated_eye_height() -> Range:
    """Return the eye height of a seated person above the floor, without shoes.

    The sum of the knee-back height and the eye height above the seat: summing percentiles is only a bound.
    """
    seat, eye = body("popliteal height"), body("eye height above seat")
    return Range(
        "seated eye height",
        seat.least + eye.least,
        seat.most + eye.most,
        Cited("sum of " + seat.cited.source + "; a bound only", "computed"),
    )


@cache
def book_formats() -> tuple[BookFormat, ...]:
    """Return the formats of books, smallest first."""
    return tuple(
        BookFormat(row["format"], inches(row["clear_height_in"]), inches(row["depth_in"]), cited(row))
        for row in rows("book_formats")
    )
