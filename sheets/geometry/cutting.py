"""Cutting solids with planes square to an axis: the cut faces, and the halves that are left."""

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.box import Box
from sheets.geometry.joining import union
from sheets.geometry.region import Region, chords, in_order, rectangle
from sheets.geometry.solid import AXES, PROFILE, Axis, Solid, bounds, trimmed, within_profile


def section(solid: Solid, axis: Axis, at: float, side: int = 1) -> tuple[Region, ...]:
    """The faces where the plane axis = at cuts a solid; () if it misses.

    Plane coordinates are (y, z) for x, (x, z) for y, (x, y) for z. A plane that runs along a face is
    taken as just beyond it, on the greater (side +1) or the lesser (-1) side.
    """
    if solid.axis == axis:
        for s in solid.slabs:
            low = s.lo - SAME_POINT if side > 0 else s.lo + SAME_POINT
            high = s.hi - SAME_POINT if side > 0 else s.hi + SAME_POINT
            if low <= at <= high:
                return s.regions
        return ()
    along = PROFILE[solid.axis].index(AXES.index(axis))
    plane = PROFILE[axis]
    sweep_first = plane.index(AXES.index(solid.axis)) == 0
    pieces: list[Region] = []
    for s in solid.slabs:
        spans = sorted(span for r in s.regions for span in chords(r, along, at, side))
        for a, b in spans:
            pieces.append(rectangle(s.lo, a, s.hi, b) if sweep_first else rectangle(a, s.lo, b, s.hi))
    return in_order(_joined(pieces, len(solid.slabs)))


def halve(solid: Solid, axis: Axis, at: float, keep: int = 1) -> Solid | None:
    """The part of a solid beyond the plane axis = at: the greater (+1) or lesser (-1) side, or None."""
    n = AXES.index(axis)
    low, high = bounds(solid)[2 * n : 2 * n + 2]
    if (low >= at - SAME_POINT) if keep > 0 else (high <= at + SAME_POINT):
        return solid
    if (high <= at + SAME_POINT) if keep > 0 else (low >= at - SAME_POINT):
        return None
    far = float("inf")
    if solid.axis == axis:
        return trimmed(solid, at, far) if keep > 0 else trimmed(solid, -far, at)
    edges = [-far, -far, far, far]
    along = PROFILE[solid.axis].index(n)
    edges[along if keep > 0 else along + 2] = at
    return within_profile(solid, Box(edges[0], edges[1], edges[2], edges[3]))


def _joined(pieces: list[Region], slabs: int) -> tuple[Region, ...]:
    """Rectangles of neighbouring slabs as whole faces; those of one slab cannot touch."""
    return tuple(pieces) if slabs == 1 or len(pieces) < 2 else union(*pieces)
