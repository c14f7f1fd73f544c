"""Sheets are known by what they show: a number says only where a sheet lies in the pile.

Small sheets made by hand show a view, rows or both. What is expected is what a shop would say
of the two piles of paper.
"""

from __future__ import annotations

from fractions import Fraction

from sheets.compose.ink import words
from sheets.drawing.items import DrawingSet, Item, Sheet, Stroke, Symbol, Viewport
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Line
from sheets.revisions.comparing.sheet_lines import SheetLine, line_json, line_of, still_withdrawn, told
from sheets.revisions.keeping.record import Record
from sheets.revisions.marking.decorate import decorated, first_sheets, revised_sheets, sheet_lines
from sheets.revisions.marking.difference import difference
from sheets.revisions.marking.same_sheet import same_sheets

FRAME = Box(10.0, 40.0, 390.0, 290.0)


def view(name: str, size: float = 50.0) -> Viewport:
    edge = Stroke((Line((100.0, 100.0), (100.0 + size, 100.0)),), "edge", f"cases/{name}/top")
    box = Box(100.0, 100.0, 200.0, 200.0)
    return Viewport(name, "1", "V", Fraction(1, 10), "", (100.0, 100.0), box, box, (edge,))


def rows(*said: str) -> list[Item]:
    return [group("row", one, one, (words(one, (20.0, 250.0 - 6 * k)),)) for k, one in enumerate(said)]


def sheet(number: str, title: str, *items: Item) -> Sheet:
    texts = (
        words(number, (300.0, 15.0), key="{sheet.number}"),
        words(title, (300.0, 25.0), key="{sheet.title}"),
    )
    block = Symbol("title block", (290.0, 10.0), (), (), texts)
    return Sheet(number, title, 400.0, 300.0, FRAME, (block, *items))


def pile(*sheets: Sheet) -> DrawingSet:
    return DrawingSet("T", "1", "RV", "2026-01-19", "inch", sheets)


INDEX = sheet("Z-001", "INDEX", *rows("THE JOB"))
CUTTING = rows("BOARD 1", "BOARD 2", "BOARD 3")
PATTERNS = rows("M6 CORBEL", "ORDINATES OF M6")


def test_a_sheet_that_got_another_number_is_the_same_sheet() -> None:
    was = pile(INDEX, sheet("Z-604", "CUTTING DIAGRAMS", *CUTTING), sheet("Z-605", "PATTERNS", *PATTERNS))
    now = pile(
        INDEX,
        sheet("Z-604", "SCHEDULES", *rows("HARDWARE", "GLUE")),
        sheet("Z-605", "CUTTING DIAGRAMS", *CUTTING),
        sheet("Z-606", "PATTERNS", *PATTERNS),
    )
    assert same_sheets(was, now) == {"Z-001": "Z-001", "Z-605": "Z-604", "Z-606": "Z-605"}
    lines = {one.number: (one.state, one.was) for one in sheet_lines(was, now, None)}
    assert lines == {
        "Z-001": ("unchanged", ""),
        "Z-604": ("new", ""),
        "Z-605": ("renumbered", "Z-604"),
        "Z-606": ("renumbered", "Z-605"),
    }
    marked = {one.number: [block.words for block in one.fresh] for one in difference(was, now)}
    assert marked["Z-606"] == ["{sheet.number}: Z-606"], "its number is all that is another"
    assert marked["Z-604"] == [], "a sheet that is all new is told in the index, not marked all over"


def test_a_sheet_that_is_gone_is_told_with_its_last_revision() -> None:
    was = pile(INDEX, sheet("Z-605", "PATTERNS", *PATTERNS))
    sheets, _ = first_sheets(was, "A")
    record = Record("A", "", "", "", sheets=sheets)
    _, lines = revised_sheets(was, pile(INDEX), record, "B")
    assert lines == (
        SheetLine("changed", "Z-001", "INDEX", "B"),  # which names the others
        SheetLine("withdrawn", "Z-605", "PATTERNS", "A"),
    )
    assert lines[1].says == "withdrawn, last rev. A"


def test_it_stays_told_until_its_number_is_used_again() -> None:
    gone = SheetLine("withdrawn", "Z-605", "PATTERNS", "A")
    kept = SheetLine("unchanged", "Z-001", "INDEX", "B")
    assert still_withdrawn([gone], [kept]) == (kept, gone)
    again = SheetLine("new", "Z-605", "PATTERNS", "C")
    assert still_withdrawn([gone], [kept, again]) == (kept, again)


def test_views_weigh_more_than_a_row() -> None:
    """The plan goes to the sheet of the elevation and leaves its note behind: its sheet is where it is."""
    was = pile(
        sheet("Z-101", "PLAN", view("plan"), *rows("ONE NOTE")),
        sheet("Z-201", "ELEVATION", view("elevation")),
    )
    now = pile(sheet("Z-101", "NOTES", *rows("ONE NOTE")), sheet("Z-201", "PLAN", view("plan")))
    assert same_sheets(was, now)["Z-201"] == "Z-101"


def test_schedules_of_which_every_row_changed_are_the_sheet_with_their_number() -> None:
    was = pile(sheet("Z-601", "SCHEDULES", *rows("A", "B")), sheet("Z-602", "SCHEDULES", *rows("C", "D")))
    now = pile(sheet("Z-601", "SCHEDULES", *rows("E", "F")), sheet("Z-602", "SCHEDULES", *rows("G", "H")))
    assert same_sheets(was, now) == {"Z-601": "Z-601", "Z-602": "Z-602"}


def test_one_more_sheet_re_issues_no_other_but_the_index() -> None:
    was = pile(INDEX, sheet("Z-601", "SCHEDULES", *rows("A")))
    now = pile(*was.sheets, sheet("Z-701", "CHECKS", *rows("ALL GOOD")))
    record = Record("A", "", "", "", sheets=first_sheets(was, "A")[0])
    _, lines = revised_sheets(was, now, record, "B")
    assert [(one.number, one.state, one.revision) for one in lines] == [
        ("Z-001", "changed", "B"), ("Z-601", "unchanged", "A"), ("Z-701", "new", "B")
    ]  # fmt: skip


def test_the_index_says_which_sheets_are_new_renumbered_or_withdrawn() -> None:
    heading = group("heading", "NOTES", "NOTES", (words("NOTES", (20.0, 270.0)),))
    index = sheet("Z-001", "INDEX", heading, *rows("THE JOB"))
    lines = (
        SheetLine("changed", "Z-001", "INDEX", "B"),
        SheetLine("renumbered", "Z-606", "PATTERNS", "B", "Z-605"),
        SheetLine("withdrawn", "Z-705", "CHECKS", "A"),
    )
    drawn = decorated(
        pile(index), Record("B", "", "", "", sheets=first_sheets(pile(index), "B")[0], lines=lines)
    )
    said = [getattr(item, "words", "") for item in drawn.sheets[0].items]
    assert "Z-606 PATTERNS: RENUMBERED, WAS Z-605" in said
    assert "Z-705 CHECKS: WITHDRAWN, LAST REV. A" in said
    assert not any(text.startswith("Z-001 ") for text in said), "what is merely changed carries its revision"


def test_lines_are_read_back_and_those_that_stayed_are_not_told() -> None:
    lines = (
        SheetLine("unchanged", "Z-001", "INDEX", "A"),
        SheetLine("renumbered", "Z-606", "PATTERNS", "B", "Z-605"),
    )
    assert tuple(line_of(line_json(one)) for one in lines) == lines
    assert told(lines) == ("Z-606 PATTERNS: renumbered, was Z-605",)
