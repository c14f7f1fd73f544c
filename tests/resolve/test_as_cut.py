"""A part is listed as it is cut: what its solid lacks of its box its row says, and what its row says is cut."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from sheets.base.diagnostics import print_text
from sheets.grammar.reader import read_spec_text
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.resolve.solve import resolve
from tests.property.strategies import Tree, walls, yaml_text
from tests.resolve.cuts import unexplained

ROOT = Path(__file__).resolve().parents[2]
SPECS = sorted([*(ROOT / "specs").glob("*.yaml"), *(ROOT / "tests/acceptance/specs").glob("*.yaml")])


def _unlike(wall: Wall) -> dict[str, list[str]]:
    return {part.key: said for part in wall.parts if part.maker == "shop" and (said := unexplained(part))}


@pytest.mark.parametrize("path", SPECS, ids=lambda path: path.stem)
def test_each_part_of_an_example_is_listed_as_it_is_cut(path: Path) -> None:
    wall = solve(path).wall
    assert wall is not None
    assert _unlike(wall) == {}


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(walls())
def test_each_part_of_any_wall_is_listed_as_it_is_cut(tree: Tree) -> None:
    spec, source, said = read_spec_text(yaml_text(tree))
    assert spec is not None, print_text(said)
    wall, found = resolve(spec, source)
    assert wall is not None, print_text(found)
    assert _unlike(wall) == {}
