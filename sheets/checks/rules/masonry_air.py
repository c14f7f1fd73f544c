"""The air around a masonry fireplace, and what touches its masonry too near the firebox."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.codes import Judge, judge_of, unjudged
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.fireside import CAUTIONS, Piece, apart, burning, lies_on_masonry, named
from sheets.checks.wording import called, length
from sheets.model.fire import MasonryWork
from sheets.model.part import Extent, Part
from sheets.model.wall import Opening, Wall
from sheets.tables.clearances import Clearance, clearances, strictest
from sheets.tables.read import Cited

NAME = "masonry-air"
ASKED = Cited("`fireplace.masonry` of the spec", "computed")

EXPLAIN = """\
Reads the masonry around the firebox as the spec says it (or 12 in beside, above and behind it, assumed, which
is asked about) and every combustible piece: cases, framing, the room's own gypsum board and trim. Air of 2 in
is wanted at the front and the sides of a masonry fireplace and of 4 in at its back, left unfilled but for
fireblocking. What is part of a masonry wall, and the edges of trim and sheathing, may touch it 12 in or more
from the inside of the nearest firebox lining. A piece is an error where it stands within that air and nearer
than 12 in to the lining. Mantel and trim on the masonry's front are judged by masonry-clearance instead. The
inside of the lining is taken where the opening and its depth are. Units listed for contact (UL 127) go by
their listing: draw those as a listed appliance.
Source: IRC R1001.11 and its exceptions 1 to 4; each figure says whether a copy was read."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or opening.appliance != "masonry" or opening.masonry is None:
        return Outcome(0)
    judge, pieces = judge_of(wall), burning(wall, opening)
    lining = strictest(judge.rows, "lining")
    known = judge if lining is not None else replace(judge, rows=clearances(""))  # to name the pieces by
    near = [piece for piece in pieces if _in_air(wall, opening, known, piece) is not None]
    asked = () if opening.masonry.said else (_assumed(wall, opening, [piece.part for piece in near]),)
    if judge.severity is None or lining is None:
        what = f"the air around the masonry was held against nothing; within it: {_or_nothing(near)}"
        return Outcome(len(pieces), (*asked, unjudged(wall, NAME, what, judge)))
    findings = []
    measures = []
    for piece in near:
        where = _in_air(wall, opening, judge, piece)
        assert where is not None
        from_lining = min(apart(box, opening.extent) for box, _ in where)
        row = where[0][1]
        if not piece.part.twin:
            measures.append(_measure(wall, piece.part, from_lining, lining))
        inner = [
            apart(box, opening.extent) for box, _ in where if apart(box, opening.extent) < lining.distance
        ]
        if inner:
            findings.append(_finding(wall, judge, opening.masonry, piece.part, min(inner), row, lining))
    return Outcome(len(pieces), (*asked, *findings), tuple(measures))


def _in_air(
    wall: Wall, opening: Opening, judge: Judge, piece: Piece
) -> tuple[tuple[Extent, Clearance], ...] | None:
    """The blocks of a piece within the air of the masonry, each with the row of the air, or None."""
    assert opening.masonry is not None
    rows = [strictest(judge.rows, where) for where in ("air front", "air side", "air back")]
    front, side, back = (row.distance if row else Fraction(0) for row in rows)
    any_row = next((row for row in rows if row is not None), None)
    bodies = [opening.masonry.extent] + [part.extent for part in wall.parts if part.does.fire == "masonry"]
    trim = lies_on_masonry(wall, piece.part)
    found = []
    for block in piece.blocks:
        box = block.extent
        for body in bodies:
            if trim and box.y0 >= body.y1:
                continue
            if not _within(box, body, front, side, back):
                continue
            behind = box.y1 <= body.y0
            row = rows[2] if behind else rows[0] if box.y0 >= body.y1 else rows[1]
            found.append((box, row or any_row))
            break
    return tuple((box, row) for box, row in found if row is not None) or None


def _within(box: Extent, body: Extent, front: Fraction, side: Fraction, back: Fraction) -> bool:
    return (
        box.x1 > body.x0 - side
        and box.x0 < body.x1 + side
        and box.y1 > body.y0 - back
        and box.y0 < body.y1 + front
        and box.z1 > body.z0
        and box.z0 < body.z1 + side
    )


def _finding(
    wall: Wall,
    judge: Judge,
    work: MasonryWork,
    part: Part,
    from_lining: Fraction,
    air: Clearance,
    lining: Clearance,
) -> Finding:
    assert judge.severity is not None
    return about(
        NAME,
        judge.severity,
        judge.line(
            f"{called(part)} is combustible and stands within {length(wall, air.distance)} of the "
            f"fireplace's masonry, {length(wall, from_lining)} from the inside of the firebox lining; it may "
            f"touch masonry {length(wall, lining.distance)} or more from there"
        ),
        part,
        cure=f"would do with {length(wall, air.distance)} of air, or "
        f"{length(wall, max(lining.distance - from_lining, Fraction(0)))} farther from the firebox",
        cited=air.cited,
        made_from=work.made_from if part.maker == "room" else decided(part, "off_fire"),
    )


def _assumed(wall: Wall, opening: Opening, near: list[Part]) -> Finding:
    assert opening.masonry is not None
    body, hole = opening.masonry.extent, opening.extent
    return about(
        NAME,
        "warning",
        "the spec does not say how thick the masonry around the firebox is: "
        f"{length(wall, body.x1 - hole.x1)} was taken beside it, {length(wall, hole.y0 - body.y0)} behind it "
        f"and {length(wall, body.z1 - hole.z1)} above it; what stands against it hangs on that: "
        f"{named(near) or 'nothing drawn'}",
        made_from=opening.masonry.made_from,
        cure="give beside, above and behind of fireplace.masonry, each from the inside of "
        "the lining to the masonry's face",
        cited=ASKED,
    )


def _or_nothing(near: list[Piece]) -> str:
    return named(piece.part for piece in near) or "nothing drawn"


def _measure(wall: Wall, part: Part, from_lining: Fraction, lining: Clearance) -> Measure:
    return Measure(
        called(part),
        f"at the masonry, {length(wall, from_lining)} from the inside of the lining",
        f"{length(wall, lining.distance)} at least",
        "within limit" if from_lining >= lining.distance else "beyond limit",
        lining.cited,
    )


RULE = Rule(NAME, "Air around a masonry fireplace", "clearance", 12, _judge, EXPLAIN, CAUTIONS)
