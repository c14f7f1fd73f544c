"""Moisture content that wood settles at indoors, by region."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.tables.match import names_of, plain_name
from sheets.tables.read import Cited, cited, rows


@dataclass(frozen=True, slots=True)
class Climate:
    """Recommended interior moisture content of a region, in % of oven-dry weight: average, and range of
    pieces.
    """

    region: str
    names: frozenset[str]
    average_pct: float
    low_pct: float
    high_pct: float
    cited: Cited


@cache
def climates() -> tuple[Climate, ...]:
    """Return the regions in the order of the data file; the first is the usual one."""
    return tuple(
        Climate(
            row["region"],
            names_of(row["region"], row["synonyms"]),
            float(row["average_pct"]),
            float(row["low_pct"]),
            float(row["high_pct"]),
            cited(row),
        )
        for row in rows("climates")
    )


def climate_named(name: str) -> Climate:
    """Return the region that answers to a name. Raises KeyError when none does."""
    return {known: climate for climate in climates() for known in climate.names}[plain_name(name)]
