"""Schedules of walls drawn from all over the language: every part in one row and one plan, volumes agree."""

from __future__ import annotations

from collections import Counter

from hypothesis import HealthCheck, given, settings

from sheets.geometry.solid import volume
from sheets.grammar.reader import read_spec_text
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve
from sheets.schedules.all_schedules import all_diagrams, all_tables, plan_findings, shop_schedules
from sheets.schedules.export import export
from sheets.schedules.parts import shop_parts
from sheets.schedules.stock import rough_of
from tests.property.strategies import Tree, walls, yaml_text
from tests.schedules.test_cutting_plans import check_boards, check_sheets

few = settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def solved(tree: Tree) -> Wall:
    spec, source, _found = read_spec_text(yaml_text(tree), "drawn.yaml")
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    return marked(wall)


@few
@given(walls())
def test_every_part_is_in_one_row_and_one_plan(tree: Tree) -> None:
    wall = solved(tree)
    shop = shop_schedules(wall)
    made = shop_parts(wall)
    assert Counter(key for row in shop.parts.rows for key in row.keys) == Counter(part.key for part in made)
    cut = Counter(p.key for plan in shop.boards.plans for board in plan.boards for p in board.pieces)
    cut += Counter(p.key for plan in shop.panels.plans for sheet in plan.sheets for p in sheet.pieces)
    missing = {part.key for part in (*shop.boards.too_long, *shop.panels.too_large)}
    for part in made:
        rough = rough_of(part, shop.settings.stock, wall.units)
        wanted = 0 if rough is None or part.key in missing else rough.pieces
        assert cut[part.key] == wanted, part.key
    for plan in shop.boards.plans:
        check_boards(plan, wall)
    for panel in shop.panels.plans:
        check_sheets(panel, wall)
    assert len([f for f in plan_findings(shop) if f.code == "not-in-a-plan"]) == len(missing)


@few
@given(walls())
def test_scheduled_sizes_hold_the_model_and_blanks_hold_the_sizes(tree: Tree) -> None:
    wall = solved(tree)
    shop = shop_schedules(wall)
    for part in shop_parts(wall):
        block = float(part.thickness * part.width * part.length)
        # What is cut away (dadoes, arcs, mitres) is under the block's own volume; nothing stands out of it.
        assert 0 < volume(part.solid) <= block + 1.0
        rough = rough_of(part, shop.settings.stock, wall.units)
        if rough is not None:
            thickness, width, length = rough.blank
            assert rough.layers * thickness >= part.thickness
            assert rough.strips * width >= part.width
            assert length >= part.length
            assert rough.kind == "panel" or (rough.thickness >= thickness and rough.width >= width)
    for table in all_tables(shop):
        assert all(len(row) == len(table.columns) for row in table.rows)
    assert len(all_diagrams(shop)) >= len(shop.backers)
    for format in ("csv", "json"):
        assert export(wall, shop, format)
