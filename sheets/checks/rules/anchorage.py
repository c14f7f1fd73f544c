"""What each case is fixed to the wall by: a rail high up, and studs behind it."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import carcass_extent, parts_of
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.tables.figures import figure

NAME = "anchorage"

CAUTIONS = (
    "Studs are found and verified on site; what the wall is made of governs the fastener. Others size what "
    "carries load.",
    "No case is loaded, climbed on or left alone before it is fixed.",
)

EXPLAIN = """\
Reads the rails at the wall of each case and the studs that its width is sure to cover: width over stud
spacing, cut to a whole number (16 in on centre unless the spec says otherwise). A case taller than 27 in
wants a rail to screw through in its upper third: none is a warning. Fewer than two sure studs: a
warning, with blocking between studs as the cure.
Sources: IRC R602.3(5) for stud spacing, from memory; two points in the upper third is common practice,
from memory."""


def sure_studs(width: Fraction, spacing: Fraction) -> int:
    """Return how many studs a width covers wherever it stands."""
    return floor(width / spacing)


def rails_high_up(wall: Wall, component: Component) -> tuple[Part, ...]:
    """Return the pieces at the wall that anchor it, whose middle is in the upper third of a component."""
    box = component.extent
    third = box.z0 + box.size("z") * figure("stability", "anchors above").value
    return tuple(
        part
        for part in parts_of(wall, component)
        if part.extent.y0 <= 0 and part.extent.middle("z") >= third and part.does.anchors
    )


def _judge(wall: Wall) -> Outcome:
    spacing = wall.settings.checks.stud_spacing
    tall, wanted = figure("stability", "tall from"), figure("stability", "studs at least")
    above = figure("stability", "anchors above")
    cases = [c for c in wall.components if c.kind.arrives == "stood up" and c.extent.size("z") >= tall.value]
    findings: list[Finding] = []
    measures: list[Measure] = []
    for case in cases:
        width, rails = carcass_extent(wall, case).size("x"), rails_high_up(wall, case)
        studs = sure_studs(width, spacing)
        if not rails:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{case.name.lower()}, {length(wall, case.extent.size('z'))} high, has no rail to screw "
                    "to the wall in its upper third",
                    case,
                    cure="put a rail at the wall above "
                    f"{length(wall, round(case.extent.size('z') * above.value / wall.grid) * wall.grid)}",
                    cited=above.cited,
                    made_from=decided(case, "anchors"),
                )
            )
        if studs < wanted.value:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{case.name.lower()}, {length(wall, width)} wide, is sure of {studs} "
                    f"stud{'' if studs == 1 else 's'} at {length(wall, spacing)} on centre; "
                    f"{int(wanted.value)} are wanted",
                    case,
                    cure="set blocking between studs behind its top rail; "
                    f"{length(wall, wanted.value * spacing)} wide would be sure of {int(wanted.value)}",
                    cited=wanted.cited,
                    made_from=decided(case, "x"),
                )
            )
        if not case.twin:
            measures.append(
                Measure(
                    f"{case.name.lower()}, {length(wall, width)} wide",
                    f"{len(rails)} rails in the upper third, {studs} sure studs",
                    f"1 rail, {int(wanted.value)} studs",
                    "within limit" if rails and studs >= wanted.value else "to judge",
                    wanted.cited,
                )
            )
    return Outcome(len(cases), tuple(findings), tuple(measures))


RULE = Rule(NAME, "Fixing to the wall", "stability", 10, _judge, EXPLAIN, CAUTIONS)
