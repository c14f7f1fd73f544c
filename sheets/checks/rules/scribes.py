"""What is left between a case and a side wall to be scribed."""

from __future__ import annotations

from fractions import Fraction

from sheets.base.length import inch
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import parts_of
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.wall import Component, Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited

NAME = "scribes"
_STANDS_AT_A_WALL = inch(3)
"""A case nearer to a side wall than this is meant to meet it (common practice)."""

EXPLAIN = """\
Reads the space between the carcass of each case and the side wall that it stands at. It has to take the
lean of the wall: what the spec says the wall is out of plumb. More than 1 1/2 in is no scribe but a filler,
and is drawn as one.
Sources: Architectural Woodwork Standards 2009 for the most; the least is as measured."""


def _judge(wall: Wall) -> Outcome:
    wanted, most = wall.room.out_of_plumb, figure("joinery", "scribe most")
    cited = Cited("the lean of the wall as the spec gives it", "confirmed")
    findings: list[Finding] = []
    measures: list[Measure] = []
    gaps = _gaps(wall)
    for component, side, gap in gaps:
        name = component.name.lower()
        if gap < wanted:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{name} leaves {length(wall, gap)} to scribe at the {side} wall; the wall may lean "
                    f"{length(wall, wanted)}",
                    component,
                    cure=f"would do with a scribe of {length(wall, wanted)}",
                    cited=cited,
                    made_from=decided(component, "scribe", "x"),
                )
            )
        if gap > most.value:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{name} leaves {length(wall, gap)} at the {side} wall: {length(wall, most.value)} is "
                    "the widest scribe",
                    component,
                    cure=f"would do {length(wall, gap - most.value)} wider, or with a filler",
                    cited=most.cited,
                    made_from=decided(component, "scribe", "x"),
                )
            )
        measures.append(
            Measure(
                f"{name}, scribe at the {side} wall",
                length(wall, gap),
                f"{length(wall, wanted)} to {length(wall, most.value)}",
                "within limit" if wanted <= gap <= most.value else "to judge",
                cited,
            )
        )
    return Outcome(len(gaps), tuple(findings), tuple(measures))


def _gaps(wall: Wall) -> tuple[tuple[Component, str, Fraction], ...]:
    """Each case that stands at a side wall: the case, which wall, and the space left."""
    half, found = wall.room.width / 2, []
    for component in wall.components:
        sides = [part for part in parts_of(wall, component) if "end" in part.does.bounds]
        if not sides:
            continue
        left = min(part.extent.x0 for part in sides) + half
        right = half - max(part.extent.x1 for part in sides)
        found += [
            (component, side, gap)
            for side, gap in (("left", left), ("right", right))
            if Fraction(0) <= gap < _STANDS_AT_A_WALL
        ]
    return tuple(found)


RULE = Rule(NAME, "Scribes at the side walls", "fit", 30, _judge, EXPLAIN)
