"""The plain strokes, fills and words that everything on a sheet is made of. Paper mm, x right, y up."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import atan2, cos, pi, sin
from typing import Any, TypeVar

from sheets.base.notation import Run
from sheets.base.tolerance import SAME_POINT
from sheets.compose.view_sizes import MARK
from sheets.drawing import lettering
from sheets.drawing.items import Area, Dimension, Group, Item, Pen, Stroke, Symbol, Text, Weight
from sheets.drawing.walk import group, ungrouped
from sheets.geometry.box import Box, around
from sheets.geometry.path import Arc, Line, Loop, Point, Segment, Similarity, shifted
from sheets.geometry.region import Region, rectangle

_ItemT = TypeVar("_ItemT", bound=Item)

_FRACTION = re.compile(r"\d+/\d+")
_SIGNS = ("×", "x", "X", "=")  # between the numbers of a size
_UNITS = ("mm", "m", "in", "ft", "lb", "kg")
LEAST_TEXT = 2.5
"""Least height of capitals on a sheet, mm (3/32 in, ISO 3098 series)."""


def line(a: Point, b: Point, pen: Pen, key: str = "") -> Stroke:
    """One straight stroke."""
    return Stroke((Line(a, b),), pen, key)


def polyline(points: Sequence[Point], pen: Pen, *, closed: bool = False, key: str = "") -> Stroke:
    """A stroke through points; those that repeat are left out."""
    kept = [points[0]]
    for p in points[1:]:
        if abs(p[0] - kept[-1][0]) > SAME_POINT or abs(p[1] - kept[-1][1]) > SAME_POINT:
            kept.append(p)
    if closed and len(kept) > 2:
        kept.append(kept[0])
    return Stroke(tuple(Line(p, q) for p, q in itertools.pairwise(kept)), pen, key, closed)


def struck(text: Text) -> Stroke:
    """The line through words that hold no longer."""
    x0, _, x1, _ = lettering.box(text)
    middle = text.at[1] + (text.height / 2 if text.v == "baseline" else 0.0)
    return line((x0, middle), (x1, middle), "strike")


def frame(box: Box, pen: Pen, key: str = "") -> Stroke:
    """The four sides of a box."""
    x0, y0, x1, y1 = box
    return polyline([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], pen, closed=True, key=key)


def ring(centre: Point, radius: float, pen: Pen, key: str = "") -> Stroke:
    """A full circle."""
    return Stroke((Arc(centre, radius, 0.0, pi), Arc(centre, radius, pi, pi)), pen, key, True)


def disc(centre: Point, radius: float, fill: float = 0.0) -> Area:
    """A filled circle."""
    return Area((Region(Loop((Arc(centre, radius, 0.0, pi), Arc(centre, radius, pi, pi)))),), fill=fill)


def polygon(points: Sequence[Point], fill: float = 0.0) -> Area:
    """A filled polygon; the points run counter-clockwise or are turned so."""
    loop = Loop(tuple(Line(p, q) for p, q in zip(points, (*points[1:], points[0]), strict=True)))
    return Area((Region(loop if loop.area > 0 else loop.reversed()),), fill=fill)


def block(box: Box, fill: float = 0.0) -> Area:
    """A filled rectangle."""
    return Area((rectangle(*box),), fill=fill)


def arrow(tip: Point, toward: Point, length: float = MARK.arrow_long, width: float = MARK.arrow_wide) -> Area:
    """A slim filled arrowhead with its point at `tip`, pointing away from `toward`."""
    angle = atan2(tip[1] - toward[1], tip[0] - toward[0])
    c, s = cos(angle), sin(angle)
    back = (tip[0] - length * c, tip[1] - length * s)
    half = width / 2
    return polygon([tip, (back[0] - half * s, back[1] + half * c), (back[0] + half * s, back[1] - half * c)])


def words(
    text: str | Iterable[Run],
    at: Point,
    height: float = LEAST_TEXT,
    *,
    h: str = "left",
    v: str = "baseline",
    weight: Weight = "regular",
    angle: float = 0.0,
    squeeze: float = 1.0,
    key: str = "",
    link: str = "",
) -> Text:
    """One line of lettering."""
    runs = (Run(text),) if isinstance(text, str) else tuple(text)
    return Text(runs, at, height, h, v, angle, weight, squeeze, link=link, key=key)  # type: ignore[arg-type]


def width(text: str | Iterable[Run], height: float = LEAST_TEXT, weight: Weight = "regular") -> float:
    """How wide a line of lettering is, mm."""
    return lettering.width(text, height, weight)


def wrapped(
    text: str, room: float, height: float = LEAST_TEXT, weight: Weight = "regular"
) -> tuple[str, ...]:
    """A text broken at spaces so that no line is wider than `room`; a word wider than that stands alone.

    A size is never broken: neither before its fraction nor at the sign between its two numbers.
    """
    lines: list[str] = []
    space = width(" ", height, weight)
    for paragraph in text.split("\n"):
        current, so_far = "", 0.0
        for word in _unbroken(paragraph.split()):
            wide = width(word, height, weight)
            if current and so_far + space + wide > room:
                lines.append(current)
                current, so_far = word, wide
            else:
                current, so_far = (f"{current} {word}", so_far + space + wide) if current else (word, wide)
        lines.append(current)
    return tuple(lines) or ("",)


def _unbroken(parts: Sequence[str]) -> list[str]:
    # 1'-2 7/8" × 3 1/2", 18 mm x 6 mm and 1/2" = 1'-0" are each read as one word.
    found: list[str] = []
    for k, part in enumerate(parts):
        before, after = parts[k - 1] if k else "", parts[k + 1] if k + 1 < len(parts) else ""
        number = before[-1:].isdigit()
        if (
            (number and (_FRACTION.match(part) or part.strip(",.").lower() in _UNITS))
            or (part in _SIGNS and before and after[:1].isdigit())
            or (before in _SIGNS and k > 1 and part[:1].isdigit())
        ):
            found[-1] += " " + part
        else:
            found.append(part)
    return found


def moved(item: _ItemT, dx: float, dy: float) -> _ItemT:
    """The item shifted on the paper."""
    result: _ItemT = _moved(item, shifted(dx, dy))
    return result


def moved_stroke(stroke: Stroke, change: Similarity) -> Stroke:
    """A stroke under a map of the paper."""
    return replace(stroke, path=tuple(s.transformed(change) for s in stroke.path))


def mapped(shape: Region, change: Similarity) -> Region:
    """A region scaled and shifted (never mirrored: its loops keep their order)."""
    return Region(shape.outer.transformed(change), tuple(h.transformed(change) for h in shape.holes))


def _moved(item: Any, by: Similarity) -> Any:
    if isinstance(item, Stroke):
        return moved_stroke(item, by)
    if isinstance(item, Text):
        return replace(item, at=by(item.at))
    if isinstance(item, Area):
        gaps = tuple(gap.moved(by.dx, by.dy) for gap in item.gaps)
        return replace(
            item, regions=tuple(mapped(r, by) for r in item.regions), origin=by(item.origin), gaps=gaps
        )
    if isinstance(item, Dimension):
        return replace(
            item,
            text=_moved(item.text, by),
            line_at=by(item.line_at),
            strokes=tuple(moved_stroke(s, by) for s in item.strokes),
            heads=tuple(_moved(a, by) for a in item.heads),
        )
    if isinstance(item, Symbol):
        return replace(
            item,
            at=by(item.at),
            strokes=tuple(moved_stroke(s, by) for s in item.strokes),
            areas=tuple(_moved(a, by) for a in item.areas),
            texts=tuple(_moved(t, by) for t in item.texts),
        )
    if isinstance(item, Group):
        items = tuple(_moved(held, by) for held in item.items)
        return replace(item, items=items, box=item.box.moved(by.dx, by.dy))
    raise TypeError(f"a placed view is not moved: {item.id}")


def picture(name: str, items: Iterable[Item]) -> Group:
    """What is looked at as a whole, such as a diagram: a later issue is held against all of it.

    name: the same in every issue. Its ink carries the name too, as that of a part's view carries the part's.
    """
    held = tuple(ungrouped(items))
    said = " | ".join(item.plain for item in held if isinstance(item, Text))
    keyed = (replace(i, key=f"picture/{name}") for i in held if isinstance(i, (Area, Stroke, Text)))
    return group("picture", name, said, keyed)


def bounds(items: Iterable[Item]) -> Box:
    """The box round all ink of some items. Raises ValueError when there is none."""
    boxes = [b for item in items for b in boxes_of(item)]
    if not boxes:
        raise ValueError("nothing is drawn")
    return around(boxes)


def boxes_of(item: Item) -> list[Box]:
    """Boxes that together hold the ink of an item."""
    if isinstance(item, Stroke):
        return [segments_box(item.path)] if item.path else []
    if isinstance(item, Text):
        return [lettering.box(item)]
    if isinstance(item, Area):
        return [r.bounds for r in item.regions]
    if isinstance(item, Dimension):
        parts: tuple[Item, ...] = (item.text, *item.strokes, *item.heads)
        return [b for part in parts for b in boxes_of(part)]
    if isinstance(item, Symbol):
        parts = (*item.strokes, *item.areas, *item.texts)
        return [b for part in parts for b in boxes_of(part)]
    if isinstance(item, Group):
        return [b for part in item.items for b in boxes_of(part)]
    return [item.box]


def segments_box(path: Sequence[Segment]) -> Box:
    return path[0].bounds if len(path) == 1 else around([s.bounds for s in path])
