"""Wall: everything resolved, the one value that checks, schedules and views read.

Exact mm, in the wall's frame (see part.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from sheets.base.notation import Notation
from sheets.model.fire import SILENT, Manual, MasonryWork
from sheets.model.kind import Kind
from sheets.model.part import Axis, Extent, Hand, Material, Part, Provenance
from sheets.model.purpose import UNDECIDED, DecidedBy
from sheets.model.settings import Settings

NOWHERE = Provenance()
Rank = Literal["overall", "major", "minor"]
LAST = 100
"""The order of a detail that its component gives no place among the others."""


@dataclass(frozen=True, slots=True)
class Station:
    """A line that matters: dimension chains are built from these alone.

    `overall`: ends of the wall, floor, ceiling. `major`: openings, centres, edges of components, tops.
    `minor`: edges of parts within one component. `chain` names the string it belongs to within its owner
    ("shelves", "boards", "layers"); stations of one chain are dimensioned in one string.
    """

    axis: Axis
    at: Fraction
    rank: Rank
    owner: str  # key of the component or part
    chain: str = ""
    label: str = ""  # "CL", "FLOOR", "TOP OF CAP"
    equal: bool = False  # the bay that ends here is one of an equal series (EQ)
    verify: bool = False  # to be verified in the field


@dataclass(frozen=True, slots=True)
class Feature:
    """A build-up worth a detail: a window cut out of the wall, looked at square to `axis` at `at`.

    `kind` names the detail. Features with the same `signature` are alike: the first is drawn, the others
    refer to it.
    """

    kind: str
    title: str
    owner: str
    axis: Axis
    at: Fraction
    window: Extent  # only the two axes in the plane matter
    subjects: tuple[str, ...]  # keys of the parts the detail is about
    signature: str
    says: tuple[str, ...] = ()  # notes a drafter writes on it
    toward: int = 1  # look from +axis (1) or from -axis (-1)
    order: int = LAST  # among the details: lower comes first


@dataclass(frozen=True, slots=True)
class Cut:
    """A whole section or plan that a component asks for."""

    kind: Literal["section", "plan"]
    title: str
    owner: str
    axis: Axis
    at: Fraction
    toward: int = 1  # side the viewer stands on, looking at the half that is kept
    signature: str = ""


@dataclass(frozen=True, slots=True)
class Component:
    """An assembly the spec names: one case, the mantel, the surround, the baseboard."""

    key: str
    kind: Kind
    name: str  # as printed: "FLANKING CASE, LEFT"
    extent: Extent
    hand: Hand = ""
    twin: str = ""  # key of the component this one mirrors
    facts: Mapping[str, Fraction | int | str] = field(default_factory=dict)  # sizes by trade word
    made_from: Provenance = NOWHERE
    decided_by: DecidedBy = UNDECIDED


@dataclass(frozen=True, slots=True)
class Room:
    """The room as framed: finished faces."""

    width: Fraction
    height: Fraction  # to the crown of the ceiling
    spring: Fraction | None  # height of the spring line of a vault; None for a flat ceiling
    doorway: tuple[Fraction, Fraction] | None = None  # clear width, height
    out_of_plumb: Fraction = field(kw_only=True)  # the most that a side wall leans

    @property
    def rise(self) -> Fraction:
        return self.height - self.spring if self.spring is not None else Fraction(0)


@dataclass(frozen=True, slots=True)
class Opening:
    """The fireplace opening, by others."""

    extent: Extent
    appliance: str  # "masonry", "listed gas", "listed electric", "listed wood"
    manual: Manual = SILENT
    masonry: MasonryWork | None = None  # of a masonry fireplace
    made_from: Provenance = NOWHERE

    @property
    def listed(self) -> bool:
        """Return whether it holds an appliance with a listing of its own."""
        return self.appliance.startswith("listed")


@dataclass(frozen=True, slots=True)
class Void:
    """That an issue is not to be used: why, and its sheets; none where they are not known.

    after: the last revision that was issued before it was void: prints up to that do not say so.
    """

    reason: str
    sheets: tuple[str, ...] = ()
    after: str = ""


@dataclass(frozen=True, slots=True)
class Revision:
    """One row of the record of revisions. digest: of what was issued; empty where `revise` wrote none."""

    number: str
    date: str
    by: str
    reason: str
    digest: str = ""
    void: Void | None = None

    @property
    def says(self) -> str:
        """What stands as its reason: of one that is void first why."""
        return self.reason if self.void is None else f"void: {self.void.reason}. Was: {self.reason}"


@dataclass(frozen=True, slots=True)
class Project:
    """What the title block says; empty where the spec is silent."""

    title: str
    number: str = ""
    site: str = ""
    client: str = ""
    owner: str = ""  # the legal owner of the drawings
    firm: str = ""
    drawn: str = ""
    checked: str = ""
    approved: str = ""
    date: str = ""
    status: str = ""


@dataclass(frozen=True, slots=True)
class Paper:
    size: str  # "arch-c", "iso-a1"
    titleblock: str  # name or path
    orientation: Literal["landscape", "portrait"] = "landscape"


@dataclass(frozen=True, slots=True)
class Leftover:
    """What the grid left over and where it was placed."""

    owner: str
    what: str
    amount: Fraction
    placed: str


@dataclass(frozen=True, slots=True)
class Wall:
    """The whole built-in wall, resolved and on the grid."""

    project: Project
    paper: Paper
    units: Literal["inch", "mm"]
    notation: Notation
    grid: Fraction  # the drawing's precision
    room: Room
    parts: tuple[Part, ...]
    components: tuple[Component, ...]
    stations: tuple[Station, ...]
    features: tuple[Feature, ...]
    cuts: tuple[Cut, ...]
    materials: tuple[Material, ...]
    opening: Opening | None = None
    notes: tuple[str, ...] = ()
    leftovers: tuple[Leftover, ...] = ()
    revisions: tuple[Revision, ...] = ()
    settings: Settings = field(kw_only=True)

    def part(self, key: str) -> Part:
        return next(part for part in self.parts if part.key == key)

    def component(self, key: str) -> Component:
        return next(component for component in self.components if component.key == key)

    def component_of(self, key: str) -> Component | None:
        """Return the component with this key, or the one that the part with this key belongs to, or None."""
        return owner_of(self.components, key)


def owner_of(components: Iterable[Component], key: str) -> Component | None:
    """Return the innermost of the components that a key belongs to, or None."""
    owners = (c for c in components if key == c.key or key.startswith(c.key + "/"))
    return max(owners, key=lambda component: len(component.key), default=None)
