"""Wide solid pieces fixed to what does not move with them: caps on plywood cases, boards glued across the
grain.
"""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, Verdict, about
from sheets.checks.mechanics.decided_at import across_the_grain, decided
from sheets.checks.mechanics.moisture import Moisture, moisture_in_use
from sheets.checks.mechanics.movement import Movement, is_solid, movement, swing_words
from sheets.checks.mechanics.touching import mates, shared
from sheets.checks.wording import WHAT_IS_UNKNOWN, called, fine, length
from sheets.model.part import Joint, Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited, together

NAME = "wide-pieces"

EXPLAIN = """\
Reads each solid piece (tongue-and-groove boards have a rule of their own) with a width across the grain
and what it is fixed to: a panel, which does not move, or solid wood whose grain runs another way. Change
of width = width x coefficient x points of moisture content, from the driest to the dampest that the
room's air brings (by region, drier beside a fire, or as given). Quarter-sawn width takes the radial
coefficient, other cuts the tangential one. Glued across the grain over more than 3 in: an error,
because the glue line holds until the wood splits. Otherwise fixed, wider than 6 in and moving more than
1/8 in: a warning, to be held by one edge and slots.
Sources: Wood Handbook chapter 13 and its table 13-5; the limits are common practice, from memory."""


def _judge(wall: Wall) -> Outcome:
    moisture, most = moisture_in_use(wall), figure("joinery", "free board edge")
    findings: list[Finding] = []
    measures: list[Measure] = []
    looked_at = 0
    for part in wall.parts:
        if not is_solid(part) or part.does.member in ("board", "panel"):
            continue
        across = tuple(
            mate for mate in mates(wall, part) if _moves_otherwise(part, mate) and not is_free(mate)
        )
        moved = movement(part, part.width, part.width_axis, moisture)
        if not across:
            continue
        looked_at += 1
        if moved is None:
            findings.append(_unknown(part))
            continue
        found = _findings(wall, part, across, moved, moisture)
        findings += found
        if part.width > figure("joinery", "cross-grain glue most").value and not part.twin:
            measures.append(
                Measure(
                    f"{called(part)}, {length(wall, part.width)} wide",
                    f"{fine(wall, moved.swing)} of movement",
                    f"free to move on {_named(across)}"
                    if not fast_on(part, across)
                    else f"{fine(wall, most.value)} when fixed, "
                    f"{length(wall, figure('joinery', 'cross-grain glue most').value)} wide when glued",
                    _verdict(found),
                    moved.cited,
                )
            )
    return Outcome(looked_at, tuple(findings), tuple(measures))


def _named(across: tuple[Part, ...]) -> str:
    more = len({mate.mark for mate in across}) - 1
    return called(across[0]) + (f" and {more} more" if more else "")


def _verdict(found: tuple[Finding, ...]) -> Verdict:
    if not found:
        return "within limit"
    return "beyond limit" if found[0].severity == "error" else "to judge"


def _moves_otherwise(part: Part, mate: Part) -> bool:
    """Whether a mate stays as it is while the part's width changes."""
    if mate.material.kind == "wood":
        return mate.length_axis == part.width_axis
    return mate.material.kind == "panel"


def _findings(
    wall: Wall, part: Part, across: tuple[Part, ...], moved: Movement, moisture: Moisture
) -> tuple[Finding, ...]:
    glue, wide = figure("joinery", "cross-grain glue most"), figure("joinery", "fixed width most")
    most = figure("joinery", "free board edge")
    glued = [(mate, run) for mate in across if (run := _glued(part, mate)) is not None]
    said = (
        f"{called(part)}, {length(wall, part.width)} across the grain, moves {fine(wall, moved.swing)} "
        f"between {swing_words(moisture)}"
    )
    if moved.swing > 0 and glued:
        mate, run = max(glued, key=lambda found: found[1])
        if run > glue.value:
            return (
                about(
                    NAME,
                    "error",
                    f"{said}, and is glued over {length(wall, run)} of that to {called(mate)}, "
                    "which does not",
                    part,
                    mate,
                    cure=f"would do fixed by screws in slots, or glued over no more than "
                    f"{length(wall, glue.value)}, or as a panel",
                    cited=glue.cited,
                    made_from=decided(part, "fixing", "width", part.width_axis),
                ),
            )
    fast = fast_on(part, across)
    if part.width > wide.value and moved.swing > float(most.value) and fast:
        narrow = float(part.width) * float(most.value) / moved.swing
        return (
            about(
                NAME,
                "warning",
                f"{said}; {called(fast[0])}, which it is fixed to, does not",
                part,
                fast[0],
                cure=f"fix it at one edge and in slots across; {fine(wall, narrow)} wide would move "
                f"{fine(wall, most.value)}"
                + ("" if "quarter" in part.material.cut else "; quarter sawn moves about half"),
                cited=together(most.cited, moved.cited),
                made_from=across_the_grain(part),
            ),
        )
    return ()


def _glued(part: Part, mate: Part) -> Fraction | None:
    """How much of a joint along the width of a part is glued, None where none of it is. A mitre has a rule of
    its own.
    """
    whole = shared(part.extent, mate.extent, part.width_axis)
    glued = [
        whole if joint.glued is None else min(whole, joint.glued)
        for joint in _between(part, mate)
        if joint.fastening == "glue" and joint.kind != "mitre"
    ]
    return max((run for run in glued if run > 0), default=None)


def is_free(part: Part) -> bool:
    """Return whether a piece lies free in its grooves."""
    return part.does.member == "panel"


def fast_on(part: Part, across: tuple[Part, ...]) -> tuple[Part, ...]:
    """Return those mates that a piece cannot move on: its joints are neither screws in slots nor a glue line
    that ends where it would hold. What it only lies against holds it where no joint of it says otherwise.
    """
    found = []
    for mate in across:
        joints = _between(part, mate)
        lets_move = all(joint.moves or joint.glued is not None for joint in joints)
        if not joints:
            lets_move = any(joint.moves for joint in (*part.joints, *mate.joints))
        if not lets_move:
            found.append(mate)
    return tuple(found)


def _between(part: Part, mate: Part) -> list[Joint]:
    """The fastened joints of two pieces, whichever of them tells it."""
    return [
        joint
        for one, other in ((part, mate), (mate, part))
        for joint in one.joints
        if joint.mate == other.key and joint.fastening
    ]


def _unknown(part: Part) -> Finding:
    return about(
        NAME,
        "note",
        f"{called(part)}: no movement is known for {part.material.name}",
        part,
        cure=WHAT_IS_UNKNOWN,
        cited=Cited("no table", "confirmed"),
        word=("material",),
    )


RULE = Rule(NAME, "Wide solid pieces on what does not move", "movement", 20, _judge, EXPLAIN)
