"""Arcs against published examples."""

from __future__ import annotations

import pytest

from sheets.checks.arcs import arc_length, height_at, radius_of


@pytest.mark.parametrize(
    ("chord", "rise", "radius"),
    [
        (120, 30, 75),  # Hatfield, American House Carpenter, art. 518
        (80, 11, 1721 / 22),  # millwork forum example: 78.227
        (30, 2.5, 46.25),  # furniture pattern question, by the chord formula of the CRC tables
        (12, 2, 10),  # Hatfield art. 517, from memory; whole numbers
    ],
)
def test_radius_from_chord_and_rise(chord: float, rise: float, radius: float) -> None:
    assert radius_of(chord, rise) == pytest.approx(radius, rel=1e-12)


def test_hatfields_ordinates() -> None:
    # Hatfield art. 519-520, chord 120 and rise 30: the ordinate is the root of R^2 - x^2 less R - h.
    assert height_at(120, 30, 0) == pytest.approx(30)
    assert height_at(120, 30, 60) == pytest.approx(0, abs=1e-9)
    assert height_at(120, 30, 45) == pytest.approx(75 * 0.8 - 45)  # the 3-4-5 triangle in a circle of 75: 15


@pytest.mark.parametrize(("chord", "rise"), [(60, 3), (48, 2), (72, 4)])
def test_shallow_arcs_are_near_the_carpenters_rule(chord: float, rise: float) -> None:
    # c + 8 h^2 / 3 c: the usual approximation for shallow arcs.
    assert arc_length(chord, rise) == pytest.approx(chord + 8 * rise**2 / (3 * chord), abs=0.003)
