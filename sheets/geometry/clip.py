"""Lines and arcs cut off at a box, arcs staying arcs."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import acos, asin, dist, pi

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, Segment


def clip_segment(segment: Segment, box: Box) -> tuple[Segment, ...]:
    """Return the pieces of a segment that lie within a box, its border included."""
    bounds = segment.bounds
    if box.grown(SAME_POINT).holds(bounds):
        return (segment,)
    if not bounds.grown(SAME_POINT).touches(box):
        return ()
    stops = sorted({0.0, 1.0, *(t for t in _crossings(segment, box) if 0.0 < t < 1.0)})
    pieces: list[Segment] = []
    start: float | None = None
    for t0, t1 in pairwise(stops):
        if box.holds_point(segment.point((t0 + t1) / 2), SAME_POINT):
            start = t0 if start is None else start
        elif start is not None:
            pieces.append(segment.part(start, t0))
            start = None
    if start is not None:
        pieces.append(segment.part(start, 1.0))
    return tuple(piece for piece in pieces if piece.length > SAME_POINT)


def clip_path(path: Iterable[Segment], box: Box) -> tuple[tuple[Segment, ...], ...]:
    """Return the connected pieces of a path that lie within a box, its border included."""
    pieces: list[list[Segment]] = []
    for segment in path:
        for run in clip_segment(segment, box):
            if pieces and dist(pieces[-1][-1].last, run.first) <= SAME_POINT:
                pieces[-1].append(run)
            else:
                pieces.append([run])
    return tuple(tuple(piece) for piece in pieces)


def _crossings(segment: Segment, box: Box) -> list[float]:
    if isinstance(segment, Line):
        found = []
        for k in (0, 1):
            run = segment.b[k] - segment.a[k]
            if abs(run) > SAME_POINT:
                found += [(side - segment.a[k]) / run for side in (box[k], box[k + 2])]
        return found
    return [t for k in (0, 1) for side in (box[k], box[k + 2]) for t in _arc_at(segment, k, side)]


def _arc_at(arc: Arc, k: int, side: float) -> list[float]:
    off = (side - arc.centre[k]) / arc.radius
    if abs(off) >= 1:
        return []
    angles = (acos(off), -acos(off)) if k == 0 else (asin(off), pi - asin(off))
    found = []
    for angle in angles:
        turned = (angle - arc.start) % (2 * pi)
        if arc.sweep < 0:
            turned -= 2 * pi
        found.append(turned / arc.sweep)
    return found
