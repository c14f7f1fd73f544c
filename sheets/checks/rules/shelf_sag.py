"""How far shelves sag under what they carry, at first and with the years."""

from __future__ import annotations

from dataclasses import dataclass

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.beams import sag_uniform, span_for_sag_ratio, thickness_for_sag_ratio
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.loading import lasting_load
from sheets.checks.mechanics.sag_picture import sag_picture
from sheets.checks.mechanics.shelf import Shelf, shelves
from sheets.checks.mechanics.strengths import Stiffness
from sheets.checks.wording import (
    WHAT_IS_UNKNOWN,
    area_load,
    called,
    fine,
    length,
    line_load,
    on_grid,
    span_ratio,
)
from sheets.model.settings import Checks
from sheets.model.wall import Wall
from sheets.tables.loads import sag_limit, shelf_load
from sheets.tables.match import plain_name
from sheets.tables.read import Cited, together

NAME = "shelf-sag"
_BENT = frozenset(("bending", "bendy", "bendable", "flexible", "kerfed"))

EXPLAIN = """\
Reads each shelf's clear span, breadth, thickness and material, and what the spec says it carries; likewise
the bottom and the top of each case whose front or back edge hangs free, no frame, plinth, floor or rail at
the wall carrying it there. A row of books is 8 in deep: a shelf of twice that carries two rows, so twice the
load of one, unless `given_load` says what it carries.
Sag = 5 w L^4 / (384 E I), a uniform load on simple ends: the ends decide the verdict, because a shallow
dado holds no moment that can be relied on. Fixed ends (a fifth of it) are given as the lower bound; the
truth lies between.
A panel is reckoned as thin as its sheet may come: less the minus tolerance of the size it is sold in.
Under the likely load, two limits, and beyond either a warning. With the years: the load stays and the
shelf creeps, so the first sag is multiplied by 1 + kdef of its product in the air of its room, at the
lower of the stiffnesses known for a panel, and held at span/384, 1/32 in per foot, which the eye notices.
At first: span/600, 0.02 in per foot. A product that is not made for air as damp as the room's: a warning.
The industry's limit is span/144 for the first sag at 40 lb per square foot, 50 for books; beyond it: an
error. A panel that by its name is made to be bent carries nothing: an error.
Sources: Wood Handbook chapter 9; Architectural Woodwork Standards 2009, 1.2.20 and 1.2.21; EN 1995-1-1
table 3.2 for kdef, as it stands for load-bearing grades: boards made for furniture have none of their
own. E is the mean of clear wood: single boards scatter by about 22 %. Sag from shear is under 1 % at such
spans and left out."""


@dataclass(frozen=True, slots=True)
class Aim:
    """One limit that a shelf is held at under its likely load: the modulus it is reckoned with, N/mm2, and
    the span over the sag.
    """

    modulus: float
    ratio: float
    cited: Cited

    @property
    def stiff_enough(self) -> float:
        """The greater, the easier to meet: of two limits the lesser decides."""
        return self.modulus / self.ratio


def _deciding(stiff: Stiffness, checks: Checks) -> Aim:
    """The limit that a shelf of this stiffness meets last."""
    first = Aim(stiff.mpa, checks.sag.aim, together(sag_limit("aim").cited, stiff.cited))
    if stiff.lasting_mpa is None or stiff.creep is None:
        return first
    cited = together(sag_limit("years").cited, stiff.cautious_cited, stiff.creep.cited)
    years = Aim(stiff.lasting_mpa, checks.sag.years, cited)
    return min(first, years, key=lambda aim: aim.stiff_enough)


def _judge(wall: Wall) -> Outcome:
    checks = wall.settings.checks
    found = shelves(wall)
    findings = [finding for shelf in found for finding in _findings(wall, shelf, checks)]
    known = [shelf for shelf in found if shelf.stiffness is not None]
    if not known:
        return Outcome(len(found), tuple(findings))
    sags = {shelf.part.key: shelf.sag_mm(_likely_load(checks, shelf)) / float(shelf.span) for shelf in known}
    worst = max(known, key=lambda shelf: (sags[shelf.part.key], not shelf.part.twin))
    distinct: dict[tuple[object, ...], Shelf] = {}
    for shelf in known:
        distinct.setdefault((shelf.span, shelf.breadth_mm, shelf.thickness_mm, shelf.part.material), shelf)
    measures = [row for shelf in distinct.values() for row in _measures(wall, shelf, checks)]
    return Outcome(
        len(found), tuple(findings), tuple(measures), (sag_picture(wall, worst, _likely_load(checks, worst)),)
    )


def _likely_load(checks: Checks, shelf: Shelf) -> float:
    return lasting_load(checks, shelf.part.extent.size("y"))


def _standard_load(checks: Checks, shelf: Shelf) -> float:
    return shelf_load(checks.load).standard_newton_per_mm2 * shelf.breadth_mm


def _findings(wall: Wall, shelf: Shelf, checks: Checks) -> tuple[Finding, ...]:
    name = called(shelf.part)
    if shelf.stiffness is None and _made_to_bend(shelf):
        return (
            about(
                NAME,
                "error",
                f"{name}: {shelf.part.material.name} is made to be bent, and carries no shelf",
                shelf.part,
                cure="make what things stand on of a board or a panel that is made to be stiff",
                cited=Cited("common practice", "from memory"),
                word=("material",),
            ),
        )
    if shelf.stiffness is None:
        return (
            about(
                NAME,
                "warning",
                f"{name}: no stiffness is known for {shelf.part.material.name}; its sag was not judged",
                shelf.part,
                cure=WHAT_IS_UNKNOWN,
                cited=Cited("no table", "confirmed"),
                word=("material",),
            ),
        )
    if not shelf.along_grain:
        return (
            about(
                NAME,
                "error",
                f"{name}: the grain runs across the span, where wood has a tenth of its stiffness",
                shelf.part,
                cure="would do with the grain along the shelf",
                cited=shelf.stiffness.cited,
                word=("material",),
            ),
        )
    return (*_too_damp(shelf, shelf.stiffness), *_too_far(wall, shelf, shelf.stiffness, checks))


