"""Saw cuts along a face: the wood left behind them and between them."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.wording import called, length
from sheets.model.part import Joint, Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "saw-cuts"

EXPLAIN = """\
Reads each saw cut: its depth against the thickness of the piece, its width and count against the face it
divides.
Limits: no deeper than half the thickness; at least 1/8 in of wood left behind it (else an error); at
least 1/4 in of face between cuts and beside them; no narrower than 1/8 in, or paint bridges it and the
eye sees every unevenness.
Source: trade practice; the amounts of wood left are from memory."""


def _judge(wall: Wall) -> Outcome:
    cut = [
        (part, joint)
        for part in wall.parts
        if part.maker == "shop"
        for joint in part.joints
        if joint.kind == "saw cut"
    ]
    findings = [finding for part, joint in cut for finding in _findings(wall, part, joint)]
    left = figure("joinery", "wood left at a saw cut")
    measures = tuple(
        Measure(
            f"{called(part)}, saw cut {length(wall, joint.depth or Fraction(0))} deep",
            f"{length(wall, into(part) - (joint.depth or 0))} left of {length(wall, into(part))}",
            f"half the thickness, and {length(wall, left.value)}",
            "within limit" if not _findings(wall, part, joint) else "to judge",
            left.cited,
        )
        for part, joint in cut
        if not part.twin
    )
    return Outcome(len(cut), tuple(findings), measures)


def _findings(wall: Wall, part: Part, joint: Joint) -> tuple[Finding, ...]:
    return (*_depth(wall, part, joint), *_bands(wall, part, joint), *_width(wall, part, joint))


def _depth(wall: Wall, part: Part, joint: Joint) -> tuple[Finding, ...]:
    depth, thickness = joint.depth or Fraction(0), into(part)
    left, most = figure("joinery", "wood left at a saw cut"), figure("joinery", "dado depth most")
    said = f"the saw cut in {called(part)} is {length(wall, depth)} deep in {length(wall, thickness)}"
    if thickness - depth < left.value:
        return (
            about(
                NAME,
                "error",
                f"{said}: {length(wall, max(thickness - depth, Fraction(0)))} is left, "
                f"{length(wall, left.value)} wanted",
                part,
                cure=f"would do {length(wall, min(thickness - left.value, thickness * most.value))} deep, "
                f"or in a piece {length(wall, max(depth + left.value, 2 * depth))} thick",
                cited=left.cited,
                word=("saw_cuts", "depth"),
            ),
        )
    if depth > thickness * most.value:
        return (
            about(
                NAME,
                "warning",
                f"{said}: more than half",
                part,
                cure=f"would do {length(wall, thickness * most.value)} deep, or in a piece "
                f"{length(wall, 2 * depth)} thick",
                cited=most.cited,
                word=("saw_cuts", "depth"),
            ),
        )
    return ()


def _bands(wall: Wall, part: Part, joint: Joint) -> tuple[Finding, ...]:
    width, least = joint.width or Fraction(0), figure("joinery", "wood left beside a saw cut")
    face = _face(part)
    band = (face - joint.count * width) / (joint.count + 1)
    if band >= least.value:
        return ()
    fits = int((face - least.value) / (width + least.value))
    return (
        about(
            NAME,
            "warning",
            f"{joint.count} saw cuts divide the {length(wall, face)} face of {called(part)} into bands of "
            f"{length(wall, max(band, Fraction(0)))}; {length(wall, least.value)} is the least",
            part,
            cure=f"would do with {fits} cuts" if fits else "would do without the cuts",
            cited=least.cited,
            word=("saw_cuts", "count"),
        ),
    )


def into(part: Part) -> Fraction:
    """Return the size of the wood that the cut goes into, mm: level, and square to the run of the piece."""
    if part.length_axis == "z":
        return part.thickness
    return part.extent.size("y" if part.length_axis == "x" else "x")


def _face(part: Part) -> Fraction:
    """The face that cuts along the length divide: the upright one, on the edge of a cap and the width of a
    fascia.
    """
    return part.extent.size("z") if part.length_axis != "z" else part.width


def _width(wall: Wall, part: Part, joint: Joint) -> tuple[Finding, ...]:
    least = figure("joinery", "least reveal")
    # 3 mm is what a full-kerf blade cuts on metric drawings, and stands for 1/8 in there.
    if joint.width is None or joint.width >= min(least.value, Fraction(3)):
        return ()
    return (
        about(
            NAME,
            "warning",
            f"the saw cut in {called(part)} is {length(wall, joint.width)} wide; paint bridges a narrower "
            f"cut than {length(wall, least.value)}",
            part,
            cure=f"would do {length(wall, least.value)} wide",
            cited=least.cited,
            word=("saw_cuts", "width"),
        ),
    )


RULE = Rule(NAME, "Saw cuts", "stock", 20, _judge, EXPLAIN)
