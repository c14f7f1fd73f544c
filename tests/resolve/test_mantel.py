"""The mantel and what it stands round."""

import itertools
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.geometry.boundary import boundary
from sheets.geometry.solid import volume
from sheets.model.wall import Wall
from tests.resolve.solved import inches, solve, wall_of, with_role

WALL = """
room: {width: 160, ceiling: {height: 104}}
fireplace: {opening: {width: 36, height: 24}, sill: 4}
surround: {material: slate, width: 64, hearth: {projection: 16, thickness: 1-1/4}}
mantel:
  top: 54
  breast: 6
  layers:
    cap: {thickness: 1-1/2, overhang: 1-1/2, material: walnut}
    fascia: {height: 7, saw_cuts: {count: 2, width: 1/8, depth: 1/4}}
    sub_fascia: {height: 2, setback: 3/8}
  posts: {width: 8}
  corbels: {width: 6, height: 10, projection: 2-1/2, curve: {rise: 1/2}}
  arch: {rise: 2, rail: 6, chord: 40}
  material: oak
cases:
  - {name: side, mirrored: true, width: fill, height: 76, depth: 12, material: ply, cap: {overhang: 1}}
"""


@pytest.fixture(scope="module")
def wall() -> Wall:
    return wall_of(WALL)


def test_breast_stands_proud_of_the_case_fronts(wall: Wall) -> None:
    fascia = with_role(wall, "fascia")[0]
    assert inches(fascia.extent.y1) == 12 + 6
    assert inches(with_role(wall, "sub-fascia")[0].extent.y1) == 18 - Fraction(3, 8)
    assert inches(with_role(wall, "cap")[0].extent.y1) == 18 + Fraction(3, 2)


def test_surround_lies_in_the_plane_of_the_case_fronts_and_posts_stand_before_it(wall: Wall) -> None:
    slab = with_role(wall, "surround")[0]
    assert (inches(slab.extent.y0), inches(slab.extent.y1)) == (Fraction(45, 4), 12)
    assert inches(with_role(wall, "post face")[0].extent.y1) == 18 - Fraction(5, 2)
    assert inches(with_role(wall, "corbel")[0].extent.y1) == 18


def test_layers_add_up_from_the_top_down(wall: Wall) -> None:
    levels = {
        p.role: (inches(p.extent.z0), inches(p.extent.z1)) for p in wall.parts if p.assembly == "mantel"
    }
    assert levels["cap"] == (Fraction(105, 2), 54)
    assert levels["fascia"] == (Fraction(91, 2), Fraction(105, 2))
    assert levels["sub-fascia"] == (Fraction(87, 2), Fraction(91, 2))
    assert levels["corbel"] == (Fraction(67, 2), Fraction(87, 2))
    assert levels["arched rail"] == (Fraction(75, 2), Fraction(87, 2))


def test_saw_cuts_break_the_fascia_into_three_bands(wall: Wall) -> None:
    levels = [s.at for s in wall.stations if s.chain == "fascia bands"]
    bands = [b - a for a, b in itertools.pairwise(levels)]
    # 7 in less two cuts of 1/8 is 6 3/4: three bands of 2 1/4.
    assert [inches(b) for b in bands] == [Fraction(9, 4), Fraction(1, 8)] * 2 + [Fraction(9, 4)]
    fascia = with_role(wall, "fascia")[0]
    # Cut from a board of 64 x 7 x 3/4 mitred at both ends, less two cuts 1/4 deep along its face.
    whole = (64 + 62.5) / 2 * 0.75 * 7
    cut = 2 * 0.125 * ((64 + 63.5) / 2 * 0.25)
    assert volume(fascia.solid) == pytest.approx((whole - cut) * 25.4**3, rel=1e-9)


def test_cap_is_mitred_and_returned_to_the_case_fronts(wall: Wall) -> None:
    front, returns = with_role(wall, "cap", "mantel")[0], with_role(wall, "cap return", "mantel")
    assert inches(front.length) == 64 + 3
    assert [inches(r.extent.y0) for r in returns] == [12, 12]
    assert all(any(j.kind == "mitre" for j in r.joints) for r in returns)


def test_arch_by_chord_and_rise(wall: Wall) -> None:
    rail = with_role(wall, "arched rail")[0]
    assert rail.curve is not None
    # R = (c^2/4 + h^2) / 2h, here 404 / 4. Source: R. G. Hatfield, American House Carpenter, art. 518.
    assert rail.curve.radius == pytest.approx(101 * 25.4)
    assert (inches(rail.curve.chord), inches(rail.curve.rise)) == (40, 2)
    assert inches(rail.length) == 64 - 16


