"""What the spec sets for the checks, over the defaults: loads, limits on sag, moisture, waivers.

The section is a mapping, or a value with attributes of these names; a name that is missing leaves the default.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sheets.checks.moisture import equilibrium_pct
from sheets.model.wall import Wall
from sheets.tables.climates import Climate, climate_named, climates
from sheets.tables.figures import figure
from sheets.tables.loads import ShelfLoad, sag_limit, shelf_load, shelf_loads
from sheets.tables.read import Cited


@dataclass(frozen=True, slots=True)
class Waiver:
    """Findings of one rule that someone answers for; of one part or component when `part` names its key."""

    code: str
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
    given = value_of(section, "load_per_length")
    return CheckSettings(
        load=shelf_load(str(value_of(section, "load") or "books")) or shelf_loads()[0],
        given_load=None if given is None else float(str(given)),
        aim=_number(section, "sag_aim", sag_limit("aim").value),
        most=_number(section, "sag_most", sag_limit("industry").value),
        moisture=_moisture(section),
        stud_spacing=_size(section, "stud_spacing") or figure("stability", "stud spacing").value,
        out_of_plumb=_size(section, "out_of_plumb") or _size(wall.settings.get("room"), "out_of_plumb"),
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


def _moisture(section: object) -> Moisture:
    # Temperature in degrees C and relative humidity in %, driest and dampest season, go before the region.
    dry, damp = value_of(section, "driest"), value_of(section, "dampest")
    if dry is not None and damp is not None:
        ends = sorted(
            equilibrium_pct(_number(air, "temperature", 21.0), _number(air, "humidity", 45.0))
            for air in (dry, damp)
        )
        return Moisture(
            ends[0],
            ends[1],
            sum(ends) / 2,
            "from the temperature and humidity given",
            Cited("Wood Handbook 2021, equation 4-5", "confirmed"),
        )
    climate: Climate = climate_named(str(value_of(section, "region") or "most")) or climates()[0]
    return Moisture(climate.low_pct, climate.high_pct, climate.average_pct, climate.region, climate.cited)


def _waivers(given: object) -> tuple[Waiver, ...]:
    if not isinstance(given, Iterable):
        return ()
    return tuple(
        Waiver(*(str(value_of(each, name) or "") for name in ("code", "reason", "by", "part")))
        for each in given
    )
