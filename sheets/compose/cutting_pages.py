"""Cutting diagrams on sheets: boards, panels, backers to one scale, every piece with its mark. Paper mm."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.compose.ink import LEAST_TEXT, bounds, frame, join, moved, width, words, wrapped
from sheets.compose.packing import Shelf
from sheets.compose.page import Page, sheet_number, size_of
from sheets.compose.scales import Units, series
from sheets.drawing.items import Area, Item, Run, Stroke, Text
from sheets.geometry.path import Box
from sheets.geometry.region import difference, rectangle
from sheets.schedules.diagrams import Diagram, DiagramPiece
from sheets.schedules.table import Cell

_BETWEEN = 10.0  # between columns
_UNDER = 4.0  # between diagrams
_HEAD = 7.5
_LEADING = 4.0
_CLEAR = 0.7  # from lettering to the edge of its piece
_WASTE = 0.86  # grey of what is neither part nor kerf
_LARGEST = Fraction(1, 12)
_LEAST_OF_TWO = Fraction(1, 25)  # smaller, a board's pieces are too narrow for their marks
_TITLE = 3.5
_TITLE_LEADING = 5.6


@dataclass(frozen=True, slots=True)
class _Block:
    """One diagram, or a heading, its upper left corner at (0, 0)."""

    items: tuple[Item, ...]
    wide: float
    tall: float
    heads: str = ""  # the words of a heading, which stays with what follows
    scale: str = ""  # of a heading, and what it heads
    room: float = 0.0  # of a heading: the width of what it heads, at which it is broken


def cutting_pages(
    diagrams: Sequence[Diagram], space: Box, units: Units, *, first: int = 1, title: str = "CUTTING DIAGRAMS"
) -> tuple[Page, ...]:
    """Return the sheets of the diagrams, set in columns from the left.

    first: sequence number of the first of them among the schedules. A diagram that no scale fits is drawn at
    the smallest.
    """
    if not diagrams:
        return ()
    scale, said = _scale(diagrams, space, units)
    blocks: list[_Block] = []
    before = ""
    for number, diagram in enumerate(diagrams, 1):
        drawn = _drawn(diagram, scale, size_of(space)[0])
        if diagram.title != before:
            blocks.append(_heading(diagram.title, said, drawn.wide))
            before = diagram.title
        # One key for all of it, so that a later issue is held against it as a whole.
        key = f"picture/{number}"
        items = tuple(replace(i, key=key) for i in drawn.items if isinstance(i, (Area, Stroke, Text)))
        blocks.append(replace(drawn, items=items))
    pages = _flowed(blocks, space)
    return tuple(Page(sheet_number(6, first + k), title, (), tuple(items)) for k, items in enumerate(pages))


def _scale(diagrams: Sequence[Diagram], space: Box, units: Units) -> tuple[float, str]:
    """The largest standard scale at which two columns of the longest stock stand side by side, else one; two
    only while pieces are wide enough for their marks."""
    room = size_of(space)
    longest = max(float(d.width) for d in diagrams)
    tallest = max(float(d.height) for d in diagrams)
    scales = [s for s in series(units) if s.ratio <= _LARGEST]
    for columns, least in ((2, _LEAST_OF_TWO), (1, Fraction(0))):
        for scale in (s for s in scales if s.ratio >= least):
            wide = columns * longest * float(scale.ratio) + (columns - 1) * _BETWEEN
            if wide <= room[0] and tallest * float(scale.ratio) + 3 * _HEAD + _LEADING <= room[1]:
                return float(scale.ratio), scale.text
    return float(scales[-1].ratio), scales[-1].text


def _heading(text: str, scale: str, room: float) -> _Block:
    # A column is as wide as its diagrams, whatever their stock is called.
    lines = wrapped(text, room, _TITLE, "bold")
    y = -_TITLE - 1.0
    items: list[Text] = []
    for k, line in enumerate(lines):
        y -= _TITLE_LEADING if k else 0.0
        items.append(words(line, (0.0, y), _TITLE, weight="bold"))
    after = width(lines[-1], _TITLE, "bold") + 3.0
    if after + width(f"SCALE {scale}") > room:
        after, y = 0.0, y - _LEADING
    items.append(words(f"SCALE {scale}", (after, y)))
    return _Block(tuple(items), bounds(items)[2], -y + _HEAD - _TITLE - 1.0, text, scale, room)


def _drawn(diagram: Diagram, scale: float, room: float) -> _Block:
    wide, tall = float(diagram.width) * scale, float(diagram.height) * scale
    caption = ", ".join(words for words in (diagram.count, *diagram.says) if words)
    items: list[Item] = []
    y = 0.0
    for line in wrapped(caption.upper(), min(room, max(wide, 90.0))):
        y -= _LEADING
        items.append(words(line, (0.0, y + 1.2)))
    low = y - tall
    left = difference(
        (rectangle(0.0, low, wide, y),), (rectangle(*_box(p, scale, low)) for p in diagram.pieces)
    )
    if left:
        items.append(Area(left, fill=_WASTE))
    small: list[str] = []
    for piece in diagram.pieces:
        box = _box(piece, scale, low)
        lettering = _lettering(piece, box)
        items += [frame(box, "table rule"), *lettering]
        if not lettering:
            small.append(_lettered(piece.label))
    items.append(frame((0.0, low, wide, y), "table border"))
    under = low
    if small:
        for line in wrapped("SMALL, FROM THE LEFT: " + _in_turn(small), max(wide, 60.0)):
            under -= _LEADING
            items.append(words(line, (0.0, under + 0.6)))
    return _Block(tuple(items), bounds(items)[2], -under + _UNDER)


def _in_turn(marks: Sequence[str]) -> str:
    runs = ((mark, len(list(same))) for mark, same in itertools.groupby(marks))
    return ", ".join(
        f"{mark} ({times} TIMES)" if times > 2 else ", ".join([mark] * times) for mark, times in runs
    )


def _box(piece: DiagramPiece, scale: float, low: float) -> Box:
    x, y = float(piece.x) * scale, low + float(piece.y) * scale
    return (x, y, x + float(piece.width) * scale, y + float(piece.height) * scale)


def _lettering(piece: DiagramPiece, box: Box) -> tuple[Text, ...]:
    """The mark and, where it fits, the size; turned up when the piece is taller than wide. Empty when nothing
    fits.
    """
    wide, tall = size_of(box)
    upright = tall > wide
    room, height = (tall, wide) if upright else (wide, tall)
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    angle = 90.0 if upright else 0.0
    label = _lettered(piece.label)
    both = (Run(f"{label}  "), *_runs(piece.size))
    if height < LEAST_TEXT + 2 * _CLEAR:
        return ()
    if piece.size and width(both) + 2 * _CLEAR <= room and height >= LEAST_TEXT * 1.9 + 2 * _CLEAR:
        return (words(both, middle, h="centre", v="middle", angle=angle),)
    if piece.size and _all_text(piece.size) and width(both) + 2 * _CLEAR <= room:
        return (words(both, middle, h="centre", v="middle", angle=angle),)
    if width(label) + 2 * _CLEAR <= room:
        return (words(label, middle, h="centre", v="middle", angle=angle),)
    return ()


def _lettered(label: str) -> str:
    # A mark keeps its small l or r, for left and right; a word after it is in capitals like all others.
    mark, _, word = label.partition(" ")
    return f"{mark} {word.upper()}".rstrip()


def _all_text(cell: Cell) -> bool:
    return isinstance(cell, str)


def _runs(cell: Cell) -> tuple[Run, ...]:
    if isinstance(cell, str):
        return (Run(cell),) if cell else ()
    return tuple(Run(run.text, run.numerator, run.denominator) for run in cell)


def _flowed(blocks: Sequence[_Block], space: Box) -> list[list[Item]]:
    """Blocks down each column, columns from the left, then the next sheet; a heading never ends a column.

    What is on the last sheet goes where the one before has room for it, if it has.
    """
    pages: list[list[Item]] = [[]]
    taken: list[list[Box]] = [[]]
    x, y, column = space[0], space[3], 0.0
    heading = _Block((), 0.0, 0.0)
    for number, each in enumerate(blocks):
        heading = each if each.heads else heading
        after = blocks[number + 1] if each.heads and number + 1 < len(blocks) else None
        if y - each.tall - (after.tall if after else 0.0) < space[1] and y < space[3]:
            x, y, column = x + column + _BETWEEN, space[3], 0.0
        again = heading
        if heading.heads:
            again = _heading(f"{heading.heads} (CONTINUED)", heading.scale, heading.room)
        headed = again.wide if y == space[3] and not each.heads else 0.0
        if (
            x + max(each.wide, column, headed, after.wide if after else 0.0) > space[2] + 0.01
            and x > space[0]
        ):
            pages.append([])
            taken.append([])
            x, y, column = space[0], space[3], 0.0
        if y == space[3] and not each.heads:
            pages[-1] += [moved(item, x, y) for item in again.items]
            taken[-1].append((x, y - again.tall, x + again.wide, y))
            y, column = y - again.tall, again.wide
        pages[-1] += [moved(item, x, y) for item in each.items]
        taken[-1].append((x, y - each.tall, x + each.wide, y))
        y -= each.tall
        column = max(column, each.wide)
    if len(pages) > 1:
        last = join(taken[-1])
        at = Shelf(space, taken[-2]).spot(*size_of(last))
        if at is not None:
            moved_up = [moved(item, at[0] - last[0], at[1] - last[3]) for item in pages.pop()]
            pages[-1] += moved_up
    return pages
