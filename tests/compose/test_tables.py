"""Schedules on sheets: nothing lost between sheets, heads repeated, words inside their cells."""

from __future__ import annotations

import pytest

from sheets.audit.defects import text_over_line, text_over_text, text_size
from sheets.audit.sheet_ink import ink_of
from sheets.base.notation import Run
from sheets.compose.ink import bounds, moved
from sheets.compose.pages.tables import draw_whole, lettered, set_table, table_pages
from sheets.drawing.items import Sheet, Text
from sheets.drawing.walk import groups, ungrouped
from sheets.geometry.box import Box
from sheets.schedules.table import Column, TableData

SIZE = (Run("1'-3 "), Run("", 13, 16), Run('" x 11"'))
COLUMNS = (Column("MARK", "centre"), Column("QTY", "right"), Column("PART"), Column("SIZE"), Column("NOTES"))


def _table(rows):
    body = tuple(
        (f"M{k}", str(k), "Side of the case", SIZE, "glue up from boards " * (k % 5)) for k in range(rows)
    )
    return TableData("parts", "Schedule of parts", COLUMNS, body, ("Sizes are as cut.",))


def texts(pages):
    return [i.plain for page in pages for i in ungrouped(page.items) if isinstance(i, Text)]


@pytest.mark.parametrize("rows", [1, 20, 200])
@pytest.mark.parametrize("space", [(0, 0, 460, 400), (0, 0, 250, 160)])
def test_every_row_stands_on_some_sheet_once(rows, space):
    pages = table_pages((_table(rows),), space, inch=True)
    marks = [text for text in texts(pages) if text.startswith("M") and text != "MARK"]
    assert sorted(marks) == sorted(f"M{k}" for k in range(rows))
    heads = [text for text in texts(pages) if "SCHEDULE OF PARTS" in text]
    assert heads[0] == "SCHEDULE OF PARTS"
    assert all(h == "SCHEDULE OF PARTS (CONTINUED)" for h in heads[1:])
    assert len(heads) == texts(pages).count("MARK")


@pytest.mark.parametrize("space", [(0, 0, 460, 400), (0, 0, 250, 160), (0, 0, 170, 250)])
def test_words_stay_in_their_cells_and_tables_on_their_sheet(space):
    for page in table_pages((_table(60), _table(7)), space, inch=True):
        ink = ink_of(Sheet(page.number, page.title, space[2], space[3], space, page.items))
        assert not [*text_over_text(ink), *text_over_line(ink), *text_size(ink)]
        assert all(one.box[0] > -1 and one.box[1] > -1 and one.box[2] < space[2] + 1 for one in ink.letters)


def test_a_row_with_one_cell_is_a_heading_over_all_columns():
    table = TableData("t", "T", COLUMNS, (("", "", "MANTEL", "", ""), ("M1", "1", "Cap", SIZE, "")))
    drawn, _ = draw_whole(set_table(table, 300, inch=True))
    heading = next(i for i in ungrouped((drawn,)) if isinstance(i, Text) and i.plain == "MANTEL")
    assert heading.weight == "bold"
    assert heading.at[0] < 3


def test_a_heading_stays_with_the_first_row_under_it():
    rows = []
    for k in range(60):
        rows += [("", "", f"GROUP {k}", "", ""), (f"M{k}", "1", "Cap", SIZE, "")]
    for tall in range(100, 130, 3):
        for page in table_pages(
            (TableData("t", "T", COLUMNS, tuple(rows)),), Box(0, 0, 300, tall), inch=True
        ):
            said = [i for i in ungrouped(page.items) if isinstance(i, Text)]
            lowest = {what: min(i.at[1] for i in said if i.plain.startswith(what)) for what in ("GROUP", "M")}
            assert lowest["M"] < lowest["GROUP"]


@pytest.mark.parametrize("rows", range(40, 80, 3))
def test_a_table_over_many_sheets_is_shared_out_between_them(rows):
    pages = table_pages((_table(rows),), Box(0, 0, 460, 120), inch=True)
    counts = [sum(text.startswith("M") and text != "MARK" for text in texts((page,))) for page in pages]
    heads = [texts((page,)).count("MARK") for page in pages]
    assert heads == [1] * len(pages)
    assert sum(counts) == rows
    assert len(counts) > 2
    assert min(counts) >= max(counts) / 2


def test_words_are_lettered_in_capitals_and_units_are_not():
    assert lettered("cut to 12 mm, glue") == "CUT TO 12 mm, GLUE"
    # SI Brochure, 9th edition: symbols of units named after a person begin with a capital.
    assert lettered("0.36 N/mm and 2.39 kN/m2, 1 N") == "0.36 N/mm AND 2.39 kN/m2, 1 N"


def test_a_table_without_rows_takes_no_sheet():
    assert table_pages((TableData("t", "T", COLUMNS, ()),), Box(0, 0, 400, 400), inch=True) == ()


def test_a_table_moves_whole():
    drawn, tall = draw_whole(set_table(_table(3), 300, inch=True))
    assert tall > 20
    there = moved(drawn, 5, 7)
    assert there.box == pytest.approx(tuple(a + b for a, b in zip(drawn.box, (5, 7, 5, 7), strict=True)))
    assert bounds((there,)) == pytest.approx(there.box)
    rows = [(was.box, now.box) for was, now in zip(groups((drawn,)), groups((there,)), strict=True)]
    assert all(now[:2] == pytest.approx((was[0] + 5, was[1] + 7)) for was, now in rows)


def test_rows_and_notes_are_groups_that_say_what_they_say():
    drawn, _ = draw_whole(set_table(_table(2), 70, inch=True))
    table, *held = groups((drawn,))
    assert (table.kind, table.key) == ("table", "parts")
    rows = [(group.key, group.words) for group in held if group.kind == "row"]
    assert [key for key, _ in rows] == ["M0", "M1"]
    assert all(words.startswith(f"{key} | ") for key, words in rows)
    assert next(group.words for group in held if group.kind == "heading") == "SCHEDULE OF PARTS"
    assert [group.words for group in held if group.kind == "note"] == ["SIZES ARE AS CUT."]
    # A row reaches from side to side of its table, and the next one begins where it ends.
    a, b = (group.box for group in held if group.kind == "row")
    assert (a[0], a[2], a[1]) == (b[0], b[2], b[3]) == (table.box[0], table.box[2], b[3])


def test_a_raised_figure_in_a_head_of_two_lines_clears_the_line_over_it():
    columns = (Column("SPECIES"), Column("NET, m\u00b3", "right"), Column("AREA, m\u00b2", "right"))
    table = TableData("lumber", "Lumber", columns, (("White oak, quarter sawn", "0.067", "1.2"),))
    drawn, tall = draw_whole(set_table(table, 45.0, inch=False))
    space = Box(0.0, 0.0, 45.0, tall)
    ink = ink_of(Sheet("Z-601", "T", 45.0, tall, space, (moved(drawn, 0.0, tall),)))
    assert {"NET,", "M\u00b3"} <= {one.text.plain for one in ink.letters}
    assert not [*text_over_text(ink), *text_over_line(ink)]
