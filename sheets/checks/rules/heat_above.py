"""A television, a picture or electronics above a fireplace."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.fireside import CAUTIONS
from sheets.checks.mechanics.manual import MANUAL, by_manual
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall
from sheets.tables.read import Cited

NAME = "heat-above"
ITS_MAKER = Cited("the maker of what hangs there, and the appliance's manual", "not seen")

EXPLAIN = """\
Reads what hangs above the fireplace and how high over the top of the opening it starts. The appliance's
manual says how high a television may hang, as the user copied it; lower is an error. Where the copy does
not say it, and above a masonry fireplace, for which no code says it, a warning names what hangs there:
heat and soot spoil screens and pictures that stand clear by every rule of fire, and the maker of the
screen gives the warmest air it bears.
Source: the manual that comes with the appliance."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    hung = [part for part in wall.parts if part.does.fire == "electronics"]
    if opening is None or not hung:
        return Outcome(0)
    wants = opening.manual.television if by_manual(wall, opening) else None
    heights = [(part, part.extent.z0 - opening.extent.z1) for part in hung]
    findings = [
        _finding(wall, opening, part, has, wants) for part, has in heights if wants is None or has < wants
    ]
    measures = tuple(
        Measure(
            called(part),
            f"{length(wall, has)} above the opening",
            "nothing copied says" if wants is None else f"{length(wall, wants)} at least",
            "to judge" if wants is None else "within limit" if has >= wants else "beyond limit",
            MANUAL if wants is not None else ITS_MAKER,
        )
        for part, has in heights
    )
    return Outcome(len(hung), tuple(findings), measures)


def _finding(wall: Wall, opening: Opening, part: Part, has: Fraction, wants: Fraction | None) -> Finding:
    if wants is None:
        return about(
            NAME,
            "warning",
            f"{called(part)} hangs {length(wall, has)} above the opening, and nothing copied says how "
            "high it must; its heat was not judged",
            part,
            made_from=replace(opening.made_from, path=("fireplace", "hung")),
            cure="ask the maker of what hangs there for the warmest air it bears, and copy the manual's "
            "height into listing.television.above where the appliance is listed",
            cited=ITS_MAKER,
        )
    return about(
        NAME,
        "error",
        f"{called(part)} hangs {length(wall, has)} above the opening; the manual wants {length(wall, wants)}",
        part,
        made_from=replace(opening.made_from, path=("fireplace", "hung", "bottom")),
        cure=f"would do {length(wall, wants - has)} higher",
        cited=MANUAL,
    )


RULE = Rule(NAME, "Heat on what hangs above", "clearance", 50, _judge, EXPLAIN, CAUTIONS)
