"""The schedules as plain records for files: named columns, each with its kind and what it says.

A length is given twice, as the set prints it and in millimetres (`name` and `name_mm`). The same definitions
head the CSV, type the spreadsheet's cells and make the JSON schema.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.base.length import MM_PER_FOOT
from sheets.base.notation import Notation
from sheets.schedules.cells import joints_text, length_cell
from sheets.schedules.lumber import bought_cell
from sheets.schedules.patterns import fine
from sheets.schedules.shop import ShopSchedules
from sheets.schedules.table import plain

Kind = Literal["text", "count", "length", "number"]
Value = str | int | float


@dataclass(frozen=True, slots=True)
class Field:
    """One column. A length makes two: text, and millimetres under the name with `_mm`."""

    name: str
    kind: Kind
    says: str


_FORMULA = ("=", "+", "-", "@")
_BREAKS = ("\t", "\r", "\n")


@dataclass(frozen=True, slots=True)
class Records:
    """One file's worth of rows. Each row has a value for every column of `columns`."""

    name: str
    says: str
    fields: tuple[Field, ...]
    rows: tuple[tuple[Value, ...], ...]

    @property
    def columns(self) -> tuple[Field, ...]:
        """The columns as written, lengths doubled."""
        return columns_of(self.fields)


def begins_a_formula(text: str) -> bool:
    """Return whether a spreadsheet may run a text: it begins with a sign of formulas, of any width, after
    blanks or none; or with a tab or the end of a line, behind which some look for one.
    """
    return text.startswith(_BREAKS) or unicodedata.normalize("NFKC", text).lstrip().startswith(_FORMULA)


def columns_of(fields: Iterable[Field]) -> tuple[Field, ...]:
    """Return the columns that fields make, lengths doubled."""
    made: list[Field] = []
    for field in fields:
        if field.kind == "length":
            made += [
                Field(field.name, "text", f"{field.says}, as printed on the sheets"),
                Field(f"{field.name}_mm", "number", f"{field.says}, millimetres"),
            ]
        else:
            made.append(field)
    return tuple(made)


