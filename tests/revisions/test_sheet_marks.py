"""Marks measured on every sheet of twelve issues: what is new is marked where it stands, no mark hides
another, none hides a word.

What is new outside the views is found here from the lettering alone, and held against the bars and clouds.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator

import shapely

from sheets.drawing.items import Item, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import leaves, ungrouped
from sheets.geometry.path import Arc
from tests.revisions.turns import Turn

# Said of the issue itself: the number a sheet carries, in the index. A heading said again at the top of a
# column, and the numbers of notes, say nothing new either.
OF_THE_ISSUE = re.compile(r"REV\. .*|.*\(CONTINUED\)|\d+\.|\d+ SHEETS")
RECORD = "RECORD OF REVISIONS"
OF_SHEETS = "SHEETS NEW, RENUMBERED AND WITHDRAWN"


def triangles(items: Iterable[Item]) -> Iterator[Symbol]:
    for item in items:
        if isinstance(item, Viewport):
            yield from triangles(item.items)
        elif isinstance(item, Symbol) and item.kind == "revision triangle":
            yield item


def outline(mark: Symbol) -> shapely.Polygon:
    return shapely.Polygon([segment.first for segment in mark.strokes[0].path])


def ring(cloud: Stroke) -> shapely.Polygon:
    points = [p for s in cloud.path for p in (s.flatten(0.02)[:-1] if isinstance(s, Arc) else (s.first,))]
    return shapely.Polygon(points)


def loose_texts(sheet: Sheet) -> list[Text]:
    """Lettering outside the views, but for the record of revisions, the title block's and the sheet's own."""
    # What is told of the sheets of the issue is drawn last.
    told = [k for k, item in enumerate(sheet.items) if getattr(item, "words", "") == OF_SHEETS]
    items = sheet.items[: told[0]] if told else sheet.items
    texts = [item for item in ungrouped(items) if isinstance(item, Text) and item.key != "watermark"]
    for item in sheet.items:
        if isinstance(item, Symbol) and item.kind == "title block":
            texts += [t for t in item.texts if t.key and "sheet.revision" not in t.key]
    record = next((t for t in texts if t.plain == RECORD), None)
    foot = 0.0
    if record is not None:
        below = [
            t.at[1] for t in texts if t.height > 3 and t.at[0] == record.at[0] and t.at[1] < record.at[1]
        ]
        foot = max(below, default=0.0)

    def of_record(t: Text) -> bool:
        across = record is not None and record.at[0] - 1 <= t.at[0] <= record.at[0] + 130
        return record is not None and across and foot < t.at[1] <= record.at[1]

    return [t for t in texts if not OF_THE_ISSUE.fullmatch(t.plain) and not of_record(t)]


def is_marked(text: Text, sheet: Sheet) -> bool:
    x0, y0, x1, y1 = text_box(text)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    strokes = [i for i in sheet.items if isinstance(i, Stroke) and i.pen == "revision"]
    bars = [s.path[0].bounds for s in strokes if s.key == "row"]
    level = any(low - 0.6 <= middle[1] <= high + 0.6 for _, low, _, high in bars if high > low)
    inside = any(ring(s).contains(shapely.Point(middle)) for s in strokes if s.key == "cloud")
    return level or inside


def test_every_word_that_is_new_outside_the_views_is_marked(turns: tuple[Turn, ...]) -> None:
    looked_at = 0
    for turn in turns:
        said = Counter(t.plain for sheet in turn.earlier_drawing.sheets for t in loose_texts(sheet))
        numbers = {sheet.number for sheet in turn.earlier_drawing.sheets}
        state = {line.number: line.state for line in turn.made.record.lines}
        for sheet in turn.made.drawing.sheets:
            record = turn.made.record.sheet(sheet.number)
            if state[sheet.number] == "new" and record is not None and not (record.rows or record.clouds):
                continue  # all of it is new, as the index says
            for text in loose_texts(sheet):
                if said[text.plain] > 0:
                    continue
                known = sheet.number in numbers and state[sheet.number] == "changed"
                if text.key.startswith("{") and not known:
                    continue  # the title block of a sheet that is new altogether, or was another's
                looked_at += 1
                assert sheet.revision == turn.number, (turn.step.name, sheet.number, text.plain)
                assert is_marked(text, sheet), (turn.step.name, sheet.number, text.plain)
    assert looked_at > 150


def test_a_sheet_with_a_new_number_shows_where_it_changed(turns: tuple[Turn, ...]) -> None:
    changed = 0
    for turn in turns:
        for sheet in turn.made.drawing.sheets:
            holds_record = any(isinstance(i, Text) and i.plain == RECORD for i in ungrouped(sheet.items))
            if sheet.revision != turn.number or holds_record or sheet.number == "Z-001":
                continue  # with every issue the index and the record of revisions are issued anew
            changed += 1
            marks = [m for m in triangles(sheet.items) if m.fields["revision"] == turn.number]
            clouds = [i for i in sheet.items if isinstance(i, Stroke) and i.key == "cloud"]
            assert marks or clouds, (turn.step.name, sheet.number)
    assert changed > 60


def test_rows_that_did_not_change_are_not_marked(turns: tuple[Turn, ...]) -> None:
    looked_at = 0
    for turn in turns:
        if turn.found.changes:
            continue
        for sheet in turn.made.record.sheets:
            looked_at += 1
            assert not [row for row in sheet.rows if row.number == turn.number], sheet.number
    assert looked_at > 20


def test_no_triangle_hides_a_word_or_another_triangle(turns: tuple[Turn, ...]) -> None:
    looked_at = 0
    for turn in turns:
        for sheet in turn.made.drawing.sheets:
            drawn = [(m.fields["revision"], outline(m)) for m in triangles(sheet.items)]
            words = [
                (leaf.plain, shapely.box(*text_box(leaf)).buffer(-0.1))
                for _, leaf in leaves(sheet.items)
                if isinstance(leaf, Text) and leaf.pen != "revision" and leaf.key != "watermark"
            ]
            tree = shapely.STRtree([box for _, box in words])
            for k, (number, shape) in enumerate(drawn):
                looked_at += 1
                where = (turn.step.name, sheet.number, number)
                assert not [n for n, other in drawn[:k] if shape.intersection(other).area > 0.05], where
                assert not [words[i][0] for i in tree.query(shape, "intersects")], where
                assert shapely.box(*sheet.frame).buffer(0.3).contains(shape), where
    # Enough to mean something; a row or a note that is marked whole has one where its lines had several.
    assert looked_at > 300


def test_triangles_of_one_place_stand_in_a_line(turns: tuple[Turn, ...]) -> None:
    """Triangles of two issues that stand close together in a view stand level with each other, or plumb."""
    close = 0
    for sheet in (sheet for turn in turns for sheet in turn.made.drawing.sheets):
        for view in (i for i in sheet.items if isinstance(i, Viewport)):
            spots = [mark.at for mark in triangles((view,))]
            for k, (x, y) in enumerate(spots):
                for u, v in spots[:k]:
                    if abs(x - u) < 12.0 and abs(y - v) < 12.0:
                        close += 1
                        assert min(abs(x - u), abs(y - v)) < 0.01, (sheet.number, view.id)
    assert close >= 3
