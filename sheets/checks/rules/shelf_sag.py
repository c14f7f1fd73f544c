"""How far shelves sag under what they carry."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.beams import (
    inertia_of_board,
    sag_uniform,
    span_for_sag_ratio,
    thickness_for_sag_ratio,
)
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.loading import lasting_load
from sheets.checks.mechanics.sag_picture import sag_picture
from sheets.checks.mechanics.shelf import Shelf, shelves
from sheets.checks.mechanics.strengths import Stiffness
from sheets.checks.wording import area_load, called, fine, length, line_load, on_grid, span_ratio
from sheets.model.settings import Checks
from sheets.model.wall import Wall
from sheets.tables.loads import sag_limit, shelf_load
from sheets.tables.read import Cited, together

NAME = "shelf-sag"

EXPLAIN = """\
Reads each shelf's clear span, breadth, thickness and material, and what the spec says it carries; likewise
the bottom and the top of each case whose front or back edge hangs free, no frame, plinth, floor or rail at
the wall carrying it there. A row of books is 8 in deep: a shelf of twice that carries two rows, so twice the
load of one, unless `given_load` says what it carries.
Sag = 5 w L^4 / (384 E I), a uniform load on simple ends: the ends decide the verdict, because a shallow
dado holds no moment that can be relied on. Fixed ends (a fifth of it) are given as the lower bound; the
truth lies between.
Two limits. The aim is span/600 for the first sag (0.02 in per foot) under the likely load: the load
stays, wood creeps, and half as much again comes in the years; the eye notices about 1/32 in per foot.
Beyond it: a warning. The industry's limit is span/144 at 40 lb per square foot, 50 for books; beyond it:
an error.
Sources: Wood Handbook chapter 9; Architectural Woodwork Standards 2009, 1.2.20 and 1.2.21; NDS 3.5.2 for
creep. E is the mean of clear wood: single boards scatter by about 22 %. Sag from shear is under 1 % at
such spans and left out."""


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
    if shelf.stiffness is None:
        return (
            about(
                NAME,
                "note",
                f"{name}: no stiffness is known for {shelf.part.material.name}; its sag was not reckoned",
                shelf.part,
                cure="name a species or a panel of the tables",
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
    span, likely, heavy = float(shelf.span), _likely_load(checks, shelf), _standard_load(checks, shelf)
    first, under_standard = shelf.sag_mm(likely), shelf.sag_mm(heavy)
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
                cure=_cure(wall, shelf, shelf.stiffness, heavy, checks.sag.most),
                cited=together(sag_limit("industry").cited, shelf.stiffness.cited),
                made_from=decided(shelf.part, "thickness"),
            ),
        )
    if first * checks.sag.aim > span:
        return (
            about(
                NAME,
                "warning",
                f"{name} sags {fine(wall, first)} at first ({span_ratio(span, first)}) with "
                f"{line_load(wall, likely)} over {length(wall, shelf.span)}, "
                f"{fine(wall, first * shelf.stiffness.creep)} with the years; the aim is "
                f"L/{checks.sag.aim}",
                shelf.part,
                cure=_cure(wall, shelf, shelf.stiffness, likely, checks.sag.aim),
                cited=together(sag_limit("aim").cited, shelf.stiffness.cited),
                made_from=decided(shelf.part, "thickness"),
            ),
        )
    cautious = shelf.stiffness.cautious_mpa
    if cautious is not None and first * shelf.stiffness.mpa / cautious * checks.sag.aim > span:
        return (
            about(
                NAME,
                "note",
                f"{name} meets the aim with the standard's stiffness for this panel, not with the lower "
                "figure of careful shops",
                shelf.part,
                cure=_cure(
                    wall, shelf, shelf.stiffness, likely * shelf.stiffness.mpa / cautious, checks.sag.aim
                ),
                cited=Cited("common practice for hardwood plywood", "from memory"),
                made_from=decided(shelf.part, "thickness"),
            ),
        )
    return ()


def _cure(wall: Wall, shelf: Shelf, stiff: Stiffness, load: float, ratio: float) -> str:
    """The longest span or the least thickness that brings the sag within span/ratio."""
    breadth, thickness = shelf.breadth_mm, shelf.thickness_mm
    longest = span_for_sag_ratio(load, stiff.mpa, inertia_of_board(breadth, thickness), ratio)
    thick = thickness_for_sag_ratio(load, float(shelf.span), stiff.mpa, breadth, ratio)
    return f"would do at a span of {on_grid(wall, longest, 'down')}, or {on_grid(wall, thick, 'up')} thick"


def _measures(wall: Wall, shelf: Shelf, checks: Checks) -> tuple[Measure, ...]:
    stiff = shelf.stiffness
    assert stiff is not None
    span, likely, heavy = float(shelf.span), _likely_load(checks, shelf), _standard_load(checks, shelf)
    first, under_standard = shelf.sag_mm(likely), shelf.sag_mm(heavy)
    if not first:
        return ()
    inertia = inertia_of_board(shelf.breadth_mm, shelf.thickness_mm)
    fixed = sag_uniform(likely, span, stiff.mpa, inertia, "fixed")
    longest = span_for_sag_ratio(likely, stiff.mpa, inertia, checks.sag.aim)
    name = f"{called(shelf.part)}, {length(wall, shelf.span)} span, {fine(wall, shelf.thickness_mm)} thick"
    return (
        Measure(
            f"{name}, {line_load(wall, likely)}",
            f"{fine(wall, first)} first sag, {fine(wall, fixed)} if the ends held, "
            f"{fine(wall, first * stiff.creep)} with creep; longest span {on_grid(wall, longest, 'down')}",
            f"{fine(wall, span / checks.sag.aim)} (L/{checks.sag.aim})",
            "within limit" if first * checks.sag.aim <= span else "to judge",
            together(sag_limit("aim").cited, stiff.cited),
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
