"""Two drawing sets in, out what a careful eye would find changed on each view and in each schedule.

A view is compared with the earlier drawing of the same view, wherever each stands. Boxes are paper mm on
the later set.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from itertools import pairwise

from sheets.drawing.dump import dump
from sheets.drawing.items import Area, Dimension, DrawingSet, Item, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import extent, leaves, viewports
from sheets.geometry.path import Arc, Box, shifted
from sheets.revisions.linework import Piece, less, pieces

_OF_THE_SET = ("view title", "scale bar", "title block")
_RECORD_HEAD = "REV. | DATE"
_REFERENCE_FIELDS = ("number", "sheet")


@dataclass(frozen=True, slots=True)
class ViewDifference:
    """What changed in one view. changed: the boxes to enclose; gone: boxes of lines that are no longer drawn,
    to enclose where no lettering stands now; texts: boxes of lettering that stayed."""

    view: str
    changed: tuple[Box, ...]
    texts: tuple[Box, ...]
    gone: tuple[Box, ...] = ()
    dimensions: tuple[str, ...] = ()  # printed texts of dimensions that are new or say something else


@dataclass(frozen=True, slots=True)
class RowDifference:
    """A row of a table: its words, the middle of its left end, its height, its right end."""

    words: str
    at: tuple[float, float]
    tall: float = 0.0
    right: float = 0.0


@dataclass(frozen=True, slots=True)
class SheetDifference:
    """One sheet of the later set."""

    number: str
    same: bool  # draws what it drew before, revision marks and numbers left out
    views: tuple[ViewDifference, ...] = ()
    rows: tuple[RowDifference, ...] = ()


def difference(before: DrawingSet, after: DrawingSet) -> tuple[SheetDifference, ...]:
    """Return what changed on each sheet of the later set. Both sets without revision marks."""
    old_sheets = {sheet.number: sheet for sheet in before.sheets}
    old_views = {view.id: view for sheet in before.sheets for view in viewports(sheet)}
    old_rows = Counter(row.words for sheet in before.sheets for row in table_rows(sheet))
    found: list[SheetDifference] = []
    for sheet in after.sheets:
        rows = tuple(row for row in table_rows(sheet) if not _used(old_rows, row.words))
        earlier = old_sheets.get(sheet.number)
        if earlier is not None and bare_hash(earlier) == bare_hash(sheet):
            found.append(SheetDifference(sheet.number, True))
            continue
        views = tuple(view_difference(old_views.get(view.id), view) for view in viewports(sheet))
        found.append(
            SheetDifference(sheet.number, False, tuple(v for v in views if v.changed or v.gone), rows)
        )
    return tuple(found)


def bare_hash(sheet: Sheet) -> str:
    """Return the SHA-256 of what a sheet draws, less its revision and what its title block and index say of
    it."""
    items = tuple(
        replace(item, texts=(), fields={})
        if isinstance(item, Symbol) and item.kind == "title block"
        else item
        for item in sheet.items
    )
    block = next((i for i in sheet.items if isinstance(i, Symbol) and i.kind == "title block"), None)
    says = (
        ""
        if block is None
        else repr(sorted((k, v) for k, v in block.fields.items() if k != "sheet.revision"))
    )
    bare = replace(sheet, items=items, revision="")
    return sha256((dump(bare) + says).encode("utf-8")).hexdigest()


def view_difference(before: Viewport | None, after: Viewport) -> ViewDifference:
    """Return what changed in a view; all of it when it is new."""
    if before is None:
        return ViewDifference(after.id, (after.drawn,), ())
    removed, added = changed_lines(before, after)
    changed: list[Box] = [_on_paper(piece, after) for piece in added]
    gone = tuple(box for piece in removed if _meets(box := _on_paper(piece, after), after.drawn))
    changed += _changed_areas(before, after)
    dimensions, kept = _changed_dimensions(before, after)
    said, silent = _changed_words(before, after)
    texts = (*(text_box(d.text) for d in kept), *silent)
    for dimension in dimensions:
        changed += _dimension_boxes(dimension, texts)
    return ViewDifference(after.id, (*changed, *said), texts, gone, tuple(d.text.plain for d in dimensions))


def changed_lines(before: Viewport, after: Viewport) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Return the lines removed and added, both in the coordinates of the later view.

    A detail follows what it is about: one that only stands elsewhere on the wall has not changed. It is
    compared
    corner to corner of its window as well as place to place, and the better agreement is taken.
    """
    was, now = pieces(before), pieces(after)
    found = (less(was, now), less(now, was))
    if after.id.split("/")[0] != "detail" or not any(found):
        return found
    (x0, y0), (x1, y1) = _corner(before), _corner(after)
    there = tuple(replace(p, segment=p.segment.transformed(shifted(x1 - x0, y1 - y0))) for p in was)
    other = (less(there, now), less(now, there))
    return min((found, other), key=lambda sides: sum(p.segment.length for side in sides for p in side))


