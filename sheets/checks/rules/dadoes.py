"""Dadoes: how deep they go and how near an end they are."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.touching import let_into
from sheets.checks.wording import called, length
from sheets.model.part import Joint, Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "dadoes"

EXPLAIN = """\
Reads each dado and rabbet: its depth against the thickness of the piece it is cut in, and its distance
from the end of that piece. A third of the thickness is usual; deeper than half is an error. Dadoes that
meet back to back in one thickness count together: more than half is a warning, less than 3/16 in left
between them an error. Less than 3/8 in of wood between a dado and the end breaks out: a warning.
Source: trade practice (dado depth); the wood left is from memory."""

_KINDS = ("dado", "rabbet")


def _judge(wall: Wall) -> Outcome:
    cut = [
        (part, joint)
        for part in wall.parts
        if part.maker == "shop"
        for joint in part.joints
        if joint.kind in _KINDS and joint.depth is not None
    ]
    findings = [finding for part, joint in cut for finding in _depth(wall, part, joint)]
    for part in dict.fromkeys(part for part, _ in cut):
        mates = let_into(wall, part)
        findings += [finding for mate, _ in mates for finding in _edge(wall, part, mate)]
        findings += _back_to_back(wall, part, mates)
    most = figure("joinery", "dado depth most")
    seen: dict[tuple[object, ...], Measure] = {}
    for part, joint in cut:
        depth = joint.depth or Fraction(0)
        seen.setdefault(
            (part.role, part.thickness, joint.kind, depth),
            Measure(
                f"{joint.kind} in {called(part)}",
                f"{length(wall, depth)} of {length(wall, part.thickness)}",
                "half the thickness",
                "within limit" if depth <= part.thickness * most.value else "beyond limit",
                most.cited,
            ),
        )
    return Outcome(len(cut), tuple(findings), tuple(seen.values()))


def _depth(wall: Wall, part: Part, joint: Joint) -> tuple[Finding, ...]:
    depth, most = joint.depth or Fraction(0), figure("joinery", "dado depth most")
    usual = figure("joinery", "dado depth usual")
    if depth <= part.thickness * most.value:
        return ()
    return (
        about(
            NAME,
            "error",
            f"the {joint.kind} in {called(part)} is {length(wall, depth)} deep in "
            f"{length(wall, part.thickness)}: more than half",
            part,
            cure=f"would do at {length(wall, part.thickness * most.value)}; about a third, "
            f"{length(wall, _in_16ths(wall, part.thickness * usual.value))}, is usual",
            cited=most.cited,
            made_from=decided(part, "housing"),
        ),
    )


def _edge(wall: Wall, part: Part, mate: Part) -> tuple[Finding, ...]:
    least = figure("joinery", "edge distance of a dado")
    axis = part.length_axis
    if mate.thickness_axis != axis:
        return ()
    low, high = part.extent.span(axis)
    near = min(mate.extent.span(axis)[0] - low, high - mate.extent.span(axis)[1])
    if near <= 0 or near >= least.value:
        return ()
    return (
        about(
            NAME,
            "warning",
            f"the dado for {called(mate)} leaves {length(wall, near)} to the end of {called(part)}; "
            f"{length(wall, least.value)} is the least",
            part,
            mate,
            cure=f"would do {length(wall, least.value - near)} farther in, or as a rabbet at the end",
            cited=least.cited,
            made_from=decided(mate, "top", axis),
        ),
    )


def _back_to_back(wall: Wall, part: Part, mates: tuple[tuple[Part, Fraction], ...]) -> tuple[Finding, ...]:
    """Dadoes from both faces at one height take from the same thickness."""
    most = figure("joinery", "dado depth most")
    middle = part.extent.middle(part.thickness_axis)
    findings = []
    for count, (mate, depth) in enumerate(mates):
        for across, other_depth in mates[count + 1 :]:
            sides = {m.extent.middle(part.thickness_axis) < middle for m in (mate, across)}
            total = depth + other_depth
            if len(sides) == 2 and _meet(part, mate, across) and total > part.thickness * most.value:
                left = part.thickness - total
                findings.append(
                    about(
                        NAME,
                        "error" if left < figure("joinery", "wood left between dadoes").value else "warning",
                        f"dadoes from both faces of {called(part)} meet and take {length(wall, total)} of "
                        f"{length(wall, part.thickness)}",
                        part,
                        mate,
                        across,
                        cure=f"would do {length(wall, part.thickness * most.value / 2)} deep each, or at "
                        "unlike heights",
                        cited=most.cited,
                        made_from=decided(part, "housing"),
                    )
                )
    return tuple(findings)


def _meet(part: Part, one: Part, other: Part) -> bool:
    axis = part.length_axis
    (a, b), (c, d) = one.extent.span(axis), other.extent.span(axis)
    return a < d and c < b


def _in_16ths(wall: Wall, value: Fraction) -> Fraction:
    return round(value / wall.grid) * wall.grid


RULE = Rule(NAME, "Dadoes and rabbets", "stock", 30, _judge, EXPLAIN)
