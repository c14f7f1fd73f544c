"""The lining bent under the mantel's arch."""

from __future__ import annotations

from fractions import Fraction
from math import asin, hypot

import pytest

from sheets.base.length import inch
from sheets.geometry.contact import intersection_volume
from sheets.geometry.solid import volume
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.schedules.cutting_panels import cut_panels
from sheets.schedules.parts import parts_schedule
from tests.resolve.refused import refused_at
from tests.resolve.solved import HEAD, inches, wall_of, with_role

WALL = """
room: {{width: 160, ceiling: {{height: 104}}}}
fireplace: {{opening: {{width: 36, height: 24}}, sill: 4}}
surround: {{material: slate, width: 64{height}}}
mantel:
  top: 62
  breast: 6
  layers: {{cap: {{}}, fascia: {{height: 7}}}}
  {posts}
  arch: {{rise: 8, rail: {rail}, chord: 36, lining: {{{lining}}}}}
  material: oak
cases:
  - {{name: side, mirrored: true, width: fill, height: 76, depth: 12, material: ply}}
"""


def text(
    lining: str = "thickness: 3/8", posts: str = "posts: {width: 8}", rail: str = "10", height: str = ""
) -> str:
    return WALL.format(lining=lining, posts=posts, rail=rail, height=height)


def bent(wall: Wall) -> Part:
    (part,) = with_role(wall, "arch lining")
    return part


def test_it_lies_on_the_arc_of_the_rail_from_its_back_to_the_facing() -> None:
    part = bent(wall_of(text()))
    # Breast 6 in front of the cases' 12; posts as far, the rail 3/4 thick behind their face.
    assert (inches(part.extent.y0), inches(part.extent.y1)) == (12, Fraction(69, 4))
    assert (inches(part.extent.x0), inches(part.extent.x1)) == (-18, 18)
    rail = with_role(wall_of(text()), "arched rail")[0]
    assert part.extent.z0 == rail.extent.z0
    assert inches(part.extent.z1 - part.extent.z0) == 8 + Fraction(3, 8)


def test_its_sizes_are_those_that_lie_flat() -> None:
    part = bent(wall_of(text()))
    # Hatfield: radius of a chord of 36 and a rise of 8: (18^2 + 8^2) / 16 = 24 1/4. Arc: 2 R asin(18 / R).
    arc = 2 * 24.25 * asin(18 / 24.25)
    assert 0 <= float(inches(part.length)) - arc < 1 / 16
    assert (inches(part.thickness), inches(part.width)) == (Fraction(3, 8), Fraction(21, 4))


def test_its_solid_is_a_board_of_one_thickness_all_along() -> None:
    part = bent(wall_of(text()))
    # Between two circles of one centre, cut plumb at the ends of the chord.
    inner, outer = 24.25, 24.625
    sector = [asin(18 / r) * r * r - 18 * (r * r - 18 * 18) ** 0.5 for r in (inner, outer)]
    between = sector[1] - sector[0] + 36 * ((outer**2 - 324) ** 0.5 - (inner**2 - 324) ** 0.5)
    assert volume(part.solid) / 25.4**3 == pytest.approx(between * 5.25, rel=1e-6)


def test_nothing_else_is_in_its_place() -> None:
    wall = wall_of(text())
    part = bent(wall)
    assert [
        p.key for p in wall.parts if p.key != part.key and intersection_volume(p.solid, part.solid) > 1
    ] == []


def test_it_goes_on_flat_to_the_posts() -> None:
    left, right = with_role(wall_of(text()), "arch lining end")
    assert (inches(left.extent.x0), inches(left.extent.x1)) == (-24, -18)
    assert right.twin == left.key
    assert inches(left.extent.z1 - left.extent.z0) == Fraction(3, 8)


def test_laminations_are_each_a_board_of_the_take_off() -> None:
    wall = wall_of(text("thickness: 3/8, laminations: 3"))
    row = next(row for row in parts_schedule(wall).rows if row.name == "Arch lining")
    assert row.rough is not None
    assert (row.rough.layers, row.rough.blank[0]) == (3, inch("1/8"))
    assert any("3 LAYERS OF 1/8" in note for note in row.notes)


def test_laminations_of_a_panel_are_each_cut_from_a_sheet_of_their_thickness() -> None:
    wall = wall_of(text("thickness: 1/2, laminations: 2, material: ply, grain: across"))
    (plan,) = [plan for plan in cut_panels(wall).plans if plan.thickness == inch("1/4")]
    assert [piece.key for sheet in plan.sheets for piece in sheet.pieces] == ["mantel/arch-lining"] * 2


def test_kerfs_are_told_to_the_shop() -> None:
    part = bent(wall_of(text("thickness: 1/2, kerfs: {count: 7}, material: ply")))
    assert any("7 KERFS 1/8" in note and "1/16" in note for note in part.notes)


@pytest.mark.parametrize("height", [", height: 40", ""])
def test_it_meets_what_is_behind_it(height: str) -> None:
    # The ends of the arc are at 62 - 1 1/4 - 7 - 10 = 43 3/4: a facing that ends lower leaves the enclosure.
    part = bent(wall_of(text(height=height)))
    assert inches(part.extent.y0) == (Fraction(45, 4) if height else 12)


@pytest.mark.parametrize(
    ("wrong", "path"),
    [
        (text(posts=""), ("mantel", "arch", "lining")),
        (text(rail="8-1/4"), ("mantel", "arch", "lining", "thickness")),
        (text("laminations: 2, kerfs: {count: 9}"), ("mantel", "arch", "lining", "kerfs")),
        (text("kerfs: {count: 9, web: 1/4}"), ("mantel", "arch", "lining", "kerfs", "web")),
        (text("grain: across"), ("mantel", "arch", "lining", "grain")),
        (text(height=", height: 46"), ("surround", "height")),
        (text(posts="posts: {width: 8, depth: 3/4}"), ("mantel", "arch", "lining")),
    ],
)
def test_what_cannot_be_lined_is_refused_with_its_place(wrong: str, path: tuple[str, ...]) -> None:
    assert path in refused_at(HEAD + wrong)


def test_the_arc_and_the_crown_are_of_one_circle() -> None:
    part = bent(wall_of(text()))
    assert part.curve is not None
    corner = hypot(18, 24.25 - 8)
    assert part.curve.radius / 25.4 == pytest.approx(corner) == pytest.approx(24.25)
