"""The panel take-off: by sheet good and true thickness, the area of the parts and the sheets to buy."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import MM_PER_FOOT
from sheets.base.notation import Notation
from sheets.model.part import Material
from sheets.schedules.cells import TIMES, joined, length_cell
from sheets.schedules.cutting_panels import PanelPlan, has_grain
from sheets.schedules.parts import material_text
from sheets.schedules.table import Cell, Column, TableData
from sheets.tables.lumber import panel_sheets
from sheets.tables.match import plain_name


@dataclass(frozen=True, slots=True)
class PanelRow:
    """One panel and thickness. Areas in mm2."""

    material: Material
    thickness: Fraction  # true
    label: str  # as the dealer calls it, empty when no published sheet is so thick
    length: Fraction  # of a sheet, along its grain
    width: Fraction
    pieces: int
    area: Fraction
    sheets: int
    grain: bool
    statement: str

    @property
    def used(self) -> Fraction:
        """Part of the sheets that ends up in parts."""
        return self.area / (self.sheets * self.length * self.width)


def panel_take_off(plans: tuple[PanelPlan, ...]) -> tuple[PanelRow, ...]:
    """Return the sheets to buy for these plans."""
    return tuple(_row(plan) for plan in plans)


def panel_table(rows: tuple[PanelRow, ...], notation: Notation) -> TableData:
    """Return the take-off as a table."""
    metric = notation.kind == "mm"
    columns = (
        Column("PANEL", weight=1.8),
        Column("LABEL", "centre", 0.5),
        Column("TRUE THICKNESS", "right", 0.8),
        Column("SHEET", weight=1.0),
        Column("PIECES", "right", 0.5),
        Column("AREA, M²" if metric else "AREA, SQ FT", "right", 0.7),
        Column("SHEETS", "right", 0.5),
        Column("USED", "right", 0.5),
        Column("CUTTING PLAN", weight=1.6),
    )
    cells: list[tuple[Cell, ...]] = [
        (
            material_text(row.material),
            row.label,
            length_cell(row.thickness, notation),
            joined(length_cell(row.width, notation), length_cell(row.length, notation), by=TIMES),
            str(row.pieces),
            area_text(row.area, metric),
            str(row.sheets),
            f"{float(100 * row.used):.0f} %",
            row.statement,
        )
        for row in rows
    ]
    notes = (
        "FACE GRAIN RUNS ALONG THE LENGTH OF THE SHEET AND OF EACH PART.",
        "MEASURE THE SHEETS BEFORE CUTTING DADOES.",
    )
    return TableData("panels", "PANEL TAKE-OFF", columns, tuple(cells), notes)


def area_text(area: Fraction, metric: bool) -> str:
    """Return mm2 as square metres to a hundredth, or square feet to a tenth."""
    return f"{float(area / 10**6):.2f}" if metric else f"{float(area / MM_PER_FOOT**2):.1f}"


def _row(plan: PanelPlan) -> PanelRow:
    pieces = [piece for sheet in plan.sheets for piece in sheet.pieces]
    area = sum((piece.along * piece.across for piece in pieces), Fraction(0))
    return PanelRow(
        plan.material,
        plan.thickness,
        _label(plan),
        plan.length,
        plan.width,
        len(pieces),
        area,
        len(plan.sheets),
        has_grain(plan.material),
        plan.statement,
    )


def _label(plan: PanelPlan) -> str:
    name = plain_name(plan.material.name)
    for sheet in panel_sheets():
        if plain_name(sheet.panel) == name and sheet.least <= plan.thickness <= sheet.most:
            return sheet.label
    return ""
