"""How little tips a case, or a mantel on its posts, that is not fixed."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import carried_as_moved, cases_as_moved, weight_of
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.rules.anchorage import CAUTIONS, rails_high_up
from sheets.checks.wording import KG_PER_LB, length, weight
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "tipping"

EXPLAIN = """\
Reads the weight, depth and height of each case as it stands empty and unfixed, and of a mantel that
stands on its posts, its depth that of its feet. It tips over its front edge under a pull at its top of
weight x half depth / height. The measure is a pull of 50 lb, a child hanging on a shelf. Every tall case
tips below that, so the number says why it is fixed first and filled later; what has nothing to fix it by
is a warning. Standards for tip-over cover clothing storage units of 27 in and up and leave bookcases and
built-ins out; their height is used here as a measure only.
Sources: statics; ASTM F2057-23 for the height; the pull is common practice, from memory."""


def pull_that_tips(kg: float, depth: Fraction, height: Fraction) -> float:
    """Return the level pull at the top that tips a case over its front edge, as kg of force."""
    return kg * float(depth) / 2 / float(height)


def _judge(wall: Wall) -> Outcome:
    tall, limit = figure("stability", "tall from"), figure("stability", "pull on an edge")
    standing = (*cases_as_moved(wall), *carried_as_moved(wall))
    cases = [case for case in standing if case.height >= tall.value]
    findings: list[Finding] = []
    measures: list[Measure] = []
    for case in cases:
        kg, unknown = weight_of(case.parts)
        if unknown or not kg:
            continue
        pull = pull_that_tips(kg, case.depth, case.height)
        tips = pull < float(limit.value) * KG_PER_LB
        name = case.component.name.lower()
        fixed = bool(rails_high_up(wall, case.component))
        if tips and not fixed:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{name} tips at a pull of {weight(wall, pull)} at its top ({weight(wall, kg)}, "
                    f"{length(wall, case.depth)} deep, {length(wall, case.height)} high) and nothing fixes "
                    "it to the wall",
                    case.component,
                    cure="fix it through a rail in its upper third into studs or blocking",
                    cited=limit.cited,
                    made_from=decided(case.component, "anchors"),
                )
            )
        if not case.component.twin:
            measures.append(
                Measure(
                    f"{name}, empty and unfixed",
                    f"tips at {weight(wall, pull)} of pull at its top",
                    f"{weight(wall, float(limit.value) * KG_PER_LB)} of pull",
                    "within limit" if not tips else "for information" if fixed else "to judge",
                    limit.cited,
                )
            )
    return Outcome(len(cases), tuple(findings), tuple(measures))


RULE = Rule(NAME, "Tipping of what is not fixed", "stability", 20, _judge, EXPLAIN, CAUTIONS)
