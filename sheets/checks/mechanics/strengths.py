"""What a part's material means for fire, stiffness and weight, looked up in the tables by its name."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.geometry.solid import volume
from sheets.model.part import Material, Part
from sheets.tables.loads import Creep, ServiceClass, creep_of
from sheets.tables.lumber import Series, sheet_sold
from sheets.tables.noncombustible import Noncombustible, imitation_in, noncombustible_named
from sheets.tables.panels import Panel, density_named, panel_named
from sheets.tables.read import Cited
from sheets.tables.woods import Wood, trade_of, wood_named

MM3_PER_M3 = 1e9


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Modulus along the grain, N/mm2. cautious_mpa: the lower figure that lasting sag is judged by. creep:
    None where the product is not made for air so damp.
    """

    name: str  # the row's, as the table has it
    mpa: float
    cautious_mpa: float
    creep: Creep | None
    cited: Cited
    cautious_cited: Cited

    @property
    def lasting_mpa(self) -> float | None:
        """The modulus that gives the sag with the years of a load that stays."""
        return self.cautious_mpa / self.creep.factor if self.creep else None


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


def stiffness(material: Material, service: ServiceClass = 1) -> Stiffness | None:
    """Return how stiff a board or panel is, and how it creeps in air of a service class (1: a heated room);
    None when no table has it.
    """
    if material.kind == "wood":
        wood = wood_named(material.name)
        if wood is None:
            return None
        cited = wood.stiffness_cited
        return Stiffness(wood.species, wood.e_mpa, wood.e_mpa, creep_of("solid wood", service), cited, cited)
    panel = panel_of(material)
    if panel is None:
        return None
    return Stiffness(
        panel.panel,
        panel.e_mpa,
        panel.cautious_mpa,
        creep_of(panel.creeps_as, service),
        panel.cited,
        panel.cautious_cited,
    )


def species(material: Material) -> Wood | None:
    """Return the species of solid wood, or None for panels, stone and species that no table has."""
    return wood_named(material.name) if material.kind == "wood" else None


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
    panel = panel_of(material)
    if panel is not None:
        return panel.kg_per_m3, panel.density_cited
    stone = density_named(material.name) or density_named(material.kind)
    return None if stone is None else (stone.kg_per_m3, stone.cited)


def least_thickness(material: Material, drawn: Fraction, series: Series) -> Fraction:
    """Return how thin a sheet of a drawn or nominal thickness may come, mm: less its standard's tolerance;
    what is drawn where no table has it, and of solid wood.
    """
    panel = panel_of(material)
    sheet = sheet_sold(panel.sold_as, series, drawn) if panel else None
    return min(drawn, sheet.least) if sheet else drawn


def panel_of(material: Material) -> Panel | None:
    """Return the panel that a material is; None for solid wood, stone and panels that no table has."""
    if material.kind != "panel":
        return None
    return panel_named(material.name, hardwood_face=trade_of(material.face) == "hardwood")
