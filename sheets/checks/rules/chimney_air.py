"""The air about the chimney over a masonry fireplace."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.codes import Judge, judge_of, unjudged
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.fireside import CAUTIONS, Piece, apart, burning, named
from sheets.checks.wording import called, length
from sheets.model.fire import Chimney, MasonryWork
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.clearances import Clearance, strictest
from sheets.tables.read import Cited

NAME = "chimney-air"
ASKED = Cited("`fireplace.masonry.chimney` of the spec", "computed")

EXPLAIN = """\
Reads the chimney as the spec places it, from the top of the fireplace's masonry to the ceiling, and every
combustible piece, the room's own finish among them. Air of 2 in is wanted about a chimney inside the house or
within its outer wall, 1 in about one wholly outside, left unfilled. Contact is allowed 12 in or more from the
inside of the nearest flue lining, which `flue_wall` tells; without it no piece may touch. A listed chimney
lining (UL 1777) goes by its listing. Where the chimney's place is not said, every piece above the masonry is
named in a warning: nothing of it was judged.
Source: IRC R1003.18; each figure says whether a copy was read."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or opening.appliance != "masonry" or opening.masonry is None:
        return Outcome(0)
    judge, pieces, work = judge_of(wall), burning(wall, opening), opening.masonry
    if work.chimney is None:
        over = [piece.part for piece in pieces if _over(piece, work)]
        return Outcome(len(pieces) + 1, (_unplaced(over, work),))
    chimney = work.chimney
    air = strictest(judge.rows, "chimney outside" if chimney.outside else "chimney inside")
    if judge.severity is None or air is None:
        what = "the air about the chimney was held against nothing"
        return Outcome(len(pieces) + 1, (unjudged(wall, NAME, what, judge),))
    flue = strictest(judge.rows, "flue")
    findings = [
        found for piece in pieces if (found := _finding(wall, judge, piece, chimney, air, flue)) is not None
    ]
    nearest = min(pieces, key=lambda piece: _gap(piece, chimney), default=None)
    measures = () if nearest is None else (_measure(wall, nearest, chimney, air, bool(findings)),)
    return Outcome(len(pieces) + 1, tuple(findings), measures)


def _over(piece: Piece, work: MasonryWork) -> bool:
    body = work.extent
    return any(
        block.extent.z1 > body.z1 and block.extent.x0 < body.x1 and block.extent.x1 > body.x0
        for block in piece.blocks
    )


def _gap(piece: Piece, chimney: Chimney) -> Fraction:
    return min(apart(block.extent, chimney.extent) for block in piece.blocks)


def _finding(
    wall: Wall, judge: Judge, piece: Piece, chimney: Chimney, air: Clearance, flue: Clearance | None
) -> Finding | None:
    near = [
        block.extent
        for block in piece.blocks
        if apart(block.extent, chimney.extent) < air.distance
        and (
            flue is None
            or chimney.flue is None
            or apart(block.extent, chimney.flue) < flue.distance
        )
    ]  # fmt: skip
    if not near:
        return None
    assert judge.severity is not None
    gap = min(apart(box, chimney.extent) for box in near)
    return about(
        NAME,
        judge.severity,
        judge.line(
            f"{called(piece.part)} is combustible and {length(wall, gap)} from the chimney; "
            f"{length(wall, air.distance)} of air is wanted"
        ),
        piece.part,
        cure=f"would do {length(wall, air.distance - gap)} farther from the chimney"
        + (
            f", or {length(wall, flue.distance)} or more from the inside of its flue lining"
            if flue is not None
            else ""
        ),
        cited=air.cited,
        made_from=chimney.made_from if piece.part.maker == "room" else decided(piece.part, "off_fire"),
    )


def _unplaced(over: list[Part], work: MasonryWork) -> Finding:
    return about(
        NAME,
        "warning",
        "the spec does not say where the chimney is: the air about it was not judged for what is above the "
        f"fireplace's masonry: {named(over) or 'nothing drawn'}",
        made_from=work.made_from,
        cure="give width, depth and behind of fireplace.masonry.chimney; behind is measured from "
        "the finished wall back to its face",
        cited=ASKED,
    )


def _measure(wall: Wall, piece: Piece, chimney: Chimney, air: Clearance, fails: bool) -> Measure:
    return Measure(
        f"nearest the chimney: {called(piece.part)}",
        length(wall, _gap(piece, chimney)),
        f"{length(wall, air.distance)} at least",
        "beyond limit" if fails else "within limit",
        air.cited,
    )


RULE = Rule(NAME, "Air about the chimney", "clearance", 14, _judge, EXPLAIN, CAUTIONS)
