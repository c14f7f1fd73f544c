"""Arcs against published examples."""

from __future__ import annotations

from math import degrees, radians

import pytest

from sheets.geometry.path import arc_angle, ordinate, radius_from_chord_rise


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
    assert radius_from_chord_rise(chord, rise) == pytest.approx(radius, rel=1e-12)


def test_hatfields_ordinates() -> None:
    # Hatfield art. 519-520, chord 120 and rise 30: the ordinate is the root of R^2 - x^2 less R - h.
    assert ordinate(120, 30, 0) == pytest.approx(30)
    assert ordinate(120, 30, 60) == pytest.approx(0, abs=1e-9)
    assert ordinate(120, 30, 45) == pytest.approx(15)  # the 3-4-5 triangle in a circle of 75: 60 less 45


def test_angle_of_hatfields_arc() -> None:
    # 2 asin(60/75) = 106.260 degrees, twice the greater angle of the 3-4-5 triangle.
    assert degrees(arc_angle(120, 30)) == pytest.approx(106.260, abs=0.001)


@pytest.mark.parametrize(("chord", "rise"), [(60, 3), (48, 2), (72, 4)])
def test_shallow_arcs_are_near_the_carpenters_rule(chord: float, rise: float) -> None:
    # Length c + 8 h^2 / 3 c: the usual approximation for shallow arcs.
    assert radius_from_chord_rise(chord, rise) * arc_angle(chord, rise) == pytest.approx(
        chord + 8 * rise**2 / (3 * chord), abs=0.003
    )
    assert arc_angle(chord, rise) < radians(30)
