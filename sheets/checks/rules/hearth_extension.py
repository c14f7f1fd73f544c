"""The hearth extension in front of and beside the opening."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.diagnostics import Severity
from sheets.base.length import MM_PER_FOOT
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.codes import judge_of, unjudged
from sheets.checks.mechanics.decided_at import of_section
from sheets.checks.mechanics.fireside import CAUTIONS
from sheets.checks.mechanics.manual import MANUAL, by_manual, silent
from sheets.checks.mechanics.strengths import is_combustible
from sheets.checks.wording import length, surface
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall
from sheets.tables.figures import NamedFigure, figure
from sheets.tables.read import Cited

NAME = "hearth-extension"

EXPLAIN = """\
Reads the opening and the hearth on the floor before it. At a masonry opening under 6 square feet a
noncombustible extension reaches at least 16 in in front of the facing and 8 in beyond each side; at one of 6
square feet or more, 20 in and 12 in. The extension is at least 2 in thick, or 3/8 in of brick,
concrete, stone or tile where the bottom of the opening is 8 in or more above it. The finished floor counts as
combustible.
Source: IRC R1001.10 and R1001.9.2. A listed appliance goes by the hearth that its manual wants (IRC R1004.2);
where the copy does not say it, that is asked."""


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


@dataclass(frozen=True, slots=True)
class Want:
    """One least size of the hearth, mm, and where it is said. word: the key of the hearth that meets it."""

    where: str
    word: str
    least: Fraction
    cited: Cited


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None:
        return Outcome(0)
    floor = [part for part in wall.parts if part.does.fire == "floor"]
    if by_manual(wall, opening):
        listed = opening.manual.hearth
        if listed is None:
            cure = "copy front and beside of listing.hearth from the manual, 0 where none"
            return Outcome(
                1, silent(opening, NAME, "hearth", "what hearth it wants", floor or wall.parts[:1], cure=cure)
            )
        return _held(
            wall, opening, _wants(listed.front, listed.beside, MANUAL, MANUAL), "error", "this appliance"
        )
    judge = judge_of(wall)
    if judge.severity is None or not judge.us:
        return Outcome(1, (unjudged(wall, NAME, "the hearth was held against nothing", judge),))
    area = opening_area(opening)
    wanted = wanted_extension(area)
    rows = _wants(wanted.front.value, wanted.side.value, wanted.front.cited, wanted.side.cited)
    return _held(wall, opening, rows, judge.severity, f"an opening of {surface(wall, area * MM_PER_FOOT**2)}")


def _wants(front: Fraction, side: Fraction, front_cited: Cited, side_cited: Cited) -> tuple[Want, ...]:
    return (
        Want("in front of the facing", "projection", front, front_cited),
        Want("beyond the left side", "width", side, side_cited),
        Want("beyond the right side", "width", side, side_cited),
    )


def _held(wall: Wall, opening: Opening, wants: tuple[Want, ...], severity: Severity, what: str) -> Outcome:
    hearths = [
        part for part in wall.parts if part.does.fire == "hearth" and not is_combustible(part.material)
    ]
    if not hearths and not any(want.least for want in wants):
        return Outcome(1)
    if not hearths:
        return Outcome(1, (_none_drawn(wall, opening, wants, severity, what),))
    has = (
        max(part.extent.y1 for part in hearths) - opening.extent.y1,
        opening.extent.x0 - min(part.extent.x0 for part in hearths),
        max(part.extent.x1 for part in hearths) - opening.extent.x1,
    )
    rows = tuple(zip(wants, has, strict=True))
    findings = [
        _short(wall, hearths[0], want, runs, severity, what) for want, runs in rows if runs < want.least
    ]
    thin = _thickness(wall, opening, hearths[0])
    measures = tuple(
        Measure(
            f"hearth {want.where}, {what}",
            length(wall, runs),
            f"{length(wall, want.least)} at least",
            "within limit" if runs >= want.least else "beyond limit",
            want.cited,
        )
        for want, runs in rows
    )
    return Outcome(1, (*findings, *thin), measures)


def _none_drawn(
    wall: Wall, opening: Opening, wants: tuple[Want, ...], severity: Severity, what: str
) -> Finding:
    front, side, _ = wants
    return about(
        NAME,
        severity,
        f"{what} wants a noncombustible hearth extension and none is drawn",
        made_from=of_section(wall, "surround", "hearth", otherwise=opening.made_from),
        cure=f"would do with {length(wall, front.least)} in front and {length(wall, side.least)} "
        "at each side",
        cited=front.cited,
    )


def _short(wall: Wall, hearth: Part, want: Want, runs: Fraction, severity: Severity, what: str) -> Finding:
    return about(
        NAME,
        severity,
        f"the hearth runs {length(wall, runs)} {want.where}; {what} wants {length(wall, want.least)}",
        hearth,
        cure=f"would do {length(wall, want.least - runs)} longer there",
        cited=want.cited,
        word=(want.word,),
    )


def _thickness(wall: Wall, opening: Opening, hearth: Part) -> tuple[Finding, ...]:
    listed = opening.manual.hearth
    if by_manual(wall, opening):
        assert listed is not None
        least, cited = listed.thickness, MANUAL
    else:
        raised = opening.extent.z0 - hearth.extent.z1 >= figure("fireplace", "raised opening from").value
        found = figure(
            "fireplace", "hearth extension thickness raised" if raised else "hearth extension thickness"
        )
        least, cited = found.value, found.cited
    has = hearth.extent.size("z")
    if has >= least:
        return ()
    return (
        about(
            NAME,
            "warning",
            f"the hearth is drawn {length(wall, has)} thick; the extension wants "
            f"{length(wall, least)} of noncombustible material, what lies under the drawn slab counted",
            hearth,
            cure=f"would do at {length(wall, least)}, or on a masonry bed by others that makes it up",
            cited=cited,
            word=("thickness",),
        ),
    )


RULE = Rule(NAME, "Hearth extension of an opening", "clearance", 20, _judge, EXPLAIN, CAUTIONS)