PARTS = (
    Field("mark", "text", "mark of the part, as on the drawings"),
    Field("quantity", "count", "how many are made"),
    Field("name", "text", "what it is"),
    Field("hand", "text", "left or right where the two differ"),
    Field("assembly", "text", "what it belongs to"),
    Field("material", "text", "species, panel, cut and finish"),
    Field("thickness", "length", "finished thickness"),
    Field("width", "length", "finished width"),
    Field("length", "length", "finished length, along the grain"),
    Field("rough", "text", "what it is milled from"),
    Field("grain", "text", "which way the grain runs in the finished work"),
    Field("shows", "text", "faces and edges that show"),
    Field("joints", "text", "joints cut in it, with width and depth"),
    Field("notes", "text", "what else is to be known"),
    Field("sheets", "text", "sheets where it is detailed"),
)
LUMBER = (
    Field("species", "text", "species"),
    Field("stock", "text", "thickness as sold, or section"),
    Field("board_width", "length", "nominal width of the boards"),
    Field("pieces", "count", "blanks cut from it"),
    Field("run", "length", "length of all blanks end to end"),
    Field("net", "number", "board feet (cubic metres in a metric set) of the blanks"),
    Field("with_waste", "number", "the same with the allowance for waste"),
    Field("waste", "count", "allowance for waste, percent"),
    Field("boards", "count", "boards of the cutting plan"),
    Field("lengths", "text", "how many of them of which length"),
    Field("bought", "number", "board feet of those boards by the NHLA rule (cubic metres in a metric set)"),
)
PANELS = (
    Field("panel", "text", "panel and face"),
    Field("label", "text", "thickness as the dealer calls it"),
    Field("thickness", "length", "true thickness"),
    Field("sheet_width", "length", "width of a sheet"),
    Field("sheet_length", "length", "length of a sheet, along its grain"),
    Field("grain", "text", "yes when the parts' grain is kept along the sheet's"),
    Field("pieces", "count", "parts cut from it"),
    Field("area", "number", "area of the parts, square feet (square metres in a metric set)"),
    Field("sheets", "count", "sheets of the cutting plan"),
    Field("used", "number", "part of the sheets that ends up in parts, 0 to 1"),
    Field("plan", "text", "what is proven of the plan"),
)
BOARDS = (
    Field("species", "text", "species"),
    Field("stock", "text", "thickness as sold, or section"),
    Field("board", "count", "number of the board, counted in its species and stock"),
    Field("board_width", "length", "nominal width of the board"),
    Field("board_length", "length", "length of the board"),
    Field("lane", "count", "which rip of the board, from 1"),
    Field("mark", "text", "mark of the part"),
    Field("name", "text", "what it is"),
    Field("piece", "text", "which strip or layer of a glue-up, as 1/2"),
    Field("start", "length", "from the end of the board"),
    Field("length", "length", "length of the blank"),
    Field("width", "length", "width of the blank"),
)
SHEETS = (
    Field("panel", "text", "panel and face"),
    Field("thickness", "length", "true thickness"),
    Field("sheet", "count", "number of the sheet"),
    Field("first_cuts", "text", "rips or crosscuts"),
    Field("mark", "text", "mark of the part"),
    Field("name", "text", "what it is"),
    Field("x", "length", "from one end, along the sheet's grain"),
    Field("y", "length", "from one edge, across it"),
    Field("along", "length", "size along the sheet's grain"),
    Field("across", "length", "size across it"),
)
OFFCUTS = (
    Field("material", "text", "species or panel"),
    Field("stock", "text", "thickness or section"),
    Field("from", "count", "number of the board or sheet"),
    Field("length", "length", "length that is left"),
    Field("width", "length", "width that is left"),
)
BACKER = (
    Field("assembly", "text", "the case"),
    Field("board", "count", "from the left, or from the bottom"),
    Field("mark", "text", "mark of the board"),
    Field("face", "length", "what shows"),
    Field("cut", "length", "width as cut, tongue included"),
    Field("ripped", "text", "yes for an end board that is ripped"),
    Field("gap", "length", "left at each joint"),
)
HARDWARE = (
    Field("assembly", "text", "what it is for"),
    Field("item", "text", "kind of fastener"),
    Field("use", "text", "which joint"),
    Field("quantity", "count", "how many; 0 for what is counted by length"),
    Field("run", "length", "length of glue line"),
    Field("rule", "text", "how it was counted"),
)
ORDINATES = (
    Field("mark", "text", "mark of the shaped part"),
    Field("name", "text", "what it is"),
    Field("curve", "count", "which arc of its outline"),
    Field("chord", "length", "chord of the arc"),
    Field("rise", "length", "rise over the chord"),
    Field("radius", "length", "radius"),
    Field("station", "length", "from the middle of the chord, to either side"),
    Field("ordinate", "length", "from the chord to the curve"),
)


def all_records(shop: ShopSchedules) -> tuple[Records, ...]:
    """Return every schedule as records, in the order a shop wants them."""
    n = shop.notation
    return (
        _records("parts", "parts that the shop makes, alike ones in a row", PARTS, _parts(shop), n),
        _records("lumber", "lumber take-off", LUMBER, _lumber(shop), n),
        _records("panels", "panel take-off", PANELS, _panels(shop), n),
        _records("cutting-boards", "every blank in its board", BOARDS, _boards(shop), n),
        _records("cutting-panels", "every part in its sheet", SHEETS, _sheets(shop), n),
        _records("offcuts", "what is left over and long enough to keep", OFFCUTS, _offcuts(shop), n),
        _records("backer", "backer layout, board by board", BACKER, _backer(shop), n),
        _records("hardware", "hardware and fasteners", HARDWARE, _hardware(shop), n),
        _records("ordinates", "ordinates of shaped parts", ORDINATES, _ordinates(shop), fine(n)),
    )


Raw = tuple[str | int | float | Fraction, ...]


def _records(
    name: str, says: str, fields: tuple[Field, ...], raw: Iterable[Raw], notation: Notation
) -> Records:
    rows: list[tuple[Value, ...]] = []
    for values in raw:
        row: list[Value] = []
        for field, value in zip(fields, values, strict=True):
            if field.kind == "length":
                length = Fraction(value)
                row += [
                    plain(length_cell(length, notation, rounded=name == "ordinates")),
                    round(float(length), 4),
                ]
            elif field.kind == "number":
                row.append(round(float(value), 4))
            else:
                row.append(int(value) if field.kind == "count" else str(value))
        rows.append(tuple(row))
    return Records(name, says, fields, tuple(rows))


