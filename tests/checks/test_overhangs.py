"""Caps that stand out, and what the ends of shelves rest on."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.checks.rules.overhangs import _overhangs
from sheets.model.part import Joint

HARD = {"": 0, "warning": 1, "error": 2}


def cap(kit, out, thick, *, deep=12, axes="zyx", material="oak"):  # type: ignore[no-untyped-def]
    top = kit.part("top", (0, 40), (0, deep), (70, 71), axes="zyx", material="ply")
    board = kit.part("cap", (0, 40), (0, deep + out), (71, 71 + thick), axes=axes, material=material)
    return kit.wall(top, board)


def worst(kit, rule, wall):  # type: ignore[no-untyped-def]
    return max((HARD[found.severity] for found in kit.report(rule, wall).findings), default=0)


def test_the_stress_by_hand(kit) -> None:  # type: ignore[no-untyped-def]
    # 200 lb 2 in out over 4 + 2 x 2 = 8 in, 1 in thick: 6 x 200 x 2 / 8 = 300 psi. Red oak breaks along the
    # grain at 14300 psi (Wood Handbook), across it at a twentieth: 715.
    wall = cap(kit, 2, 1)
    (found,) = _overhangs(wall, wall.parts[1])
    assert found.used == pytest.approx(300 / 715)
    wall = cap(kit, 2, 1, axes="zxy")
    (found,) = _overhangs(wall, wall.parts[1])
    assert found.used == pytest.approx(300 / 14300)


SIZES = st.integers(1, 64).map(lambda count: Fraction(count, 8))
MATERIALS = st.sampled_from(["oak", "quarter", "ply", "mdf"])


@given(SIZES, SIZES, SIZES, SIZES, MATERIALS)
@settings(max_examples=100, deadline=None)
def test_farther_out_or_thinner_is_never_milder(kit, out, more, thick, less, core) -> None:  # type: ignore[no-untyped-def]
    before = worst(kit, "overhangs", cap(kit, out, thick, material=core))
    assert worst(kit, "overhangs", cap(kit, out + more, thick, material=core)) >= before
    assert worst(kit, "overhangs", cap(kit, out, min(thick, less), material=core)) >= before


def shelf(kit, let_in, fastening=""):  # type: ignore[no-untyped-def]
    joint = Joint("dado", mate="work/side-left", fastening=fastening)
    left = kit.part("side", (0, "3/4"), (0, 12), (0, 80), axes="xyz", key="work/side-left")
    board = kit.part("shelf", (Fraction(3, 4) - let_in, 30), (0, 12), (40, 41), axes="zyx", joints=(joint,))
    return kit.wall(left, board)


def test_a_shelf_that_is_not_let_in_is_held_by_screws_alone(kit) -> None:  # type: ignore[no-untyped-def]
    assert kit.severities("bearings", shelf(kit, 0)) == ["error"]
    assert kit.severities("bearings", shelf(kit, 0, "glue")) == ["error"]
    assert kit.severities("bearings", shelf(kit, 0, "screw")) == []


@given(st.integers(0, 24), st.integers(0, 24), st.sampled_from(["", "glue", "screw"]))
def test_less_bearing_is_never_milder(kit, one, other, fastening) -> None:  # type: ignore[no-untyped-def]
    small, large = (shelf(kit, Fraction(each, 32), fastening) for each in sorted((one, other)))
    assert worst(kit, "bearings", small) >= worst(kit, "bearings", large)
