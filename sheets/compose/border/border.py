"""What is on every sheet before anything is drawn: frame, zones and centring marks, and the title block
filled in."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import fsum

from sheets.base.diagnostics import Diagnostic
from sheets.compose.border.fit import fitted, set_lines
from sheets.compose.border.paper import SheetSize
from sheets.compose.border.revision_rows import revision_rows
from sheets.compose.border.titleblock import (
    OF_THE_ISSUE,
    BlockCell,
    BlockLayout,
    Split,
    filled,
    named_fields,
)
from sheets.compose.ink import LEAST_TEXT, frame, line, words
from sheets.compose.letter_heights import is_small
from sheets.compose.page_sizes import BLOCK
from sheets.drawing.items import Item, Stroke, Symbol, Text
from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.model.wall import Revision

_LONGEST_SHOWN = 60  # letters of a text that are quoted in an error
_ZONE_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # ISO 5457 leaves out I and O


def drawing_space(size: SheetSize, layout: BlockLayout) -> Box:
    """The part of the frame that the title block leaves."""
    x0, y0, x1, y1 = size.frame
    if layout.edge == "right":
        return Box(x0, y0, x1 - layout.depth, y1)
    return Box(x0, y0 + layout.depth, x1, y1)


def view_space(size: SheetSize, layout: BlockLayout) -> Box:
    """The part of the drawing space that views and tables fill: inside some white."""
    return drawing_space(size, layout).grown(
        -BLOCK.white_small if is_small(max(size.width, size.height)) else -BLOCK.white
    )


def block_box(size: SheetSize, layout: BlockLayout) -> Box:
    x0, y0, x1, y1 = size.frame
    if layout.edge == "right":
        return Box(x1 - layout.depth, y0, x1, y1)
    return Box(x0, y0, x1, y0 + layout.depth)


def border(size: SheetSize, layout: BlockLayout) -> tuple[Item, ...]:
    """Frame line, and for ISO sheets the centring marks and the grid reference border."""
    items: list[Item] = [frame(size.frame, "frame")]
    if size.zones:
        items += _zones(size, layout)
    return tuple(items)


def _zones(size: SheetSize, layout: BlockLayout) -> list[Item]:
    x0, y0, x1, y1 = size.frame
    outer = size.frame.grown(BLOCK.band)
    middle_x, middle_y = outer.middle
    items: list[Item] = [frame(outer, "block rule")]
    inside = size.centring_inside
    # Where the title block lies the mark ends at the frame, so that it crosses none of its words.
    below = 0.0 if layout.edge == "bottom" else inside
    right = 0.0 if layout.edge == "right" else inside
    marks: tuple[tuple[Point, Point], ...] = (
        ((middle_x, outer[3]), (middle_x, y1 - inside)),
        ((middle_x, outer[1]), (middle_x, y0 + below)),
        ((outer[0], middle_y), (x0 + inside, middle_y)),
        ((outer[2], middle_y), (x1 - right, middle_y)),
    )
    items += [line(p, q, "frame") for p, q in marks]
    columns, rows = _fields(outer[0], outer[2], middle_x), _fields(outer[1], outer[3], middle_y)
    top_only = size.name == "iso-a4"
    for k, (a, b) in enumerate(itertools.pairwise(columns)):
        for low, high in ((y1, outer[3]),) if top_only else ((outer[1], y0), (y1, outer[3])):
            items.append(
                words(str(k + 1), ((a + b) / 2, (low + high) / 2), BLOCK.zone_letters, h="centre", v="middle")
            )
            if k and abs(a - middle_x) > 1:
                items.append(line((a, low), (a, high), "block rule"))
    rows = rows[::-1]
    for k, (a, b) in enumerate(itertools.pairwise(rows)):
        for low, high in ((x1, outer[2]),) if top_only else ((outer[0], x0), (x1, outer[2])):
            items.append(
                words(
                    _ZONE_LETTERS[k],
                    ((low + high) / 2, (a + b) / 2),
                    BLOCK.zone_letters,
                    h="centre",
                    v="middle",
                )
            )
            if k and abs(a - middle_y) > 1:
                items.append(line((low, a), (high, a), "block rule"))
    return items


def _fields(low: float, high: float, middle: float) -> list[float]:
    # Borders of the fields: 50 mm from the middle both ways, the remainder in the corner fields.
    half = max(1, round((high - low) / 2 / BLOCK.zone))
    inner = [middle + BLOCK.zone * k for k in range(-half + 1, half)]
    return [low, *inner, high]


def title_block(
    size: SheetSize, layout: BlockLayout, values: Mapping[str, str], revisions: Sequence[Revision]
) -> tuple[Symbol, tuple[Diagnostic, ...]]:
    """The title block of one sheet, filled in. values: by the names of titleblock.FIELDS."""
    box = block_box(size, layout)
    strokes: list[Stroke] = [frame(box, "frame")]
    texts: list[Text] = []
    found: list[Diagnostic] = []
    for cell, place, rules in _cells(layout.body, box):
        strokes += rules
        filled_in, problem = _fill(cell, place, values, revisions)
        texts += [item for item in filled_in if isinstance(item, Text)]
        strokes += [item for item in filled_in if isinstance(item, Stroke)]
        found += problem
    fields = {name: value for name, value in sorted(values.items())}
    return Symbol("title block", (box[0], box[1]), tuple(strokes), (), tuple(texts), fields), tuple(found)


def _cells(node: BlockCell | Split, box: Box) -> list[tuple[BlockCell, Box, list[Stroke]]]:
    if isinstance(node, BlockCell):
        return [(node, box, [])]
    x0, y0, x1, y1 = box
    whole = x1 - x0 if node.way == "across" else y1 - y0
    given = fsum(p.size or 0.0 for p in node.parts)
    sharing = sum(1 for p in node.parts if p.size is None)
    # A block made for a higher sheet is pressed together rather than pushed over the frame.
    press = min(1.0, whole / given) if given else 1.0
    share = max(0.0, whole - given * press) / sharing if sharing else 0.0
    found: list[tuple[BlockCell, Box, list[Stroke]]] = []
    at = x0 if node.way == "across" else y1
    for k, part in enumerate(node.parts):
        size = share if part.size is None else part.size * press
        rule: list[Stroke] = []
        if node.way == "across":
            place = Box(at, y0, at + size, y1)
            if k:
                rule = [line((at, y0), (at, y1), "block rule")]
            at += size
        else:
            place = Box(x0, at - size, x1, at)
            if k:
                rule = [line((x0, at), (x1, at), "block rule")]
            at -= size
        inner = _cells(part, place)
        found.append((inner[0][0], inner[0][1], rule + inner[0][2]))
        found += inner[1:]
    return found


def _fill(
    cell: BlockCell, box: Box, values: Mapping[str, str], revisions: Sequence[Revision]
) -> tuple[list[Text | Stroke], list[Diagnostic]]:
    x0, y0, x1, y1 = box
    texts: list[Text | Stroke] = []
    top = y1
    room = x1 - x0 - 2 * BLOCK.inset
    if cell.label:
        label = fitted(cell.label, room, y1 - y0 - BLOCK.label_drop - BLOCK.floor, height=LEAST_TEXT)
        if label is None:
            return texts, [_too_long(cell, cell.label, room, y1 - y0, "label")]
        texts.append(
            words(
                cell.label,
                (x0 + BLOCK.inset, y1 - BLOCK.label_drop - LEAST_TEXT),
                LEAST_TEXT,
                squeeze=label.squeeze,
            )
        )
        top = y1 - BLOCK.label_drop - LEAST_TEXT - BLOCK.under_label
    inner = Box(x0 + BLOCK.inset, y0 + BLOCK.floor, x1 - BLOCK.inset, top - BLOCK.over_text)
    if cell.kind == "revisions":
        rows, problems = revision_rows(inner, revisions)
        return texts + [replace(row, key=OF_THE_ISSUE) for row in rows], problems
    if cell.kind in ("stamp", "blank"):
        return texts, []
    text = " ".join(filled(cell.field, values).split())
    if not text or text in ("/",):
        return texts, []
    result = fitted(
        text,
        room,
        inner[3] - inner[1],
        height=cell.height,
        least=cell.least,
        lines=cell.lines,
        weight=cell.weight,
        under=BLOCK.floor / 2,
    )
    if result is None:
        return texts, [_too_long(cell, text, room, inner[3] - inner[1], "text")]
    # Known by its field, so that a later issue finds what was said there before.
    said = set_lines(result, inner, align=cell.align, weight=cell.weight)
    return texts + [replace(line, key=cell.field) for line in said], []


def _too_long(cell: BlockCell, text: str, room: float, tall: float, what: str) -> Diagnostic:
    names = named_fields(cell.field) if what == "text" else ()
    given = next((name for name in names if name.startswith("project.")), "")
    shown = text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 3].rstrip() + "..."
    return Diagnostic(
        "title-field-too-long",
        "error",
        f"'{shown}' does not fit the title block's box {cell.label[:_LONGEST_SHOWN] or cell.field} "
        f"({max(room, 0):.0f} x {max(tall, 0):.0f} mm) even at {cell.least:g} mm and squeezed to "
        "three quarters",
        help="Shorten it, or choose a title block with a larger box.",
        path=tuple(given.split(".")) if given else ("sheet", "titleblock"),
    )
