"""Movement of solid wood: boards, wide pieces, mitres."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.moisture import moisture_in_use
from sheets.checks.mechanics.movement import movement
from sheets.checks.rules.mitres import mitre_gap
from sheets.model.part import Joint
from sheets.model.settings import Air, Season

STEP = Fraction(1, 64)


def boards(kit, gap, tongue="1/4", face="41/8", **settings):  # type: ignore[no-untyped-def]
    """Two upright oak boards with a tongue between them; body = face less the gap, as resolve builds them."""
    gap, tongue, face = Fraction(gap), Fraction(tongue), Fraction(face)
    joint = {"width": inch("1/4"), "depth": inch(tongue)}
    first = kit.part(
        "backer board",
        (0, face - gap / 2 + tongue),
        (0, "11/16"),
        (0, 60),
        axes="yxz",
        key="work/board-1",
        joints=(Joint("tongue", **joint),),
    )
    second = kit.part(
        "backer board",
        (face + gap / 2, 2 * face),
        (0, "11/16"),
        (0, 60),
        axes="yxz",
        key="work/board-2",
        joints=(Joint("groove", **joint),),
    )
    return kit.wall(first, second, **settings)


def test_gap_just_enough_and_just_too_small(kit) -> None:  # type: ignore[no-untyped-def]
    # Red oak 0.00369 (Handbook 13-5), 8 to 10 %: a 5 1/8 in board grows 0.0378 in; 3/64 holds it, 2/64 does
    # not.
    assert kit.severities("board-movement", boards(kit, 3 * STEP)) == []
    assert kit.severities("board-movement", boards(kit, 2 * STEP)) == ["error"]


def test_tongue_just_long_enough_and_just_too_short(kit) -> None:  # type: ignore[no-untyped-def]
    # Gap 3/64 + shrinkage 0.0375 + 1/16 engaged = 0.1469 in: 10/64 holds, 9/64 slips, 5/64 leaves the groove.
    assert kit.severities("board-movement", boards(kit, 3 * STEP, 10 * STEP)) == []
    assert kit.severities("board-movement", boards(kit, 3 * STEP, 9 * STEP)) == ["warning"]
    assert kit.severities("board-movement", boards(kit, 3 * STEP, 5 * STEP)) == ["error"]


def test_air_given_by_temperature_and_humidity(kit) -> None:  # type: ignore[no-untyped-def]
    # 70 deg F, 30 and 75 %: 6.2 and 14.4 % (Handbook table 4-2).
    checks = {"air": Air(Season(30, 70, "F"), Season(75, 70, "F"))}
    moisture = moisture_in_use(boards(kit, "1/16", checks=checks).settings.checks)
    assert (moisture.low_pct, moisture.high_pct) == (
        pytest.approx(6.2, abs=0.05),
        pytest.approx(14.4, abs=0.05),
    )
    assert kit.severities("board-movement", boards(kit, "1/16", checks=checks)) == ["error"]


@pytest.mark.parametrize(("region", "low", "high"), [("most", 6, 10), ("dry", 4, 9), ("damp", 8, 13)])
def test_regions_of_the_handbook(kit, region, low, high) -> None:  # type: ignore[no-untyped-def]
    # Wood Handbook chapter 13, ranges of single pieces (from memory).
    moisture = moisture_in_use(boards(kit, "1/16", checks={"region": region}).settings.checks)
    assert (moisture.low_pct, moisture.high_pct, moisture.cited.confidence) == (low, high, "from memory")


def test_quarter_sawn_takes_the_radial_coefficient(kit) -> None:  # type: ignore[no-untyped-def]
    # White oak, Handbook 13-5: 0.00180 radial, 0.00365 tangential.
    moisture = moisture_in_use(kit.wall().settings.checks)
    part = kit.part("cap", (0, 60), (0, 10), (0, 1), axes="zyx", material="quarter")
    flat = replace(part, material=replace(part.material, cut="plain sawn"))
    rift = replace(part, material=replace(part.material, cut="rift sawn"))
    found = [movement(each, inch(10), "y", moisture) for each in (part, flat, rift)]
    assert [each.coefficient for each in found if each] == [0.00180, 0.00365, 0.00365]
    along = movement(part, inch(60), "x", moisture)
    assert along is not None
    assert along.swing == 0


def cap(kit, deep, *, joints=(), material="oak"):  # type: ignore[no-untyped-def]
    top = kit.part("top", (0, 40), (0, deep), (70, 71), axes="zyx", material="ply")
    board = kit.part(
        "cap board", (0, 40), (0, deep), (71, 72), axes="zyx", joints=joints, material=material
    )
    return kit.wall(top, board)


def test_wide_cap_on_plywood(kit) -> None:  # type: ignore[no-untyped-def]
    # 1/8 in of movement at 4 points and 0.00369: 8.469 in.
    assert kit.severities("wide-pieces", cap(kit, "135/16")) == []
    assert kit.severities("wide-pieces", cap(kit, "136/16")) == ["warning"]
    assert kit.severities("wide-pieces", cap(kit, "136/16", material="quarter")) == []
    slots = (Joint("butt", mate="work/top", fastening="screw", moves=True),)
    assert kit.severities("wide-pieces", cap(kit, 14, joints=slots)) == []


def test_glue_across_the_grain(kit) -> None:  # type: ignore[no-untyped-def]
    glue = (Joint("butt", mate="work/top", fastening="glue"),)
    assert kit.severities("wide-pieces", cap(kit, 3, joints=glue)) == []
    assert kit.severities("wide-pieces", cap(kit, 3 + STEP, joints=glue)) == ["error"]
    # Glued over 3 in of 14 and free behind it holds, and moves.
    part = (Joint("butt", mate="work/top", fastening="glue", glued=inch(3)),)
    assert kit.severities("wide-pieces", cap(kit, 14, joints=part)) == []
    part = (Joint("butt", mate="work/top", fastening="glue", glued=inch(3) + inch(STEP)),)
    assert kit.severities("wide-pieces", cap(kit, 14, joints=part)) == ["error"]


def test_a_shelf_glued_in_the_dadoes_of_plywood(kit) -> None:  # type: ignore[no-untyped-def]
    # The joint is told by the side that the dado is cut in. Its glue runs over all the shelf's width; a side
    # of solid wood swells as the shelf does.
    def found(side, glued=None, deep=12):  # type: ignore[no-untyped-def]
        dado = Joint("dado", mate="work/shelf", depth=inch("1/4"), fastening="glue", glued=glued)
        upright = kit.part("side", (0, 1), (0, deep), (0, 80), axes="xyz", material=side, joints=(dado,))
        shelf = kit.part("shelf", ("3/4", 30), (0, deep), (40, 41), axes="zyx")
        return kit.severities("wide-pieces", kit.wall(upright, shelf)) if side == "ply" else kit.report(
            "wide-pieces", kit.wall(upright, shelf)).findings  # fmt: skip

    assert found("ply") == ["error"]
    assert found("ply", deep=3) == []
    assert found("ply", glued=inch(3)) == []
    assert found("oak") == ()


DEPTHS = st.integers(1, 40).map(lambda count: Fraction(count, 2))


@given(DEPTHS, DEPTHS, DEPTHS, st.sampled_from(["ply", "mdf"]))
def test_more_glue_is_never_milder(kit, deep, one, other, core) -> None:  # type: ignore[no-untyped-def]
    def hard(glued):  # type: ignore[no-untyped-def]
        joint = Joint("butt", mate="work/top", fastening="glue", glued=None if glued is None else inch(glued))
        top = kit.part("top", (0, 40), (0, deep), (70, 71), axes="zyx", material=core)
        board = kit.part("cap board", (0, 40), (0, deep), (71, 72), axes="zyx", joints=(joint,))
        return "error" in kit.severities("wide-pieces", kit.wall(top, board))

    less, more = sorted((one, other))
    assert hard(less) <= hard(more)
    assert hard(more) <= hard(None)


def test_boards_that_move_together_are_left_alone(kit) -> None:  # type: ignore[no-untyped-def]
    one = kit.part("cap board", (0, 40), (0, 14), (71, 72), axes="zyx")
    two = kit.part("cap front", (0, 40), (0, 14), (70, 71), axes="zyx")
    assert kit.report("wide-pieces", kit.wall(one, two)).looked_at == 0


def test_mitre_opens_by_the_geometry_of_its_angle() -> None:
    # A square frame corner: after shrinking by d the cut turns to atan(w / (w - d)); two of them over a mitre
    # of w sqrt 2.
    from math import atan, pi

    width, shrinks = 100.0, 0.5
    opened = 2 * (atan(width / (width - shrinks)) - pi / 4) * sqrt(2) * width
    assert mitre_gap(shrinks) == pytest.approx(opened, rel=0.01)


def test_mitres_just_pass_and_just_fail(kit) -> None:  # type: ignore[no-untyped-def]
    # Shrinkage 2 points x 0.00369 x sqrt 2 = 1/32 in at 2.994 in of width.
    def found(width):  # type: ignore[no-untyped-def]
        return kit.severities(
            "mitres",
            kit.wall(
                kit.part("cap return", (0, width), (0, 12), (70, 71), axes="zxy", joints=(Joint("mitre"),))
            ),
        )

    assert found(Fraction(47, 16)) == []
    assert found(Fraction(48, 16)) == ["warning"]


@given(st.integers(1, 400), st.integers(2, 8))
def test_movement_is_in_proportion_to_width(width, times) -> None:  # type: ignore[no-untyped-def]
    from sheets.checks.mechanics.moisture import change_of_size

    assert change_of_size(width * times, 0.003, 6, 9) == pytest.approx(
        times * change_of_size(width, 0.003, 6, 9)
    )
    assert change_of_size(width, 0.003, 9, 6) == -change_of_size(width, 0.003, 6, 9)


def panel(kit, play, housed=Fraction(1, 4)):  # type: ignore[no-untyped-def]
    """A solid panel 20 in wide, let into a stile's groove on its left, so much of it and so much
    room behind.
    """
    groove = Joint("groove", width=inch("1/4"), depth=inch(play + housed))
    stile = kit.part("stile", (-2, 0), (0, "3/4"), (0, 60), axes="yxz", key="work/stile", joints=(groove,))
    return kit.severities(
        "board-movement",
        kit.wall(stile, kit.part("panel", (-housed, 20 - housed), ("1/4", "1/2"), (0, 60), axes="yxz")),
    )


def test_panel_in_a_frame(kit) -> None:  # type: ignore[no-untyped-def]
    # 20 in of flat-sawn red oak x 0.00369 x 2 points = 0.1476 in either way: 10/64 of room holds it, 9/64
    # does not.
    assert panel(kit, 10 * STEP) == []
    assert panel(kit, 9 * STEP) == ["error"]
    assert panel(kit, 10 * STEP, housed=10 * STEP) == []
    assert panel(kit, 10 * STEP, housed=9 * STEP) == ["error"]


def test_a_region_from_memory_marks_the_finding(kit) -> None:  # type: ignore[no-untyped-def]
    # The coefficient of red oak is confirmed, the range of the region is not: the weaker mark is printed.
    (found,) = kit.findings("board-movement", boards(kit, 0, "1/2"))
    assert found.cited.confidence == "from memory"
    assert "recommended interior moisture content" in found.cited.source
    air = Air(Season(20, 70, "F"), Season(80, 70, "F"))
    (found,) = kit.findings("board-movement", boards(kit, 0, "1/2", checks={"air": air}))
    assert found.cited.confidence == "confirmed"
