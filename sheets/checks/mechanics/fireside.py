"""What the clearance rules share: which pieces burn, how far they are from the opening, how far they stand
out.
"""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.mechanics.strengths import is_combustible
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall

CAUTIONS = (
    "These figures warn; they certify nothing. The appliance's listing and manual, the local code and the "
    "authority having jurisdiction govern.",
    "Masonry, gas and electric work is by licensed trades. A permit may be needed.",
    "Screens, doors and facings added later may change the clearances; louvres, vents and the access panel "
    "stay clear.",
    "Verify every clearance on site before the work is fixed.",
)
"""Printed with every result of a clearance rule."""


def combustible_parts(wall: Wall) -> tuple[Part, ...]:
    """Return the pieces that burn and stand in front of the finished wall face; the room itself is not among
    them.
    """
    return tuple(
        part
        for part in wall.parts
        if part.maker != "room" and part.extent.y1 > 0 and is_combustible(part.material)
    )


def distance_to_opening(part: Part, opening: Opening) -> Fraction:
    """Return the shortest way in elevation from the opening to the box around a part, mm, 0 where they
    overlap.

    Corner to corner it is measured on the slant, and cut to 1/1000 mm so that it stays an exact number.
    """
    box, hole = part.extent, opening.extent
    across = max(hole.x0 - box.x1, box.x0 - hole.x1, Fraction(0))
    upright = max(hole.z0 - box.z1, box.z0 - hole.z1, Fraction(0))
    if across == 0 or upright == 0:
        return across + upright
    slant = float(across) ** 2 + float(upright) ** 2
    return Fraction(int(slant**0.5 * 1000), 1000)


def facing_parts(wall: Wall) -> tuple[Part, ...]:
    """Return the noncombustible facing that the opening is in."""
    return tuple(
        part for part in wall.parts if part.does.fire == "facing" and not is_combustible(part.material)
    )


def projection_of(part: Part, opening: Opening) -> Fraction:
    """Return how far a part stands in front of the finished face that the opening is in, mm, never
    below 0.
    """
    return max(part.extent.y1 - opening.extent.y1, Fraction(0))


def height_above(part: Part, opening: Opening) -> Fraction:
    """Return how far the underside of a part is above the top of the opening, mm; below 0 when it reaches
    lower.
    """
    return part.extent.z0 - opening.extent.z1
