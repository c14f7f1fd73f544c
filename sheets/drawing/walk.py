"""Going through a sheet's items: what is drawn in which order, how far it reaches, where its links lie."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sheets.drawing.items import Area, Dimension, Item, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.pens import Where, where
from sheets.geometry.box import Box, around

Leaf = Stroke | Area | Text
_TOUCH = 2.0  # mm around a mark's lettering that lead where the mark leads


@dataclass(frozen=True, slots=True)
class Link:
    """A place that leads elsewhere: its box in paper mm, the number of a sheet, the id of a view or ''."""

    box: Box
    sheet: str
    view: str


def leaves(items: Iterable[Item], kind: Where = "sheet") -> Iterator[tuple[Where, Leaf]]:
    """Yield the strokes, areas and texts that items are made of, in the order drawn, with their kind of view.

    Within a symbol areas come first, then strokes, then lettering, so that a mark can be filled.
    """
    for item in items:
        match item:
            case Stroke() | Area() | Text():
                yield kind, item
            case Dimension():
                yield from leaves((*item.heads, *item.strokes, item.text), kind)
            case Symbol():
                yield from leaves((*item.areas, *item.strokes, *item.texts), kind)
            case Viewport():
                yield from leaves(item.items, where(item.id))


def viewports(sheet: Sheet) -> tuple[Viewport, ...]:
    """Return the views placed on a sheet, in order."""
    return tuple(item for item in sheet.items if isinstance(item, Viewport))


def dimensions(items: Iterable[Item]) -> Iterator[Dimension]:
    """Yield every dimension among items, those in viewports included."""
    for item in items:
        if isinstance(item, Dimension):
            yield item
        elif isinstance(item, Viewport):
            yield from dimensions(item.items)


def links(items: Iterable[Item]) -> Iterator[Link]:
    """Yield every place that leads to a sheet or a view."""
    for item in items:
        match item:
            case Text() if item.link:
                yield Link(text_box(item), item.link, "")
            case Symbol():
                # A mark leads on where its number stands: its leader and its ring cross the drawing.
                reach = extent(item.texts) or extent((item,))
                if (item.link or item.target) and reach:
                    yield Link(reach.grown(_TOUCH), item.link, item.target)
                else:
                    yield from links(item.texts)
            case Viewport():
                yield from links(item.items)
            case _:
                pass


def extent(items: Iterable[Item]) -> Box | None:
    """Return the box, paper mm, around all that items draw, widths of lines left out; None if nothing is."""
    boxes: list[Box] = []
    for _, leaf in leaves(items):
        match leaf:
            case Stroke():
                boxes.extend(segment.bounds for segment in leaf.path)
            case Area():
                boxes.extend(region.bounds for region in leaf.regions)
            case Text():
                boxes.append(text_box(leaf))
    return around(boxes) if boxes else None
