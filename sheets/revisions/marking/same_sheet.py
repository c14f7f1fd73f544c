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
_NEARLY, _ALIKE = 0.75, 0.2
"""Shares of what two sheets show: from the one on they are one whatever their numbers, below the other they
are two."""

Shown = Counter[tuple[str, str]]


def same_sheets(before: DrawingSet, after: DrawingSet) -> dict[str, str]:
    """Return the earlier number of each later sheet, by its number; a new sheet has none.

    Those that show nearly the same are one first, whatever their numbers; then those of one number that share
    something or have one title, as what a table says flows from sheet to sheet; then what shares something,
    and what has one title, in their order.
    """
    then, now = ({sheet.number: _shown(sheet) for sheet in side.sheets} for side in (before, after))
    titles, called = ({sheet.number: sheet.title for sheet in side.sheets} for side in (before, after))
    found: dict[str, str] = {}
    taken: set[str] = set()

    def take(was: str, number: str) -> None:
        if number not in found and was not in taken:
            found[number] = was
            taken.add(was)

    order = [(was, number) for was in then for number in now]
    shares = {pair: _share(then[pair[0]], now[pair[1]]) for pair in order}
    ranked = sorted(order, key=lambda pair: (-shares[pair], pair[0] != pair[1]))
    for pair in ranked:
        if shares[pair] >= _NEARLY:
            take(*pair)
    for was, number in order:
        if was == number and (shares[was, number] >= _ALIKE or titles[was] == called[number]):
            take(was, number)
    for pair in ranked:
        if shares[pair] >= _ALIKE:
            take(*pair)
    for was, number in sorted(order, key=lambda pair: list(now).index(pair[1])):
        if titles[was] == called[number]:
            take(was, number)
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
