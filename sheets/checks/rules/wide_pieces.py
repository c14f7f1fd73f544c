"""Wide solid pieces fixed to what does not move with them: caps on plywood cases, boards glued across the
grain.
"""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, Verdict, about
from sheets.checks.mechanics.decided_at import across_the_grain, decided
from sheets.checks.mechanics.moisture import Moisture, moisture_in_use
from sheets.checks.mechanics.movement import Movement, is_solid, movement, swing_words
from sheets.checks.mechanics.touching import mates
from sheets.checks.wording import called, fine, length
from sheets.model.part import Part
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
        if not is_solid(part) or any(joint.kind in ("tongue", "groove") for joint in part.joints):
            continue
        across = tuple(
            mate for mate in mates(wall, part) if _moves_otherwise(part, mate) and not held_to_move(mate)
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
                    "held so that it can move"
                    if held_to_move(part)
                    else f"{fine(wall, most.value)} when fixed, "
                    f"{length(wall, figure('joinery', 'cross-grain glue most').value)} wide when glued",
                    _verdict(found),
                    moved.cited,
                )
            )
    return Outcome(looked_at, tuple(findings), tuple(measures))


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
    glued_to = {joint.mate for joint in part.joints if joint.fastening == "glue"}
    glued = [mate for mate in across if mate.key in glued_to]
    said = (
        f"{called(part)}, {length(wall, part.width)} across the grain, moves {fine(wall, moved.swing)} "
        f"between {swing_words(moisture)}"
    )
    if glued and part.width > glue.value and moved.swing > 0:
        return (
            about(
                NAME,
                "error",
                f"{said}, and is glued to {called(glued[0])}, which does not",
                part,
                glued[0],
                cure=f"would do fixed by screws in slots, or no wider than {length(wall, glue.value)}, or "
                "as a panel",
                cited=glue.cited,
                made_from=decided(part, "fixing", "width", part.width_axis),
            ),
        )
    if part.width > wide.value and moved.swing > float(most.value) and not held_to_move(part):
        narrow = float(part.width) * float(most.value) / moved.swing
        return (
            about(
                NAME,
                "warning",
                f"{said}; {called(across[0])}, which it is fixed to, does not",
                part,
                across[0],
                cure=f"fix it at one edge and in slots across; {fine(wall, narrow)} wide would move "
                f"{fine(wall, most.value)}"
                + ("" if "quarter" in part.material.cut else "; quarter sawn moves about half"),
                cited=together(most.cited, moved.cited),
                made_from=across_the_grain(part),
            ),
        )
    return ()


def held_to_move(part: Part) -> bool:
    """Return whether the part's own note has it fixed so that it can move."""
    words = ("SLOT", "MOVE", "FREE IN ITS GROOVES")
    return any(word in note.upper() for note in part.notes for word in words)


def _unknown(part: Part) -> Finding:
    return about(
        NAME,
        "note",
        f"{called(part)}: no movement is known for {part.material.name}",
        part,
        cure="name a species of the tables",
        cited=Cited("no table", "confirmed"),
        word=("material",),
    )


RULE = Rule(NAME, "Wide solid pieces on what does not move", "movement", 20, _judge, EXPLAIN)
