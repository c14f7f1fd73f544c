"""Cases within the wall and under the ceiling."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import carcass_extent
from sheets.checks.mechanics.ceiling import ceiling_over
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.wall import Component, Wall
from sheets.tables.read import Cited

NAME = "case-fit"
GEOMETRY = Cited("computed from the sizes of the room and the work", "computed")

EXPLAIN = """\
Reads each case, the mantel and the panelling above it against the side walls and the ceiling above them
(under a vault, the arc over their outermost corner), and the cases against each other. What is wider than
the wall, higher than its ceiling or in its neighbour's place is an error.
Source: geometry alone."""


def _judge(wall: Wall) -> Outcome:
    work = ("stood up", "carried in")
    standing = [component for component in wall.components if component.kind.arrives in work]
    findings: list[Finding] = []
    measures: list[Measure] = []
    half = wall.room.width / 2
    for component in standing:
        box = component.extent
        over = max(-half - box.x0, box.x1 - half, Fraction(0))
        if over:
            findings.append(_wide(wall, component, over))
        ceiling = ceiling_over(wall, max(box.x0, -half), min(box.x1, half))
        if box.z1 > ceiling:
            findings.append(_high(wall, component, ceiling))
        if not component.twin:
            measures.append(
                Measure(
                    f"{component.name.lower()} under the ceiling",
                    length(wall, box.z1),
                    f"{length(wall, Fraction(int(ceiling / wall.grid)) * wall.grid)}",
                    "within limit" if box.z1 <= ceiling else "beyond limit",
                    GEOMETRY,
                )
            )
    cases = sorted(
        ((c, carcass_extent(wall, c)) for c in standing if c.kind.arrives == "stood up"),
        key=lambda c: (c[1].x0, c[0].key),
    )
    for (one, body), (other, next_body) in pairwise(cases):
        shared = body.x1 - next_body.x0
        if shared > 0 and body.z1 > next_body.z0 and next_body.z1 > body.z0:
            findings.append(
                about(
                    NAME,
                    "error",
                    f"{one.name.lower()} and {other.name.lower()} overlap by {length(wall, shared)}",
                    one,
                    other,
                    cure=f"would do {length(wall, shared)} narrower in all",
                    cited=GEOMETRY,
                    made_from=decided(one, "x"),
                )
            )
    return Outcome(len(standing), tuple(findings), tuple(measures))


def _wide(wall: Wall, component: Component, over: Fraction) -> Finding:
    return about(
        NAME,
        "error",
        f"{component.name.lower()} is {length(wall, component.extent.size('x'))} wide over all and passes "
        f"the side wall by {length(wall, over)}; the wall is {length(wall, wall.room.width)}",
        component,
        cure=f"would do {length(wall, over)} narrower",
        cited=GEOMETRY,
        made_from=decided(component, "x"),
    )


def _high(wall: Wall, component: Component, ceiling: Fraction) -> Finding:
    fits = Fraction(int(ceiling / wall.grid)) * wall.grid
    return about(
        NAME,
        "error",
        f"{component.name.lower()} is {length(wall, component.extent.z1)} high; the ceiling above it is "
        f"{length(wall, fits)}",
        component,
        cure=f"would do at {length(wall, fits)}",
        cited=GEOMETRY,
        made_from=decided(component, "z"),
    )


RULE = Rule(NAME, "Cases within wall and ceiling", "fit", 20, _judge, EXPLAIN)
