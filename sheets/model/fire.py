"""What is known of the fireplace: the masonry around it, or what the user copied from its manual.

Exact mm. Extents are in the wall's frame (see part.py).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.model.part import Extent, Provenance

Datum = Literal["opening", "unit", "hood"]
"""What a manual measures heights from: the top of the opening, of the unit, or of its hood."""


NOWHERE = Provenance()


@dataclass(frozen=True, slots=True)
class ListingRow:
    """One pair of the manual for what is above: nothing that projects more may stand lower. above: from the
    top of the opening, whatever the manual measures from.
    """

    projection: Fraction
    above: Fraction
    measured_from: Datum = "opening"


@dataclass(frozen=True, slots=True)
class BesideRow:
    """One pair of the manual for what is beside: nothing that projects more may stand nearer."""

    projection: Fraction
    beside: Fraction


@dataclass(frozen=True, slots=True)
class ListedHearth:
    """The noncombustible hearth that the manual wants in front of the opening and beyond its sides."""

    front: Fraction
    beside: Fraction
    thickness: Fraction


@dataclass(frozen=True, slots=True)
class Service:
    """What is left free for service: out of the face, beyond the sides of the opening and above it."""

    depth: Fraction
    beside: Fraction
    above: Fraction


@dataclass(frozen=True, slots=True)
class Manual:
    """What was copied from the appliance's manual; None or () where the copy is silent."""

    mantel: tuple[ListingRow, ...] = ()
    legs: tuple[BesideRow, ...] = ()
    side_trim: tuple[BesideRow, ...] = ()
    facing_above: Fraction | None = None
    facing_beside: Fraction | None = None
    side_walls: Fraction | None = None  # from the side of the opening
    ceiling: Fraction | None = None  # from the top of the opening
    in_front: Fraction | None = None  # of the face, over the whole opening
    hearth: ListedHearth | None = None
    television: Fraction | None = None  # from the top of the opening
    service: Service | None = None
    framing: Extent | None = None  # the opening in the framing that it wants, behind the facing


SILENT = Manual()


@dataclass(frozen=True, slots=True)
class Chimney:
    """The chimney over a masonry fireplace. flue: within its lining, None where the spec does not say."""

    extent: Extent
    outside: bool  # wholly outside the house's walls
    flue: Extent | None = None
    made_from: Provenance = NOWHERE


@dataclass(frozen=True, slots=True)
class MasonryWork:
    """The masonry around a firebox. said: by the spec; else it was assumed, to have something to draw."""

    extent: Extent
    said: bool
    chimney: Chimney | None = None
    made_from: Provenance = NOWHERE
