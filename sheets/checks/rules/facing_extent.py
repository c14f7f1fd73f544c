"""The noncombustible facing that a listed appliance's manual wants around the opening."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.base.length import inch
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided, of_section
from sheets.checks.mechanics.fireside import CAUTIONS, Piece, burning, facing_parts, named
from sheets.checks.mechanics.manual import MANUAL
from sheets.checks.wording import called, length
from sheets.model.part import Extent, Part
from sheets.model.wall import Opening, Wall

NAME = "facing-extent"
_ASKED_WITHIN = inch(12)

EXPLAIN = """\
Reads the facing distances above and beside the opening that the user copied from the appliance's manual.
The noncombustible pieces that border the opening must reach that far, and no combustible piece may stand
on that zone. Gypsum board, fire-rated boards and fire-retardant wood are not counted as noncombustible.
Source: the manual that comes with the appliance."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or not opening.listed:
        return Outcome(0)
    manual = opening.manual
    if manual.facing_above is None and manual.facing_beside is None:
        near = [piece.part for piece in burning(wall, opening) if piece.nearest.distance <= _ASKED_WITHIN]
        return Outcome(1, _silent(opening, near))
    above, beside = manual.facing_above or Fraction(0), manual.facing_beside or Fraction(0)
    rows = _reaches(wall, opening, above, beside)
    findings = [_short(wall, opening, *row) for row in rows if row[1] < row[2]]
    zone = _zone(opening, above, beside)
    back = min((part.extent.y0 for part in facing_parts(wall)), default=opening.extent.y1)
    standing = [piece.part for piece in burning(wall, opening) if _on(piece, zone, back)]
    measures = tuple(
        Measure(
            f"facing {where}",
            length(wall, has),
            f"{length(wall, wanted)} at least",
            "within limit" if has >= wanted else "beyond limit",
            MANUAL,
        )
        for where, has, wanted in rows
    )
    return Outcome(len(rows), (*findings, *(_stands(wall, part) for part in standing)), measures)


def _silent(opening: Opening, near: list[Part]) -> tuple[Finding, ...]:
    return (
        about(
            NAME,
            "warning",
            f"no facing is given for the {opening.appliance} appliance and its manual may want some; near "
            f"the opening, not judged for that: {named(near) or 'nothing drawn'}",
            *near,
            made_from=replace(opening.made_from, path=("fireplace", "listing", "facing")),
            cited=MANUAL,
            cure="copy the manual's facing above and beside the opening, 0 where it wants none",
        ),
    )


def _reaches(
    wall: Wall, opening: Opening, above: Fraction, beside: Fraction
) -> tuple[tuple[str, Fraction, Fraction], ...]:
    facing, hole = facing_parts(wall), opening.extent
    none = Fraction(0)
    top = max((part.extent.z1 - hole.z1 for part in facing), default=none)
    left = max((hole.x0 - part.extent.x0 for part in facing), default=none)
    right = max((part.extent.x1 - hole.x1 for part in facing), default=none)
    return (
        ("above the opening", max(top, none), above),
        ("left of the opening", max(left, none), beside),
        ("right of the opening", max(right, none), beside),
    )


def _short(wall: Wall, opening: Opening, where: str, has: Fraction, wanted: Fraction) -> Finding:
    return about(
        NAME,
        "error",
        f"the noncombustible facing reaches {length(wall, has)} {where}; the manual wants "
        f"{length(wall, wanted)}",
        made_from=of_section(
            wall,
            "surround",
            "height" if where.startswith("above") else "width",
            otherwise=replace(opening.made_from, path=("fireplace",)),
        ),
        cure=f"would do {length(wall, wanted - has)} wider or higher there",
        cited=MANUAL,
    )


def _stands(wall: Wall, part: Part) -> Finding:
    return about(
        NAME,
        "error",
        f"{called(part)} is combustible and lies within the facing that the manual wants",
        part,
        cure="would do outside that facing",
        cited=MANUAL,
        made_from=decided(part, "off_fire"),
    )


def _zone(opening: Opening, above: Fraction, beside: Fraction) -> Extent:
    hole = opening.extent
    return Extent(hole.x0 - beside, hole.x1 + beside, hole.y0, hole.y1, hole.z0, hole.z1 + above)


def _on(piece: Piece, zone: Extent, back: Fraction) -> bool:
    """Whether a block of a piece lies in the facing or stands before it; what is behind it is covered."""
    return any(block.extent.y1 > back and _overlap(block.extent, zone) for block in piece.blocks)


def _overlap(one: Extent, other: Extent) -> bool:
    return one.x0 < other.x1 and one.x1 > other.x0 and one.z0 < other.z1 and one.z1 > other.z0


RULE = Rule(NAME, "Facing around a listed appliance", "clearance", 40, _judge, EXPLAIN, CAUTIONS)
