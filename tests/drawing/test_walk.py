"""Walking a sheet: the order things are drawn in, how far they reach, where links lie."""

from fractions import Fraction

from sheets.base.notation import Run
from sheets.drawing.items import Area, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.walk import extent, fields, group, groups, leaves, links, said, ungrouped, viewports
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, circle
from sheets.geometry.region import region

WORD = Text((Run("1"),), (50.0, 50.0), 2.5, h="centre")
RING = Stroke(circle((50.0, 50.0), 5.0).segments, "symbol")
DISC = Area((region(circle((50.0, 50.0), 5.0)),), fill=1.0)
MARK = Symbol("detail mark", (50.0, 50.0), (RING,), (DISC,), (WORD,), link="Z-501", target="detail/cap")
NOTE = Text((Run("SEE Z-101"),), (10.0, 10.0), 2.5, link="Z-101")
VIEW = Viewport(
    "section/mantel",
    "1",
    "SECTION",
    Fraction(1, 8),
    "1:8",
    (0.0, 0.0),
    Box(*(0.0,) * 4),
    Box(*(0.0,) * 4),
    (MARK, NOTE),
)
SHEET = Sheet("Z-301", "SECTIONS", 594.0, 420.0, Box(20.0, 10.0, 584.0, 410.0), (NOTE, VIEW))


def test_a_mark_is_filled_then_outlined_then_lettered():
    drawn = [(kind, type(leaf)) for kind, leaf in leaves((MARK,), "plan")]
    assert drawn == [("plan", Area), ("plan", Stroke), ("plan", Text)]


def test_leaves_know_the_kind_of_their_view():
    assert [kind for kind, _ in leaves(SHEET.items)] == ["sheet", "section", "section", "section", "section"]
    assert viewports(SHEET) == (VIEW,)


def test_links_of_marks_and_notes():
    found = list(links(SHEET.items))
    assert [(link.sheet, link.view) for link in found] == [
        ("Z-101", ""), ("Z-501", "detail/cap"), ("Z-101", ""),
    ]  # fmt: skip
    x0, y0, x1, y1 = found[1].box
    assert x0 < 50.0 < x1  # about the number of the mark, within its ring
    assert y0 < 50.0 < y1
    assert x1 - x0 < 10.0


def test_extent_counts_the_belly_of_an_arc():
    arch = Stroke((Arc((0.0, 0.0), 10.0, 0.0, 3.141592653589793),), "step")
    x0, y0, x1, y1 = extent((arch, Stroke((Line((0.0, -1.0), (1.0, -1.0)),), "edge")))
    assert (round(x0, 9), y0, x1, y1) == (-10.0, -1.0, 10.0, 10.0)
    assert extent(()) is None


def test_groups_are_opened_where_they_stand():
    row = group("row", "C2", "C2 | SHELF", (NOTE,))
    table = group("table", "parts", "", (RING, row, WORD))
    items = (DISC, table, VIEW)
    assert list(ungrouped(items)) == [DISC, RING, NOTE, WORD, VIEW]
    assert [leaf for _, leaf in leaves(items)][:4] == [DISC, RING, NOTE, WORD]
    assert list(groups(items)) == [table, row]
    assert extent((table,)) == table.box == extent((RING, NOTE, WORD))
    assert [link.sheet for link in links((table,))] == ["Z-101"]


def test_what_is_said_is_told_once_by_what_says_it():
    row = group("row", "C2", "C2 | SHELF", (WORD, NOTE))
    table = group("table", "parts", "", (WORD, row))
    assert [words for words, _ in said((table, VIEW, RING))] == ["1", "C2 | SHELF", "1", "SEE Z-101"]


def test_a_title_blocks_fields_are_told_by_what_fills_them():
    lines = (("FLOOR", 20.0), ("PLAN", 15.0))
    title = [Text((Run(line),), (10.0, y), 2.5, key="{sheet.title}") for line, y in lines]
    block = Symbol("title block", (0.0, 0.0), (RING,), texts=(WORD, *title))
    (field,) = fields(block)
    assert (field.kind, field.key, field.words) == ("field", "{sheet.title}", "FLOOR PLAN")
    assert field.box == extent(title)
