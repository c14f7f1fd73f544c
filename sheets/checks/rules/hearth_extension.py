"""The hearth extension in front of and beside a masonry opening."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import MM_PER_FOOT
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import of_section
from sheets.checks.mechanics.fireside import CAUTIONS
from sheets.checks.mechanics.strengths import is_combustible
from sheets.checks.wording import length
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall
from sheets.tables.figures import NamedFigure, figure

NAME = "hearth-extension"

EXPLAIN = """\
Reads the opening and the hearth on the floor before it. An opening under 6 square feet wants a
noncombustible extension of at least 16 in in front of the facing and 8 in beyond each side; one of 6
square feet or more wants 20 in and 12 in. The extension is at least 2 in thick, or 3/8 in of brick,
concrete, stone or tile where the bottom of the opening is 8 in or more above it.
Source: IRC R1001.10 and R1001.9.2. For masonry fireplaces alone: a listed appliance goes by its own
manual."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """The least extension: in front and at each side, mm."""

    front: NamedFigure
    side: NamedFigure


def opening_area(opening: Opening) -> Fraction:
    """Return the area of the opening in square feet, exactly."""
    return opening.extent.size("x") * opening.extent.size("z") / MM_PER_FOOT**2


def wanted_extension(square_feet: Fraction) -> Wanted:
    """Return the extension that an opening of this area wants. Source: IRC R1001.10."""
    size = "large" if square_feet >= figure("fireplace", "large opening from").value else "small"
    return Wanted(figure("fireplace", f"hearth front {size}"), figure("fireplace", f"hearth side {size}"))


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or opening.appliance != "masonry":
        return Outcome(0)
    wanted, area = wanted_extension(opening_area(opening)), float(opening_area(opening))
    hearths = [
        part for part in wall.parts if part.does.fire == "hearth" and not is_combustible(part.material)
    ]
    if not hearths:
        return Outcome(
            1,
            (
                about(
                    NAME,
                    "error",
                    f"an opening of {area:.2f} square feet wants a noncombustible hearth extension and none "
                    "is drawn",
                    made_from=of_section(wall, "surround", "hearth", otherwise=opening.made_from),
                    cure=f"would do with {length(wall, wanted.front.value)} in front and "
                    f"{length(wall, wanted.side.value)} at each side",
                    cited=wanted.front.cited,
                ),
            ),
        )
    front = max(part.extent.y1 for part in hearths) - opening.extent.y1
    left = opening.extent.x0 - min(part.extent.x0 for part in hearths)
    right = max(part.extent.x1 for part in hearths) - opening.extent.x1
    rows = (
        ("in front of the facing", front, wanted.front, "projection"),
        ("beyond the left side", left, wanted.side, "width"),
        ("beyond the right side", right, wanted.side, "width"),
    )
    findings = [
        _short(wall, hearths[0], where, has, least, area, word)
        for where, has, least, word in rows
        if has < least.value
    ]
    thin = _thickness(wall, opening, hearths[0])
    measures = tuple(
        Measure(
            f"hearth {where}, opening of {area:.2f} sq ft",
            length(wall, has),
            f"{length(wall, least.value)} at least",
            "within limit" if has >= least.value else "beyond limit",
            least.cited,
        )
        for where, has, least, _ in rows
    )
    return Outcome(1, (*findings, *thin), measures)


def _short(
    wall: Wall, hearth: Part, where: str, has: Fraction, least: NamedFigure, area: float, word: str
) -> Finding:
    return about(
        NAME,
        "error",
        f"the hearth runs {length(wall, has)} {where}; an opening of {area:.2f} square feet wants "
        f"{length(wall, least.value)}",
        hearth,
        cure=f"would do {length(wall, least.value - has)} longer there",
        cited=least.cited,
        word=(word,),
    )


def _thickness(wall: Wall, opening: Opening, hearth: Part) -> tuple[Finding, ...]:
    raised = opening.extent.z0 - hearth.extent.z1 >= figure("fireplace", "raised opening from").value
    least = figure(
        "fireplace", "hearth extension thickness raised" if raised else "hearth extension thickness"
    )
    has = hearth.extent.size("z")
    if has >= least.value:
        return ()
    return (
        about(
            NAME,
            "warning",
            f"the hearth is drawn {length(wall, has)} thick; the extension wants "
            f"{length(wall, least.value)} of noncombustible material, what lies under the drawn slab counted",
            hearth,
            cure=f"would do at {length(wall, least.value)}, or on a masonry bed by others that makes it up",
            cited=least.cited,
            word=("thickness",),
        ),
    )


RULE = Rule(NAME, "Hearth extension of a masonry opening", "clearance", _judge, EXPLAIN, CAUTIONS)
