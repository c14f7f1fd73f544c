"""Margins that are meant to be equal: beside the opening, and at both ends of a row of boards."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.board_rows import body_of, tongue_of
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.tables.read import Cited

NAME = "equal-margins"
PRACTICE = Cited(
    "common practice: a centred opening has like margins, and a row of boards like ends", "from memory"
)

EXPLAIN = """\
Reads the margin of the surround and of the mantel to the left and the right of the opening, the two
stiles of each case, and the first and last board of each backer. Unlike margins beside the opening: a
warning. Stiles are compared without their scribe. The end boards of a row must show the same width, and
at least half a full board: else a warning.
Source: common practice of balancing a wall, from memory."""


def _judge(wall: Wall) -> Outcome:
    rows = (*_beside_opening(wall), *_stiles(wall), *_board_ends(wall))
    findings: list[Finding] = []
    for what, owner, left, right, least in rows:
        if left != right:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{what}: {length(wall, left)} on the left and {length(wall, right)} on the right",
                    owner,
                    cure=f"would do with {length(wall, (left + right) / 2)} on each side",
                    cited=PRACTICE,
                )
            )
        elif min(left, right) < least:
            findings.append(
                about(
                    NAME,
                    "warning",
                    f"{what}: the ends show {length(wall, left)}, under half a board",
                    owner,
                    cure="would do with one board fewer, or a face of another width; "
                    f"{length(wall, least)} is half a board",
                    cited=PRACTICE,
                )
            )
    measures = tuple(
        Measure(
            what,
            f"{length(wall, left)} and {length(wall, right)}",
            "equal",
            "within limit" if left == right else "to judge",
            PRACTICE,
        )
        for what, _, left, right, _ in rows
    )
    return Outcome(len(rows), tuple(findings), measures)


Row = tuple[str, Component | Part, Fraction, Fraction, Fraction]


def _beside_opening(wall: Wall) -> tuple[Row, ...]:
    if wall.opening is None:
        return ()
    hole = wall.opening.extent
    return tuple(
        (
            f"{component.name.lower()} beside the opening",
            component,
            hole.x0 - component.extent.x0,
            component.extent.x1 - hole.x1,
            Fraction(0),
        )
        for component in wall.components
        if component.kind.about_opening
    )


def _stiles(wall: Wall) -> tuple[Row, ...]:
    rows: list[Row] = []
    for component in wall.components:
        stiles = sorted(
            (part for part in wall.parts if part.assembly == component.key and part.does.member == "stile"),
            key=lambda part: part.extent.x0,
        )
        if len(stiles) >= 2 and not component.twin:
            left, right = (_without_scribe(stile) for stile in (stiles[0], stiles[-1]))
            rows.append((f"stiles of {component.name.lower()}", component, left, right, Fraction(0)))
    return tuple(rows)


def _without_scribe(stile: Part) -> Fraction:
    return stile.width - sum(
        (joint.width or Fraction(0) for joint in stile.joints if joint.kind == "scribe"), Fraction(0)
    )


def _board_ends(wall: Wall) -> tuple[Row, ...]:
    """Faces as seen: a board let into the sides is covered there, so the inside of the sides bounds it."""
    rows: list[Row] = []
    for component in wall.components:
        boards = [
            part for part in wall.parts if part.assembly == component.key and part.does.member == "board"
        ]
        if len(boards) < 3 or component.twin:
            continue
        axis = boards[0].width_axis
        boards.sort(key=lambda part: part.extent.span(axis)[0])
        low, high = _seen(wall, component, boards, axis)
        tongue = tongue_of(boards[0])
        left = body_of(boards[1])[0] - low
        right = high - body_of(boards[-2])[1]
        full = max(board.width for board in boards[1:-1]) - tongue
        rows.append((f"end boards of {called(boards[0])}", boards[0], left, right, full / 2))
    return tuple(rows)


def _seen(wall: Wall, component: Component, boards: list[Part], axis: str) -> tuple[Fraction, Fraction]:
    if axis == "z":
        return boards[0].extent.z0, boards[-1].extent.z1
    sides = [part for part in wall.parts if part.assembly == component.key and "end" in part.does.bounds]
    if len(sides) < 2:
        return boards[0].extent.x0, boards[-1].extent.x1
    return min(part.extent.x1 for part in sides), max(part.extent.x0 for part in sides)


RULE = Rule(NAME, "Margins that are meant to be equal", "order", 30, _judge, EXPLAIN)
