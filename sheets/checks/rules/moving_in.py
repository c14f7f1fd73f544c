"""Whether an assembled case goes through the doorway and can be stood up under the ceiling."""

from __future__ import annotations

from fractions import Fraction
from math import hypot

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.assemblies import AsMoved, cases_as_moved
from sheets.checks.mechanics.ceiling import ceiling_over
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length, on_grid
from sheets.model.part import AXES, Axis
from sheets.model.wall import Wall
from sheets.tables.read import Cited

NAME = "moving-in"
GEOMETRY = Cited("computed from the sizes of the room and the work", "computed")

EXPLAIN = """\
Reads each case as the shop sends it (its cap and what is fitted on site left off), the doorway and the
ceiling. Doorway: two of the case's three sizes must pass the clear opening, either way round, the third
going through lengthwise. Standing up: a case that comes in lying on its back turns about its lower back
edge, and its diagonal, the root of height squared plus depth squared, must clear the lowest ceiling
above its place. Turned on its side: height and width instead.
Source: geometry alone."""


def tilt_diagonal(height: Fraction, depth: Fraction) -> float:
    """Return the greatest height that a case reaches while it is tipped up, mm."""
    return hypot(float(height), float(depth))


def passes_doorway(sizes: tuple[Fraction, Fraction, Fraction], doorway: tuple[Fraction, Fraction]) -> bool:
    """Return whether a box goes through a doorway (clear width, height), two of its sizes square to
    the wall.
    """
    low, high = sorted(doorway)
    small, middle, _ = sorted(sizes)
    return small <= low and middle <= high


def _judge(wall: Wall) -> Outcome:
    moved = cases_as_moved(wall)
    findings: list[Finding] = []
    measures: list[Measure] = []
    for case in moved:
        ceiling = ceiling_over(wall, case.component.extent.x0, case.component.extent.x1)
        diagonal = tilt_diagonal(case.height, case.depth)
        if case.height <= ceiling < diagonal:
            findings.append(_cannot_stand(wall, case, ceiling, diagonal))
        if wall.room.doorway is not None and not passes_doorway(case.sizes, wall.room.doorway):
            findings.append(_cannot_enter(wall, case, wall.room.doorway))
        if not case.component.twin:
            measures.append(
                Measure(
                    f"{case.component.name.lower()}, tipped up from its back",
                    on_grid(wall, diagonal, "up"),
                    on_grid(wall, ceiling, "down"),
                    "within limit" if diagonal <= ceiling else "to judge",
                    GEOMETRY,
                )
            )
            if wall.room.doorway is not None:
                door = " by ".join(length(wall, size) for size in wall.room.doorway)
                measures.append(
                    Measure(
                        f"{case.component.name.lower()} through the doorway",
                        _sizes(wall, case),
                        door,
                        "within limit" if passes_doorway(case.sizes, wall.room.doorway) else "beyond limit",
                        GEOMETRY,
                    )
                )
    return Outcome(len(moved), tuple(findings), tuple(measures))


def _cannot_stand(wall: Wall, case: AsMoved, ceiling: Fraction, diagonal: float) -> Finding:
    high = float(ceiling * ceiling - case.depth * case.depth) ** 0.5
    sideways = tilt_diagonal(case.height, case.width)
    other = "" if sideways > ceiling else "; tipped up on its side it clears"
    return about(
        NAME,
        "warning",
        f"{case.component.name.lower()} cannot be stood up in one piece: {length(wall, case.height)} high "
        f"and {length(wall, case.depth)} deep, it reaches {on_grid(wall, diagonal, 'up')} as it is tipped, "
        f"under {on_grid(wall, ceiling, 'down')} of ceiling{other}",
        case.component,
        cure=f"would do {on_grid(wall, high, 'down')} high, or with its base built apart and set first, "
        "or assembled standing",
        cited=GEOMETRY,
        made_from=decided(case.component, "z"),
    )


def _cannot_enter(wall: Wall, case: AsMoved, doorway: tuple[Fraction, Fraction]) -> Finding:
    door = " by ".join(length(wall, size) for size in doorway)
    return about(
        NAME,
        "error",
        f"{case.component.name.lower()}, {_sizes(wall, case)}, does not go through the doorway of {door}",
        case.component,
        cure=f"would do with two of its sizes within {door}; build it in two, or assemble it in the room",
        cited=GEOMETRY,
        made_from=decided(case.component, _too_large(case, doorway)),
    )


def _too_large(case: AsMoved, doorway: tuple[Fraction, Fraction]) -> Axis:
    """The axis of the size that keeps a case out: its least if that is too large, else its middle one."""
    (least, axis), (_, middle), _ = sorted(zip(case.sizes, AXES, strict=True))
    return axis if least > min(doorway) else middle


def _sizes(wall: Wall, case: AsMoved) -> str:
    return " by ".join(length(wall, size) for size in case.sizes)


RULE = Rule(NAME, "Through the doorway and stood up", "fit", 70, _judge, EXPLAIN)
