"""Two drawing sets in, out what a careful eye would find changed on each view and in each schedule.

A view is compared with the earlier drawing of the same view, wherever each stands. Boxes are paper mm on
the later set.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from hashlib import sha256
from math import fsum

from sheets.compose.border.titleblock import OF_THE_ISSUE
from sheets.drawing.dump import paper_dump
from sheets.drawing.items import Area, Dimension, DrawingSet, Sheet, Symbol, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import dimensions, ungrouped, viewports
from sheets.geometry.box import Box, around
from sheets.geometry.path import Arc, Point, shifted
from sheets.revisions.marking.linework import Piece, drawn_by, is_end_of_room, less, pieces
from sheets.revisions.marking.said_blocks import ALONE, Block, blocks, holds_record
from sheets.revisions.marking.said_on_paper import changed_words, dimension_name, part_name
from sheets.revisions.marking.same_sheet import is_all_new, same_sheets

_NUMBER = "{sheet.number}: "


@dataclass(frozen=True, slots=True)
class ViewDifference:
    """What changed in one view. changed: the boxes to enclose; gone: boxes of lines that are no longer drawn,
    to enclose where no lettering stands now; texts: boxes of lettering that stayed."""

    view: str
    changed: tuple[Box, ...]
    texts: tuple[Box, ...]
    gone: tuple[Box, ...] = ()
    dimensions: tuple[str, ...] = ()  # printed texts of dimensions that are new or say something else
    named: tuple[
        tuple[str, Box], ...
    ] = ()  # of the boxes of lines, dimensions and words, what each belongs to


@dataclass(frozen=True, slots=True)
class SheetDifference:
    """One sheet of the later set."""

    number: str
    same: bool  # draws what it drew before under the same number, revision marks left out
    was: str = ""  # its number in the earlier set; "" if it is new
    views: tuple[ViewDifference, ...] = ()
    fresh: tuple[Block, ...] = ()  # blocks outside views that the earlier set does not have
    before_gone: tuple[Block, ...] = ()  # blocks that stayed, each with something taken away under it

    @property
    def only_renumbered(self) -> bool:
        """Whether nothing but its number is another."""
        fresh = [block for block in self.fresh if not block.words.startswith(_NUMBER)]
        return self.was not in ("", self.number) and not (self.views or fresh or self.before_gone)


def difference(before: DrawingSet, after: DrawingSet) -> tuple[SheetDifference, ...]:
    """Return what changed on each sheet of the later set. Both sets without revision marks."""
    was_of = same_sheets(before, after)
    old_sheets = {sheet.number: sheet for sheet in before.sheets}
    old_views = {view.id: view for sheet in before.sheets for view in viewports(sheet)}
    # By the number that each has now; those that are gone by a name that no sheet has.
    now_of = {was: number for number, was in was_of.items()}
    old_blocks = {now_of.get(s.number, f"{s.number} before"): blocks(s) for s in before.sheets}
    new_blocks = {sheet.number: blocks(sheet) for sheet in after.sheets}
    unlike = _unlike(old_blocks, new_blocks)
    still_there = {block.words for each in new_blocks.values() for block in each}
    found: list[SheetDifference] = []
    for sheet in after.sheets:
        was = was_of.get(sheet.number, "")
        if was == sheet.number and bare_hash(old_sheets[was]) == bare_hash(sheet):
            found.append(SheetDifference(sheet.number, True, was))
            continue
        if not was and is_all_new(sheet, before.sheets):
            found.append(SheetDifference(sheet.number, False))
            continue
        views = tuple(view_difference(old_views.get(view.id), view) for view in viewports(sheet))
        views = tuple(v for v in views if v.changed or v.gone)
        gone = _before_gone(old_blocks.get(sheet.number, ()), new_blocks[sheet.number], still_there)
        fresh = unlike[sheet.number]
        if not views and not fresh and not gone and not holds_record(sheet):
            fresh = _came(old_blocks.get(sheet.number, ()), new_blocks[sheet.number])
        found.append(SheetDifference(sheet.number, False, was, views, fresh, gone))
    return tuple(found)


def _unlike(
    old: Mapping[str, Sequence[Block]], new: Mapping[str, Sequence[Block]]
) -> dict[str, tuple[Block, ...]]:
    # By sheet, what was said neither on that sheet nor on another from which it may have come.
    left: Counter[str] = Counter()
    found: dict[str, tuple[Block, ...]] = {}
    for number in [*new, *(n for n in old if n not in new)]:
        words = Counter(block.words for block in old.get(number, ()))
        found[number] = tuple(b for b in new.get(number, ()) if not _used(words, b.words))
        left += words
    return {
        number: tuple(
            b for b in found[number] if not _used(left, b.words) and (number in old or b.kind != "field")
        )
        for number in new
    }


def _came(old: Sequence[Block], new: Sequence[Block]) -> tuple[Block, ...]:
    # Nothing is new to the set: what came from another sheet; else only its arrangement is new, which the
    # field with the sheet's title stands for.
    words = Counter(block.words for block in old)
    return tuple(b for b in new if not _used(words, b.words)) or tuple(
        b for b in new if b.kind == "field" and "{sheet.title}" in b.words
    )


def _before_gone(
    old: Sequence[Block], new: Sequence[Block], still_there: Container[str]
) -> tuple[Block, ...]:
    # A row or a line that was taken away with nothing in its place is marked under the one before it.
    was, now = ([block for block in side if block.kind not in ALONE] for side in (old, new))
    found: list[Block] = []
    matcher = SequenceMatcher(None, [b.words for b in was], [b.words for b in now], autojunk=False)
    for what, low, high, at, _ in matcher.get_opcodes():
        if what == "delete" and at and any(block.words not in still_there for block in was[low:high]):
            found.append(now[at - 1])
    return tuple(found)


def bare_hash(sheet: Sheet) -> str:
    """Return the SHA-256 of what a sheet draws, less what its title block says of its revision."""
    items = tuple(
        replace(
            item,
            texts=tuple(t for t in item.texts if OF_THE_ISSUE not in t.key),
            strokes=tuple(s for s in item.strokes if OF_THE_ISSUE not in s.key),
            fields={},
        )
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
    return sha256((paper_dump(bare) + says).encode("utf-8")).hexdigest()


def view_difference(before: Viewport | None, after: Viewport) -> ViewDifference:
    """Return what changed in a view; all of it when it is new."""
    if before is None:
        return ViewDifference(after.id, (after.drawn,), ())
    removed, added = changed_lines(before, after)
    changed: list[Box] = [_on_paper(piece, after) for piece in added if not piece.key]
    gone = tuple(box for piece in removed if (box := _on_paper(piece, after)).touches(after.drawn))
    changed += _changed_areas(before, after)
    sizes, kept = _changed_dimensions(before, after)
    said, silent = changed_words(before, after)
    texts = (*(text_box(d.text) for d in kept), *silent)
    named = [(part_name(piece.key), _on_paper(piece, after)) for piece in added if piece.key]
    named += said
    for dimension in sizes:
        named += [(dimension_name(dimension), box) for box in _dimension_boxes(dimension, texts)]
    boxes = (*changed, *(box for _, box in named))
    printed = tuple(d.text.plain for d in sizes)
    return ViewDifference(after.id, boxes, texts, gone, printed, tuple(named))


def changed_lines(before: Viewport, after: Viewport) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Return the lines removed and added, both in the coordinates of the later view.

    A detail follows what it is about: one that only stands elsewhere on the wall has not changed. It is
    compared
    corner to corner of its window as well as place to place, and the better agreement is taken.
    """
    found = _unlike_lines(before, after, (0.0, 0.0))
    if after.id.split("/")[0] != "detail" or not any(found):
        return found
    (x0, y0), (x1, y1) = _corner(before), _corner(after)
    other = _unlike_lines(before, after, (x1 - x0, y1 - y0))
    return min((found, other), key=lambda sides: fsum(p.segment.length for side in sides for p in side))


