"""The revisions in a title block: the latest on top; what finds no room is in the record of revisions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sheets.base.diagnostics import Diagnostic
from sheets.compose.border.fit import fitted
from sheets.compose.ink import LEAST_TEXT, struck, width, words, wrapped
from sheets.compose.page_sizes import BLOCK
from sheets.drawing.items import Stroke, Text
from sheets.geometry.box import Box
from sheets.model.wall import Revision

_STEP = LEAST_TEXT * 1.5  # baseline to baseline within a row
_BETWEEN = LEAST_TEXT * 1.725  # baseline to baseline of two rows
_LONGEST_SHOWN = 60


def revision_rows(
    box: Box, revisions: Sequence[Revision]
) -> tuple[list[Text | Stroke], list[Diagnostic]]:
    """Return the rows set in a box, mm, one that is void struck through, and what of them fits it in no way.

    A row that finds no height is counted in a last line, as long as there is height for that; a row that
    finds no width is an error.
    """
    x0, y0, x1, y1 = box
    texts: list[Text | Stroke] = []
    y = y1 - LEAST_TEXT - 0.5
    ordered = list(reversed(revisions))
    for k, row in enumerate(ordered):
        index = len(revisions) - 1 - k
        last = k == len(ordered) - 1
        set_row = _row(row, x0, x1 - x0)
        if isinstance(set_row, str):
            return texts, [_too_wide(set_row, index, x1 - x0)]
        lines = 1 + max(at for at, _ in set_row)
        room = int((y - y0 - (0 if last else _BETWEEN)) // _STEP) + 1
        if k == 0 and 1 < room < lines:  # the latest is always said, its reason as far as there is room
            set_row, lines = _cut(set_row, room, x1), room
        if y - (lines - 1) * _STEP - (0 if last else _BETWEEN) < y0:
            more = _earlier(len(ordered) - k, x0, y, x1 - x0) if y >= y0 else None
            return texts + ([more] if more else []), []
        placed = [_lowered(text, y - at * _STEP) for at, text in set_row]
        texts += placed
        texts += [struck(placed[0])] if row.void is not None else []
        y -= (lines - 1) * _STEP + _BETWEEN
    return texts, []


def _row(row: Revision, x0: float, wide: float) -> list[tuple[int, Text]] | str:
    # The texts of a row with the line each stands on, or the words that are too wide.
    head = "  ".join(part for part in (" ".join(x.split()) for x in (row.number, row.date, row.by)) if part)
    found = fitted(head, wide, LEAST_TEXT, height=LEAST_TEXT, weight="bold")
    if found is None:
        return head
    texts = [(0, words(head, (x0, 0.0), weight="bold", squeeze=found.squeeze))]
    taken = width(head, weight="bold") * found.squeeze
    beside = wide - taken - 4
    stands_beside = beside > BLOCK.reason_beside
    room = beside if stands_beside else wide
    for k, part in enumerate(wrapped(" ".join(row.says.upper().split()), room)):
        line = fitted(part, room, LEAST_TEXT, height=LEAST_TEXT)
        if line is None:
            return part
        at = k if stands_beside else k + 1
        x = x0 + taken + 3 if stands_beside and k == 0 else x0
        texts.append((at, words(part, (x, 0.0), squeeze=line.squeeze)))
    return texts


def _cut(row: list[tuple[int, Text]], lines: int, right: float) -> list[tuple[int, Text]]:
    # The first lines of a row; the last of them ends in dots, a word less where they have no room.
    kept = [(at, text) for at, text in row if at < lines]
    at, text = kept[-1]
    given = text.plain.split()
    for count in range(len(given), 0, -1):
        said = " ".join(given[:count]).rstrip(",;:") + " ..."
        found = fitted(said, right - text.at[0], LEAST_TEXT, height=LEAST_TEXT)
        if found is not None:
            return [*kept[:-1], (at, words(said, text.at, squeeze=found.squeeze))]
    return kept


def _lowered(text: Text, y: float) -> Text:
    return replace(text, at=(text.at[0], y))


def _earlier(count: int, x0: float, y: float, wide: float) -> Text | None:
    for said in (f"{count} EARLIER: SEE RECORD OF REVISIONS", f"{count} EARLIER", "..."):
        found = fitted(said, wide, LEAST_TEXT, height=LEAST_TEXT)
        if found is not None:
            return words(said, (x0, y), squeeze=found.squeeze)
    return None


def _too_wide(text: str, index: int, wide: float) -> Diagnostic:
    shown = text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 3] + "..."
    return Diagnostic(
        "title-field-too-long",
        "error",
        f"'{shown}' does not fit the title block's box for revisions ({max(wide, 0):.0f} mm wide) even "
        "squeezed to three quarters",
        help="Shorten it, or choose a title block with a larger box.",
        path=("revisions", index),
    )
