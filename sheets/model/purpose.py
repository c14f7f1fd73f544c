"""What a piece is for and what decides its sizes, in fields that its component fills.

Checks, dimensions, marks, schedules and findings read these fields and no names. A field left as it is says
that the piece does nothing of the kind.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from sheets.base.diagnostics import SpecPath

Bound = Literal["end", "partition", "floor", "ceiling", "back"]
"""What it bounds of a space to keep things in: an end of the whole, a side of one compartment, what things
stand on, what they stand under, what they stand against."""

Line = Literal["level", "upright"]
"""Which of its long edges the eye follows from across the room."""

Face = Literal["", "cap", "fascia", "sub-fascia", "corbel", "arch", "post", "surround", "frame", "shelf"]
"""Which face of the work it shows, of those whose steps in depth are judged against each other."""

Member = Literal["", "stile", "board", "panel"]
"""What it is within a frame or a row: a stile, like the one at the other end; a board of a row laid side by
side, or a panel in a frame, both let in without glue and free to move."""

AtTheFire = Literal[
    "", "firebox", "trim", "masonry", "enclosure", "facing", "hearth", "floor", "side wall", "ceiling",
    "electronics",
]  # fmt: skip
"""What it is to the fireplace: the box of the appliance, its maker's trim, the masonry or the framing that
others build around it, what faces the wall or covers the floor before it; the floor, the side walls and the
ceiling of the room; a screen or a picture that its heat reaches."""


@dataclass(frozen=True, slots=True)
class Bears:
    """That things stand on it, between supports. on: keys of the pieces that carry it at its ends and
    between; along: of those that carry it along an edge, front or back.
    """

    on: tuple[str, ...] = ()
    along: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Purpose:
    """What a piece does in the finished work."""

    bears: Bears | None = None  # a shelf
    carries: Bears | None = None  # a bottom, a top: things stand on it, and it is no shelf
    anchors: bool = False  # holds the work to the studs, by wall fasteners
    covered: Fraction = Fraction(0)  # mm of what covers an anchor, that its wall fasteners go through too
    bounds: tuple[Bound, ...] = ()
    lines: tuple[Line, ...] = ()
    face: Face = ""
    member: Member = ""
    fire: AtTheFire = ""
    runs: bool = False  # along the wall, until it dies into something
    on_site: bool = False  # fitted when the rest of its assembly stands

    def renamed(self, key_of: Callable[[str], str]) -> Purpose:
        """Return the same with the keys of other pieces renamed, as in a mirror."""
        return replace(self, bears=_renamed(self.bears, key_of), carries=_renamed(self.carries, key_of))


def _renamed(bears: Bears | None, key_of: Callable[[str], str]) -> Bears | None:
    if bears is None:
        return None
    return Bears(tuple(key_of(key) for key in bears.on), tuple(key_of(key) for key in bears.along))


NO_PURPOSE = Purpose()

Size = Literal[
    "x", "y", "z", "width", "thickness", "top", "front", "setback", "off_fire", "curve", "fixing", "housing",
    "count", "scribe", "anchors",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class DecidedBy:
    """Which place of the spec decides a size of a piece or a component: whole paths, () where none does."""

    x: SpecPath = ()
    y: SpecPath = ()
    z: SpecPath = ()
    width: SpecPath = ()  # across the grain
    thickness: SpecPath = ()
    top: SpecPath = ()  # height of its upper edge
    front: SpecPath = ()  # how far its front stands out
    setback: SpecPath = ()  # how far it stands behind what is before it
    off_fire: SpecPath = ()  # what brings it farther from the opening
    curve: SpecPath = ()  # the rise of its curve
    fixing: SpecPath = ()  # how it is held down
    housing: SpecPath = ()  # how deep it is let in, or how deep what is let into it
    count: SpecPath = ()  # of its shelves
    scribe: SpecPath = ()  # what is left at a side wall
    anchors: SpecPath = ()  # what leaves room for a piece that anchors it

    def of(self, *sizes: Size) -> SpecPath:
        """Return the first place that decides one of these sizes, () when none is named."""
        paths: list[SpecPath] = [getattr(self, size) for size in sizes]
        return next((path for path in paths if path), ())

    def over(self, whole: DecidedBy) -> DecidedBy:
        """Return this with what it leaves open along the axes, front and fire as the whole has it."""
        return replace(
            self,
            x=self.x or whole.x,
            y=self.y or whole.y,
            z=self.z or whole.z,
            front=self.front or whole.front,
            off_fire=self.off_fire or whole.off_fire,
        )


UNDECIDED = DecidedBy()
