"""Pieces that would take the same space."""

from __future__ import annotations

from sheets.base.tolerance import SAME_VOLUME
from sheets.checks.finding import Finding, Outcome, Rule, about
from sheets.checks.mechanics.touching import overlap
from sheets.checks.wording import called, fine
from sheets.geometry.contact import intersection_volume
from sheets.model.part import AXES, Part
from sheets.model.wall import Wall
from sheets.tables.read import Cited

NAME = "collisions"
SOLIDS = Cited("computed from the solids of both pieces, joints cut", "computed")

EXPLAIN = """\
Reads the solid of each piece, with its joints cut, and looks for two that fill the same space. Anything
above the tolerance of arithmetic (1 mm3) is an error: what is let in has its dado, what passes has its
notch.
Source: geometry alone."""


def _judge(wall: Wall) -> Outcome:
    parts = sorted(wall.parts, key=lambda part: (part.extent.x0, part.key))
    findings: list[Finding] = []
    for count, part in enumerate(parts):
        for other in parts[count + 1 :]:
            if other.extent.x0 >= part.extent.x1:
                break
            if "shop" not in (part.maker, other.maker) or not overlap(part.extent, other.extent):
                continue
            shared = intersection_volume(part.solid, other.solid)
            if shared > SAME_VOLUME:
                findings.append(_collision(wall, part, other))
    return Outcome(len(parts), tuple(sorted(findings, key=lambda found: found.subjects)))


def _collision(wall: Wall, part: Part, other: Part) -> Finding:
    first, second = (part, other) if part.maker == "shop" else (other, part)
    overlaps = {
        axis: min(part.extent.span(axis)[1], other.extent.span(axis)[1])
        - max(part.extent.span(axis)[0], other.extent.span(axis)[0])
        for axis in AXES
    }
    axis = min(AXES, key=lambda each: overlaps[each])
    way = {"x": "along the wall", "y": "out of the wall", "z": "in height"}[axis]
    return about(
        NAME,
        "error",
        f"{called(first)} and {called(second)} fill the same space, {fine(wall, overlaps[axis])} {way}",
        first,
        second,
        cure=f"would do {fine(wall, overlaps[axis])} apart, or with one let into the other",
        cited=SOLIDS,
    )


RULE = Rule(NAME, "Pieces that collide", "fit", 10, _judge, EXPLAIN)
