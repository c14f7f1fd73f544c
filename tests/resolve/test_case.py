"""One case as a cabinetmaker builds it. Facts of the trade without another source are common practice."""

import itertools
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.geometry.solid import volume
from sheets.model.wall import Wall
from tests.resolve.solved import inches, wall_of, with_role

CASE = """
room: {width: 60, ceiling: {height: 96}}
cases:
  - name: one
    width: fill
    height: 80
    depth: 12
    scribe: 1/2
    bays: BAYS
    frame: {stile: 1-1/2, rail: 2}
    plinth: {height: 4}
    shelves: {count: 3, thickness: 1, joint: {dado: 1/4}}
    cap: {thickness: 1, overhang: 1, material: walnut, saw_cuts: {count: 1, width: 1/8, depth: 1/4}}
    backer: {face: 5-1/8, thickness: 11/16}
    material: ply
"""


@pytest.fixture(scope="module")
def wall() -> Wall:
    return wall_of(CASE.replace("BAYS", "1"))


def test_case_stands_off_both_walls_by_the_scribe(wall: Wall) -> None:
    sides = with_role(wall, "side")
    assert (inches(sides[0].extent.x0), inches(sides[1].extent.x1)) == (Fraction(-59, 2), Fraction(59, 2))
    stiles = with_role(wall, "stile")
    # The stile is wider by the scribe and reaches the finished wall.
    assert inches(stiles[0].extent.x0) == -30
    assert inches(stiles[0].width) == 2
    assert any(j.kind == "scribe" and j.width == inch("1/2") for j in stiles[0].joints)


def test_shelf_is_as_long_as_the_clear_width_and_its_two_dadoes(wall: Wall) -> None:
    # 59 over all, two sides of 3/4: 57 1/2 clear, and 1/4 let in at each end.
    shelves = with_role(wall, "shelf")
    assert len(shelves) == 3
    assert {inches(s.length) for s in shelves} == {Fraction(58)}
    assert {s.length_axis for s in shelves} == {"x"}


def test_dadoes_take_the_wood_of_the_shelf_ends_out_of_the_sides(wall: Wall) -> None:
    side = with_role(wall, "side")[0]
    shelf = with_role(wall, "shelf")[0]
    # Dadoes for three shelves, bottom and top (both run to the wall), and from floor to top the rabbet that
    # rails and boards go into from behind, 3/4 and 11/16 from the back edge.
    deep = inch("1/4")
    free = side.length - 2 * inch("3/4")
    taken = 3 * shelf.thickness * shelf.extent.size("y") * deep
    taken += 2 * inch("3/4") * side.extent.size("y") * deep
    taken += free * (inch("3/4") + inch("11/16")) * deep
    block = side.thickness * side.width * side.length
    assert volume(side.solid) == pytest.approx(float(block - taken), rel=1e-9)


def test_depths_add_up_to_the_depth_of_the_case(wall: Wall) -> None:
    # Wall, nailing rail 3/4, boards 11/16, shelf, face frame 3/4: 12 in.
    shelf, stile = with_role(wall, "shelf")[0], with_role(wall, "stile")[0]
    rail, board = with_role(wall, "nailing rail")[0], with_role(wall, "backer board")[0]
    sizes = [p.extent.size("y") for p in (rail, board, shelf, stile)]
    assert sum(sizes) == inch(12)
    assert (board.extent.y0, shelf.extent.y0, stile.extent.y0) == (
        rail.extent.y1,
        board.extent.y1,
        shelf.extent.y1,
    )


def test_heights_add_up_to_the_height_of_the_case(wall: Wall) -> None:
    levels = sorted(s.at for s in wall.stations if s.owner == "cases/one" and s.chain == "shelves")
    assert (levels[0], levels[-1]) == (0, inch(80))
    bays = [b - a for a, b in zip(levels[1:-2:2], levels[2:-1:2], strict=True)]
    # Floor to cap 80, less cap 1, top 3/4, plinth and bottom rail 6, three shelves of 1.
    assert sum(bays) == inch(80) - inch(1) - inch("3/4") - inch(6) - inch(3)
    assert len(set(bays[1:])) == 1


def test_no_lip_stands_before_the_books(wall: Wall) -> None:
    bottom = with_role(wall, "bottom")[0]
    rail = next(p for p in wall.parts if p.name == "Bottom rail")
    assert bottom.extent.z1 == rail.extent.z1


def test_boards_are_held_at_16_inches_or_less(wall: Wall) -> None:
    # Trade instructions for vertical tongue-and-groove boards: nailing at most 16 in on centre. Rails
    # stand on steps of 1/2 in.
    held = [*with_role(wall, "nailing rail"), *with_role(wall, "shelf")]
    middles = sorted(p.extent.middle("z") for p in held)
    assert all(b - a <= inch(16) + inch("1/4") for a, b in itertools.pairwise(middles))


def test_only_the_rails_at_bottom_and_top_are_screwed_to_the_wall(wall: Wall) -> None:
    # From inside, through a board of 11/16 and the rail.
    rails = sorted(with_role(wall, "nailing rail"), key=lambda p: p.extent.z0)
    assert [p.does.anchors for p in rails] == [True, *(False for _ in rails[2:]), True]
    assert all(("STUDS" in " ".join(p.notes)) == p.does.anchors for p in rails)
    assert rails[0].does.covered == inch("11/16")


