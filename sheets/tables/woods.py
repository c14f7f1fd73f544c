"""Species: stiffness, strength, weight, movement, each column with its own mark of confidence.

E and MOR are of clear, straight-grained wood at 12 % moisture content; single boards scatter by about 22 %
(Wood
Handbook table 5-6, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from sheets.tables.match import names_of, plain_name
from sheets.tables.read import Cited, Confidence, confidence, optional_float, rows

MPA_PER_MILLION_PSI = 6894.757
"""One million pounds per square inch in N/mm2. Source: NIST SP 811 (2008), appendix B.8."""

KG_PER_M3_PER_LB_PER_FT3 = 16.018463
"""One pound per cubic foot in kg/m3. Source: NIST SP 811 (2008), appendix B.8."""

WATER_KG_PER_M3 = 1000.0

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
    gravity_basis: str  # "12 % MC" or "green volume"
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
        """Weight at 12 % moisture content; a little low where the gravity is on green volume."""
        return self.specific_gravity * 1.12 * WATER_KG_PER_M3

    def coefficient(self, grain: Grain) -> tuple[float, Cited]:
        """Return the movement coefficient across flat-sawn (tangential) or quarter-sawn (radial) width."""
        if grain == "radial":
            return self.radial, Cited(self.source, self.radial_confidence)
        return self.tangential, Cited(self.source, self.tangential_confidence)

    @property
    def stiffness_cited(self) -> Cited:
        return Cited(self.source, self.e_confidence)


@cache
def woods() -> tuple[Wood, ...]:
    """Return every species in the order of the data file."""
    return tuple(_wood(row) for row in rows("woods"))


def wood_named(name: str) -> Wood | None:
    """Return the species that answers to a name, or None. 'quarter sawn white oak' finds white oak."""
    wanted = plain_name(name)
    exact = next((wood for wood in woods() if wanted in wood.names), None)
    if exact is not None:
        return exact
    ends = [
        (len(each), wood) for wood in woods() for each in sorted(wood.names) if wanted.endswith(" " + each)
    ]
    return max(ends, key=lambda end: end[0])[1] if ends else None


def _wood(row: dict[str, str]) -> Wood:
    return Wood(
        species=row["species"],
        names=names_of(row["species"], row["aliases"]),
        trade="softwood" if row["trade"] == "softwood" else "hardwood",
        e_million_psi=float(row["e_million_psi"]),
        mor_psi=float(row["mor_psi"]),
        specific_gravity=float(row["specific_gravity"]),
        gravity_basis=row["gravity_basis"],
        radial=float(row["radial"]),
        tangential=float(row["tangential"]),
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