def _unlike_lines(
    before: Viewport, after: Viewport, by: Point
) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    was, now = pieces(before), pieces(after)
    if by != (0.0, 0.0):
        was = tuple(replace(p, segment=p.segment.transformed(shifted(*by))) for p in was)
    removed = [p for p in less(was, now) if not is_end_of_room(p, before, by)]
    added = [p for p in less(now, was) if not is_end_of_room(p, after)]
    return drawn_by(removed, after), drawn_by(added, before, by)


def _corner(view: Viewport) -> tuple[float, float]:
    scale = float(view.scale)
    return ((view.drawn[0] - view.origin[0]) / scale, (view.drawn[1] - view.origin[1]) / scale)


def _used(counts: Counter[str], words: str) -> bool:
    if counts[words] > 0:
        counts[words] -= 1
        return True
    return False


def _on_paper(piece: Piece, view: Viewport) -> Box:
    scale = float(view.scale)
    (x0, y0), b = view.origin, piece.segment.bounds
    return Box(x0 + b[0] * scale, y0 + b[1] * scale, x0 + b[2] * scale, y0 + b[3] * scale)


def changed_dimensions(before: Viewport, after: Viewport) -> tuple[Dimension, ...]:
    """Return the dimensions of the later view that the earlier one does not print."""
    return tuple(_changed_dimensions(before, after)[0])


def _changed_areas(before: Viewport, after: Viewport) -> list[Box]:
    # Only what fills a part: where its borders run is the lines' to say.
    old = {(a.key, a.hatch, a.fill) for a in ungrouped(before.items) if isinstance(a, Area)}
    return [
        region.bounds
        for a in ungrouped(after.items)
        if isinstance(a, Area)
        and a.key
        and (a.key, a.hatch, a.fill) not in old
        and any(key == a.key for key, _, _ in old)
        for region in a.regions
    ]


def _changed_dimensions(before: Viewport, after: Viewport) -> tuple[list[Dimension], list[Dimension]]:
    old = Counter(_dimension_identity(d) for d in dimensions(before.items))
    changed: list[Dimension] = []
    kept: list[Dimension] = []
    for item in dimensions(after.items):
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
        whole = around([text, *lines])
        low, high = (0, 2) if d.angle == 90.0 else (1, 3)
        if whole[high] - whole[low] < 3 * d.text.height and not any(whole.touches(other) for other in others):
            return [whole]
    return [text, *lines]
