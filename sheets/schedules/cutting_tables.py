"""The cutting plan as tables: board by board and sheet by sheet, what is cut from each and what is left."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.base.notation import Notation
from sheets.model.part import Part
from sheets.model.settings import Stock
from sheets.schedules.cells import TIMES, joined, length_cell, size_cell
from sheets.schedules.cutting_boards import Board, BoardCutting, BoardPiece, BoardPlan
from sheets.schedules.cutting_panels import PanelCutting, PanelPlan, Sheet, SheetPiece
from sheets.schedules.diagrams import numbers_text
from sheets.schedules.fields import Field, Line, Schedule, Told
from sheets.schedules.parts import material_text
from sheets.schedules.table import Cell, TableData, plain


def board_cutting_table(cutting: BoardCutting, stock: Stock, told: Told) -> TableData:
    """Return one row for each board, boards cut alike together; parts that no plan holds are named below."""
    rows: list[_AlikeBoards | Line] = [
        _AlikeBoards(plan, board, numbers, first=not place)
        for plan in cutting.plans
        for place, (board, numbers) in enumerate(_alike(plan.boards))
    ]
    rows += _in_no_plan(cutting.too_long, "longer than any board", "stock", told)
    kerf, trim = plain(told.length(stock.kerf)), plain(told.length(stock.end_trim))
    notes = (
        f"SAW KERF {kerf}, {trim} TRIMMED OFF EACH END; LENGTHS ARE OF BLANKS, ALLOWANCE INCLUDED.",
        *_missing("CUT TO FINISHED LENGTH, NO BOARD HAS ROOM FOR THE ALLOWANCE", cutting.without_allowance),
    )
    return BOARD_PLANS.table(rows, told, notes)


def panel_cutting_table(cutting: PanelCutting, stock: Stock, told: Told) -> TableData:
    """Return one row for each sheet; the first cuts go from edge to edge."""
    rows: list[_SheetOfPlan | Line] = [(plan, sheet) for plan in cutting.plans for sheet in plan.sheets]
    rows += _in_no_plan(cutting.too_large, "larger than the sheet", "panel", told)
    kerf = plain(told.length(stock.kerf))
    notes = (f"SAW KERF {kerf}. WIDTH × LENGTH; LENGTH IS ALONG THE SHEET'S GRAIN.",)
    return SHEET_PLANS.table(rows, told, notes)


def board_rows(cutting: BoardCutting) -> list[BoardRow]:
    """Return every blank with its board and plan."""
    return [(plan, board, piece) for plan in cutting.plans for board in plan.boards for piece in board.pieces]


def sheet_rows(cutting: PanelCutting) -> list[SheetRow]:
    """Return every part with its sheet and plan."""
    return [(plan, sheet, piece) for plan in cutting.plans for sheet in plan.sheets for piece in sheet.pieces]


def offcut_rows(boards: BoardCutting, panels: PanelCutting) -> list[Offcut]:
    """Return what is left of boards, then of sheets, that is long enough to keep."""
    return [
        *(
            Offcut(plan.material.name, plan.label, board.number, offcut, board.width / board.lanes)
            for plan in boards.plans
            for board in plan.boards
            for offcut in board.offcuts
        ),
        *(
            Offcut(panel.material.name, panel.thickness, sheet.number, along, across)
            for panel in panels.plans
            for sheet in panel.sheets
            for along, across in sheet.offcuts
        ),
    ]


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left of a board or a sheet: stock by its name, or how thick, mm."""

    material: str
    stock: str | Fraction
    number: int
    length: Fraction
    width: Fraction


@dataclass(frozen=True, slots=True)
class _AlikeBoards:
    """Boards of a plan that are cut alike. first: of the plan, whose name and statement stand once."""

    plan: BoardPlan
    board: Board
    numbers: tuple[int, ...]
    first: bool


_SheetOfPlan = tuple[PanelPlan, Sheet]
BoardRow = tuple[BoardPlan, Board, BoardPiece]
SheetRow = tuple[PanelPlan, Sheet, SheetPiece]

