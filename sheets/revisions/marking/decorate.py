"""Revision marks on a set: what a new issue marks on each sheet, and a set drawn with the marks of its
record.

A sheet that did not change keeps its marks, number and bytes. On one that did, the triangles of the issue
before stay, older ones and all earlier clouds go. What is drawn comes from the record alone, so that a set
drawn again from its record is the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sheets.drawing.items import DrawingSet, Item, Sheet, Stroke, Symbol, Viewport
from sheets.drawing.walk import viewports
from sheets.geometry.box import Box, around
from sheets.geometry.path import Arc, Line, Point, Segment
from sheets.revisions.comparing.sheet_lines import SheetLine, SheetState, still_withdrawn
from sheets.revisions.keeping.record import CloudMark, Record, RowMark, SheetRecord, TriangleMark
from sheets.revisions.marking.block_marks import block_marks
from sheets.revisions.marking.clouds import clouds
from sheets.revisions.marking.difference import SheetDifference, ViewDifference, bare_hash, difference
from sheets.revisions.marking.earlier_marks import anchor, mark_at, middle_of, placed_again
from sheets.revisions.marking.sheet_notes import with_sheet_lines
from sheets.revisions.marking.triangles import Ink, place_beside, triangle, triangle_box, view_size

NEAR = 24.0
"""Clouds of one view nearer than this share a triangle, mm."""
_LINE = 0.5  # mm: a line along an axis has a box without area
_DRAFT = "\u2022"  # in a triangle of a change that has no number yet


def first_sheets(bare: DrawingSet, number: str) -> tuple[tuple[SheetRecord, ...], tuple[SheetLine, ...]]:
    """Return the sheets of a first issue, all of which carry its number and none a cloud, and their lines."""
    return (
        tuple(SheetRecord(s.number, s.title, number, bare_hash(s)) for s in bare.sheets),
        tuple(SheetLine("issued", s.number, s.title, number) for s in bare.sheets),
    )


def revised_sheets(
    before: DrawingSet, after: DrawingSet, earlier: Record | None, number: str
) -> tuple[tuple[SheetRecord, ...], tuple[SheetLine, ...]]:
    """Return the sheets of a later issue, and what became of each sheet.

    before and after: without revision marks; earlier: what was recorded.
    """
    found: list[SheetRecord] = []
    differences = difference(before, after)
    for sheet, changed in zip(after.sheets, differences, strict=True):
        was = earlier.sheet(changed.was) if earlier is not None else None
        if changed.same and ((was is not None and was.bare) or earlier is None):
            bare = bare_hash(sheet)
            found.append(replace(was, bare=bare) if was else SheetRecord(sheet.number, sheet.title, "", bare))
        else:
            rows = was.rows if was is not None else ()
            found.append(_marked_sheet(sheet, changed, _of_last(earlier), rows, number, _last(earlier)))
    # The first sheet's index names the revision of each sheet: it is issued anew with any of them.
    if found and number != _DRAFT:
        first = found[0]
        found[0] = replace(first, revision=number, clouds=first.clouds if first.revision == number else ())
    return tuple(found), _lines(before, found, differences, earlier, number)


def sheet_lines(before: DrawingSet, after: DrawingSet, earlier: Record | None) -> tuple[SheetLine, ...]:
    """Return what became of each sheet, those that would be issued anew without a revision yet."""
    _, lines = revised_sheets(before, after, earlier, _DRAFT)
    return tuple(replace(one, revision="") if one.revision == _DRAFT else one for one in lines)


def _lines(
    before: DrawingSet,
    now: Sequence[SheetRecord],
    differences: Sequence[SheetDifference],
    earlier: Record | None,
    number: str,
) -> tuple[SheetLine, ...]:
    found: list[SheetLine] = []
    for sheet, changed in zip(now, differences, strict=True):
        state: SheetState = "changed" if sheet.revision == number else "unchanged"
        if not changed.was:
            state = "new"
        elif changed.only_renumbered:
            state = "renumbered"
        other = changed.was if changed.was != sheet.number else ""
        found.append(SheetLine(state, sheet.number, sheet.title, sheet.revision, other))
    for one in _withdrawn(before, differences):
        was = earlier.sheet(one.number) if earlier is not None else None
        carried = was.revision if was is not None else ""
        found.append(SheetLine("withdrawn", one.number, one.title, carried))
    return still_withdrawn(earlier.lines if earlier is not None else (), found)


def _withdrawn(before: DrawingSet, differences: Sequence[SheetDifference]) -> list[Sheet]:
    kept = {changed.was for changed in differences}
    return [one for one in before.sheets if one.number not in kept]


def with_changes_marked(before: DrawingSet, after: DrawingSet) -> tuple[Sheet, ...]:
    """Return the sheets of a later set that changed, with clouds and an unnumbered triangle at each
    change."""
    sheets, lines = revised_sheets(before, after, None, _DRAFT)
    record = Record("", "", "", "", sheets=sheets)
    changed = {line.number for line in lines if line.state != "unchanged"}
    return tuple(sheet for sheet in decorated(after, record).sheets if sheet.number in changed)


def revision_of(record: Record) -> dict[str, str]:
    """Return the revision that each sheet carries by its record; one that is not recorded carries none."""
    return {sheet.number: sheet.revision for sheet in record.sheets if sheet.revision}


def decorated(drawing: DrawingSet, record: Record) -> DrawingSet:
    """Return a set with the revision marks of its record, for a set that carries the record's numbers.

    A sheet that has changed since the record was made (a draft) keeps its triangles and loses its clouds.
    """
    same = {sheet.number: _is_as_recorded(sheet, record) for sheet in drawing.sheets}
    if drawing.sheets:
        # The first sheet says which revision each sheet carries: it changes with any of them.
        first = drawing.sheets[0]
        was = record.sheet(first.number)
        as_it_was = was is not None and was.revision == first.revision
        same[first.number] = as_it_was and all(same[sheet.number] for sheet in drawing.sheets[1:])
    sheets = with_sheet_lines(drawing.sheets, record.lines)
    return replace(drawing, sheets=tuple(_decorated(s, record, same[s.number]) for s in sheets))


def _is_as_recorded(sheet: Sheet, record: Record) -> bool:
    was = record.sheet(sheet.number)
    return was is not None and was.bare == bare_hash(sheet)


def _decorated(sheet: Sheet, record: Record, same: bool) -> Sheet:
    was = record.sheet(sheet.number)
    if was is None:
        return sheet
    triangles = was.triangles if same else placed_again(sheet, _all_triangles(record), Ink(sheet.items))
    items: list[Item] = []
    for item in sheet.items:
        if isinstance(item, Viewport):
            more = [_cloud(mark, item) for mark in was.clouds if same and mark.view == item.id]
            more_marks = [_triangle(mark, item) for mark in triangles if mark.view == item.id]
            item = replace(item, items=(*item.items, *more, *more_marks))
        items.append(item)
    return replace(sheet, items=(*items, *block_marks(sheet, was.rows, was.revision if same else "")))


def _marked_sheet(
    sheet: Sheet,
    changed: SheetDifference,
    triangles: Sequence[TriangleMark],
    rows: tuple[RowMark, ...],
    number: str,
    last: str,
) -> SheetRecord:
    # last: the number of the issue before; what an earlier one marked is known by now.
    ink = Ink(sheet.items)
    views = {view.id: view for view in viewports(sheet)}
    stayed = [text for view in changed.views for text in view.texts]
    others = [
        text for text in ink.texts if not any(text.touches(box) for v in changed.views for box in v.changed)
    ]
    marks: list[CloudMark] = []
    found: list[TriangleMark] = []
    for view in changed.views:
        place = views[view.view]
        for stroke in clouds(view.changed, [*stayed, *others], sheet.frame, view.gone):
            x, y = anchor(place)
            marks.append(CloudMark(view.view, _shifted(stroke.path, (-x, -y))))
    about = {view.view: view for view in changed.views}
    for view_id, near in _neighbourhoods(marks):
        place, size = views[view_id], view_size(number)
        box = near.moved(*anchor(place))
        middle = place_beside(box, ink, sheet.frame, size)
        ink.take(triangle_box(middle, size))
        found.append(mark_at(place, number, middle, _about(about[view_id], box)))
    kept = placed_again(sheet, [t for t in triangles if t.number != number], ink, found)
    fresh = {(block.words, False) for block in changed.fresh}
    fresh |= {(block.words, True) for block in changed.before_gone}
    again = tuple(row for row in rows if row.number == last and (row.words, row.gone) not in fresh)
    return SheetRecord(
        sheet.number,
        sheet.title,
        number,
        bare_hash(sheet),
        tuple(marks),
        (*kept, *found),
        (*again, *(RowMark(words, number, gone) for words, gone in sorted(fresh))),
    )


def _about(changed: ViewDifference, cloud: Box) -> str:
    # What a triangle beside a cloud is to stay by: the largest of what it is round, if all of that is there
    # still.
    named = [(name, box) for name, box in changed.named if box.touches(cloud)]
    says = {box for _, box in changed.named}
    if not named or any(box.touches(cloud) for box in (*changed.changed, *changed.gone) if box not in says):
        return ""
    return max(named, key=lambda one: (one[1].grown(_LINE).area, one[0]))[0]


def _neighbourhoods(marks: Sequence[CloudMark]) -> list[tuple[str, Box]]:
    # Clouds near each other share a triangle, beside the largest: one for each dimension of a string says
    # no more.
    groups: list[tuple[str, list[Box]]] = []
    for mark in marks:
        box = around(s.bounds for s in mark.path)
        near = [
            g for g in groups if g[0] == mark.view and any(other.grown(NEAR).touches(box) for other in g[1])
        ]
        joined = [box, *(other for group in near for other in group[1])]
        groups = [g for g in groups if g not in near] + [(mark.view, joined)]
    return [(view, max(boxes, key=lambda b: ((b[2] - b[0]) * (b[3] - b[1]), b))) for view, boxes in groups]


def _last(record: Record | None) -> str:
    return record.number if record is not None else ""


def _of_last(record: Record | None) -> tuple[TriangleMark, ...]:
    return tuple(mark for mark in _all_triangles(record) if mark.number == _last(record))


def _all_triangles(record: Record | None) -> tuple[TriangleMark, ...]:
    # By view, since a view may have gone to another sheet.
    return tuple(mark for sheet in record.sheets for mark in sheet.triangles) if record is not None else ()


def _triangle(mark: TriangleMark, view: Viewport) -> Symbol:
    return triangle(middle_of(mark, view), mark.number, view_size(mark.number))


def _cloud(mark: CloudMark, view: Viewport) -> Stroke:
    return Stroke(_shifted(mark.path, anchor(view)), "revision", "cloud", True)


def _shifted(path: tuple[Segment, ...], by: Point) -> tuple[Segment, ...]:
    def place(p: Point) -> Point:
        return (round(p[0] + by[0], 4), round(p[1] + by[1], 4))

    return tuple(
        replace(s, centre=place(s.centre)) if isinstance(s, Arc) else Line(place(s.a), place(s.b))
        for s in path
    )
