"""The ink of one sheet as the audit measures it: glyph boxes, straight pieces of strokes, hatched areas.
Paper mm."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from sheets.compose.placing.free_room import segment_meets_box
from sheets.drawing import lettering
from sheets.drawing.items import Area, Dimension, Item, Pen, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Point
from sheets.geometry.region import Region, contains

_GROUND = 0.9


@dataclass(frozen=True, slots=True)
class Letters:
    """A text with the box of its ink; owner: number of the item it belongs to. blank: it stands on the white
    ground of its own mark, which hides what was drawn before."""

    text: Text
    box: Box
    owner: int
    view: str
    blank: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight piece of a stroke."""

    a: Point
    b: Point
    pen: Pen
    owner: int
    view: str


@dataclass(slots=True)
class SheetInk:
    """All of a sheet."""

    sheet: Sheet
    letters: list[Letters] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)
    areas: list[tuple[Area, str]] = field(default_factory=list)
    dimensions: list[tuple[Dimension, str]] = field(default_factory=list)
    symbols: list[tuple[Symbol, str]] = field(default_factory=list)
    views: list[Viewport] = field(default_factory=list)
    boxes: NDArray[np.float64] = field(default_factory=lambda: np.zeros((0, 4)))
    owners: int = 0

    def crossing(self, box: Box, but: int) -> list[Piece]:
        """The pieces that run through a box and are not of item `but`."""
        if not len(self.boxes):
            return []
        b = self.boxes
        near = np.nonzero((b[:, 0] < box[2]) & (b[:, 2] > box[0]) & (b[:, 1] < box[3]) & (b[:, 3] > box[1]))[
            0
        ]
        return [
            p
            for p in (self.pieces[int(k)] for k in near)
            if p.owner != but and segment_meets_box(p.a, p.b, box)
        ]


def ink_of(sheet: Sheet) -> SheetInk:
    """Return the ink of a sheet, taken apart."""
    ink = SheetInk(sheet)
    for item in ungrouped(sheet.items):
        _gather(ink, item, "")
    flat = [
        (min(p.a[0], p.b[0]), min(p.a[1], p.b[1]), max(p.a[0], p.b[0]), max(p.a[1], p.b[1]))
        for p in ink.pieces
    ]
    ink.boxes = np.array(flat) if flat else np.zeros((0, 4))
    return ink


def _gather(ink: SheetInk, item: Item, view: str) -> None:
    if isinstance(item, Viewport):
        ink.views.append(item)
        for inner in ungrouped(item.items):
            _gather(ink, inner, item.id)
        return
    ink.owners += 1
    owner = ink.owners
    if isinstance(item, Text):
        _letters(ink, item, owner, view)
    elif isinstance(item, Stroke):
        _pieces(ink, item, owner, view)
    elif isinstance(item, Area):
        ink.areas.append((item, view))
    elif isinstance(item, Dimension):
        ink.dimensions.append((item, view))
        _letters(ink, item.text, owner, view)
        for stroke in item.strokes:
            _pieces(ink, stroke, owner, view)
    elif isinstance(item, Symbol):
        ink.symbols.append((item, view))
        grounds = [r for a in item.areas if a.fill == 1.0 for r in a.regions]
        for text in item.texts:
            _letters(ink, text, owner, view, grounds)
        for stroke in item.strokes:
            _pieces(ink, stroke, owner, view)
        ink.areas += [(a, view) for a in item.areas]


def _letters(ink: SheetInk, text: Text, owner: int, view: str, grounds: Sequence[Region] = ()) -> None:
    # Words nearly as light as the paper, the status across a sheet, are a ground that the drawing lies on.
    if text.plain.strip() and text.grey < _GROUND:
        box = lettering.box(text)
        middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        blank = any(contains(ground, middle) for ground in grounds)
        ink.letters.append(Letters(text, box, owner, view, blank))


def _pieces(ink: SheetInk, stroke: Stroke, owner: int, view: str) -> None:
    for s in stroke.path:
        points = s.flatten(0.1) if isinstance(s, Arc) else (s.a, s.b)
        for a, b in itertools.pairwise(points):
            ink.pieces.append(Piece(a, b, stroke.pen, owner, view))
