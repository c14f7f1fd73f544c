"""The mantel above a listed appliance, by the pairs that the user copied from its manual and nothing else."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.fireside import (
    CAUTIONS,
    combustible_parts,
    distance_to_opening,
    height_above,
    projection_of,
)
from sheets.checks.mechanics.fireside_picture import clearance_picture
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import ListingRow, Opening, Wall
from sheets.tables.read import Cited

NAME = "listed-clearance"
MANUAL = Cited("the appliance's manual, as copied by the user", "confirmed")

EXPLAIN = """\
Reads the pairs of projection and height above the opening that the user copied from the appliance's
manual, and every combustible piece above the opening. A piece is held against the next stricter row: the
least projection in the list that is not below its own. Between rows nothing is interpolated, beyond the
last row nothing is assumed, and without rows there is an error, because no general table holds for a
listed appliance. Projection is measured from the finished face beside the opening. What stands beside
the opening is not covered by such pairs: the nearest piece is named in a note, to be held against the
manual's distances to legs and side walls.
Source: the manual that comes with the appliance."""


def required_height(rows: tuple[ListingRow, ...], projection: Fraction) -> Fraction | None:
    """Return how far above the opening a projection must be, mm, by the next stricter row; None beyond the
    last.

    A row that asks more height for less projection than the one that applies is taken as well: the stricter
    governs.
    """
    covering = [row for row in rows if row.projection >= projection]
    if not covering:
        return None
    applies = min(row.projection for row in covering)
    return max(row.above for row in rows if row.projection <= applies)


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or not opening.appliance.startswith("listed"):
        return Outcome(0)
    if not opening.listing:
        return Outcome(
            1,
            (
                about(
                    NAME,
                    "error",
                    f"no clearances are given for the {opening.appliance} appliance; none can be assumed",
                    made_from=replace(opening.made_from, path=("fireplace", "listing")),
                    cited=MANUAL,
                    cure="copy each pair of projection and height above the opening from its manual into "
                    "the listing",
                ),
            ),
        )
    parts = [part for part in combustible_parts(wall) if _over(part, opening)]
    findings = [found for part in parts if (found := _finding(wall, opening, part)) is not None]
    findings += _beside(wall, opening)
    measures = tuple(_measure(wall, opening, part) for part in parts if not part.twin)
    return Outcome(len(parts), tuple(findings), measures, (clearance_picture(wall, opening, tuple(parts)),))


def _over(part: Part, opening: Opening) -> bool:
    """Whether the pairs hold for a part: it is in front of or above the opening, or above its top and no
    farther to the side than the greatest height that the pairs ask for.
    """
    hole, box = opening.extent, part.extent
    aside = max(hole.x0 - box.x1, box.x0 - hole.x1)
    if aside < 0:
        return box.z1 > hole.z0
    return box.z0 >= hole.z1 and aside <= max(row.above for row in opening.listing)


def _finding(wall: Wall, opening: Opening, part: Part) -> Finding | None:
    projection, above = projection_of(part, opening), height_above(part, opening)
    required = required_height(opening.listing, projection)
    if required is None:
        most = max(row.projection for row in opening.listing)
        return about(
            NAME,
            "error",
            f"{called(part)} projects {length(wall, projection)}; the manual's pairs end at "
            f"{length(wall, most)} and nothing is assumed beyond them",
            part,
            cure=f"would do at a projection of {_projection_that_passes(wall, opening, above)}, or with "
            "the manual's row for this projection",
            cited=MANUAL,
            made_from=decided(part, "front"),
        )
    if above >= required:
        return None
    return about(
        NAME,
        "error",
        f"{called(part)} projects {length(wall, projection)} and is {length(wall, above)} above the "
        f"opening; the manual's next stricter row wants {length(wall, required)}",
        part,
        cure=f"would do {length(wall, required - above)} higher, or at a projection of "
        f"{_projection_that_passes(wall, opening, above)}",
        cited=MANUAL,
        made_from=decided(part, "off_fire"),
    )


def _beside(wall: Wall, opening: Opening) -> tuple[Finding, ...]:
    """Pieces beside the opening: manuals have rows for legs and side walls, not held by these pairs."""
    hole = opening.extent
    standing = [
        part
        for part in combustible_parts(wall)
        if part.extent.y1 > hole.y1
        and part.extent.z0 < hole.z1
        and part.extent.z1 > hole.z0
        and (part.extent.x1 <= hole.x0 or part.extent.x0 >= hole.x1)
    ]
    if not standing:
        return ()
    nearest = min(standing, key=lambda part: (distance_to_opening(part, opening), part.key))
    return (
        about(
            NAME,
            "note",
            f"{called(nearest)} stands {length(wall, distance_to_opening(nearest, opening))} beside the "
            f"opening and projects {length(wall, projection_of(nearest, opening))}; the pairs copied say "
            "nothing of what stands beside it, so this was not judged",
            nearest,
            cure="hold it against the manual's own distances to legs, side walls and ceiling",
            cited=MANUAL,
        ),
    )


def _projection_that_passes(wall: Wall, opening: Opening, above: Fraction) -> str:
    good = [
        row.projection
        for row in opening.listing
        if (needed := required_height(opening.listing, row.projection)) is not None and needed <= above
    ]
    return f"{length(wall, max(good))} or less" if good else "no listed row (none is this low)"


def _measure(wall: Wall, opening: Opening, part: Part) -> Measure:
    projection, above = projection_of(part, opening), height_above(part, opening)
    required = required_height(opening.listing, projection)
    return Measure(
        called(part),
        f"projects {length(wall, projection)}, {length(wall, above)} above the opening",
        "beyond the manual's pairs" if required is None else f"{length(wall, required)} above at least",
        "within limit" if required is not None and above >= required else "beyond limit",
        MANUAL,
    )


RULE = Rule(NAME, "Mantel above a listed appliance", "clearance", _judge, EXPLAIN, CAUTIONS)
