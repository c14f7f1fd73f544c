"""Shaped pieces on sheets of the set: each drawn small with its ordinates, their table, how the curve is laid
out and what prints it at full size. Paper mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sheets.base.notation import Notation
from sheets.compose.ink import LEAST_TEXT, bounds, moved, picture, words, wrapped
from sheets.compose.page_sizes import PAGE, PATTERN
from sheets.compose.pages.packing import Shelf
from sheets.compose.pages.page import Page, in_sequence, size_of
from sheets.compose.pages.pattern_drawing import pattern_items, pattern_name
from sheets.compose.pages.tables import table_pages
from sheets.compose.scales import Scale, Units, series
from sheets.drawing.items import Item
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Point, scaled
from sheets.schedules.patterns import Ordinate, Pattern, PatternCurve, ordinate_table

TITLE = "PATTERNS"
LAYOUT = (
    "LAY OUT A CURVE FROM ITS ORDINATES: STRIKE THE CHORD BETWEEN THE ENDS GIVEN, SQUARE UP AT EACH STATION "
    "FROM THE MIDDLE BOTH WAYS, SET OFF THE HEIGHT, BEND A BATTEN THROUGH THE POINTS.",
    "OR PRINT THE FULL-SIZE PATTERNS (COMMAND: SHOPSET PATTERNS) AND MEASURE THE SQUARE ON THE PRINT FIRST.",
)


@dataclass(frozen=True, slots=True)
class _Block:
    """A drawing with its words, its upper left corner at (0, 0)."""

    items: tuple[Item, ...]
    wide: float
    tall: float


def pattern_pages(
    patterns: Sequence[Pattern], notation: Notation, space: Box, units: Units
) -> tuple[Page, ...]:
    """Return the sheets of the patterns: drawings first, then the table of each where it fits.

    They are numbered from the first of their kind.
    """
    if not patterns:
        return ()
    blocks = [_block(pattern, notation, space, units) for pattern in patterns]
    drawn, taken = _packed([*blocks, _words(space)], space)
    tables = [ordinate_table(pattern, notation) for pattern in patterns]
    pages = table_pages(tables, space, inch=units == "inch", title=TITLE, first_taken=taken[-1])
    sheets = [*drawn[:-1], (*drawn[-1], *pages[0].items), *(page.items for page in pages[1:])]
    return in_sequence(6, (Page("", TITLE, (), tuple(items)) for items in sheets))


def _packed(blocks: Sequence[_Block], space: Box) -> tuple[list[tuple[Item, ...]], list[list[Box]]]:
    """Blocks where each first fits, sheet by sheet, and what they take of each sheet."""
    shelves = [Shelf(space)]
    pages: list[tuple[Item, ...]] = [()]
    for block in blocks:
        at = shelves[-1].spot(block.wide, block.tall)
        if at is None:
            shelves.append(Shelf(space))
            pages.append(())
            at = (space[0], space[3])
        shelves[-1].take(at, block.wide, block.tall)
        pages[-1] = (*pages[-1], *(moved(item, *at) for item in block.items))
    return pages, [shelf.boxes for shelf in shelves]


def _words(space: Box) -> _Block:
    wide = min(size_of(space)[0], PATTERN.table_most)
    items: list[Item] = []
    y = -LEAST_TEXT
    for text in LAYOUT:
        lines = wrapped(text, wide)
        drawn = [words(line, (0.0, y - k * PATTERN.leading)) for k, line in enumerate(lines)]
        items.append(group("note", "", text, drawn))
        y -= len(lines) * PATTERN.leading
    return _Block(tuple(items), wide, -LEAST_TEXT - y)


def _block(pattern: Pattern, notation: Notation, space: Box, units: Units) -> _Block:
    scale = _scale(pattern, space, units)
    small = _small(pattern, float(scale.ratio))
    said = f"{pattern.material.upper()}. {scale.text}. FULL SIZE ON PATTERN {pattern_name(pattern)}."
    items = pattern_items(small, notation, said)
    box = bounds(items)
    placed = picture(pattern_name(pattern), (moved(item, -box[0], -box[3]) for item in items))
    return _Block((placed,), box[2] - box[0], box[3] - box[1] + PAGE.between / 2)


def _scale(pattern: Pattern, space: Box, units: Units) -> Scale:
    """The largest standard scale, half size at most, that leaves room for the table; else the smallest."""
    wide, tall = size_of(space)
    scales = series(units)[1:]
    fits = (
        s
        for s in scales
        if pattern.width * float(s.ratio) <= wide * PATTERN.widest
        and pattern.height * float(s.ratio) <= tall * PATTERN.tallest
    )
    return next(fits, scales[-1])


def _small(pattern: Pattern, by: float) -> Pattern:
    """The pattern as it lies on paper at a scale; its ordinates still say their full size."""
    to_paper = scaled(by)
    return replace(
        pattern,
        outline=tuple(loop.transformed(to_paper) for loop in pattern.outline),
        inner=tuple(loop.transformed(to_paper) for loop in pattern.inner),
        curves=tuple(_small_curve(curve, by) for curve in pattern.curves),
        width=pattern.width * by,
        height=pattern.height * by,
    )


def _small_curve(curve: PatternCurve, by: float) -> PatternCurve:
    def at(point: Point) -> Point:
        return (point[0] * by, point[1] * by)

    (foot, tip), crown = curve.centreline, curve.crown
    over = (tip[0] - crown[0], tip[1] - crown[1])  # its overrun is of paper, not of the part
    end = (at(crown)[0] + over[0], at(crown)[1] + over[1])
    return replace(
        curve,
        ends=(at(curve.ends[0]), at(curve.ends[1])),
        ordinates=tuple(Ordinate(o.offset, o.height, at(o.foot), at(o.tip)) for o in curve.ordinates),
        centreline=(at(foot), end),
        crown=at(crown),
    )