def table_rows(sheet: Sheet) -> Iterator[RowDifference]:
    """Yield the rows of the tables on a sheet: what stands between two rules of one table, left to right.

    The record of revisions is left out: that it grew is no change to what is built.
    """
    flat: dict[tuple[float, float], set[float]] = {}
    sides: dict[float, list[tuple[float, float]]] = {}
    for item in sheet.items:
        if isinstance(item, Stroke) and item.pen in ("table rule", "table border"):
            for segment in item.path:
                x0, y0, x1, y1 = (round(value, 3) for value in segment.bounds)
                if y0 == y1:
                    flat.setdefault((x0, x1), set()).add(y0)
                elif x0 == x1:
                    sides.setdefault(x0, []).append((y0, y1))
    texts = [item for item in sheet.items if isinstance(item, Text)]
    for (x0, x1), levels in sorted(flat.items()):
        ours = True
        for top, foot in pairwise(sorted(levels, reverse=True)):
            # A table has sides; the rule under a heading has none.
            if not any(low <= foot and top <= high for low, high in sides.get(x0, ())):
                ours = True
                continue
            inside = [t for t in texts if x0 <= t.at[0] <= x1 and foot < t.at[1] < top]
            if inside:
                words = " | ".join(
                    t.plain for t in sorted(inside, key=lambda t: (round(t.at[0], 1), -t.at[1]))
                )
                ours = ours and not words.startswith(_RECORD_HEAD)
                if ours:
                    yield RowDifference(words, (x0, (top + foot) / 2), top - foot, x1)


def _corner(view: Viewport) -> tuple[float, float]:
    scale = float(view.scale)
    return ((view.drawn[0] - view.origin[0]) / scale, (view.drawn[1] - view.origin[1]) / scale)


def _meets(a: Box, b: Box) -> bool:
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def _used(counts: Counter[str], words: str) -> bool:
    if counts[words] > 0:
        counts[words] -= 1
        return True
    return False


def _on_paper(piece: Piece, view: Viewport) -> Box:
    scale = float(view.scale)
    (x0, y0), b = view.origin, piece.segment.bounds
    return (x0 + b[0] * scale, y0 + b[1] * scale, x0 + b[2] * scale, y0 + b[3] * scale)


def changed_dimensions(before: Viewport, after: Viewport) -> tuple[Dimension, ...]:
    """Return the dimensions of the later view that the earlier one does not print."""
    return tuple(_changed_dimensions(before, after)[0])


def _changed_areas(before: Viewport, after: Viewport) -> list[Box]:
    # Only what fills a part: where its borders run is the lines' to say.
    old = {(a.key, a.hatch, a.fill) for a in before.items if isinstance(a, Area)}
    return [
        region.bounds
        for a in after.items
        if isinstance(a, Area)
        and a.key
        and (a.key, a.hatch, a.fill) not in old
        and any(key == a.key for key, _, _ in old)
        for region in a.regions
    ]


def _changed_dimensions(before: Viewport, after: Viewport) -> tuple[list[Dimension], list[Dimension]]:
    old = Counter(_dimension_identity(d) for d in before.items if isinstance(d, Dimension))
    changed: list[Dimension] = []
    kept: list[Dimension] = []
    for item in after.items:
        if isinstance(item, Dimension):
            identity = _dimension_identity(item)
            (kept if old[identity] > 0 else changed).append(item)
            old[identity] -= 1
    return changed, kept


def _dimension_identity(d: Dimension) -> tuple[object, ...]:
    return (d.kind, d.id, d.angle, tuple(sorted(d.parts)), d.text.plain)


def _dimension_boxes(d: Dimension, others: Sequence[Box]) -> list[Box]:
    # The text and the dimension line, as one where they stand together with no other text between; extension
    # lines run through what has not changed.
    text = text_box(d.text)
    lines: list[Box] = []
    for stroke in d.strokes:
        for segment in stroke.path:
            x0, y0, x1, y1 = segment.bounds
            along = x1 - x0 < 0.01 if d.angle == 90.0 else y1 - y0 < 0.01
            at = (x0, d.line_at[0]) if d.angle == 90.0 else (y0, d.line_at[1])
            if d.kind == "radius" or isinstance(segment, Arc) or (along and abs(at[0] - at[1]) < 0.01):
                lines.append(segment.bounds)
    if d.kind == "linear" and lines:
        whole = _around([text, *lines])
        low, high = (0, 2) if d.angle == 90.0 else (1, 3)
        if whole[high] - whole[low] < 3 * d.text.height and not any(_meets(whole, other) for other in others):
            return [whole]
    return [text, *lines]


def _around(boxes: Sequence[Box]) -> Box:
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def _changed_words(before: Viewport, after: Viewport) -> tuple[list[Box], list[Box]]:
    old = Counter(_words_identity(item) for item in _wordy(before.items))
    changed: list[Box] = []
    kept: list[Box] = []
    for item in _wordy(after.items):
        identity = _words_identity(item)
        box = extent((item,))
        if box is None:
            continue
        if old[identity] > 0 or _of_the_set(item):
            kept += [text_box(leaf) for _, leaf in leaves((item,)) if isinstance(leaf, Text)]
        else:
            changed.append(_ring_box(item) or box)
        old[identity] -= 1
    return changed, kept


def _ring_box(item: Item) -> Box | None:
    # Of a balloon the ring round its mark: its leader may run across what has not changed.
    if isinstance(item, Symbol) and item.kind == "part balloon" and item.strokes:
        return extent(item.strokes[:1])
    return text_box(item.texts[0]) if isinstance(item, Symbol) and item.texts else None


def _wordy(items: Iterable[Item]) -> Iterator[Text | Symbol]:
    for item in items:
        if isinstance(item, (Text, Symbol)):
            yield item


def _of_the_set(item: Text | Symbol) -> bool:
    return isinstance(item, Symbol) and item.kind in _OF_THE_SET


def _words_identity(item: Text | Symbol) -> tuple[object, ...]:
    if isinstance(item, Text):
        return ("text", item.plain)
    # Where a mark leads is said by numbers that shift when a sheet is added: the target is what it means.
    fields = tuple(
        sorted((k, v) for k, v in item.fields.items() if not (item.target and k in _REFERENCE_FIELDS))
    )
    return (
        item.kind,
        item.target,
        item.key if item.kind == "part balloon" and not item.fields else "",
        fields,
    )
