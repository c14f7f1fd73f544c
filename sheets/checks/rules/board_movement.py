"""The gap at each joint of tongue-and-groove boards against what the boards grow, and the tongue against what
they shrink.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.board_rows import BoardEnd, BoardJoint, board_ends, board_joints
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.moisture import Moisture, moisture_in_use
from sheets.checks.mechanics.movement import Movement, movement, swing_words
from sheets.checks.wording import WHAT_IS_UNKNOWN, called, fine, length
from sheets.model.wall import Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited, together

NAME = "board-movement"

EXPLAIN = """\
Reads each joint of the boards in a backer, and each panel in its frame: the gap that is left and the
tongue, and the width of the board. Boards are taken to be fixed at the moisture content recommended for
it in the region, and to settle through the year with the air of the room, drier beside a fire. Growth
to the dampest must fit in the gap, or the row pushes its case apart: an error. Shrinkage to the driest
opens the joint: the tongue must be longer than gap plus shrinkage, with 1/16 in still in its groove, or
daylight shows: a warning; a tongue shorter than gap plus shrinkage is an error. A board or a solid panel
let into the groove of an upright needs room behind its edge to grow, and more let in than it shrinks:
else an error. Change of width = width x coefficient x points of moisture content, for 6 to 14 %.
Sources: Wood Handbook chapter 13, its table 13-5; what stays engaged is common practice, from memory."""


def _judge(wall: Wall) -> Outcome:
    moisture = moisture_in_use(wall)
    joints = board_joints(wall)
    findings: list[Finding] = []
    measures: dict[tuple[object, ...], Measure] = {}
    for joint in joints:
        moved = movement(joint.board, joint.body, joint.board.width_axis, moisture)
        if moved is None:
            findings.append(
                about(
                    NAME,
                    "note",
                    f"{called(joint.board)}: no movement is known for {joint.board.material.name}",
                    joint.board,
                    cure=WHAT_IS_UNKNOWN,
                    cited=Cited("no table", "confirmed"),
                    word=("material",),
                )
            )
            continue
        findings += _gap(wall, joint, moved, moisture)
        findings += _tongue(wall, joint, moved, moisture)
        measures.setdefault(
            (joint.gap, joint.tongue, joint.body, joint.board.material),
            Measure(
                f"joint of {called(joint.board)}, {length(wall, joint.body)} of board",
                f"gap {fine(wall, joint.gap)}, tongue {fine(wall, joint.tongue)}",
                f"grows {fine(wall, moved.grows)}, shrinks {fine(wall, moved.shrinks)}",
                "within limit"
                if not _gap(wall, joint, moved, moisture) + _tongue(wall, joint, moved, moisture)
                else "beyond limit",
                moved.cited,
            ),
        )
    ends = board_ends(wall)
    for end in ends:
        moved = movement(end.board, end.body, "x", moisture)
        if moved is not None:
            findings += _end(wall, end, moved, moisture)
            measures.setdefault(
                (end.play, end.housed, end.body, end.board.material), _end_measure(wall, end, moved)
            )
    return Outcome(len(joints) + len(ends), tuple(findings), tuple(measures.values()))


def _gap(wall: Wall, joint: BoardJoint, moved: Movement, moisture: Moisture) -> tuple[Finding, ...]:
    if float(joint.gap) >= moved.grows:
        return ()
    wanted = _up(wall, moved.grows)
    widest = Fraction(float(joint.body) * float(joint.gap) / moved.grows)
    narrower = f", with boards up to {fine(wall, widest)} wide" if widest >= joint.body / 4 else ""
    return (
        about(
            NAME,
            "error",
            f"{called(joint.board)} grows {fine(wall, moved.grows)} at {swing_words(moisture)} and has a "
            f"gap of {fine(wall, joint.gap)} at its joint",
            joint.board,
            cure=f"would do with a gap of {length(wall, wanted)}{narrower}, or fixed in the damp season",
            cited=moved.cited,
            word=("gap",),
        ),
    )


def _tongue(wall: Wall, joint: BoardJoint, moved: Movement, moisture: Moisture) -> tuple[Finding, ...]:
    engaged = figure("joinery", "tongue left engaged")
    opens = float(joint.gap) + moved.shrinks
    left = float(joint.tongue) - opens
    if left >= float(engaged.value):
        return ()
    wanted = _up(wall, opens + float(engaged.value))
    said = f"the joint of {called(joint.board)} opens to {fine(wall, opens)} at {swing_words(moisture)}"
    cure = f"would do with a tongue of {length(wall, wanted)}, or narrower boards"
    if left < 0:
        return (
            about(
                NAME,
                "error",
                f"{said}: the tongue is {fine(wall, joint.tongue)} and leaves its groove",
                joint.board,
                cure=cure,
                cited=moved.cited,
                word=("tongue", "length"),
            ),
        )
    return (
        about(
            NAME,
            "warning",
            f"{said}: {fine(wall, left)} of the tongue stays in its groove, {fine(wall, engaged.value)} "
            "wanted",
            joint.board,
            cure=cure,
            cited=together(engaged.cited, moved.cited),
            word=("tongue", "length"),
        ),
    )


def _end(wall: Wall, end: BoardEnd, moved: Movement, moisture: Moisture) -> tuple[Finding, ...]:
    """A board or panel in a groove: room to grow behind its edge, and enough of the edge left in when it
    shrinks.
    """
    if float(end.play) >= moved.grows and float(end.housed) > moved.shrinks:
        return ()
    tight, short = float(end.play) < moved.grows, float(end.housed) <= moved.shrinks
    has = [f"has {fine(wall, end.play)} of room" if tight else "", "leaves it" if short else ""]
    return (
        about(
            NAME,
            "error",
            f"{called(end.board)}, let {fine(wall, end.housed)} into the groove of the "
            f"{end.side.name.lower()}, "
            f"grows {fine(wall, moved.grows)} and shrinks {fine(wall, moved.shrinks)} at "
            f"{swing_words(moisture)}: it {' and '.join(word for word in has if word)}",
            end.board,
            end.side,
            cure=_end_cure(wall, end, moved),
            cited=moved.cited,
            made_from=None if tight else decided(end.board, "housing"),
            word=("gap",) if tight else (),
        ),
    )


def _end_cure(wall: Wall, end: BoardEnd, moved: Movement) -> str:
    """What would do: a groove, where one so deep can be cut, and always narrower pieces."""
    let_in, room = _up(wall, moved.shrinks) + _up(wall, 0.01), _up(wall, moved.grows)
    narrower = (
        "more and narrower panels, or a panel of a sheet"
        if end.board.does.member == "panel"
        else "narrower boards"
    )
    if let_in + room > end.side.width / 3:  # a deeper groove would leave no stile
        return f"would do with {narrower}"
    groove = f"would do let in {length(wall, let_in)} with {length(wall, room)} of room behind it"
    return f"{groove}, or {narrower}"


def _end_measure(wall: Wall, end: BoardEnd, moved: Movement) -> Measure:
    good = float(end.play) >= moved.grows and float(end.housed) > moved.shrinks
    return Measure(
        f"edge of {called(end.board)} in the groove of the {end.side.name.lower()}",
        f"{fine(wall, end.play)} of room, {fine(wall, end.housed)} let in",
        f"grows {fine(wall, moved.grows)}, shrinks {fine(wall, moved.shrinks)}",
        "within limit" if good else "beyond limit",
        moved.cited,
    )


def _up(wall: Wall, mm: float) -> Fraction:
    """A size in the finest step that a shop sets by: 1/32 in or 0.5 mm, upwards."""
    step = Fraction(1, 2) if wall.units == "mm" else Fraction(127, 160)
    return ceil(Fraction(mm) / step) * step


RULE = Rule(NAME, "Movement of boards and framed panels", "movement", 10, _judge, EXPLAIN)
