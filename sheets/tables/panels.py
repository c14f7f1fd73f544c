"""Panels and slabs: stiffness along the face grain, and weight."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.tables.match import names_of, nearest_of, plain_name
from sheets.tables.read import Cited, cited, confidence, optional_float, rows
from sheets.tables.woods import KG_PER_M3_PER_LB_PER_FT3, MPA_PER_MILLION_PSI

_SURFACES = ("honed", "polished", "flamed", "tumbled", "sawn", "split", "rough", "natural")
"""Words before the name of a stone that say how its face is worked, and leave it the same stone."""


@dataclass(frozen=True, slots=True)
class Panel:
    """One kind of panel with one kind of face."""

    panel: str
    names: frozenset[str]
    face: str  # "plain" or "hardwood"
    creeps_as: str  # product of the table of creep
    sold_as: str  # panel of the table of sheets
    e_million_psi: float
    cautious_e_million_psi: float  # the lower figure that lasting sag is judged by; the same where none is
    kg_per_m3: float
    cited: Cited
    cautious_cited: Cited
    density_cited: Cited

    @property
    def e_mpa(self) -> float:
        """Modulus of elasticity along the face grain, N/mm2."""
        return self.e_million_psi * MPA_PER_MILLION_PSI

    @property
    def cautious_mpa(self) -> float:
        """The lower modulus, N/mm2."""
        return self.cautious_e_million_psi * MPA_PER_MILLION_PSI


@dataclass(frozen=True, slots=True)
class Density:
    """Weight of a stone, brick, tile or gypsum."""

    material: str
    names: frozenset[str]
    kg_per_m3: float
    cited: Cited


@cache
def panels() -> tuple[Panel, ...]:
    """Return every panel in the order of the data file."""
    return tuple(_panel(row) for row in rows("panels"))


def _panel(row: dict[str, str]) -> Panel:
    lower = optional_float(row["cautious_e_million_psi"])
    return Panel(
        row["panel"],
        names_of(row["panel"], row["synonyms"]),
        row["face"],
        row["creeps_as"],
        row["sold_as"],
        float(row["e_million_psi"]),
        lower or float(row["e_million_psi"]),
        float(row["density_lb_per_ft3"]) * KG_PER_M3_PER_LB_PER_FT3,
        cited(row),
        Cited(row["cautious_source"], "from memory") if lower else cited(row),
        Cited("common practice", confidence(row["density_confidence"])),
    )


def panel_named(name: str, *, hardwood_face: bool) -> Panel | None:
    """Return the panel of exactly this name or synonym, with its hardwood-faced row when it has one and the
    face is wanted; None for any other name: bending plywood is no plywood.
    """
    wanted = plain_name(name)
    found = [panel for panel in panels() if wanted in panel.names]
    face = "hardwood" if hardwood_face else "plain"
    return next((panel for panel in found if panel.face == face), found[0] if found else None)


def nearest_panels(name: str) -> tuple[str, ...]:
    """Return the panels that share most words with a name, the likeliest first; none where it shares none."""
    return nearest_of(name, {panel.panel: panel.names for panel in panels()})


@cache
def densities() -> tuple[Density, ...]:
    """Return the weights of stones and the like."""
    return tuple(
        Density(
            row["material"],
            names_of(row["material"], row["synonyms"]),
            float(row["density_lb_per_ft3"]) * KG_PER_M3_PER_LB_PER_FT3,
            cited(row),
        )
        for row in rows("densities")
    )


def density_named(name: str) -> Density | None:
    """Return the stone or the like of exactly this name or synonym, whatever its surface ('honed slate' is
    slate), or None.
    """
    wanted = plain_name(name)
    for word in _SURFACES:
        wanted = wanted.removeprefix(word + " ")
    return next((each for each in densities() if wanted in each.names), None)
