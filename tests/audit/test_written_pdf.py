"""A second audit, on the written PDF, by a reader that shares nothing with the program: it agrees with the
drawing model where the lettering stands, and finds on the paper none of what the audit looks for."""

from __future__ import annotations

import itertools
from collections import defaultdict
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

import pytest
from shapely import LineString, STRtree
from shapely import box as shapely_box

from sheets.base.notation import Run
from sheets.drawing.items import DrawingSet, Sheet, Stroke, Text, Viewport
from sheets.drawing.lettering import box, font_size, settable
from sheets.drawing.pens import style
from sheets.drawing.walk import leaves
from sheets.geometry.box import Box
from sheets.geometry.path import Line
from sheets.writers.pdf import pdf
from tests.audit.examples import STEMS, example
from tests.audit.pdf_sheet import Lettered, Page, outline, read

AGREES = 0.3  # mm
# ISO 128-2 (from memory): the series of line widths, mm.
SERIES = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0)
LEAST = 3 / 32 * 25.4  # mm, capitals: the least height of lettering on a sheet (common practice)
LIGHTEST_LINE = 0.35  # grey of a stroke, 1 being white: hatches are lighter than all other lines
SIDE_BEARING = 0.12  # mm that the boxes of two letters may share


@cache
def pages(stem: str) -> tuple[Page, ...]:
    return read(example(stem).pdf)


def texts_of(sheet: Sheet) -> list[Text]:
    return [leaf for _, leaf in leaves(sheet.items) if isinstance(leaf, Text) and leaf.plain.strip()]


@dataclass(frozen=True)
class Apart:
    """How far the paper is from the model in a text, mm: from the nearest line of the same words."""

    text: str
    by: float


def stray(sheet: Sheet, page: Page) -> list[Apart]:
    """The texts of a sheet that the page has not, or has elsewhere."""
    found: dict[str, list[Lettered]] = defaultdict(list)
    for line in page.lines:
        found[line.text].append(line)
    apart = []
    for text in texts_of(sheet):
        offs = [(_off(text, line), k) for k, line in enumerate(found[text.plain])]
        by, k = min(offs, default=(float("inf"), -1))
        if by > AGREES:
            apart.append(Apart(text.plain, by))
        else:
            found[text.plain].pop(k)  # each line on the paper stands for one text
    return apart + [Apart(f"on the paper only: {text}", 0.0) for text, left in found.items() if left]


def _off(text: Text, line: Lettered) -> float:
    # Along the line its ends are held against the model's box; across it its baseline, and the ink of its
    # letters, which must not leave the box (they need not fill it: the box allows for all letters alike).
    if abs(line.angle - text.angle) > 0.1:
        return float("inf")
    x0, y0, x1, y1 = box(text)
    down = text.height / 2 if text.v == "middle" else 0.0
    (sx, sy), (ex, ey) = line.start, line.end
    if abs(line.angle) < 0.1:
        along = max(abs(x0 - sx), abs(x1 - ex))
        across = abs(sy - (text.at[1] - down))
        out = max(y0 - line.ink[1], line.ink[3] - y1)
    else:  # read from the right: up is to the left
        along = max(abs(y0 - sy), abs(y1 - ey))
        across = abs(sx - (text.at[0] + down))
        out = max(x0 - line.ink[0], line.ink[2] - x1)
    # Round letters reach a fiftieth of a capital over its height and under the baseline, in any type.
    return max(along, across, out - line.capital / 50)


def over_one_another(page: Page) -> list[tuple[str, str]]:
    """Pairs of lines whose letters' ink overlaps."""
    pairs = []
    ordered = sorted((line for line in page.lines if line.letters), key=lambda line: line.ink[0])
    for k, one in enumerate(ordered):
        for other in itertools.islice(ordered, k + 1, None):
            if other.ink[0] >= one.ink[2]:
                break
            if _meet(one.ink, other.ink) and any(
                _meet(a, b) for a in one.letters for b in other.letters
            ):
                pairs.append((one.text, other.text))
    return pairs


def _meet(a, b) -> bool:
    return (
        min(a[2], b[2]) - max(a[0], b[0]) > SIDE_BEARING
        and min(a[3], b[3]) - max(a[1], b[1]) > SIDE_BEARING
    )


