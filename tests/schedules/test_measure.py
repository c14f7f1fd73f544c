"""Board measure against published examples."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import MM_PER_FOOT, inch
from sheets.schedules.amounts import board_feet, cubic_metres, surface_measure, tally_board_feet
from sheets.tables.lumber import tongue_and_groove


@pytest.mark.parametrize(
    ("width", "feet", "measure"),
    [
        ("25/4", 8, 4),  # AHEC/NHLA: 6 1/4 in x 8 ft: 4 1/6 -> 4
        ("13/2", 8, 4),  # 6 1/2 x 8: 4 1/3 -> 4 (hardwood measurement guide)
        ("12", 8, 8),
        ("10", 13, 11),  # 10 10/12 -> 11
    ],
)
def test_surface_measure_as_published(width: str, feet: int, measure: int) -> None:
    assert surface_measure(inch(width), feet * MM_PER_FOOT) == measure


def test_board_feet_by_the_rule_as_published() -> None:
    # AHEC/NHLA: 2 in x 6 1/4 in x 8 ft is 8 board feet, not 8.33.
    assert tally_board_feet(inch(2), inch("25/4"), 8 * MM_PER_FOOT) == 8
    assert board_feet(inch(2), inch("25/4"), 8 * MM_PER_FOOT) == Fraction(25, 3)


def test_length_counts_down_to_whole_feet() -> None:
    # AHEC/NHLA: the length goes down to the whole foot: 8 1/2 ft counts 8.
    assert surface_measure(inch(6), Fraction(17, 2) * MM_PER_FOOT) == surface_measure(
        inch(6), 8 * MM_PER_FOOT
    )


@pytest.mark.parametrize(
    ("thickness", "width", "inches", "feet"),
    [
        (1, 9, 96, 6),  # 1 x 9 x 96 / 144 = 6 (retail guide)
        ("3/2", 9, 96, 9),  # 1 1/2 thick: 9
        ("3/4", 9, 96, 6),  # under 1 in counts as 1 in
    ],
)
def test_plain_arithmetic_as_published(thickness: str, width: int, inches: int, feet: int) -> None:
    assert board_feet(inch(thickness), inch(width), inch(inches)) == feet


def test_sixteen_inch_board() -> None:
    assert round(float(board_feet(inch(2), inch(16), 8 * MM_PER_FOOT)), 1) == 21.3  # measuring guide


def test_coverage_of_patterns_as_published() -> None:
    # WWPA coverage estimator: linear feet and board feet for each square foot (the 12 in row is from memory).
    printed = {
        "4": (3.84, 1.28),
        "6": (2.34, 1.17),
        "8": (1.75, 1.16),
        "10": (1.35, 1.13),
        "12": (1.10, 1.10),
    }
    for row in tongue_and_groove():
        feet, board = printed[row.nominal]
        assert float(inch(12) / row.face) == pytest.approx(
            feet, abs=0.006
        )  # feet of board to cover one foot of width
        one_foot = board_feet(inch(1), inch(row.nominal), MM_PER_FOOT)
        assert float(one_foot * inch(12) / row.face) == pytest.approx(board, abs=0.006)


def test_cubic_metres() -> None:
    assert cubic_metres(Fraction(50), Fraction(200), Fraction(3000)) == Fraction(3, 100)
