"""What stands on the floor, and what tips it: its weight about the toe, the foremost line that touches the
floor.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum, inf

from sheets.base.tolerance import SAME_POINT
from sheets.checks.mechanics.strengths import weight_kg
from sheets.geometry.solid import Solid, bounds, centroid
from sheets.model.part import Part
from sheets.model.wall import Wall


@dataclass(frozen=True, slots=True)
class Balance:
    """A body that stands by itself. kg: its weight; behind: from the toe back to its centre of gravity, below
    zero where that lies in front; centre: the height of it above the floor that it stands on; height: of the
    whole; feet: from the heel to the toe; beyond: how far its front stands out before the toe. All mm.
    """

    kg: float
    behind: float
    centre: float
    height: float
    feet: float
    beyond: float

    @property
    def falls(self) -> bool:
        """Whether it falls over by itself."""
        return self.behind <= 0

    def pull_at(self, height: float) -> float:
        """Return the level pull, kg of force, at a height above its feet that tips it; 0 when it falls."""
        return self.kg * max(self.behind, 0.0) / height

    def weight_on_edge(self, height: float, raised: float = 0.0) -> float:
        """Return the weight, kg, hung on its front edge at a height that tips it, its heel raised by so much.

        Raised, it leans: what lies higher moves farther forward. A weight behind the toe tips nothing: inf.
        """
        lean = raised / self.feet
        behind = self.behind - lean * self.centre
        beyond = self.beyond + lean * height
        if behind <= 0:
            return 0.0
        return self.kg * behind / beyond if beyond > 0 else inf


def floors(wall: Wall) -> tuple[float, ...]:
    """Return the heights that work can stand on: the floor, and the top of the hearth."""
    hearths = {float(part.extent.z1) for part in wall.parts if part.does.fire == "hearth"}
    return tuple(sorted({0.0, *hearths}))


def balance(parts: tuple[Part, ...], stood_on: tuple[float, ...]) -> Balance | None:
    """Return how parts that are one body stand on floor and hearth; None where none of them reaches either,
    or where a weight is unknown.
    """
    weights = [weight_kg(part) for part in parts]
    kg = [found[0] for found in weights if found is not None]
    feet = feet_of(parts, stood_on)
    if len(kg) < len(parts) or not fsum(kg) or not feet:
        return None
    centres = [centroid(part.solid) for part in parts]
    whole = fsum(kg)
    y = fsum(w * at[1] for w, at in zip(kg, centres, strict=True)) / whole
    z = fsum(w * at[2] for w, at in zip(kg, centres, strict=True)) / whole
    floor = min(bounds(part.solid)[4] for part in parts)
    heel, toe = min(low for low, _ in feet), max(high for _, high in feet)
    top = max(bounds(part.solid)[5] for part in parts)
    front = max(bounds(part.solid)[3] for part in parts)
    return Balance(whole, toe - y, z - floor, top - floor, toe - heel, front - toe)


def feet_of(parts: tuple[Part, ...], stood_on: tuple[float, ...]) -> tuple[tuple[float, float], ...]:
    """Return from where to where, out from the wall in mm, each part touches one of the levels stood on."""
    found = []
    for part in parts:
        low = bounds(part.solid)[4]
        if any(abs(low - level) <= SAME_POINT for level in stood_on):
            found.append(_underside(part.solid, low))
    return tuple(found)


def _underside(solid: Solid, low: float) -> tuple[float, float]:
    if solid.axis == "z":
        boxes = [shape.bounds for shape in solid.slabs[0].regions]
        return min(box[1] for box in boxes), max(box[3] for box in boxes)
    found: list[float] = []
    for slab in solid.slabs:
        for shape in slab.regions:
            corners = [corner for corner in shape.outer.flatten() if corner[1] <= low + SAME_POINT]
            if solid.axis == "x":
                found += [corner[0] for corner in corners]
            elif corners:
                found += [slab.lo, slab.hi]
    return min(found), max(found)
