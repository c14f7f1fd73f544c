"""The mantel shelf: its height against habit and reach, and the wall above it for a picture."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.ceiling import ceiling_over
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length, on_grid
from sheets.model.wall import Component, Wall
from sheets.tables.people import body

NAME = "mantel-height"

EXPLAIN = """\
Reads the top of the mantel, and the free wall above it: between taller cases, or the mantel's own width,
up to the ceiling above (under a vault, the arc over its ends). A mantel shelf is usually 48 to 60 in
high: outside, a note. Above 1790 mm (70 1/2 in) a small woman no longer reaches it in comfort:
a note. The largest
picture with like margins keeps the margin of 6 in all round that a picture above furniture has at its
foot; its centre is held against the 57 to 60 in at which pictures are hung. A picture above a mantel
mostly hangs higher, so that is a note and a number, never more.
Sources: hanging heights and margins are trade rules; the height of mantels and the reach are common
practice, from memory."""


def _judge(wall: Wall) -> Outcome:
    mantels = [component for component in wall.components if component.kind.mantel_shelf]
    findings: list[Finding] = []
    measures: list[Measure] = []
    for mantel in mantels:
        top, usual = mantel.extent.z1, body("mantel shelf height")
        good = usual.least <= top <= usual.most
        measures.append(
            Measure(
                "top of the mantel",
                length(wall, top),
                f"{on_grid(wall, usual.least)} to {on_grid(wall, usual.most)}",
                "within limit" if good else "to judge",
                usual.cited,
            )
        )
        if not good:
            nearest = usual.least if top < usual.least else usual.most
            findings.append(
                about(
                    NAME,
                    "note",
                    f"the top of the mantel is {length(wall, top)} above the floor; "
                    f"{on_grid(wall, usual.least)} to {on_grid(wall, usual.most)} is usual",
                    mantel,
                    cure=f"would do at {on_grid(wall, nearest)}",
                    cited=usual.cited,
                    made_from=decided(mantel, "z"),
                )
            )
        findings += _reach(wall, mantel, measures)
        findings += _picture(wall, mantel, measures)
    return Outcome(len(mantels), tuple(findings), tuple(measures))


def _reach(wall: Wall, mantel: Component, measures: list[Measure]) -> tuple[Finding, ...]:
    """What stands on the mantel is set and dusted from the floor, as books on a shelf are taken from it."""
    top, reach = mantel.extent.z1, body("top shelf reach")
    measures.append(
        Measure(
            "top of the mantel, to be reached",
            length(wall, top),
            f"{on_grid(wall, reach.least, 'down')} in comfort, {on_grid(wall, reach.most, 'down')} at most",
            "within limit" if top <= reach.least else "to judge",
            reach.cited,
        )
    )
    if top <= reach.least:
        return ()
    return (
        about(
            NAME,
            "note",
            f"the top of the mantel is {length(wall, top)} above the floor; "
            f"{on_grid(wall, reach.least, 'down')} is reached in comfort, "
            f"{on_grid(wall, reach.most, 'down')} at most",
            mantel,
            cure=f"would do at {on_grid(wall, reach.least, 'down')}, or with a step provided for",
            cited=reach.cited,
            made_from=decided(mantel, "z"),
        ),
    )


def largest_picture(width: Fraction, height: Fraction, margin: Fraction) -> tuple[Fraction, Fraction]:
    """Return width and height of the largest picture with this margin on every side, mm, 0 where there is no
    room.
    """
    return max(width - 2 * margin, Fraction(0)), max(height - 2 * margin, Fraction(0))


def free_width(wall: Wall, mantel: Component) -> Fraction:
    """Return the free width above a mantel: between taller cases beside it, or its own."""
    top = mantel.extent.z1
    taller = [c.extent for c in wall.components if c.kind.arrives == "stood up" and c.extent.z1 > top]
    left = max((box.x1 for box in taller if box.x1 <= mantel.extent.middle("x")), default=mantel.extent.x0)
    right = min((box.x0 for box in taller if box.x0 >= mantel.extent.middle("x")), default=mantel.extent.x1)
    return min(right, mantel.extent.x1) - max(left, mantel.extent.x0)


def _picture(wall: Wall, mantel: Component, measures: list[Measure]) -> tuple[Finding, ...]:
    if any(component.extent.z0 == mantel.extent.z1 for component in wall.components):
        return ()  # something stands on it: what hangs there is hung by its frame
    if any(part.does.fire == "electronics" for part in wall.parts):
        return ()  # what is to hang there is told already
    box, margin = mantel.extent, body("picture above furniture")
    width = free_width(wall, mantel)
    height = ceiling_over(wall, -width / 2, width / 2) - box.z1
    wide, high = largest_picture(width, height, margin.least)
    measures.append(
        Measure(
            "free wall above the mantel",
            f"{on_grid(wall, width, 'down')} by {on_grid(wall, height, 'down')}",
            f"margins of {on_grid(wall, margin.least)}",
            "for information",
            margin.cited,
        )
    )
    if not wide or not high:
        return (
            about(
                NAME,
                "note",
                f"no picture has room above the mantel: {on_grid(wall, height, 'down')} of wall is left",
                mantel,
                cure=f"would do {on_grid(wall, 2 * margin.least - height, 'up')} lower",
                cited=margin.cited,
                made_from=decided(mantel, "z"),
            ),
        )
    centre, habit = box.z1 + height / 2, body("picture centre")
    measures.append(
        Measure(
            "largest picture above the mantel",
            f"{on_grid(wall, wide, 'down')} by {on_grid(wall, high, 'down')}, its centre at "
            f"{on_grid(wall, centre)}",
            f"centres hang at {on_grid(wall, habit.least)} to {on_grid(wall, habit.most)}",
            "for information",
            habit.cited,
        )
    )
    if centre <= habit.most:
        return ()
    small = 2 * (habit.most - box.z1 - margin.least)
    cure = (
        f"a picture {on_grid(wall, small, 'down')} high hung {on_grid(wall, margin.least)} above the mantel "
        f"has its centre at {on_grid(wall, habit.most)}"
        if small > 0
        else "hang it by eye: the mantel itself stands above that centre"
    )
    return (
        about(
            NAME,
            "note",
            f"the largest picture above the mantel hangs with its centre at {on_grid(wall, centre)}, above "
            f"the {on_grid(wall, habit.least)} to {on_grid(wall, habit.most)} of habit",
            mantel,
            cure=cure,
            cited=habit.cited,
            made_from=decided(mantel, "z"),
        ),
    )


RULE = Rule(NAME, "Mantel height and the wall above it", "use", 20, _judge, EXPLAIN)
