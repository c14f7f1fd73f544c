"""Details fill their sheets: no more sheets than they need, at the largest scale those have room for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from made_views import MM_MANNER, box_view, chain

from sheets.annotate.annotate import annotate
from sheets.compose.compose import compose
from sheets.compose.pages.details import _shared_out, detail_pages
from sheets.compose.placing.fitting import Fitter
from sheets.compose.scales import METRIC
from sheets.drawing.items import Symbol, Viewport
from sheets.geometry.box import Box
from sheets.pipeline import solve
from sheets.views.make import make_views

SPECS = Path(__file__).parents[2] / "specs"


def _details(name):
    wall = solve(SPECS / f"{name}.yaml").wall
    drawing, _ = compose(annotate(wall, make_views(wall)), wall)
    sheets = [s for s in drawing.sheets if s.title == "DETAILS"]
    return [[v for v in s.items if isinstance(v, Viewport)] for s in sheets]


@pytest.fixture(scope="module")
def fireplace():
    return _details("ferry-landing")


def _title_height(view):
    return next(i.at[1] for i in view.items if isinstance(i, Symbol) and i.kind == "view title")


def test_thirteen_details_are_on_two_sheets_and_none_is_alone(fireplace):
    # Of the mantel four, of the surround one, of the panelling two, of the charts' case five; the parcels'
    # case has a cap of its own and shares the rest.
    assert sum(len(views) for views in fireplace) == 4 + 1 + 2 + 5 + 1
    assert len(fireplace) == 2
    assert min(len(views) for views in fireplace) > 1


def test_a_detail_is_at_three_inches_or_more(fireplace):
    # NAVFAC: details at 3/4, 1 1/2 or 3 in; the house wants 3 in (1:4) where the sheet allows.
    assert all(v.scale >= 0.25 for views in fireplace for v in views)
    assert sum(v.scale == 0.5 for views in fireplace for v in views) >= 3


def test_details_of_a_subject_stand_together(fireplace):
    subjects = [v.id.split("/")[1] for views in fireplace for v in views]
    assert [s for k, s in enumerate(subjects) if k == 0 or s != subjects[k - 1]] == list(
        dict.fromkeys(subjects)
    )


def test_titles_of_a_row_stand_level(fireplace):
    for views in fireplace:
        heights = sorted({round(_title_height(v), 3) for v in views})
        assert len(heights) < len(views)


def test_rows_are_shared_out_evenly_over_the_sheets_they_need():
    # Four rows of 100 on sheets of 310: two and two, not three and one.
    rows = [[k] for k in range(4)]
    assert [len(s) for s in _shared_out(rows, [100.0] * 4, 310.0)] == [2, 2]
    assert [len(s) for s in _shared_out(rows, [100.0] * 4, 400.0)] == [4]
    assert [len(s) for s in _shared_out(rows, [100.0] * 4, 150.0)] == [1, 1, 1, 1]


def test_details_that_reach_up_and_down_from_one_title_have_rows_of_their_own():
    # Strings over one and notes under the other: each as tall as the sheet, with titles level taller.
    cuts = [0, 75, 150]
    strings = tuple(chain("above", cuts, rank=k, name=f"above/{k}") for k in range(6))
    up = box_view(150, 400, kind="detail", strings=strings)
    down = box_view(150, 400, kind="detail", notes=tuple(f"NOTE {k} OF MANY" for k in range(12)))
    down = replace(down, view=replace(down.view, id="detail/down"))
    fitter = Fitter(MM_MANNER)
    scale = next(s for s in METRIC if s.text == "1:5")
    tall = max(fitter.at(v, scale, 0).size[1] for v in (up, down))
    space = Box(0.0, 0.0, 420.0, tall + 0.1)
    pages, unplaced = detail_pages((up, down), fitter, space)
    assert not unplaced
    assert sum(len(page.views) for page in pages) == 2
    for page in pages:
        for placed, at in page.views:
            assert at[1] + placed.box[1] >= space[1] - 0.01
            assert at[1] + placed.box[3] <= space[3] + 0.01
