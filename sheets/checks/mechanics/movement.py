"""How much a solid piece grows and shrinks across its grain over the year."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.checks.mechanics.moisture import Moisture, change_of_size
from sheets.checks.mechanics.strengths import species
from sheets.model.part import Axis, Part
from sheets.tables.read import Cited, together
from sheets.tables.woods import Grain


@dataclass(frozen=True, slots=True)
class Movement:
    """Change of one size across the grain, mm: growth and shrinkage from the day it is fixed, and both
    together.
    """

    grows: float
    shrinks: float
    coefficient: float
    cited: Cited

    @property
    def swing(self) -> float:
        return self.grows + self.shrinks


def movement(part: Part, size: Fraction, axis: Axis, moisture: Moisture) -> Movement | None:
    """Return how a size of a part along an axis moves; None for what is no solid wood or has no figures.

    Along the grain wood hardly moves, and the answer there is 0.
    """
    wood = species(part.material)
    if wood is None:
        return None
    if axis == part.length_axis:
        return Movement(0.0, 0.0, 0.0, wood.stiffness_cited)
    coefficient, cited = wood.coefficient(_grain(part, axis))
    installed, mm = moisture.installed_pct, float(size)
    return Movement(
        change_of_size(mm, coefficient, installed, moisture.high_pct),
        -change_of_size(mm, coefficient, installed, moisture.low_pct),
        coefficient,
        together(cited, moisture.cited),
    )


def _grain(part: Part, axis: Axis) -> Grain:
    # Plain-sawn width and quarter-sawn thickness lie along the rings (tangential). Rift boards move between
    # the two:
    # the greater figure is taken.
    quarter_sawn = "quarter" in part.material.cut
    return "radial" if quarter_sawn == (axis == part.width_axis) else "tangential"


def is_solid(part: Part) -> bool:
    """Return whether a part is solid wood of the shop's."""
    return part.material.kind == "wood" and part.maker == "shop"


def swing_words(moisture: Moisture) -> str:
    """Return the range in words: 6.2 to 10.8 % (temperate)."""
    return f"{moisture.low_pct:.1f} to {moisture.high_pct:.1f} % moisture content ({moisture.said})"
