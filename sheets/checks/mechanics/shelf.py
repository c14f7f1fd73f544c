"""A shelf as a beam: its clear span, breadth, thickness and stiffness."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.checks.mechanics.beams import inertia_of_board, sag_uniform
from sheets.checks.mechanics.strengths import Stiffness, stiffness
from sheets.checks.mechanics.touching import overlap
from sheets.model.part import Part
from sheets.model.wall import Wall

SUPPORTS = ("side", "divider")
"""Roles of the pieces that carry a shelf's ends."""


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
    """Return every shelf, in the wall's order."""
    return tuple(
        Shelf(part, clear_span(wall, part), stiffness(part.material))
        for part in wall.parts
        if part.role == "shelf" and part.maker == "shop"
    )


def clear_span(wall: Wall, shelf: Part) -> Fraction:
    """Return the span between the faces of the pieces that carry a shelf: its length less what is let into
    them.
    """
    box = shelf.extent
    let_in = sum(
        (
            min(part.extent.x1, box.x1) - max(part.extent.x0, box.x0)
            for part in wall.parts
            if part.role in SUPPORTS and overlap(part.extent, box)
        ),
        Fraction(0),
    )
    return box.size("x") - let_in
