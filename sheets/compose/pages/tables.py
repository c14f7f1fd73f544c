"""Tables set on sheets: columns as wide as their words need, cells broken in lines, heads repeated. Paper
mm."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum

from sheets.compose.border.fit import fitted
from sheets.compose.ink import LEAST_TEXT, line, moved, width, words, wrapped
from sheets.compose.pages.packing import Shelf
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.drawing.items import Item, Run, Text, Weight
from sheets.geometry.path import Box, Point
from sheets.schedules.table import Cell, TableData

_PAD = 1.5  # from a rule to the lettering
_TITLE = 3.5
_TITLE_TALL = 7.5
_WIDEST_CELL = 62.0  # words wider than this are broken first
_NARROWEST = 9.0
_UNIT = re.compile(r"(?<=[0-9])\s?(?:KN/M2|N/MM|MM|CM|M|KG|LB|IN|FT|KN|N|M2|SQ FT)(?=[^A-Z]|$)")
_NEWTONS = re.compile(r"\bk?n\b")
_NOTE_STEP = LEAST_TEXT * 1.55
_RAISED = set("²³")  # figures that stand higher than capitals
_FEWEST_ROWS = 4  # a piece of a table with fewer rows than this is not left behind


@dataclass(frozen=True, slots=True)
class _Row:
    cells: tuple[tuple[tuple[Run, ...], ...], ...]  # per column, per line, runs
    tall: float
    heading: bool = False  # one cell over all columns


@dataclass(frozen=True, slots=True)
class SetTable:
    """A table with its column widths and broken rows."""

    table: TableData
    widths: tuple[float, ...]
    head: _Row
    rows: tuple[_Row, ...]
    notes: tuple[str, ...]

    @property
    def wide(self) -> float:
        return fsum(self.widths)

    @property
    def tall(self) -> float:
        return _TITLE_TALL + self.head.tall + fsum(r.tall for r in self.rows) + self.notes_tall

    @property
    def notes_tall(self) -> float:
        return len(self.notes) * LEAST_TEXT * 1.55 + 1.5 if self.notes else 0.0


def set_table(table: TableData, room: float, *, inch: bool, tall: float = 0.0) -> SetTable:
    """Return a table made ready for a width of `room`. If it is taller than `tall`, wider cells are tried."""
    ready = _ready(table, _widths(table, room, _WIDEST_CELL), inch)
    if not tall or ready.tall <= tall:
        return ready
    # Fewer broken cells make fewer sheets.
    return min((ready, _ready(table, _widths(table, room, 3 * _WIDEST_CELL), inch)), key=lambda r: r.tall)


def _ready(table: TableData, widths: tuple[float, ...], inch: bool) -> SetTable:
    step = 4.9 if inch and _has_fraction(table) else 3.9
    heads = tuple(c.header.upper() for c in table.columns)
    head = _row(heads, widths, 4.2 if any(_RAISED & set(h) for h in heads) else 3.7, bold=True)
    rows = tuple(
        _Row(((_runs(heading),),), 5.2, True) if (heading := _heading(row)) else _row(row, widths, step)
        for row in table.rows
    )
    notes = tuple(part for note in table.notes for part in wrapped(note.upper(), fsum(widths)))
    return SetTable(table, widths, head, rows, notes)


def with_sheets(tables: Sequence[TableData], sheets: Mapping[str, str]) -> tuple[TableData, ...]:
    """The tables, an empty SHEET cell filled with the sheet that its row's MARK is found on."""
    found: list[TableData] = []
    for table in tables:
        heads = [c.header.upper() for c in table.columns]
        if "MARK" not in heads or "SHEET" not in heads:
            found.append(table)
            continue
        mark, sheet = heads.index("MARK"), heads.index("SHEET")
        rows = tuple(
            tuple(
                sheets.get(str(row[mark]), "") if k == sheet and not cell else cell
                for k, cell in enumerate(row)
            )
            for row in table.rows
        )
        found.append(replace(table, rows=rows))
    return tuple(found)


def table_pages(
    tables: Sequence[TableData], space: Box, *, inch: bool, kind: int = 6, title: str = "SCHEDULES",
    first_taken: Sequence[Box] = (),
) -> tuple[Page, ...]:  # fmt: skip
    """The sheets of tables, each where it first fits whole; one taller than a sheet is continued on the next.

    first_taken: boxes of what stands on the first sheet already; paper mm.
    """
    width_all, height = size_of(space)
    ready = [set_table(t, width_all, inch=inch, tall=height) for t in tables if t.rows]
    # The tables' own order, or the tall ones first where that takes fewer sheets.
    packed = _packed(ready, space, first_taken)
    tall_first = sorted(ready, key=lambda t: -t.tall)
    if len(packed) > 1 and tall_first != ready:
        packed = min(packed, _packed(tall_first, space, first_taken), key=len)
    names = _names(len(packed), title)
    drawn = [tuple(item for piece in pieces for item in piece.drawn()) for pieces in packed]
    return tuple(Page(sheet_number(kind, k + 1), names[k], (), items) for k, items in enumerate(drawn))


