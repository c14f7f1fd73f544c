"""Marks, drawn our own way from plain rings and lines: cut marks, places of details, part balloons, view
titles, centre lines.

A mark that leads somewhere is made with its target's id; `named` writes number and sheet into it once the
sheets are arranged. The ring has one size whatever is written in it, so nothing moves then. Paper mm.
"""

from __future__ import annotations

from dataclasses import replace

from sheets.base.length import MM_PER_INCH
from sheets.compose.ink import (
    LEAST_TEXT,
    arrow,
    block,
    bounds,
    disc,
    frame,
    line,
    polygon,
    ring,
    width,
    words,
    wrapped,
)
from sheets.compose.letter_heights import NUMBER_ALONE, NUMBER_OVER_SHEET
from sheets.compose.placing.manner import Manner
from sheets.compose.scales import Scale, bar_steps
from sheets.compose.view_sizes import MARK
from sheets.drawing.items import Area, Group, Item, Stroke, Symbol, Text
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Line, Point


def cut_mark(end: Point, along: Point, look: Point, target: str) -> Symbol:
    """The mark at one end of a cutting line: ring, pointer on the side looked to, heavy end of the line.

    end: where the line meets the ring; along: unit vector outward along the line; look: unit vector of sight.
    """
    centre = (end[0] + along[0] * MARK.ring, end[1] + along[1] * MARK.ring)
    base, reach = MARK.ring * MARK.pointer_wing, MARK.ring * MARK.pointer_tip
    tip = (centre[0] + look[0] * reach, centre[1] + look[1] * reach)
    wing = [
        tip,
        (centre[0] + look[0] * base + along[0] * base, centre[1] + look[1] * base + along[1] * base),
        (centre[0] + look[0] * MARK.ring, centre[1] + look[1] * MARK.ring),
        (centre[0] + look[0] * base - along[0] * base, centre[1] + look[1] * base - along[1] * base),
    ]
    return Symbol(
        "section mark",
        centre,
        (ring(centre, MARK.ring, "symbol"), _divider(centre)),
        (polygon(wing),),
        (),
        {"number": "", "sheet": ""},
        target=target,
    )


def cut_end(end: Point, along: Point, look: Point, target: str) -> Symbol:
    """The other end of a cutting line: its heavy end, and an arrow that looks the way the mark does.

    end, along, look: as for `cut_mark`.
    """
    middle = (end[0] + along[0] * MARK.cut_end / 2, end[1] + along[1] * MARK.cut_end / 2)
    tip = (middle[0] + look[0] * MARK.cut_arrow, middle[1] + look[1] * MARK.cut_arrow)
    outer = (end[0] + along[0] * MARK.cut_end, end[1] + along[1] * MARK.cut_end)
    half = MARK.heavy / 2
    heavy = block(Box(
        min(end[0], outer[0]) - half * abs(along[1]), min(end[1], outer[1]) - half * abs(along[0]),
        max(end[0], outer[0]) + half * abs(along[1]), max(end[1], outer[1]) + half * abs(along[0]),
    ))  # fmt: skip
    shaft = line(middle, tip, "symbol")
    return Symbol(
        "cut end",
        middle,
        (shaft,),
        (heavy, arrow(tip, middle, MARK.cut_arrow_long, MARK.cut_arrow_wide)),
        key=target,
    )


def match_mark(centre: Point, target: str) -> Symbol:
    """The ring at the head of a match line: the view that goes on there, over its sheet."""
    return Symbol(
        "match mark",
        centre,
        (ring(centre, MARK.ring, "symbol"), _divider(centre)),
        (),
        (),
        {"number": "", "sheet": ""},
        target=target,
    )


def detail_outline(box: Box, target: str) -> Stroke:
    """The line round the place a detail was taken: a box with its corners cut off."""
    x0, y0, x1, y1 = box
    c = corner_of(box)
    points = (
        (x0 + c, y0), (x1 - c, y0), (x1, y0 + c), (x1, y1 - c),
        (x1 - c, y1), (x0 + c, y1), (x0, y1 - c), (x0, y0 + c),
    )  # fmt: skip
    path = tuple(Line(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True) if a != b)
    return Stroke(path, "detail place", target, True)


def corner_of(box: Box) -> float:
    """How much of each side an outline's cut corner takes, mm."""
    return min(MARK.detail_corner, (box[2] - box[0]) / 3, (box[3] - box[1]) / 3)


