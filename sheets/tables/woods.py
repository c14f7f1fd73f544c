"""Species: stiffness, strength, weight, movement, each column with its own mark of confidence.

E and MOR are of clear, straight-grained wood at 12 % moisture content; single boards scatter by about 22 %
(Wood Handbook table 5-6, from memory). American and imported woods go by the Wood Handbook, European ones by
tables of their own in metric units. A wood is found by its whole trade name or a synonym of it; names are
those of the Wood Handbook, chapters 1 and 2, from memory, and of the trade.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from sheets.tables.match import names_of, nearest_of, plain_name
from sheets.tables.read import Cited, Confidence, confidence, optional_float, rows

MPA_PER_MILLION_PSI = 6894.757
"""One million pounds per square inch in N/mm2. Source: NIST SP 811 (2008), appendix B.8."""

KG_PER_M3_PER_LB_PER_FT3 = 16.018463
"""One pound per cubic foot in kg/m3. Source: NIST SP 811 (2008), appendix B.8."""

WATER_KG_PER_M3 = 1000.0
MOISTURE_OF_TABLES = 0.12
"""Moisture content at which woods are weighed and tested, as a part of their oven-dry mass."""
_SATURATION, _VOLUME_PER_GRAVITY = 0.30, 0.265
"""Wood swells from dry up to here; how much of its volume that is, by its gravity. Source: Wood Handbook
chapter 4: G(M) = G_b / (1 - 0.265 a G_b), a = (30 - M) / 30, from memory."""

_CUTS = (
    "quarter sawn", "quartersawn", "rift sawn", "riftsawn", "plain sawn", "plainsawn", "flat sawn",
    "flatsawn", "vertical grain", "clear", "select", "solid", "kiln dried",
)  # fmt: skip
"""Words before the name of a wood that say how it is sawn, graded or dried, and leave it the same wood."""

Grain = Literal["radial", "tangential"]


@dataclass(frozen=True, slots=True)
class Wood:
    """One species. Coefficients are the change of size per size and per 1 % of moisture content, from 6 to 14
    %.
    """

    species: str
    names: frozenset[str]
    trade: Literal["softwood", "hardwood"]
    e_million_psi: float
    mor_psi: float
    specific_gravity: float
    gravity_basis: str  # of the oven-dry mass: "12 % MC" or "green volume"; or "density at 12 %" in g/cm3
    radial: float
    tangential: float
    shrink_radial_pct: float | None  # green to oven-dry
    shrink_tangential_pct: float | None
    saturation_pct: (
        float | None
    )  # basis by which equation 13-3 yields the coefficients; None where it does not
    source: str
    e_confidence: Confidence
    mor_confidence: Confidence
    gravity_confidence: Confidence
    radial_confidence: Confidence
    tangential_confidence: Confidence
    shrink_confidence: Confidence

    @property
    def e_mpa(self) -> float:
        """Modulus of elasticity along the grain, N/mm2."""
        return self.e_million_psi * MPA_PER_MILLION_PSI

    @property
    def kg_per_m3(self) -> float:
        """Weight at 12 % moisture content."""
        if self.gravity_basis == "density at 12 %":
            return self.specific_gravity * WATER_KG_PER_M3
        gravity = self.specific_gravity
        if self.gravity_basis == "green volume":
            part = (_SATURATION - MOISTURE_OF_TABLES) / _SATURATION
            gravity /= 1 - _VOLUME_PER_GRAVITY * part * gravity
        return gravity * (1 + MOISTURE_OF_TABLES) * WATER_KG_PER_M3

    def coefficient(self, grain: Grain) -> tuple[float, Cited]:
        """Return the movement coefficient across flat-sawn (tangential) or quarter-sawn (radial) width."""
        if grain == "radial":
            return self.radial, Cited(self.source, self.radial_confidence)
        return self.tangential, Cited(self.source, self.tangential_confidence)

    @property
    def marks(self) -> tuple[Confidence, ...]:
        """How sure each of the figures is that the checks use."""
        return (
            self.e_confidence,
            self.gravity_confidence,
            self.radial_confidence,
            self.tangential_confidence,
        )

    @property
    def stiffness_cited(self) -> Cited:
        return Cited(self.source, self.e_confidence)


@dataclass(frozen=True, slots=True)
class WoodGroup:
    """A trade name that covers several woods, so that it names none of them."""

    name: str
    may_be: tuple[str, ...]  # species of the table, the likeliest first


@cache
def woods() -> tuple[Wood, ...]:
    """Return every species in the order of the data files."""
    return (*(_wood(row) for row in rows("woods")), *(_european(row) for row in rows("woods_europe")))


@cache
def wood_groups() -> tuple[WoodGroup, ...]:
    """Return the names that say too little."""
    return tuple(WoodGroup(row["name"], tuple(row["may_be"].split("|"))) for row in rows("wood_groups"))


def wood_named(name: str) -> Wood | None:
    """Return the species of exactly this trade name or synonym, or None: 'rosewood oak' is no oak. Words of
    cut, grade and drying before it do not matter: 'quarter sawn white oak' is white oak.
    """
    wanted = _without_cut(plain_name(name))
    return next((wood for wood in woods() if wanted in wood.names), None)


def may_be(name: str) -> tuple[str, ...]:
    """Return the species that a name may mean where it names none: those of its group, else those whose names
    are nearest; none where nothing is near.
    """
    wanted = _without_cut(plain_name(name))
    group = next((each for each in wood_groups() if plain_name(each.name) == wanted), None)
    return group.may_be if group else nearest_of(wanted, {wood.species: wood.names for wood in woods()})


def trade_of(name: str) -> Literal["softwood", "hardwood"] | None:
    """Return what a wood is sold as; of a name that covers several, what all of them are sold as; None where
    that is not known.
    """
    wood = wood_named(name)
    if wood is not None:
        return wood.trade
    wanted = _without_cut(plain_name(name))
    group = next((each for each in wood_groups() if plain_name(each.name) == wanted), None)
    trades = {wood.trade for wood in woods() if group and wood.species in group.may_be}
    return trades.pop() if len(trades) == 1 else None


def _without_cut(plain: str) -> str:
    for cut in _CUTS:
        if plain.startswith(cut + " "):
            return _without_cut(plain.removeprefix(cut + " "))
    return plain


def shrinkage_coefficient(shrinkage_pct: float, saturation_pct: float) -> float:
    """Return the change of size per size and per 1 % of moisture content about 10 %, from the shrinkage green
    to oven-dry, %. saturation_pct: 30, or 22 for redwood and cedars that shrink little.

    Source: Wood Handbook equation 13-3.
    """
    return 1 / (saturation_pct * 100 / shrinkage_pct - saturation_pct + 10)


def _coefficient(row: dict[str, str], grain: Grain) -> float:
    given = optional_float(row[grain])
    return given or shrinkage_coefficient(float(row[f"shrink_{grain}_pct"]), float(row["saturation_pct"]))


def _wood(row: dict[str, str]) -> Wood:
    return Wood(
        species=row["species"],
        names=names_of(row["species"], row["synonyms"]),
        trade="softwood" if row["trade"] == "softwood" else "hardwood",
        e_million_psi=float(row["e_million_psi"]),
        mor_psi=float(row["mor_psi"]),
        specific_gravity=float(row["specific_gravity"]),
        gravity_basis=row["gravity_basis"],
        radial=_coefficient(row, "radial"),
        tangential=_coefficient(row, "tangential"),
        shrink_radial_pct=optional_float(row["shrink_radial_pct"]),
        shrink_tangential_pct=optional_float(row["shrink_tangential_pct"]),
        saturation_pct=optional_float(row["saturation_pct"]),
        source=row["source"],
        e_confidence=confidence(row["e_confidence"]),
        mor_confidence=confidence(row["mor_confidence"]),
        gravity_confidence=confidence(row["gravity_confidence"]),
        radial_confidence=confidence(row["radial_confidence"]),
        tangential_confidence=confidence(row["tangential_confidence"]),
        shrink_confidence=confidence(row["shrink_confidence"]),
    )


def _european(row: dict[str, str]) -> Wood:
    mark = confidence(row["confidence"])
    return Wood(
        species=row["species"],
        names=names_of(row["species"], row["synonyms"]),
        trade="softwood" if row["trade"] == "softwood" else "hardwood",
        e_million_psi=float(row["e_mpa"]) / MPA_PER_MILLION_PSI,
        mor_psi=float(row["mor_mpa"]) / MPA_PER_MILLION_PSI * 1e6,
        specific_gravity=float(row["kg_per_m3"]) / WATER_KG_PER_M3,
        gravity_basis="density at 12 %",
        radial=float(row["radial_pct"]) / 100,
        tangential=float(row["tangential_pct"]) / 100,
        shrink_radial_pct=None,
        shrink_tangential_pct=None,
        saturation_pct=None,
        source=row["source"],
        e_confidence=mark,
        mor_confidence=mark,
        gravity_confidence=mark,
        radial_confidence=mark,
        tangential_confidence=mark,
        shrink_confidence=mark,
    )
