"""Walls drawn at random from the language come out without a fault on any sheet.

A few in the ordinary run; 200 with pytest -m nightly.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from sheets.base.diagnostics import print_text
from sheets.compose.audit import audit
from sheets.drawing.items import Viewport
from sheets.pipeline import draw
from tests.property.strategies import Tree, walls, yaml_text

slow = settings(
    deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)


def faults(tree: Tree) -> list[str]:
    """Draw a wall as its file is drawn, and return what the audit says of the set."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "drawn.yaml"
        path.write_text(yaml_text(tree), "utf-8")
        drawn = draw(path)
    assert drawn.drawing is not None, print_text(drawn.diagnostics)
    assert len(drawn.drawing.sheets) > 3
    views = {item.id for sheet in drawn.drawing.sheets for item in sheet.items if isinstance(item, Viewport)}
    assert "axonometric" in views
    return [str(defect) for defect in audit(drawn.drawing)]


@settings(slow, max_examples=4)
@given(walls())
def test_a_wall_drawn_at_random_has_no_fault(tree: Tree) -> None:
    assert faults(tree) == []


@pytest.mark.nightly
@settings(slow, max_examples=200, phases=(Phase.explicit, Phase.generate))
@given(walls())
def test_two_hundred_walls_drawn_at_random_have_no_fault(tree: Tree) -> None:
    assert faults(tree) == []
