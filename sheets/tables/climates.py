"""The air of rooms through the year by region, and the moisture content that wood is fixed at there.

The two are not one: what the Wood Handbook recommends for the day of installation says nothing of how far the
year swings.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.tables.match import names_of, plain_name
from sheets.tables.read import Cited, cited, confidence, rows


@dataclass(frozen=True, slots=True)
class RoomAir:
    """Air of a room: relative humidity in %, temperature in deg C."""

    humidity_pct: float
    celsius: float


@dataclass(frozen=True, slots=True)
class Climate:
    """What rooms of a region see: the air of the driest and the dampest season, and the moisture content in %
    of oven-dry weight that wood has when it is fixed.
    """

    region: str
    names: frozenset[str]
    installed_pct: float
    dry: RoomAir
    damp: RoomAir
    installed_cited: Cited
    cited: Cited


@dataclass(frozen=True, slots=True)
class Fireside:
    """Air of a room with a fire, in the season that it burns."""

    air: RoomAir
    cited: Cited


@cache
def climates() -> tuple[Climate, ...]:
    """Return the regions in the order of the data file; the first is the usual one."""
    return tuple(
        Climate(
            row["region"],
            names_of(row["region"], row["synonyms"]),
            float(row["installed_pct"]),
            RoomAir(float(row["dry_humidity_pct"]), float(row["dry_celsius"])),
            RoomAir(float(row["damp_humidity_pct"]), float(row["damp_celsius"])),
            Cited(row["installed_source"], confidence(row["installed_confidence"])),
            cited(row),
        )
        for row in rows("climates")
    )


def climate_named(name: str) -> Climate:
    """Return the region that answers to a name. Raises KeyError when none does."""
    return {known: climate for climate in climates() for known in climate.names}[plain_name(name)]


@cache
def fireside() -> Fireside:
    """Return the air that a fireplace in the room makes the driest."""
    (row,) = rows("fireside")
    return Fireside(RoomAir(float(row["humidity_pct"]), float(row["celsius"])), cited(row))
