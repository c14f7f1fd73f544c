"""Title blocks: their reading, what is said of faults, and that their words stay in their boxes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheets.audit.defects import text_over_line, text_over_text, text_size
from sheets.audit.sheet_ink import ink_of
from sheets.compose.border import border, titleblock
from sheets.compose.border.paper import sheet_size, size_names
from sheets.compose.border.titleblock_file import load
from sheets.compose.draft import Draft, every_sheet
from sheets.compose.on_sheets import draft_block
from sheets.drawing.items import Sheet
from sheets.drawing.walk import fields
from sheets.model.wall import Revision, Void

VALUES = {name: "" for name in titleblock.FIELDS} | {
    "project.title": "A GARDEN ROOM WITH TWO CASES",
    "project.number": "2608",
    "project.site": "LOT 14, MILL LANE",
    "project.client": "THE OWNERS OF THE HOUSE",
    "project.firm": "EXAMPLE JOINERY",
    "project.drawn": "RV",
    "project.checked": "KO",
    "project.approved": "MO",
    "project.date": "2026-03-02",
    "project.status": "FOR REVIEW",
    "sheet.number": "Z-101",
    "sheet.title": "INDEX AND GENERAL NOTES",
    "sheet.scale": '1 1/2" = 1\'-0"',
    "sheet.size": "ARCH-C",
    "sheet.revision": "A",
    "set.units": "inch",
    "set.language": "EN",
}
REVISIONS = tuple(
    Revision(letter, "2026-04-01", "RV", "cap raised by half an inch as asked") for letter in "ABCDEFGH"
)


DRAFTS = [Draft(number, f"after {number}, not issued", every_sheet) for number in ("E", "REV-9", "R" * 20)]


def _sheet(size_name, block_name):
    size, _ = sheet_size(size_name)
    block, found = load(block_name)
    assert not found
    layout = block.layout_for(size.frame[2] - size.frame[0], size.frame[3] - size.frame[1])
    symbol, problems = border.title_block(size, layout, VALUES, REVISIONS)
    items = (*border.border(size, layout), symbol)
    return (
        Sheet("Z-101", "T", size.width, size.height, border.drawing_space(size, layout), items),
        symbol,
        problems,
    )


@pytest.mark.parametrize("block", titleblock.SHIPPED)
@pytest.mark.parametrize("size", size_names())
def test_every_block_fits_every_sheet(size, block):
    sheet, _symbol, problems = _sheet(size, block)
    assert not problems
    ink = ink_of(sheet)
    assert len(ink.letters) > 15
    rules = [p for p in ink.pieces if p.pen in ("block rule", "frame")]
    faults = [*text_over_text(ink), *text_size(ink)]
    for one in ink.letters:
        faults += [p for p in rules if p in ink.crossing(one.box, -1)]
    faults += list(text_over_line(ink))
    assert not faults


@pytest.mark.parametrize("draft", DRAFTS, ids=lambda draft: draft.follows)
@pytest.mark.parametrize("block_name", titleblock.SHIPPED)
@pytest.mark.parametrize("size_name", size_names())
def test_what_is_said_of_a_drawing_that_is_not_the_issue_fits_too(size_name, block_name, draft):
    size, _ = sheet_size(size_name)
    block, _ = load(block_name)
    layout = block.layout_for(size.frame[2] - size.frame[0], size.frame[3] - size.frame[1])
    struck = replace(REVISIONS[-1], void=Void("one shelf too many"))
    symbol, problems = draft_block(size, layout, VALUES, (*REVISIONS[:-1], struck), draft)
    assert not problems
    said = {field.key: field.words for field in fields(symbol)}
    assert all(words.endswith("NOT ISSUED") for key, words in said.items() if "project.status" in key)
    assert any("sheet.revision" in key and words.endswith("+") for key, words in said.items())
    sheet = Sheet("Z-101", "T", size.width, size.height, border.drawing_space(size, layout), (symbol,))
    assert not list(text_over_line(ink_of(sheet)))


@pytest.mark.parametrize("block", titleblock.SHIPPED)
def test_two_boxes_wait_for_stamps_and_stay_empty(block):
    _, symbol, _ = _sheet("iso-a1", block)
    words = [t.plain for t in symbol.texts]
    assert "CONTRACTOR'S REVIEW" in words
    assert "DESIGNER'S REVIEW" in words
    # Nothing that a reviewer might say stands there as if it were given.
    said = " ".join(words).upper()
    for word in ("APPROVED", "NO EXCEPTIONS", "REVIEWED", "REJECTED", "FURNISH AS"):
        assert word not in said


def test_iso_block_has_the_fields_of_iso_7200_and_is_180_mm_wide():
    block, _ = load("iso-7200")
    # Required fields of ISO 7200 (second-hand table in the reference): owner, number, date, sheet, title,
    # approval person, creator, document type.
    labels = set()
    widths = set()

    def walk(node):
        if isinstance(node, titleblock.BlockCell):
            labels.add(node.label)
            return
        widths.add(node.size)
        for part in node.parts:
            walk(part)

    walk(block.layouts[0].body)
    assert {
        "LEGAL OWNER",
        "IDENTIFICATION NUMBER",
        "DATE OF ISSUE",
        "SHEET",
        "TITLE",
        "APPROVAL PERSON",
        "CREATOR",
        "DOCUMENT TYPE",
    } <= labels
    assert 180 in widths


def test_a_name_that_is_not_known_is_answered_with_the_nearest():
    block, found = load("architekt-strip")
    assert block is None
    assert "architect-strip" in found[0].help


def test_words_too_long_for_their_box_are_an_error_that_names_the_field():
    size, _ = sheet_size("arch-c")
    block, _ = load("architect-strip")
    layout = block.layout_for(550, 420)
    symbol, found = border.title_block(
        size, layout, VALUES | {"project.drawn": "A VERY LONG LIST OF NAMES INDEED"}, ()
    )
    assert [d.code for d in found] == ["title-field-too-long"]
    assert found[0].path == ("project", "drawn")
    assert "DRAWN" in found[0].message
    assert not any("LONG LIST" in t.plain for t in symbol.texts)


def test_a_long_title_is_broken_then_squeezed_then_made_smaller_but_not_below_the_least():
    size, _ = sheet_size("arch-c")
    block, _ = load("architect-strip")
    layout = block.layout_for(550, 420)
    title = "A VERY LONG NAME OF A JOB THAT WILL NOT STAND IN ONE LINE OF THE BLOCK AT ALL"
    symbol, found = border.title_block(size, layout, VALUES | {"project.title": title}, ())
    assert not found
    texts = [t for t in symbol.texts if len(t.plain) > 6 and t.plain in title]
    assert " ".join(t.plain for t in texts) == title
    assert all(t.height >= 2.5 and t.squeeze >= 0.75 for t in texts)
