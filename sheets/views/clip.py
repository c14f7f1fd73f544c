"""Cutting lines and arcs off at a rectangle."""

from __future__ import annotations

from itertools import pairwise
from math import acos, asin, pi

from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, Point, Segment
from sheets.geometry.tolerance import SAME_POINT


def clip_segment(segment: Segment, box: Box) -> tuple[Segment, ...]:
    """Return the pieces of a segment that lie within a rectangle (u0, v0, u1, v1), its border included."""
    x0, y0, x1, y1 = segment.bounds
    if (
        x0 >= box[0] - SAME_POINT
        and y0 >= box[1] - SAME_POINT
        and x1 <= box[2] + SAME_POINT
        and y1 <= box[3] + SAME_POINT
    ):
        return (segment,)
    if (
        x1 < box[0] - SAME_POINT
        or y1 < box[1] - SAME_POINT
        or x0 > box[2] + SAME_POINT
        or y0 > box[3] + SAME_POINT
    ):
        return ()
    stops = sorted({0.0, 1.0, *(t for t in _crossings(segment, box) if 0.0 < t < 1.0)})
    pieces: list[Segment] = []
    start: float | None = None
    for t0, t1 in pairwise(stops):
        if _within(segment.point((t0 + t1) / 2), box):
            start = t0 if start is None else start
        elif start is not None:
            pieces.append(segment.part(start, t0))
            start = None
    if start is not None:
        pieces.append(segment.part(start, 1.0))
    return tuple(piece for piece in pieces if piece.length > SAME_POINT)


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


def _within(point: Point, box: Box) -> bool:
    return (
        box[0] - SAME_POINT <= point[0] <= box[2] + SAME_POINT
        and box[1] - SAME_POINT <= point[1] <= box[3] + SAME_POINT
    )
