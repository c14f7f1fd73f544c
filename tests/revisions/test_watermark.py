"""The mark of a set that is not for the shop: there for those, light, under everything, clear of
lettering."""

from __future__ import annotations

import pytest

from sheets.base.notation import Run
from sheets.compose.pages.watermark import wants_watermark, watermarked
from sheets.drawing.items import DrawingSet, Sheet, Text
from sheets.drawing.lettering import box
from sheets.geometry.box import Box


def a_set(*texts: Text) -> DrawingSet:
    return DrawingSet(
        "T", "1", "", "", "mm", (Sheet("Z-101", "PLAN", 420.0, 297.0, Box(20.0, 10.0, 350.0, 287.0), texts),)
    )


@pytest.mark.parametrize(
    ("status", "marked"),
    [
        ("for review", True),
        ("preliminary", True),
        ("", False),
        ("released", False),
        ("Released ", False),
        ("not released", True),
        ("as built", False),
    ],
)
def test_only_what_is_not_for_the_shop_is_marked(status: str, marked: bool) -> None:
    assert wants_watermark(status) == marked
    (sheet,) = watermarked(a_set(), status).sheets
    assert bool(sheet.items) == marked


def test_it_lies_under_everything_light_and_clear_of_lettering() -> None:
    texts = [
        Text((Run("GENERAL NOTE " * 4),), (25.0, float(y)), 2.5)
        for y in range(15, 285, 5)
        if not 190 < y < 230
    ]
    (sheet,) = watermarked(a_set(*texts), "for review").sheets
    mark, *others = sheet.items
    assert isinstance(mark, Text)
    assert mark.plain == "FOR REVIEW"
    assert mark.grey >= 0.85
    assert tuple(others) == tuple(texts)
    x0, y0, x1, y1 = box(mark)
    for text in texts:
        a0, b0, a1, b1 = box(text)
        assert x1 <= a0 or a1 <= x0 or y1 <= b0 or b1 <= y0
    assert x0 >= 20.0
    assert x1 <= 350.0
