"""Assemblies as the shop sends them: their parts, sizes and weight."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import fsum

from sheets.checks.mechanics.strengths import weight_kg
from sheets.model.part import AXES, Extent, Part
from sheets.model.wall import Component, Wall


@dataclass(frozen=True, slots=True)
class AsMoved:
    """A component as it is carried in. Sizes exact mm, over the parts that come assembled."""

    component: Component
    parts: tuple[Part, ...]
    width: Fraction
    depth: Fraction
    height: Fraction

    @property
    def sizes(self) -> tuple[Fraction, Fraction, Fraction]:
        return self.width, self.depth, self.height


def parts_of(wall: Wall, component: Component) -> tuple[Part, ...]:
    """Return the shop's parts of a component and of what belongs under its key."""
    return tuple(
        part
        for part in wall.parts
        if part.maker == "shop"
        and (part.assembly == component.key or part.assembly.startswith(component.key + "/"))
    )


def carcass_extent(wall: Wall, case: Component) -> Extent:
    """Return the box of a case between its sides: its cap may pass over a lower neighbour, its stile over the
    scribe.
    """
    sides = [part.extent for part in wall.parts if part.assembly == case.key and "end" in part.does.bounds]
    if not sides:
        return case.extent
    low, high = min(box.x0 for box in sides), max(box.x1 for box in sides)
    return replace(case.extent, x0=low, x1=high, z1=max(box.z1 for box in sides))


def cases_as_moved(wall: Wall) -> tuple[AsMoved, ...]:
    """Return every case with what is assembled in the shop."""
    moved = []
    for component in wall.components:
        if component.kind.arrives != "stood up":
            continue
        parts = tuple(part for part in parts_of(wall, component) if not part.does.on_site)
        if parts:
            moved.append(
                AsMoved(
                    component,
                    parts,
                    *(
                        max(part.extent.span(axis)[1] for part in parts)
                        - min(part.extent.span(axis)[0] for part in parts)
                        for axis in ("x", "y", "z")
                    ),
                )
            )
    return tuple(moved)


def carried_as_moved(wall: Wall) -> tuple[AsMoved, ...]:
    """Return what is carried in and fixed, standing or hung, with all its parts."""
    return tuple(
        AsMoved(component, parts, *(component.extent.size(axis) for axis in AXES))
        for component in wall.components
        if component.kind.arrives == "carried in" and (parts := parts_of(wall, component))
    )


def weight_of(parts: tuple[Part, ...]) -> tuple[float, tuple[Part, ...]]:
    """Return the weight of parts in kg, and the parts whose material no table has a weight for."""
    found = [(part, weight_kg(part)) for part in parts]
    return fsum(w[0] for _, w in found if w is not None), tuple(part for part, w in found if w is None)
