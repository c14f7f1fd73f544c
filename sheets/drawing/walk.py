"""Going through a sheet's items: what is drawn in which order, how far it reaches, where its links lie."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sheets.drawing.items import (
    Area,
    Dimension,
    Group,
    GroupKind,
    Item,
    Sheet,
    Stroke,
    Symbol,
    Text,
    Viewport,
)
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
        if isinstance(item, (Stroke, Area, Text)):
            yield kind, item
        else:
            yield from leaves(held(item), where(item.id) if isinstance(item, Viewport) else kind)


def held(item: Dimension | Symbol | Viewport | Group) -> tuple[Item, ...]:
    """Return what an item is made of, in the order drawn."""
    match item:
        case Dimension():
            return (*item.heads, *item.strokes, item.text)
        case Symbol():
            return (*item.areas, *item.strokes, *item.texts)
        case Viewport() | Group():
            return item.items


def ungrouped(items: Iterable[Item]) -> Iterator[Item]:
    """Yield items, what groups hold in their place, in the order drawn. Viewports are left as they are."""
    for item in items:
        if isinstance(item, Group):
            yield from ungrouped(item.items)
        else:
            yield item


def groups(items: Iterable[Item]) -> Iterator[Group]:
    """Yield every group among items, one that holds others before those. Viewports are left alone."""
    for item in items:
        if isinstance(item, Group):
            yield item
            yield from groups(item.items)


def said(items: Iterable[Item]) -> Iterator[tuple[str, Item]]:
    """Yield all that items say, each with what says it: a group for all that it holds, a mark by its fields'
    lettering."""
    for item in items:
        match item:
            case Group() if item.words:
                yield item.words, item
            case Group() | Viewport():
                yield from said(item.items)
            case Text():
                yield item.plain, item
            case Dimension():
                yield item.text.plain, item
            case Symbol():
                yield item.fields.get("text") or " ".join(text.plain for text in item.texts), item
            case _:
                pass


def fields(block: Symbol) -> tuple[Group, ...]:
    """Return the fields of a title block that print something, each keyed by what it is filled from."""
    cells: dict[str, list[Text]] = {}
    for text in block.texts:
        if text.key:
            cells.setdefault(text.key, []).append(text)
    return tuple(group("field", key, " ".join(t.plain for t in texts), texts) for key, texts in cells.items())


def group(kind: GroupKind, key: str, words: str, items: Iterable[Item]) -> Group:
    """Return a group round items that draw something; its box is theirs. Raises ValueError if nothing is
    drawn."""
    held = tuple(items)
    box = extent(held)
    if box is None:
        raise ValueError(f"the {kind} {key} draws nothing")
    return Group(kind, key, words, held, box)


def viewports(sheet: Sheet) -> tuple[Viewport, ...]:
    """Return the views placed on a sheet, in order."""
    return tuple(item for item in sheet.items if isinstance(item, Viewport))


def dimensions(items: Iterable[Item]) -> Iterator[Dimension]:
    """Yield every dimension among items, those in viewports included."""
    for item in ungrouped(items):
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
            case Viewport() | Group():
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
