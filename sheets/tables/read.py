"""Reading the data files beside this module: rows of text, made into typed values by the reader of each
table.

Every data file is a CSV with the columns `source` and `confidence`. A length column ends in `_in` (inches,
written as a fraction such as 1 1/2) or `_mm`, or each length has its unit; all become exact lengths in mm.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from importlib.resources import files
from typing import Literal

from sheets.base.length import MM_PER_INCH

Confidence = Literal["confirmed", "from memory", "computed", "not seen"]
CONFIDENCES: tuple[Confidence, ...] = ("confirmed", "from memory", "computed", "not seen")


@dataclass(frozen=True, slots=True)
class Cited:
    """Where a figure comes from, and how sure it is that the source says so.

    `confirmed`: seen in a copy of the source. `from memory`: recalled, to be checked before it is relied
    upon. `computed`: worked out from a stated formula. `not seen`: as the user copied it; the program has
    seen no copy.
    """

    source: str
    confidence: Confidence

    @property
    def text(self) -> str:
        """The citation as a sheet prints it; the mark of what is not confirmed always goes with it."""
        return self.source if self.confidence == "confirmed" else f"{self.source} ({self.confidence})"


def together(*figures: Cited) -> Cited:
    """Return the citation of what rests on several figures: each source once, the weakest of their marks."""
    sources = "; ".join(dict.fromkeys(figure.source for figure in figures))
    marks = {figure.confidence for figure in figures}
    weakest = next((mark for mark in ("from memory", "not seen", "computed") if mark in marks), "confirmed")
    return Cited(sources, confidence(weakest))


def rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of the data file `name`.csv in its order, each a dict of its columns' text."""
    text = files("sheets.tables").joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return tuple(dict(row) for row in csv.DictReader(text.splitlines()))


def cited(row: dict[str, str]) -> Cited:
    """Return the citation of a row. Raises ValueError on a word that is no degree of confidence: our
    own bug.
    """
    return Cited(row["source"], confidence(row["confidence"]))


def confidence(word: str) -> Confidence:
    """Return the word as a degree of confidence, or raise ValueError."""
    if word not in CONFIDENCES:
        raise ValueError(f"'{word}' is no degree of confidence")
    return word


def inches(text: str) -> Fraction:
    """Return a length written in inches (3/4, 1 1/2, 0.703) as exact millimetres."""
    return sum((Fraction(word) for word in text.split()), Fraction(0)) * MM_PER_INCH


def length(text: str) -> Fraction:
    """Return a length with its unit (0.703 in, 17.1 mm) as exact millimetres."""
    number, unit = text.split()
    return Fraction(number) * {"in": MM_PER_INCH, "mm": Fraction(1)}[unit]


def optional_inches(text: str) -> Fraction | None:
    """Return a length written in inches as exact millimetres, or None where the table is empty."""
    return inches(text) if text.strip() else None


def optional_float(text: str) -> float | None:
    """Return a number, or None where the table is empty."""
    return float(text) if text.strip() else None
