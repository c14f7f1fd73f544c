"""Mitred corners of solid pieces: how far they open as the wood dries."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import across_the_grain, decided
from sheets.checks.mechanics.moisture import moisture_in_use
from sheets.checks.mechanics.movement import is_solid, movement, swing_words
from sheets.checks.wording import called, fine, length, on_grid
from sheets.model.part import Axis, Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure
from sheets.tables.read import together

NAME = "mitres"

EXPLAIN = """\
Reads each solid piece with a mitre. Wood shrinks in width, not in length, so a mitre cut at 45 degrees
turns: by half the change of width over the width, on each side. The corner opens by the square root of 2
times the change of width.
Limit: 1/32 in, a gap that the eye sees.
Sources: derived from the Wood Handbook's movement (chapter 13); the limit is common practice, from
memory."""


def mitre_gap(change_of_width: float) -> float:
    """Return how far a 45 degree mitre of two like pieces opens when both change width by so much, mm."""
    return sqrt(2) * change_of_width


def _judge(wall: Wall) -> Outcome:
    moisture = moisture_in_use(wall)
    limit = figure("joinery", "gap the eye sees")
    findings: list[Finding] = []
    measures: list[Measure] = []
    looked_at = 0
    for part in wall.parts:
        # An upright piece is mitred along its grain: its mitre keeps its angle, and only its width changes.
        if (
            not is_solid(part)
            or part.length_axis == "z"
            or not any(joint.kind == "mitre" for joint in part.joints)
        ):
            continue
        looked_at += 1
        axis = _axis_in_plan(part)
        size = part.extent.size(axis)
        moved = movement(part, size, axis, moisture)
        if moved is None:
            continue
        gap = mitre_gap(moved.shrinks)
        passes = gap <= float(limit.value)
        if not part.twin:
            measures.append(
                Measure(
                    f"{called(part)}, mitre {length(wall, size)} wide",
                    f"opens {fine(wall, gap)}",
                    fine(wall, limit.value),
                    "within limit" if passes else "to judge",
                    together(limit.cited, moved.cited),
                )
            )
        if not passes:
            widest = Fraction(float(size) * float(limit.value) / gap)
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"the mitre of {called(part)}, {length(wall, size)} wide, opens {fine(wall, gap)} at "
                    f"{swing_words(moisture)}; {fine(wall, limit.value)} is seen",
                    part,
                    cure=f"would do up to {on_grid(wall, widest, 'down')} wide, or with a square return, "
                    "or splined and glued so that it opens at the heel unseen",
                    cited=together(limit.cited, moved.cited),
                    made_from=across_the_grain(part)
                    if axis == part.width_axis
                    else decided(part, "thickness"),
                )
            )
    return Outcome(looked_at, tuple(findings), tuple(measures))


def _axis_in_plan(part: Part) -> Axis:
    """The axis across the grain that a mitre at the end of a level piece crosses: corners of a wall turn in
    plan.
    """
    return "y" if part.length_axis == "x" else "x"


RULE = Rule(NAME, "Mitred returns", "movement", 30, _judge, EXPLAIN)
