"""On the index: which sheets are new, renumbered or withdrawn, in the room that its columns leave. Paper mm.

It comes from the record of the issue, after all else is in its place, so that nothing moves for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sheets.compose.ink import moved
from sheets.compose.page_sizes import GENERAL
from sheets.compose.pages.general import Block, pairs
from sheets.drawing.items import Sheet
from sheets.drawing.walk import extent, groups
from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.revisions.comparing.sheet_lines import SheetLine
from sheets.revisions.marking.said_blocks import holds_record

_TITLE = "SHEETS NEW, RENUMBERED AND WITHDRAWN"
_REST = "more: see the transmittal"


def with_sheet_lines(sheets: Sequence[Sheet], lines: Sequence[SheetLine]) -> tuple[Sheet, ...]:
    """Return the sheets of a set with what is told of them on the first, or on the one with the record of
    revisions; as many lines as find room, and how many more there are."""
    said = [(one.number, f"{one.title}: {one.says}") for one in lines if one.state == "withdrawn" or one.was]
    said = [(one.number, f"{one.title}: new") for one in lines if one.state == "new"] + said
    for count in range(len(said), 0, -1):
        left = len(said) - count
        rows = [*said[:count], *([(f"{left}", _REST)] if left else [])]
        for k, sheet in enumerate(sheets):
            if k == 0 or holds_record(sheet):
                for x, top, wide in _rooms(sheet):
                    block = pairs(_TITLE, rows, wide)
                    if top - block.tall >= sheet.frame[1]:
                        return (*sheets[:k], _with(sheet, block, (x, top)), *sheets[k + 1 :])
    return tuple(sheets)


def _with(sheet: Sheet, block: Block, at: Point) -> Sheet:
    return replace(sheet, items=(*sheet.items, *(moved(item, *at) for item in block.items)))


def _rooms(sheet: Sheet) -> Iterator[tuple[float, float, float]]:
    # Of each column its left edge, how far up it is free, and how wide it is. A column begins with a heading.
    lefts = sorted({round(one.box[0], 2) for one in groups(sheet.items) if one.kind == "heading"})
    boxes = [box for item in sheet.items if (box := extent((item,))) is not None and _is_inside(box, sheet)]
    ends = [*(left - GENERAL.gap for left in lefts[1:]), sheet.frame[2] - GENERAL.gap]
    for left, right in zip(lefts, ends, strict=True):
        held = [box[1] for box in boxes if box[0] < right and left < box[2]]
        wide = min(right - left, GENERAL.column)
        if held and wide > GENERAL.narrow / 2:
            yield left, min(held) - GENERAL.gap, wide


def _is_inside(box: Box, sheet: Sheet) -> bool:
    return sheet.frame.grown(-0.1).overlaps(box) and not box.grown(0.1).holds(sheet.frame)
