"""Sawn curves: where the grain runs out, and how much wood is left at the narrowest."""

from __future__ import annotations

from fractions import Fraction
from math import tan

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import called, fine, length
from sheets.geometry.path import arc_angle
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "short-grain"

EXPLAIN = """\
Reads each piece of solid wood with a curve sawn in it. At the ends of an arc the saw leaves the grain by
half the arc's angle; where that is steeper than 1 in 4 the wood breaks along the grain: a warning, and
steeper than 1 in 2 an error. Over the crown of an arch at least one and a half times the thickness stays
as width: else a warning.
Source: common practice, from memory. Panels have no short grain and are not judged."""


def run_out(chord: float, rise: float) -> float:
    """Return the slope at which an arc leaves its chord at the ends, rise over run."""
    return tan(arc_angle(chord, rise) / 2)


def _judge(wall: Wall) -> Outcome:
    sawn = [
        part
        for part in wall.parts
        if part.maker == "shop"
        and part.curve is not None
        and part.curve.rise > 0
        and part.material.kind == "wood"
        and part.bend is None
    ]
    findings: list[Finding] = []
    measures: list[Measure] = []
    most = figure("joinery", "grain run-out most")
    for part in sawn:
        assert part.curve is not None
        slope = run_out(float(part.curve.chord), float(part.curve.rise))
        findings += [*_slope(wall, part, slope), *_crown(wall, part)]
        if not part.twin:
            measures.append(
                Measure(
                    f"{called(part)}, sawn curve",
                    f"leaves the grain 1 in {1 / slope:.1f}",
                    f"1 in {float(1 / most.value):.0f}",
                    "within limit" if slope <= float(most.value) else "to judge",
                    most.cited,
                )
            )
    return Outcome(len(sawn), tuple(findings), tuple(measures))


def _slope(wall: Wall, part: Part, slope: float) -> tuple[Finding, ...]:
    assert part.curve is not None
    most = figure("joinery", "grain run-out most")
    if slope <= float(most.value):
        return ()
    # The slope of a shallow arc is 4 rise / chord over 1 - 4 rise^2 / chord^2: solved for the rise.
    chord, limit = float(part.curve.chord), float(most.value)
    rise = chord / 2 * ((1 + limit * limit) ** 0.5 - 1) / limit
    return (
        about(
            NAME,
            "error" if slope > 2 * limit else "warning",
            f"the curve of {called(part)} leaves the grain 1 in {1 / slope:.1f} at its ends; steeper than 1 "
            f"in {1 / limit:.0f} breaks along the grain",
            part,
            cure=f"would do with a rise of {fine(wall, rise)}, or built of two pieces with the grain "
            "turned, or laminated",
            cited=most.cited,
            made_from=decided(part, "curve"),
        ),
    )


def _crown(wall: Wall, part: Part) -> tuple[Finding, ...]:
    """An arch cut from the underside leaves its width less the rise over the crown."""
    assert part.curve is not None
    if part.curve.edge != "underside":
        return ()
    least = figure("joinery", "short grain least")
    left, wanted = part.width - part.curve.rise, part.thickness * least.value
    if left >= wanted:
        return ()
    return (
        about(
            NAME,
            "warning",
            f"{called(part)} has {length(wall, max(left, Fraction(0)))} of wood over its crown; "
            f"{length(wall, wanted)} is the least in this thickness",
            part,
            cure=f"would do {length(wall, wanted - left)} wider, or with that much less rise",
            cited=least.cited,
            made_from=decided(part, "width"),
        ),
    )


RULE = Rule(NAME, "Short grain in sawn curves", "curves", 20, _judge, EXPLAIN)
