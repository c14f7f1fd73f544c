"""How high the ceiling is along the wall; a vault is an arc from side wall to side wall."""

from __future__ import annotations

from fractions import Fraction

from sheets.geometry.path import ordinate
from sheets.model.wall import Wall


def ceiling_over(wall: Wall, x0: Fraction, x1: Fraction) -> Fraction:
    """Return the least height of the ceiling between two places along the wall, mm.

    Under a vault it is cut to 1/1000 mm, downwards.
    """
    room = wall.room
    if room.spring is None or room.rise <= 0:
        return room.height
    outer = float(max(abs(x0), abs(x1)))
    half = float(room.width) / 2
    height = float(room.spring) + (
        ordinate(float(room.width), float(room.rise), outer) if outer < half else 0.0
    )
    return Fraction(int(height * 1000), 1000)
