"""The first sheet: whose job it is, what is in the set, notes and cautions, what abbreviations, hatches and
marks mean.

Only what the set uses is explained. Blocks of text flow down columns; the axonometric has the head of the
others.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from sheets.annotate.general_notes import general_notes
from sheets.annotate.intent import Annotated
from sheets.checks.reports.in_brief import NOT_JUDGED, Brief
from sheets.compose.ink import LEAST_TEXT, line, moved, picture, words, wrapped
from sheets.compose.ink import width as text_width
from sheets.compose.page_sizes import GENERAL, LEGEND
from sheets.compose.pages import legend
from sheets.compose.pages.key_elevation import key_elevation
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.compose.pages.record_block import with_record
from sheets.compose.pages.tables import lettered
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.placed import Placed
from sheets.drawing.items import Item
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.model.wall import Wall

CAUTIONS: tuple[str, ...] = (
    "The appliance's listing and its installation manual govern every clearance to it. Clearances shown are "
    "those copied from the manual or the cited code; whoever is responsible on site checks them before work "
    "begins.",
    "These drawings propose woodwork. They do not certify that it is safe or lawful.",
    "Local codes, and the licensed trades for structure, gas, power and flue, govern over these drawings.",
    "Tall cases are to be fixed to the structure so that they cannot tip. Those responsible for the "
    "structure size "
    "the fixings for the wall as found.",
    "Do not scale. Printed sizes govern; sizes marked \u00b1 are verified in the field before cutting.",
)
"""The first is left out where there is no fireplace."""
READING: tuple[str, ...] = (
    "Marks in rings on the views are the marks in the schedule of parts.",
    "Left and right hand pieces are mirror images unless noted.",
)
_STEP = LEAST_TEXT * 1.6
_CONTINUED = " (CONTINUED)"
# Common on US and metric woodwork drawings (common practice).
ABBREVIATIONS: dict[str, str] = {
    "A.F.F.": "above finished floor",
    "CL": "centre line",
    "CLR": "clear",
    "DIA": "diameter",
    "EA": "each",
    "EQ": "equal",
    "FIN": "finish, finished",
    "GYP": "gypsum board",
    "HDWD": "hardwood",
    "HORIZ": "horizontal",
    "L.H.": "left hand",
    "MAX": "maximum",
    "MIN": "minimum",
    "N.I.C.": "not in contract",
    "O.C.": "on centre",
    "PLY": "plywood",
    "QTY": "quantity",
    "R": "radius",
    "R.H.": "right hand",
    "REV": "revision",
    "S4S": "surfaced four sides",
    "T&G": "tongue and groove",
    "TYP": "typical",
    "V.I.F.": "verify in field",
    "VERT": "vertical",
    "\u00b1": "verify in field before cutting",
    "@": "each; what they come to follows",
    "\u2248": "about; the exact size follows from the geometry",
}

_RowT = TypeVar("_RowT")


@dataclass(frozen=True, slots=True)
class Block:
    """A block of the first sheet, its upper left corner at (0, 0)."""

    items: tuple[Item, ...]
    tall: float


def general_pages(
    wall: Wall,
    axonometric: Annotated | None,
    pages: Sequence[Page],
    fitter: Fitter,
    space: Box,
    said: str,
    revision_of: Mapping[str, str] | None = None,
    judged: Brief = NOT_JUDGED,
) -> tuple[Page, ...]:
    """The first sheet, and more like it where one is too small. said: all words of the set, for the
    abbreviations; revision_of: the revision each sheet carries, for the index; judged: what the checks leave
    to be answered for.

    The record of revisions has the room that is left: what is built says how many sheets there are.
    """
    width, height = size_of(space)
    count = max(
        int((width + GENERAL.gap) / (GENERAL.column + GENERAL.gap)),
        min(2, int((width + GENERAL.gap) / (GENERAL.narrow + GENERAL.gap))),
        1,
    )
    wide = (width - (count - 1) * GENERAL.gap) / count
    views: tuple[tuple[Placed, Point], ...] = ()
    low = space[3]
    needed = 1
    while True:
        index = [
            (sheet_number(0, k + 1), "INDEX AND GENERAL NOTES" if k == 0 else "GENERAL NOTES")
            for k in range(needed)
        ]
        # A sheet of one column has no place for the picture beside its words.
        alone = fitter.largest(axonometric, width, height) if axonometric and count == 1 else None
        index += [(sheet_number(0, needed + 1), "AXONOMETRIC")] if alone else []
        index += [(p.number, p.title) for p in pages]
        blocks = _blocks(wall, index, pages, (wide, height), said, revision_of, judged)
        sheets = _flow(blocks, count, wide, space, low)
        # The largest picture that costs no further sheet, else the smallest.
        tried = [
            _picture(axonometric, fitter, count - 1, wide, height * part) for part in GENERAL.picture_parts
        ]
        pictures = [placed for placed in tried if placed is not None]
        for placed in pictures:
            low = space[3] - placed.size[1] - GENERAL.gap
            with_picture = _flow(blocks, count, wide, space, low)
            if len(with_picture) <= max(len(sheets), needed) or placed is pictures[-1]:
                left = space[0] + wide + GENERAL.gap
                room = space[2] - left
                at = (left + (room - placed.size[0]) / 2 - placed.box[0], space[3] - placed.box[3])
                views, sheets = ((placed, at),), with_picture
                break
        low = space[3]
        if len(sheets) <= needed:
            break
        needed = len(sheets)
    found = [
        Page(sheet_number(0, k + 1), index[k][1], views if k == 0 else (), tuple(items))
        for k, items in enumerate(sheets)
    ]
    found = list(with_record(found, wall.revisions, space, count, GENERAL.gap))
    if alone:
        x = (space[0] + space[2] - alone.box[0] - alone.box[2]) / 2
        y = (space[1] + space[3] - alone.box[1] - alone.box[3]) / 2
        found.append(Page(sheet_number(0, needed + 1), "AXONOMETRIC", ((alone, (x, y)),)))
    return tuple(found)


def _picture(
    view: Annotated | None, fitter: Fitter, columns: int, wide: float, height: float
) -> Placed | None:
    if columns < 1 or view is None:
        return None
    return fitter.largest(view, columns * wide + (columns - 1) * GENERAL.gap, height)


def _flow(blocks: Sequence[Block], count: int, wide: float, space: Box, low: float) -> list[list[Item]]:
    # Down the columns, those under the picture starting lower; a block is not broken.
    sheets: list[list[Item]] = [[]]
    column, y = 0, space[3]
    for b in blocks:
        while y - b.tall < space[1] and not (y == space[3] and column > 0 and len(sheets) > 1):
            column += 1
            if column >= count:
                sheets.append([])
                column, y, low = 0, space[3], space[3]
                break
            y = low
            if y - space[1] >= b.tall:
                break
        x = space[0] + column * (wide + GENERAL.gap)
        sheets[-1] += [moved(item, x, y) for item in b.items]
        y -= b.tall + GENERAL.gap
    return sheets


def _blocks(
    wall: Wall,
    index: Sequence[tuple[str, str]],
    pages: Sequence[Page],
    room: tuple[float, float],  # width of a column and height of a sheet
    said: str,
    revision_of: Mapping[str, str] | None,
    judged: Brief,
) -> list[Block]:
    p = wall.project
    wide = room[0]
    latest = wall.revisions[-1].number if wall.revisions else ""
    carried = {number: latest for number, _ in index} if revision_of is None else revision_of
    ends = {number: f"REV. {carried[number]}" for number, _ in index if carried.get(number)}
    # Room for the widest number, so that the index lies the same whichever sheets carry one.
    widest = [*(f"REV. {r.number}" for r in wall.revisions), *ends.values()]
    tail = max((2.0 + text_width(words, LEAST_TEXT) for words in widest), default=0.0)
    data = [
        (name, value)
        for name, value in (
            ("PROJECT", p.title),
            ("NUMBER", p.number),
            ("SITE", p.site),
            ("CLIENT", p.client),
            ("SHOP", p.firm),
            ("LEGAL OWNER", p.owner),
            ("DATE", p.date),
            ("STATUS", p.status),
            ("UNITS", _units(wall)),
        )
        if value
    ]
    blocks = [
        *_broken("PROJECT DATA", data, room, pairs),
        *_broken(
            "SHEET INDEX", index, room, partial(pairs, ends=ends, tail=tail, count=f"{len(index)} SHEETS")
        ),
        *_broken("VOID, NOT TO BE USED", _void(wall), room, pairs),
        *_numbered("CAUTIONS", (*(CAUTIONS if wall.opening else CAUTIONS[1:]), *judged.cautions), room),
        *_numbered("FINDINGS OF THE CHECKS, OPEN AND WAIVED", judged.findings, room),
        *_notes(wall, room),
    ]
    hatches = legend.materials(pages, wall)
    blocks += _broken("MATERIALS IN SECTION AND IN FACE", hatches, room, _from_legend)
    blocks += _broken("MARKS", legend.symbols(pages), room, _from_legend)
    blocks.append(_key(pages, wide))
    short = _used(said)
    blocks += _broken("ABBREVIATIONS", short, room, partial(pairs, halves=len(short) > 6))
    return [b for b in blocks if b.items]


def _void(wall: Wall) -> list[tuple[str, str]]:
    # Of each issue that is void the sheets that carry its number.
    return [
        (f"REV. {row.number}", ", ".join(row.void.sheets) or "all its sheets")
        for row in wall.revisions
        if row.void is not None
    ]


def _key(pages: Sequence[Page], wide: float) -> Block:
    items, tall = key_elevation(pages, wide)
    top = -GENERAL.head - GENERAL.list_drop
    if not items:
        return Block((), tall - top + 1.0)
    drawn = picture("views", (moved(item, 0.0, top) for item in items))
    return Block((*_head("WHERE THE VIEWS ARE TAKEN", wide), drawn), tall - top + 1.0)


def _broken(
    title: str,
    rows: Sequence[_RowT],
    room: tuple[float, float],
    drawn: Callable[[str, Sequence[_RowT], float], Block],
) -> list[Block]:
    """A block, in as many as it takes that none is taller than a sheet."""
    wide, tall = room
    found: list[Block] = []
    while rows:
        count = len(rows)
        while count > 1 and drawn(title, rows[:count], wide).tall > tall:
            count -= 1
        found.append(drawn(title, rows[:count], wide))
        rows = rows[count:]
        title = title if title.endswith(_CONTINUED) else title + _CONTINUED
    return found


def _numbered(title: str, notes: Sequence[str], room: tuple[float, float], first: int = 1) -> list[Block]:
    rows = list(enumerate(notes, first))
    return _broken(
        title, rows, room, lambda t, some, w: numbered_list(t, [n for _, n in some], w, some[0][0])
    )


def _notes(wall: Wall, room: tuple[float, float]) -> list[Block]:
    # One run of numbers through all groups, so that a view can refer to a note by its number.
    blocks: list[Block] = []
    count = 0
    groups = [(g.heading, g.lines) for g in general_notes(wall)] + [("READING THE SHEETS", READING)]
    for k, (heading, lines) in enumerate(groups):
        title = f"GENERAL NOTES: {heading}" if k == 0 else heading
        blocks += _numbered(title, lines, room, count + 1)
        count += len(lines)
    return blocks


def _units(wall: Wall) -> str:
    return {"feet-inches": "FEET AND INCHES", "inches": "INCHES", "mm": "MILLIMETRES"}[wall.notation.kind]


def _head(title: str, wide: float) -> list[Item]:
    text = words(title, (0.0, -GENERAL.head - GENERAL.head_drop), GENERAL.head, weight="bold")
    # Said again over what goes on elsewhere, it is no heading of its own.
    head = text if title.endswith(_CONTINUED) else group("heading", title, title, (text,))
    return [head, line((0.0, -GENERAL.head - 2.0), (wide, -GENERAL.head - 2.0), "table border")]


def pairs(
    title: str,
    rows: Sequence[tuple[str, str]],
    wide: float,
    *,
    halves: bool = False,
    ends: Mapping[str, str] | None = None,
    tail: float = 0.0,
    count: str = "",
) -> Block:
    """A block of names and what they stand for, in one or two columns. ends: said at the right end of a
    name's row, in the `tail` mm that are kept free for it; count: at the right end of the heading."""
    if not rows:
        return Block((), 0.0)
    items = _head(title, wide)
    if count:  # loose lettering, as the ends are: another count is no change to what the block says
        items.append(words(count, (wide, -GENERAL.head - GENERAL.head_drop), LEAST_TEXT, h="right"))
    top = -GENERAL.head - GENERAL.first_line
    columns = [rows[: (len(rows) + 1) // 2], rows[(len(rows) + 1) // 2 :]] if halves else [rows]
    each = wide / len(columns)
    lowest = top
    ends = ends or {}
    for k, some in enumerate(columns):
        x, y = k * each, top
        names = (
            max((text_width(n.upper(), LEAST_TEXT, "bold") for n, _ in some), default=0.0) + GENERAL.name_gap
        )
        for name, value in some:
            if name in ends:  # of the issue, so no part of what the row says
                items.append(words(ends[name], (x + each, y - _STEP), LEAST_TEXT, h="right"))
            row = [words(name.upper(), (x, y - _STEP), LEAST_TEXT, weight="bold")]
            for part in wrapped(value.upper(), each - names - 2 - tail):
                y -= _STEP
                row.append(words(part, (x + names, y), LEAST_TEXT))
            items.append(group("row", name, " ".join(text.plain for text in row), row))
        lowest = min(lowest, y)
    return Block(tuple(items), -lowest + 1.0)


def numbered_list(title: str, notes: Sequence[str], wide: float, first: int = 1) -> Block:
    """A block of numbered notes in capitals."""
    items = _head(title, wide)
    y = -GENERAL.head - GENERAL.first_line
    for k, note in enumerate(notes, first):
        drawn = [words(f"{k}.", (0.0, y - _STEP), LEAST_TEXT)]
        lines = wrapped(lettered(note), wide - GENERAL.note_room)
        for part in lines:
            y -= _STEP
            drawn.append(words(part, (GENERAL.note_indent, y), LEAST_TEXT))
        items.append(group("note", f"{k}.", " ".join(lines), drawn))
        y -= GENERAL.between_notes
    return Block(tuple(items), -y + 1.0)


def _from_legend(title: str, rows: Sequence[legend.LegendRow], wide: float) -> Block:
    if not rows:
        return Block((), 0.0)
    items = _head(title, wide)
    y = -GENERAL.head - GENERAL.samples_drop
    each = wide / 2
    for k in range(0, len(rows), 2):
        pair = rows[k : k + 2]
        broken = [wrapped(r.says, each - LEGEND.sample - 5) for r in pair]
        tall = max([r.tall for r in pair] + [len(b) * _STEP for b in broken])
        for j, row in enumerate(pair):
            sample: list[Item] = [moved(i, j * each, y - tall / 2) for i in row.items]
            lines = broken[j]
            for n, part in enumerate(lines):
                at = (j * each + LEGEND.sample + 3, y - tall / 2 + ((len(lines) - 1) / 2 - n) * _STEP)
                sample.append(words(part, at, LEAST_TEXT, v="middle"))
            items.append(group("row", row.says, row.says, sample))
        y -= tall + 2.0
    return Block(tuple(items), -y)


def _used(said: str) -> tuple[tuple[str, str], ...]:
    """Return the abbreviations that occur in the words of a set, in order of the alphabet, signs last."""
    spoken = set(re.findall(r"[A-Z0-9&.]+|@|\u00b1|\u2248", said.upper()))
    spoken |= {word.rstrip(".") for word in spoken}
    return tuple((short, ABBREVIATIONS[short]) for short in sorted(ABBREVIATIONS) if short in spoken)
