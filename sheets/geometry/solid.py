"""Solids: stacks of extrusions along one axis of the wall's frame (x along, y out, z up; mm).

A profile lies in the two other axes, in the order of the alphabet: (y, z) for x, (x, z) for y, (x, y) for z.
"""

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import fsum
from typing import Literal

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.box import Box
from sheets.geometry.joining import clip_to_box, difference, intersection, union
from sheets.geometry.path import MIRROR_FIRST, Length, Loop, shifted
from sheets.geometry.region import Region, area_and_moments, in_order, rectangle, region, same

Axis = Literal["x", "y", "z"]
Point3 = tuple[float, float, float]
Box3 = tuple[float, float, float, float, float, float]
"""(x0, x1, y0, y1, z0, z1)."""

AXES: tuple[Axis, ...] = ("x", "y", "z")
PROFILE: dict[Axis, tuple[int, int]] = {"x": (1, 2), "y": (0, 2), "z": (0, 1)}
"""Which world axes (0 x, 1 y, 2 z) the two coordinates of a profile are."""


@dataclass(frozen=True, slots=True)
class Slab:
    """One extrusion: disjoint regions swept from lo to hi."""

    lo: float
    hi: float
    regions: tuple[Region, ...]


@dataclass(frozen=True, slots=True)
class Solid:
    """Slabs along one axis in ascending order; neighbours differ, and may have a gap between them."""

    axis: Axis
    slabs: tuple[Slab, ...]


def box(
    x0: Length, x1: Length, y0: Length, y1: Length, z0: Length, z1: Length, axis: Axis = "z"
) -> Solid:
    """A rectangular block. Raises ValueError if a size is not positive."""
    around = (x0, x1, y0, y1, z0, z1)
    p, q = PROFILE[axis]
    s = AXES.index(axis)
    shape = rectangle(around[2 * p], around[2 * q], around[2 * p + 1], around[2 * q + 1])
    return stack(axis, ((around[2 * s], around[2 * s + 1], (shape,)),))


def extrude(axis: Axis, loop: Loop, lo: float, hi: float, holes: Iterable[Loop] = ()) -> Solid:
    """A profile swept along an axis from lo to hi."""
    return stack(axis, ((lo, hi, (region(loop, holes),)),))


def stack(axis: Axis, slabs: Sequence[tuple[Length, Length, Sequence[Region]]]) -> Solid:
    """A solid of slabs (lo, hi, regions) in ascending order; equal neighbours become one, empty ones go.

    Raises ValueError for a slab without thickness, slabs that overlap, or nothing left.
    """
    made: list[Slab] = []
    floor = -float("inf")
    for lo, hi, shapes in ((float(a), float(b), shapes) for a, b, shapes in slabs):
        if hi - lo <= SAME_POINT:
            raise ValueError(f"a slab from {lo} to {hi} has no thickness")
        if lo < floor - SAME_POINT:
            raise ValueError(f"a slab from {lo} starts below the end of the one before, {floor}")
        floor = hi
        regions = in_order(shapes)
        if not regions:
            continue
        below = made[-1] if made else None
        if below and abs(below.hi - lo) <= SAME_POINT and _same_regions(below.regions, regions):
            made[-1] = Slab(below.lo, hi, below.regions)
        else:
            start = below.hi if below and abs(below.hi - lo) <= SAME_POINT else lo
            made.append(Slab(start, hi, regions))
    if not made:
        raise ValueError("a solid with nothing in it")
    return Solid(axis, tuple(made))


def cut_prism(solid: Solid, shape: Region, lo: float, hi: float) -> Solid:
    """The solid less a region swept along its own axis from lo to hi.

    Raises ValueError if nothing is left.
    """
    return _reworked(solid, lo, hi, lambda shapes: difference(shapes, (shape,)))


def add_prism(solid: Solid, shape: Region, lo: float, hi: float) -> Solid:
    """The solid with a region swept along its own axis from lo to hi joined on, as a tongue is."""
    levels = sorted({lo, hi, *(s.lo for s in solid.slabs), *(s.hi for s in solid.slabs)})
    rows = []
    for a, b in itertools.pairwise(levels):
        if b - a <= SAME_POINT:
            continue
        there = regions_between(solid, a, b)
        rows.append((a, b, union(*there, shape) if lo < (a + b) / 2 < hi else there))
    return stack(solid.axis, rows)


def cut_box(solid: Solid, block: Box3) -> Solid:
    """The solid less a block (x0, x1, y0, y1, z0, z1), which may stand out of it.

    Raises ValueError if nothing is left.
    """
    p, q = PROFILE[solid.axis]
    s = AXES.index(solid.axis)
    shape = rectangle(block[2 * p], block[2 * q], block[2 * p + 1], block[2 * q + 1])
    return cut_prism(solid, shape, block[2 * s], block[2 * s + 1])