def over_lines(page: Page) -> list[str]:
    """Lines of lettering with a stroke through a letter.

    Hatches are left out: the clip that keeps them off the lettering is not seen here.
    """
    pieces = [
        (LineString(pair), stroke.grey)
        for stroke in page.strokes
        if stroke.grey < LIGHTEST_LINE
        for pair in itertools.pairwise(stroke.points)
    ]
    tree = STRtree([piece for piece, _ in pieces])
    return [
        line.text
        for line in page.lines
        if line.grey < 0.8  # a watermark lies under everything
        and any(tree.query(shape, predicate="intersects").size for shape in _cores(line))
    ]


def _cores(line: Lettered):
    # Letters less the edge that a line may touch.
    for x0, y0, x1, y1 in line.letters:
        if min(x1 - x0, y1 - y0) > 3 * SIDE_BEARING:
            yield shapely_box(x0 + SIDE_BEARING, y0 + SIDE_BEARING, x1 - SIDE_BEARING, y1 - SIDE_BEARING)


def odd_widths(page: Page) -> list[float]:
    """Widths of strokes that are not of the ISO series; 0.01 mm is a fortieth of a point."""
    widths = {round(stroke.width, 3) for stroke in page.strokes}
    return sorted(w for w in widths if min(abs(w - s) for s in SERIES) > 0.005)


def small(page: Page) -> list[str]:
    """Lines whose capitals are lower than they may be."""
    return [line.text for line in page.lines if line.capital < LEAST]


def beyond(page: Page) -> list[str]:
    """Lines that leave the paper, or come nearer to its edge than ISO 5457's border lets them: 5 mm."""
    right, top = page.width - 5, page.height - 5
    return [
        line.text
        for line in page.lines
        if line.letters and (min(line.ink[:2]) < 5 or line.ink[2] > right or line.ink[3] > top)
    ]


@pytest.fixture(params=STEMS)
def stem(request) -> str:
    return request.param


def test_lettering_stands_on_the_paper_where_the_model_has_it(stem):
    sheets = example(stem).drawing.sheets
    assert len(sheets) == len(pages(stem))
    for sheet, page in zip(sheets, pages(stem), strict=True):
        assert len(texts_of(sheet)) > 10
        assert stray(sheet, page) == [], sheet.number


def test_no_letters_lie_over_others(stem):
    assert {k: found for k, page in enumerate(pages(stem)) if (found := over_one_another(page))} == {}


def test_no_letters_lie_over_lines(stem):
    assert {k: found for k, page in enumerate(pages(stem)) if (found := over_lines(page))} == {}
    # Lines were there to be crossed, and those left out are hatches.
    greys = {round(s.grey, 2) for page in pages(stem) for s in page.strokes}
    assert {g for g in greys if g >= LIGHTEST_LINE} <= {style("hatch").grey, style("texture").grey}
    assert 0.0 in greys


def test_no_lettering_is_too_small(stem):
    assert {k: found for k, page in enumerate(pages(stem)) if (found := small(page))} == {}
    # What is measured is the letters: the least on every set is meant to be 2.5 mm high.
    least = min(line.capital for page in pages(stem) for line in page.lines)
    assert least == pytest.approx(2.5, abs=0.03)


def test_all_strokes_are_of_the_series(stem):
    assert {k: found for k, page in enumerate(pages(stem)) if (found := odd_widths(page))} == {}
    # Three widths at least on a sheet of a view.
    used = {round(s.width, 2) for page in pages(stem) for s in page.strokes}
    assert len(used) >= 3


def test_all_lettering_is_on_the_paper(stem):
    assert {k: found for k, page in enumerate(pages(stem)) if (found := beyond(page))} == {}


def test_the_pages_have_the_sizes_of_their_sheets(stem):
    for sheet, page in zip(example(stem).drawing.sheets, pages(stem), strict=True):
        assert (page.width, page.height) == pytest.approx((sheet.width, sheet.height), abs=0.01)


# What the reader would say of a page with the fault on it.


def page_of(*items) -> tuple[Sheet, Page]:
    view = Viewport("elevation", "1", "E", Fraction(1, 10), "1:10", (50, 50), Box(40, 40, 250, 180),
                    Box(50, 50, 200, 150), items)  # fmt: skip
    sheet = Sheet("Z-201", "T", 297.0, 210.0, Box(20.0, 10.0, 287.0, 200.0), (view,))
    return sheet, read(pdf(DrawingSet("T", "1", "", "", "mm", (sheet,))))[0]


def words(plain: str, at, height: float = 2.5, **more) -> Text:
    return Text((Run(plain),), at, height, **more)


