"""Which sheet of the earlier set a sheet of the later one is: the one that shows the same views and says the
same, whatever its number. A number alone says only where a sheet lies in the pile."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from sheets.drawing.items import DrawingSet, Sheet
from sheets.drawing.walk import viewports
from sheets.revisions.marking.said_blocks import blocks

_VIEW = 10
"""A view weighs as much as so many rows or notes: it is what a sheet is looked up for."""
_ALIKE = 0.2
"""Sheets that share less of what they show are two."""

Shown = Counter[tuple[str, str]]


def same_sheets(before: DrawingSet, after: DrawingSet) -> dict[str, str]:
    """Return the earlier number of each later sheet, by its number; a new sheet has none.

    Those that share most are one first. Of what shares too little, those of one number and one title are one,
    then those of one title, in their order: all that a sheet of schedules says may have changed.
    """
    then, now = ({sheet.number: _shown(sheet) for sheet in side.sheets} for side in (before, after))
    pairs = [
        (-share, was != number, i, j, was, number)
        for i, was in enumerate(then)
        for j, number in enumerate(now)
        if (share := _share(then[was], now[number])) >= _ALIKE
    ]
    found: dict[str, str] = {}
    for *_, was, number in sorted(pairs):
        if number not in found and was not in found.values():
            found[number] = was
    for by_number in (True, False):
        for sheet in after.sheets:
            left = [s for s in before.sheets if s.number not in found.values() and s.title == sheet.title]
            same = [s for s in left if s.number == sheet.number] if by_number else left
            if sheet.number not in found and same:
                found[sheet.number] = same[0].number
    return found


def is_all_new(sheet: Sheet, earlier: Sequence[Sheet]) -> bool:
    """Return whether nothing that a sheet shows was in the earlier set, on whatever sheet."""
    shown = _shown(sheet)
    return not any(shown & _shown(other) for other in earlier)


def _shown(sheet: Sheet) -> Shown:
    shown: Shown = Counter({("view", view.id): _VIEW for view in viewports(sheet)})
    shown.update((block.kind, block.words) for block in blocks(sheet) if block.kind != "field")
    return shown


def _share(one: Shown, other: Shown) -> float:
    whole = one.total() + other.total()
    return 2 * (one & other).total() / whole if whole else 0.0
