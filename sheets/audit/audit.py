"""The audit of a finished set: every fault a reader would trip over, with its sheet and its place.

It measures the drawing model: real glyph boxes, real strokes, paper mm. It knows nothing of how they were
placed.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from sheets.audit import defects as rules
from sheets.audit.sheet_ink import SheetInk, ink_of
from sheets.drawing.items import DrawingSet
from sheets.geometry.path import Point


@dataclass(frozen=True, slots=True)
class Defect:
    """One fault. kind: one of KINDS; place: paper mm from the sheet's lower left corner."""

    kind: str
    sheet: str
    place: Point
    message: str

    def __str__(self) -> str:
        return f"{self.sheet} at {self.place[0]:.0f}, {self.place[1]:.0f} mm: {self.kind}: {self.message}"


KINDS: tuple[str, ...] = (
    "text over text",
    "text over line",
    "text over hatch",
    "dimension text astray",
    "leaders cross",
    "leader along line",
    "mark without target",
    "target without mark",
    "view outside frame",
    "view over view",
    "text outside frame",
    "text too small",
    "hatch too dense",
    "scale not standard",
    "dimension twice",
    "sheet nearly empty",
    "string crosses view",
    "line width not standard",
)
"""The kinds of fault, each with a rule of its own in audit_rules.py."""


def audit(drawing: DrawingSet) -> tuple[Defect, ...]:
    """Return the faults of a set, sheet by sheet in order of reading; none is what a set should have."""
    inks = [ink_of(sheet) for sheet in drawing.sheets]
    found: list[Defect] = []
    for ink in inks:
        found += _of_sheet(ink, drawing)
    for rule in (rules.marks_and_targets, rules.nearly_empty):
        found += [Defect(f.kind, f.sheet, f.place, f.message) for f in rule(inks)]
    order = {sheet.number: k for k, sheet in enumerate(drawing.sheets)}
    return tuple(
        sorted(
            found,
            key=lambda d: (order.get(d.sheet, 0), KINDS.index(d.kind), -d.place[1], d.place[0], d.message),
        )
    )


def counts(defects: tuple[Defect, ...]) -> dict[str, int]:
    """How many faults of each kind there are, kinds without one left out."""
    counted = Counter(d.kind for d in defects)
    return {kind: counted[kind] for kind in KINDS if counted[kind]}


def _of_sheet(ink: SheetInk, drawing: DrawingSet) -> list[Defect]:
    found = [
        *rules.text_over_text(ink),
        *rules.text_over_line(ink),
        *rules.text_over_hatch(ink),
        *rules.text_size(ink),
        *rules.text_outside(ink),
        *rules.dimension_text(ink),
        *rules.dimension_twice(ink),
        *rules.strings_over_views(ink),
        *rules.leaders_cross(ink),
        *rules.leaders_along(ink),
        *rules.views_placed(ink),
        *rules.hatch_density(ink),
        *rules.scales_standard(ink, drawing.units),
        *rules.line_widths(ink),
    ]
    return [Defect(f.kind, f.sheet, f.place, f.message) for f in found]
