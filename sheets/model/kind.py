"""What kind of work a component is: marks, dimension strings, views and checks go by it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Arrives = Literal["stood up", "carried in", "by the length", "by others"]
"""How it comes into the room: assembled in the shop, through the doorway and stood up; carried in and fixed;
as lengths cut along the wall; or by others."""

Row = Literal["middle", "mantel", "cases", "own side"]
"""Which string its main sizes share: of what stands on the floor side by side; of what stands above or before
that; of heights at the left of the wall; of heights and depths at its own side of the wall."""


@dataclass(frozen=True, slots=True)
class Rows:
    """The row of sizes along each axis."""

    x: Row = "middle"
    y: Row = "own side"
    z: Row = "own side"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of component. letter: of its part marks, none where the shop makes nothing of it.

    B is a base cabinet's letter everywhere, W a wall cabinet's (common practice): no mark here begins so.
    """

    name: str
    letter: str = ""
    arrives: Arrives = "carried in"
    rows: Rows = Rows()
    widths_in: Literal["plan", "elevation"] = "elevation"  # where widths within it are read first
    about_opening: bool = False  # its margins left and right of the fireplace opening are meant to be equal
    mantel_shelf: bool = False  # its top is held against the heights and the pictures of a mantel
    lies_on_masonry: bool = False  # mantel and trim: what a code lets lie on a masonry fireplace's front
    given: bool = False  # the room and what it has, not the work
