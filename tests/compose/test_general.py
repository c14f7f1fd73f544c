"""The first sheets: nothing of them beyond the drawing space, however small the sheet and long the index."""

from __future__ import annotations

import pytest
from made_views import INCH_MANNER

from sheets.compose.ink import bounds
from sheets.compose.pages.general import general_pages
from sheets.compose.pages.page import Page
from sheets.compose.placing.fitting import Fitter
from sheets.drawing.items import Text
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box

LETTER = Box(12.0, 55.0, 262.0, 200.0)  # what is left of a sheet of 8 1/2 x 11 in, mm
LARGE = Box(45.0, 25.0, 490.0, 430.0)


@pytest.mark.parametrize("space", [LETTER, LARGE])
@pytest.mark.parametrize("count", [3, 40, 90])
def test_an_index_longer_than_a_sheet_goes_on_in_the_next_column(wall, space, count):
    pages = [Page(f"Z-6{n:02d}", "SCHEDULES") for n in range(1, count + 1)]
    found = general_pages(wall, None, pages, Fitter(INCH_MANNER), space, "")
    said = [item.plain for page in found for item in ungrouped(page.items) if isinstance(item, Text)]
    assert all(said.count(page.number) == 1 for page in (*found, *pages))
    for page in found:
        box = bounds(page.items)
        assert box[0] >= space[0] - 0.01
        assert box[1] >= space[1] - 0.01
        assert box[2] <= space[2] + 0.01
        assert box[3] <= space[3] + 0.2  # a bracket rises over the capitals


def test_notes_of_a_letter_sheet_stand_in_two_columns(wall):
    (first, *_) = general_pages(wall, None, [], Fitter(INCH_MANNER), LETTER, "")
    texts = [item for item in ungrouped(first.items) if isinstance(item, Text)]
    lefts = {round(text.at[0], 1) for text in texts if text.weight == "bold"}
    assert any(left > (LETTER[0] + LETTER[2]) / 2 for left in lefts)
