"""Screws and nails against published loads."""

from __future__ import annotations

import pytest

from sheets.checks.mechanics.screws import _BEARING, _BEARING_POWER, Screw, bending_yield, yield_load


@pytest.mark.parametrize(
    ("diameter", "steel", "published"),
    [(0.162, 90e3, 141), (0.148, 90e3, 118), (0.131, 100e3, 97)],  # NDS table 12N, from memory
)
def test_nails_of_the_design_specification(diameter: float, steel: float, published: float) -> None:
    # Douglas-fir, gravity 0.50: 16600 x 0.50^1.84 = 4637 psi, in the table as 4650. Side member 1 1/2 in.
    strength = 16600 * 0.50**1.84
    load = yield_load(diameter, 1.5, 12 * diameter, 0, strength, strength, steel)
    assert load == pytest.approx(published, abs=0.7)


def screw(**given: float) -> Screw:
    said = {"diameter": 0.190, "length": 3.0, "side": 0.75, "gap": 0.5, "side_gravity": 0.42}
    return Screw(**({"stud_gravity": 0.45} | said | given))


def test_withdrawal_of_the_published_example() -> None:
    # Gravity 0.45, a No. 10 screw of 0.190 in: 109 lb per inch (engineering tables after the NDS). With 3 in
    # of screw, 3/4 of board and 1/2 of lining, 1 3/4 in is in the stud, all of it thread.
    assert screw().withdrawal == pytest.approx(109 * 1.75, rel=0.01)


def test_a_gap_weakens_and_what_does_not_reach_holds_nothing() -> None:
    assert screw(gap=0).lateral > screw(gap=0.5).lateral > screw(gap=1.0, length=3.5).lateral > 0
    assert screw(length=0.75 + 0.5 + 6 * 0.190).withdrawal > 0
    short = screw(length=0.75 + 0.5 + 6 * 0.190 - 0.01)
    assert (short.withdrawal, short.lateral, short.used(1, 0)) == (0, 0, float("inf"))


def test_pull_and_push_together() -> None:
    # EN 1995-1-1 8.3.3: the squares of both parts add up; 3/5 and 4/5 of each make the whole.
    one = screw()
    assert one.used(0.6 * one.withdrawal, 0.8 * one.lateral) == pytest.approx(1)
    assert one.used(one.withdrawal, 0) == pytest.approx(1)
    assert one.used(0, one.lateral) == pytest.approx(1)


@pytest.mark.parametrize(
    ("gravity", "psi"), [(0.36, 2550), (0.42, 3350), (0.43, 3500), (0.50, 4650), (0.55, 5550), (0.67, 7950)]
)
def test_bearing_strength_of_woods(gravity: float, psi: int) -> None:
    # NDS table 12.3.3, fasteners below 1/4 in, rounded to 50 psi (from memory).
    assert 50 * round(_BEARING * gravity**_BEARING_POWER / 50) == psi


@pytest.mark.parametrize(
    ("up_to", "psi"),
    [(0.142, 100e3), (0.177, 90e3), (0.236, 80e3), (0.273, 70e3), (0.344, 60e3), (0.375, 45e3)],
)
def test_yield_strength_of_wood_screws(up_to: float, psi: float) -> None:
    # NDS appendix I, table I1: bending yield strength by diameter in inches (from memory).
    assert bending_yield(up_to) == psi
    assert bending_yield(up_to + 0.0001) < psi or up_to > 0.35
    assert bending_yield(up_to - 0.0001) == psi


def test_a_screw_across_its_root() -> None:
    # A screw of 1/4 in has a root of two thirds, 0.1667 in, yields at 70 ksi; by the six modes through 3/4 in
    # of side and 1/2 in of gap, woods of 0.5 and 0.42: 4637 and 3364 psi.
    screw = Screw(0.25, 3.0, 0.75, 0.5, 0.5, 0.42)
    by_hand = yield_load(0.25 * 2 / 3, 0.75, 1.75, 0.5, 16600 * 0.5**1.84, 16600 * 0.42**1.84, 70e3)
    assert screw.lateral == pytest.approx(by_hand)
