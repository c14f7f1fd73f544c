"""The record of revisions on the general sheets: in the largest place that their columns leave. Paper mm.

It goes on last, so that nothing else moves as it grows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sheets.compose.ink import bounds, moved, struck
from sheets.compose.page_sizes import BLOCK
from sheets.compose.pages.page import Page
from sheets.compose.pages.tables import draw_whole, set_table
from sheets.drawing.items import Group, Item, Text
from sheets.geometry.box import Box
from sheets.model.wall import Revision
from sheets.schedules.table import Column, TableData

RECORD = "revisions"
"""The key of the record among the groups of a sheet."""
_COLUMNS = (Column("REV.", "centre"), Column("DATE"), Column("BY"), Column("REASON"))


def with_record(
    pages: Sequence[Page], revisions: Sequence[Revision], space: Box, columns: int, gap: float
) -> tuple[Page, ...]:
    """Return the general sheets with the record, all of it or as many of the latest rows as find room.

    columns: of each sheet; gap: between them.
    """
    wide = (space[2] - space[0] - (columns - 1) * gap) / columns
    rooms = [
        (number, *room) for number, page in enumerate(pages) for room in _rooms(page, space, columns, gap)
    ]
    for rows in range(len(revisions), 0, -1):
        record, tall = _record(revisions, rows, wide)
        for number, x, top in rooms:
            if top - tall >= space[1]:
                page = replace(pages[number], items=(*pages[number].items, moved(record, x, top)))
                return (*pages[:number], page, *pages[number + 1 :])
    return tuple(pages)


def _rooms(page: Page, space: Box, columns: int, gap: float) -> Iterator[tuple[float, float]]:
    # Of each column: its left edge, and how far up it is free; after those that hold anything one that is
    # empty.
    wide = (space[2] - space[0] - (columns - 1) * gap) / columns
    boxes = [bounds((item,)) for item in page.items]
    for placed, (x, y) in page.views:
        boxes.append(Box(placed.box[0] + x, placed.box[1] + y, placed.box[2] + x, placed.box[3] + y))
    empty: list[tuple[float, float]] = []
    for column in range(columns):
        left = space[0] + column * (wide + gap)
        held = [box[1] for box in boxes if box[0] < left + wide and left < box[2]]
        if held:
            yield left, min(held) - BLOCK.over_record
        else:
            empty.append((left, space[3]))
    yield from empty


def _record(revisions: Sequence[Revision], rows: int, wide: float) -> tuple[Group, float]:
    latest_first = revisions[: -rows - 1 : -1]
    cells = [(r.number, r.date, r.by, r.says) for r in latest_first]
    left = len(revisions) - rows
    cells += [("", "", "", f"{left} EARLIER: SEE THE ISSUES BEFORE")] if left else []
    table = TableData(RECORD, "RECORD OF REVISIONS", _COLUMNS, tuple(cells))
    drawn, tall = draw_whole(set_table(table, wide, inch=False, tall=BLOCK.over_record))  # as low as may be
    held = [item for item in drawn.items if isinstance(item, Group) and item.kind == "row"]
    through = {id(row): row for row, said in zip(held, latest_first, strict=False) if said.void is not None}
    items = (_struck(item) if id(item) in through else item for item in drawn.items)
    return replace(drawn, items=tuple(items)), tall


def _struck(row: Item) -> Item:
    # Number, date and by; its reason says why.
    assert isinstance(row, Group)
    texts = [item for item in row.items if isinstance(item, Text)]
    reason = texts[-1].at[0]
    return replace(row, items=(*row.items, *(struck(text) for text in texts if text.at[0] != reason)))
