"""A solid covered by blocks along the axes: exact where its faces are, a fine stair along slopes and arcs."""

from __future__ import annotations

import math
from itertools import pairwise

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.box import Box
from sheets.geometry.joining import clip_to_box
from sheets.geometry.path import Arc
from sheets.geometry.region import Region, chords, is_rectangle
from sheets.geometry.solid import AXES, PROFILE, Box3, Solid


def blocks(solid: Solid, step: float) -> tuple[Box3, ...]:
    """Return blocks (x0, x1, y0, y1, z0, z1) that together cover the solid, mm.

    A profile is cut in strips at each corner of its outline, so that a piece whose faces lie along the axes
    is covered exactly. A strip with a slope or an arc in it is cut again at whole multiples of `step`, and
    stands out of the solid by less than what that edge rises in a step.
    """
    found: list[Box3] = []
    p, q = PROFILE[solid.axis]
    along = AXES.index(solid.axis)
    for slab in solid.slabs:
        for shape in slab.regions:
            for x0, y0, x1, y1 in _strips(shape, step):
                ends = [0.0] * 6
                ends[2 * along], ends[2 * along + 1] = slab.lo, slab.hi
                ends[2 * p], ends[2 * p + 1], ends[2 * q], ends[2 * q + 1] = x0, x1, y0, y1
                found.append((ends[0], ends[1], ends[2], ends[3], ends[4], ends[5]))
    return tuple(found)


def _strips(shape: Region, step: float) -> list[Box]:
    if is_rectangle(shape):
        return [shape.bounds]
    levels = sorted(_levels(shape, step))
    return [
        box for low, high in pairwise(levels) if high - low > SAME_POINT for box in _boxes(shape, low, high)
    ]


def _levels(shape: Region, step: float) -> set[float]:
    """Where the outline has a corner or turns back, and the multiples of the step along what slopes."""
    levels = {shape.bounds[1], shape.bounds[3]}
    for loop in shape.loops:
        levels |= {corner[1] for corner in loop.vertices}
        for segment in loop.segments:
            left, low, right, high = segment.bounds
            if left == right or low == high:
                continue
            if isinstance(segment, Arc):
                levels |= {crown[1] for crown in segment.crowns}
            levels |= {number * step for number in range(math.ceil(low / step), math.floor(high / step) + 1)}
    return levels


def _boxes(shape: Region, low: float, high: float) -> list[Box]:
    # No corner lies within: what the outline bounds there is widest at one of the strip's own edges.
    below, above = chords(shape, 1, low, 1), chords(shape, 1, high, -1)
    if len(below) == len(above):
        return [Box(min(a, c), low, max(b, d), high) for (a, b), (c, d) in zip(below, above, strict=True)]
    x0, _, x1, _ = shape.bounds
    return [piece.bounds for piece in clip_to_box((shape,), Box(x0 - 1, low, x1 + 1, high))]
