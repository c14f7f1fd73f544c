"""The lumber take-off: by species and thickness, what the parts need and what is bought for them.

Net: the blanks by plain arithmetic. With waste: net and the shop's allowance. Bought: the boards of the
cutting plan, counted board by board by the rule that hardwood is sold by (measure.py). Metric sets count
metres and cubic metres.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.notation import Notation
from sheets.model.part import Material
from sheets.model.wall import Wall
from sheets.schedules.cells import TIMES, joined, length_cell
from sheets.schedules.cutting_boards import BoardPlan
from sheets.schedules.measure import board_feet, cubic_metres, linear_feet, tally_board_feet
from sheets.schedules.parts import material_text
from sheets.schedules.stock import Kind
from sheets.schedules.table import Cell, Column, TableData


@dataclass(frozen=True, slots=True)
class LumberRow:
    """One stock. Lengths in mm, volumes as board feet or cubic metres."""

    material: Material
    kind: Kind
    label: str
    thickness: Fraction  # nominal
    width: Fraction
    blanks: int
    net_length: Fraction  # of the blanks end to end
    net: Fraction  # board feet, or cubic metres
    with_waste: Fraction
    bought: tuple[tuple[int, Fraction], ...]  # boards and how long, the longest first
    bought_length: Fraction
    tally: Fraction  # board feet by the rule, or cubic metres


@dataclass(frozen=True, slots=True)
class LumberTakeOff:
    """All rows; metric says what the volumes are."""

    rows: tuple[LumberRow, ...]
    waste: int  # percent
    metric: bool


def lumber_take_off(wall: Wall, plans: tuple[BoardPlan, ...]) -> LumberTakeOff:
    """Return the take-off of the boards in these plans."""
    stock, metric = wall.settings.stock, wall.units == "mm"
    rows: dict[tuple[object, ...], LumberRow] = {}
    for plan in plans:
        row = _row(plan, stock.waste, metric)
        key = (row.material.key, row.kind, row.label, row.width)
        rows[key] = row if key not in rows else _together(rows[key], row)
    return LumberTakeOff(tuple(rows.values()), stock.waste, metric)


def lumber_table(take_off: LumberTakeOff, notation: Notation) -> TableData:
    """Return the take-off as a table, with a total for each species."""
    unit, volume = ("M", "M³") if take_off.metric else ("FT", "BD FT")
    columns = (
        Column("SPECIES", weight=1.6),
        Column("STOCK", weight=1.2),
        Column("PIECES", "right", 0.5),
        Column(f"LENGTH, {unit}", "right", 0.7),
        Column(f"NET, {volume}", "right", 0.7),
        Column(f"WITH {take_off.waste} % WASTE", "right", 0.8),
        Column("BOARDS TO BUY", weight=1.8),
        Column(f"BOUGHT, {volume}", "right", 0.8),
    )
    rows: list[tuple[Cell, ...]] = []
    for key in dict.fromkeys(row.material.key for row in take_off.rows):
        own = [row for row in take_off.rows if row.material.key == key]
        rows += [_cells(row, notation, take_off.metric) for row in own]
        if len(own) > 1:
            rows.append(
                (
                    material_text(own[0].material),
                    "TOTAL",
                    str(sum(row.blanks for row in own)),
                    "",
                    *(
                        volume_text(sum((getattr(row, name) for row in own), Fraction(0)), take_off.metric)
                        for name in ("net", "with_waste")
                    ),
                    "",
                    volume_text(sum((row.tally for row in own), Fraction(0)), take_off.metric),
                )
            )
    if take_off.metric:
        notes: tuple[str, ...] = ("SAWN SECTIONS. NET: THE BLANKS. BOUGHT: THE BOARDS OF THE CUTTING PLAN.",)
    else:
        notes = (
            "NET: THE BLANKS BY PLAIN ARITHMETIC, NOMINAL THICKNESS; STOCK UNDER 1 IN COUNTS AS 1 IN.",
            "BOUGHT: THE BOARDS OF THE CUTTING PLAN, EACH BY SURFACE MEASURE TIMES THICKNESS (NHLA).",
        )
    return TableData("lumber", "LUMBER TAKE-OFF", columns, tuple(rows), notes)


def volume_text(volume: Fraction, metric: bool) -> str:
    """Return board feet to a tenth, cubic metres to a litre."""
    return f"{float(volume):.3f}" if metric else f"{float(volume):.1f}"


def length_text(length: Fraction, metric: bool) -> str:
    """Return a run of lumber in feet or metres, to a tenth."""
    return f"{float(length / 1000):.1f}" if metric else f"{float(linear_feet(length)):.1f}"


def bought_cell(row: LumberRow, notation: Notation) -> Cell:
    """Return the boards to buy: `3 of 10'-0"`; inches only where the set has no feet."""
    return joined(
        *(joined(f"{count} of ", length_cell(length, notation)) for count, length in row.bought), by=", "
    )


def _cells(row: LumberRow, notation: Notation, metric: bool) -> tuple[Cell, ...]:
    return (
        material_text(row.material),
        _stock_cell(row, notation),
        str(row.blanks),
        length_text(row.net_length, metric),
        volume_text(row.net, metric),
        volume_text(row.with_waste, metric),
        bought_cell(row, notation),
        volume_text(row.tally, metric),
    )


def _stock_cell(row: LumberRow, notation: Notation) -> Cell:
    return (
        joined(row.label, length_cell(row.width, notation), by=TIMES) if row.kind == "hardwood" else row.label
    )


def _row(plan: BoardPlan, waste: int, metric: bool) -> LumberRow:
    pieces = [piece for board in plan.boards for piece in board.pieces]
    by_length = Counter(board.length for board in plan.boards)
    # Softwood and patterns are counted by the nominal width of what each is milled from, hardwood by the
    # blank's own.
    widths = [piece.width if plan.kind == "hardwood" else plan.width / plan.lanes for piece in pieces]
    volume = cubic_metres if metric else board_feet
    net = sum(
        (volume(plan.thickness, w, piece.length) for w, piece in zip(widths, pieces, strict=True)),
        Fraction(0),
    )
    counted = cubic_metres if metric else tally_board_feet
    tally = sum((counted(plan.thickness, plan.width, board.length) for board in plan.boards), Fraction(0))
    return LumberRow(
        plan.material,
        plan.kind,
        plan.label,
        plan.thickness,
        plan.width,
        len(pieces),
        sum((piece.length for piece in pieces), Fraction(0)),
        net,
        net * (100 + waste) / 100,
        tuple((by_length[length], length) for length in sorted(by_length, reverse=True)),
        sum((board.length for board in plan.boards), Fraction(0)),
        tally,
    )


def _together(one: LumberRow, other: LumberRow) -> LumberRow:
    counts = Counter({length: count for count, length in one.bought})
    counts.update({length: count for count, length in other.bought})
    return LumberRow(
        one.material,
        one.kind,
        one.label,
        one.thickness,
        one.width,
        one.blanks + other.blanks,
        one.net_length + other.net_length,
        one.net + other.net,
        one.with_waste + other.with_waste,
        tuple((counts[length], length) for length in sorted(counts, reverse=True)),
        one.bought_length + other.bought_length,
        one.tally + other.tally,
    )
