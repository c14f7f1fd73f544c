"""What a view says besides its lines: its dimensions, its words and marks, each by what it is about.

Lines of one note are compared as one text: words that only broke into lines elsewhere have not changed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sheets.drawing.items import Dimension, Group, Item, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import dimensions, extent, groups, leaves, ungrouped
from sheets.geometry.box import Box, around
from sheets.revisions.marking.linework import MODEL_PENS

_OF_THE_SET = ("view title", "scale bar", "title block")
_REFERENCE_FIELDS = ("number", "sheet")


@dataclass(frozen=True, slots=True)
class _Saying:
    """A mark, or all lines of one note. name: what it is about; identity: what it says of it; silent: what
    says nothing, as the number of a note does."""

    name: str
    identity: tuple[object, ...]
    items: tuple[Text | Symbol, ...]
    silent: tuple[Text | Symbol, ...] = ()


def changed_words(before: Viewport, after: Viewport) -> tuple[list[tuple[str, Box]], list[Box]]:
    """Return what the later view says anew, by name, and the boxes of lettering that stayed."""
    was = tuple(_sayings(before.items))
    old = Counter(saying.identity for saying in was)
    old_lines = {i.plain for saying in was for i in saying.items if isinstance(i, Text)}
    changed: list[tuple[str, Box]] = []
    kept: list[Box] = []
    for saying in _sayings(after.items):
        stays = old[saying.identity] > 0
        old[saying.identity] -= 1
        fresh = [i for i in saying.items if not (isinstance(i, Text) and i.plain in old_lines)]
        for item in saying.items:
            box = extent((item,))
            if box is None:
                continue
            if stays or (fresh and item not in fresh):
                kept += _lettering(item)
            else:
                changed.append((saying.name, ring_box(item) or box))
        kept += [box for item in saying.silent for box in _lettering(item)]
    return changed, kept


def named_boxes(view: Viewport) -> dict[str, tuple[Box, ...]]:
    """Return where each part, each dimension and each of the words of a view stands, by the name that a mark
    keeps."""
    found: dict[str, list[Box]] = {name: [box] for name, box in _part_boxes(view).items()}
    for item in dimensions(view.items):
        found.setdefault(dimension_name(item), []).append(text_box(item.text))
    for saying in _sayings(view.items):
        box = ring_box(saying.items[0]) or extent(saying.items) if saying.items else None
        if box is not None:
            found.setdefault(saying.name, []).append(box)
    return {name: tuple(boxes) for name, boxes in found.items()}


def dimension_name(d: Dimension) -> str:
    """Return what a mark at a dimension keeps to: the string it is of."""
    return f"dimension {d.id}"


def part_name(key: str) -> str:
    """Return what a mark at the lines of a part keeps to."""
    return f"part {key}"


def _part_boxes(view: Viewport) -> dict[str, Box]:
    found: dict[str, Box] = {}
    for item in ungrouped(view.items):
        if isinstance(item, Stroke) and item.key and item.path and item.pen in MODEL_PENS:
            box = around(segment.bounds for segment in item.path)
            name = part_name(item.key)
            found[name] = found[name].joined(box) if name in found else box
    return found


def ring_box(item: Item) -> Box | None:
    """Return the box of a mark's ring or number: its leader may run across what has not changed."""
    if isinstance(item, Symbol) and item.kind == "part balloon" and item.strokes:
        return extent(item.strokes[:1])
    return text_box(item.texts[0]) if isinstance(item, Symbol) and item.texts else None


def _sayings(items: Iterable[Item]) -> Iterator[_Saying]:
    items = tuple(items)
    for item in ungrouped(items):
        if isinstance(item, Symbol):
            if item.kind in _OF_THE_SET:
                yield _Saying("", (item.kind,), (), (item,))
            else:
                yield _Saying(f"{item.kind} {item.key or item.target}", _symbol_identity(item), (item,))
    yield from (_note(group) for group in groups(items) if group.kind == "note")


def _note(note: Group) -> _Saying:
    # The number before a note of a list is silent, and another one says nothing new; a label is of a part.
    texts = [item for item in note.items if isinstance(item, Text)]
    number = tuple(text for text in texts if text.plain == note.key)
    lines = tuple(text for text in texts if text not in number)
    if number:
        return _Saying(f"words {note.words}", ("note", note.words), lines, number)
    return _Saying(f"words {note.key}", ("label", note.key, note.words), lines)


def _lettering(item: Text | Symbol) -> list[Box]:
    return [text_box(leaf) for _, leaf in leaves((item,)) if isinstance(leaf, Text)]


def _symbol_identity(item: Symbol) -> tuple[object, ...]:
    # Where a mark leads is said by numbers that shift when a sheet is added: the target is what it means.
    fields = tuple(
        sorted((k, v) for k, v in item.fields.items() if not (item.target and k in _REFERENCE_FIELDS))
    )
    key = item.key if item.kind == "part balloon" and not item.fields else ""
    return (item.kind, item.target, key, fields)
