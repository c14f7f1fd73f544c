"""Walking a sheet: the order things are drawn in, how far they reach, where links lie."""

from fractions import Fraction

from sheets.drawing.items import Area, Run, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.walk import extent, leaves, links, viewports
from sheets.geometry.path import Arc, Line, circle
from sheets.geometry.region import region

WORD = Text((Run("1"),), (50.0, 50.0), 2.5, h="centre")
RING = Stroke(circle((50.0, 50.0), 5.0).segments, "symbol")
DISC = Area((region(circle((50.0, 50.0), 5.0)),), fill=1.0)
MARK = Symbol("detail mark", (50.0, 50.0), (RING,), (DISC,), (WORD,), link="Z-501", target="detail/cap")
NOTE = Text((Run("SEE Z-101"),), (10.0, 10.0), 2.5, link="Z-101")
VIEW = Viewport(
    "section/mantel", "1", "SECTION", Fraction(1, 8), "1:8", (0.0, 0.0), (0.0,) * 4, (0.0,) * 4, (MARK, NOTE)
)
SHEET = Sheet("Z-301", "SECTIONS", 594.0, 420.0, (20.0, 10.0, 584.0, 410.0), (NOTE, VIEW))


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
