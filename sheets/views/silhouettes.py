"""The outline of a solid against the light, seen along a world axis: exact, from its slabs."""

from __future__ import annotations

from collections.abc import Iterable

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.joining import union
from sheets.geometry.region import Region, rectangle
from sheets.geometry.solid import AXES, PROFILE, Solid
from sheets.model.part import Axis


def silhouette(solid: Solid, axis: Axis) -> tuple[Region, ...]:
    """Return what the solid covers of the plane square to `axis`; coordinates in the order of the alphabet.

    A connected profile seen from its side covers one whole interval, so a slab gives a rectangle.
    """
    if solid.axis == axis:
        regions = [region for slab in solid.slabs for region in slab.regions]
        return union(*regions) if len(solid.slabs) > 1 else tuple(regions)
    along = PROFILE[axis].index(AXES.index(solid.axis))
    other = PROFILE[axis][1 - along]
    pick = PROFILE[solid.axis].index(other)
    pieces = [
        _upright(along, slab.lo, slab.hi, region.bounds[pick], region.bounds[pick + 2])
        for slab in solid.slabs
        for region in slab.regions
    ]
    return union(*_distinct(pieces)) if len(pieces) > 1 else tuple(pieces)


def shadow(solids: Iterable[Solid], axis: Axis) -> tuple[Region, ...]:
    """Return what several solids cover together."""
    return union(*(region for solid in solids for region in silhouette(solid, axis)))


def _upright(along: int, lo: float, hi: float, first: float, last: float) -> Region:
    return rectangle(lo, first, hi, last) if along == 0 else rectangle(first, lo, last, hi)


def _distinct(pieces: list[Region]) -> list[Region]:
    # Slabs of one piece often cover the same width: joining equals is work for nothing.
    kept: list[Region] = []
    for piece in pieces:
        x0, y0, x1, y1 = piece.bounds
        if not any(
            b[0] <= x0 + SAME_POINT
            and b[1] <= y0 + SAME_POINT
            and b[2] >= x1 - SAME_POINT
            and b[3] >= y1 - SAME_POINT
            for b in (other.bounds for other in kept)
        ):
            kept.append(piece)
    return kept
