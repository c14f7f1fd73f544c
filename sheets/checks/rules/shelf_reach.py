"""Whether the top shelf can be reached from the floor."""

from __future__ import annotations

from sheets.checks.finding import Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import called, length, on_grid
from sheets.model.wall import Wall
from sheets.tables.people import body

NAME = "shelf-reach"

EXPLAIN = """\
Reads the upper face of the highest shelf of each case. Up to 1790 mm (70 1/2 in) a small woman grips what
lies on it; above, a note; above 2020 mm (79 1/2 in) a tall one needs a step: a warning.
Sources: Pheasant, Bodyspace, for civilians without shoes, from memory; that no shelf should be beyond an
ordinary person's reach: Dana, A Library Primer."""


def _judge(wall: Wall) -> Outcome:
    reach = body("top shelf reach")
    highest = []
    for component in wall.components:
        shelves = [part for part in wall.parts if part.assembly == component.key and part.does.bears]
        if shelves:
            highest.append(max(shelves, key=lambda part: (part.extent.z1, part.key)))
    findings = [
        about(
            NAME,
            "warning" if shelf.extent.z1 > reach.most else "note",
            f"{called(shelf)} is {length(wall, shelf.extent.z1)} above the floor; "
            f"{on_grid(wall, reach.least, 'down')} is reached in comfort, "
            f"{on_grid(wall, reach.most, 'down')} at most",
            shelf,
            cure=f"would do at {on_grid(wall, reach.least, 'down')}, or with a step or ladder provided for",
            cited=reach.cited,
            made_from=decided(shelf, "top", "z"),
        )
        for shelf in highest
        if shelf.extent.z1 > reach.least
    ]
    measures = tuple(
        Measure(
            f"{called(shelf)}, the highest",
            length(wall, shelf.extent.z1),
            f"{on_grid(wall, reach.least, 'down')} in comfort",
            "within limit" if shelf.extent.z1 <= reach.least else "to judge",
            reach.cited,
        )
        for shelf in highest
        if not shelf.twin
    )
    return Outcome(len(highest), tuple(findings), measures)


RULE = Rule(NAME, "Reach to the top shelf", "use", 40, _judge, EXPLAIN)
