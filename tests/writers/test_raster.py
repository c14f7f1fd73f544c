"""PNG of a sheet: size, ink where the drawing has it, and nothing of the clock."""

import io
from dataclasses import replace

import numpy as np
import pytest
from hand_made_set import sample
from PIL import Image

from sheets.drawing.items import Area
from sheets.geometry.region import rectangle
from sheets.writers.raster import png

DPI = 100


@pytest.fixture(scope="module")
def detail():
    return sample("inch").sheets[2]


def test_png_has_the_size_of_the_sheet_and_no_date(detail):
    data = png(detail, DPI)
    picture = Image.open(io.BytesIO(data))
    assert picture.size == (24 * DPI, 18 * DPI)
    assert not {"Software", "Creation Time"} & set(picture.info)


def test_ink_lies_where_the_items_are(detail):
    grey = np.asarray(Image.open(io.BytesIO(png(detail, DPI))).convert("L"))

    def at(x_mm, y_mm):
        return grey[round((457.2 - y_mm) / 25.4 * DPI), round(x_mm / 25.4 * DPI)]

    assert at(250 + 31.75, 150) < 60  # the cut line under the cap
    assert at(250 + 7 * 25.4 / 4, 150 + 2 * 25.4 / 4) == 255  # the hole is clear of the hatch
    assert at(400, 300) == 255
    # A wide line is 0.7 mm: across the left side of the cap, away from the hatch, as many dots are dark.
    row = grey[round((457.2 - 151) / 25.4 * DPI), round(247 / 25.4 * DPI) : round(250.2 / 25.4 * DPI)]
    assert 1 <= (row < 128).sum() <= 0.7 / 25.4 * DPI + 1


def test_every_hatched_area_has_its_hatch(detail):
    """Two hundred squares, every other one with a gap: a clip taken for an earlier one leaves some blank."""
    squares = [(20.0 + 15 * i, 20.0 + 15 * j) for i in range(20) for j in range(10)]
    areas = tuple(
        Area(
            (rectangle(x, y, x + 10, y + 10),),
            hatch="masonry",
            origin=(x, y),
            gaps=((x + 4, y + 4, x + 6, y + 6),) * (k % 2),
        )
        for k, (x, y) in enumerate(squares)
    )
    grey = np.asarray(Image.open(io.BytesIO(png(replace(detail, items=areas), DPI))).convert("L"))
    blank = [
        (x, y)
        for x, y in squares
        if grey[
            round((457.2 - y - 9) / 25.4 * DPI) : round((457.2 - y - 1) / 25.4 * DPI),
            round((x + 1) / 25.4 * DPI) : round((x + 9) / 25.4 * DPI),
        ].min()
        > 250
    ]
    assert blank == []


def test_the_same_sheet_gives_the_same_bytes(detail):
    assert png(detail) == png(sample("inch").sheets[2])