def test_a_very_shallow_arch_has_faces() -> None:
    # Its end and the shoulder beside it differ by float noise, on a border of the rounding of corners.
    wall = wall_of(
        """
        room: {width: 121-3/8}
        mantel:
          width: 73-3/8
          top: 49-11/16
          layers: {fascia: {height: 1/64}}
          arch: {rise: 1/2, rail: 4, chord: 42-7/16}
        """
    )
    assert boundary(with_role(wall, "arched rail")[0].solid)


def test_posts_stand_on_the_hearth_that_runs_under_them(wall: Wall) -> None:
    assert {inches(p.extent.z0) for p in with_role(wall, "post face")} == {Fraction(5, 4)}
    assert with_role(wall, "hearth")[0].maker == "others"


def test_stone_firebox_and_enclosure_are_by_others(wall: Wall) -> None:
    others = {p.role for p in wall.parts if p.maker == "others"}
    assert others == {"surround", "hearth", "firebox", "masonry", "enclosure"}


def test_plan_is_cut_through_post_and_corbel(wall: Wall) -> None:
    plan = next(cut for cut in wall.cuts if cut.kind == "plan")
    for role in ("post face", "corbel"):
        part = with_role(wall, role)[0]
        assert part.extent.z0 < plan.at < part.extent.z1
    flat = [p for p in wall.parts if p.maker == "shop" and p.thickness_axis == "z"]
    assert not [p.key for p in flat if p.extent.z0 <= plan.at <= p.extent.z1]


def test_ribs_carry_the_cap_at_studs_spacing_and_leave_the_axis_free(wall: Wall) -> None:
    ribs = sorted((p for p in wall.parts if p.name == "Rib"), key=lambda p: p.extent.x0)
    ends = [p for p in wall.parts if p.name == "End blocking"]
    middles = [ends[0].extent.middle("x"), *(p.extent.middle("x") for p in ribs), ends[1].extent.middle("x")]
    # Common practice, as studs: within 16 in on centre.
    assert all(b - a <= inch(16) for a, b in itertools.pairwise(middles))
    assert not [p.key for p in ribs if p.extent.x0 <= 0 <= p.extent.x1]
    assert [p.extent.x0 for p in ribs] == [-p.extent.x1 for p in reversed(ribs)]


def test_each_build_up_is_published_once_a_kind_and_hand(wall: Wall) -> None:
    kinds = [f.kind for f in wall.features if f.owner in ("mantel", "surround")]
    assert sorted(kinds) == ["corbel", "corbel", "mantel", "mantel return", "surround"]
    corbels = [f for f in wall.features if f.kind == "corbel"]
    assert corbels[0].signature == corbels[1].signature
    assert (corbels[0].at, corbels[0].window.x0) == (-corbels[1].at, -corbels[1].window.x1)
    edge = next(f for f in wall.features if f.kind == "surround")
    # Seen in plan, with the whole post before the stone.
    post = with_role(wall, "post face")[0].extent
    assert edge.axis == "z"
    assert edge.window.x0 < post.x0 < post.x1 < edge.window.x1
    assert edge.window.y1 > post.y1


def test_without_cases_the_surround_is_on_the_wall_and_the_layers_return_to_it() -> None:
    wall = wall_of(WALL[: WALL.index("cases:")])
    slab = with_role(wall, "surround")[0]
    assert (slab.extent.y0, inches(slab.extent.y1)) == (0, Fraction(3, 4))
    assert inches(with_role(wall, "fascia")[0].extent.y1) == Fraction(3, 4) + 6
    assert {p.extent.y0 for p in with_role(wall, "fascia return")} == {Fraction(0)}
    assert not with_role(wall, "enclosure")


def test_low_cases_leave_the_sides_of_the_breast_to_be_covered() -> None:
    wall = wall_of(WALL.replace("height: 76", "height: 30"))
    sides = with_role(wall, "breast side")
    assert [s.hand for s in sides] == ["left", "right"]
    assert sides[1].twin == sides[0].key


def test_corbels_that_leave_no_post_are_refused_with_their_place() -> None:
    wall, said = solve(WALL.replace("projection: 2-1/2", "projection: 6"))
    assert wall is None
    fault = next(d for d in said if d.code == "corbels-too-deep")
    assert fault.path == ("mantel", "corbels", "projection")
    assert fault.place is not None
    assert "projection: 6" in fault.place.text_of_line[fault.place.column - 13 :]


@pytest.mark.parametrize("returns", ["mitred", "square"])
def test_square_returns_stand_behind_the_front(returns: str) -> None:
    wall = wall_of(WALL.replace("  top: 54", f"  top: 54\n  returns: {returns}"))
    front, side = with_role(wall, "fascia")[0], with_role(wall, "fascia return")[0]
    reach = inch("3/4") if returns == "square" else 0
    assert side.extent.y1 == front.extent.y1 - reach
