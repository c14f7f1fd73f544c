"""Panels and slabs: stiffness along the face grain, and weight."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sheets.tables.match import names_of, plain_name
from sheets.tables.read import Cited, cited, confidence, optional_float, rows
from sheets.tables.woods import KG_PER_M3_PER_LB_PER_FT3, MPA_PER_MILLION_PSI


@dataclass(frozen=True, slots=True)
class Panel:
    """One kind of panel with one kind of face."""

    panel: str
    names: frozenset[str]
    face: str  # "plain" or "hardwood"
    e_million_psi: float
    cautious_e_million_psi: float | None  # what a careful shop reckons with where it differs, from memory
    kg_per_m3: float
    cited: Cited
    density_cited: Cited

    @property
    def e_mpa(self) -> float:
        """Modulus of elasticity along the face grain, N/mm2."""
        return self.e_million_psi * MPA_PER_MILLION_PSI


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
    return tuple(
        Panel(
            row["panel"],
            names_of(row["panel"], row["aliases"]),
            row["face"],
            float(row["e_million_psi"]),
            optional_float(row["cautious_e_million_psi"]),
            float(row["density_lb_per_ft3"]) * KG_PER_M3_PER_LB_PER_FT3,
            cited(row),
            Cited("common practice", confidence(row["density_confidence"])),
        )
        for row in rows("panels")
    )


def panel_named(name: str, *, hardwood_face: bool) -> Panel | None:
    """Return the panel that answers to a name, with its hardwood-faced row when it has one and the face is
    wanted.
    """
    wanted = plain_name(name)
    found = [panel for panel in panels() if wanted in panel.names]
    if not found:
        found = [panel for panel in panels() if any(wanted.endswith(" " + each) for each in panel.names)]
    face = "hardwood" if hardwood_face else "plain"
    return next((panel for panel in found if panel.face == face), found[0] if found else None)


def panel_strength(panel: Panel, *, along: bool) -> tuple[float, Cited] | None:
    """Return the modulus of rupture of a panel, psi, along its face grain or across it; None where no table
    has it.
    """
    row = next((row for row in rows("panel_strengths") if row["panel"] == panel.panel), None)
    return None if row is None else (float(row["along_psi" if along else "across_psi"]), cited(row))


@cache
def densities() -> tuple[Density, ...]:
    """Return the weights of stones and the like."""
    return tuple(
        Density(
            row["material"],
            names_of(row["material"], row["aliases"]),
            float(row["density_lb_per_ft3"]) * KG_PER_M3_PER_LB_PER_FT3,
            cited(row),
        )
        for row in rows("densities")
    )


def density_named(name: str) -> Density | None:
    """Return the stone or the like that a name ends with ('honed slate' is slate), or None."""
    wanted = " " + plain_name(name)
    return next((each for each in densities() if any(wanted.endswith(" " + n) for n in each.names)), None)
