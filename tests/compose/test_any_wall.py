"""Whatever valid wall is drawn: its set has no defect, and the same wall gives the same set."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from sheets.annotate.annotate import annotate
from sheets.audit.audit import audit
from sheets.base.diagnostics import has_errors
from sheets.compose.compose import compose
from sheets.drawing.items import Viewport
from sheets.grammar.reader import read_spec_text
from sheets.resolve.solve import resolve
from sheets.schedules.fields import Told
from sheets.schedules.parts import parts_schedule, parts_table
from sheets.views.make import make_views
from tests.property.strategies import Tree, walls, yaml_text

few = settings(max_examples=8, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))


def _drawn(tree: Tree):
    spec, source, _ = read_spec_text(yaml_text(tree))
    wall, _ = resolve(spec, source)
    views = annotate(wall, make_views(wall))
    schedule = parts_schedule(wall)
    return views, compose(
        views, wall, tables=lambda sheet_of: (parts_table(schedule, Told(wall.notation, sheet_of)),)
    )


def _without_a_defect(tree: Tree) -> None:
    views, (drawing, found) = _drawn(tree)
    assert not has_errors(found)
    assert drawing.sheets[0].number == "Z-001"
    drawn = {item.id for sheet in drawing.sheets for item in sheet.items if isinstance(item, Viewport)}
    assert {view.view.id for view in views} <= drawn
    assert audit(drawing) == ()


@few
@given(walls())
def test_a_drawn_wall_has_sheets_without_a_defect(tree: Tree) -> None:
    _without_a_defect(tree)


@pytest.mark.nightly
@settings(few, max_examples=200)
@given(walls())
def test_two_hundred_drawn_walls_have_sheets_without_a_defect(tree: Tree) -> None:
    _without_a_defect(tree)


@settings(few, max_examples=3)
@given(walls())
def test_a_wall_composed_again_gives_the_same_set(tree: Tree) -> None:
    assert _drawn(tree) == _drawn(tree)
