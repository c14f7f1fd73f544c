"""A sheet's PNG and SVG show what its page of the PDF shows."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sheets.drawing.items import Sheet, Stroke
from sheets.drawing.pens import where
from sheets.drawing.walk import viewports
from sheets.geometry.path import Line
from sheets.writers.raster import png
from sheets.writers.svg import svg
from tests.audit.examples import example
from tests.golden import pictures
from tests.golden.ink import unlike
from tests.golden.svg_picture import needs_viewer, of_svg, size_mm

STEM = "narrow-wall"
DOTS = 150
NEAR = 0.17  # mm: one dot aside
KERNED = 0.34  # two: the viewer of SVG moves letters together, a PDF sets them one after the other
BOUND = 0.002  # of the ink


def sheet_and_page() -> tuple[Sheet, np.ndarray]:
    """The first sheet of the set with details: hatches, fractions, marks, fills and dashes are on it."""
    drawn = example(STEM)
    k = next(
        k
        for k, sheet in enumerate(drawn.drawing.sheets)
        if any(where(view.id) == "detail" for view in viewports(sheet))
    )
    return drawn.drawing.sheets[k], pictures.of_pdf(drawn.pdf, DOTS, (k + 1, k + 1))[0]


@pytest.fixture(scope="module")
def drawn() -> tuple[Sheet, np.ndarray]:
    return sheet_and_page()


def hold(first: np.ndarray, second: np.ndarray, near: float = NEAR) -> None:
    found = unlike(first, second, dots=DOTS, near=near)
    print(found)
    assert max(found.only_first, found.only_second) < BOUND, found


def test_the_png_shows_the_page(drawn):
    sheet, page = drawn
    hold(page, pictures.of_png(png(sheet, DOTS)))


@needs_viewer
def test_the_svg_shows_the_page(drawn):
    sheet, page = drawn
    data = svg(sheet)
    assert size_mm(data) == pytest.approx((sheet.width, sheet.height), abs=0.01)
    hold(page, of_svg(data, DOTS), KERNED)


@pytest.mark.parametrize("reader", ["png", pytest.param("svg", marks=needs_viewer)])
def test_a_line_too_many_is_found(drawn, reader):
    sheet, page = drawn
    more = replace(sheet, items=(*sheet.items, Stroke((Line((40, 40), (240, 240)),), "cut")))
    picture = pictures.of_png(png(more, DOTS)) if reader == "png" else of_svg(svg(more), DOTS)
    found = unlike(page, picture, dots=DOTS, near=NEAR if reader == "png" else KERNED)
    assert found.only_second > BOUND
