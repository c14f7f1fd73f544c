"""What a drafter wants to say about a view, before it is known where on the paper it goes.

All coordinates are the view's, full size, mm; exact where they are measured. Compose finds the places.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.views.view import ExactBox, View

Side = Literal["above", "below", "left", "right"]


@dataclass(frozen=True, slots=True)
class Gap:
    """One dimension of a string: from a to b along the string's direction."""

    a: Fraction
    b: Fraction
    foot_a: Fraction  # cross coordinate where the extension line leaves the object
    foot_b: Fraction
    parts: tuple[str, ...] = ()  # keys whose faces it joins
    equal: bool = False  # printed with EQ beside the size
    verify: bool = False  # printed with the field-verify mark


@dataclass(frozen=True, slots=True)
class DimString:
    """A chain of dimensions in one line. Rank 0 lies nearest the object, the overall outermost."""

    id: str  # stable: "shelves/cases/flanking/left"
    direction: Literal["u", "v"]  # what is measured: across or up
    side: Side  # above/below for u, left/right for v
    rank: int
    gaps: tuple[Gap, ...]  # in order; they may leave holes


@dataclass(frozen=True, slots=True)
class ArcDim:
    """Radius of an arc; chord and rise are dimensioned as ordinary gaps."""

    id: str
    centre: tuple[float, float]
    radius: float
    at_angle: float  # radians: where on the arc the leader touches
    part: str


@dataclass(frozen=True, slots=True)
class Callout:
    """A note on a leader, or written on the face it speaks of where that is large and empty."""

    id: str
    text: tuple[str, ...]  # lines, capitals
    target: tuple[float, float]
    part: str = ""
    room: ExactBox | None = None  # free of other lines of the view: the note may stand in it without a leader


@dataclass(frozen=True, slots=True)
class Balloon:
    """A part's mark on a leader. Several targets: alike parts that share the mark."""

    mark: str
    target: tuple[float, float]
    part: str


@dataclass(frozen=True, slots=True)
class CutMark:
    """The line along which another view was cut, with its mark at both ends."""

    target: str  # id of the section or plan
    direction: Literal["u", "v"]  # the line runs along u or along v
    at: Fraction  # its cross coordinate
    start: Fraction
    end: Fraction
    look: int  # +1: the arrows point to greater cross coordinates


@dataclass(frozen=True, slots=True)
class DetailMark:
    """Ring round the place a detail was taken."""

    target: str  # id of the detail
    u0: Fraction
    u1: Fraction
    v0: Fraction
    v1: Fraction


@dataclass(frozen=True, slots=True)
class AxisLine:
    """An axis of symmetry, marked CL."""

    direction: Literal["u", "v"]  # runs along
    at: Fraction
    label: str = "CL"


@dataclass(frozen=True, slots=True)
class Annotated:
    """A view and all that is said of it."""

    view: View
    strings: tuple[DimString, ...] = ()
    arcs: tuple[ArcDim, ...] = ()
    callouts: tuple[Callout, ...] = ()
    balloons: tuple[Balloon, ...] = ()
    cut_marks: tuple[CutMark, ...] = ()
    detail_marks: tuple[DetailMark, ...] = ()
    axes: tuple[AxisLine, ...] = ()
    notes: tuple[str, ...] = ()  # printed under the view's title