@pytest.mark.parametrize("direction", ["vertical", "horizontal"])
@pytest.mark.parametrize("bays", [1, 2])
def test_back_goes_in_from_behind(direction: str, bays: int) -> None:
    # Nothing but boards and rails stands behind the boards, within the rabbets; the rabbet is as deep as
    # board and rail together.
    made = CASE.replace("BAYS", str(bays)).replace("5-1/8,", f"5-1/8, direction: {direction},")
    wall = wall_of(made)
    boards = with_role(wall, "backer board")
    behind = [*with_role(wall, "nailing rail"), *with_role(wall, "nailing batten")]
    for side in with_role(wall, "side"):
        rabbet = next(j for j in side.joints if j.kind == "rabbet" and not j.mate)
        assert rabbet.width == behind[0].extent.size("y") + boards[0].extent.size("y")
    for board in boards:
        across = [
            p
            for p in wall.parts
            if p.maker == "shop" and p.assembly == board.assembly and p.extent.y0 < board.extent.y0
            and p.extent.x0 < board.extent.x1 and board.extent.x0 < p.extent.x1
            and p.extent.z0 < board.extent.z1 and board.extent.z0 < p.extent.z1
        ]  # fmt: skip
        assert {p.key for p in across} <= {p.key for p in (*behind, *boards, *with_role(wall, "side"))}


def test_last_board_drops_in_over_the_tongue(wall: Wall) -> None:
    # Two joints that interlock cannot both be closed from the side: the last groove has no cheek behind.
    first, *_, last = sorted(with_role(wall, "backer board"), key=lambda p: p.extent.x0)
    tongue = inch("1/4")
    assert any("NO CHEEK" in note for note in last.notes)
    assert not any("NO CHEEK" in note for note in first.notes)
    assert any(j.kind == "groove" and j.depth == tongue for j in last.joints)


def test_boards_keep_a_gap_to_move_in_and_tongues_bridge_it(wall: Wall) -> None:
    boards = with_role(wall, "backer board")
    for left, right in itertools.pairwise(boards):
        tongue = next(j for j in left.joints if j.kind == "tongue")
        assert tongue.depth is not None
        gap = right.extent.x0 - (left.extent.x1 - tongue.depth)
        assert gap == inch("1/16")
        # The tongue reaches into the next board's groove.
        assert left.extent.x1 > right.extent.x0
    assert boards[0].extent.x0 < with_role(wall, "side")[0].extent.x1  # let into the side's groove


def test_grain_runs_along_the_length(wall: Wall) -> None:
    assert {p.grain for p in with_role(wall, "stile")} == {"z"}
    assert {p.grain for p in with_role(wall, "rail")} == {"x"}
    assert {p.grain for p in with_role(wall, "side")} == {"z"}
    assert {p.grain for p in with_role(wall, "backer board")} == {"z"}


def test_saw_cut_parts_the_edge_of_the_cap_evenly(wall: Wall) -> None:
    cap = with_role(wall, "cap")[0]
    saw = next(j for j in cap.joints if j.kind == "saw cut")
    assert (saw.width, saw.depth, saw.count) == (inch("1/8"), inch("1/4"), 1)
    levels = [s.at for s in wall.stations if s.owner == "cases/one" and s.chain == "cap"]
    # 1 in less a cut of 1/8 leaves two bands of 7/16.
    assert levels == [inch(79), inch("1271/16"), inch("1273/16"), inch(80)]


def test_two_compartments_share_a_divider() -> None:
    wall = wall_of(CASE.replace("BAYS", "2"))
    divider = with_role(wall, "divider")[0]
    assert divider.extent.middle("x") == 0
    assert len(with_role(wall, "shelf")) == 6
    mullion = with_role(wall, "mullion")[0]
    assert (mullion.extent.middle("x"), inches(mullion.width)) == (0, Fraction(3, 2))
    # 59 less three boards of 3/4 is 56 3/4: two bays of 28 3/8, each shelf let in by 1/4 at the side and by
    # 3/16 at the divider, which is cut from both faces and keeps half of its 3/4.
    assert {inches(p.length) for p in with_role(wall, "shelf")} == {Fraction(461, 16)}


def test_a_plinth_set_back_makes_a_toe_space() -> None:
    wall = wall_of(CASE.replace("BAYS", "1").replace("{height: 4}", "{height: 4, setback: 2}"))
    plinth = with_role(wall, "plinth")[0]
    assert inches(plinth.extent.y1) == 10
    side = with_role(wall, "side")[0]
    notch = next(j for j in side.joints if j.kind == "notch")
    # The side is cut back to the plinth's back, 11 1/4 less (10 - 3/4), as high as the plinth's board: it
    # runs on behind the rail towards the bottom, 4 + 2 less its 3/4, and ends on a whole half inch.
    assert (notch.width, notch.depth) == (inch(2), inch(5))
    assert plinth.extent.z1 == inch(5)


def test_a_plinth_behind_the_baseboard_is_of_hidden_stock() -> None:
    body = CASE.replace("BAYS", "1").replace("height: 96}}", "height: 96}, baseboard: {height: 4}}")
    plinth = with_role(wall_of(body), "plinth")[0]
    assert (plinth.material.key, plinth.shows) == ("secondary", ())
    higher = with_role(wall_of(body.replace("plinth: {height: 4}", "plinth: {height: 5}")), "plinth")[0]
    assert (higher.material.key, higher.shows) == ("oak", ("front",))


def test_a_case_without_anything_is_still_fixed_to_the_wall() -> None:
    wall = wall_of(
        "room: {width: 60}\n"
        "cases: [{name: bare, width: 30, height: 40, depth: 10, scribe: 1/2, material: ply}]"
    )
    assert {p.role for p in wall.parts if p.maker == "shop"} == {
        "side",
        "bottom",
        "top",
        "nailing rail",
        "scribe",
    }
    assert any("STUDS" in note for p in with_role(wall, "nailing rail") for note in p.notes)
