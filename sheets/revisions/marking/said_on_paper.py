"""What a view says besides its lines: its dimensions, its words and marks, each by what it is about.

Lines of one note are compared as one text: words that only broke into lines elsewhere have not changed.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sheets.drawing.items import Dimension, Item, Symbol, Text, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import extent, leaves
from sheets.geometry.box import Box

_OF_THE_SET = ("view title", "scale bar", "title block")
_REFERENCE_FIELDS = ("number", "sheet")
_NUMBER = re.compile(r"\d+\.")  # of a note in a list: another one says nothing new


@dataclass(frozen=True, slots=True)
class _Saying:
    """A mark, or all lines of one note. name: what it is about; identity: what it says of it."""

    name: str
    identity: tuple[object, ...]
    items: tuple[Text | Symbol, ...]


def changed_words(before: Viewport, after: Viewport) -> tuple[list[tuple[str, Box]], list[Box]]:
    """Return what the later view says anew, by name, and the boxes of lettering that stayed."""
    old = Counter(saying.identity for saying in _sayings(before.items))
    old_lines = {i.plain for i in before.items if isinstance(i, Text)}
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
    kept += [b for i in after.items if isinstance(i, (Text, Symbol)) and _silent(i) for b in _lettering(i)]
    return changed, kept


def named_boxes(view: Viewport) -> dict[str, tuple[Box, ...]]:
    """Return where each dimension and each of the words of a view stands, by the name that a mark keeps."""
    found: dict[str, list[Box]] = {}
    for item in view.items:
        if isinstance(item, Dimension):
            found.setdefault(dimension_name(item), []).append(text_box(item.text))
    for saying in _sayings(view.items):
        box = ring_box(saying.items[0]) or extent(saying.items)
        if box is not None:
            found.setdefault(saying.name, []).append(box)
    return {name: tuple(boxes) for name, boxes in found.items()}


def dimension_name(d: Dimension) -> str:
    """Return what a mark at a dimension keeps to: the string it is of."""
    return f"dimension {d.id}"


def ring_box(item: Item) -> Box | None:
    """Return the box of a mark's ring or number: its leader may run across what has not changed."""
    if isinstance(item, Symbol) and item.kind == "part balloon" and item.strokes:
        return extent(item.strokes[:1])
    return text_box(item.texts[0]) if isinstance(item, Symbol) and item.texts else None


def _sayings(items: Iterable[Item]) -> Iterator[_Saying]:
    # Lines with one key are of one label; without a key, what follows a number up to the next is one note.
    labels: dict[str, list[Text]] = {}
    notes: list[list[Text]] = []
    for item in items:
        if isinstance(item, Symbol):
            if not _silent(item):
                yield _Saying(f"{item.kind} {item.key or item.target}", _symbol_identity(item), (item,))
        elif isinstance(item, Text):
            if item.key:
                labels.setdefault(item.key, []).append(item)
            elif _NUMBER.fullmatch(item.plain) or not notes:
                notes.append([] if _NUMBER.fullmatch(item.plain) else [item])
            else:
                notes[-1].append(item)
    for key, texts in labels.items():
        yield _Saying(f"words {key}", ("label", key, _joined(texts)), tuple(texts))
    for texts in notes:
        if texts:
            yield _Saying(f"words {_joined(texts)}", ("note", _joined(texts)), tuple(texts))


def _silent(item: Text | Symbol) -> bool:
    if isinstance(item, Text):
        return not item.key and _NUMBER.fullmatch(item.plain) is not None
    return item.kind in _OF_THE_SET


def _lettering(item: Text | Symbol) -> list[Box]:
    return [text_box(leaf) for _, leaf in leaves((item,)) if isinstance(leaf, Text)]


def _joined(texts: Iterable[Text]) -> str:
    return " ".join(text.plain for text in texts)


def _symbol_identity(item: Symbol) -> tuple[object, ...]:
    # Where a mark leads is said by numbers that shift when a sheet is added: the target is what it means.
    fields = tuple(
        sorted((k, v) for k, v in item.fields.items() if not (item.target and k in _REFERENCE_FIELDS))
    )
    key = item.key if item.kind == "part balloon" and not item.fields else ""
    return (item.kind, item.target, key, fields)
