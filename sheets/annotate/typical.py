"""A joint dimensioned once is dimensioned wherever it comes again.

The boards of a backer, the bays of a case: a string gives the lines they are set out on, and one detail gives
how far the edges of the pieces stand off their line. No drafter repeats that at every joint.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from sheets.annotate.intent import Annotated
from sheets.annotate.places import Direction, direction_of, places
from sheets.model.part import AXES, Axis, Part
from sheets.model.wall import Wall

TYPICAL = "TYP."
"""What a detail has to say before it counts for more than the one place it was taken from."""

Line = tuple[str, Axis, Fraction]
"""Owner, axis and world coordinate of a line that a series is set out on."""


@dataclass(frozen=True, slots=True)
class Series:
    """The lines of one chain of one component, in order."""

    owner: str
    axis: Axis
    chain: str
    lines: tuple[Fraction, ...]


def series(wall: Wall) -> tuple[Series, ...]:
    """Return the chains of stations with a line between two others: only there does a joint come again."""
    found: dict[tuple[str, Axis, str], set[Fraction]] = defaultdict(set)
    for station in wall.stations:
        if station.rank != "overall" and station.chain:
            found[(station.owner, station.axis, station.chain)].add(station.at)
    return tuple(
        Series(owner, axis, chain, tuple(sorted(lines)))
        for (owner, axis, chain), lines in sorted(found.items())
        if len(lines) > 2
    )


def typical_faces(
    sets: Iterable[Annotated], wall: Wall, by_key: dict[str, Part]
) -> Iterator[tuple[Line, str, Fraction]]:
    """Yield (line, part, coordinate) for every face whose distance from its line some detail gives.

    A detail that says TYP. speaks of the pieces of the same role in its own component and in those it says
    are alike; on the other side of the wall's axis it is seen as in the mirror. At the two ends of a series
    the same distance counts to either hand: both ends are alike.
    """
    roles: dict[str, dict[str, list[Part]]] = {}  # of the owners of series
    by_owner: dict[tuple[str, Axis], list[Series]] = defaultdict(list)
    for row in series(wall):
        by_owner[(row.owner, row.axis)].append(row)
    for one in sets:
        view = one.view
        if view.kind != "detail" or view.frame is None or not any(TYPICAL in line for line in view.says):
            continue
        for axis in AXES:
            direction = direction_of(view.frame, axis)
            if direction is None:
                continue
            offsets = _offsets(one, direction, axis, by_owner.get((view.subject, axis), []), by_key)
            for owner in (view.subject, *view.also):
                for held in by_owner.get((owner, axis), []) if offsets else ():
                    if owner not in roles:
                        roles[owner] = _by_role(wall, owner)
                    turned = axis == "x" and _across(wall, view.subject, owner)
                    both = offsets | {(role, -off) for role, off in offsets} if turned else offsets
                    yield from _alike(held, both, roles[owner])


def _across(wall: Wall, one: str, other: str) -> bool:
    first, second = wall.component_of(one), wall.component_of(other)
    if first is None or second is None:
        return False
    return first.extent.x1 <= 0 <= second.extent.x0 or second.extent.x1 <= 0 <= first.extent.x0


def _offsets(
    one: Annotated, direction: Direction, axis: Axis, held: list[Series], by_key: dict[str, Part]
) -> set[tuple[str, Fraction]]:
    # By role: how far from the nearest line a face stands that the detail's own strings join with that line.
    frame = one.view.frame
    if frame is None:
        return set()
    groups = _groups(one, direction)
    found: set[tuple[str, Fraction]] = set()
    for place in places(one.view, by_key, direction):
        group = groups.get(place.at)
        if place.how == "hidden" or group is None:
            continue
        at = frame.to_world(direction, place.at)[1]
        for row in held:
            joined = [line for line in row.lines if _seen_in(frame.to_view(axis, line), groups, group)]
            if joined:
                nearest = min(joined, key=lambda line: (abs(line - at), line))
                found.add((by_key[place.part].role, at - nearest))
    return found


def _groups(one: Annotated, direction: Direction) -> dict[Fraction, Fraction]:
    # Coordinates that a detail's strings join, each with the least of its group.
    parent: dict[Fraction, Fraction] = {}

    def root(at: Fraction) -> Fraction:
        parent.setdefault(at, at)
        while parent[at] != at:
            at = parent[at]
        return at

    for string in one.strings:
        if string.direction == direction:
            for gap in string.gaps:
                a, b = root(gap.a), root(gap.b)
                parent[max(a, b)] = min(a, b)
    return {at: root(at) for at in tuple(parent)}


def _seen_in(placed: tuple[str, Fraction] | None, groups: dict[Fraction, Fraction], group: Fraction) -> bool:
    return placed is not None and groups.get(placed[1]) == group


def _by_role(wall: Wall, owner: str) -> dict[str, list[Part]]:
    found: dict[str, list[Part]] = defaultdict(list)
    for part in wall.parts:
        if part.assembly == owner or part.key.startswith(owner + "/"):
            found[part.role].append(part)
    return found


def _alike(
    held: Series, offsets: set[tuple[str, Fraction]], roles: dict[str, list[Part]]
) -> Iterator[tuple[Line, str, Fraction]]:
    ends = (held.lines[0], held.lines[-1])
    for role, off in sorted(offsets):
        # Where a face at this distance from some line would lie, and which line that is.
        places = {line + off: line for line in held.lines} | {end - off: end for end in ends}
        for part in roles.get(role, ()):
            for at in part.extent.span(held.axis):
                line = places.get(at)
                if line is not None:
                    yield (held.owner, held.axis, line), part.key, at