def detail_mark(centre: Point, foot: Point, target: str, outline: Stroke) -> Symbol:
    """The ring that names a detail, its leader to `foot` on the outline round the place."""
    start = _toward(centre, foot, MARK.ring)
    strokes = (outline, ring(centre, MARK.ring, "symbol"), _divider(centre), line(start, foot, "leader"))
    return Symbol("detail mark", centre, strokes, (), (), {"number": "", "sheet": ""}, target=target)


def balloon(
    centre: Point,
    mark: str,
    part: str,
    leader: tuple[Stroke, ...],
    heads: tuple[Area, ...],
    *,
    key: bool = False,
) -> Symbol:
    """A part's mark in a ring, or with `key` the key of a note in a square, with its leader."""
    squeeze = min(1.0, MARK.balloon_words / max(width(mark, LEAST_TEXT), 1e-6))
    text = words(mark, centre, LEAST_TEXT, h="centre", v="middle", squeeze=max(MARK.least_squeeze, squeeze))
    x, y = centre
    square = frame(Box(x - MARK.balloon, y - MARK.balloon, x + MARK.balloon, y + MARK.balloon), "dimension")
    outline = square if key else ring(centre, MARK.balloon, "dimension")
    kind = "keynote" if key else "part balloon"
    return Symbol(kind, centre, (outline, *leader), heads, (text,), {"mark": mark}, key=part)


def _divider(centre: Point) -> Stroke:
    return line((centre[0] - MARK.ring, centre[1]), (centre[0] + MARK.ring, centre[1]), "dimension")


def _toward(a: Point, b: Point, reach: float) -> Point:
    size = max(1e-9, ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5)
    return (a[0] + (b[0] - a[0]) / size * reach, a[1] + (b[1] - a[1]) / size * reach)


def view_title(
    left: float,
    top: float,
    title: str,
    scale: Scale,
    manner: Manner,
    *,
    view_id: str,
    room: float,
    notes: tuple[str, ...] = (),
    measured: bool = True,
    keynotes: tuple[tuple[str, str], ...] = (),
) -> tuple[Item, ...]:
    """The title under a view, its upper left corner given: ring with number, name, scale, scale bar, notes.

    room: width it may fill; measured: False for a picture that is not to be measured, which has no scale bar.
    """
    centre = (left + MARK.ring, top - MARK.ring)
    x = left + 2 * MARK.ring + MARK.title_beside_ring
    # A title wider than its view is set smaller, then lets the view take more room: it is never pressed.
    free = max(room, MARK.title_room) - 2 * MARK.ring - MARK.title_beside_ring
    fits = (h for h in MARK.titles if h <= manner.heights.title and width(title, h, "bold") <= free)
    height = next(fits, MARK.titles[-1])
    name_width = width(title, height, "bold")
    says = ("SCALE " + scale.text) if scale.text != "FULL SIZE" else scale.text
    says = says if measured else "NOT TO SCALE"
    bar_x = x + width(says, LEAST_TEXT) + MARK.scale_to_bar
    bar, bar_end = _scale_bar(bar_x, centre[1] - MARK.bar_below, scale, manner) if measured else ((), bar_x)
    end = max(x + name_width, bar_end) + 1
    name = words(title, (x, centre[1] + MARK.name_above), height, weight="bold")
    scale_text = words(says, (x, centre[1] - MARK.scale_below - LEAST_TEXT), LEAST_TEXT)
    strokes = (
        ring(centre, MARK.ring, "symbol"),
        line((centre[0] + MARK.ring, centre[1]), (end, centre[1]), "symbol"),
    )
    fields = {"number": "", "title": title, "scale": says if not measured else scale.text, "sheet": ""}
    head = Symbol("view title", centre, strokes, (), (name, scale_text), fields, key=view_id)
    return (head, *bar, *_notes_by(left, top, end, notes, keynotes, room))


def _notes_by(
    left: float,
    top: float,
    end: float,
    notes: tuple[str, ...],
    keynotes: tuple[tuple[str, str], ...],
    room: float,
) -> tuple[Group, ...]:
    # Beside the title where they take no more height than its ring, else under it.
    x, foot = end + MARK.notes_beside, top - 2 * MARK.ring
    beside = left + room - x
    if beside >= MARK.least_beside:
        found, lowest = _notes(x, top + MARK.name_above, notes, keynotes, beside)
        if not found or (lowest >= foot - MARK.notes_foot and bounds(found)[2] <= left + room):
            return found
    return _notes(left, foot - MARK.notes_below, notes, keynotes, max(room, MARK.notes_least))[0]


