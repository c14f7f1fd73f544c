"""Shaped pieces on the set's sheets: drawn to a standard scale, every ordinate in a table beside them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.audit.defects import text_over_line, text_over_text
from sheets.audit.sheet_ink import ink_of
from sheets.base.length import inch
from sheets.base.notation import Notation
from sheets.compose.ink import bounds, moved
from sheets.compose.pages.page import Page
from sheets.compose.pages.pattern_drawing import pattern_items
from sheets.compose.pages.pattern_pages import pattern_pages
from sheets.compose.scales import is_standard
from sheets.drawing.items import Item, Sheet, Stroke, Text
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, Loop, arc_through
from sheets.schedules.patterns import Ordinate, Pattern, PatternCurve, patterns
from tests.schedules.conftest import block, make_wall
from tests.schedules.test_patterns import arched_rail

INCHES = Notation("inches", inch("1/16"))
ARCH_C: Box = Box(20.0, 20.0, 490.0, 430.0)
TABLOID: Box = Box(15.0, 40.0, 415.0, 265.0)


def said(items: tuple[Item, ...]) -> list[str]:
    return [item.plain for item in ungrouped(items) if isinstance(item, Text)]


def pages_of(space: Box, *rails: tuple[int, int, str], station: str = "2") -> tuple[Page, ...]:
    parts = [arched_rail(inch(c), inch(r), inch(r) + inch(4), mark=mark) for c, r, mark in rails]
    wall = make_wall(*parts, patterns={"station": inch(station)})
    return pattern_pages(patterns(wall), INCHES, space, "inch")


def test_a_rail_is_drawn_to_scale_beside_its_ordinates() -> None:
    (page,) = pages_of(ARCH_C, (60, 3, "M2"))
    assert (page.number, page.title) == ("Z-601", "PATTERNS")
    (arc,) = [s for i in ungrouped(page.items) if isinstance(i, Stroke) for s in i.path if isinstance(s, Arc)]
    # R = (60^2/4 + 3^2) / (2 x 3) = 151.5 in.
    scale = Fraction(round(151.5 * 25.4 * 48 / arc.radius), 48) ** -1
    assert is_standard(scale, "inch")
    assert arc.radius == pytest.approx(151.5 * 25.4 * float(scale))
    words = said(page.items)
    assert any('1 1/2" = 1\'-0"' in text for text in words)
    # Ordinates of this arc as computed for the published tables: 2.2556 in at 15 in is 2 1/4 and a little.
    fine = pages_of(ARCH_C, (60, 3, "M2"), station="15")[0]
    assert {'15"', '≈2 1/4"', '30"'} <= set(said(fine.items))
    assert 'ITS CHORD RUNS FROM 0" FROM THE LEFT, 0" UP TO' in " ".join(words)
    assert any("LAY OUT A CURVE FROM ITS ORDINATES" in text for text in words)


def test_every_pattern_has_its_drawing_and_its_table() -> None:
    pages = pages_of(TABLOID, (60, 3, "M2"), (48, 2, "M3"), (30, 2, "M4"), (90, 5, "M5"))
    words = [text for page in pages for text in said(page.items)]
    for mark in ("M2", "M3", "M4", "M5"):
        assert sum(text.startswith(f"{mark} RAIL") for text in words) == 1
        assert f"ORDINATES OF {mark}" in words
    for page in pages:
        box = bounds(page.items)
        assert box[0] >= TABLOID[0] - 0.1
        assert box[1] >= TABLOID[1] - 0.1
        assert box[2] <= TABLOID[2] + 0.1
        assert box[3] <= TABLOID[3] + 0.1


def test_a_long_table_goes_on_to_the_next_sheet() -> None:
    pages = pages_of(TABLOID, (90, 5, "M5"), station="1/4")
    assert len(pages) > 1
    assert [page.number for page in pages] == [f"Z-6{n:02d}" for n in range(1, 1 + len(pages))]
    offsets = [text for page in pages for text in said(page.items)]
    # From the middle to 45 in, every quarter of an inch.
    for quarters in (0, 1, 90, 179, 180):
        assert any(text == written(quarters) for text in offsets)


def written(quarters: int) -> str:
    whole, rest = divmod(Fraction(quarters, 4), 1)
    return f'{whole} {rest}"' if whole and rest else f'{rest or whole}"'


def test_a_wall_without_a_curve_has_no_such_sheet() -> None:
    wall = make_wall(block("mantel/rail", size=("3/4", 4, 30)))
    assert pattern_pages(patterns(wall), INCHES, ARCH_C, "inch") == ()


@pytest.mark.parametrize("tall", ["2", "5/2", "11/4", "4", "12"])
@pytest.mark.parametrize("rise", [1, 3])
def test_the_mark_of_a_centreline_stands_off_the_edge_over_it(tall: str, rise: int) -> None:
    rail = arched_rail(inch(60), inch(rise), inch(rise) + inch(tall))
    wall = make_wall(rail, patterns={"station": inch("2")})
    pages = pattern_pages(patterns(wall), INCHES, ARCH_C, "inch")
    for page in pages:
        assert sum(text == "CL" for text in said(page.items)) == (page is pages[0])
        ink = ink_of(Sheet(page.number, page.title, 609.6, 457.2, ARCH_C, page.items))
        assert not [*text_over_text(ink), *text_over_line(ink)]


@pytest.mark.parametrize("offset", [40.0, 97.0, 99.0])
def test_a_height_with_an_edge_in_its_way_is_left_to_the_table(
    offset: float,
) -> None:
    # A bracket 200 mm high whose front bulges 6 mm: R = (100^2 + 6^2) / 12 = 836.3 mm.
    front = arc_through((50.0, 0.0), (50.0, 200.0), -6.0)
    sides = [Line((50.0, 200.0), (0.0, 200.0)), Line((0.0, 200.0), (0.0, 0.0)), Line((0.0, 0.0), (50.0, 0.0))]
    height = (836.3**2 - offset**2) ** 0.5 - 830.3
    ordinates = tuple(
        Ordinate(at, height, (50.0, 100.0 + at), (50.0 + height, 100.0 + at)) for at in (-offset, offset)
    )
    curve = PatternCurve(
        200.0, 6.0, 836.3, (-780.3, 100.0), ((50.0, 0.0), (50.0, 200.0)), ordinates,
        ((50.0, 100.0), (62.0, 100.0)), (56.0, 100.0),
    )  # fmt: skip
    size = (Fraction(50), Fraction(56), Fraction(200))
    bracket = Pattern(
        "mantel/bracket", "M9", "Bracket", 1, "oak", size, Fraction(50), ("y", "z"), (Loop((front, *sides)),),
        (), (curve,), "v", 56.0, 200.0, ("mantel/bracket",),
    )  # fmt: skip
    items = pattern_items(bracket, INCHES)
    ink = ink_of(Sheet("Z-604", "PATTERNS", 609.6, 457.2, ARCH_C, tuple(moved(i, 60.0, 60.0) for i in items)))
    assert not list(text_over_line(ink))
    heights = [text for text in said(items) if '"' in text and "MAKE" not in text]
    assert len(heights) == (2 if offset < 98 else 0)
