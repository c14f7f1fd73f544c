"""What the spec sets for the checks, over the defaults: loads, limits on sag, moisture, waivers.

The section is a mapping, or a value with attributes of these names; a name that is missing leaves the
default.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sheets.checks.mechanics.moisture import celsius_of, equilibrium_pct
from sheets.model.wall import Wall
from sheets.tables.climates import Climate, climate_named, climates
from sheets.tables.figures import figure
from sheets.tables.loads import (
    N_PER_MM_PER_KG_PER_M,
    N_PER_MM_PER_LB_PER_FT,
    ShelfLoad,
    sag_limit,
    shelf_load,
    shelf_loads,
)
from sheets.tables.read import Cited


@dataclass(frozen=True, slots=True)
class Waiver:
    """Findings of one rule that someone answers for; of one part or component when `part` names its key."""

    rule: str
    reason: str
    by: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True)
class Moisture:
    """The range of moisture content that the wood will see, in %, and where that comes from."""

    low_pct: float
    high_pct: float
    installed_pct: float  # what the wood is taken to be at when it is fixed
    said: str
    cited: Cited

    @property
    def swing(self) -> float:
        """Points of moisture content from the driest to the dampest."""
        return self.high_pct - self.low_pct


@dataclass(frozen=True, slots=True)
class CheckSettings:
    """What findings are judged by. Limits on sag are span over sag; lengths exact mm."""

    load: ShelfLoad
    given_load: float | None  # N per mm of shelf, when the spec gives its own
    aim: float
    most: float
    moisture: Moisture
    stud_spacing: Fraction
    out_of_plumb: Fraction | None
    waivers: tuple[Waiver, ...]


def check_settings(wall: Wall) -> CheckSettings:
    """Return the settings of a wall."""
    section = wall.settings.get("checks")
    sag = value_of(section, "sag")
    lean = _size(wall.settings.get("room"), "out_of_plumb")
    return CheckSettings(
        load=shelf_load(str(value_of(section, "load") or "books")) or shelf_loads()[0],
        given_load=_given_load(value_of(section, "given_load")),
        aim=_number(sag, "aim", sag_limit("aim").value),
        most=_number(sag, "most", sag_limit("industry").value),
        moisture=_moisture(section),
        stud_spacing=_size(section, "stud_spacing") or figure("stability", "stud spacing").value,
        out_of_plumb=lean,
        waivers=_waivers(value_of(section, "waivers")),
    )


def value_of(section: object, name: str) -> object:
    """Return what a section says under a name, or None when it is silent."""
    return section.get(name) if isinstance(section, Mapping) else getattr(section, name, None)


def _number(section: object, name: str, default: float) -> float:
    value = value_of(section, name)
    return default if value is None else float(str(value))


def _size(section: object, name: str) -> Fraction | None:
    value = value_of(section, name)
    return Fraction(value) if isinstance(value, (int, Fraction)) else None


def _given_load(given: object) -> float | None:
    if given is None:
        return None
    weight = _number(given, "weight", 0.0)
    if value_of(given, "per") == "foot":
        return weight * N_PER_MM_PER_LB_PER_FT
    return weight * N_PER_MM_PER_KG_PER_M


def _moisture(section: object) -> Moisture:
    air = value_of(section, "air")
    if air is not None:
        ends = sorted(_settles_at(value_of(air, season)) for season in ("driest", "dampest"))
        return Moisture(
            ends[0],
            ends[1],
            sum(ends) / 2,
            "from the temperature and humidity given",
            Cited("Wood Handbook 2021, equation 4-5", "confirmed"),
        )
    climate: Climate = climate_named(str(value_of(section, "region") or "most")) or climates()[0]
    return Moisture(climate.low_pct, climate.high_pct, climate.average_pct, climate.region, climate.cited)


def _settles_at(season: object) -> float:
    temperature = _number(season, "temperature", 70.0)
    celsius = temperature if value_of(season, "degrees") == "C" else celsius_of(temperature)
    return equilibrium_pct(celsius, _number(season, "humidity", 45.0))


def _waivers(given: object) -> tuple[Waiver, ...]:
    if not isinstance(given, Iterable):
        return ()
    return tuple(
        Waiver(*(str(value_of(each, name) or "") for name in ("rule", "reason", "by", "part")))
        for each in given
    )
