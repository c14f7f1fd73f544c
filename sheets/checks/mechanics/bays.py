"""The clear spaces between shelves, from the pieces that bound them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.model.part import Part
from sheets.model.wall import Component, Wall


@dataclass(frozen=True, slots=True)
class Bay:
    """One clear space: between a piece below and the next above it. Exact mm."""

    case: Component
    below: Part
    above: Part
    height: Fraction
    depth: Fraction


def bays(wall: Wall) -> tuple[Bay, ...]:
    """Return the bays of every case, the lowest first; those of a mirrored case once."""
    found: list[Bay] = []
    for component in wall.components:
        if component.twin:
            continue
        parts = [part for part in wall.parts if part.assembly == component.key]
        floors = sorted(
            (part for part in parts if "floor" in part.does.bounds),
            key=lambda part: (part.extent.z1, part.extent.x0),
        )
        for below in floors:
            over = [
                part
                for part in parts
                if "ceiling" in part.does.bounds
                and part.extent.z0 >= below.extent.z1
                and part.extent.x0 < below.extent.x1
                and below.extent.x0 < part.extent.x1
            ]
            if over:
                above = min(over, key=lambda part: (part.extent.z0, part.extent.x0))
                depth = min(below.extent.y1, above.extent.y1) - _back(parts, below)
                found.append(Bay(component, below, above, above.extent.z0 - below.extent.z1, depth))
    return tuple(found)


def _back(parts: list[Part], below: Part) -> Fraction:
    """The face that a book's back meets: of the backer, or of the back of the piece below."""
    backs = [
        part.extent.y1 for part in parts if "back" in part.does.bounds and part.extent.z1 > below.extent.z1
    ]
    return max(max(backs, default=Fraction(0)), below.extent.y0)
