"""The example specs come out without a defect, on their own sheets and on others."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheets.annotate.annotate import annotate
from sheets.audit.audit import audit
from sheets.base.diagnostics import has_errors
from sheets.compose.compose import compose
from sheets.pipeline import solve
from sheets.views.make import make_views
from tests.drawn import EXAMPLES, drawn


def test_there_are_examples():
    assert len(EXAMPLES) >= 4


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example_is_drawn_without_a_defect(path):
    found = drawn(path)
    assert not has_errors(found.diagnostics)
    assert audit(found.drawing) == ()


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
@pytest.mark.parametrize(("size", "block"), [("arch-d", "architect-strip"), ("iso-a2", "iso-7200")])
def test_an_example_on_another_sheet_has_no_defect_either(path, size, block):
    wall = solve(path).wall
    wall = replace(wall, paper=replace(wall.paper, size=size, titleblock=block))
    drawing, found = compose(annotate(wall, make_views(wall)), wall)
    assert not has_errors(found)
    assert audit(drawing) == ()
