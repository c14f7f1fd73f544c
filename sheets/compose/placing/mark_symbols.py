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
from sheets.compose.placing.manner import Manner
from sheets.compose.scales import Scale, bar_steps
from sheets.drawing.items import Area, Item, Stroke, Symbol, Text
from sheets.geometry.path import Box, Line, Point

RING = 6.0
"""Radius of the ring of a cut, detail or view mark, mm."""
CUT_END = 4.0
"""Length of the heavy end of a cutting line without a ring, mm."""
CUT_ARROW = 5.0
"""How far the arrow there reaches to the side, mm."""
_HEAVY = 0.5
_TITLES = (5.0, 4.5, 4.0, 3.5)
_TITLE_ROOM = 95.0  # that a title takes beside its view if it must
_LEAST_BESIDE = 40.0  # narrower notes beside a title are better under it
BALLOON = 3.9
"""Radius of a part's balloon, mm."""


def cut_mark(end: Point, along: Point, look: Point, target: str) -> Symbol:
    """The mark at one end of a cutting line: ring, pointer on the side looked to, heavy end of the line.

    end: where the line meets the ring; along: unit vector outward along the line; look: unit vector of sight.
    """
    centre = (end[0] + along[0] * RING, end[1] + along[1] * RING)
    base, reach = RING * 0.72, RING * 1.42
    tip = (centre[0] + look[0] * reach, centre[1] + look[1] * reach)
    wing = [
        tip,
        (centre[0] + look[0] * base + along[0] * base, centre[1] + look[1] * base + along[1] * base),
        (centre[0] + look[0] * RING, centre[1] + look[1] * RING),
        (centre[0] + look[0] * base - along[0] * base, centre[1] + look[1] * base - along[1] * base),
    ]
    return Symbol(
        "section mark",
        centre,
        (ring(centre, RING, "symbol"), _divider(centre)),
        (polygon(wing),),
        (),
        {"number": "", "sheet": ""},
        target=target,
    )


def cut_end(end: Point, along: Point, look: Point, target: str) -> Symbol:
    """The other end of a cutting line: its heavy end, and an arrow that looks the way the mark does.

    end, along, look: as for `cut_mark`.
    """
    middle = (end[0] + along[0] * CUT_END / 2, end[1] + along[1] * CUT_END / 2)
    tip = (middle[0] + look[0] * CUT_ARROW, middle[1] + look[1] * CUT_ARROW)
    outer = (end[0] + along[0] * CUT_END, end[1] + along[1] * CUT_END)
    half = _HEAVY / 2
    heavy = block((
        min(end[0], outer[0]) - half * abs(along[1]), min(end[1], outer[1]) - half * abs(along[0]),
        max(end[0], outer[0]) + half * abs(along[1]), max(end[1], outer[1]) + half * abs(along[0]),
    ))  # fmt: skip
    shaft = line(middle, tip, "symbol")
    return Symbol("cut end", middle, (shaft,), (heavy, arrow(tip, middle, 2.8, 1.5)), key=target)


def match_mark(centre: Point, target: str) -> Symbol:
    """The ring at the head of a match line: the view that goes on there, over its sheet."""
    return Symbol(
        "match mark",
        centre,
        (ring(centre, RING, "symbol"), _divider(centre)),
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
    return min(2.4, (box[2] - box[0]) / 3, (box[3] - box[1]) / 3)


def detail_mark(centre: Point, foot: Point, target: str, outline: Stroke) -> Symbol:
    """The ring that names a detail, its leader to `foot` on the outline round the place."""
    start = _toward(centre, foot, RING)
    strokes = (outline, ring(centre, RING, "symbol"), _divider(centre), line(start, foot, "leader"))
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
    squeeze = min(1.0, 6.4 / max(width(mark, LEAST_TEXT), 1e-6))
    text = words(mark, centre, LEAST_TEXT, h="centre", v="middle", squeeze=max(0.75, squeeze))
    x, y = centre
    square = frame((x - BALLOON, y - BALLOON, x + BALLOON, y + BALLOON), "dimension")
    outline = square if key else ring(centre, BALLOON, "dimension")
    kind = "keynote" if key else "part balloon"
    return Symbol(kind, centre, (outline, *leader), heads, (text,), {"mark": mark}, key=part)


def _divider(centre: Point) -> Stroke:
    return line((centre[0] - RING, centre[1]), (centre[0] + RING, centre[1]), "dimension")


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
    centre = (left + RING, top - RING)
    x = left + 2 * RING + 2
    # A title wider than its view is set smaller, then lets the view take more room: it is never pressed.
    free = max(room, _TITLE_ROOM) - 2 * RING - 2
    fits = (h for h in _TITLES if h <= manner.heights.title and width(title, h, "bold") <= free)
    height = next(fits, _TITLES[-1])
    name_width = width(title, height, "bold")
    says = ("SCALE " + scale.text) if scale.text != "FULL SIZE" else scale.text
    says = says if measured else "NOT TO SCALE"
    bar_x = x + width(says, LEAST_TEXT) + 5
    bar, bar_end = _scale_bar(bar_x, centre[1] - 4.3, scale, manner) if measured else ((), bar_x)
    end = max(x + name_width, bar_end) + 1
    name = words(title, (x, centre[1] + 1.4), height, weight="bold")
    scale_text = words(says, (x, centre[1] - 1.6 - LEAST_TEXT), LEAST_TEXT)
    strokes = (ring(centre, RING, "symbol"), line((centre[0] + RING, centre[1]), (end, centre[1]), "symbol"))
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
) -> tuple[Text, ...]:
    # Beside the title where they take no more height than its ring, else under it.
    x, foot = end + 8.0, top - 2 * RING
    beside = left + room - x
    if beside >= _LEAST_BESIDE:
        found = _notes(x, top + 1.4, notes, keynotes, beside)
        if not found or (found[-1].at[1] >= foot - 0.6 and bounds(found)[2] <= left + room):
            return found
    return _notes(left, foot - 1.5, notes, keynotes, max(room, 90.0))


