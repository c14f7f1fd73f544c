"""Which views share a sheet, at which scale, and that they line up there."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from made_views import MM_MANNER, box_view, chain

from sheets.annotate.annotate import annotate
from sheets.compose.compose import compose
from sheets.compose.pages.view_rows import in_rows
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.placed import place
from sheets.compose.scales import METRIC
from sheets.drawing.items import Viewport
from sheets.geometry.box import Box
from sheets.pipeline import solve
from sheets.views.make import make_views

SPECS = Path(__file__).parents[2] / "specs"
PARLOUR = Path(__file__).parent / "specs" / "parlour-mantel.yaml"


def _composed(path):
    wall = solve(path).wall
    return compose(annotate(wall, make_views(wall)), wall)[0]


@pytest.fixture(scope="module")
def sets():
    return {path.stem: _composed(path) for path in SPECS.glob("*.yaml")}


def _views(drawing, *kinds):
    return [
        (v, s) for s in drawing.sheets for v in s.items
        if isinstance(v, Viewport) and v.id.split("/")[0] in kinds
    ]  # fmt: skip


def _sheet_with(drawing, start):
    return next(s for s in drawing.sheets if s.number.startswith(start))


def test_a_wide_wall_has_its_elevation_alone_when_the_plan_would_halve_it(sets):
    drawing = sets["ferry-landing"]
    ((elevation, sheet),) = _views(drawing, "elevation")
    assert elevation.scale_text == '3/4" = 1\'-0"'
    assert len(_views(drawing, "elevation", "plan")) == 4
    assert [v for v in sheet.items if isinstance(v, Viewport)] == [elevation]


def test_plans_stand_under_one_another_on_the_axis_of_the_wall(sets):
    plans = _views(sets["mantel-alone"], "plan")
    assert len(plans) == 2
    assert plans[0][1] == plans[1][1]
    assert plans[0][0].origin[0] == pytest.approx(plans[1][0].origin[0])
    assert plans[0][0].box[1] > plans[1][0].box[3]


def test_plan_and_elevation_of_a_wall_share_a_scale(sets):
    for drawing in sets.values():
        assert len({v.scale for v, _ in _views(drawing, "elevation", "plan")}) == 1


def test_a_narrow_wall_is_whole_on_one_sheet_with_its_section_level(sets):
    drawing = sets["narrow-wall"]
    sheet = _sheet_with(drawing, "Z-1")
    assert sheet.title == "PLAN, ELEVATION AND SECTION"
    views = {v.id.split("/")[0]: v for v in sheet.items if isinstance(v, Viewport)}
    assert views["elevation"].origin[1] == pytest.approx(views["section"].origin[1])
    assert views["plan"].box[2] < views["elevation"].box[0] < views["section"].box[0]


def test_a_mantel_has_its_section_beside_the_elevation():
    sheet = _sheet_with(_composed(PARLOUR), "Z-2")
    assert sheet.title == "ELEVATION AND SECTION"
    assert len({v.origin[1] for v in sheet.items if isinstance(v, Viewport)}) == 1


def test_the_long_wall_is_at_one_to_ten_over_its_plan(sets):
    (elevation, sheet), (plan, other) = _views(sets["cider-house"], "elevation", "plan")
    assert sheet == other
    assert elevation.scale_text == plan.scale_text == "1:10"
    assert elevation.origin[0] == pytest.approx(plan.origin[0])


def test_sheets_of_one_kind_are_counted_from_one(sets):
    for drawing in sets.values():
        numbers = [s.number for s in drawing.sheets]
        assert numbers == sorted(set(numbers))
        for digit in "12356":
            mine = [n for n in numbers if n.startswith(f"Z-{digit}")]
            assert mine == [f"Z-{digit}{k:02d}" for k in range(1, len(mine) + 1)]


def test_views_that_reach_up_and_down_from_one_level_have_rows_of_their_own():
    # Six strings over one and under the other: each as tall as the sheet, level they would be taller.
    cuts = [0, 150, 300]
    up, down = (
        box_view(300, 900, strings=tuple(chain(side, cuts, rank=k, name=f"{side}/{k}") for k in range(6)))
        for side in ("above", "below")
    )
    down = replace(down, view=replace(down.view, id="section/down"))
    tall = max(place(v, METRIC[3], MM_MANNER).size[1] for v in (up, down))
    space = Box(0.0, 0.0, 400.0, tall + 0.1)
    pages, unplaced = in_rows((up, down), Fitter(MM_MANNER), space, 3, "SECTION")
    assert not unplaced
    assert sum(len(page.views) for page in pages) == 2
    for page in pages:
        for placed, at in page.views:
            assert at[1] + placed.box[1] >= space[1] - 0.01
            assert at[1] + placed.box[3] <= space[3] + 0.01
