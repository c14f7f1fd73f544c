"""Cutting diagrams as plain rectangles, exact mm, for compose to draw at whatever scale fits."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.base.notation import Notation
from sheets.schedules.cells import TIMES, joined, length_cell
from sheets.schedules.cutting_boards import Board, BoardPlan
from sheets.schedules.cutting_panels import PanelPlan, Sheet
from sheets.schedules.parts import material_text
from sheets.schedules.table import Cell, plain

Rect = tuple[Fraction, Fraction, Fraction, Fraction]
"""x, y, width, height."""


@dataclass(frozen=True, slots=True)
class DiagramPiece:
    """A rectangle with its mark and its size."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    label: str
    size: Cell = ""


@dataclass(frozen=True, slots=True)
class Diagram:
    """One piece of stock as cut: x along it, y up. `waste`: what is neither part nor kerf, `numbers`: of the
    boards or sheets that are cut so; none for what is drawn once.
    """

    id: str
    title: str
    width: Fraction
    height: Fraction
    pieces: tuple[DiagramPiece, ...]
    says: tuple[str, ...] = ()
    waste: tuple[Rect, ...] = ()
    numbers: tuple[int, ...] = ()
    grain: bool = True  # runs along x


    @property
    def count(self) -> str:
        """Which boards or sheets it shows: `BOARD 3`, `BOARDS 5 to 14`; empty for what is drawn once."""
        what = "sheet" if self.id.startswith("sheets/") else "board"
        return f"{what}{'s' * (len(self.numbers) > 1)} {numbers_text(self.numbers)}" if self.numbers else ""


def numbers_text(numbers: tuple[int, ...]) -> str:
    """Return numbers in words as short as they go: `3`, `5 to 14`, `1, 4 to 6`."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(str(n) for n in run) for run in runs
    )


def board_diagrams(plans: tuple[BoardPlan, ...], notation: Notation) -> tuple[Diagram, ...]:
    """Return every board of the plans; boards cut alike are one diagram."""
    found: list[Diagram] = []
    for plan in plans:
        for board in plan.boards:
            _collect(found, _board(plan, board, notation))
    return tuple(found)


def panel_diagrams(plans: tuple[PanelPlan, ...], notation: Notation) -> tuple[Diagram, ...]:
    """Return every sheet of the plans; sheets cut alike are one diagram."""
    found: list[Diagram] = []
    for plan in plans:
        for sheet in plan.sheets:
            _collect(found, _sheet(plan, sheet, notation))
    return tuple(found)


def _collect(found: list[Diagram], diagram: Diagram) -> None:
    for number, known in enumerate(found):
        if (known.title, known.width, known.height, known.pieces) == (
            diagram.title,
            diagram.width,
            diagram.height,
            diagram.pieces,
        ):
            found[number] = replace(known, numbers=(*known.numbers, *diagram.numbers))
            return
    found.append(diagram)


def _board(plan: BoardPlan, board: Board, notation: Notation) -> Diagram:
    lane = board.width / board.lanes
    pieces = tuple(
        DiagramPiece(
            piece.start,
            piece.lane * lane,
            piece.length,
            min(piece.width, lane),
            piece.label,
            length_cell(piece.length, notation),
        )
        for piece in board.pieces
    )
    waste = []
    for number in range(board.lanes):
        ends = [piece.start + piece.length for piece in board.pieces if piece.lane == number]
        start = max(ends, default=Fraction(0))
        waste.append((start, number * lane, board.length - start, lane))
    title = f"{material_text(plan.material).upper()}, {plan.label}"
    size = plain(joined(length_cell(board.width, notation), length_cell(board.length, notation), by=TIMES))
    says = [size]
    if board.lanes > 1:
        says.append(f"rip into {board.lanes}")
    if board.offcuts:
        says.append("offcuts " + ", ".join(plain(length_cell(offcut, notation)) for offcut in board.offcuts))
    where = f"boards/{plan.material.key}/{plan.label}/{board.number}"
    return Diagram(
        where, title, board.length, board.width, pieces, tuple(says), tuple(waste), (board.number,)
    )


def _sheet(plan: PanelPlan, sheet: Sheet, notation: Notation) -> Diagram:
    pieces = tuple(
        DiagramPiece(
            piece.x,
            piece.y,
            piece.along,
            piece.across,
            piece.label,
            joined(length_cell(piece.across, notation), length_cell(piece.along, notation), by=TIMES),
        )
        for piece in sheet.pieces
    )
    thickness = plain(length_cell(plan.thickness, notation))
    title = f"{material_text(plan.material).upper()}, {thickness}"
    says = ["crosscut first, then rip" if sheet.crosscut_first else "rip first, then crosscut"]
    if sheet.offcuts:
        says.append(
            "offcuts "
            + ", ".join(
                plain(joined(length_cell(b, notation), length_cell(a, notation), by=TIMES))
                for a, b in sheet.offcuts
            )
        )
    return Diagram(
        f"sheets/{plan.material.key}/{thickness}/{sheet.number}",
        title,
        plan.length,
        plan.width,
        pieces,
        tuple(says),
        numbers=(sheet.number,),
    )
