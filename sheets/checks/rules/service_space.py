"""What the service of a listed appliance needs, left free; and screens and pictures over a fireplace."""

from __future__ import annotations

from dataclasses import replace

from sheets.base.length import inch
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.fireside import CAUTIONS, block_of, extents
from sheets.checks.mechanics.manual import MANUAL, by_manual, silent
from sheets.checks.mechanics.touching import overlap
from sheets.checks.wording import called, length
from sheets.model.part import Extent, Part
from sheets.model.wall import Opening, Wall

NAME = "service-space"
_ASKED_WITHIN = inch(12)

EXPLAIN = """\
Reads the space that the appliance's manual wants left free for service, as the user copied it (so far out
of the face, beyond the sides of the opening and above it), and every piece of the shop's, block by block,
of any material: a piece in that space is an error, for the appliance must be opened, cleaned and taken
out. Where the copy does not say it, the pieces within 12 in of the opening that stand out of the face are
named in a warning.
Source: the manual that comes with the appliance."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or not by_manual(wall, opening):
        return Outcome(0)
    shop = [part for part in wall.parts if part.maker == "shop"]
    service = opening.manual.service
    if service is None:
        near = [
            part
            for part in shop
            if any(
                block.projection > 0 and block.distance <= _ASKED_WITHIN
                for block in (block_of(box, opening) for box in extents(part.solid, wall.grid))
            )
        ]
        cure = "copy it from the manual into listing.service.depth"
        return Outcome(
            len(shop) + 1, silent(opening, NAME, "service", "what space service needs", near, cure=cure)
        )
    hole = opening.extent
    space = Extent(
        hole.x0 - service.beside,
        hole.x1 + service.beside,
        hole.y1,
        hole.y1 + service.depth,
        hole.z0,
        hole.z1 + service.above,
    )
    inside = [part for part in shop if any(overlap(box, space) for box in extents(part.solid, wall.grid))]
    measures = (
        Measure(
            "space for service",
            f"{length(wall, service.depth)} deep, {length(wall, service.beside)} beyond each side, "
            f"{length(wall, service.above)} above",
            "nothing of the shop's in it",
            "beyond limit" if inside else "within limit",
            MANUAL,
        ),
    )
    return Outcome(len(shop) + 1, tuple(_finding(part, opening) for part in inside), measures)


def _finding(part: Part, opening: Opening) -> Finding:
    place = decided(part, "off_fire")
    return about(
        NAME,
        "error",
        f"{called(part)} stands in the space that service of the appliance needs",
        part,
        cure="would do outside that space",
        cited=MANUAL,
        made_from=place
        if place.path
        else replace(opening.made_from, path=("fireplace", "listing", "service")),
    )


RULE = Rule(NAME, "Space for service of a listed appliance", "clearance", 60, _judge, EXPLAIN, CAUTIONS)