@dataclass(frozen=True, slots=True)
class _Piece:
    """The rows of a table from `start` to before `end`, and where its upper left corner stands."""

    table: SetTable
    start: int
    end: int
    corner: Point

    def drawn(self) -> list[Item]:
        return [moved(item, *self.corner) for item in _draw(self.table, self.start, self.end)[0]]


def _packed(ready: Sequence[SetTable], space: Box, first_taken: Sequence[Box]) -> list[list[_Piece]]:
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
            whole = next(((k, s) for k, f in enumerate(shelves) if (s := f.spot(table.wide, tall))), None)
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
    used = _TITLE_TALL + ready.head.tall
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


def draw_whole(ready: SetTable) -> tuple[list[Item], float]:
    """The whole table, its upper left corner at (0, 0), and its height."""
    return _draw(ready, 0, len(ready.rows))


def _tall(ready: SetTable, start: int, end: int) -> float:
    # What `_draw` comes to, summed in its order.
    y = -_TITLE_TALL - ready.head.tall
    for row in ready.rows[start:end]:
        y -= row.tall
    for _ in ready.notes if end == len(ready.rows) else ():
        y -= _NOTE_STEP
    return -y + (1.5 if ready.notes and end == len(ready.rows) else 0.0)


def _draw(ready: SetTable, start: int, end: int) -> tuple[list[Item], float]:
    wide = ready.wide
    says = ready.table.title.upper() + (" (CONTINUED)" if start else "")
    result = fitted(says, wide, _TITLE_TALL, height=_TITLE, weight="bold")
    items: list[Item] = [
        words(
            says,
            (0.0, -_TITLE - 0.6),
            result.height if result else LEAST_TEXT,
            weight="bold",
            squeeze=result.squeeze if result else 0.75,
        )
    ]
    y = -_TITLE_TALL
    top = y
    y = _draw_row(items, ready, ready.head, y, bold=True)
    items.append(line((0, y), (wide, y), "table border"))
    for k in range(start, end):
        if k > start:
            items.append(line((0, y), (wide, y), "table rule"))
        y = _draw_row(items, ready, ready.rows[k], y)
    items += _column_rules(ready, start, end, top)
    for a, b in (((0, top), (wide, top)), ((wide, top), (wide, y)), ((wide, y), (0, y)), ((0, y), (0, top))):
        items.append(line(a, b, "table border"))
    if end == len(ready.rows):
        for note in ready.notes:
            y -= _NOTE_STEP
            items.append(words(note, (0.0, y), LEAST_TEXT))
        y -= 1.5 if ready.notes else 0.0
    return items, -y


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
        found += [line((x, a), (x, b), "table rule") for a, b in runs if a - b > 0.1]
    return found


def _draw_row(items: list[Item], ready: SetTable, row: _Row, y: float, *, bold: bool = False) -> float:
    if row.heading:
        text = _cell_text(row.cells[0][0], (_PAD, y - row.tall / 2), "left", ready.wide - 2 * _PAD, True)
        items.append(text)
        return y - row.tall
    x = 0.0
    for column, w, lines in zip(ready.table.columns, ready.widths, row.cells, strict=True):
        align = "left" if bold and column.align == "left" else column.align
        at_x = {"left": x + _PAD, "centre": x + w / 2, "right": x + w - _PAD}[align]
        step = (row.tall - 1.0) / max(len(c) for c in row.cells)
        for k, runs in enumerate(lines):
            if runs:
                items.append(_cell_text(runs, (at_x, y - 0.5 - (k + 0.5) * step), align, w - 2 * _PAD, bold))
        x += w
    return y - row.tall


def _cell_text(runs: tuple[Run, ...], at: tuple[float, float], align: str, room: float, bold: bool) -> Text:
    wide = width(runs, LEAST_TEXT, "bold" if bold else "regular")
    squeeze = 1.0 if wide <= room else max(0.6, room / wide)
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


def _row(cells: Sequence[Cell], widths: Sequence[float], step: float, *, bold: bool = False) -> _Row:
    weight: Weight = "bold" if bold else "regular"
    broken = tuple(_broken(cell, w - 2 * _PAD, weight) for cell, w in zip(cells, widths, strict=True))
    return _Row(broken, max(len(c) for c in broken) * step + 1.0)


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
        floor = max(longest, _NARROWEST - 2 * _PAD) + 2 * _PAD + 0.3
        least.append(floor)
        wanted.append(max(floor, min(natural, widest) + 2 * _PAD + 0.3))
    if fsum(wanted) <= room:
        return tuple(wanted)
    over = fsum(wanted) - room
    slack = fsum(w - f for w, f in zip(wanted, least, strict=True))
    if slack >= over:
        return tuple(w - (w - f) * over / slack for w, f in zip(wanted, least, strict=True))
    return tuple(f * room / fsum(least) for f in least)
