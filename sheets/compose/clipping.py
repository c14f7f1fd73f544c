"""Strokes cut off at a box, arcs staying arcs. Any unit."""

from __future__ import annotations

import itertools
from math import acos, asin, pi

from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, Segment

_NOISE = 1e-9


def clip(path: tuple[Segment, ...], box: Box) -> tuple[tuple[Segment, ...], ...]:
    """Return the connected pieces of a path that lie in a box."""
    pieces: list[list[Segment]] = []
    joined = False
    for segment in path:
        for start, end in _inside(segment, box):
            if joined and start <= _NOISE:
                pieces[-1].append(segment.part(start, end))
            else:
                pieces.append([segment.part(start, end)])
            joined = end >= 1 - _NOISE
        if not _inside(segment, box):
            joined = False
    return tuple(tuple(piece) for piece in pieces)


def _inside(segment: Segment, box: Box) -> list[tuple[float, float]]:
    """Parameter intervals of a segment that lie in the box, in order."""
    crossings = _line_crossings(segment, box) if isinstance(segment, Line) else _arc_crossings(segment, box)
    stops = [0.0, *sorted(t for t in crossings if _NOISE < t < 1 - _NOISE), 1.0]
    kept: list[tuple[float, float]] = []
    for a, b in itertools.pairwise(stops):
        x, y = segment.point((a + b) / 2)
        if box[0] <= x <= box[2] and box[1] <= y <= box[3] and b - a > _NOISE:
            if kept and kept[-1][1] == a:
                kept[-1] = (kept[-1][0], b)
            else:
                kept.append((a, b))
    return kept


def _line_crossings(line: Line, box: Box) -> list[float]:
    found = []
    for axis in (0, 1):
        run = line.b[axis] - line.a[axis]
        if run:
            found += [(edge - line.a[axis]) / run for edge in (box[axis], box[axis + 2])]
    return found


def _arc_crossings(arc: Arc, box: Box) -> list[float]:
    angles: list[float] = []
    for edge in (box[0], box[2]):
        reach = (edge - arc.centre[0]) / arc.radius
        if abs(reach) < 1:
            angles += [acos(reach), -acos(reach)]
    for edge in (box[1], box[3]):
        reach = (edge - arc.centre[1]) / arc.radius
        if abs(reach) < 1:
            angles += [asin(reach), pi - asin(reach)]
    turn = 2 * pi
    way = 1.0 if arc.sweep > 0 else -1.0
    return [((angle - arc.start) * way % turn) / abs(arc.sweep) for angle in angles]
