"""A shelf as a beam: its clear span, breadth, thickness and stiffness."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from sheets.checks.mechanics.beams import inertia_of_board, sag_uniform
from sheets.checks.mechanics.moisture import moisture_in_use
from sheets.checks.mechanics.strengths import Stiffness, least_thickness, stiffness
from sheets.model.part import Part
from sheets.model.wall import Wall


@dataclass(frozen=True, slots=True)
class Shelf:
    """One shelf. span: clear between its supports; thickness: of a panel the least that its sheet may come
    in; exact mm. along_grain: the grain runs along the span.
    """

    part: Part
    span: Fraction
    thickness: Fraction
    stiffness: Stiffness | None

    @property
    def breadth_mm(self) -> float:
        return float(self.part.extent.size("y"))

    @property
    def thickness_mm(self) -> float:
        return float(self.thickness)

    @property
    def along_grain(self) -> bool:
        return self.part.length_axis == "x"

    @property
    def inertia(self) -> float:
        """The second moment of area, mm4."""
        return inertia_of_board(self.breadth_mm, self.thickness_mm)

    def sag_mm(self, newton_per_mm: float) -> float:
        """Return the first sag, mm, on simple ends. 0 without a stiffness."""
        return self._sag(newton_per_mm, self.stiffness.mpa) if self.stiffness else 0.0

    def lasting_sag_mm(self, newton_per_mm: float) -> float | None:
        """Return the sag with the years, mm, at the lower stiffness; None where no creep is known."""
        lasting = self.stiffness.lasting_mpa if self.stiffness else None
        return None if lasting is None else self._sag(newton_per_mm, lasting)

    def _sag(self, newton_per_mm: float, modulus: float) -> float:
        return sag_uniform(newton_per_mm, float(self.span), modulus, self.inertia)


def shelves(wall: Wall) -> tuple[Shelf, ...]:
    """Return every shelf, in the wall's order, in the air of its room."""
    service = moisture_in_use(wall).service
    return tuple(
        Shelf(
            part,
            clear_span(wall, part),
            least_thickness(part.material, part.extent.size("z"), wall.units),
            stiffness(part.material, service),
        )
        for part in wall.parts
        if part.does.bears and part.maker == "shop"
    )


def clear_span(wall: Wall, shelf: Part) -> Fraction:
    """Return the widest span between the faces of two that carry a shelf; without two, its length."""
    on = set(shelf.does.bears.on) if shelf.does.bears else set()
    carriers = sorted((part.extent.x0, part.extent.x1) for part in wall.parts if part.key in on)
    return max((after[0] - before[1] for before, after in pairwise(carriers)), default=shelf.extent.size("x"))
