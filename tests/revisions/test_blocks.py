"""What a sheet says outside its views, read from its groups: the same words wherever they stand."""

from __future__ import annotations

from dataclasses import replace

from sheets.compose.ink import line, moved, picture, words
from sheets.compose.pages.general import numbered_list, pairs
from sheets.compose.pages.record_block import RECORD
from sheets.compose.pages.tables import draw_whole, set_table
from sheets.drawing.items import Item, Sheet, Symbol
from sheets.geometry.box import Box
from sheets.revisions.marking.said_blocks import Block, blocks, holds_record
from sheets.schedules.table import Column, TableData

COLUMNS = (Column("MARK"), Column("QTY", "right"), Column("PART"))
ROWS = (("M1", "2", "Side of the flanking case"), ("M2", "1", "Rail under the top of the mantel"))
NOTE = "Sizes are as cut, in the order of their marks."
TABLE = TableData("parts", "Schedule of parts", COLUMNS, ROWS, (NOTE,))


def said(*items: Item) -> tuple[Block, ...]:
    return blocks(Sheet("Z-601", "SCHEDULES", 400.0, 300.0, Box(10.0, 10.0, 390.0, 290.0), items))


def drawn(table: TableData, room: float) -> Item:
    return draw_whole(set_table(table, room, inch=True))[0]


def test_a_table_says_the_same_wherever_it_stands_and_however_its_cells_are_broken():
    wide, narrow = said(drawn(TABLE, 300.0)), said(moved(drawn(TABLE, 50.0), 40.0, 90.0))
    assert [(b.kind, b.words) for b in wide] == [(b.kind, b.words) for b in narrow]
    assert [b.words for b in wide] == [
        "SCHEDULE OF PARTS",
        "MARK | QTY | PART",
        "M1 | 2 | SIDE OF THE FLANKING CASE",
        "M2 | 1 | RAIL UNDER THE TOP OF THE MANTEL",
        "SIZES ARE AS CUT, IN THE ORDER OF THEIR MARKS.",
    ]
    assert narrow[2].box[3] - narrow[2].box[1] > wide[2].box[3] - wide[2].box[1]  # broken in lines


def test_a_note_is_one_block_and_its_number_says_nothing():
    before = said(*numbered_list("NOTES", ("One thing.", "Another thing " * 9), 60.0).items)
    after = said(*numbered_list("NOTES", ("Another thing " * 9,), 80.0).items)
    assert [b.words for b in before][1:] == ["ONE THING.", " ".join(["ANOTHER THING"] * 9)]
    assert after[1].words == before[2].words


def test_the_index_says_the_sheets_and_not_which_revision_they_carry():
    index = (("Z-001", "INDEX"), ("Z-101", "PLANS"))
    bare = said(*pairs("SHEETS", index, 90.0, tail=20.0).items)
    issued = said(*pairs("SHEETS", index, 90.0, ends={"Z-101": "REV. B"}, tail=20.0).items)
    assert bare == issued
    assert [b.words for b in bare] == ["SHEETS", "Z-001 INDEX", "Z-101 PLANS"]


def test_the_record_of_revisions_is_no_news():
    record = drawn(replace(TABLE, id=RECORD), 200.0)
    assert said(record) == ()
    assert holds_record(Sheet("Z-001", "T", 9.0, 9.0, Box(0.0, 0.0, 9.0, 9.0), (record,)))
    assert not holds_record(Sheet("Z-001", "T", 9.0, 9.0, Box(0.0, 0.0, 9.0, 9.0), (drawn(TABLE, 200.0),)))


def test_a_picture_is_held_as_a_whole():
    def shape(width: float) -> Item:
        return picture("1", (line((0.0, 0.0), (width, 0.0), "table rule"), words("C2", (1.0, 1.0))))

    (one,), (there,), (wider,) = said(shape(20.0)), said(moved(shape(20.0), 33.3, 44.4)), said(shape(20.4))
    assert one.words == there.words
    assert one.words.startswith("C2 #")
    assert wider.words != one.words


def test_a_field_of_the_title_block_is_told_but_for_the_revision():
    def block(title: str, revision: str) -> Symbol:
        texts = (
            words("SHEET", (0.0, 9.0)),
            words(title, (0.0, 5.0), key="{sheet.title}"),
            words(revision, (0.0, 0.0), key="{sheet.revision}"),
        )
        return Symbol("title block", (0.0, 0.0), (), (), texts)

    (one,), (other,) = said(block("PLANS", "A")), said(block("PLANS", "B"))
    assert one == other
    assert (one.kind, one.words) == ("field", "{sheet.title}: PLANS")