def _made_to_bend(shelf: Shelf) -> bool:
    """Whether the name of a panel says that it is made to be bent."""
    words = plain_name(shelf.part.material.name).split()
    return shelf.part.material.kind == "panel" and any(word in _BENT for word in words)


def _too_damp(shelf: Shelf, stiff: Stiffness) -> tuple[Finding, ...]:
    if stiff.creep is not None:
        return ()
    return (
        about(
            NAME,
            "warning",
            f"{called(shelf.part)}: no {stiff.name} is made for air as damp as this room's; its sag with the "
            "years was not judged",
            shelf.part,
            cure="make the shelf of solid wood, or keep the room drier",
            cited=Cited("EN 1995-1-1 table 3.2 has no kdef for it", "confirmed"),
            word=("material",),
        ),
    )


def _too_far(wall: Wall, shelf: Shelf, stiff: Stiffness, checks: Checks) -> tuple[Finding, ...]:
    span, likely, heavy = float(shelf.span), _likely_load(checks, shelf), _standard_load(checks, shelf)
    name, under_standard = called(shelf.part), shelf.sag_mm(heavy)
    if under_standard * checks.sag.most > span:
        return (
            about(
                NAME,
                "error",
                f"{name} sags {fine(wall, under_standard)} ({span_ratio(span, under_standard)}) at "
                f"{area_load(wall, shelf_load(checks.load).standard_newton_per_mm2)} over "
                f"{length(wall, shelf.span)}; "
                f"the limit is L/{checks.sag.most}",
                shelf.part,
                cure=_cure(wall, shelf, stiff.mpa, heavy, checks.sag.most),
                cited=together(sag_limit("industry").cited, stiff.cited),
                made_from=decided(shelf.part, "thickness"),
            ),
        )
    aim = _deciding(stiff, checks)
    if sag_uniform(likely, span, aim.modulus, shelf.inertia) * aim.ratio <= span:
        return ()
    first = shelf.sag_mm(likely)
    return (
        about(
            NAME,
            "warning",
            f"{name} sags {fine(wall, first)} at first ({span_ratio(span, first)}) with "
            f"{line_load(wall, likely)} over {length(wall, shelf.span)}"
            f"{_years(wall, shelf, likely)}; the aim is L/{checks.sag.aim} at first and L/{checks.sag.years} "
            "with the years",
            shelf.part,
            cure=_cure(wall, shelf, aim.modulus, likely, aim.ratio),
            cited=aim.cited,
            made_from=decided(shelf.part, "thickness"),
        ),
    )


def _years(wall: Wall, shelf: Shelf, load: float) -> str:
    """The sag with the years, after a comma; nothing where it is not known."""
    lasting = shelf.lasting_sag_mm(load)
    if lasting is None:
        return ""
    return f", {fine(wall, lasting)} with the years ({span_ratio(float(shelf.span), lasting)})"


def _cure(wall: Wall, shelf: Shelf, modulus: float, load: float, ratio: float) -> str:
    """The longest span or the least thickness that brings the sag within span/ratio."""
    longest = span_for_sag_ratio(load, modulus, shelf.inertia, ratio)
    thick = thickness_for_sag_ratio(load, float(shelf.span), modulus, shelf.breadth_mm, ratio)
    return f"would do at a span of {on_grid(wall, longest, 'down')}, or {on_grid(wall, thick, 'up')} thick"


def _measures(wall: Wall, shelf: Shelf, checks: Checks) -> tuple[Measure, ...]:
    stiff = shelf.stiffness
    assert stiff is not None
    span, likely, heavy = float(shelf.span), _likely_load(checks, shelf), _standard_load(checks, shelf)
    first, under_standard = shelf.sag_mm(likely), shelf.sag_mm(heavy)
    if not first:
        return ()
    aim = _deciding(stiff, checks)
    fixed = sag_uniform(likely, span, stiff.mpa, shelf.inertia, "fixed")
    longest = span_for_sag_ratio(likely, aim.modulus, shelf.inertia, aim.ratio)
    size = f"{length(wall, shelf.span)} span, {fine(wall, shelf.thickness_mm)} thick"
    name = f"{called(shelf.part)}, {stiff.name}, {size}"
    return (
        Measure(
            f"{name}, {line_load(wall, likely)}",
            f"{fine(wall, first)} first sag, {fine(wall, fixed)} if the ends held"
            f"{_years(wall, shelf, likely)}; longest span {on_grid(wall, longest, 'down')}",
            f"{fine(wall, span / checks.sag.aim)} (L/{checks.sag.aim}) at first, "
            f"{fine(wall, span / checks.sag.years)} (L/{checks.sag.years}) with the years",
            "within limit" if longest >= span else "to judge",
            aim.cited,
        ),
        Measure(
            f"{name}, {area_load(wall, shelf_load(checks.load).standard_newton_per_mm2)}",
            f"{fine(wall, under_standard)} ({span_ratio(span, under_standard)})",
            f"L/{checks.sag.most}",
            "within limit" if under_standard * checks.sag.most <= span else "beyond limit",
            together(sag_limit("industry").cited, stiff.cited),
        ),
    )


RULE = Rule(NAME, "Sag of shelves", "sag", 10, _judge, EXPLAIN)