def _notes(
    left: float, top: float, notes: tuple[str, ...], keynotes: tuple[tuple[str, str], ...], room: float
) -> tuple[tuple[Group, ...], float]:
    # Each with the number or key before it; and the height of the last line.
    found: list[Group] = []
    y = lowest = top
    labelled = [*((f"{k}.", note) for k, note in enumerate(notes, 1)), *keynotes]
    indent = MARK.note_indent + max((width(label) for label, _ in labelled), default=0.0) + MARK.note_label
    for label, note in labelled:
        lines = wrapped(note, min(room, MARK.notes_most) - indent)
        drawn = [words(label, (left + 1, y - LEAST_TEXT * MARK.notes_leading))]
        for part in lines:
            y -= LEAST_TEXT * MARK.notes_leading
            drawn.append(words(part, (left + indent, y)))
        found.append(group("note", label, " ".join(lines), drawn))
        lowest = y
        y -= MARK.between_notes
    return tuple(found), lowest


def _scale_bar(x: float, y: float, scale: Scale, manner: Manner) -> tuple[tuple[Item, ...], float]:
    step, count, unit = bar_steps(scale.ratio, manner.units)
    paper = float(step * scale.ratio)
    tall = MARK.bar_tall
    zero = words("0", (x, y), LEAST_TEXT)
    start = x + width("0") + MARK.bar_to_text
    blocks: list[Item] = [
        block(Box(start + k * paper, y, start + (k + 1) * paper, y + tall)) for k in range(0, count, 2)
    ]
    whole = step * count
    if unit == "mm":
        says = f"{whole} mm"
    elif unit == "ft":
        says = f"{whole / (MM_PER_INCH * 12)} ft"
    else:
        says = f"{whole / MM_PER_INCH} in"
    end = start + count * paper
    text = words(says, (end + MARK.bar_to_text, y), LEAST_TEXT)
    outline = frame(Box(start, y, end, y + tall), "dimension")
    bar = Symbol(
        "scale bar",
        (x, y),
        (outline,),
        tuple(b for b in blocks if isinstance(b, Area)),
        (zero, text),
        {"length": says},
    )
    return (bar,), end + MARK.bar_to_text + width(says)


def centre_letters(at: Point) -> Symbol:
    """C and L set into one another: the mark of a centre line."""
    x, y = at
    c = words("C", (x + MARK.centre_c[0], y + MARK.centre_c[1]), LEAST_TEXT, h="centre")
    lower = words("L", (x + MARK.centre_l[0], y + MARK.centre_l[1]), LEAST_TEXT, h="centre")
    return Symbol("centre line", at, (), (), (c, lower), {"text": "CL"})


def named(symbol: Symbol, number: str, sheet: str) -> Symbol:
    """A mark or a view's title with number and sheet written in its ring."""
    x, y = symbol.at
    if symbol.kind == "view title":
        upper = not sheet
        texts: tuple[Text, ...] = (
            _in_ring(number, (x, y), NUMBER_ALONE if upper else NUMBER_OVER_SHEET, middle=upper),
        )
        strokes = symbol.strokes
        if sheet:
            texts = (*texts, _lower(sheet, (x, y)))
            strokes = (*strokes, _divider((x, y)))
        return replace(
            symbol,
            strokes=strokes,
            texts=(*texts, *symbol.texts),
            fields={**symbol.fields, "number": number, "sheet": sheet},
            link=sheet,
        )
    return replace(
        symbol,
        texts=(_in_ring(number, (x, y), NUMBER_OVER_SHEET, middle=False), _lower(sheet, (x, y))),
        fields={"number": number, "sheet": sheet},
        link=sheet,
    )


def _in_ring(text: str, centre: Point, height: float, *, middle: bool) -> Text:
    if middle:
        return words(text, centre, height, h="centre", v="middle", weight="bold")
    return words(text, (centre[0], centre[1] + MARK.number_above), height, h="centre", weight="bold")


def _lower(text: str, centre: Point) -> Text:
    squeeze = min(1.0, MARK.ring_words / max(1e-6, width(text, LEAST_TEXT)))
    return words(
        text,
        (centre[0], centre[1] - MARK.sheet_below - LEAST_TEXT),
        LEAST_TEXT,
        h="centre",
        squeeze=max(MARK.least_squeeze, squeeze),
    )


def leader_end(tip: Point, back: Point, *, on_edge: bool) -> Area:
    """A dot where a leader ends on a face, an arrow where it ends on an edge."""
    return arrow(tip, back, MARK.head_long, MARK.head_wide) if on_edge else disc(tip, MARK.dot)
