"""The lumber take-off: by species and thickness, what the parts need and what is bought for them.

Net: the blanks by plain arithmetic. With waste: net and the shop's allowance. Bought: the boards of the
cutting plan, counted board by board by the rule that hardwood is sold by (measure.py). Metric sets count
metres and cubic metres.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import MM_PER_FOOT
from sheets.base.notation import Notation
from sheets.model.part import Material
from sheets.model.wall import Wall
from sheets.schedules.amounts import board_feet, cubic_metres, linear_feet, tally_board_feet
from sheets.schedules.cells import TIMES, joined, length_cell
from sheets.schedules.cutting_boards import BoardPlan
from sheets.schedules.fields import Field, Line, Schedule, Told
from sheets.schedules.parts import material_text
from sheets.schedules.stock import Kind
from sheets.schedules.table import Cell, TableData


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


def lumber_table(take_off: LumberTakeOff, told: Told) -> TableData:
    """Return the take-off as a table, with a total for each species."""
    rows: list[LumberRow | Line] = []
    for key in dict.fromkeys(row.material.key for row in take_off.rows):
        own = [row for row in take_off.rows if row.material.key == key]
        rows += own
        if len(own) > 1:
            rows.append(_total(own))
    if take_off.metric:
        notes: tuple[str, ...] = ("SAWN SECTIONS. NET: THE BLANKS. BOUGHT: THE BOARDS OF THE CUTTING PLAN.",)
    else:
        notes = (
            "NET: THE BLANKS BY PLAIN ARITHMETIC, NOMINAL THICKNESS; STOCK UNDER 1 IN COUNTS AS 1 IN.",
            "BOUGHT: THE BOARDS OF THE CUTTING PLAN, EACH BY SURFACE MEASURE TIMES THICKNESS (NHLA).",
        )
    return LUMBER.table(rows, told, notes)


_VOLUME = (1, 3)  # digits of board feet, and of cubic metres: a litre

LUMBER: Schedule[LumberRow] = Schedule(
    "lumber",
    (
        Field("wood", "text", lambda r, _: material_text(r.material), "SPECIES"),
        Field("species", "text", lambda r, _: r.material.name, says="species"),
        Field("section", "text", lambda r, t: _stock_cell(r, t.notation), "STOCK"),
        Field("stock", "text", lambda r, _: r.label, says="thickness as sold, or section"),
        Field("board_width", "length", lambda r, _: r.width, says="nominal width of the boards"),
        Field("pieces", "count", lambda r, _: r.blanks, "PIECES", "blanks cut from it"),
        Field("end_to_end", "number", lambda r, t: r.net_length / (1000 if t.metric else MM_PER_FOOT),
              "LENGTH, {run}"),
        Field("run", "length", lambda r, _: r.net_length, says="length of all blanks end to end"),
        Field("net", "number", lambda r, _: r.net,
              "NET, {volume}", "board feet (cubic metres in a metric set) of the blanks", digits=_VOLUME),
        Field("with_waste", "number", lambda r, _: r.with_waste,
              "WITH {waste} % WASTE", "the same with the allowance for waste", digits=_VOLUME),
        Field("waste", "count", lambda _, t: t.waste, says="allowance for waste, percent"),
        Field("boards", "count", lambda r, _: sum(count for count, _length in r.bought),
              says="boards of the cutting plan"),
        Field("lengths", "text", lambda r, t: _bought_cell(r, t.notation),
              "BOARDS TO BUY", "how many of them of which length"),
        Field("bought", "number", lambda r, _: r.tally, "BOUGHT, {volume}",
              "board feet of those boards by the NHLA rule (cubic metres in a metric set)", digits=_VOLUME),
    ),
    "lumber take-off",
    "LUMBER TAKE-OFF",
)  # fmt: skip


def _total(rows: list[LumberRow]) -> Line:
    return Line(
        {
            "wood": material_text(rows[0].material),
            "section": "TOTAL",
            "pieces": sum(row.blanks for row in rows),
            "net": sum((row.net for row in rows), Fraction(0)),
            "with_waste": sum((row.with_waste for row in rows), Fraction(0)),
            "bought": sum((row.tally for row in rows), Fraction(0)),
        }
    )


def length_text(length: Fraction, metric: bool) -> str:
    """Return a run of lumber in feet or metres, to a tenth."""
    return f"{float(length / 1000):.1f}" if metric else f"{float(linear_feet(length)):.1f}"


def _bought_cell(row: LumberRow, notation: Notation) -> Cell:
    """Return the boards to buy: `3 of 10'-0"`; inches only where the set has no feet."""
    return joined(
        *(joined(f"{count} of ", length_cell(length, notation)) for count, length in row.bought), by=", "
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
