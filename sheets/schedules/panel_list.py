"""The panel take-off: by sheet good and true thickness, the area of the parts and the sheets to buy."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import MM_PER_FOOT
from sheets.model.part import Material
from sheets.schedules.cells import TIMES, joined
from sheets.schedules.cutting_panels import PanelPlan, has_grain
from sheets.schedules.fields import Field, Schedule, Told
from sheets.schedules.parts import material_text
from sheets.schedules.table import TableData
from sheets.tables.lumber import sheet_sold
from sheets.tables.panels import panel_named


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


def panel_table(rows: tuple[PanelRow, ...], told: Told) -> TableData:
    """Return the take-off as a table."""
    notes = (
        "FACE GRAIN RUNS ALONG THE LENGTH OF THE SHEET AND OF EACH PART.",
        "MEASURE THE SHEETS BEFORE CUTTING DADOES.",
    )
    return PANELS.table(rows, told, notes)


PANELS: Schedule[PanelRow] = Schedule(
    "panels",
    (
        Field("material", "text", lambda r, _: material_text(r.material), "PANEL"),
        Field("panel", "text", lambda r, _: r.material.name, says="panel and face"),
        Field("label", "text", lambda r, _: r.label, "LABEL", "thickness as the dealer calls it", "centre"),
        Field("thickness", "length", lambda r, _: r.thickness, "TRUE THICKNESS", "true thickness"),
        Field("size", "text", lambda r, t: joined(t.length(r.width), t.length(r.length), by=TIMES), "SHEET"),
        Field("sheet_width", "length", lambda r, _: r.width, says="width of a sheet"),
        Field("sheet_length", "length", lambda r, _: r.length, says="length of a sheet, along its grain"),
        Field("grain", "text", lambda r, _: "yes" if r.grain else "no",
              says="yes when the parts' grain is kept along the sheet's"),
        Field("pieces", "count", lambda r, _: r.pieces, "PIECES", "parts cut from it"),
        Field("area", "number", lambda r, t: r.area / (10**6 if t.metric else MM_PER_FOOT**2), "AREA, {area}",
              "area of the parts, square feet (square metres in a metric set)", digits=(1, 2)),
        Field("sheets", "count", lambda r, _: r.sheets, "SHEETS", "sheets of the cutting plan"),
        Field("share", "text", lambda r, _: f"{float(100 * r.used):.0f} %", "USED", align="right"),
        Field("used", "number", lambda r, _: r.used,
              says="part of the sheets that ends up in parts, 0 to 1"),
        Field("plan", "text", lambda r, _: r.statement, "CUTTING PLAN", "what is proven of the plan"),
    ),
    "panel take-off",
    "PANEL TAKE-OFF",
)  # fmt: skip


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
    panel = panel_named(plan.material.name, hardwood_face=False)
    sold = sheet_sold(panel.sold_as, plan.series, plan.thickness) if panel else None
    return sold.label if sold else ""
