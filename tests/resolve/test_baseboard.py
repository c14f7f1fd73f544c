"""The baseboard stops at the stone, crosses flush plinths, turns free ends and leaves toe spaces open."""

from fractions import Fraction

from sheets.model.wall import Wall
from tests.resolve.solids import loose, overlapping
from tests.resolve.solved import inches, wall_of, with_role

CASE = "height: 60, depth: 12, material: ply"


def lengths(wall: Wall) -> list[tuple[Fraction, Fraction]]:
    return [(inches(p.extent.x0), inches(p.extent.x1)) for p in with_role(wall, "baseboard")]


def test_it_runs_from_the_wall_to_the_surround() -> None:
    wall = wall_of(
        """
        room: {width: 120, baseboard: {height: 5, thickness: 5/8}}
        surround: {material: slate, width: 50, height: 40}
        """
    )
    assert lengths(wall) == [(-60, -25), (25, 60)]
    left, right = with_role(wall, "baseboard")
    assert (left.hand, right.hand, right.twin) == ("left", "right", left.key)


def test_a_mantel_that_hangs_does_not_stop_it() -> None:
    body = f"""
    room: {{width: 160, baseboard: {{height: 5, thickness: 5/8}}}}
    fireplace: {{opening: {{width: 30, height: 20}}, sill: 10}}
    surround: {{material: slate, width: 48, to_floor: true}}
    mantel: {{top: 50, width: 70, layers: {{fascia: {{height: 6}}}}}}
    cases: [{{name: a, mirrored: true, width: WIDTH, plinth: {{height: 5}}, {CASE}}}]
    """
    beside = wall_of(body.replace("WIDTH", "fill"))
    # Along the plinths and on over the enclosure, whose face lies in their plane, to the stone.
    assert lengths(beside) == [(-80, -24), (24, 80)]
    apart = wall_of(body.replace("WIDTH", "20"))
    turned = [p for p in with_role(apart, "baseboard") if -36 < inches(p.extent.x0) < -24]
    # The enclosure's free corner at 35 is turned with a mitre: 35 plus the board's 5/8.
    assert [(inches(p.extent.x0), inches(p.extent.x1)) for p in turned] == [(Fraction(-285, 8), -24)]
    assert len(with_role(apart, "baseboard return")) == 4
    for wall in (beside, apart):
        assert overlapping(wall.parts) == []
        assert loose(wall.parts) == []


def test_it_runs_on_under_a_high_opening_and_stops_at_a_low_one() -> None:
    body = """
    room: {width: 120, baseboard: {height: 5}}
    fireplace: {opening: {width: 30, height: 20}, sill: SILL, frame: {width: 1, projection: 1/2}}
    """
    assert lengths(wall_of(body.replace("SILL", "12"))) == [(-60, 60)]
    assert lengths(wall_of(body.replace("SILL", "2"))) == [(-60, -16), (16, 60)]


def test_it_crosses_a_flush_plinth_and_stops_at_the_surround() -> None:
    wall = wall_of(
        f"""
        room: {{width: 160, baseboard: {{height: 5}}}}
        fireplace: {{opening: {{width: 30, height: 20}}}}
        surround: {{material: slate, width: 60}}
        mantel: {{top: 50, layers: {{fascia: {{height: 6}}}}, posts: {{width: 8}}}}
        cases: [{{name: a, mirrored: true, width: fill, plinth: {{height: 5}}, {CASE}}}]
        """
    )
    assert lengths(wall) == [(-80, -30), (30, 80)]
    assert {inches(p.extent.y0) for p in with_role(wall, "baseboard")} == {Fraction(12)}
    assert [f.title for f in wall.features if f.kind == "baseboard"] == ["BASEBOARD STOPS"]


def test_it_leaves_a_toe_space_open() -> None:
    body = f"""
    room: {{width: 100, baseboard: {{height: 5}}}}
    cases: [{{name: a, at: centre, width: 40, plinth: {{height: 5, setback: SET}}, {CASE}}}]
    """
    assert lengths(wall_of(body.replace("SET", "2"))) == [(-50, -20), (20, 50)]
    crossed = wall_of(body.replace("SET", "0"))
    board = with_role(crossed, "baseboard")
    # Across the plinth, turned round both free ends with mitres, and along the wall to the returns.
    assert len(board) == 3
    assert len(with_role(crossed, "baseboard return")) == 2
    front = next(p for p in board if inches(p.extent.y0) == 12)
    assert inches(front.length) == 40 + 2 * Fraction(5, 8)
    assert overlapping(crossed.parts) == []
    assert loose(crossed.parts) == []


def test_it_stops_at_the_cases_when_told_to() -> None:
    wall = wall_of(
        f"""
        room: {{width: 100, baseboard: {{height: 5, stops_at: cases}}}}
        cases: [{{name: a, at: centre, width: 40, plinth: {{height: 5}}, {CASE}}}]
        """
    )
    assert lengths(wall) == [(-50, -20), (20, 50)]
