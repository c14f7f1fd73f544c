"""Which pieces stand proudest: each step in depth goes the way it is meant, and far enough to be read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.wording import length
from sheets.model.part import Part, Provenance
from sheets.model.purpose import Face
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "depth-order"

EXPLAIN = """\
Reads how far the fronts of pieces that are seen together stand out of the wall: mantel cap before
fascia, fascia before sub-fascia, cap before corbel, fascia before the mantel's arched rail, posts before
the surround, mantel before cases, case cap before its frame, frame before its shelves. A piece that
should stand proud and stands behind: a warning. A step of less than 1/8 in that is not flush: a warning,
for it looks like an uneven joint. Flush is left to the designer.
Source: common practice, from memory."""


@dataclass(frozen=True, slots=True)
class Step:
    """Of two kinds of piece, which is meant to stand proud. within: they belong to one assembly."""

    proud: Face
    behind: Face
    within: bool = True
    flush_is_right: bool = False


STEPS = (
    Step("cap", "fascia"),
    Step("fascia", "sub-fascia", flush_is_right=True),
    Step("cap", "corbel"),
    Step("fascia", "arch", flush_is_right=True),
    Step("post", "surround", within=False),
    Step("fascia", "frame", within=False),
    Step("cap", "frame"),
    Step("frame", "shelf", flush_is_right=True),
)


def _judge(wall: Wall) -> Outcome:
    fronts = _fronts(wall)
    least = figure("order", "proud at least")
    findings: list[Finding] = []
    measures: list[Measure] = []
    for step in STEPS:
        for proud, behind in _pairs(fronts, step):
            by = proud.extent.y1 - behind.extent.y1
            good = by >= least.value or (by == 0)
            if not good:
                findings.append(_finding(wall, proud, behind, by, least.value))
            measures.append(
                Measure(
                    f"{proud.name.lower()} before {behind.name.lower()}",
                    length(wall, by),
                    f"flush, or {length(wall, least.value)} proud",
                    "within limit" if good else "to judge",
                    least.cited,
                )
            )
    return Outcome(len(measures), tuple(findings), tuple(measures))


def _fronts(wall: Wall) -> dict[Face, list[Part]]:
    """The foremost piece of each kind in each assembly, mirrored work once."""
    owners = {component.key for component in wall.components if not component.twin}
    best: dict[tuple[Face, str], Part] = {}
    for part in wall.parts:
        face = part.does.face
        if not face or part.assembly not in owners:
            continue
        known = best.get((face, part.assembly))
        if known is None or part.extent.y1 > known.extent.y1:
            best[(face, part.assembly)] = part
    fronts: dict[Face, list[Part]] = {}
    for (face, _), part in best.items():
        fronts.setdefault(face, []).append(part)
    return fronts


def _pairs(fronts: dict[Face, list[Part]], step: Step) -> tuple[tuple[Part, Part], ...]:
    return tuple(
        (proud, behind)
        for proud in fronts.get(step.proud, [])
        for behind in fronts.get(step.behind, [])
        if not step.within or proud.assembly == behind.assembly
    )


def _finding(wall: Wall, proud: Part, behind: Part, by: Fraction, least: Fraction) -> Finding:
    how = f"stands {length(wall, -by)} behind" if by < 0 else f"stands only {length(wall, by)} proud of"
    return about(
        NAME,
        "warning",
        f"the {proud.name.lower()} {how} the {behind.name.lower()}",
        proud,
        behind,
        cure=f"would do flush, or {length(wall, least)} proud: {length(wall, least - by)} farther out",
        cited=figure("order", "proud at least").cited,
        made_from=_step(proud, behind),
    )


def _step(proud: Part, behind: Part) -> Provenance:
    """Return what sets the step: the setback of a layer, else a cap's overhang or how proud the breast is."""
    return decided(behind, "setback") if behind.decided_by.setback else decided(proud, "front", "y")


RULE = Rule(NAME, "What stands proudest", "order", 40, _judge, EXPLAIN)
