"""Tables set on sheets: columns as wide as their words need, cells broken in lines, heads repeated. Paper
mm."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import fsum

from sheets.base.notation import Run
from sheets.compose.border.fit import fitted
from sheets.compose.ink import LEAST_TEXT, line, moved, width, words, wrapped
from sheets.compose.page_sizes import TABLE
from sheets.compose.pages.packing import Shelf
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.drawing.items import Group, Item, Text, Weight
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.schedules.table import Cell, TableData, plain

_UNIT = re.compile(r"(?<=[0-9])\s?(?:KN/M2|N/MM|MM|CM|M|KG|LB|IN|FT|KN|N|M2|SQ FT)(?=[^A-Z]|$)")
_NEWTONS = re.compile(r"\bk?n\b")
_NOTE_STEP = LEAST_TEXT * TABLE.notes_leading
_RAISED = set("²³")  # figures that stand higher than capitals
_FEWEST_ROWS = 4  # a piece of a table with fewer rows than this is not left behind


@dataclass(frozen=True, slots=True)
class _Row:
    cells: tuple[tuple[tuple[Run, ...], ...], ...]  # per column, per line, runs
    tall: float
    key: str = ""
    heading: bool = False  # one cell over all columns

    @property
    def says(self) -> str:
        """All that it says on one line, however its cells were broken."""
        cells = (" ".join(Text(line, (0.0, 0.0), LEAST_TEXT).plain for line in cell) for cell in self.cells)
        return " | ".join(cell for cell in cells if cell)


@dataclass(frozen=True, slots=True)
class SetTable:
    """A table with its column widths and broken rows."""

    table: TableData
    widths: tuple[float, ...]
    head: _Row
    rows: tuple[_Row, ...]
    notes: tuple[tuple[str, ...], ...]  # each in lines

    @property
    def wide(self) -> float:
        return fsum(self.widths)

    @property
    def tall(self) -> float:
        return TABLE.title_tall + self.head.tall + fsum(r.tall for r in self.rows) + self.notes_tall

    @property
    def notes_tall(self) -> float:
        return (
            sum(len(note) for note in self.notes) * LEAST_TEXT * TABLE.notes_leading + TABLE.above_notes
            if self.notes
            else 0.0
        )


def set_table(table: TableData, room: float, *, inch: bool, tall: float = 0.0) -> SetTable:
    """Return a table made ready for a width of `room`. If it is taller than `tall`, wider cells are tried."""
    ready = _ready(table, _widths(table, room, TABLE.widest_cell), inch)
    if not tall or ready.tall <= tall:
        return ready
    # Fewer broken cells make fewer sheets.
    return min(
        (ready, _ready(table, _widths(table, room, 3 * TABLE.widest_cell), inch)), key=lambda r: r.tall
    )


def _ready(table: TableData, widths: tuple[float, ...], inch: bool) -> SetTable:
    step = TABLE.fraction_row if inch and _has_fraction(table) else TABLE.row
    heads = tuple(c.header.upper() for c in table.columns)
    raised = any(_RAISED & set(h) for h in heads)
    head = _row(heads, widths, TABLE.raised_head_row if raised else TABLE.head_row, bold=True)
    known_by = heads.index("MARK") if "MARK" in heads else 0
    rows = tuple(
        _Row(((_runs(heading),),), TABLE.group_row, heading, True)
        if (heading := _heading(row))
        else _row(row, widths, step, key=plain(row[known_by]))
        for row in table.rows
    )
    notes = tuple(wrapped(note.upper(), fsum(widths)) for note in table.notes)
    return SetTable(table, widths, head, rows, notes)


def table_pages(
    tables: Sequence[TableData], space: Box, *, inch: bool, kind: int = 6, title: str = "SCHEDULES",
    first_taken: Sequence[Box] = (), in_order: bool = False,
) -> tuple[Page, ...]:  # fmt: skip
    """The sheets of tables, each where it first fits whole; one taller than a sheet is continued on the next.

    first_taken: boxes of what stands on the first sheet already; paper mm. in_order: none stands before one
    that it follows.
    """
    width_all, height = size_of(space)
    under = min((box[1] for box in first_taken), default=space[3]) - space[1]
    rooms = [under if in_order else height, *[height] * len(tables)]
    filled = [table for table in tables if table.rows]
    ready = [set_table(t, width_all, inch=inch, tall=r) for t, r in zip(filled, rooms, strict=False)]
    # The tables' own order, or the tall ones first where that takes fewer sheets.
    packed = _packed(ready, space, first_taken, in_order)
    tall_first = sorted(ready, key=lambda t: -t.tall)
    if len(packed) > 1 and tall_first != ready and not in_order:
        packed = min(packed, _packed(tall_first, space, first_taken), key=len)
    names = _names(len(packed), title)
    drawn = [tuple(piece.drawn() for piece in pieces) for pieces in packed]
    return tuple(Page(sheet_number(kind, k + 1), names[k], (), items) for k, items in enumerate(drawn))


@dataclass(frozen=True, slots=True)
class _Piece:
    """The rows of a table from `start` to before `end`, and where its upper left corner stands."""

    table: SetTable
    start: int
    end: int
    corner: Point

    def drawn(self) -> Group:
        return moved(_draw(self.table, self.start, self.end)[0], *self.corner)


def _packed(
    ready: Sequence[SetTable], space: Box, first_taken: Sequence[Box], in_order: bool = False
) -> list[list[_Piece]]:
    shelves: list[Shelf] = []
    pages: list[list[_Piece]] = []

    def new_sheet() -> None:
        shelves.append(Shelf(space, list(first_taken) if not pages else []))
        pages.append([])

    if first_taken:
        new_sheet()

    for table in ready:
        at = 0
        while at < len(table.rows):
            end = len(table.rows)
            tall = _tall(table, at, end)
            open_from = len(shelves) - 1 if in_order and shelves else 0
            open_ones = list(enumerate(shelves))[open_from:]
            whole = next(((k, s) for k, f in open_ones if (s := f.spot(table.wide, tall))), None)
            if whole is None and tall <= space[3] - space[1]:
                new_sheet()
                first = shelves[-1].spot(table.wide, tall)
                whole = (len(pages) - 1, first) if first else None
            if whole is not None:
                k, corner = whole
            else:
                k, corner, end = _rows_placed(table, at, shelves, new_sheet)
                tall = _tall(table, at, end)
            shelves[k].take(corner, table.wide, tall)
            pages[k].append(_Piece(table, at, end, corner))
            at = end
    return pages


def _rows_placed(
    table: SetTable, at: int, shelves: list[Shelf], new_sheet: Callable[[], None]
) -> tuple[int, Point, int]:
    # As many rows as the last sheet has room for, if that is worth it, else a share of a new one; what goes
    # on after that is for the next sheet.
    place = shelves[-1].deepest(table.wide) if shelves and at == 0 else None
    count = _rows_that_fit(table, at, place[1]) if place else 0
    if place is None or count < _FEWEST_ROWS:
        new_sheet()
        place = shelves[-1].deepest(table.wide) or ((shelves[-1].space[0], shelves[-1].space[3]), 0.0)
        count = _shared_out(table, at, place[1])
    return len(shelves) - 1, place[0], at + count


def _shared_out(table: SetTable, at: int, tall: float) -> int:
    # Rows for the first of the sheets that the rest of a table needs, the last to be about as full as it.
    firsts = [at]
    while firsts[-1] < len(table.rows):
        firsts.append(firsts[-1] + max(1, _rows_that_fit(table, firsts[-1], tall)))
    sheets = len(firsts) - 1
    share = (fsum(row.tall for row in table.rows[at:]) + table.notes_tall) / sheets
    used = 0.0
    for end in range(at + 1, firsts[1]):
        used += table.rows[end - 1].tall
        if used >= share and not table.rows[end - 1].heading:
            return end - at
    return firsts[1] - at


def _names(count: int, title: str) -> list[str]:
    return [title] * count


def _rows_that_fit(ready: SetTable, start: int, tall: float) -> int:
    used = TABLE.title_tall + ready.head.tall
    count = 0
    for k in range(start, len(ready.rows)):
        notes = ready.notes_tall if k == len(ready.rows) - 1 else 0.0
        if used + ready.rows[k].tall + notes > tall:
            break
        used += ready.rows[k].tall
        count += 1
    # A heading stays with the first row under it.
    while count > 1 and ready.rows[start + count - 1].heading:
        count -= 1
    return count


def draw_whole(ready: SetTable) -> tuple[Group, float]:
    """The whole table, its upper left corner at (0, 0), and its height."""
    return _draw(ready, 0, len(ready.rows))


def _tall(ready: SetTable, start: int, end: int) -> float:
    # What `_draw` comes to, summed in its order.
    y = -TABLE.title_tall - ready.head.tall
    for row in ready.rows[start:end]:
        y -= row.tall
    for note in ready.notes if end == len(ready.rows) else ():
        for _ in note:
            y -= _NOTE_STEP
    return -y + (TABLE.above_notes if ready.notes and end == len(ready.rows) else 0.0)


def _draw(ready: SetTable, start: int, end: int) -> tuple[Group, float]:
    wide = ready.wide
    y = -TABLE.title_tall
    top = y
    # What a continued table says again at its head is no heading of its own.
    head = _drawn_row(ready, ready.head, y, bold=True)
    items: list[Item] = [_title(ready, start), *((head,) if not start else head.items)]
    y -= ready.head.tall
    items.append(line((0, y), (wide, y), "table border"))
    for k in range(start, end):
        if k > start:
            items.append(line((0, y), (wide, y), "table rule"))
        items.append(_drawn_row(ready, ready.rows[k], y))
        y -= ready.rows[k].tall
    items += _column_rules(ready, start, end, top)
    for a, b in (((0, top), (wide, top)), ((wide, top), (wide, y)), ((wide, y), (0, y)), ((0, y), (0, top))):
        items.append(line(a, b, "table border"))
    if end == len(ready.rows):
        for note in ready.notes:
            lines = [words(part, (0.0, y - k * _NOTE_STEP), LEAST_TEXT) for k, part in enumerate(note, 1)]
            items.append(group("note", "", " ".join(note), lines))
            y -= len(lines) * _NOTE_STEP
        y -= TABLE.above_notes if ready.notes else 0.0
    return group("table", ready.table.id, "", items), -y


def _title(ready: SetTable, start: int) -> Item:
    says = ready.table.title.upper() + (" (CONTINUED)" if start else "")
    result = fitted(says, ready.wide, TABLE.title_tall, height=TABLE.title, weight="bold")
    height, squeeze = (result.height, result.squeeze) if result else (LEAST_TEXT, TABLE.least_title)
    text = words(says, (0.0, -TABLE.title - TABLE.title_drop), height, weight="bold", squeeze=squeeze)
    return text if start else group("heading", ready.table.id, says, (text,))


def _column_rules(ready: SetTable, start: int, end: int, top: float) -> list[Item]:
    # Rules between columns, left out where a heading runs over them.
    runs: list[tuple[float, float]] = [(top, top - ready.head.tall)]
    y = top - ready.head.tall
    for row in ready.rows[start:end]:
        if row.heading:
            runs.append((y - row.tall, y - row.tall))
        else:
            runs[-1] = (runs[-1][0], y - row.tall)
        y -= row.tall
    found: list[Item] = []
    x = 0.0
    for w in ready.widths[:-1]:
        x += w
        found += [line((x, a), (x, b), "table rule") for a, b in runs if a - b > TABLE.least_rule]
    return found


def _drawn_row(ready: SetTable, row: _Row, y: float, *, bold: bool = False) -> Group:
    box = Box(0.0, y - row.tall, ready.wide, y)
    if row.heading:
        text = _cell_text(
            row.cells[0][0], (TABLE.pad, y - row.tall / 2), "left", ready.wide - 2 * TABLE.pad, True
        )
        return Group("heading", row.key, row.says, (text,), box)
    items: list[Item] = []
    x = 0.0
    for column, w, lines in zip(ready.table.columns, ready.widths, row.cells, strict=True):
        align = "left" if bold and column.align == "left" else column.align
        at_x = {"left": x + TABLE.pad, "centre": x + w / 2, "right": x + w - TABLE.pad}[align]
        step = (row.tall - 1.0) / max(len(c) for c in row.cells)
        for k, runs in enumerate(lines):
            if runs:
                items.append(
                    _cell_text(runs, (at_x, y - 0.5 - (k + 0.5) * step), align, w - 2 * TABLE.pad, bold)
                )
        x += w
    return Group("heading" if bold else "row", row.key, row.says, tuple(items), box)


def _cell_text(runs: tuple[Run, ...], at: tuple[float, float], align: str, room: float, bold: bool) -> Text:
    wide = width(runs, LEAST_TEXT, "bold" if bold else "regular")
    squeeze = 1.0 if wide <= room else max(TABLE.least_squeeze, room / wide)
    weight: Weight = "bold" if bold else "regular"
    return words(runs, at, LEAST_TEXT, h=align, v="middle", weight=weight, squeeze=squeeze)


def _heading(row: Sequence[Cell]) -> str:
    """The words of a row that is a heading: one cell filled among several, and that one in plain words."""
    filled = [cell for cell in row if cell]
    return filled[0] if len(filled) == 1 and len(row) > 2 and isinstance(filled[0], str) else ""


def lettered(text: str) -> str:
    """Words in capitals as a drafter letters them; units that follow a figure keep their own."""
    return _UNIT.sub(lambda m: _unit(m.group(0).lower()), text.upper())


def _unit(small: str) -> str:
    return _NEWTONS.sub(lambda m: m.group(0).replace("n", "N"), small)


def _runs(cell: Cell) -> tuple[Run, ...]:
    if isinstance(cell, str):
        return (Run(lettered(cell)),) if cell else ()
    return tuple(Run(lettered(r.text), r.numerator, r.denominator) for r in cell)


def _broken(cell: Cell, room: float, weight: Weight) -> tuple[tuple[Run, ...], ...]:
    """A cell in lines no wider than `room`, broken at spaces; a fraction stays with what it stands beside."""
    runs = _runs(cell)
    if width(runs, LEAST_TEXT, weight) <= room:
        return (runs,)
    lines: list[list[Run]] = [[]]
    for piece in _words(runs):
        longer = [*lines[-1], *([Run(" ")] if lines[-1] else []), *piece]
        if lines[-1] and width(longer, LEAST_TEXT, weight) > room:
            lines.append(list(piece))
        else:
            lines[-1] = longer
    return tuple(tuple(part) for part in lines)


def _words(runs: Sequence[Run]) -> list[list[Run]]:
    found: list[list[Run]] = [[]]
    for run in runs:
        if run.denominator:
            found[-1].append(run)
            continue
        for k, word in enumerate(run.text.split(" ")):
            if k and found[-1]:
                found.append([])
            if word:
                found[-1].append(Run(word))
    return [word for word in found if word]


def _row(
    cells: Sequence[Cell], widths: Sequence[float], step: float, *, key: str = "", bold: bool = False
) -> _Row:
    weight: Weight = "bold" if bold else "regular"
    broken = tuple(_broken(cell, w - 2 * TABLE.pad, weight) for cell, w in zip(cells, widths, strict=True))
    return _Row(broken, max(len(c) for c in broken) * step + 1.0, key)


def _has_fraction(table: TableData) -> bool:
    return any(
        not isinstance(cell, str) and any(r.denominator for r in cell) for row in table.rows for cell in row
    )


def _widths(table: TableData, room: float, widest: float) -> tuple[float, ...]:
    wanted: list[float] = []
    least: list[float] = []
    rows = [row for row in table.rows if not _heading(row)]
    for k, column in enumerate(table.columns):
        head = (Run(column.header.upper()),)
        cells = [_runs(row[k]) for row in rows]
        natural = max([width(head, LEAST_TEXT, "bold"), *(width(c, LEAST_TEXT) for c in cells)])
        longest = max(
            (width(word, LEAST_TEXT, "bold") for c in (head, *cells) for word in _words(c)), default=0.0
        )
        floor = max(longest, TABLE.narrowest - 2 * TABLE.pad) + 2 * TABLE.pad + TABLE.cell_slack
        least.append(floor)
        wanted.append(max(floor, min(natural, widest) + 2 * TABLE.pad + TABLE.cell_slack))
    if fsum(wanted) <= room:
        return tuple(wanted)
    over = fsum(wanted) - room
    slack = fsum(w - f for w, f in zip(wanted, least, strict=True))
    if slack >= over:
        return tuple(w - (w - f) * over / slack for w, f in zip(wanted, least, strict=True))
    return tuple(f * room / fsum(least) for f in least)
