"""Each sheet drawn from the DXF by one renderer and from the PDF by another is the same drawing.

A DXF names its font and does not carry it, so lettering differs by what the machine has. Lines are held
against each other with the places of lettering left out, to a dot; of the lettering, that each text is in its
place.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

import ezdxf.colors
import numpy as np
import pytest

from sheets.base.notation import Run
from sheets.drawing.hatches import HATCHES
from sheets.drawing.items import Area, DrawingSet, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import box
from sheets.drawing.pens import where
from sheets.drawing.walk import leaves, viewports
from sheets.geometry.path import Arc, Line
from sheets.geometry.region import rectangle
from sheets.writers.dxf import document, dxf
from sheets.writers.pdf import pdf
from tests.audit.examples import STEMS, example
from tests.golden import pictures
from tests.golden.ink import Box, Unlike, inked, unlike

DOTS = 100  # to the inch: a dot is 0.25 mm
NEAR = 0.25  # mm: one dot aside, for the rounding of either renderer
BOUND = 0.0005  # of the ink; measured: 0.00002 at most
TILE_BOUND = 0.04  # of a tile of 5 mm; measured: 0.01 at most. A line through it that is missing is 0.05
TEXT = 0.02  # of a text's box that is ink, at least: an apostrophe's

KINDS = ("plan", "elevation", "section", "detail")
ORDINARY = ("ferry-landing", "cider-house")


def chosen(stem: str) -> list[str]:
    """The numbers of the first sheet with each kind of view."""
    first: dict[str, str] = {}
    for sheet in example(stem).drawing.sheets:
        for view in viewports(sheet):
            if where(view.id) in KINDS:
                first.setdefault(where(view.id), sheet.number)
    return sorted(set(first.values()))


@cache
def drawing_of(stem: str) -> DrawingSet:
    """The example without the light mark of its status, which is nothing but lettering, over everything."""
    drawing = example(stem).drawing
    sheets = tuple(
        replace(sheet, items=tuple(i for i in sheet.items if getattr(i, "key", "") != "watermark"))
        for sheet in drawing.sheets
    )
    return replace(drawing, sheets=sheets)


@cache
def pdf_pictures(stem: str) -> tuple[np.ndarray, ...]:
    return pictures.of_pdf(pdf(drawing_of(stem)), DOTS, finer=2)


def lettering(sheet: Sheet) -> list[Box]:
    return [
        box(leaf) for _, leaf in leaves(sheet.items) if isinstance(leaf, Text) and leaf.plain.strip()
    ]


def set_aside(sheet: Sheet) -> list[Box]:
    """The places of lettering, with room for a font a quarter wider."""
    found = []
    for x0, y0, x1, y1 in lettering(sheet):
        long = 0.25 * max(x1 - x0, y1 - y0)
        wide, high = (long, 0.0) if x1 - x0 > y1 - y0 else (0.0, long)
        found.append(Box(x0 - 1 - wide, y0 - 1 - high, x1 + 1 + wide, y1 + 1 + high))
    return found


def lines_unlike(sheet: Sheet, first: np.ndarray, second: np.ndarray) -> Unlike:
    return unlike(first, second, dots=DOTS, near=NEAR, but=set_aside(sheet))


def texts_missing(sheet: Sheet, first: np.ndarray, second: np.ndarray) -> list[Box]:
    return [
        place
        for place in lettering(sheet)
        if (inked(first, place, DOTS) > TEXT) != (inked(second, place, DOTS) > TEXT)
    ]


def hold(stem: str, numbers: list[str]) -> None:
    drawing = drawing_of(stem)
    sheets = {s.number: (s, k) for k, s in enumerate(drawing.sheets)}
    drawn = pictures.of_dxf(dxf(drawing), DOTS, tuple(numbers))
    for number, from_dxf in zip(numbers, drawn, strict=True):
        sheet, k = sheets[number]
        from_pdf = pdf_pictures(stem)[k]
        found = lines_unlike(sheet, from_pdf, from_dxf)
        whole = unlike(from_pdf, from_dxf, dots=DOTS, near=1.0)
        print(f"{stem} {number}: lines {found}; with lettering, to 1 mm, {whole}")
        assert max(found.only_first, found.only_second) < BOUND, found
        assert found.worst < TILE_BOUND, found
        assert texts_missing(sheet, from_pdf, from_dxf) == [], number


@pytest.mark.parametrize("stem", ORDINARY)
def test_a_sheet_from_the_dxf_is_the_sheet_from_the_pdf(stem):
    hold(stem, chosen(stem))


@pytest.mark.nightly
@pytest.mark.parametrize("stem", STEMS)
def test_every_sheet_from_the_dxf_is_the_sheet_from_the_pdf(stem):
    hold(stem, [sheet.number for sheet in example(stem).drawing.sheets])


@pytest.mark.parametrize("stem", STEMS)
def test_hatches_are_as_light_in_the_dxf_as_on_paper(stem):
    doc = document(example(stem).drawing)
    names = {name.upper().replace(" ", "-") for name in HATCHES}
    colours = set()
    for hatch in doc.entitydb.query("HATCH"):
        if hatch.dxf.pattern_name in names:
            own = hatch.dxf.color
            index = doc.layers.get(hatch.dxf.layer).dxf.color if own == ezdxf.colors.BYLAYER else own
            colours.add((hatch.dxf.pattern_name.endswith("-FACE"), index))
    # Indexed colours 8 and 9 are the two greys (from memory); 7 would be black.
    assert colours
    assert colours <= {(False, 8), (True, 9)}


# What the comparison says of a sheet on which the two do differ.


def sheet_of(*items) -> Sheet:
    view = Viewport("elevation", "1", "E", Fraction(1, 10), "1:10", (20, 20), Box(10, 10, 190, 140),
                    Box(20, 20, 180, 130), items)  # fmt: skip
    return Sheet("Z-201", "T", 200.0, 150.0, Box(10.0, 10.0, 190.0, 140.0), (view,))


def line(pen, *ends) -> Stroke:
    return Stroke((Line(*ends),), pen)


ITEMS = (
    Area((rectangle(30, 30, 60, 60),), hatch="masonry"),
    line("edge", (20, 80), (180, 80)),
    line("hidden", (20, 90), (180, 90)),
    line("centre", (100, 20), (100, 130)),
    Stroke((Arc((140.0, 50.0), 20.0, 0.0, 3.0),), "outline"),
    Text((Run("WHITE OAK"),), (110.0, 110.0), 2.5),
    Text((Run("5'-2"), Run("", 1, 2), Run('"')), (30.0, 110.0), 2.5),
)


def found_between(paper: Sheet, cad: Sheet) -> tuple[Unlike, list[Box]]:
    def one(sheet):
        return DrawingSet("T", "1", "", "", "mm", (sheet,))

    first = pictures.of_pdf(pdf(one(paper)), DOTS, finer=2)[0]
    (second,) = pictures.of_dxf(dxf(one(cad)), DOTS, ("Z-201",))
    return lines_unlike(paper, first, second), texts_missing(paper, first, second)


def test_a_sheet_made_by_hand_agrees():
    found, missing = found_between(sheet_of(*ITEMS), sheet_of(*ITEMS))
    assert max(found.only_first, found.only_second) < BOUND
    assert missing == []


@pytest.mark.parametrize(
    ("k", "other"),
    [
        (0, replace(ITEMS[0], pitch=1.5)),
        (0, replace(ITEMS[0], angle=90.0)),
        (1, line("edge", (20, 80.8), (180, 80.8))),
        (1, line("edge", (20, 80), (150, 80))),
        (2, line("edge", (20, 90), (180, 90))),
        (3, line("hidden", (100, 20), (100, 130))),
        (4, Stroke((Arc((140.0, 50.0), 20.8, 0.0, 3.0),), "outline")),
    ],
)
def test_a_line_that_differs_is_found(k, other):
    found, _ = found_between(sheet_of(*ITEMS), sheet_of(*ITEMS[:k], other, *ITEMS[k + 1 :]))
    assert max(found.only_first, found.only_second) > BOUND
    x, y = found.place
    # The worst tile is at the item: these are apart, and the tile is 5 mm.
    assert any(
        x - 5 < px < x + 10 and y - 5 < py < y + 10
        for item in (ITEMS[k], other)
        for px, py in _spots(item)
    ), (x, y)


def _spots(item):
    if isinstance(item, Area):
        return [(px, py) for px in range(30, 61, 3) for py in range(30, 61, 3)]
    ends = item.path[0].flatten(0.1) if isinstance(item.path[0], Arc) else (item.path[0].a, item.path[0].b)
    (ax, ay), (bx, by) = ends[0], ends[-1]
    return [*ends, *((ax + (bx - ax) * t / 40, ay + (by - ay) * t / 40) for t in range(41))]


@pytest.mark.parametrize("k", [5, 6])
def test_a_text_that_is_missing_is_found(k):
    _, missing = found_between(sheet_of(*ITEMS), sheet_of(*ITEMS[:k], *ITEMS[k + 1 :]))
    assert missing == [box(ITEMS[k])]


@pytest.mark.parametrize("stem", ORDINARY)
def test_sheets_of_every_kind_are_compared(stem):
    sheets = [s for s in example(stem).drawing.sheets if s.number in chosen(stem)]
    assert {where(view.id) for sheet in sheets for view in viewports(sheet)} >= set(KINDS)


def test_a_ring_round_a_detail_is_dashed_in_the_dxf_as_on_paper():
    # The ring is part of a mark, a block put in at the view's scale, which does not grow the dashes with it.
    ring = Stroke((Line((60, 60), (90, 60)), Line((90, 60), (90, 75))), "cutting plane")
    mark = Symbol("detail mark", (60, 60), (ring,), (), (), {"number": "1"})
    found, _ = found_between(sheet_of(*ITEMS, mark), sheet_of(*ITEMS, mark))
    assert max(found.only_first, found.only_second) < BOUND


def test_a_line_on_the_edge_of_a_view_is_in_the_dxf_as_on_paper():
    edge = line("cut", (190, 40), (190, 120))
    found, _ = found_between(sheet_of(*ITEMS, edge), sheet_of(*ITEMS, edge))
    assert max(found.only_first, found.only_second) < BOUND
