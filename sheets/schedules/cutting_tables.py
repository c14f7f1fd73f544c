"""The cutting plan as tables: board by board and sheet by sheet, what is cut from each and what is left."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.base.notation import Notation
from sheets.model.part import Part
from sheets.model.settings import Stock
from sheets.schedules.cells import TIMES, joined, length_cell, size_cell
from sheets.schedules.cutting_boards import Board, BoardCutting
from sheets.schedules.cutting_panels import PanelCutting, PanelPlan, Sheet
from sheets.schedules.diagrams import numbers_text
from sheets.schedules.parts import material_text
from sheets.schedules.table import Cell, Column, TableData, plain


def board_cutting_table(cutting: BoardCutting, stock: Stock, notation: Notation) -> TableData:
    """Return one row for each board, boards cut alike together; parts that no plan holds are named below."""
    columns = (
        Column("STOCK", weight=1.6),
        Column("NO.", weight=0.6),
        Column("BOARDS", "right", 0.5),
        Column("BOARD", weight=1.0),
        Column("RIP INTO", "right", 0.5),
        Column("CUT, IN ORDER", weight=3.0),
        Column("OFFCUTS", weight=1.0),
        Column("PLAN", weight=1.4),
    )
    rows: list[tuple[Cell, ...]] = []
    for plan in cutting.plans:
        for number, (board, alike) in enumerate(_alike(plan.boards)):
            rows.append(
                (
                    f"{material_text(plan.material)}, {plan.label}" if not number else "",
                    numbers_text(alike),
                    str(len(alike)),
                    joined(length_cell(board.width, notation), length_cell(board.length, notation), by=TIMES),
                    str(board.lanes) if board.lanes > 1 else "",
                    _cuts(board, notation),
                    joined(*(length_cell(o, notation) for o in board.offcuts), by=", ")
                    if board.offcuts
                    else "",
                    plan.statement if not number else "",
                )
            )
    rows += _in_no_plan(cutting.too_long, "longer than any board", len(columns), notation)
    notes = [
        joined(
            "SAW KERF ",
            length_cell(stock.kerf, notation),
            ", ",
            length_cell(stock.end_trim, notation),
            " TRIMMED OFF EACH END; LENGTHS ARE OF BLANKS, ALLOWANCE INCLUDED.",
        ),
        *_missing("CUT TO FINISHED LENGTH, NO BOARD HAS ROOM FOR THE ALLOWANCE", cutting.without_allowance),
    ]
    return TableData(
        "boards", "CUTTING PLAN, BOARDS", columns, tuple(rows), tuple(plain(note) for note in notes)
    )


def panel_cutting_table(cutting: PanelCutting, stock: Stock, notation: Notation) -> TableData:
    """Return one row for each sheet; the first cuts go from edge to edge."""
    columns = (
        Column("PANEL", weight=1.6),
        Column("SHEET", "right", 0.5),
        Column("FIRST CUTS", weight=1.0),
        Column("STRIPS, AND WHAT IS CUT FROM EACH", weight=3.2),
        Column("OFFCUTS", weight=1.2),
        Column("PLAN", weight=1.4),
    )
    rows: list[tuple[Cell, ...]] = []
    for plan in cutting.plans:
        for sheet in plan.sheets:
            first = sheet.number == 1
            rows.append(
                (
                    _panel_name(plan, notation) if first else "",
                    str(sheet.number),
                    "crosscuts" if sheet.crosscut_first else "rips",
                    _strips(sheet, notation),
                    joined(
                        *(
                            joined(length_cell(b, notation), length_cell(a, notation), by=TIMES)
                            for a, b in sheet.offcuts
                        ),
                        by=", ",
                    )
                    if sheet.offcuts
                    else "",
                    plan.statement if first else "",
                )
            )
    rows += _in_no_plan(cutting.too_large, "larger than the sheet", len(columns), notation)
    notes = [
        joined(
            "SAW KERF ",
            length_cell(stock.kerf, notation),
            ". WIDTH × LENGTH; LENGTH IS ALONG THE SHEET'S GRAIN.",
        ),
    ]
    return TableData(
        "sheets", "CUTTING PLAN, PANELS", columns, tuple(rows), tuple(plain(note) for note in notes)
    )


def _alike(boards: tuple[Board, ...]) -> list[tuple[Board, tuple[int, ...]]]:
    """Each way that boards are cut, and the numbers of those that are."""
    found: dict[Board, tuple[Board, tuple[int, ...]]] = {}
    for board in boards:
        # Alike: the same marks at the same places, whichever of the alike parts they become.
        pieces = tuple(replace(piece, key="", which=0) for piece in board.pieces)
        look = replace(board, number=0, pieces=pieces)
        first, numbers = found.get(look, (board, ()))
        found[look] = (first, (*numbers, board.number))
    return list(found.values())


def _cuts(board: Board, notation: Notation) -> Cell:
    lanes: list[Cell] = []
    for lane in range(board.lanes):
        runs: list[tuple[str, Fraction, int]] = []
        for piece in board.pieces:
            if piece.lane != lane:
                continue
            if runs and runs[-1][:2] == (piece.label, piece.length):
                runs[-1] = (piece.label, piece.length, runs[-1][2] + 1)
            else:
                runs.append((piece.label, piece.length, 1))
        if runs:
            lanes.append(joined(*(_run(run, notation) for run in runs), by=", "))
    return joined(*lanes, by="; ")


def _run(run: tuple[str, Fraction, int], notation: Notation) -> Cell:
    label, length, count = run
    return joined(f"{count} of " if count > 1 else "", f"{label} ", length_cell(length, notation))


def _strips(sheet: Sheet, notation: Notation) -> Cell:
    """Each strip's width and what is cut from it; alike strips, and alike pieces side by side, counted."""
    strips: dict[Cell, int] = {}
    for low, high in sheet.rips:
        pieces = [p for p in sheet.pieces if low <= (p.x if sheet.crosscut_first else p.y) < high]
        runs: list[tuple[tuple[str, Fraction, Fraction], int]] = []
        for piece in pieces:
            look = (piece.label, piece.across, piece.along)
            if runs and runs[-1][0] == look:
                runs[-1] = (look, runs[-1][1] + 1)
            else:
                runs.append((look, 1))
        cut = joined(*(_sheet_run(look, count, notation) for look, count in runs), by=", ")
        said = joined(length_cell(high - low, notation), ": ", cut)
        strips[said] = strips.get(said, 0) + 1
    cells = [joined(f"{count} strips ", strip) if count > 1 else strip for strip, count in strips.items()]
    return joined(*cells, by="; ")


def _sheet_run(look: tuple[str, Fraction, Fraction], count: int, notation: Notation) -> Cell:
    label, across, along = look
    size = joined(length_cell(across, notation), TIMES, length_cell(along, notation))
    return joined(f"{count} of " if count > 1 else "", f"{label} ", size)


def _panel_name(plan: PanelPlan, notation: Notation) -> Cell:
    return joined(f"{material_text(plan.material)}, ", length_cell(plan.thickness, notation))


def _in_no_plan(
    parts: tuple[Part, ...], why: str, columns: int, notation: Notation
) -> list[tuple[Cell, ...]]:
    """A row for each part that no stock holds: it must not be missed for want of a row."""
    return [
        (
            material_text(part.material),
            *([""] * (columns - 4)),
            joined(
                f"{part.mark} {part.name} ".lstrip(),
                size_cell((part.thickness, part.width, part.length), notation),
            ),
            "",
            f"in no plan: {why}",
        )
        for part in parts
    ]


def _missing(what: str, parts: tuple[Part, ...]) -> list[str]:
    named = ", ".join(dict.fromkeys(f"{part.mark} {part.name}".strip() for part in parts))
    return [f"{what}: {named.upper()}."] if parts else []
