"""Board measure: board feet by plain arithmetic and by the rule that hardwood is sold by; cubic metres.

Source: NHLA rules as restated by AHEC: surface measure is width in inches times length in whole feet over 12,
rounded to the nearest whole number; board feet are surface measure times thickness in inches. Stock under 1
in counts as 1 in (retail practice).
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from sheets.base.length import MM_PER_FOOT, MM_PER_INCH

MM3_PER_M3 = 10**9


def board_feet(thickness: Fraction, width: Fraction, length: Fraction) -> Fraction:
    """Return board feet by plain arithmetic from sizes in mm; stock under 1 in thick counts as 1 in."""
    inches = max(thickness / MM_PER_INCH, Fraction(1))
    return inches * (width / MM_PER_INCH) * (length / MM_PER_FOOT) / 12


def surface_measure(width: Fraction, length: Fraction) -> int:
    """Return the surface measure of one board, in square feet: the length counts whole feet, a half rounds
    up.
    """
    feet = floor(length / MM_PER_FOOT)
    return floor((width / MM_PER_INCH) * feet / 12 + Fraction(1, 2))


def tally_board_feet(thickness: Fraction, width: Fraction, length: Fraction) -> Fraction:
    """Return the board feet of one board: surface measure times inches of thickness, at least 1."""
    return surface_measure(width, length) * max(thickness / MM_PER_INCH, Fraction(1))


def linear_feet(length: Fraction) -> Fraction:
    """Return mm as feet."""
    return length / MM_PER_FOOT


def cubic_metres(thickness: Fraction, width: Fraction, length: Fraction) -> Fraction:
    """Return the volume in cubic metres of sizes in mm."""
    return thickness * width * length / MM3_PER_M3
