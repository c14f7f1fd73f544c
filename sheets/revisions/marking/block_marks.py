"""The marks of what changed outside the views: a bar and a triangle beside a row or a line, a cloud and a
triangle round a picture or a field of the title block. Paper mm.

They are found from the words of the record each time a set is drawn, so that they follow a row that moved.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sheets.drawing.items import Item, Sheet, Stroke, Symbol, Text
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import extent, leaves
from sheets.geometry.box import Box
from sheets.geometry.path import Line, Segment
from sheets.revisions.keeping.record import RowMark
from sheets.revisions.marking.clouds import clouds
from sheets.revisions.marking.said_blocks import ALONE, Block, blocks
from sheets.revisions.marking.triangles import Ink, best_spot, place_beside, row_size, triangle, triangle_box

_BAR = 0.6  # mm from a table to the bar beside a changed row
_CLEAR = 0.2  # from the bar to the triangle
_ONE_RUN = 1.4  # mm: rows and notes no further apart have one bar
_NUDGES = (0.0, 1.2, -1.2, 2.4, -2.4)
_FURTHER = 4.0  # mm
_EDGE = 0.4  # of a sheet that stays white, mm


@dataclass(frozen=True, slots=True)
class _Run:
    """Blocks of one revision that follow each other; gone: the mark is for what stood under them."""

    number: str
    box: Box
    gone: bool = False


def block_marks(sheet: Sheet, marks: Sequence[RowMark], latest: str) -> list[Item]:
    """Return the marks on a sheet. latest: the revision whose pictures and fields have clouds, or ""."""
    if not marks:
        return []
    changed = {mark.words: mark.number for mark in marks if not mark.gone}
    emptied = {mark.words: mark.number for mark in marks if mark.gone}
    ink = Ink(sheet.items)
    runs: list[_Run] = []
    alone: list[tuple[str, Block]] = []
    for block in blocks(sheet):
        number = changed.get(block.words, "")
        if block.kind in ALONE:
            alone += [(number, block)] if number else []
            continue
        if number:
            before = runs[-1] if runs else None
            if before is not None and before.number == number and _follows(before, block.box):
                runs[-1] = _Run(number, before.box.joined(block.box))
            else:
                runs.append(_Run(number, block.box))
        if block.words in emptied:
            runs.append(_Run(emptied[block.words], block.box, True))
    items: list[Item] = []
    for run in runs:
        items += _beside(run, ink, sheet.frame)
    texts = [text_box(leaf) for _, leaf in leaves(sheet.items) if isinstance(leaf, Text)]
    for number, block in alone:
        items += _round(block, number, ink, _room(sheet, block), texts if number == latest else None)
    return items


def _follows(run: _Run, box: Box) -> bool:
    near = -0.01 <= run.box[1] - box[3] <= _ONE_RUN
    return not run.gone and near and box[0] < run.box[2] and run.box[0] < box[2]


def _beside(run: _Run, ink: Ink, frame: Box) -> list[Item]:
    wide, _ = row_size(run.number)
    x0, low, x1, high = run.box
    middle = low if run.gone else (low + high) / 2
    away = _BAR + _CLEAR + wide / 2
    sides = ((x0, -1.0), (x1, 1.0))
    # A little higher or lower where the triangle of the next row stands; the bar says which row it is of.
    spots = [(edge + way * away, middle + dy) for edge, way in sides for dy in _NUDGES]
    # Further off to the right, where lines stand close and those above and below are longer.
    spots += [(x1 + away + _FURTHER * k, middle) for k in range(1, 6)]
    at = best_spot(spots, ink, frame, row_size(run.number))
    edge, way = sides[0] if at[0] < x0 else sides[1]
    x = edge + way * _BAR
    path: tuple[Segment, ...] = (Line((x, high - 0.5), (x, low + 0.5)),)
    if run.gone:  # points at the place where something was
        path = (Line((edge + way * (_BAR + _CLEAR), low), (edge, low)),)
    ink.take(triangle_box(at, row_size(run.number)))
    return [Stroke(path, "revision", "row"), triangle(at, run.number, row_size(run.number))]


def _round(
    block: Block, number: str, ink: Ink, within: Box, texts: Sequence[Box] | None
) -> list[Item]:  # texts: None for an earlier revision, whose clouds are gone
    items: list[Item] = []
    reach = block.box
    if texts is not None:
        others = [text for text in texts if not block.box.holds_point(text.middle)]
        items += clouds([block.box], others, within)
        found = extent(items)
        reach = found if found is not None else reach
    if block.kind == "field":  # its number stands in the block as it is
        return items
    size = row_size(number)
    at = place_beside(reach, ink, within, size)
    ink.take(triangle_box(at, size))
    return [*items, triangle(at, number, size)]


def _room(sheet: Sheet, block: Block) -> Box:
    if block.kind == "picture":
        return sheet.frame
    for item in sheet.items:
        if isinstance(item, Symbol) and item.kind == "title block":
            found = extent((item,))
            if found is not None:
                return found
    return Box(_EDGE, _EDGE, sheet.width - _EDGE, sheet.height - _EDGE)
