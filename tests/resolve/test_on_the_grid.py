"""Cut sizes that a person can set a stop to: on the precision of the set, a panel's thickness apart."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from sheets.base.diagnostics import print_text
from sheets.grammar.reader import read_spec_text
from sheets.model.part import AXES
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.resolve.solve import resolve
from tests.property.strategies import Tree, walls, yaml_text

ROOT = Path(__file__).resolve().parents[2]
SPECS = sorted([*(ROOT / "specs").glob("*.yaml"), *(ROOT / "tests/acceptance/specs").glob("*.yaml")])

BETWEEN_OPENINGS = {
    "Shelf", "Shelf edge", "Hanging rail", "Lower hanging rail", "Baseboard", "Backer board, ripped"
}  # fmt: skip
"""Pieces that are as long as an opening of several, whose share of what is left over may be half a step; a
bottom and a top board laid across are ripped alike."""


def _off_the_grid(wall: Wall, within: str = "") -> Iterator[tuple[str, str]]:
    grid = wall.notation.grid
    panels = {part.material.thickness for part in wall.parts}  # a lip is as high as the panel it covers
    for part in wall.parts:
        if part.maker != "shop" or part.bend is not None or not part.key.startswith(within):
            continue
        for axis in AXES:
            size = part.size(axis)
            if size % grid and size not in panels:
                yield part.name, str(size / grid)


@pytest.mark.parametrize("path", SPECS, ids=lambda path: path.stem)
def test_each_piece_of_an_example_is_cut_on_the_grid(path: Path) -> None:
    wall = solve(path).wall
    assert wall is not None
    assert list(_off_the_grid(wall)) == []


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(walls())
def test_each_piece_of_any_case_is_cut_on_the_grid(tree: Tree) -> None:
    spec, source, said = read_spec_text(yaml_text(tree))
    assert spec is not None, print_text(said)
    wall, found = resolve(spec, source)
    assert wall is not None, print_text(found)
    # What is laid out from the axis of a wall of an odd width still has halves of a step: mantel, panelling.
    assert [one for one in _off_the_grid(wall, "cases/") if one[0] not in BETWEEN_OPENINGS] == []
