"""The opening and its appliance left free: nothing of ours in front of them, the facing wide enough."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import called, fine, length
from sheets.model.part import Extent, Part
from sheets.model.wall import Opening, Wall
from sheets.tables.read import Cited

NAME = "opening-free"
GEOMETRY = Cited("computed from the opening, the appliance's trim and the pieces about them", "computed")

EXPLAIN = """\
Reads the opening, the appliance's trim when one is drawn, and every piece of the shop's in front of the
wall. A piece that covers part of the opening or of the trim is an error: the appliance must be seen,
served and taken out. The trim must lie on the facing all round, where there is facing.
Source: geometry; the appliance's manual says what else must stay clear."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None:
        return Outcome(0)
    trim = [part for part in wall.parts if part.does.fire == "trim"]
    findings: list[Finding] = []
    for part in wall.parts:
        if part.maker != "shop" or part.extent.y1 <= 0:
            continue
        findings += _covers(wall, part, opening.extent, "the opening", opening)
        for frame in trim:
            findings += _covers(wall, part, frame.extent, "the appliance's trim", opening)
    measures = (
        Measure(
            "opening",
            f"{length(wall, opening.extent.size('x'))} by {length(wall, opening.extent.size('z'))}",
            "nothing in front of it",
            "beyond limit" if findings else "within limit",
            GEOMETRY,
        ),
    )
    return Outcome(1 + len(trim), tuple(findings), measures)


def _covers(wall: Wall, part: Part, hole: Extent, what: str, opening: Opening) -> tuple[Finding, ...]:
    across = min(part.extent.x1, hole.x1) - max(part.extent.x0, hole.x0)
    upright = min(part.extent.z1, hole.z1) - max(part.extent.z0, hole.z0)
    if across <= 0 or upright <= 0 or (part.curve is not None and upright <= part.curve.rise):
        return ()
    return (
        about(
            NAME,
            "error",
            f"{called(part)} covers {what} by {fine(wall, min(across, upright))}",
            part,
            cure=f"would do {fine(wall, min(across, upright))} farther away",
            cited=GEOMETRY,
            made_from=decided(part, "off_fire"),
        ),
    )


RULE = Rule(NAME, "Opening and appliance left free", "clearance", 70, _judge, EXPLAIN)
