"""View: what is seen of the wall from one side, at full size, before anything is said about it.

View coordinates (u right, v up) are mm; each is plus or minus one world axis, so an exact world
coordinate has an exact view coordinate (an axonometric has no such axes and no dimensions).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.geometry.path import Segment
from sheets.geometry.region import Region
from sheets.model.part import Axis, Look

ViewKind = Literal["elevation", "plan", "section", "detail", "part", "axonometric"]
# By meaning, heaviest first; drawing/pens.py gives each its width and dash.
LineRole = Literal["cut", "outline", "step", "edge", "fine", "beyond", "hidden", "overhead"]
# How the grain of a cut face meets the eye: end grain, along u, along v; None for stone and the like.
GrainSeen = Literal["end", "u", "v"]


@dataclass(frozen=True, slots=True)
class Frame:
    """How the world lies in the view: u = u_sign * world[u_axis], v likewise."""

    u_axis: Axis
    u_sign: int
    v_axis: Axis
    v_sign: int
    cut_axis: Axis | None = None
    cut_at: Fraction | None = None
    toward: int = 1  # the viewer stands on this side of the cut

    def to_view(self, axis: Axis, at: Fraction) -> tuple[Literal["u", "v"], Fraction] | None:
        """The view axis and coordinate of a world coordinate; None for the axis along the sight."""
        if axis == self.u_axis:
            return "u", self.u_sign * at
        if axis == self.v_axis:
            return "v", self.v_sign * at
        return None

    def to_world(self, direction: Literal["u", "v"], at: Fraction) -> tuple[Axis, Fraction]:
        if direction == "u":
            return self.u_axis, self.u_sign * at
        return self.v_axis, self.v_sign * at


@dataclass(frozen=True, slots=True)
class ExactBox:
    """A rectangle in view coordinates, exact mm."""

    u0: Fraction
    u1: Fraction
    v0: Fraction
    v1: Fraction


@dataclass(frozen=True, slots=True)
class Trace:
    """One line of the view, of one role, belonging to one part."""

    path: tuple[Segment, ...]  # connected
    role: LineRole
    part: str


@dataclass(frozen=True, slots=True)
class CutFace:
    """A part where the cut goes through it."""

    regions: tuple[Region, ...]
    part: str
    material: Look
    grain: GrainSeen | None


@dataclass(frozen=True, slots=True)
class FaceTexture:
    """A face seen square on, that carries a light texture (stone, brick, wood grain)."""

    regions: tuple[Region, ...]  # its visible part
    part: str
    material: Look
    grain: GrainSeen | None


@dataclass(frozen=True, slots=True)
class Seen:
    """That a part shows in the view, and its whole box there (clipped to the window).

    `overhead`: the outline of its assembly hangs above the cut, and this part has a face on that outline.
    """

    part: str
    how: Literal["cut", "visible", "hidden", "overhead"]
    box: ExactBox
    spot: tuple[float, float]  # a point well inside what shows of it: a balloon's leader ends here


@dataclass(frozen=True, slots=True)
class View:
    """One view, full size."""

    id: str  # "elevation", "plan", "section/mantel", "detail/mantel-build-up": stable, from the spec
    kind: ViewKind
    title: str
    subject: str  # key of the component it is about, "" for the whole wall
    frame: Frame | None  # None for the axonometric
    box: ExactBox  # everything drawn lies within
    lines: tuple[Trace, ...]
    cuts: tuple[CutFace, ...] = ()
    textures: tuple[FaceTexture, ...] = ()
    seen: tuple[Seen, ...] = ()
    window: bool = False  # a detail: the box is a window with break lines where it cuts through
    says: tuple[str, ...] = ()
    subjects: tuple[str, ...] = ()  # parts a detail is about
    also: tuple[str, ...] = ()  # owners of alike features that refer to this detail
