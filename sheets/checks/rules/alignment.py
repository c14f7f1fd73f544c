"""Lines that almost meet: edges of neighbouring work within half an inch of each other but not in line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.alignment_picture import alignment_picture
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.part import Axis, Part
from sheets.model.wall import Component, Wall
from sheets.tables.figures import figure

NAME = "alignment"

EXPLAIN = """\
Reads the long edges that the eye follows: tops of cases, caps, shelves, plinths, baseboards, mantel and
surround (level), and the outer edges of surround, posts, stiles and hearth (upright). Two edges of
different work that differ by less than 1/2 in, and are not in line, look like a mistake: a warning. Top
is held against top, underside against underside. Edges in line are counted.
Source: common practice, from memory: the eye reads two lines this near as one line missed."""

Edge = Literal["top", "underside", "left", "right"]


@dataclass(frozen=True, slots=True)
class Line:
    """One edge: on which axis, where, which side of its piece, of which component."""

    axis: Axis
    at: Fraction
    edge: Edge
    owner: Component
    part: Part


def _judge(wall: Wall) -> Outcome:
    within = figure("order", "almost aligned within")
    lines = _lines(wall)
    near: list[tuple[Line, Line]] = []
    met = 0
    for count, one in enumerate(lines):
        for other in lines[count + 1 :]:
            if one.owner.key == other.owner.key or (one.axis, one.edge) != (other.axis, other.edge):
                continue
            apart = abs(one.at - other.at)
            if apart == 0:
                met += 1
            elif apart <= within.value and not _twins(one, other):
                near.append((one, other))
    findings = [_finding(wall, one, other) for one, other in near]
    measures = (
        (
            Measure(
                f"{len(lines)} edges the eye follows",
                f"{met} pairs in line, {len(near)} almost in line",
                f"in line, or more than {length(wall, within.value)} apart",
                "to judge" if near else "within limit",
                within.cited,
            ),
        )
        if lines
        else ()
    )
    pictured = (
        (alignment_picture(wall, tuple((one.axis, one.at, other.at) for one, other in near)),)
        if lines
        else ()
    )
    return Outcome(len(lines), tuple(findings), measures, pictured)


def _lines(wall: Wall) -> tuple[Line, ...]:
    """Each distinct edge of a component once, the original side of mirrored work only."""
    owners = {component.key: component for component in wall.components if not component.twin}
    found: dict[tuple[object, ...], Line] = {}
    for part in wall.parts:
        owner = owners.get(part.assembly)
        if owner is None or part.maker == "room":
            continue
        for line in _edges_of(part, owner):
            found.setdefault((owner.key, line.axis, line.edge, line.at), line)
    return tuple(found.values())


def _edges_of(part: Part, owner: Component) -> Iterable[Line]:
    box = part.extent
    if "level" in part.does.lines and box.size("x") > box.size("z") and part.curve is None:
        yield Line("z", box.z1, "top", owner, part)
        if box.z0 > 0:
            yield Line("z", box.z0, "underside", owner, part)
    if "upright" in part.does.lines:
        # About the axis: left edges stand for right ones.
        yield Line("x", -abs(box.x0), "left" if box.x0 < 0 else "right", owner, part)
        yield Line("x", -abs(box.x1), "right" if box.x1 < 0 else "left", owner, part)


def _twins(one: Line, other: Line) -> bool:
    return one.owner.twin == other.owner.key or other.owner.twin == one.owner.key


def _finding(wall: Wall, one: Line, other: Line) -> Finding:
    apart = abs(one.at - other.at)
    low, high = sorted((one, other), key=lambda line: (line.at, line.owner.key))
    what = {"top": "top", "underside": "underside", "left": "outer edge", "right": "inner edge"}[one.edge]
    return about(
        NAME,
        "warning",
        f"the {what} of the {high.part.name.lower()} ({high.owner.name.lower()}) is {length(wall, apart)} "
        f"{'above' if one.axis == 'z' else 'beside'} that of the {low.part.name.lower()} "
        f"({low.owner.name.lower()}): almost in line",
        one.part,
        other.part,
        cure="bring them into line, or more than "
        f"{length(wall, figure('order', 'almost aligned within').value)} apart",
        cited=figure("order", "almost aligned within").cited,
        made_from=decided(one.part, "top", "z") if one.edge == "top" else None,
    )


RULE = Rule(NAME, "Lines that almost meet", "order", 20, _judge, EXPLAIN)
