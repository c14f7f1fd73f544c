"""Moisture content from the air, and the change of size across the grain that follows from it."""

from __future__ import annotations

from dataclasses import dataclass

from sheets.model.settings import Season
from sheets.model.wall import Wall
from sheets.tables.climates import climate_named, fireside
from sheets.tables.loads import ServiceClass
from sheets.tables.read import Cited, together

EQUATION = Cited("Wood Handbook 2021, equation 4-5", "confirmed")


@dataclass(frozen=True, slots=True)
class Moisture:
    """The range of moisture content that the wood will see, in %, and where that comes from."""

    low_pct: float
    high_pct: float
    installed_pct: float  # what the wood is taken to be at when it is fixed
    said: str
    cited: Cited

    @property
    def service(self) -> ServiceClass:
        """The service class of the air, by the most that wood settles at. Source: EN 1995-1-1, 2.3.1.3."""
        return 1 if self.high_pct <= 12 else 2 if self.high_pct <= 20 else 3

    @property
    def swing(self) -> float:
        """Points of moisture content from the driest to the dampest."""
        return self.high_pct - self.low_pct


def moisture_in_use(wall: Wall) -> Moisture:
    """Return what the wood will see: from the air that the spec gives, else from the air of rooms in its
    region, and of a room with a fire where the wall has a fireplace.
    """
    checks = wall.settings.checks
    if checks.air is not None:
        low, high = sorted(_settles_at(season) for season in (checks.air.driest, checks.air.dampest))
        return Moisture(low, high, (low + high) / 2, "from the temperature and humidity given", EQUATION)
    climate = climate_named(checks.region)
    dry, damp = (equilibrium_pct(air.celsius, air.humidity_pct) for air in (climate.dry, climate.damp))
    said, cited = climate.region, together(EQUATION, climate.cited, climate.installed_cited)
    if wall.opening is not None:
        beside = fireside()
        dry = min(dry, equilibrium_pct(beside.air.celsius, beside.air.humidity_pct))
        said, cited = f"{said}, with a fire in the room", together(cited, beside.cited)
    return Moisture(dry, damp, climate.installed_pct, said, cited)


def _settles_at(season: Season) -> float:
    celsius = season.temperature if season.degrees == "C" else celsius_of(season.temperature)
    return equilibrium_pct(celsius, season.humidity)


def equilibrium_pct(celsius: float, humidity_pct: float) -> float:
    """Return the moisture content, %, at which wood settles in air of this temperature (deg C) and humidity
    (%).

    Raises ValueError outside 0 to 99 % humidity. Source: Wood Handbook 2021 (FPL-GTR-282), equation 4-5, the
    set of
    constants for deg C; the fit is loose above some 60 deg C.
    """
    if not 0 <= humidity_pct <= 99:
        raise ValueError("relative humidity is between 0 and 99 %")
    t, h = celsius, humidity_pct / 100
    w = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    double = k1 * k2 * kh * kh
    return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * double) / (1 + k1 * kh + double))


def celsius_of(fahrenheit: float) -> float:
    """Return deg F as deg C."""
    return (fahrenheit - 32) / 1.8


def change_of_size(size_mm: float, coefficient: float, from_pct: float, to_pct: float) -> float:
    """Return the change, mm, of a size across the grain between two moisture contents (growth is above zero).

    Source: Wood Handbook chapter 13: dD = D C (M_F - M_I), for moisture contents from 6 to 14 %.
    """
    return size_mm * coefficient * (to_pct - from_pct)
