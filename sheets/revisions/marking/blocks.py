"""What a sheet says outside its views, block by block: rows of tables, lines of notes, pictures, the fields
of its title block. Paper mm.

A block is known by its words, wherever it stands: that it moved down a column is no change to what it says.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from itertools import pairwise
from typing import Literal

from sheets.base.tolerance import settled
from sheets.drawing.items import Area, Item, Sheet, Stroke, Symbol, Text
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import extent
from sheets.geometry.box import Box
from sheets.geometry.path import Arc

BlockKind = Literal["row", "line", "picture", "field"]
PICTURE = "picture/"
"""What the key of all that belongs to one picture on a sheet begins with."""

_RECORD, _RECORD_HEAD = "RECORD OF REVISIONS", "REV. | DATE"
_OF_THE_ISSUE = "{sheet.revision}"
_NUMBERED = re.compile(r"\d+\.")
_SAYS_NO_MORE = re.compile(
    rf"REV\. .*|.*\(CONTINUED\)|{_RECORD}"
)  # of the index, and of a heading that is said again
_LABEL_REACH = 30.0  # a label and what it names stand on one line, mm apart at most
_ONE_NOTE = 1.4  # between lines of one note, mm at most
_LEVEL = 0.01  # mm
_COLUMN = 12.0  # lines of one column begin no further apart, mm


@dataclass(frozen=True, slots=True)
class Block:
    """One block. box: all of it; for a row from side to side of its table."""

    kind: BlockKind
    words: str
    box: Box


def blocks(sheet: Sheet) -> tuple[Block, ...]:
    """Return the blocks of a sheet, down each table and column.

    The record of revisions, what the index says of revisions, and the revision in the title block are left
    out: that they grew is no change to what is built.
    """
    pictures: dict[str, list[Item]] = {}
    plain: list[Item] = []
    fields: list[Block] = []
    for item in sheet.items:
        if isinstance(item, (Stroke, Area, Text)):
            (pictures.setdefault(item.key, []) if item.key.startswith(PICTURE) else plain).append(item)
        elif isinstance(item, Symbol) and item.kind == "title block":
            fields += _fields(item)
    rows, in_tables = _rows(plain)
    others = [item for item in plain if isinstance(item, Text) and id(item) not in in_tables]
    return (*rows, *_lines(others, sheet.frame), *map(_picture, pictures.values()), *fields)


def holds_record(sheet: Sheet) -> bool:
    """Return whether the record of revisions stands on a sheet, which then grows with every issue."""
    return any(isinstance(item, Text) and item.plain == _RECORD for item in sheet.items)


def _rows(items: Sequence[Item]) -> tuple[list[Block], set[int]]:
    # What stands between two rules of one table, left to right; and which lettering stands in any table.
    flat: dict[tuple[float, float], set[float]] = {}
    sides: dict[float, list[tuple[float, float]]] = {}
    for item in items:
        if isinstance(item, Stroke) and item.pen in ("table rule", "table border"):
            for segment in item.path:
                x0, y0, x1, y1 = (round(value, 3) for value in segment.bounds)
                if y0 == y1:
                    flat.setdefault((x0, x1), set()).add(y0)
                elif x0 == x1:
                    sides.setdefault(x0, []).append((y0, y1))
    texts = [item for item in items if isinstance(item, Text)]
    found: list[Block] = []
    taken: set[int] = set()
    for (x0, x1), levels in sorted(flat.items()):
        ours = True
        for top, foot in pairwise(sorted(levels, reverse=True)):
            # A table has sides; the rule under a heading has none.
            if not any(low <= foot and top <= high for low, high in sides.get(x0, ())):
                ours = True
                continue
            inside = [t for t in texts if x0 <= t.at[0] <= x1 and foot < t.at[1] < top]
            if inside:
                taken |= {id(t) for t in inside}
                in_order = sorted(inside, key=lambda t: (round(t.at[0], 1), -t.at[1]))
                words = " | ".join(t.plain for t in in_order)
                ours = ours and not words.startswith(_RECORD_HEAD)
                if ours:
                    found.append(Block("row", words, Box(x0, foot, x1, top)))
    return found, taken


def _lines(texts: Sequence[Text], within: Box) -> Iterator[Block]:
    # A label, or the number of a note, goes with what stands beside it; lines of a numbered note are one.
    # By columns, each from the top.
    level: dict[float, list[Text]] = {}
    for text in texts:
        if within[0] <= text.at[0] <= within[2] and within[1] <= text.at[1] <= within[3]:
            level.setdefault(round(text.at[1], 2), []).append(text)
    found: list[tuple[Block, float]] = []  # with where the words of a numbered note begin, else 0
    for line in level.values():
        line.sort(key=lambda t: t.at[0])
        k = 0
        while k < len(line):
            text, box = line[k], text_box(line[k])
            says = "" if _NUMBERED.fullmatch(text.plain) else text.plain
            after = line[k + 1] if k + 1 < len(line) else None
            indent = 0.0
            names = text.weight == "bold" or not says
            if names and after is not None and after.weight == "regular":
                other = text_box(after)
                if 0 <= other[0] - box[2] < _LABEL_REACH:
                    indent = other[0] if not says else 0.0
                    says, k = f"{says} {after.plain}".strip(), k + 1
                    box = Box(box[0], min(box[1], other[1]), other[2], max(box[3], other[3]))
            if says and not _SAYS_NO_MORE.fullmatch(says):
                found.append((Block("line", says, box), indent))
            k += 1
    column = _columns([block.box[0] for block, _ in found])
    ordered = sorted(found, key=lambda f: (column[f[0].box[0]], -f[0].box[3], f[0].box[0]))
    notes: list[tuple[Block, float]] = []
    for block, indent in ordered:
        before, where = notes[-1] if notes else (None, 0.0)
        if before is not None and where and abs(block.box[0] - where) < _LEVEL and _under(before, block):
            notes[-1] = (_joined(before, block), where)
        else:
            notes.append((block, indent))
    yield from (block for block, _ in notes)


def _under(block: Block, other: Block) -> bool:
    return -_LEVEL < block.box[1] - other.box[3] < _ONE_NOTE


def _joined(block: Block, other: Block) -> Block:
    return Block("line", f"{block.words} {other.words}", block.box.joined(other.box))


def _columns(lefts: Sequence[float]) -> dict[float, int]:
    # Lines that begin within a number's width of each other stand in one column.
    found: dict[float, int] = {}
    column, before = 0, -_COLUMN
    for left in sorted(set(lefts)):
        column += left - before > _COLUMN
        before = left
        found[left] = column
    return found


def _fields(block: Symbol) -> list[Block]:
    cells: dict[str, list[Text]] = {}
    for text in block.texts:
        if text.key and _OF_THE_ISSUE not in text.key:
            cells.setdefault(text.key, []).append(text)
    return [
        Block("field", f"{key}: {' '.join(text.plain for text in texts)}", _reach(texts))
        for key, texts in cells.items()
    ]


def _picture(items: Sequence[Item]) -> Block:
    box = _reach(items)
    texts = [item for item in items if isinstance(item, Text)]
    words = " | ".join(text.plain for text in texts) or "PICTURE"
    drawn = sorted(
        ":".join(f"{settled(value, 1):.1f}" for value in _numbers(segment, box)) + item.pen
        for item in items
        if isinstance(item, Stroke)
        for segment in item.path
    )
    at = [f"{settled(t.at[0] - box[0], 1):.1f}:{settled(t.at[1] - box[1], 1):.1f}" for t in texts]
    return Block("picture", f"{words} #{sha256(repr((drawn, at)).encode('ascii')).hexdigest()[:12]}", box)


def _numbers(segment: object, box: Box) -> tuple[float, ...]:
    x, y = box[0], box[1]
    if isinstance(segment, Arc):
        return (segment.centre[0] - x, segment.centre[1] - y, segment.radius, segment.start, segment.sweep)
    (ax, ay), (bx, by) = segment.a, segment.b  # type: ignore[attr-defined]
    return (ax - x, ay - y, bx - x, by - y)


def _reach(items: Sequence[Item]) -> Box:
    found = extent(items)
    assert found is not None
    return found
