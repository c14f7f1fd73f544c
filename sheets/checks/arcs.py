"""An arc by its chord and rise."""

from __future__ import annotations

from math import asin


def radius_of(chord: float, rise: float) -> float:
    """Return the radius of the circle through both ends of a chord and a rise above its middle."""
    return (chord * chord / 4 + rise * rise) / (2 * rise)


def arc_length(chord: float, rise: float) -> float:
    """Return the length along an arc of at most half a circle."""
    radius = radius_of(chord, rise)
    return radius * 2 * asin(min(1.0, chord / (2 * radius)))


def height_at(chord: float, rise: float, from_middle: float) -> float:
    """Return the height of the arc above its chord at a distance from the middle of the chord."""
    radius = radius_of(chord, rise)
    return float((radius * radius - from_middle * from_middle) ** 0.5 - (radius - rise))
