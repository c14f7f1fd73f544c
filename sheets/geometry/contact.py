"""Whether parts share space or share a face: the proof that none overlap and none float."""

import itertools
from collections.abc import Sequence
from math import fsum, sqrt

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.joining import clip_to_half, intersection
from sheets.geometry.region import Region, chords
from sheets.geometry.solid import AXES, PROFILE, Box3, Slab, Solid, bounds, moved

LEAST_CONTACT = 1.0
"""mm^2: less common face than this is an edge or a corner, not a contact."""

_NODES = ((-sqrt(0.6), 5 / 9), (0.0, 8 / 9), (sqrt(0.6), 5 / 9))  # Gauss-Legendre, exact to degree 5


def intersection_volume(a: Solid, b: Solid) -> float:
    """Volume in mm^3 that two solids both fill.

    Exact for straight sides, whatever the axes; arcs of solids on unlike axes are integrated to about 1e-6.
    """
    if not _boxes_meet(bounds(a), bounds(b)):
        return 0.0
    total = 0.0
    for s in a.slabs:
        for t in b.slabs:
            if a.axis == b.axis:
                height = min(s.hi, t.hi) - max(s.lo, t.lo)
                if height > SAME_POINT:
                    total += height * fsum(r.area for r in intersection(s.regions, t.regions))
            else:
                total += _crossed(a, s, b, t)
    return total


def contact_area(a: Solid, b: Solid, tolerance: float = 0.01) -> float:
    """About the area in mm^2 that two solids touch on, seen along the axis that shows most of it.

    Gaps of less than `tolerance` mm count as touching. One solid is pushed a little along each axis; what it
    then enters of the other, over the push, is the face they share.
    """
    push = 2 * tolerance
    if not _boxes_meet(_grown(bounds(a), push), bounds(b)):
        return 0.0
    best = 0.0
    for n in range(3):
        for way in (push, -push):
            by = [0.0, 0.0, 0.0]
            by[n] = way
            best = max(best, intersection_volume(moved(a, *by), b) / push)
    return best


def touching(a: Solid, b: Solid, tolerance: float = 0.01) -> bool:
    """True if two solids share a face (or space), gaps below `tolerance` mm counting as none."""
    return contact_area(a, b, tolerance) > LEAST_CONTACT


def _boxes_meet(a: Box3, b: Box3) -> bool:
    return all(min(a[k + 1], b[k + 1]) - max(a[k], b[k]) > SAME_POINT for k in (0, 2, 4))


def _grown(a: Box3, by: float) -> Box3:
    return (a[0] - by, a[1] + by, a[2] - by, a[3] + by, a[4] - by, a[5] + by)


def _crossed(a: Solid, s: Slab, b: Solid, t: Slab) -> float:
    """Common volume of two slabs on unlike axes: width in one times width in the other, along the third."""
    third = ({0, 1, 2} - {AXES.index(a.axis), AXES.index(b.axis)}).pop()
    first = _between(s.regions, PROFILE[a.axis].index(AXES.index(b.axis)), t.lo, t.hi)
    second = _between(t.regions, PROFILE[b.axis].index(AXES.index(a.axis)), s.lo, s.hi)
    if not first or not second:
        return 0.0
    in_a, in_b = PROFILE[a.axis].index(third), PROFILE[b.axis].index(third)
    stops = sorted({*_stops(first, in_a), *_stops(second, in_b)})
    total = 0.0
    for lo, hi in itertools.pairwise(stops):
        if hi - lo <= SAME_POINT:
            continue
        for node, weight in _NODES:
            at = (lo + hi) / 2 + node * (hi - lo) / 2
            total += weight * (hi - lo) / 2 * _width(first, in_a, at) * _width(second, in_b, at)
    return total


def _between(shapes: Sequence[Region], along: int, lo: float, hi: float) -> tuple[Region, ...]:
    return clip_to_half(clip_to_half(shapes, along, lo, 1), along, hi, -1)


def _width(shapes: Sequence[Region], along: int, at: float) -> float:
    return fsum(q - p for r in shapes for p, q in chords(r, along, at))


def _stops(shapes: Sequence[Region], coordinate: int) -> list[float]:
    """Where the width can change its law: every corner, and along arcs often enough to integrate them."""
    return [p[coordinate] for r in shapes for loop in r.loops for p in loop.flatten()]