CLEAN = (
    words("OAK (TYP.)", (60, 100)),
    words("1200", (58, 60), angle=90.0, h="centre"),
    words("SQUEEZED", (100, 100), squeeze=0.8, weight="bold"),
    Text((Run("5'-2"), Run("", 1, 2), Run('"')), (100.0, 60.0), 2.5, "centre"),
    Stroke((Line((60, 90), (90, 90)),), "edge"),
)


def test_a_clean_page_is_clean():
    sheet, page = page_of(*CLEAN)
    assert stray(sheet, page) == []
    assert (over_one_another(page), over_lines(page), small(page)) == ([], [], [])
    assert (beyond(page), odd_widths(page)) == ([], [])


@pytest.mark.parametrize("k", range(4))
def test_lettering_moved_on_the_paper_is_found(k):
    sheet, page = page_of(*CLEAN)
    for dx, dy in ((0.5, 0.0), (0.0, 0.5), (-0.5, 0.0), (0.0, -0.5)):
        moved = replace(CLEAN[k], at=(CLEAN[k].at[0] + dx, CLEAN[k].at[1] + dy))
        other, _ = page_of(*CLEAN[:k], moved, *CLEAN[k + 1 :])
        plain = CLEAN[k].plain
        assert [a.text for a in stray(other, page)] == [plain, f"on the paper only: {plain}"]
    assert stray(sheet, page) == []


def test_lettering_left_out_or_added_is_found():
    sheet, page = page_of(*CLEAN)
    fewer, fewer_page = page_of(*CLEAN[1:])
    assert [a.text for a in stray(sheet, fewer_page)] == ["OAK (TYP.)"]
    assert [a.text for a in stray(fewer, page)] == ["on the paper only: OAK (TYP.)"]


@pytest.mark.parametrize(
    "over",
    [words("WALNUT", (62, 101)), words("90", (62, 100), angle=90.0), words("x", (65, 100.5))],
)
def test_letters_over_others_are_found(over):
    _, page = page_of(*CLEAN, over)
    assert len(over_one_another(page)) == 1


@pytest.mark.parametrize("height", [101.0, 102.4])
def test_a_line_through_letters_is_found(height):
    _, page = page_of(*CLEAN, Stroke((Line((55, height), (70, height)),), "edge"))
    assert over_lines(page) == ["OAK (TYP.)"]


def test_a_line_under_letters_is_none():
    _, page = page_of(*CLEAN, Stroke((Line((55, 98.9), (70, 98.9)),), "edge"))
    assert over_lines(page) == []


def test_small_lettering_is_found():
    _, page = page_of(*CLEAN, words("FINE PRINT", (60, 120), 2.3))
    assert small(page) == ["FINE PRINT"]


def test_lettering_off_the_paper_is_found():
    _, page = page_of(*CLEAN, words("A LONG NOTE", (280, 120)))
    assert beyond(page) == ["A LONG NOTE"]


def test_a_stroke_of_another_width_is_found(monkeypatch):
    from sheets.drawing import pens
    from sheets.writers import pdf_page

    def odd(pen, kind="sheet", units="inch"):
        return replace(pens.style(pen, kind, units), width=0.3)

    monkeypatch.setattr(pdf_page, "style", odd)
    _, page = page_of(*CLEAN)
    assert odd_widths(page) == [0.3]


# ASCII, Latin-1 but for two signs that are not written alone, accents of other languages, a drawing's signs.
LETTERS = [*map(chr, (*range(0x21, 0x7F), *range(0xA1, 0x100))), *"ĄĆĘŁŃŚŹŻČĎĚŇŘŠŤŮŽŐŰĞİŞ≈≤≥–—‘’“”′″"]


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_the_box_of_a_text_holds_the_outlines_of_its_letters(weight):
    font = {"regular": "SourceSansPro", "bold": "SourceSansPro-Semibold"}[weight]
    height = 2.5
    held = 0
    for letter in LETTERS:
        if letter in "¦¸" or settable(letter) != letter or outline(font, letter) is None:
            continue
        low, high = (v * font_size(height) for v in outline(font, letter)[1::2])
        _, y0, _, y1 = box(Text((Run(letter),), (0.0, 0.0), height, weight=weight))
        assert y0 - AGREES < low, letter
        assert high < y1 + AGREES, letter
        held += "0" <= letter <= "z" or letter in "²³ÉÇøñ"
    assert held > 60