def _parts(shop: ShopSchedules) -> Iterable[Raw]:
    headings = dict(shop.parts.groups)
    for row in shop.parts.rows:
        yield (
            row.mark,
            row.quantity,
            row.name,
            row.hand,
            headings[row.group],
            row.material_text,
            row.thickness,
            row.width,
            row.length,
            plain(row.rough.cell(shop.notation)) if row.rough else "",
            row.grain,
            ", ".join(row.shows),
            joints_text(row.joints, shop.notation),
            "; ".join(row.notes),
            " ".join(row.sheets),
        )


def _lumber(shop: ShopSchedules) -> Iterable[Raw]:
    for row in shop.lumber.rows:
        yield (
            row.material.name,
            row.label,
            row.width,
            row.blanks,
            row.net_length,
            row.net,
            row.with_waste,
            shop.lumber.waste,
            sum(count for count, _ in row.bought),
            plain(bought_cell(row, shop.notation)),
            row.tally,
        )


def _panels(shop: ShopSchedules) -> Iterable[Raw]:
    for row in shop.sheet_goods:
        yield (
            row.material.name,
            row.label,
            row.thickness,
            row.width,
            row.length,
            "yes" if row.grain else "no",
            row.pieces,
            row.area / (10**6 if shop.lumber.metric else MM_PER_FOOT**2),
            row.sheets,
            row.used,
            row.statement,
        )


def _boards(shop: ShopSchedules) -> Iterable[Raw]:
    for plan in shop.boards.plans:
        for board in plan.boards:
            for piece in board.pieces:
                yield (
                    plan.material.name,
                    plan.label,
                    board.number,
                    board.width,
                    board.length,
                    piece.lane + 1,
                    piece.mark,
                    piece.name,
                    f"{piece.which}/{piece.of}",
                    piece.start,
                    piece.length,
                    piece.width,
                )


def _sheets(shop: ShopSchedules) -> Iterable[Raw]:
    for plan in shop.panels.plans:
        for sheet in plan.sheets:
            for piece in sheet.pieces:
                yield (
                    plan.material.name,
                    plan.thickness,
                    sheet.number,
                    "crosscuts" if sheet.crosscut_first else "rips",
                    piece.mark,
                    piece.name,
                    piece.x,
                    piece.y,
                    piece.along,
                    piece.across,
                )


def _offcuts(shop: ShopSchedules) -> Iterable[Raw]:
    for plan in shop.boards.plans:
        for board in plan.boards:
            for offcut in board.offcuts:
                yield (plan.material.name, plan.label, board.number, offcut, board.width / board.lanes)
    for panel in shop.panels.plans:
        thickness = plain(length_cell(panel.thickness, shop.notation))
        for sheet in panel.sheets:
            for along, across in sheet.offcuts:
                yield (panel.material.name, thickness, sheet.number, along, across)


def _backer(shop: ShopSchedules) -> Iterable[Raw]:
    for layout in shop.backers:
        for number, board in enumerate(layout.boards, 1):
            yield (
                layout.name,
                number,
                board.mark,
                board.face,
                board.cut,
                "yes" if board.ripped else "no",
                layout.gap,
            )


def _hardware(shop: ShopSchedules) -> Iterable[Raw]:
    for row in shop.hardware:
        yield (row.name, row.item, row.use, row.quantity, row.run, row.rule)


def _ordinates(shop: ShopSchedules) -> Iterable[Raw]:
    for pattern in shop.patterns:
        for number, curve in enumerate(pattern.curves, 1):
            for ordinate in curve.ordinates:
                if ordinate.offset < 0:
                    continue  # both halves are alike
                sizes = (Fraction(round(v * 10**4), 10**4) for v in (curve.chord, curve.rise, curve.radius))
                yield (
                    pattern.mark,
                    pattern.name,
                    number,
                    *sizes,
                    ordinate.offset,
                    Fraction(round(ordinate.height * 10**4), 10**4),
                )
