"""What the ends of a shelf rest on: how far they are let in, and what else holds them."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.touching import shared
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "bearings"

EXPLAIN = """\
Reads each end of a shelf, a bottom or a top against the piece that carries it: how far it is let into it,
and whether screws or glue join the two. Let in less than 5/32 in, 4 mm, and not screwed: a warning. Let in
less than 1/8 in and not screwed, or not at all: an error, for a side bows and what lies in it moves out.
Glue is no bearing: on end grain it holds little, and it is told, not counted. The load itself is small: a
shelf of books presses on 1/4 in of its ends with a few pounds to the square inch.
Sources: trade practice for the depth of dadoes; the least is common practice, from memory."""


def _judge(wall: Wall) -> Outcome:
    carriers = {part.key: part for part in wall.parts}
    ends = [
        (part, carriers[key])
        for part in wall.parts
        if part.maker == "shop" and (carried := part.does.bears or part.does.carries)
        for key in carried.on
        if key in carriers
    ]
    findings = [finding for part, carrier in ends for finding in _findings(wall, part, carrier)]
    usual = figure("joinery", "shelf let in least")
    measures = [
        Measure(
            f"end of {called(part)} in {called(carrier)}",
            f"{length(wall, max(shared(part.extent, carrier.extent, 'x'), Fraction(0)))} let in, "
            f"{_held(part, carrier) or 'not fastened'}",
            f"{length(wall, usual.value)}, or screwed",
            "within limit" if not _findings(wall, part, carrier) else "to judge",
            usual.cited,
        )
        for part, carrier in ends
        if not part.twin
    ]
    return Outcome(len(ends), tuple(findings), tuple(dict.fromkeys(measures)))


def _held(part: Part, carrier: Part) -> str:
    """How two pieces are fastened to each other, in a word or two."""
    found = [
        joint.fastening + ("ed" if joint.fastening == "screw" else "d")
        for one, other in ((part, carrier), (carrier, part))
        for joint in one.joints
        if joint.mate == other.key and joint.fastening in ("screw", "glue")
    ]
    return " and ".join(dict.fromkeys(found))


def _findings(wall: Wall, part: Part, carrier: Part) -> tuple[Finding, ...]:
    usual, least = figure("joinery", "shelf let in least"), figure("joinery", "shelf let in at all")
    let_in, held = shared(part.extent, carrier.extent, "x"), _held(part, carrier)
    # What runs over its carrier, as a top on a divider, or is screwed to it, does not slip off.
    runs_over = shared(part.extent, carrier.extent, "x") >= carrier.thickness
    if let_in >= usual.value or "screw" in held or runs_over:
        return ()
    said = f"let in {length(wall, let_in)}" if let_in > 0 else "not let in"
    return (
        about(
            NAME,
            "error" if let_in < least.value else "warning",
            f"the end of {called(part)} is {said} to {called(carrier)}, {held or 'not fastened'}, "
            f"and no screw holds it; {length(wall, usual.value)} is the least",
            part,
            carrier,
            cure=f"let it in {length(wall, usual.value)} or more",
            cited=usual.cited,
            made_from=decided(carrier, "housing"),
        ),
    )


RULE = Rule(NAME, "Ends of shelves in what carries them", "sag", 30, _judge, EXPLAIN)