def _notes(
    left: float, top: float, notes: tuple[str, ...], keynotes: tuple[tuple[str, str], ...], room: float
) -> tuple[Text, ...]:
    found: list[Text] = []
    y = top
    labelled = [*((f"{k}.", note) for k, note in enumerate(notes, 1)), *keynotes]
    indent = 2.0 + max((width(label) for label, _ in labelled), default=0.0) + 1.5
    for label, note in labelled:
        for j, part in enumerate(wrapped(note, min(room, 120.0) - indent)):
            y -= LEAST_TEXT * 1.55
            if j == 0:
                found.append(words(label, (left + 1, y)))
            found.append(words(part, (left + indent, y)))
        y -= 0.6
    return tuple(found)


def _scale_bar(x: float, y: float, scale: Scale, manner: Manner) -> tuple[tuple[Item, ...], float]:
    step, count, unit = bar_steps(scale.ratio, manner.units)
    paper = float(step * scale.ratio)
    tall = 1.3
    zero = words("0", (x, y), LEAST_TEXT)
    start = x + width("0") + 1.2
    blocks: list[Item] = [
        block((start + k * paper, y, start + (k + 1) * paper, y + tall)) for k in range(0, count, 2)
    ]
    whole = step * count
    if unit == "mm":
        says = f"{whole} mm"
    elif unit == "ft":
        says = f"{whole / (MM_PER_INCH * 12)} ft"
    else:
        says = f"{whole / MM_PER_INCH} in"
    end = start + count * paper
    text = words(says, (end + 1.2, y), LEAST_TEXT)
    outline = frame((start, y, end, y + tall), "dimension")
    bar = Symbol(
        "scale bar",
        (x, y),
        (outline,),
        tuple(b for b in blocks if isinstance(b, Area)),
        (zero, text),
        {"length": says},
    )
    return (bar,), end + 1.2 + width(says)


def centre_letters(at: Point) -> Symbol:
    """C and L set into one another: the mark of a centre line."""
    x, y = at
    c = words("C", (x - 1.0, y + 0.2), LEAST_TEXT, h="centre")
    lower = words("L", (x + 0.9, y - 0.9), LEAST_TEXT, h="centre")
    return Symbol("centre line", at, (), (), (c, lower), {"text": "CL"})


def named(symbol: Symbol, number: str, sheet: str) -> Symbol:
    """A mark or a view's title with number and sheet written in its ring."""
    x, y = symbol.at
    if symbol.kind == "view title":
        upper = not sheet
        texts: tuple[Text, ...] = (_in_ring(number, (x, y), 4.0 if upper else 3.0, middle=upper),)
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
        texts=(_in_ring(number, (x, y), 3.0, middle=False), _lower(sheet, (x, y))),
        fields={"number": number, "sheet": sheet},
        link=sheet,
    )


def _in_ring(text: str, centre: Point, height: float, *, middle: bool) -> Text:
    if middle:
        return words(text, centre, height, h="centre", v="middle", weight="bold")
    return words(text, (centre[0], centre[1] + 0.8), height, h="centre", weight="bold")


def _lower(text: str, centre: Point) -> Text:
    squeeze = min(1.0, 8.8 / max(1e-6, width(text, LEAST_TEXT)))
    return words(
        text, (centre[0], centre[1] - 0.9 - LEAST_TEXT), LEAST_TEXT, h="centre", squeeze=max(0.75, squeeze)
    )


def leader_end(tip: Point, back: Point, *, on_edge: bool) -> Area:
    """A dot where a leader ends on a face, an arrow where it ends on an edge."""
    return arrow(tip, back, 2.2, 0.75) if on_edge else disc(tip, 0.55)
