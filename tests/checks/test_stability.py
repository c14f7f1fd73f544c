"""Stability: rails and studs, tipping, weight."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.strengths import weight_kg
from sheets.checks.rules.anchorage import sure_studs
from sheets.checks.rules.tipping import pull_that_tips
from sheets.model.part import Joint

STEP = Fraction(1, 16)
SCREW = (Joint("butt", fastening="screw"),)


def case(kit, *, width=40, rail=70, height=90, checks=None):  # type: ignore[no-untyped-def]
    side = kit.part("board", (0, 1), (0, 12), (0, height), axes="xyz")
    rails = (
        (kit.part("nailing rail", (1, width - 1), (0, 1), (rail - 1, rail + 2), joints=SCREW),)
        if rail
        else ()
    )
    case = kit.component("case", (0, width), (0, 12), (0, height))
    return kit.wall(side, *rails, components=(case,), checks=checks)


def test_rail_in_the_upper_third(kit) -> None:  # type: ignore[no-untyped-def]
    # Upper third of 90 in: from 60; the rail's middle is half an inch above its name here.
    assert kit.severities("anchorage", case(kit, rail=Fraction(119, 2))) == []
    assert kit.severities("anchorage", case(kit, rail=Fraction(119, 2) - STEP)) == ["warning"]
    assert kit.severities("anchorage", case(kit, rail=None)) == ["warning"]


def test_a_rail_a_step_off_the_wall_is_no_rail_at_it(kit) -> None:  # type: ignore[no-untyped-def]
    # The wall is at y = 0; what reaches it, or is let into it, can be screwed to it.
    def standing_at(y):  # type: ignore[no-untyped-def]
        side = kit.part("board", (0, 1), (0, 12), (0, 90), axes="xyz")
        rail = kit.part("nailing rail", (1, 39), (y, y + 1), (70, 73), joints=SCREW)
        return kit.wall(side, rail, components=(kit.component("case", (0, 40), (0, 12), (0, 90)),))

    assert kit.severities("anchorage", standing_at(Fraction(0))) == []
    assert kit.severities("anchorage", standing_at(-STEP)) == []
    assert kit.severities("anchorage", standing_at(STEP)) == ["warning"]


def test_two_sure_studs(kit) -> None:  # type: ignore[no-untyped-def]
    # Studs 16 in on centre (IRC R602.3(5), from memory): 32 in is sure of two.
    assert kit.severities("anchorage", case(kit, width=Fraction(32))) == []
    assert kit.severities("anchorage", case(kit, width=32 - STEP)) == ["warning"]
    assert kit.severities("anchorage", case(kit, width=32, checks={"stud_spacing": inch(24)})) == ["warning"]


def test_a_low_case_is_not_judged(kit) -> None:  # type: ignore[no-untyped-def]
    # 27 in: the height from which tip-over standards begin (ASTM F2057-23).
    assert kit.report("anchorage", case(kit, height=27)).looked_at == 1
    assert kit.report("anchorage", case(kit, height=27 - STEP)).looked_at == 0


@given(st.integers(1, 200), st.integers(8, 30), st.integers(0, 29))
def test_sure_studs_are_there_wherever_the_case_stands(width, spacing, start) -> None:  # type: ignore[no-untyped-def]
    covered = sum(start <= stud <= start + width for stud in range(0, 400, spacing))
    assert covered >= sure_studs(Fraction(width), Fraction(spacing))


def test_weight_of_a_board(kit) -> None:  # type: ignore[no-untyped-def]
    # Red oak, gravity 0.63 at 12 %: 0.63 x 1.12 x 62.4 lb = 44.0 lb per cubic foot (Wood Handbook table
    # 5-3b).
    board = kit.part("shelf", (0, 12), (0, 12), (0, 12), axes="zyx")
    found = weight_kg(board)
    assert found is not None
    assert found[0] / 0.45359237 == pytest.approx(44.0, abs=0.1)


def test_tipping_is_warned_of_only_where_nothing_fixes_the_case(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("tipping", case(kit)) == []
    assert kit.severities("tipping", case(kit, rail=None)) == ["warning"]


def test_fifty_pounds_is_the_pull_that_a_case_withstands(kit) -> None:  # type: ignore[no-untyped-def]
    # Red oak 44.03 lb per cubic foot, as in the weights below. A block T thick, 12 deep, 90 high weighs
    # T x 12 x 90 / 1728 x 44.03 = 27.52 T lb and tips at 27.52 T x 6 / 90 = 1.8346 T lb: 27 in at 49.5 lb
    # (22.5 kg), 28 in at 51.4 lb (23.3 kg). The pull of a child is 50 lb (common practice, from memory).
    def block(thick):  # type: ignore[no-untyped-def]
        side = kit.part("board", (0, thick), (0, 12), (0, 90), axes="xyz")
        return kit.wall(side, components=(kit.component("case", (0, thick), (0, 12), (0, 90)),))

    assert kit.severities("tipping", block(27)) == ["warning"]
    assert kit.severities("tipping", block(28)) == []


def test_a_case_of_balanced_moments() -> None:
    # 100 kg, 0.4 deep, 1.0 high: 100 x 0.2 / 1.0 = 20.
    assert pull_that_tips(100, Fraction(400), Fraction(1000)) == pytest.approx(20)


@given(st.floats(1, 500), st.integers(100, 900), st.integers(700, 3000))
def test_tipping_follows_depth_and_height(kg, depth, height) -> None:  # type: ignore[no-untyped-def]
    pull = pull_that_tips(kg, Fraction(depth), Fraction(height))
    assert pull_that_tips(kg, Fraction(2 * depth), Fraction(height)) == pytest.approx(2 * pull)
    assert pull_that_tips(kg, Fraction(depth), Fraction(2 * height)) == pytest.approx(pull / 2)


def test_more_than_two_people_carry(kit) -> None:  # type: ignore[no-untyped-def]
    # 150 lb of red oak at 44.03 lb per cubic foot is 5886.6 in3: a block of 10 x 10 x 58 13/16 stays below,
    # 58 14/16 not.
    def found(length):  # type: ignore[no-untyped-def]
        block = kit.part("side", (0, length), (0, 10), (0, 10), axes="zyx")
        return kit.severities(
            "weights", kit.wall(block, components=(kit.component("case", (0, length), (0, 10), (0, 10)),))
        )

    assert found(Fraction(58 * 16 + 13, 16)) == []
    assert found(Fraction(58 * 16 + 14, 16)) == ["warning"]
