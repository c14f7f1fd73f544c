"""Combustible work beside and above a masonry fireplace opening."""

from __future__ import annotations

from fractions import Fraction

from sheets.base.length import inch
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.fireside import CAUTIONS, combustible_parts, distance_to_opening, projection_of
from sheets.checks.mechanics.fireside_picture import clearance_picture
from sheets.checks.wording import called, fine, length, on_grid
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall
from sheets.tables.figures import figure

NAME = "masonry-clearance"

EXPLAIN = """\
Reads the opening and every combustible piece in front of the wall: wood, panels, gypsum and fire-rated
boards alike. Distance is the shortest way in elevation from the opening to the box around the piece;
projection is from the finished face beside the opening (the facing when there is one).
Limits: nothing combustible nearer than 6 in; within 12 in, no more projection than 1/8 in for each inch
of distance, so 3/4 in at 6 in, 1 in at 8 in, 1 1/4 in at 10 in, 1 1/2 in at 12 in. Above and beside
alike.
Source: IRC R1001.11, exception 4. For masonry fireplaces alone: a listed appliance goes by its own
manual."""


def allowed_projection(distance: Fraction) -> Fraction | None:
    """Return the most that combustibles may project at a distance from the opening, mm; None: no limit there.

    Source: IRC R1001.11, exception 4. Below the distance where nothing combustible may be, the answer is 0.
    """
    if distance < figure("fireplace", "no combustibles within").value:
        return Fraction(0)
    if distance > figure("fireplace", "projection limited within").value:
        return None
    return distance / inch(1) * figure("fireplace", "projection per inch").value


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or opening.appliance != "masonry":
        return Outcome(0)
    parts = combustible_parts(wall)
    near = [part for part in parts if allowed_projection(distance_to_opening(part, opening)) is not None]
    findings = [found for part in near if (found := _finding(wall, part, opening)) is not None]
    shown = near or sorted(parts, key=lambda part: distance_to_opening(part, opening))[:1]
    measures = tuple(_measure(wall, part, opening) for part in shown if not part.twin)
    return Outcome(len(parts), tuple(findings), measures, (clearance_picture(wall, opening, parts),))


def _finding(wall: Wall, part: Part, opening: Opening) -> Finding | None:
    distance, projection = distance_to_opening(part, opening), projection_of(part, opening)
    allowed = allowed_projection(distance)
    nearest = figure("fireplace", "no combustibles within")
    if allowed is None:
        return None
    if distance < nearest.value:
        return about(
            NAME,
            "error",
            f"{called(part)} is combustible and {length(wall, distance)} from the opening; nothing "
            f"combustible may be within {length(wall, nearest.value)}",
            part,
            cure=f"would do at {_distance_that_passes(wall, projection)} from the opening",
            cited=nearest.cited,
            made_from=decided(part, "off_fire"),
        )
    if projection <= allowed:
        return None
    return about(
        NAME,
        "error",
        f"{called(part)} projects {length(wall, projection)} at {length(wall, distance)} from the opening; "
        f"{fine(wall, allowed)} is the most there",
        part,
        cure=f"would do at a projection of {on_grid(wall, allowed, 'down')}, or at "
        f"{_distance_that_passes(wall, projection)} from the opening",
        cited=figure("fireplace", "projection per inch").cited,
        made_from=decided(part, "off_fire"),
    )


def _distance_that_passes(wall: Wall, projection: Fraction) -> str:
    nearest = figure("fireplace", "no combustibles within").value
    farthest = figure("fireplace", "projection limited within").value
    wanted = projection / figure("fireplace", "projection per inch").value * inch(1)
    if wanted > farthest:
        return f"more than {length(wall, farthest)}"
    return f"{on_grid(wall, max(nearest, wanted), 'up')} or more"


def _measure(wall: Wall, part: Part, opening: Opening) -> Measure:
    distance, projection = distance_to_opening(part, opening), projection_of(part, opening)
    allowed = allowed_projection(distance)
    return Measure(
        called(part),
        f"projects {length(wall, projection)} at {length(wall, distance)}",
        "no limit at this distance" if allowed is None else f"{fine(wall, allowed)} at most",
        "within limit" if allowed is None or (projection <= allowed and allowed > 0) else "beyond limit",
        figure("fireplace", "projection per inch").cited,
    )


RULE = Rule(NAME, "Combustibles at a masonry opening", "clearance", _judge, EXPLAIN, CAUTIONS)
