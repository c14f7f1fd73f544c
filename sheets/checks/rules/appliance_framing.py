"""The opening in the framing that a listed appliance's manual wants: large enough, and left to it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import carcass_extent
from sheets.checks.mechanics.decided_at import at, decided
from sheets.checks.mechanics.fireside import CAUTIONS
from sheets.checks.mechanics.manual import MANUAL
from sheets.checks.mechanics.touching import overlap
from sheets.checks.wording import called, fine, length
from sheets.model.part import Extent
from sheets.model.wall import Component, Opening, Wall
from sheets.tables.figures import figure

NAME = "appliance-framing"

EXPLAIN = """\
Reads the opening in the framing (width, height, depth, and how far it starts below the fireplace
opening) that the user copied from the appliance's manual. It must hold the fireplace opening within it;
no piece of the shop's may stand in it; and beside it a stud, 1 1/2 in, must have room before the nearest
case. How far it goes back behind the finished wall is given as a number: the wall has to have that room.
Sources: the manual that comes with the appliance; IRC R602.3(5) for the stud, from memory. The framing
itself is by others."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or opening.manual.framing is None:
        return Outcome(0)
    framing, stud = opening.manual.framing, figure("stability", "stud width")
    findings = [*_too_small(wall, opening, framing)]
    for part in wall.parts:
        if part.maker == "shop" and overlap(part.extent, framing):
            findings.append(
                about(
                    NAME,
                    "error",
                    f"{called(part)} stands in the framing opening that the appliance's manual wants",
                    part,
                    cure="would do outside that opening",
                    cited=MANUAL,
                    made_from=decided(part, "off_fire"),
                )
            )
    beside = tuple(_beside(wall, framing))
    for case, side, room in beside:
        if room < stud.value:
            findings.append(
                about(
                    NAME,
                    "error",
                    f"{length(wall, max(room, Fraction(0)))} is left to the {side} of the framing opening "
                    f"before {case.name.lower()}; a stud takes {length(wall, stud.value)}",
                    case,
                    cure=f"would do {length(wall, stud.value - room)} farther away",
                    cited=stud.cited,
                    made_from=decided(case, "x"),
                )
            )
    return Outcome(1, tuple(findings), (*_measures(wall, framing), *_rooms(wall, beside)))


def _too_small(wall: Wall, opening: Opening, framing: Extent) -> Iterable[Finding]:
    hole = opening.extent
    rows = (
        ("width", framing.x1 - hole.x1),
        ("below", hole.z0 - framing.z0),
        ("height", framing.z1 - hole.z1),
    )
    for word, over in rows:
        if over < 0:
            yield about(
                NAME,
                "error",
                f"the framing opening ends {fine(wall, -over)} within the fireplace opening",
                made_from=at(opening.made_from, "fireplace", "listing", "framing", word),
                cure="copy width, height and where it starts from the manual again, or correct the opening",
                cited=MANUAL,
            )


def _beside(wall: Wall, framing: Extent) -> Iterable[tuple[Component, str, Fraction]]:
    """The cases beside the framing opening, in its height and depth, with the room between."""
    for case in wall.components:
        body = carcass_extent(wall, case)
        if (
            case.kind.arrives != "stood up"
            or body.z0 >= framing.z1
            or body.y0 >= framing.y1
            or framing.y1 <= 0
        ):
            continue
        if body.middle("x") < 0:
            yield case, "left", framing.x0 - body.x1
        else:
            yield case, "right", body.x0 - framing.x1


def _measures(wall: Wall, framing: Extent) -> tuple[Measure, ...]:
    size = " by ".join(length(wall, framing.size(axis)) for axis in ("x", "z", "y"))
    behind = max(-framing.y0, Fraction(0))
    return (
        Measure(
            "framing opening of the appliance",
            f"{size} deep, {length(wall, behind)} of it behind the finished wall",
            "as the manual gives it",
            "for information",
            MANUAL,
        ),
    )


def _rooms(wall: Wall, beside: tuple[tuple[Component, str, Fraction], ...]) -> tuple[Measure, ...]:
    stud = figure("stability", "stud width")
    return tuple(
        Measure(
            f"beside the framing opening, {side}",
            length(wall, max(room, Fraction(0))),
            f"{length(wall, stud.value)} at least",
            "within limit" if room >= stud.value else "beyond limit",
            stud.cited,
        )
        for _, side, room in beside
    )


RULE = Rule(NAME, "Framing of a listed appliance", "clearance", 80, _judge, EXPLAIN, CAUTIONS)
