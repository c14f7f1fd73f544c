"""Walls drawn at random from the language come out without a fault on any sheet.

A few in the ordinary run; 200 with pytest -m nightly.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from sheets.audit.audit import audit
from sheets.base.diagnostics import print_text
from sheets.commands.one_set import draw
from sheets.drawing.items import Viewport
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


def test_a_radius_does_not_stand_where_the_leader_of_a_mark_must_end() -> None:
    # Found among the walls drawn at random: a low arch with a lining, its mark and its radius in one rail.
    arch = {"rise": "1-13/16", "rail": "7-1/16", "chord": "22-3/8"}
    lining = {"thickness": "9/16", "laminations": "2"}
    tree: Tree = {
        "project": {"title": "A low arch"},
        "units": "inch",
        "materials": {"oak": {"species": "white oak"}, "ply": {"panel": "veneer-core plywood",
                      "face": "white oak", "thickness": "23/32"}},
        "room": {"width": "133-7/8", "ceiling": {"height": "96-7/8", "vault": {"spring": "93"}}},
        "fireplace": {"opening": {"width": "25-1/8", "height": "15-3/8", "depth": "18-3/4"}, "sill": "0",
                      "appliance": "listed gas"},
        "mantel": {"breast": "3-3/4", "material": "oak", "top": "35-7/8", "width": "55-3/8",
                   "layers": {"fascia": {"height": "3-1/4", "saw_cuts": {"count": "1"}},
                              "sub_fascia": {"height": "2-3/16", "setback": "1/2"}},
                   "posts": {"width": "13-1/16"}, "arch": {**arch, "lining": lining},
                   "corbels": {"width": "13-1/16", "height": "6-3/8", "projection": "2",
                               "curve": {"rise": "1/4"}}},
        "cases": [{"name": "flanking", "mirrored": "true", "width": "fill", "height": "83-7/16",
                   "depth": "12-7/8", "material": "ply"}],
    }  # fmt: skip
    assert faults(tree) == []


@pytest.mark.nightly
@settings(slow, max_examples=200, phases=(Phase.explicit, Phase.generate))
@given(walls())
def test_two_hundred_walls_drawn_at_random_have_no_fault(tree: Tree) -> None:
    assert faults(tree) == []
