"""Everything the shop works from beside the drawings, worked out once: the door of this folder.

`shop_schedules` computes; `all_tables`, `all_diagrams` and `export` only copy out of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sheets.base.diagnostics import Diagnostic
from sheets.base.notation import Notation
from sheets.model.settings import Settings
from sheets.model.wall import Wall
from sheets.schedules.backer_boards import BackerLayout, backer_diagram, backer_layouts, backer_table
from sheets.schedules.cutting_boards import BoardCutting, cut_boards
from sheets.schedules.cutting_panels import PanelCutting, cut_panels
from sheets.schedules.cutting_tables import board_cutting_table, panel_cutting_table
from sheets.schedules.diagrams import Diagram, board_diagrams, panel_diagrams
from sheets.schedules.fields import Told
from sheets.schedules.hardware import HardwareRow, hardware_rows, hardware_table
from sheets.schedules.labels import Label, part_labels
from sheets.schedules.lumber_list import LumberTakeOff, lumber_table, lumber_take_off
from sheets.schedules.panel_list import PanelRow, panel_table, panel_take_off
from sheets.schedules.parts import PartsSchedule, parts_schedule, parts_table
from sheets.schedules.patterns import Pattern, patterns
from sheets.schedules.table import TableData


@dataclass(frozen=True, slots=True)
class ShopSchedules:
    """All schedules of one wall."""

    notation: Notation
    settings: Settings
    parts: PartsSchedule
    boards: BoardCutting
    panels: PanelCutting
    lumber: LumberTakeOff
    sheet_goods: tuple[PanelRow, ...]
    backers: tuple[BackerLayout, ...]
    patterns: tuple[Pattern, ...]
    hardware: tuple[HardwareRow, ...]
    labels: tuple[Label, ...]


def shop_schedules(wall: Wall) -> ShopSchedules:
    """Return all schedules of a wall."""
    parts = parts_schedule(wall)
    boards, panels = cut_boards(wall), cut_panels(wall)
    return ShopSchedules(
        notation=wall.notation,
        settings=wall.settings,
        parts=parts,
        boards=boards,
        panels=panels,
        lumber=lumber_take_off(wall, boards.plans),
        sheet_goods=panel_take_off(panels.plans),
        backers=backer_layouts(wall),
        patterns=patterns(wall),
        hardware=hardware_rows(wall),
        labels=part_labels(parts, wall),
    )


def told_of(shop: ShopSchedules, sheet_of: Mapping[str, str] | None = None) -> Told:
    """Return how the values of these schedules are told. sheet_of: the sheet where each mark is detailed."""
    return Told(shop.notation, sheet_of or {}, shop.lumber.waste)


def all_tables(shop: ShopSchedules, sheet_of: Mapping[str, str] | None = None) -> tuple[TableData, ...]:
    """Return the tables in the order a shop wants them: what to make, what to buy, how to cut, how to fasten.

    sheet_of: the sheet where each mark is detailed, known once the drawings are placed. A table with nothing
    to say is left out. Ordinates stand beside the drawing of their piece, on the sheets
    of patterns.
    """
    told, stock = told_of(shop, sheet_of), shop.settings.stock
    made = (
        parts_table(shop.parts, told),
        lumber_table(shop.lumber, told),
        panel_table(shop.sheet_goods, told),
        board_cutting_table(shop.boards, stock, told),
        panel_cutting_table(shop.panels, stock, told),
        backer_table(shop.backers, told),
        hardware_table(shop.hardware, told),
    )
    return tuple(table for table in made if table.rows)


def all_diagrams(shop: ShopSchedules) -> tuple[Diagram, ...]:
    """Return the cutting diagrams of boards and panels, then the backer layouts."""
    return (
        *board_diagrams(shop.boards.plans, shop.notation),
        *panel_diagrams(shop.panels.plans, shop.notation),
        *(backer_diagram(layout, shop.notation) for layout in shop.backers),
    )


def plan_findings(shop: ShopSchedules) -> tuple[Diagnostic, ...]:
    """Return what the plans could not do: parts in no plan, blanks without allowance, plans that are not
    proven.
    """
    found = []
    for part in (*shop.boards.too_long, *shop.panels.too_large):
        what = "longer than any board" if part in shop.boards.too_long else "larger than the sheet"
        found.append(
            Diagnostic(
                "not-in-a-plan",
                "warning",
                f"{part.mark or part.key} {part.name} is {what}: no cutting plan holds it",
                help="Give a longer stock, or divide it at a joint that is drawn.",
                path=part.made_from.path,
            )
        )
    for part in shop.boards.without_allowance:
        found.append(
            Diagnostic(
                "no-allowance",
                "note",
                f"{part.mark or part.key} {part.name} is cut to its finished length: no board has "
                "room for the allowance",
                help="Give a longer board, or trim less off its ends.",
                path=part.made_from.path,
            )
        )
    for plan in shop.boards.plans:
        if not plan.proven:
            found.append(
                Diagnostic("plan-not-proven", "note", f"{plan.material.name}, {plan.label}: {plan.statement}")
            )
    for sheets in shop.panels.plans:
        if not sheets.proven:
            found.append(Diagnostic("plan-not-proven", "note", f"{sheets.material.name}: {sheets.statement}"))
    return tuple(found)