def trimmed(solid: Solid, lo: float, hi: float) -> Solid | None:
    """What lies between two levels along the solid's own axis, or None."""
    rows = [(max(s.lo, lo), min(s.hi, hi), s.regions) for s in solid.slabs]
    rows = [row for row in rows if row[1] - row[0] > SAME_POINT]
    return stack(solid.axis, rows) if rows else None


def within_profile(solid: Solid, bounds: Box) -> Solid | None:
    """What lies in a box of the profile's plane (least corner, greatest corner), or None."""
    rows = [(s.lo, s.hi, clip_to_box(s.regions, bounds)) for s in solid.slabs]
    return stack(solid.axis, rows) if any(r[2] for r in rows) else None


def regions_between(solid: Solid, lo: float, hi: float) -> tuple[Region, ...]:
    """The profile at the middle between two levels."""
    middle = (lo + hi) / 2
    for s in solid.slabs:
        if s.lo < middle < s.hi:
            return s.regions
    return ()


def moved(solid: Solid, dx: float = 0.0, dy: float = 0.0, dz: float = 0.0) -> Solid:
    """The solid shifted by mm along the axes."""
    by = (dx, dy, dz)
    p, q = PROFILE[solid.axis]
    along = by[AXES.index(solid.axis)]
    change = shifted(by[p], by[q])
    return Solid(solid.axis, tuple(
        Slab(s.lo + along, s.hi + along, tuple(r.transformed(change) for r in s.regions)) for s in solid.slabs
    ))


def mirrored_x(solid: Solid) -> Solid:
    """The solid on the other side of the axis of symmetry: every x exactly negated."""
    if solid.axis == "x":
        return Solid("x", tuple(Slab(-s.hi + 0.0, -s.lo + 0.0, s.regions) for s in reversed(solid.slabs)))
    return Solid(solid.axis, tuple(
        Slab(s.lo, s.hi, in_order(r.transformed(MIRROR_FIRST) for r in s.regions)) for s in solid.slabs
    ))


def bounds(solid: Solid) -> Box3:
    """The block that just holds the solid."""
    boxes = [r.bounds for s in solid.slabs for r in s.regions]
    p, q = PROFILE[solid.axis]
    s = AXES.index(solid.axis)
    ends = [0.0] * 6
    ends[2 * p], ends[2 * p + 1] = min(b[0] for b in boxes), max(b[2] for b in boxes)
    ends[2 * q], ends[2 * q + 1] = min(b[1] for b in boxes), max(b[3] for b in boxes)
    ends[2 * s], ends[2 * s + 1] = solid.slabs[0].lo, solid.slabs[-1].hi
    return (ends[0], ends[1], ends[2], ends[3], ends[4], ends[5])


def volume(solid: Solid) -> float:
    """Volume in mm^3, exact for arcs."""
    return fsum((s.hi - s.lo) * r.area for s in solid.slabs for r in s.regions)


def centroid(solid: Solid) -> Point3:
    """The middle of its volume, as (x, y, z) in mm; arcs are reckoned by their chords."""
    p, q = PROFILE[solid.axis]
    moments = [0.0, 0.0, 0.0]
    whole = 0.0
    for s in solid.slabs:
        for r in s.regions:
            area, first, second = area_and_moments(r)
            thick = s.hi - s.lo
            whole += thick * area
            moments[p] += thick * first
            moments[q] += thick * second
            moments[AXES.index(solid.axis)] += thick * area * (s.lo + s.hi) / 2
    return moments[0] / whole, moments[1] / whole, moments[2] / whole


def common(one: Solid, other: Solid) -> Solid | None:
    """What two solids of the same axis share, or None."""
    if one.axis != other.axis:
        raise ValueError("only solids of one axis can be intersected into a solid")
    rows = []
    for s in one.slabs:
        for t in other.slabs:
            lo, hi = max(s.lo, t.lo), min(s.hi, t.hi)
            if hi - lo > SAME_POINT:
                rows.append((lo, hi, intersection(s.regions, t.regions)))
    return stack(one.axis, rows) if any(r[2] for r in rows) else None


def _reworked(
    solid: Solid, lo: float, hi: float, change: Callable[[tuple[Region, ...]], tuple[Region, ...]]
) -> Solid:
    rows = []
    for s in solid.slabs:
        a, b = max(s.lo, lo), min(s.hi, hi)
        if b - a <= SAME_POINT:
            rows.append((s.lo, s.hi, s.regions))
            continue
        if a - s.lo > SAME_POINT:
            rows.append((s.lo, a, s.regions))
        else:
            a = s.lo
        b = b if s.hi - b > SAME_POINT else s.hi
        rows.append((a, b, change(s.regions)))
        if b < s.hi:
            rows.append((b, s.hi, s.regions))
    return stack(solid.axis, rows)


def _same_regions(one: tuple[Region, ...], other: tuple[Region, ...]) -> bool:
    return len(one) == len(other) and all(same(a, b) for a, b in zip(one, other, strict=True))
