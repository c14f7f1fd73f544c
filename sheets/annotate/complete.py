"""Adding the few dimensions that are still wanting, where a drafter would put them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.annotate.coverage import Known, Node, faces, line_node
from sheets.annotate.intent import Annotated, DimString, Gap, Side
from sheets.annotate.places import (
    Direction,
    Place,
    across,
    direction_of,
    foot,
    nearer_side,
    parts_by_key,
    places,
)
from sheets.model.part import AXES, Axis, Part
from sheets.model.wall import Wall
from sheets.views.hidden import with_hidden
from sheets.views.view import View

# A detail says it largest; then a section, where the joint is seen.
_ORDER = {"detail": 0, "section": 1, "plan": 2, "elevation": 3, "axonometric": 9}
_HIDDEN = 4  # a dimension to a hidden line is the last resort
# A joiner measures a piece from its like, then from its own case: mm that such a dimension may be longer.
_UNLIKE = Fraction(400)
_STRANGERS = Fraction(800)
_CRAMPED = Fraction(6)  # mm: a dimension shorter than this is for joints, not for places


@dataclass(frozen=True, slots=True)
class _Reading:
    """A face or datum that a view shows: what may be measured from or to."""

    node: Node
    at: Fraction
    parts: tuple[str, ...]
    assemblies: frozenset[str]
    kin: frozenset[tuple[str, str]]  # assembly and role
    cross: Fraction  # middle of the part square to the direction: which side its string goes
    hidden: bool


@dataclass(frozen=True, slots=True)
class _Choice:
    cost: tuple[int, Fraction, str, Fraction, Fraction]
    index: int  # of the view
    direction: Direction
    to: _Reading
    start: _Reading


def complete(annotated: Iterable[Annotated], wall: Wall) -> tuple[Annotated, ...]:
    """Return the same views with the fewest dimensions more that leave no face of a part open.

    Each goes from the nearest known face to the open one, in a detail if one shows both, else in a section,
    a plan, the elevation. What a dimension is taken to behind other parts is then shown dashed; a face that
    no view shows stays open (`missing` names it).
    """
    sets = list(annotated)
    by_key = parts_by_key(wall)
    known = Known(wall, sets)
    readings = _readings(sets, wall, by_key)
    wanted: dict[Axis, list[Node]] = {axis: [] for axis in AXES}
    for part in wall.parts:
        for axis, at, _ in faces(part):
            wanted[axis].append(("part", part.key, axis, at))
    added: dict[int, list[_Choice]] = defaultdict(list)
    ends = [
        {(s.direction, at) for s in one.strings for gap in s.gaps for at in (gap.a, gap.b)} for one in sets
    ]
    for axis in AXES:
        nodes = wanted[axis]
        while True:
            roots = known.roots_known()
            open_roots = {known.root(node) for node in nodes} - roots
            choices = _choices(axis, open_roots, roots, known, readings, sets, ends)
            if not choices:
                break
            best = min(choices, key=lambda choice: choice.cost)
            known.join(best.to.node, best.start.node)
            for row in (best.to, best.start):
                if row.hidden:  # a dimension to a hidden face names its part, and so gives its place
                    for key in row.parts:
                        known.join(row.node, ("part", key, axis, row.node[3]))
            ends[best.index] |= {(best.direction, best.to.at), (best.direction, best.start.at)}
            added[best.index].append(best)
    for index, chosen in added.items():
        rows = [row for choice in chosen for row in (choice.to, choice.start) if row.hidden]
        dashed = [by_key[key] for key in dict.fromkeys(key for row in rows for key in row.parts)]
        shown = replace(sets[index], view=with_hidden(sets[index].view, dashed))
        sets[index] = replace(shown, strings=_naming(_with(shown, chosen), chosen))
    return tuple(sets)


def _readings(
    sets: list[Annotated], wall: Wall, by_key: dict[str, Part]
) -> dict[tuple[int, Axis], list[_Reading]]:
    found: dict[tuple[int, Axis], list[_Reading]] = {}
    for index, one in enumerate(sets):
        frame = one.view.frame
        if frame is None:
            continue
        boxes = {seen.part: seen.box for seen in one.view.seen}
        for axis in AXES:
            direction = direction_of(frame, axis)
            if direction is None:
                continue
            by_place: dict[Fraction, list[Place]] = defaultdict(list)
            for place in places(one.view, by_key, direction):
                by_place[place.at].append(place)
            rows: list[_Reading] = []
            for at, here in sorted(by_place.items()):
                node = line_node(one.view, direction, at)
                open_here = [place for place in here if place.how != "hidden"]
                flush = {by_key[place.part].assembly for place in open_here}
                behind = [p for p in here if p.how == "hidden" and by_key[p.part].assembly not in flush]
                for group in (open_here, behind):
                    if group:
                        middles = [sum(across(boxes[place.part], direction)) / 2 for place in group]
                        parts = [by_key[place.part] for place in group]
                        cross = Fraction(sum(middles, Fraction(0)) / len(middles))
                        rows.append(_reading(node, at, parts, cross, hidden=group is behind))
            found[(index, axis)] = rows
    return found


def _reading(node: Node, at: Fraction, parts: list[Part], cross: Fraction, *, hidden: bool) -> _Reading:
    return _Reading(
        node,
        at,
        tuple(part.key for part in parts),
        frozenset(part.assembly for part in parts),
        frozenset((part.assembly, part.role) for part in parts),
        cross,
        hidden,
    )


def _choices(
    axis: Axis,
    wanted: set[int],
    roots: set[int],
    known: Known,
    readings: dict[tuple[int, Axis], list[_Reading]],
    sets: list[Annotated],
    ends: list[set[tuple[Direction, Fraction]]],
) -> list[_Choice]:
    found: list[_Choice] = []
    for (index, along), rows in readings.items():
        if along != axis:
            continue
        view = sets[index].view
        frame = view.frame
        direction = direction_of(frame, axis) if frame is not None else None
        if direction is None:
            continue
        open_ones = [row for row in rows if _is_open(row, axis, wanted, known)]
        fixed = [row for row in rows if known.root(row.node) in roots]
        for row in open_ones:
            if row.hidden and (direction, row.at) in ends[index]:
                # A dimension ends there already: it has only to be said that the hidden face lies on it.
                found.append(
                    _Choice(
                        (_ORDER[view.kind] + _HIDDEN, Fraction(0), view.id, row.at, row.at),
                        index,
                        direction,
                        row,
                        row,
                    )
                )
                continue
            near = sorted(
                (one for one in fixed if one.at != row.at), key=lambda one: (_distance(row, one), one.at)
            )
            for start in near[:1]:
                kind = _ORDER[view.kind] + (_HIDDEN if row.hidden or start.hidden else 0)
                cost = (kind, _distance(row, start), view.id, row.at, start.at)
                found.append(_Choice(cost, index, direction, row, start))
    return found


def _is_open(row: _Reading, axis: Axis, wanted: set[int], known: Known) -> bool:
    if not row.hidden:
        return known.root(row.node) in wanted
    return any(known.root(("part", key, axis, row.node[3])) in wanted for key in row.parts)


def _distance(to: _Reading, start: _Reading) -> Fraction:
    apart = abs(to.at - start.at)
    if to.kin & start.kin:
        return apart
    penalty = _UNLIKE if to.assemblies & start.assemblies else _STRANGERS
    return apart + penalty + (_CRAMPED * 20 if apart < _CRAMPED else 0)


def _gap(choice: _Choice, view: View) -> Gap:
    low, high = sorted((choice.to, choice.start), key=lambda one: one.at)
    side = nearer_side(view, choice.direction, choice.to.cross)
    return Gap(
        low.at,
        high.at,
        foot(view, choice.direction, low.at, side),
        foot(view, choice.direction, high.at, side),
        parts=tuple(dict.fromkeys((*_named(low), *_named(high)))),
    )


def _named(row: _Reading) -> tuple[str, ...]:
    return row.parts if row.hidden else row.parts[:1]


def _naming(strings: tuple[DimString, ...], chosen: list[_Choice]) -> tuple[DimString, ...]:
    out = list(strings)
    for choice in chosen:
        if choice.to is not choice.start:
            continue
        for n, string in enumerate(out):
            met = [k for k, g in enumerate(string.gaps) if choice.to.at in (g.a, g.b)]
            if string.direction == choice.direction and met:
                gap = string.gaps[met[0]]
                named = replace(gap, parts=tuple(dict.fromkeys((*gap.parts, *choice.to.parts))))
                out[n] = replace(string, gaps=(*string.gaps[: met[0]], named, *string.gaps[met[0] + 1 :]))
                break
    return tuple(out)


def _with(one: Annotated, chosen: list[_Choice]) -> tuple[DimString, ...]:
    # Dimensions that do not overlap share a line, as a drafter would string them.
    view = one.view
    strings = list(one.strings)
    gaps = [(choice, _gap(choice, view)) for choice in chosen if choice.to is not choice.start]
    rows: dict[tuple[Direction, Side], list[list[Gap]]] = defaultdict(list)
    for choice, gap in sorted(gaps, key=lambda pair: (pair[0].direction, pair[1].a, pair[1].b)):
        side = nearer_side(view, choice.direction, choice.to.cross)
        lines = rows[(choice.direction, side)]
        line = next((held for held in lines if held[-1].b <= gap.a), None)
        if line is None:
            lines.append([gap])
        else:
            line.append(gap)
    for (direction, side), lines in sorted(rows.items()):
        for number, line in enumerate(lines):
            string = DimString(
                f"places-{direction}-{side}-{number + 1}",
                direction,
                side,
                0,
                tuple(line),
            )
            strings.append(string)
    return tuple(strings)
