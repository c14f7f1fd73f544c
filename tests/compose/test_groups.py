"""What a set says outside its views is held in groups that say it: nothing is left to find from its ink."""

from __future__ import annotations

import csv
import re

import pytest

from sheets.drawing.items import DrawingSet, Group, Sheet, Symbol, Text, Viewport
from sheets.drawing.walk import groups, leaves
from tests import drawn as sets

# Said again over what goes on elsewhere; and of the issue, how many sheets it has and the revision of each.
_NOTHING_NEW = re.compile(r".*\(CONTINUED\)|SCALE .*|REV\. .*|\d+ SHEETS")


@pytest.fixture(scope="module", params=["narrow-wall", "ferry-landing"])
def drawn(request):
    return sets.drawn(sets.ROOT / "specs" / f"{request.param}.yaml")


def loose(sheet: Sheet) -> list[str]:
    """What stands on a sheet's drawing space in no group that says it, but the heads of continued tables."""
    x0, y0, x1, y1 = sheet.frame
    held = {id(leaf) for group in groups(sheet.items) if group.words for _, leaf in leaves(group.items)}
    for table in (group for group in groups(sheet.items) if group.kind == "table"):
        first = table.items[0]
        if isinstance(first, Text) and _NOTHING_NEW.fullmatch(first.plain):
            held |= {id(item) for item in table.items if isinstance(item, Text)}
    outside = [item for item in sheet.items if not isinstance(item, Viewport)]
    return [
        leaf.plain
        for _, leaf in leaves(outside)
        if isinstance(leaf, Text) and id(leaf) not in held and leaf.key != "watermark"
        and x0 < leaf.at[0] < x1 and y0 < leaf.at[1] < y1
    ]  # fmt: skip


def test_all_that_is_said_outside_views_is_in_groups(drawn):
    for sheet in drawn.drawing.sheets:
        assert not [words for words in loose(sheet) if not _NOTHING_NEW.fullmatch(words)], sheet.number


def test_each_part_has_a_row_known_by_its_mark(drawn):
    listed = csv.reader(dict(drawn.files)["parts.csv"].decode("utf-8-sig").splitlines())
    marks = [row[0] for row in listed][1:]
    assert len(marks) > 10
    assert sorted(row.key for row in rows_of(drawn.drawing, "parts")) == sorted(marks)


def rows_of(drawing: DrawingSet, table: str) -> list[Group]:
    return [
        row
        for sheet in drawing.sheets
        for found in groups(sheet.items)
        if found.kind == "table" and found.key == table
        for row in groups(found.items)
        if row.kind == "row"
    ]


def test_the_index_has_a_row_for_each_sheet(drawn):
    listed = [group.key for group in groups(drawn.drawing.sheets[0].items) if group.kind == "row"]
    numbers = [sheet.number for sheet in drawn.drawing.sheets]
    assert [key for key in listed if key in numbers] == numbers


def test_notes_are_whole_however_they_are_broken(drawn):
    broken = [
        group
        for sheet in drawn.drawing.sheets
        for group in groups(sheet.items)
        if group.kind == "note" and len(group.items) > 2
    ]
    assert broken
    for note in broken:
        number, *lines = (item.plain for item in note.items if isinstance(item, Text))
        assert note.words == (" ".join(lines) if number == note.key else " ".join((number, *lines)))


def test_what_a_leader_leads_to_is_with_its_words(drawn):
    views = [item for sheet in drawn.drawing.sheets for item in sheet.items if isinstance(item, Viewport)]
    led = 0
    for note in (group for view in views for group in groups(view.items) if group.kind == "note"):
        marks = [item for item in note.items if isinstance(item, Symbol)]
        lines = [item.plain for item in note.items if isinstance(item, Text)]
        assert len(marks) <= 1
        assert lines
        for mark in marks:
            led += 1
            assert (mark.kind, mark.key) == ("part balloon", note.key)
            assert note.words == " ".join(lines)
    assert led > 3
