"""Cutting diagrams on sheets: boards, panels, backers to one scale, every piece with its mark. Paper mm."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.base.notation import Run
from sheets.compose.ink import LEAST_TEXT, bounds, frame, moved, picture, width, words, wrapped
from sheets.compose.page_sizes import CUTTING
from sheets.compose.pages.packing import Shelf
from sheets.compose.pages.page import Page, in_sequence, size_of
from sheets.compose.scales import Scale, Units, series
from sheets.drawing.items import Area, Item, Text
from sheets.drawing.walk import group
from sheets.geometry.box import Box, around
from sheets.geometry.joining import difference
from sheets.geometry.region import rectangle
from sheets.schedules.diagrams import Diagram, DiagramPiece
from sheets.schedules.table import Cell

_LARGEST = Fraction(1, 12)
_ROOMIEST = Fraction(1, 8)  # where sheets have room
_LEAST_OF_TWO = Fraction(1, 25)  # smaller, a board's pieces are too narrow for their marks


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
    diagrams: Sequence[Diagram], space: Box, units: Units, *, title: str = "CUTTING DIAGRAMS"
) -> tuple[Page, ...]:
    """Return the sheets of the diagrams, set in columns from the left.

    They are numbered from the first of their kind. A diagram that no scale fits is drawn at the smallest.
    """
    if not diagrams:
        return ()
    scale = _scale(diagrams, space, units)
    pages = _at_scale(diagrams, scale, space)
    # Larger where that takes no more sheets: pieces are then wide enough for their marks.
    for larger in (s for s in series(units) if scale.ratio < s.ratio <= _ROOMIEST):
        if _fits(diagrams, larger, space, 1):
            tried = _at_scale(diagrams, larger, space)
            if len(tried) <= len(pages):
                pages = tried
                break
    return in_sequence(6, (Page("", title, (), tuple(items)) for items in pages))


def _at_scale(diagrams: Sequence[Diagram], scale: Scale, space: Box) -> list[list[Item]]:
    blocks: list[_Block] = []
    before = ""
    for number, diagram in enumerate(diagrams, 1):
        drawn = _drawn(diagram, float(scale.ratio), size_of(space)[0])
        if diagram.title != before:
            blocks.append(_heading(diagram.title, scale.text, drawn.wide))
            before = diagram.title
        blocks.append(replace(drawn, items=(picture(str(number), drawn.items),)))
    return _flowed(blocks, space)


def _scale(diagrams: Sequence[Diagram], space: Box, units: Units) -> Scale:
    """The largest standard scale at which two columns of the longest stock stand side by side, else one; two
    only while pieces are wide enough for their marks."""
    scales = [s for s in series(units) if s.ratio <= _LARGEST]
    for columns, least in ((2, _LEAST_OF_TWO), (1, Fraction(0))):
        for scale in (s for s in scales if s.ratio >= least):
            if _fits(diagrams, scale, space, columns):
                return scale
    return scales[-1]


def _fits(diagrams: Sequence[Diagram], scale: Scale, space: Box, columns: int) -> bool:
    room, ratio = size_of(space), float(scale.ratio)
    longest = max(float(d.width) for d in diagrams)
    tallest = max(float(d.height) for d in diagrams)
    wide = columns * longest * ratio + (columns - 1) * CUTTING.between
    return wide <= room[0] and tallest * ratio + 3 * CUTTING.head + CUTTING.leading <= room[1]


def _heading(text: str, scale: str, room: float, *, again: bool = False) -> _Block:
    # A column is as wide as its diagrams, whatever their stock is called. Said again it says nothing new.
    lines = wrapped(f"{text} (CONTINUED)" if again else text, room, CUTTING.title, "bold")
    y = -CUTTING.title - 1.0
    items: list[Text] = []
    for k, line in enumerate(lines):
        y -= CUTTING.title_leading if k else 0.0
        items.append(words(line, (0.0, y), CUTTING.title, weight="bold"))
    after = width(lines[-1], CUTTING.title, "bold") + CUTTING.after_title
    if after + width(f"SCALE {scale}") > room:
        after, y = 0.0, y - CUTTING.leading
    items.append(words(f"SCALE {scale}", (after, y)))
    said = () if again else (group("heading", text, f"{text} SCALE {scale}", items),)
    return _Block(
        said or tuple(items), bounds(items)[2], -y + CUTTING.head - CUTTING.title - 1.0, text, scale, room
    )


def _drawn(diagram: Diagram, scale: float, room: float) -> _Block:
    up = scale * _stretch(diagram, scale)
    wide, tall = float(diagram.width) * scale, float(diagram.height) * up
    widened = "widths not to scale" if up > scale else ""
    caption = ", ".join(words for words in (diagram.count, *diagram.says, widened) if words)
    items: list[Item] = []
    y = 0.0
    for line in wrapped(caption.upper(), min(room, max(wide, CUTTING.caption_least))):
        y -= CUTTING.leading
        items.append(words(line, (0.0, y + CUTTING.caption_up)))
    low = y - tall
    left = difference(
        (rectangle(0.0, low, wide, y),), (rectangle(*_box(p, scale, up, low)) for p in diagram.pieces)
    )
    if left:
        items.append(Area(left, fill=CUTTING.waste))
    small: list[str] = []
    for piece in sorted(diagram.pieces, key=lambda each: (-each.y, each.x)):
        box = _box(piece, scale, up, low)
        lettering = _lettering(piece, box)
        items += [frame(box, "table rule"), *lettering]
        if not lettering:
            small.append(_lettered(piece.label))
    items.append(frame(Box(0.0, low, wide, y), "table border"))
    under = low
    if small:
        for line in wrapped(
            "SMALL, FROM THE LEFT, TOP FIRST: " + _in_turn(small), max(wide, CUTTING.list_least)
        ):
            under -= CUTTING.leading
            items.append(words(line, (0.0, under + CUTTING.list_up)))
    return _Block(tuple(items), bounds(items)[2], -under + CUTTING.under)


def _in_turn(marks: Sequence[str]) -> str:
    runs = ((mark, len(list(same))) for mark, same in itertools.groupby(marks))
    return ", ".join(
        f"{mark} ({times} TIMES)" if times > 2 else ", ".join([mark] * times) for mark, times in runs
    )


def _stretch(diagram: Diagram, scale: float) -> float:
    """How much wider a ripped board is drawn than it is, so that the marks of its pieces go in."""
    if not diagram.id.startswith("boards/"):
        return 1.0
    least = min(float(piece.height) for piece in diagram.pieces) * scale
    wanted = (LEAST_TEXT + 2 * CUTTING.clear + CUTTING.mark_slack) / least
    return min(CUTTING.most_stretch, wanted) if wanted > 1.0 else 1.0


def _box(piece: DiagramPiece, scale: float, up: float, low: float) -> Box:
    x, y = float(piece.x) * scale, low + float(piece.y) * up
    return Box(x, y, x + float(piece.width) * scale, y + float(piece.height) * up)


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
    if height < LEAST_TEXT + 2 * CUTTING.tight:
        return ()
    if (
        piece.size
        and width(both) + 2 * CUTTING.clear <= room
        and height >= LEAST_TEXT * CUTTING.two_lines + 2 * CUTTING.clear
    ):
        return (words(both, middle, h="centre", v="middle", angle=angle),)
    if piece.size and _all_text(piece.size) and width(both) + 2 * CUTTING.clear <= room:
        return (words(both, middle, h="centre", v="middle", angle=angle),)
    for said in (label, label.partition(" ")[0]):  # the mark alone, without "strip" or "layer"
        if width(said) + 2 * CUTTING.clear <= room:
            return (words(said, middle, h="centre", v="middle", angle=angle),)
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
    return cell


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
            x, y, column = x + column + CUTTING.between, space[3], 0.0
        again = heading
        if heading.heads:
            again = _heading(heading.heads, heading.scale, heading.room, again=True)
        headed = again.wide if y == space[3] and not each.heads else 0.0
        if (
            x + max(each.wide, column, headed, after.wide if after else 0.0) > space[2] + CUTTING.slack
            and x > space[0]
        ):
            pages.append([])
            taken.append([])
            x, y, column = space[0], space[3], 0.0
        if y == space[3] and not each.heads:
            pages[-1] += [moved(item, x, y) for item in again.items]
            taken[-1].append(Box(x, y - again.tall, x + again.wide, y))
            y, column = y - again.tall, again.wide
        pages[-1] += [moved(item, x, y) for item in each.items]
        taken[-1].append(Box(x, y - each.tall, x + each.wide, y))
        y -= each.tall
        column = max(column, each.wide)
    if len(pages) > 1:
        last = around(taken[-1])
        at = Shelf(space, taken[-2]).spot(*size_of(last))
        if at is not None:
            moved_up = [moved(item, at[0] - last[0], at[1] - last[3]) for item in pages.pop()]
            pages[-1] += moved_up
    return pages
