"""The weight of each assembly as it is carried in."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import cases_as_moved, parts_of, weight_of
from sheets.checks.mechanics.decided_at import decided, material
from sheets.checks.wording import KG_PER_LB, WHAT_IS_UNKNOWN, weight
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited

NAME = "weights"

EXPLAIN = """\
Reads the volume of each shop-made piece, joints cut, and its material: wood at 12 % moisture content
(specific gravity x 1.12), panels by density. An assembly of more than 150 lb is more than two people
carry: a warning. A piece whose material no table knows is named and not weighed.
Sources: Wood Handbook tables 5-3b and 5-5b; densities of panels, and what people carry, are common
practice, from memory."""


def _judge(wall: Wall) -> Outcome:
    one, two = figure("stability", "carried by one person"), figure("stability", "carried by two people")
    assemblies = _assemblies(wall)
    most = float(two.value) * KG_PER_LB
    findings: list[Finding] = []
    measures: list[Measure] = []
    for component, parts in assemblies:
        kg, unknown = weight_of(parts)
        name, pounds = component.name.lower(), kg / KG_PER_LB
        if unknown:
            named = ", ".join(dict.fromkeys(part.material.name for part in unknown))
            findings.append(
                about(
                    NAME,
                    "note",
                    f"{name} is weighed without {len(unknown)} pieces of {named}, whose weight no table has",
                    component,
                    *unknown,
                    cure=WHAT_IS_UNKNOWN,
                    cited=Cited("no table", "confirmed"),
                    made_from=material(unknown[0]),
                )
            )
        if pounds > two.value:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{name} weighs {weight(wall, kg, beside=most)} as assembled; two people carry "
                    f"{weight(wall, most)}",
                    component,
                    cure="build it in two, leave backer and shelves to be fitted on site, or plan for "
                    "lifting gear",
                    cited=two.cited,
                    made_from=decided(component, "x"),
                )
            )
        if not component.twin:
            who = (
                "one person"
                if pounds <= one.value
                else "two people"
                if pounds <= two.value
                else "more than two people"
            )
            measures.append(
                Measure(
                    f"{name}, as carried in",
                    weight(wall, kg),
                    f"carried by {who}",
                    "within limit" if pounds <= two.value else "to judge",
                    two.cited,
                )
            )
    return Outcome(len(assemblies), tuple(findings), tuple(measures))


def _assemblies(wall: Wall) -> tuple[tuple[Component, tuple[Part, ...]], ...]:
    cases = tuple((case.component, case.parts) for case in cases_as_moved(wall))
    others = tuple(
        (component, parts)
        for component in wall.components
        if component.kind.arrives == "carried in" and (parts := parts_of(wall, component))
    )
    return cases + others


RULE = Rule(NAME, "Weight as carried", "stability", 30, _judge, EXPLAIN)
