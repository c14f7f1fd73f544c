"""What the clearance rules share: which pieces burn, and how each block of each stands to the opening."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from sheets.base.length import inch
from sheets.checks.mechanics.strengths import is_combustible
from sheets.checks.wording import called
from sheets.geometry.blocks import blocks
from sheets.geometry.solid import Solid
from sheets.model.part import Extent, Part
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

FIREPLACE_ITSELF = frozenset(("firebox", "trim", "masonry", "enclosure"))
"""What others build as the fireplace: its own maker, mason or framer answers for what it is of."""

FARTHEST = inch(48)
"""No figure of these rules reaches farther: a piece beyond is measured by its box alone."""

_EXACT = (
    10**6
)  # lengths on any grid in use are fractions of a millimetre with a smaller denominator than this


@dataclass(frozen=True, slots=True)
class Block:
    """A block of a piece and how it stands to the opening, exact mm.

    aside: from the nearer side of the opening along the wall, 0 within its width. upright: from its top or
    its bottom, 0 within its height. projection: in front of the face that the opening is in, never below 0.
    """

    extent: Extent
    aside: Fraction
    upright: Fraction
    higher: bool  # it is above the opening, not below it
    projection: Fraction

    @property
    def distance(self) -> Fraction:
        """The shortest way to the opening in elevation; on the slant it is cut to 1/1000 mm, so that it stays
        an exact number.
        """
        if self.aside == 0 or self.upright == 0:
            return self.aside + self.upright
        slant = float(self.aside) ** 2 + float(self.upright) ** 2
        return Fraction(int(slant**0.5 * 1000), 1000)


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece that burns, and its blocks."""

    part: Part
    blocks: tuple[Block, ...]

    @property
    def nearest(self) -> Block:
        """The block that is nearest the opening; of those as near the one that projects most."""
        return min(self.blocks, key=lambda block: (block.distance, -block.projection))

    def worst(self, fails: Callable[[Block], bool]) -> Block | None:
        """Return the nearest of the blocks that fail, None when none does."""
        failing = [block for block in self.blocks if fails(block)]
        return min(failing, key=lambda block: (block.distance, -block.projection), default=None)


def burning(wall: Wall, opening: Opening) -> tuple[Piece, ...]:
    """Return every piece of the wall that burns, the room's own finish among them; not the fireplace itself,
    what hangs above it, nor the floor, which the hearth covers.
    """
    other = FIREPLACE_ITSELF | {"floor", "electronics"}
    return tuple(
        piece_of(wall, opening, part)
        for part in wall.parts
        if part.does.fire not in other and is_combustible(part.material)
    )


def piece_of(wall: Wall, opening: Opening, part: Part) -> Piece:
    """Return a piece with its blocks; one that is far away as a single block."""
    whole = block_of(part.extent, opening)
    if whole.distance > FARTHEST:
        return Piece(part, (whole,))
    return Piece(part, tuple(block_of(box, opening) for box in extents(part.solid, wall.grid)))


def block_of(box: Extent, opening: Opening) -> Block:
    """Return how a block stands to the opening."""
    hole, none = opening.extent, Fraction(0)
    return Block(
        box,
        max(hole.x0 - box.x1, box.x0 - hole.x1, none),
        max(hole.z0 - box.z1, box.z0 - hole.z1, none),
        box.z0 >= hole.z1,
        max(box.y1 - hole.y1, none),
    )


@cache
def extents(solid: Solid, step: Fraction) -> tuple[Extent, ...]:
    """Return the blocks of a solid as exact boxes. step: of the stair along what slopes, mm."""
    return tuple(Extent(*(_exact(value) for value in box)) for box in blocks(solid, float(step)))


def _exact(value: float) -> Fraction:
    return Fraction(value).limit_denominator(_EXACT)


def facing_parts(wall: Wall) -> tuple[Part, ...]:
    """Return the noncombustible facing that the opening is in."""
    return tuple(
        part for part in wall.parts if part.does.fire == "facing" and not is_combustible(part.material)
    )


def apart(one: Extent, other: Extent) -> Fraction:
    """Return the shortest way between two boxes, mm; 0 where they touch. Cut to 1/1000 mm on the slant."""
    gaps = [
        max(a - d, c - b, Fraction(0))
        for (a, b), (c, d) in ((one.span(axis), other.span(axis)) for axis in ("x", "y", "z"))
    ]
    aside = [gap for gap in gaps if gap]
    if len(aside) < 2:
        return sum(aside, Fraction(0))
    return Fraction(int(sum(float(gap) ** 2 for gap in aside) ** 0.5 * 1000), 1000)


def lies_on_masonry(wall: Wall, part: Part) -> bool:
    """Return whether a piece is mantel or trim, which a code may let lie on a masonry fireplace's front."""
    component = wall.component_of(part.key)
    return component is not None and component.kind.lies_on_masonry


def named(parts: Iterable[Part]) -> str:
    """Return what pieces are called, each once, in their order."""
    return ", ".join(dict.fromkeys(called(part) for part in parts))
