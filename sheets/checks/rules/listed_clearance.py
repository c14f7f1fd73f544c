"""What burns about a listed appliance, by what the user copied from its manual and nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from sheets.base.length import inch
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided, under
from sheets.checks.mechanics.fireside import CAUTIONS, FARTHEST, Block, Piece, burning
from sheets.checks.mechanics.fireside_picture import clearance_picture
from sheets.checks.mechanics.manual import MANUAL, by_manual, required_beside, required_height, silent
from sheets.checks.wording import called, length
from sheets.model.fire import BesideRow, Manual
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall

NAME = "listed-clearance"
ASKED_WITHIN = inch(36)
"""What stands farther off than this is not asked about where the copy is silent: manuals in hand give no
greater distance beside an opening (common practice)."""

EXPLAIN = """\
Reads what the user copied from the appliance's manual, and every combustible piece that stands out of the
finished face the opening is in, block by block. Above the opening: the pairs of projection and height,
measured from what the manual measures from (the opening, the unit's top, its hood). Beside it: the pairs
for legs (of mantel and cases) or for side trim (all else). Aside and above at once, a piece must break both.
The room's side walls and ceiling have distances of their own; in front of the opening nothing stands
nearer than the copy allows. A piece is held against the next stricter row: the least projection in the
list that is not below its own. Between rows nothing is interpolated, beyond the last nothing is assumed,
and without any pairs there is an error, because no general table holds for a listed appliance. What the
copy does not say is a warning that names every piece concerned; where it has no rows for what is beside,
a piece that would break the pairs for above if its distance were a height is an error until the manual's
own row is copied.
Wood-burning listed units (IRC R1004, UL 127) go by their manual in the same way.
Source: the manual that comes with the appliance."""

Step = Literal["", "warning", "error"]
_HARD = {"": 0, "warning": 1, "error": 2}


@dataclass(frozen=True, slots=True)
class Stand:
    """What is said of a block. where: as it stands to the opening; wants: the distance that the copy asks
    for, None where its rows end or it has none.
    """

    step: Step
    where: Literal["above", "beside", "in front"]
    has: Fraction
    wants: Fraction | None


def stand_of(manual: Manual, block: Block, leg: bool) -> Stand:
    """Return what the copy says of a block that stands out of the face.

    Monotone: nearer on either way, or standing out more, never gives a milder step.
    """
    above, beside = _above(manual, block), _beside(manual, block, leg)
    if block.upright == 0 and block.aside == 0:
        return _in_front(manual, block, above, beside)
    if block.aside == 0 and block.higher:
        return above
    if block.upright == 0:
        return beside
    return min(above, beside, key=lambda stand: _HARD[stand.step])


def _above(manual: Manual, block: Block) -> Stand:
    wants = required_height(manual.mantel, block.projection)
    fails = wants is None or block.upright < wants
    return Stand("error" if fails else "", "above", block.upright, wants)


def _beside(manual: Manual, block: Block, leg: bool) -> Stand:
    rows: tuple[BesideRow, ...] = manual.legs if leg else manual.side_trim
    if rows:
        wants = required_beside(rows, block.projection)
        fails = wants is None or block.aside < wants
        return Stand("error" if fails else "", "beside", block.aside, wants)
    # Not copied: held against the pairs for above, so that what those refuse is not let pass by moving down.
    wants = required_height(manual.mantel, block.projection)
    if wants is not None and block.aside < wants:
        return Stand("error", "beside", block.aside, wants)
    if wants is None and block.aside <= ASKED_WITHIN:
        return Stand("error" if block.aside < _highest(manual) else "warning", "beside", block.aside, None)
    return Stand("warning" if block.aside <= ASKED_WITHIN else "", "beside", block.aside, None)


def _in_front(manual: Manual, block: Block, above: Stand, beside: Stand) -> Stand:
    out = max(block.projection - block.extent.size("y"), Fraction(0))
    wants = manual.in_front
    own: Step = "warning" if wants is None else "error" if out < wants else ""
    step = max(own, above.step, beside.step, key=lambda each: _HARD[each])
    return Stand(step, "in front", out, wants)


def _highest(manual: Manual) -> Fraction:
    return max((row.above for row in manual.mantel), default=Fraction(0))


def is_leg(wall: Wall, part: Part) -> bool:
    """Return whether a manual's rows for legs hold for a piece: one of the mantel or of a case."""
    component = wall.component_of(part.key)
    kind = component.kind if component else None
    return kind is not None and (kind.mantel_shelf or kind.arrives == "stood up")


@dataclass(frozen=True, slots=True)
class Judged:
    """A piece with its worst block and what is said of that."""

    part: Part
    leg: bool
    block: Block
    stand: Stand


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or not by_manual(wall, opening):
        return Outcome(0)
    if not opening.manual.mantel:
        return Outcome(1, (_no_pairs(opening),))
    pieces = burning(wall, opening)
    judged = [found for piece in pieces if (found := _judged(wall, opening.manual, piece)) is not None]
    findings = [_finding(wall, opening.manual, each) for each in judged if each.stand.step == "error"]
    findings += _unsaid(opening, [each for each in judged if each.stand.step == "warning"])
    findings += _room(wall, opening, pieces)
    measures = tuple(_measure(wall, each) for each in judged if not each.part.twin and _near(each))
    over = tuple(each.part for each in judged if each.stand.where == "above")
    stair = _stair(opening.manual)
    return Outcome(len(pieces), tuple(findings), measures, (clearance_picture(wall, opening, over, stair),))


def _no_pairs(opening: Opening) -> Finding:
    return about(
        NAME,
        "error",
        f"no clearances are given for the {opening.appliance} appliance; none can be assumed",
        made_from=replace(opening.made_from, path=("fireplace", "listing")),
        cited=MANUAL,
        cure="copy each pair of projection and height above the opening from its manual into the listing",
    )


def _judged(wall: Wall, manual: Manual, piece: Piece) -> Judged | None:
    """The worst block of a piece that stands out of the face; None for one that does not, and for the
    room's side walls and ceiling.
    """
    if piece.part.does.fire in ("side wall", "ceiling"):
        return None
    leg = is_leg(wall, piece.part)
    stands = [(block, stand_of(manual, block, leg)) for block in piece.blocks if block.projection > 0]
    if not stands:
        return None
    block, stand = min(stands, key=lambda each: (-_HARD[each[1].step], each[0].distance, -each[0].projection))
    return Judged(piece.part, leg, block, stand)


def _finding(wall: Wall, manual: Manual, judged: Judged) -> Finding:
    part, block, stand = judged.part, judged.block, judged.stand
    projects = f"{called(part)} projects {length(wall, block.projection)}"
    place = {"above": "above the opening", "beside": "beside the opening", "in front": "in front of it"}
    stands = f"{length(wall, stand.has)} {place[stand.where]}"
    copied = stand.where != "beside" or bool(manual.legs if judged.leg else manual.side_trim)
    which = "legs" if judged.leg else "side trim"
    if not copied:
        message = (
            f"{projects} and stands {stands}; the copy has no rows for {which}, and its pairs for above "
            "refuse as much"
        )
        cure = f"copy the manual's rows for {which}, or would do {_farther(wall, manual, stand)}"
    elif stand.wants is None:
        message = f"{projects}; the manual's pairs end before that and nothing is assumed beyond them"
        cure = "would do at a projection that the manual has a row for, or with its row for this one"
    else:
        message = f"{projects} and is {stands}; the manual's next stricter row wants " + length(
            wall, stand.wants
        )
        cure = f"would do {length(wall, max(stand.wants - stand.has, Fraction(0)))} farther"
        cure += _less(wall, manual, judged)
    sizes = ("front", "off_fire") if copied and stand.wants is None else ("off_fire",)
    return about(
        NAME,
        "error",
        message,
        part,
        cure=cure,
        cited=MANUAL,
        made_from=decided(part, *sizes),
    )


def _farther(wall: Wall, manual: Manual, stand: Stand) -> str:
    wants = stand.wants if stand.wants is not None else _highest(manual)
    return f"{length(wall, max(wants - stand.has, Fraction(0)))} farther"


def _less(wall: Wall, manual: Manual, judged: Judged) -> str:
    """What projection would pass where the piece is, when a row has one."""
    stand, block = judged.stand, judged.block
    steps = {row.projection for row in manual.mantel}
    steps |= {row.projection for row in (*manual.legs, *manual.side_trim)}
    good = [
        step
        for step in steps
        if step < block.projection
        and stand_of(manual, replace(block, projection=step), judged.leg).step != "error"
    ]
    if stand.where == "in front" or not good:
        return ""
    return f", or at a projection of {length(wall, max(good))} or less"


def _unsaid(opening: Opening, judged: Iterable[Judged]) -> list[Finding]:
    found: list[Finding] = []
    by_word: dict[str, list[Part]] = {"legs": [], "side_trim": [], "in_front": []}
    for each in judged:
        in_front = each.stand.where == "in front" and opening.manual.in_front is None
        by_word["in_front" if in_front else "legs" if each.leg else "side_trim"].append(each.part)
    for word, what in (
        ("legs", "how far a mantel's legs and cases stand beside the opening"),
        ("side_trim", "how far trim stands beside the opening"),
        ("in_front", "what may stand in front of the opening"),
    ):
        found += silent(
            opening,
            NAME,
            word,
            what,
            by_word[word],
            cure=f"copy it from the manual into listing.{word}",
        )
    return found


def _room(wall: Wall, opening: Opening, pieces: Iterable[Piece]) -> list[Finding]:
    """The room's own side walls and ceiling."""
    manual, found = opening.manual, list[Finding]()
    for fire, word, wants, within, what, decides in (
        ("side wall", "side_walls", manual.side_walls, ASKED_WITHIN, "beside the opening", "width"),
        ("ceiling", "ceiling", manual.ceiling, FARTHEST, "above the opening", "ceiling"),
    ):
        asked = []
        for piece in (each for each in pieces if each.part.does.fire == fire):
            has = min(block.aside if fire == "side wall" else block.upright for block in piece.blocks)
            if wants is None and has <= within:
                asked.append(piece.part)
            if wants is not None and has < wants:
                found.append(
                    about(
                        NAME,
                        "error",
                        f"{called(piece.part)} is {length(wall, has)} {what}; the manual wants "
                        f"{length(wall, wants)}",
                        piece.part,
                        made_from=under(piece.part.made_from, decides),
                        cure=f"would do {length(wall, wants - has)} farther",
                        cited=MANUAL,
                    )
                )
        cure = f"copy it from the manual into listing.{word}"
        found += silent(opening, NAME, word, f"how far the room's {fire} is", asked, cure=cure)
    return found


def _near(judged: Judged) -> bool:
    return judged.stand.step != "" or judged.block.distance <= ASKED_WITHIN


def _measure(wall: Wall, judged: Judged) -> Measure:
    stand, block = judged.stand, judged.block
    limit = "the copy has no row for it" if stand.wants is None else f"{length(wall, stand.wants)} at least"
    return Measure(
        called(judged.part),
        f"projects {length(wall, block.projection)}, {length(wall, stand.has)} {stand.where}",
        limit,
        {"": "within limit", "warning": "to judge", "error": "beyond limit"}[stand.step],  # type: ignore[arg-type]
        MANUAL,
    )


def _stair(manual: Manual) -> tuple[tuple[Fraction, Fraction], ...]:
    """The border of what the pairs allow: projection against height, mm."""
    points: list[tuple[Fraction, Fraction]] = []
    past = Fraction(0)
    for row in sorted(manual.mantel, key=lambda each: (each.projection, each.above)):
        points += [(past, row.above), (row.projection, row.above)]
        past = row.projection
    return tuple(points)


RULE = Rule(NAME, "What burns about a listed appliance", "clearance", 30, _judge, EXPLAIN, CAUTIONS)
