"""Each piece with joints at places of its own has a drawing, and all that it lacks is measured there."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.annotate.annotate import annotate
from sheets.annotate.intent import Annotated
from sheets.model.wall import Wall
from sheets.pipeline import solve
from sheets.views.make import make_views
from tests.resolve.cuts import blocks_cut

ROOT = Path(__file__).resolve().parents[2]
SPECS = sorted([*(ROOT / "specs").glob("*.yaml"), *(ROOT / "tests/acceptance/specs").glob("*.yaml")])
PLACED = {"dado", "rabbet", "notch"}


def _drawn(path: Path) -> tuple[Wall, list[Annotated]]:
    wall = solve(path).wall
    assert wall is not None
    return wall, [one for one in annotate(wall, make_views(wall)) if one.view.kind == "part"]


def _stops(one: Annotated, direction: str) -> list[float]:
    gaps = [gap for string in one.strings if string.direction == direction for gap in string.gaps]
    return sorted({float(at) for gap in gaps for at in (gap.a, gap.b)})


@pytest.mark.parametrize("path", SPECS, ids=lambda path: path.stem)
def test_every_cut_out_is_measured_from_the_edge_of_its_piece(path: Path) -> None:
    wall, drawings = _drawn(path)
    for one in drawings:
        frame, part = one.view.frame, wall.part(one.view.subjects[0])
        assert frame is not None
        for block in blocks_cut(part):
            across, up = (frame.u_axis, frame.u_sign, "u"), (frame.v_axis, frame.v_sign, "v")
            for axis, sign, direction in (across, up):
                stops = _stops(one, direction)
                for at in block["xyz".index(axis)]:
                    assert min(abs(stop - sign * at) for stop in stops) < 0.01, (part.key, axis, at)


@pytest.mark.parametrize("path", SPECS, ids=lambda path: path.stem)
def test_every_piece_with_a_joint_in_a_place_of_its_own_is_drawn_once(path: Path) -> None:
    wall, drawings = _drawn(path)
    wanted = sorted(p.key for p in wall.parts if p.maker == "shop" and {j.kind for j in p.joints} & PLACED)
    assert sorted(key for one in drawings for key in one.view.subjects) == wanted
    marks = [balloon.mark for one in drawings for balloon in one.balloons]
    assert sorted(marks) == sorted({wall.part(key).mark for key in wanted})
