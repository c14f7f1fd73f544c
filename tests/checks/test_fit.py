"""Fit: collisions, wall and ceiling, scribes, baseboards, the opening, the way in."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.checks.mechanics.ceiling import ceiling_over
from sheets.checks.rules.moving_in import passes_doorway, tilt_diagonal

STEP = Fraction(1, 16)


def test_pieces_that_touch_do_not_collide(kit) -> None:  # type: ignore[no-untyped-def]
    def found(start):  # type: ignore[no-untyped-def]
        one = kit.part("side", (0, 1), (0, 12), (0, 80), axes="xyz")
        return kit.severities(
            "collisions", kit.wall(one, kit.part("shelf", (start, 40), (0, 12), (30, 31), axes="zyx"))
        )

    assert found(Fraction(1)) == []
    assert found(1 - STEP) == ["error"]


def test_others_may_meet_others(kit) -> None:  # type: ignore[no-untyped-def]
    one = kit.part("surround", (0, 40), (0, 1), (0, 40), material="slate", maker="others")
    two = kit.part("enclosure", (0, 40), (0, 2), (0, 40), material="slate", maker="others")
    assert kit.severities("collisions", kit.wall(one, two)) == []


def test_case_within_the_wall(kit) -> None:  # type: ignore[no-untyped-def]
    def found(left, width):  # type: ignore[no-untyped-def]
        return kit.severities(
            "case-fit", kit.wall(components=(kit.component("case", (left, left + width), (0, 12), (0, 80)),))
        )

    assert found(Fraction(-100), 40) == []
    assert found(-100 - STEP, 40) == ["error"]
    assert found(Fraction(-100), 200) == []
    assert found(Fraction(-100), 200 + STEP) == ["error"]


def test_case_under_a_vault(kit) -> None:  # type: ignore[no-untyped-def]
    # Chord 120 and rise 30: at 45 from the middle the arc is 15 above its chord (3-4-5 in Hatfield's circle
    # of 75).
    def found(height):  # type: ignore[no-untyped-def]
        case = kit.component("case", (-45, -20), (0, 12), (0, height))
        return kit.severities("case-fit", kit.wall(components=(case,), width=120, height=110, spring=80))

    assert found(Fraction(95)) == []
    assert found(95 + STEP) == ["error"]


def test_ceiling_over_the_end_of_a_vault_is_its_spring(kit) -> None:  # type: ignore[no-untyped-def]
    wall = kit.wall(width=120, height=110, spring=80)
    assert ceiling_over(wall, inch(-60), inch(0)) == inch(80)
    assert float(ceiling_over(wall, inch(0), inch(0))) == pytest.approx(110 * 25.4, abs=0.01)


def test_neighbours_do_not_overlap(kit) -> None:  # type: ignore[no-untyped-def]
    def found(start):  # type: ignore[no-untyped-def]
        one = kit.component("case", (-50, 0), (0, 12), (0, 80), key="one")
        return kit.severities(
            "case-fit",
            kit.wall(components=(one, kit.component("case", (start, 40), (0, 12), (0, 80), key="two"))),
        )

    assert found(Fraction(0)) == []
    assert found(-STEP) == ["error"]


def scribe(kit, gap, **settings):  # type: ignore[no-untyped-def]
    left = -100 + gap
    sides = (
        kit.part("side", (left, left + 1), (0, 12), (0, 80), axes="xyz", key="work/side-left"),
        kit.part("side", (-61, -60), (0, 12), (0, 80), axes="xyz", key="work/side-right"),
    )
    return kit.severities(
        "scribes",
        kit.wall(*sides, components=(kit.component("case", (left, -60), (0, 12), (0, 80)),), **settings),
    )


def test_scribe_takes_the_lean_of_the_wall(kit) -> None:  # type: ignore[no-untyped-def]
    # 1 1/2 in at most (Architectural Woodwork Standards 2009).
    assert scribe(kit, Fraction(3, 8), out_of_plumb="3/8") == []
    assert scribe(kit, Fraction(3, 8) - STEP, out_of_plumb="3/8") == ["warning"]
    assert scribe(kit, Fraction(3, 2)) == []
    assert scribe(kit, Fraction(3, 2) + STEP) == ["warning"]


def test_the_spec_says_how_far_the_wall_leans(kit) -> None:  # type: ignore[no-untyped-def]
    assert scribe(kit, Fraction(1, 4), out_of_plumb="1/4") == []
    assert scribe(kit, Fraction(1, 4) - STEP, out_of_plumb="1/4") == ["warning"]


def test_baseboard_dies_into_what_is_as_thick(kit) -> None:  # type: ignore[no-untyped-def]
    def found(proud, end=0):  # type: ignore[no-untyped-def]
        board = kit.part("baseboard", (-100, end), (0, "5/8"), (0, 5))
        plinth = kit.part("plinth", (0, 40), (0, proud), (0, 6))
        return kit.severities("baseboards", kit.wall(board, plinth))

    assert found(Fraction(5, 8)) == []
    assert found(Fraction(5, 8) - STEP) == ["warning"]
    assert found(Fraction(5, 8), end=-STEP) == ["warning"]


def test_nothing_covers_the_opening(kit) -> None:  # type: ignore[no-untyped-def]
    def found(inner):  # type: ignore[no-untyped-def]
        return kit.severities(
            "opening-free",
            kit.wall(kit.part("post", (inner, 30), (0, 3), (0, 40)), opening=kit.opening(36, 30)),
        )

    assert found(Fraction(18)) == []
    assert found(18 - STEP) == ["error"]


def case_to_move(kit, high, deep=12, **room):  # type: ignore[no-untyped-def]
    side = kit.part("side", (0, 40), (0, deep), (0, high), axes="xyz")
    cap = kit.part("cap", (0, 40), (0, 14), (high, high + 1), axes="zyx")
    case = kit.component("case", (0, 40), (0, 14), (0, high + 1))
    return kit.severities("moving-in", kit.wall(side, cap, components=(case,), **room))


def test_case_is_stood_up_under_the_ceiling(kit) -> None:  # type: ignore[no-untyped-def]
    # 5-12-13: 60 deep and 144 high reaches 156; here 40 and 96 under 104.
    assert case_to_move(kit, Fraction(96), 40, height=104) == []
    assert case_to_move(kit, 96 + STEP, 40, height=104) == ["warning"]


def test_the_cap_is_fitted_afterwards(kit) -> None:  # type: ignore[no-untyped-def]
    assert case_to_move(kit, Fraction(99), 14, height=100) == []


def test_case_through_the_doorway(kit) -> None:  # type: ignore[no-untyped-def]
    assert case_to_move(kit, 90, 12, doorway=(30, 80)) == []
    assert case_to_move(kit, 70, Fraction(30), doorway=(30, 80)) == []
    assert case_to_move(kit, 70, 30 + STEP, doorway=(30, 80)) == ["error"]


def test_tilting_up_a_three_four_five() -> None:
    assert tilt_diagonal(inch(40), inch(30)) == pytest.approx(50 * 25.4)


sizes = st.integers(1, 120)


@given(sizes, sizes, sizes, sizes, sizes)
def test_a_larger_door_never_stops_a_case(a, b, c, width, height) -> None:  # type: ignore[no-untyped-def]
    box, door = (Fraction(a), Fraction(b), Fraction(c)), (Fraction(width), Fraction(height))
    if passes_doorway(box, door):
        assert passes_doorway(box, (door[0] + 1, door[1]))
        assert passes_doorway(box, door[::-1])
        assert passes_doorway((box[2], box[0], box[1]), door)
