"""Where each baseboard ends: it dies into something that stands out as far as it does."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.read import Cited

NAME = "baseboards"
PRACTICE = Cited("common practice", "from memory")

EXPLAIN = """\
Reads both ends of each piece of baseboard along the wall. An end dies into a side wall, a post, a
plinth, a facing or a case side, and what it dies into stands out of the wall and up at least as far as
the baseboard, or its end grain shows. An end that meets nothing, or stands proud of what it meets: a
warning.
Source: common practice."""


def _judge(wall: Wall) -> Outcome:
    boards = [part for part in wall.parts if part.does.runs]
    half = wall.room.width / 2
    findings: list[Finding] = []
    for board in boards:
        for side, at, free in (("left", board.extent.x0, -half), ("right", board.extent.x1, half)):
            if at == free or any(joint.kind == "mitre" for joint in board.joints):
                continue
            findings += _end(wall, board, side, at)
    return Outcome(len(boards), tuple(findings))


def _end(wall: Wall, board: Part, side: str, at: Fraction) -> tuple[Finding, ...]:
    touched = [
        part
        for part in wall.parts
        if part.key != board.key
        and part.extent.x0 <= at <= part.extent.x1
        and part.extent.y0 < board.extent.y1
        and part.extent.y1 > board.extent.y0
        and part.extent.z0 < board.extent.z1
        and part.extent.z1 > board.extent.z0
    ]
    if not touched:
        return (
            about(
                NAME,
                "warning",
                f"the {side} end of {called(board)} dies into nothing and shows its end grain",
                board,
                cure="end it at a plinth, post, facing or side wall, or return it to the wall",
                cited=PRACTICE,
            ),
        )
    out, up = max(part.extent.y1 for part in touched), max(part.extent.z1 for part in touched)
    if out >= board.extent.y1 and up >= board.extent.z1:
        return ()
    short = [
        f"{length(wall, board.extent.y1 - out)} proud" if out < board.extent.y1 else "",
        f"{length(wall, board.extent.z1 - up)} above" if up < board.extent.z1 else "",
    ]
    return (
        about(
            NAME,
            "warning",
            f"the {side} end of {called(board)} stands {' and '.join(each for each in short if each)} "
            f"{'of' if out < board.extent.y1 else ''} {called(touched[0])}, which it dies into".replace(
                "  ", " "
            ),
            board,
            touched[0],
            cure=f"would do {length(wall, max(out, Fraction(0)))} thick and {length(wall, up)} high, or "
            "returned to the wall",
            cited=PRACTICE,
            made_from=decided(board, "thickness" if out < board.extent.y1 else "top"),
        ),
    )


RULE = Rule(NAME, "Ends of baseboards", "fit", 40, _judge, EXPLAIN)
