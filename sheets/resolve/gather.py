"""What the components make, gathered: parts, components, stations, features, cuts, leftovers and diagnostics.

The one value that is filled step by step; it never leaves this stage.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Protocol

from sheets.base.diagnostics import Diagnostic, Place, Severity, SpecPath
from sheets.base.keys import join_key
from sheets.geometry.solid import Solid, box
from sheets.model.part import Axis, Bend, Curve, Extent, Hand, Joint, Maker, Material, Part, Provenance
from sheets.model.purpose import NO_PURPOSE, UNDECIDED, DecidedBy, Purpose
from sheets.model.wall import Component, Cut, Feature, Leftover, Opening, Rank, Station

NOWHERE = Provenance()
AXIS_OF: dict[str, Axis] = {"x": "x", "y": "y", "z": "z"}


class Places(Protocol):
    """Where the values of a spec stand in its file."""

    def place_of(self, path: SpecPath) -> Place | None: ...


@dataclass(slots=True)
class Gathered:
    """Lists that only grow. `source` may be None (a spec that never was a file): places are then left out."""

    source: Places | None
    grid: Fraction
    parts: list[Part] = field(default_factory=list)
    components: list[Component] = field(default_factory=list)
    stations: list[Station] = field(default_factory=list)
    features: list[Feature] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    leftovers: list[Leftover] = field(default_factory=list)
    diagnostics: list[Diagnostic] = field(default_factory=list)
    opening: Opening | None = None
    _known: dict[tuple[str, Fraction, str, str], int] = field(default_factory=dict)

    def say(
        self, code: str, path: SpecPath, message: str, *, severity: Severity = "error", help: str = ""
    ) -> None:
        """Add a diagnostic at the place of a spec path."""
        place = self.source.place_of(path) if self.source is not None else None
        self.diagnostics.append(Diagnostic(code, severity, message, place, help, path))

    def made_from(self, path: SpecPath) -> Provenance:
        """Return where in the spec something comes from."""
        place = self.source.place_of(path) if self.source is not None else None
        return Provenance(path, place.line, place.column) if place else Provenance(path)

    def left_over(self, owner: str, what: str, amount: Fraction, placed: str) -> None:
        """Report what the grid left over, when it left anything."""
        if amount:
            self.leftovers.append(Leftover(owner, what, amount, placed))

    def station(
        self,
        axis: Axis,
        at: Fraction,
        rank: Rank,
        owner: str,
        chain: str,
        label: str = "",
        *,
        equal: bool = False,
        verify: bool = False,
    ) -> None:
        """Add one station; the same station of the same chain is kept once, the first rank and label
        winning."""
        place = (axis, at, owner, chain)
        known = self._known.get(place)
        if known is None:
            self._known[place] = len(self.stations)
            self.stations.append(Station(axis, at, rank, owner, chain, label, equal, verify))
        elif label and not self.stations[known].label:
            self.stations[known] = replace(self.stations[known], label=label)

    def chain(self, axis: Axis, at: Iterable[Fraction], rank: Rank, owner: str, chain: str) -> None:
        """Add the stations of one string."""
        for value in at:
            self.station(axis, value, rank, owner, chain)


def extent(x0: Fraction, x1: Fraction, y0: Fraction, y1: Fraction, z0: Fraction, z1: Fraction) -> Extent:
    """Return the exact box."""
    return Extent(x0, x1, y0, y1, z0, z1)


def as_block(e: Extent, axis: Axis = "z") -> Solid:
    """Return the box as a solid, its profile square to `axis`."""
    return box(float(e.x0), float(e.x1), float(e.y0), float(e.y1), float(e.z0), float(e.z1), axis)


def piece(
    step: str,
    name: str,
    role: str,
    assembly: str,
    material: Material,
    where: Extent,
    axes: str,
    *,
    solid: Solid | None = None,
    joints: tuple[Joint, ...] = (),
    shows: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
    maker: Maker = "shop",
    hand: Hand = "",
    curve: Curve | None = None,
    bend: Bend | None = None,
    made_from: Provenance = NOWHERE,
    does: Purpose = NO_PURPOSE,
    decided_by: DecidedBy = UNDECIDED,
) -> Part:
    """Return a part. `axes` names its thickness, width and length axis in that order: "yzx" is a board on
    edge along the wall. Without `solid` it is the plain block of its extent."""
    t, w, length = (AXIS_OF[c] for c in axes)
    return Part(
        key=join_key(assembly, step),
        name=name,
        role=role,
        assembly=assembly,
        material=material,
        extent=where,
        solid=solid if solid is not None else as_block(where),
        thickness_axis=t,
        width_axis=w,
        length_axis=length,
        joints=joints,
        shows=shows,
        notes=notes,
        maker=maker,
        hand=hand,
        curve=curve,
        bend=bend,
        made_from=made_from,
        does=does,
        decided_by=decided_by,
    )


def settled(parts: Iterable[Part], whole: DecidedBy) -> list[Part]:
    """Return the parts of a component, the whole's places of the spec filled in where they name none."""
    return [replace(part, decided_by=part.decided_by.over(whole)) for part in parts]
