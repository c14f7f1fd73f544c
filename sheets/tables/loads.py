"""What shelves carry, how far they may sag, and how sag grows with the years."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.tables.read import Cited, cited, optional_float, rows

N_PER_MM_PER_LB_PER_FT = 0.0145939
"""One pound of force per foot of run in N/mm. Source: NIST SP 811 (2008), appendix B.8 (14.59390 N/m)."""

N_PER_MM2_PER_LB_PER_FT2 = 4.788026e-5
"""One pound per square foot in N/mm2. Source: NIST SP 811 (2008), appendix B.8 (47.88026 Pa)."""


@dataclass(frozen=True, slots=True)
class ShelfLoad:
    """A use and its load: so much a running foot, or so much a square foot."""

    use: str
    per_foot_lb: float | None
    per_square_foot_lb: float | None
    cited: Cited

    def newton_per_mm(self, depth_mm: float) -> float:
        """Return the load on a shelf of this depth, N per mm of its length."""
        if self.per_foot_lb is not None:
            return self.per_foot_lb * N_PER_MM_PER_LB_PER_FT
        return (self.per_square_foot_lb or 0.0) * N_PER_MM2_PER_LB_PER_FT2 * depth_mm


@dataclass(frozen=True, slots=True)
class Named:
    """A plain figure with its name: a creep factor, or a limit as span over sag."""

    name: str
    value: float
    cited: Cited


@cache
def shelf_loads() -> tuple[ShelfLoad, ...]:
    """Return the uses that shelves have."""
    return tuple(
        ShelfLoad(row["use"], optional_float(row["per_foot_lb"]), optional_float(row["per_square_foot_lb"]), cited(row))
        for row in rows("shelf_loads")
    )


def shelf_load(use: str) -> ShelfLoad | None:
    """Return the load of a use, or None when no such use is in the table."""
    return next((load for load in shelf_loads() if load.use == use), None)


@cache
def creep_factors() -> tuple[Named, ...]:
    """Return the factors by which a lasting load multiplies the first sag, by kind of material."""
    return tuple(Named(row["kind"], float(row["factor"]), cited(row)) for row in rows("creep"))


def creep_factor(kind: str) -> Named:
    """Return the factor for `wood`, `panel` or `fibre panel`."""
    return next(factor for factor in creep_factors() if factor.name == kind)


@cache
def sag_limits() -> tuple[Named, ...]:
    """Return the limits on sag as span over sag: `aim` and `industry`."""
    return tuple(Named(row["name"], float(row["span_ratio"]), cited(row)) for row in rows("sag_limits"))


def sag_limit(name: str) -> Named:
    """Return one limit by name."""
    return next(limit for limit in sag_limits() if limit.name == name)
