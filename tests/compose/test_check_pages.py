"""The pictures of the checks share a sheet with the findings, over them or beside them."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.checks.run import run_checks
from sheets.compose.ink import bounds
from sheets.compose.pages.check_pages import check_pages
from sheets.drawing.items import Text
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.pipeline import solve

SPEC = Path(__file__).parents[2] / "specs" / "ferry-landing.yaml"


@pytest.fixture(scope="module")
def reports():
    return run_checks(solve(SPEC).wall)


def said(page):
    return {item.plain for item in ungrouped(page.items) if isinstance(item, Text)}


@pytest.mark.parametrize("tall", range(300, 480, 20))
def test_no_sheet_holds_the_pictures_alone_where_there_is_room_beside_the_findings(reports, tall):
    space = Box(0.0, 0.0, 700.0, float(tall))
    pages = check_pages(reports, space, inch=True)
    assert {"SAG OF THE WORST SHELF", "ALIGNMENTS", "FINDINGS OF THE CHECKS"} <= said(pages[0])
    assert bounds(pages[0].items)[0] > -0.01
    assert bounds(pages[0].items)[2] < 700.01
    assert bounds(pages[0].items)[1] > -2.0
