"""The panelling above the mantel: frame, grooves, panels."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest

from sheets.geometry.contact import intersection_volume
from sheets.geometry.solid import volume
from sheets.grammar.reader import read_spec_text
from sheets.model.wall import Wall
from tests.resolve.refused import refused_at
from tests.resolve.solved import HEAD, inches, wall_of, with_role

WALL = """
room: {{width: 156, ceiling: {{height: {ceiling}}}}}
mantel:
  top: 56
  width: 78
  layers: {{cap: {{}}, fascia: {{}}}}
  posts: {{}}
  material: oak
overmantel: {{height: 40, {said}}}
{more}
"""


def text(said: str = "panels: 3", *, ceiling: str = "96", more: str = "") -> str:
    return WALL.format(said=said, ceiling=ceiling, more=more)


@pytest.fixture(scope="module")
def wall() -> Wall:
    return wall_of(text())


def test_it_stands_on_the_mantel_as_wide_as_its_breast(wall: Wall) -> None:
    extent = wall.component("overmantel").extent
    assert [inches(v) for v in (extent.x0, extent.x1, extent.z0, extent.z1)] == [-39, 39, 56, 96]
    assert [inches(v) for v in (extent.y0, extent.y1)] == [0, Fraction(3, 4)]


def test_stiles_mullions_and_panels_fill_the_width(wall: Wall) -> None:
    # 78 less two stiles of 3 and two mullions of 2 1/2 is 67: panels that show 22 5/16, 22 3/8, 22 5/16.
    shows = [part.width - 2 * Fraction(3, 8) * Fraction(127, 5) for part in with_role(wall, "panel")]
    assert [inches(each) for each in shows] == [Fraction(357, 16), Fraction(358, 16), Fraction(357, 16)]
    assert [inches(part.width) for part in with_role(wall, "stile")] == [3, 3]
    assert [inches(part.width) for part in with_role(wall, "mullion")] == [Fraction(5, 2)] * 2


def test_panels_are_let_in_all_round_and_leave_a_gap(wall: Wall) -> None:
    stile, panel = with_role(wall, "stile", "overmantel")[0], with_role(wall, "panel")[0]
    (groove,) = [joint for joint in stile.joints if joint.kind == "groove"]
    let_in = stile.extent.x1 - panel.extent.x0
    assert inches(let_in) == Fraction(3, 8)
    assert groove.depth is not None
    assert inches(groove.depth - let_in) == Fraction(1, 8)
    low = with_role(wall, "rail", "overmantel")[0]
    assert inches(low.extent.z1 - panel.extent.z0) == Fraction(3, 8)
    assert inches(low.extent.z1) == 59


def test_stub_tenons_go_to_the_bottom_of_the_grooves(wall: Wall) -> None:
    rail, stile = with_role(wall, "rail", "overmantel")[0], with_role(wall, "stile", "overmantel")[0]
    assert inches(stile.extent.x1 - rail.extent.x0) == Fraction(1, 2)
    # 78 - 6 + 2 x 1/2 long; the body 3 x 3/4 less a groove of 1/2 x 3/8, the tenons 2 1/2 x 3/8.
    body, tenon = 72 * (3 * 0.75 - 0.5 * 0.375), 2 * 0.5 * 2.5 * 0.375
    assert volume(rail.solid) / 25.4**3 == pytest.approx(body + tenon)


def test_no_two_pieces_share_space(wall: Wall) -> None:
    parts = [part for part in wall.parts if part.assembly == "overmantel"]
    assert len(parts) == 9
    for one, other in combinations(parts, 2):
        assert intersection_volume(one.solid, other.solid) < 1, (one.key, other.key)


def test_left_and_right_are_twins(wall: Wall) -> None:
    left, right = with_role(wall, "stile", "overmantel")
    assert {left.twin, right.twin} == {"", left.key}


def test_one_panel_has_no_mullion() -> None:
    wall = wall_of(text("panels: 1, width: 40"))
    assert with_role(wall, "mullion") == []
    assert len(with_role(wall, "panel")) == 1


@pytest.mark.parametrize(
    ("wrong", "path"),
    [
        (text(ceiling="95-15/16"), ("overmantel", "height")),
        (text("width: 157"), ("overmantel", "width")),
        (text("panels: 12, mullion: 5-1/2"), ("overmantel", "panels")),
        (text("rail: 20"), ("overmantel", "rail")),
        (text("panel: {thickness: 3/4}"), ("overmantel", "panel", "thickness")),
        (text("mullion: 1"), ("overmantel", "panel", "let_in")),
        (
            text(more="cases: [{name: tall, mirrored: true, width: fill, height: 80, cap: {}}]"),
            ("overmantel", "width"),
        ),
    ],
)
def test_what_does_not_fit_is_refused_with_its_place(wrong: str, path: tuple[str, ...]) -> None:
    assert path in refused_at(HEAD + wrong)


def test_panelling_without_a_mantel_is_refused() -> None:
    body = "room: {width: 156}\novermantel: {height: 40}\ncases: [{name: a, height: 80}]\n"
    spec, _, found = read_spec_text(HEAD + body, "made-up.yaml")
    assert spec is None
    assert [each.path for each in found] == [("overmantel",)]
