"""Part, Material and Joint: one piece a joiner cuts, or one thing that others set beside it.

Lengths are exact mm in the wall's frame: x along the wall with 0 on its axis, y out of the wall
into the room with 0 on the finished wall face, z up from the finished floor.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.geometry.solid import Solid
from sheets.model.purpose import NO_PURPOSE, UNDECIDED, DecidedBy, Purpose

Axis = Literal["x", "y", "z"]
AXES: tuple[Axis, Axis, Axis] = ("x", "y", "z")
Hand = Literal["", "left", "right"]
Maker = Literal["shop", "others", "room"]


Look = Literal[
    "wood", "panel", "fibreboard", "stone", "brick", "tile", "concrete", "masonry", "gypsum", "other"
]
"""What a material is drawn as."""
_FIBRE: tuple[str, ...] = ("mdf", "fibreboard", "fiberboard", "hardboard", "particleboard")
_NAMED: tuple[tuple[str, tuple[str, ...], Look], ...] = (
    ("panel", _FIBRE, "fibreboard"),
    ("masonry", ("brick", "bricks"), "brick"),
    ("masonry", ("tile", "tiles"), "tile"),
    ("masonry", ("concrete",), "concrete"),
    ("masonry", ("masonry", "block"), "masonry"),
)
"""Of a kind, with one of these words in its name: drawn so."""


@dataclass(frozen=True, slots=True)
class Material:
    """What a part is made of; `key` is the role's name in the spec."""

    key: str
    kind: Literal["wood", "panel", "masonry", "gypsum", "other"]
    name: str  # species, panel or stone, as the schedule prints it
    cut: str = ""  # "quarter sawn"
    finish: str = ""
    face: str = ""  # face species of a panel
    thickness: Fraction | None = None  # of panels and slabs, true

    @property
    def look(self) -> Look:
        """Return what it is drawn as: what its name says it is, else its kind; masonry else as stone.

        A panel with a face of veneer is a panel, whatever its core.
        """
        if self.kind == "panel" and self.face:
            return "panel"
        words = self.name.lower().replace("-", " ").split()
        named = (look for kind, said, look in _NAMED if kind == self.kind and any(w in said for w in words))
        return next(named, "stone" if self.kind == "masonry" else self.kind)


@dataclass(frozen=True, slots=True)
class Extent:
    """The axis-aligned box of a part, exact."""

    x0: Fraction
    x1: Fraction
    y0: Fraction
    y1: Fraction
    z0: Fraction
    z1: Fraction

    def span(self, axis: Axis) -> tuple[Fraction, Fraction]:
        return {"x": (self.x0, self.x1), "y": (self.y0, self.y1), "z": (self.z0, self.z1)}[axis]

    def size(self, axis: Axis) -> Fraction:
        low, high = self.span(axis)
        return high - low

    def middle(self, axis: Axis) -> Fraction:
        low, high = self.span(axis)
        return (low + high) / 2


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint as cut in the part that carries it."""

    kind: Literal[
        "dado",
        "rabbet",
        "groove",
        "tongue",
        "saw cut",
        "mitre",
        "scribe",
        "butt",
        "notch",
        "bevel",
        "dowel",
        "stub tenon",
    ]
    mate: str = ""  # key of the part let in or met
    width: Fraction | None = None
    depth: Fraction | None = None
    count: int = 1
    fastening: str = ""  # "glue", "screw", "nail", "" when by fit alone
    glued: Fraction | None = None  # how much of it is glued, from the front; None: all of it
    moves: bool = False  # screwed in slots, so that the wood can move
    fasteners: int = 0  # how many hold it; 0: as many as the shop's spacing makes

    @property
    def held(self) -> str:
        """Return how it is held, in a word or two."""
        return f"{self.fastening} in slots" if self.moves else self.fastening

    @property
    def where(self) -> str:
        """Return what of the piece it takes away, where that is not its face: a notch is out of a corner."""
        return "corner" if self.kind == "notch" else ""


@dataclass(frozen=True, slots=True)
class Curve:
    """The curve of a shaped part: an arc by chord and rise, in the plane square to `across`."""

    chord: Fraction
    rise: Fraction
    radius: float  # mm, from chord and rise
    across: Axis  # the axis the profile is swept along
    edge: str  # which edge carries it: "underside", "front"


@dataclass(frozen=True, slots=True)
class Kerfs:
    """Saw kerfs across the back of a piece, that close as it is bent. web: the wood left behind them."""

    count: int
    width: Fraction
    web: Fraction


@dataclass(frozen=True, slots=True)
class Bend:
    """How a piece is bent, and the sizes that its box does not tell, as it lies before it is bent."""

    along: Axis  # the axis of the chord
    thickness: Fraction  # square to the face, all layers together
    length: Fraction  # along the longer face, on the grid
    laminations: int = 1  # layers bent over a form and glued to each other
    kerfs: Kerfs | None = None

    @property
    def layer(self) -> Fraction:
        """Thickness of one layer."""
        return self.thickness / self.laminations


@dataclass(frozen=True, slots=True)
class Provenance:
    """Where in the spec a value comes from."""

    path: tuple[str | int, ...] = ()
    line: int = 0
    column: int = 0


@dataclass(frozen=True, slots=True)
class Part:
    """One piece. Parts made by `others` and the `room` are drawn and dimensioned but not scheduled."""

    key: str  # from its place in the spec: "cases/flanking/left/shelf-3"
    name: str  # as the schedule prints it: "Shelf"
    role: str  # what alike pieces are called, lower case; nothing is decided by it
    assembly: str  # key of the component it belongs to: "cases/flanking/left"
    material: Material
    extent: Extent
    solid: Solid  # floats, mm, in the wall's frame
    thickness_axis: Axis
    width_axis: Axis
    length_axis: Axis  # along the grain for wood, along the face grain for panels
    joints: tuple[Joint, ...] = ()
    shows: tuple[str, ...] = ()  # faces seen in the finished work: "front", "top", "left", ...
    edged: tuple[str, ...] = ()  # faces that are edges of a panel, covered with veneer
    notes: tuple[str, ...] = ()
    maker: Maker = "shop"
    hand: Hand = ""
    twin: str = ""  # key of the part that this one mirrors; "" for the original and for single parts
    curve: Curve | None = None
    bend: Bend | None = None  # of a piece that is bent to its curve, not sawn
    mark: str = ""  # given by marking, kept from issue to issue
    made_from: Provenance = Provenance()
    does: Purpose = NO_PURPOSE  # what it is for
    decided_by: DecidedBy = UNDECIDED

    @property
    def grain(self) -> Axis | None:
        """Axis of the grain; None for stone, gypsum and the like."""
        return self.length_axis if self.material.kind in ("wood", "panel") else None

    @property
    def thickness(self) -> Fraction:
        return self.size(self.thickness_axis)

    @property
    def width(self) -> Fraction:
        return self.size(self.width_axis)

    @property
    def length(self) -> Fraction:
        return self.size(self.length_axis)

    def size(self, axis: Axis) -> Fraction:
        """Return a size of the piece as it is made: its box's, or of a bent piece as it lies flat."""
        if self.bend is not None and axis == self.bend.along:
            return self.bend.length
        if self.bend is not None and axis == self.thickness_axis:
            return self.bend.thickness
        return self.extent.size(axis)
