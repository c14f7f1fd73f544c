"""What shelves carry, how far they may sag, and how sag grows with the years."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import floor
from typing import Literal

from sheets.tables.read import Cited, cited, confidence, inches, rows

ServiceClass = Literal[1, 2, 3]
"""Of the air round the wood, by what conifers settle at: 1 to 12 %, 2 to 20 %, 3 beyond. Source: EN 1995-1-1,
2.3.1.3."""

N_PER_MM_PER_LB_PER_FT = 0.0145939
"""One pound of force per foot of run in N/mm. Source: NIST SP 811 (2008), appendix B.8 (14.59390 N/m)."""

N_PER_MM_PER_KG_PER_M = 0.00980665
"""The weight of one kilogram per metre of run in N/mm. Source: NIST SP 811 (2008), standard gravity 9.80665
m/s2.
"""

N_PER_MM2_PER_LB_PER_FT2 = 4.788026e-5
"""One pound per square foot in N/mm2. Source: NIST SP 811 (2008), appendix B.8 (47.88026 Pa)."""


@dataclass(frozen=True, slots=True)
class ShelfLoad:
    """What a shelf is used for: the load it will likely carry, and the load the industry's limit is
    held at.
    """

    use: str
    per_foot_lb: float
    row_depth: Fraction  # mm, of one row of what stands on it
    standard_per_square_foot_lb: float
    cited: Cited
    standard_cited: Cited

    def rows_on(self, depth: Fraction) -> int:
        """Return how many rows stand one behind the other on a shelf of a depth, mm; one at least.

        Source: octavo books are 5 1/2 to 7 1/2 in deep and fit shelves of 8 in (F. J. Burgoyne, Library
        Construction); the load was measured with one row.
        """
        return max(1, floor(depth / self.row_depth))

    @property
    def newton_per_mm(self) -> float:
        """The likely load, N per mm of shelf, of one row."""
        return self.per_foot_lb * N_PER_MM_PER_LB_PER_FT

    @property
    def standard_newton_per_mm2(self) -> float:
        """The industry's load, N per mm2 of shelf."""
        return self.standard_per_square_foot_lb * N_PER_MM2_PER_LB_PER_FT2


@dataclass(frozen=True, slots=True)
class Named:
    """A plain figure with its name: a limit as span over sag."""

    name: str
    value: float
    cited: Cited


@cache
def shelf_loads() -> tuple[ShelfLoad, ...]:
    """Return the uses that shelves have."""
    return tuple(
        ShelfLoad(
            row["use"],
            float(row["per_foot_lb"]),
            inches(row["row_depth_in"]),
            float(row["standard_per_square_foot_lb"]),
            cited(row),
            Cited(row["standard_source"], confidence(row["standard_confidence"])),
        )
        for row in rows("shelf_loads")
    )


def shelf_load(use: str) -> ShelfLoad:
    """Return the load of a use. Raises KeyError when no such use is in the table."""
    return {load.use: load for load in shelf_loads()}[use]


def newton_per_mm(weight: float, per: Literal["foot", "metre"]) -> float:
    """Return a load along a shelf, pounds per foot or kilograms per metre, in N/mm."""
    return weight * (N_PER_MM_PER_LB_PER_FT if per == "foot" else N_PER_MM_PER_KG_PER_M)


@dataclass(frozen=True, slots=True)
class Creep:
    """How a product creeps under a load that stays, in air of one service class of EN 1995-1-1."""

    product: str  # "solid wood", "plywood", "MDF", ...
    service_class: ServiceClass
    kdef: float
    grade: str  # of the product that the figure is of; "" for any
    cited: Cited

    @property
    def factor(self) -> float:
        """The sag with the years over the first sag, of a load that never leaves."""
        return 1 + self.kdef


@cache
def creeps() -> tuple[Creep, ...]:
    """Return every product in every class that it may be used in."""
    return tuple(
        Creep(
            row["product"], _service_class(row["service_class"]), float(row["kdef"]), row["grade"], cited(row)
        )
        for row in rows("creep")
    )


def _service_class(text: str) -> ServiceClass:
    classes: dict[str, ServiceClass] = {"1": 1, "2": 2, "3": 3}
    return classes[text]


def creep_of(product: str, service: ServiceClass) -> Creep | None:
    """Return how a product creeps in air of a service class; None: it is not made for such air."""
    return next((row for row in creeps() if (row.product, row.service_class) == (product, service)), None)


@cache
def sag_limits() -> tuple[Named, ...]:
    """Return the limits on sag as span over sag: `aim`, `years` and `industry`."""
    return tuple(Named(row["name"], float(row["span_ratio"]), cited(row)) for row in rows("sag_limits"))


def sag_limit(name: str) -> Named:
    """Return one limit by name."""
    return next(limit for limit in sag_limits() if limit.name == name)