BOARD_PLANS: Schedule[_AlikeBoards] = Schedule(
    "boards",
    (
        Field("stock", "text", lambda r, _: f"{material_text(r.plan.material)}, {r.plan.label}" * r.first,
              "STOCK"),
        Field("numbers", "text", lambda r, _: numbers_text(r.numbers), "NO."),
        Field("boards", "count", lambda r, _: len(r.numbers), "BOARDS"),
        Field("board", "text",
              lambda r, t: joined(t.length(r.board.width), t.length(r.board.length), by=TIMES), "BOARD"),
        Field("lanes", "text", lambda r, _: str(r.board.lanes) if r.board.lanes > 1 else "",
              "RIP INTO", align="right"),
        Field("cuts", "text", lambda r, t: _cuts(r.board, t.notation), "CUT, IN ORDER"),
        Field("offcuts", "text", lambda r, t: joined(*map(t.length, r.board.offcuts), by=", "), "OFFCUTS"),
        Field("plan", "text", lambda r, _: r.plan.statement * r.first, "PLAN"),
    ),
    title="CUTTING PLAN, BOARDS",
)  # fmt: skip
SHEET_PLANS: Schedule[_SheetOfPlan] = Schedule(
    "sheets",
    (
        Field("panel", "text", lambda r, t: _panel_name(r[0], t.notation) if r[1].number == 1 else "",
              "PANEL"),
        Field("sheet", "count", lambda r, _: r[1].number, "SHEET"),
        Field("first", "text", lambda r, _: _first_cuts(r[1]), "FIRST CUTS"),
        Field("cuts", "text", lambda r, t: _strips(r[1], t.notation), "STRIPS, AND WHAT IS CUT FROM EACH"),
        Field("offcuts", "text", lambda r, t: joined(
            *(joined(t.length(b), t.length(a), by=TIMES) for a, b in r[1].offcuts), by=", "), "OFFCUTS"),
        Field("plan", "text", lambda r, _: r[0].statement if r[1].number == 1 else "", "PLAN"),
    ),
    title="CUTTING PLAN, PANELS",
)  # fmt: skip
BOARDS: Schedule[BoardRow] = Schedule(
    "cutting-boards",
    (
        Field("species", "text", lambda r, _: r[0].material.name, says="species"),
        Field("stock", "text", lambda r, _: r[0].label, says="thickness as sold, or section"),
        Field("board", "count", lambda r, _: r[1].number,
              says="number of the board, counted in its species and stock"),
        Field("board_width", "length", lambda r, _: r[1].width, says="nominal width of the board"),
        Field("board_length", "length", lambda r, _: r[1].length, says="length of the board"),
        Field("lane", "count", lambda r, _: r[2].lane + 1, says="which rip of the board, from 1"),
        Field("mark", "text", lambda r, _: r[2].mark, says="mark of the part"),
        Field("name", "text", lambda r, _: r[2].name, says="what it is"),
        Field("piece", "text", lambda r, _: f"{r[2].which}/{r[2].of}",
              says="which strip or layer of a glue-up, as 1/2"),
        Field("start", "length", lambda r, _: r[2].start, says="from the end of the board"),
        Field("length", "length", lambda r, _: r[2].length, says="length of the blank"),
        Field("width", "length", lambda r, _: r[2].width, says="width of the blank"),
    ),
    "every blank in its board",
)  # fmt: skip
SHEETS: Schedule[SheetRow] = Schedule(
    "cutting-panels",
    (
        Field("panel", "text", lambda r, _: r[0].material.name, says="panel and face"),
        Field("thickness", "length", lambda r, _: r[0].thickness, says="true thickness"),
        Field("sheet", "count", lambda r, _: r[1].number, says="number of the sheet"),
        Field("first_cuts", "text", lambda r, _: _first_cuts(r[1]), says="rips or crosscuts"),
        Field("mark", "text", lambda r, _: r[2].mark, says="mark of the part"),
        Field("name", "text", lambda r, _: r[2].name, says="what it is"),
        Field("x", "length", lambda r, _: r[2].x, says="from one end, along the sheet's grain"),
        Field("y", "length", lambda r, _: r[2].y, says="from one edge, across it"),
        Field("along", "length", lambda r, _: r[2].along, says="size along the sheet's grain"),
        Field("across", "length", lambda r, _: r[2].across, says="size across it"),
    ),
    "every part in its sheet",
)
OFFCUTS: Schedule[Offcut] = Schedule(
    "offcuts",
    (
        Field("material", "text", lambda r, _: r.material, says="species or panel"),
        Field("stock", "text", lambda r, t: r.stock if isinstance(r.stock, str) else t.length(r.stock),
              says="thickness or section"),
        Field("from", "count", lambda r, _: r.number, says="number of the board or sheet"),
        Field("length", "length", lambda r, _: r.length, says="length that is left"),
        Field("width", "length", lambda r, _: r.width, says="width that is left"),
    ),
    "what is left over and long enough to keep",
)  # fmt: skip


def _first_cuts(sheet: Sheet) -> str:
    return "crosscuts" if sheet.crosscut_first else "rips"


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


def _in_no_plan(parts: tuple[Part, ...], why: str, stock: str, told: Told) -> list[Line]:
    """A line for each part that no stock holds: it must not be missed for want of one. stock: the field that
    says what it would be cut from.
    """
    return [
        Line(
            {
                stock: material_text(part.material),
                "cuts": joined(
                    f"{part.mark} {part.name} ".lstrip(),
                    size_cell((part.thickness, part.width, part.length), told.notation),
                ),
                "plan": f"in no plan: {why}",
            }
        )
        for part in parts
    ]


def _missing(what: str, parts: tuple[Part, ...]) -> list[str]:
    named = ", ".join(dict.fromkeys(f"{part.mark} {part.name}".strip() for part in parts))
    return [f"{what}: {named.upper()}."] if parts else []
