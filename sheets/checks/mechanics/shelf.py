"""A shelf as a beam: its clear span, breadth, thickness and stiffness."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from sheets.checks.mechanics.beams import inertia_of_board, sag_uniform
from sheets.checks.mechanics.strengths import Stiffness, stiffness
from sheets.model.part import Part
from sheets.model.wall import Wall

_BOTH_EDGES = 2


@dataclass(frozen=True, slots=True)
class Shelf:
    """One shelf. span: clear between its supports, exact mm. along_grain: the grain runs along the span."""

    part: Part
    span: Fraction
    stiffness: Stiffness | None

    @property
    def breadth_mm(self) -> float:
        return float(self.part.extent.size("y"))

    @property
    def thickness_mm(self) -> float:
        return float(self.part.extent.size("z"))

    @property
    def along_grain(self) -> bool:
        return self.part.length_axis == "x"

    def sag_mm(self, newton_per_mm: float) -> float:
        """Return the first sag, mm, on simple ends. 0 without a stiffness."""
        if self.stiffness is None:
            return 0.0
        inertia = inertia_of_board(self.breadth_mm, self.thickness_mm)
        return sag_uniform(newton_per_mm, float(self.span), self.stiffness.mpa, inertia)


def shelves(wall: Wall) -> tuple[Shelf, ...]:
    """Return every shelf, and every bottom or top that hangs between its ends, in the wall's order.

    What is carried along front and back has no span to sag over.
    """
    return tuple(
        Shelf(part, clear_span(wall, part), stiffness(part.material))
        for part in wall.parts
        if part.maker == "shop"
        and (part.does.bears or (part.does.carries and len(part.does.carries.along) < _BOTH_EDGES))
    )


def clear_span(wall: Wall, shelf: Part) -> Fraction:
    """Return the widest span between the faces of two that carry a shelf; without two, its length."""
    carried = shelf.does.bears or shelf.does.carries
    on = set(carried.on) if carried else set()
    carriers = sorted((part.extent.x0, part.extent.x1) for part in wall.parts if part.key in on)
    return max((after[0] - before[1] for before, after in pairwise(carriers)), default=shelf.extent.size("x"))
