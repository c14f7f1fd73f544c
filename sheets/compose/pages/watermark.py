"""The status of a set that is not for the shop: large and light on each sheet, under everything, clear of
lettering and, where there is room, beside the views. Paper mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from sheets.base.notation import Run
from sheets.compose.draft import Draft
from sheets.compose.page_sizes import WATERMARK
from sheets.drawing.items import DrawingSet, Sheet, Text
from sheets.drawing.lettering import box as text_box
from sheets.drawing.lettering import width
from sheets.drawing.walk import leaves, viewports
from sheets.geometry.box import Box
from sheets.geometry.path import Point

UNMARKED = frozenset(("released", "as built"))
"""What a shop works from, and what records the work that was built; any other status is marked across the
sheet."""


def wants_watermark(status: str) -> bool:
    """Return whether a set of this status is marked as not for the shop."""
    return bool(status.strip()) and " ".join(status.lower().split()) not in UNMARKED


def watermarked(drawing: DrawingSet, status: str, draft: Draft | None = None) -> DrawingSet:
    """Return the set with its status on each sheet, drawn first so that everything lies over it.

    draft: what the sheets are that carry its number.
    """
    sheets: list[Sheet] = []
    for sheet in drawing.sheets:
        drafted = draft is not None and sheet.revision == draft.number
        says = draft.says if draft is not None and drafted else status
        sheets.append(_marked(sheet, says.upper()) if drafted or wants_watermark(says) else sheet)
    return replace(drawing, sheets=tuple(sheets))


def _marked(sheet: Sheet, words: str) -> Sheet:
    texts = [text_box(leaf) for _, leaf in leaves(sheet.items) if isinstance(leaf, Text)]
    drawn = [view.drawn for view in viewports(sheet)]
    spot = _place(sheet.frame, words, [*texts, *drawn]) or _place(sheet.frame, words, texts)
    if spot is None:  # nowhere clear: in the corner, under what is there
        spot = (WATERMARK.heights[-1], (sheet.frame[0] + 1.0, sheet.frame[1] + 1.0))
    height, corner = spot
    text = Text((Run(words),), corner, height, weight="bold", grey=WATERMARK.grey, key="watermark")
    return replace(sheet, items=(text, *sheet.items))


def _place(frame: Box, words: str, taken: Iterable[Box]) -> tuple[float, Point] | None:
    busy = _Busy(frame, taken)
    for height in WATERMARK.heights:
        corner = busy.room(width(words, height, "bold"), height)
        if corner is not None:
            return height, corner
    return None


class _Busy:
    """Cells of a sheet that hold lettering, summed, so that a box is asked about with four look-ups."""

    def __init__(self, frame: Box, texts: Iterable[Box]) -> None:
        self._x0, self._y0 = frame[0], frame[1]
        self._nx = max(1, int((frame[2] - frame[0]) / WATERMARK.cell))
        self._ny = max(1, int((frame[3] - frame[1]) / WATERMARK.cell))
        held = np.zeros((self._ny, self._nx), dtype=np.int32)
        for x0, y0, x1, y1 in texts:
            i0, i1 = int((x0 - self._x0) // WATERMARK.cell), int((x1 - self._x0) // WATERMARK.cell) + 1
            j0, j1 = int((y0 - self._y0) // WATERMARK.cell), int((y1 - self._y0) // WATERMARK.cell) + 1
            held[max(0, j0) : max(0, j1), max(0, i0) : max(0, i1)] = 1
        self._sums = np.zeros((self._ny + 1, self._nx + 1), dtype=np.int32)
        np.cumsum(held, axis=1, out=self._sums[1:, 1:])
        np.cumsum(self._sums, axis=0, out=self._sums)

    def room(self, wide: float, tall: float) -> tuple[float, float] | None:
        """Return the corner of a box clear of lettering, the one nearest the middle of the sheet; None if
        none is."""
        w, h = int(wide // WATERMARK.cell) + 2, int(tall * WATERMARK.room // WATERMARK.cell) + 2
        if w > self._nx or h > self._ny:
            return None
        s = self._sums
        rows, columns = np.nonzero(s[h:, w:] - s[:-h, w:] - s[h:, :-w] + s[:-h, :-w] == 0)
        if not len(rows):
            return None
        off = np.abs(2 * columns + w - self._nx) + np.abs(2 * rows + h - self._ny)
        nearest = int(np.argmin(off))  # of several the lowest, then the leftmost
        i, j = int(columns[nearest]), int(rows[nearest])
        return (
            self._x0 + i * WATERMARK.cell + WATERMARK.cell / 2,
            self._y0 + j * WATERMARK.cell + WATERMARK.cell / 2,
        )
