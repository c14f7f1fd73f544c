"""Details fill their sheets: no more sheets than they need, at the largest scale those have room for."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.annotate.annotate import annotate
from sheets.compose.compose import compose
from sheets.compose.details import _shared_out
from sheets.drawing.items import Symbol, Viewport
from sheets.pipeline import solve
from sheets.views.make import make_views

SPECS = Path(__file__).parents[2] / "specs"


def _details(name):
    wall = solve(SPECS / f"{name}.yaml").wall
    drawing, _ = compose(annotate(wall, make_views(wall)), (), wall)
    sheets = [s for s in drawing.sheets if s.number.startswith("Z-5")]
    return [[v for v in s.items if isinstance(v, Viewport)] for s in sheets]


@pytest.fixture(scope="module")
def fireplace():
    return _details("fireplace-wall")


def _title_height(view):
    return next(i.at[1] for i in view.items if isinstance(i, Symbol) and i.kind == "view title")


def test_ten_details_are_on_two_sheets_and_none_is_alone(fireplace):
    assert [len(views) for views in fireplace] == [4, 6]


def test_a_detail_is_at_three_inches_or_more(fireplace):
    # NAVFAC: details at 3/4, 1 1/2 or 3 in; the house wants 3 in (1:4) where the sheet allows.
    assert all(v.scale >= 0.25 for views in fireplace for v in views)
    assert sum(v.scale == 0.5 for views in fireplace for v in views) >= 4


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
