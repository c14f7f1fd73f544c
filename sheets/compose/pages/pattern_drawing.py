"""One full-size pattern as items: outline, centrelines, chords and ordinates, grain, what it is. Paper mm at
1:1.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from fractions import Fraction

from sheets.base.notation import Notation, Run, format_length
from sheets.base.tolerance import SAME_POINT
from sheets.compose.ink import LEAST_TEXT, arrow, bounds, line, moved_stroke, polyline, width, words
from sheets.compose.page_sizes import PATTERN
from sheets.compose.placing.free_room import segment_meets_box
from sheets.drawing import lettering
from sheets.drawing.items import Item, Stroke, Text
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Point, shifted
from sheets.schedules.patterns import Ordinate, Pattern, PatternCurve, fine
from sheets.schedules.table import Cell

_MOST_STEPS = 24  # of half a millimetre, to look for a place


def pattern_name(pattern: Pattern) -> str:
    """Return what its sheets are numbered by: its mark, or the last step of its key."""
    return pattern.mark or pattern.id.rsplit("/", 1)[-1].upper()


def pattern_items(pattern: Pattern, notation: Notation, said: str = "") -> tuple[Item, ...]:
    """Return a pattern as it lies on paper, its lower left corner at (0, 0). said: the line under its title;
    without one, what it is made of and that it is at full size.
    """
    key = pattern.id
    items: list[Item] = [Stroke(loop.segments, "pattern", key, True) for loop in pattern.outline]
    items += [Stroke(loop.segments, "fine", key, True) for loop in pattern.inner]
    for curve in pattern.curves:
        items += _curve(curve, pattern, notation)
    items += _title(pattern, notation, said or f"{pattern.material.upper()}. FULL SIZE.")
    return tuple(items)


def runs_of(cell: Cell) -> tuple[Run, ...]:
    """Return a table's cell as lettering."""
    if isinstance(cell, str):
        return (Run(cell),)
    return cell


def shifted_item(item: Item, shift: Point) -> Item:
    """Return a stroke or a line of lettering moved on the paper."""
    if isinstance(item, Stroke):
        return moved_stroke(item, shifted(*shift))
    from sheets.compose.ink import moved

    return moved(item, *shift)


def _curve(curve: PatternCurve, pattern: Pattern, notation: Notation) -> list[Item]:
    key = pattern.id
    items: list[Item] = [
        line(*curve.ends, "dimension", key),
        line(*curve.centreline, "centre", key),
        _centre_mark(curve, pattern),
    ]
    last: Point | None = None
    for ordinate in curve.ordinates:
        if ordinate.height <= SAME_POINT:
            continue
        if ordinate.offset:
            items.append(line(ordinate.foot, ordinate.tip, "dimension", key))
        if (
            last is None
            or abs(ordinate.foot[0] - last[0]) + abs(ordinate.foot[1] - last[1]) >= PATTERN.nearest
        ):
            height = _height(ordinate, curve, notation, key)
            # At the end of a curve an edge of the piece may be in the way: the table gives that height.
            if not _on_outline(lettering.box(height), pattern):
                items.append(height)
                last = ordinate.foot
    return items


def _on_outline(box: Box, pattern: Pattern) -> bool:
    return any(
        segment_meets_box(a, b, box.grown(PATTERN.from_edge))
        for loop in (*pattern.outline, *pattern.inner)
        for segment in loop.segments
        for a, b in itertools.pairwise(
            segment.flatten(PATTERN.arc_chord) if isinstance(segment, Arc) else (segment.a, segment.b)
        )
    )


def _centre_mark(curve: PatternCurve, pattern: Pattern) -> Text:
    # Past the end of the centreline, and past an edge of the piece that lies there.
    (ax, ay), (bx, by) = curve.centreline
    size = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    for off in (PATTERN.first_try + k / 2 for k in range(_MOST_STEPS)):
        at = (bx + (bx - ax) / size * off, by + (by - ay) / size * off)
        mark = words("CL", at, h="centre", v="middle", key=pattern.id)
        if not _on_outline(lettering.box(mark), pattern):
            break
    return mark


def _height(ordinate: Ordinate, curve: PatternCurve, notation: Notation, key: str) -> Text:
    """The size of an ordinate, written in line with it on the other side of the chord."""
    at_height = Fraction(round(ordinate.height * 10**4), 10**4)
    runs = format_length(at_height, fine(notation), rounded=True).runs
    (ax, ay), (bx, by) = curve.centreline
    size = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    off = ((bx - ax) / size, (by - ay) / size)
    away = PATTERN.clear + width(runs) / 2
    at = (ordinate.foot[0] - off[0] * away, ordinate.foot[1] - off[1] * away)
    upright = abs(off[1]) > abs(off[0])
    return words(runs, at, h="centre", v="middle", angle=90.0 if upright else 0.0, key=key)


def _title(pattern: Pattern, notation: Notation, said: str) -> list[Item]:
    """What it is, and which way the grain runs, where there is most room: over the pattern, and over the mark
    of a centreline that would run into it.
    """
    y = pattern.height + PATTERN.title_up
    under = words(said, (0.0, y), LEAST_TEXT, key=pattern.id)
    for curve in pattern.curves:
        mark = lettering.box(_centre_mark(curve, pattern))
        if mark.grown(1.0).overlaps(lettering.box(under)):
            y = max(y, mark[3] + 2.0)
    under = words(said, (0.0, y), LEAST_TEXT, key=pattern.id)
    title = words(
        runs_of(pattern.title(notation)),
        (0.0, y + PATTERN.title_step),
        PATTERN.title,
        weight="bold",
        key=pattern.id,
    )
    items: list[Item] = [title, under]
    if pattern.grain:
        items += _grain(pattern)
    return items


def _grain(pattern: Pattern) -> list[Item]:
    """A double arrow along the grain, beside the upper right corner."""
    x, y = pattern.width + PATTERN.grain_off, pattern.height - PATTERN.grain_drop
    a, b = (
        ((x, y), (x + PATTERN.grain_long, y))
        if pattern.grain == "u"
        else ((x, y - PATTERN.grain_long), (x, y))
    )
    beside = (x + PATTERN.grain_beside, y - PATTERN.grain_middle)
    label = words("GRAIN", (x, y + PATTERN.grain_label) if pattern.grain == "u" else beside, key=pattern.id)
    return [line(a, b, "symbol", pattern.id), arrow(a, b), arrow(b, a), label]


def measuring_square(corner: Point, side: float, says: str) -> tuple[Item, ...]:
    """A square to measure the print by, its lower left corner given, with its size inside."""
    x, y = corner
    middle = x + side / 2
    return (
        polyline(
            [(x, y), (x + side, y), (x + side, y + side), (x, y + side)],
            "pattern",
            closed=True,
            key="measuring square",
        ),
        words(
            f"{says} SQUARE",
            (middle, y + side / 2 + PATTERN.square_up),
            PATTERN.title,
            h="centre",
            weight="bold",
        ),
        words("MEASURE IT BOTH WAYS BEFORE USE.", (middle, y + side / 2 - PATTERN.square_down), h="centre"),
        words("PRINT AT ACTUAL SIZE.", (middle, y + side / 2 - PATTERN.square_lower), h="centre"),
    )


def extent_of(items: Sequence[Item]) -> Box:
    """The box round all ink."""
    return bounds(items)
