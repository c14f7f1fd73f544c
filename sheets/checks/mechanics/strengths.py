"""What a part's material means for fire, stiffness and weight, looked up in the tables by its name."""

from __future__ import annotations

from dataclasses import dataclass

from sheets.geometry.solid import volume
from sheets.model.part import Material, Part
from sheets.tables.figures import figure
from sheets.tables.loads import creep_factor
from sheets.tables.noncombustible import Noncombustible, imitation_in, noncombustible_named
from sheets.tables.panels import Panel, density_named, panel_named, panel_strength
from sheets.tables.read import Cited, together
from sheets.tables.woods import MPA_PER_MILLION_PSI, Wood, wood_named

_FIBRE_PANELS = ("MDF", "particleboard")
MM3_PER_M3 = 1e9


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Modulus along the grain, N/mm2, and what it creeps by. cautious_mpa: a careful shop's lower figure, or
    None.
    """

    mpa: float
    cautious_mpa: float | None
    creep: float
    cited: Cited
    creep_cited: Cited


def noncombustible(material: Material) -> Noncombustible | None:
    """Return the row of the closed list that says a material does not burn; None: it counts as combustible.

    Wood, panels and gypsum board (its faces are paper; fire-rated boards and fire-retardant wood burn slowly)
    are in no such list. A finish that means an imitation takes the row away.
    """
    if material.kind not in ("masonry", "other") or imitation_in(material.finish):
        return None
    return noncombustible_named(material.name)


def is_combustible(material: Material) -> bool:
    """Return whether a material counts as combustible: all but what the closed list names."""
    return noncombustible(material) is None


def stiffness(material: Material) -> Stiffness | None:
    """Return how stiff a board or panel is, or None when no table has it."""
    if material.kind == "wood":
        wood = wood_named(material.name)
        if wood is None:
            return None
        creep = creep_factor("wood")
        return Stiffness(wood.e_mpa, None, creep.value, wood.stiffness_cited, creep.cited)
    panel = _panel(material)
    if panel is None:
        return None
    creep = creep_factor("fibre panel" if panel.panel in _FIBRE_PANELS else "panel")
    cautious = panel.cautious_e_million_psi
    return Stiffness(
        panel.e_mpa,
        cautious * MPA_PER_MILLION_PSI if cautious else None,
        creep.value,
        panel.cited,
        creep.cited,
    )


def species(material: Material) -> Wood | None:
    """Return the species of solid wood, or None for panels, stone and species that no table has."""
    return wood_named(material.name) if material.kind == "wood" else None


def rupture_psi(material: Material, *, along: bool) -> tuple[float, Cited] | None:
    """Return what breaks a board or panel in bending, psi, along its grain or across it; None when no table
    has it.
    """
    wood = species(material)
    if wood is not None:
        across = figure("stability", "strength across the grain")
        part = 1.0 if along else float(across.value)
        cited = Cited(wood.source, wood.mor_confidence)
        return wood.mor_psi * part, cited if along else together(cited, across.cited)
    panel = _panel(material)
    return None if panel is None else panel_strength(panel, along=along)


def weight_kg(part: Part) -> tuple[float, Cited] | None:
    """Return the weight of a part from the volume of its solid, in kg, or None when no table has its
    material.
    """
    found = _density(part.material)
    return None if found is None else (volume(part.solid) / MM3_PER_M3 * found[0], found[1])


def _density(material: Material) -> tuple[float, Cited] | None:
    if material.kind == "wood":
        wood = wood_named(material.name)
        return None if wood is None else (wood.kg_per_m3, Cited(wood.source, wood.gravity_confidence))
    panel = _panel(material)
    if panel is not None:
        return panel.kg_per_m3, panel.density_cited
    stone = density_named(material.name) or density_named(material.kind)
    return None if stone is None else (stone.kg_per_m3, stone.cited)


def _panel(material: Material) -> Panel | None:
    if material.kind != "panel":
        return None
    face = wood_named(material.face) if material.face else None
    return panel_named(material.name, hardwood_face=face is not None and face.trade == "hardwood")
