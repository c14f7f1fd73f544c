"""Plane regions: an outer loop less its holes, with true arcs.

What needs only arithmetic is here; they are cut and joined in `joining`.
"""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum, sqrt

from sheets.base.tolerance import SAME_POINT, TANGENT
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Length, Line, Loop, Place, Point, Segment, Similarity, loop_from_points


@dataclass(frozen=True, slots=True)
class Region:
    """A piece of a plane. `outer` runs counter-clockwise, `holes` clockwise; make one with `region()`."""

    outer: Loop
    holes: tuple[Loop, ...] = ()

    @property
    def loops(self) -> tuple[Loop, ...]:
        return (self.outer, *self.holes)

    @property
    def area(self) -> float:
        """Area in mm^2, exact for arcs."""
        return fsum(loop.area for loop in self.loops)

    @property
    def bounds(self) -> Box:
        return self.outer.bounds

    def transformed(self, change: Similarity) -> "Region":
        return region(self.outer.transformed(change), tuple(h.transformed(change) for h in self.holes))


def region(outer: Loop, holes: Iterable[Loop] = ()) -> Region:
    """A region in its one written form: smooth of needless corners, outer loop counter-clockwise, holes
    clockwise, every loop starting at its least corner, holes in order of that corner."""
    inner = sorted((_written(h, -1) for h in holes), key=lambda h: _rank(h.vertices[0]))
    return Region(_written(outer, +1), tuple(inner))


def polygon(points: Iterable[Place]) -> Region:
    """A region with straight sides; a corner given twice in turn is one corner."""
    corners = tuple(points)
    return region(loop_from_points([p for k, p in enumerate(corners) if p != corners[k - 1]]))


def rectangle(x0: Length, y0: Length, x1: Length, y1: Length) -> Region:
    """The rectangle between two corners given in order. Raises ValueError if it has no area."""
    if not (x1 > x0 and y1 > y0):
        raise ValueError(f"a rectangle from {(x0, y0)} to {(x1, y1)} has no area")
    x0, y0, x1, y1 = float(x0), float(y0), float(x1), float(y1)
    a, b, c, d = (x0, y0), (x1, y0), (x1, y1), (x0, y1)
    return Region(Loop((Line(a, b), Line(b, c), Line(c, d), Line(d, a))))


def is_rectangle(shape: Region) -> bool:
    """True for four straight sides along the axes and no hole."""
    if shape.holes or len(shape.outer.segments) != 4:
        return False
    return all(isinstance(s, Line) and (s.a[0] == s.b[0] or s.a[1] == s.b[1]) for s in shape.outer.segments)


def same(one: Region, other: Region) -> bool:
    """True if two regions have the same segments within SAME_POINT."""
    if len(one.loops) != len(other.loops):
        return False
    return all(
        len(p.segments) == len(q.segments)
        and all(_alike(s, t) for s, t in zip(p.segments, q.segments, strict=True))
        for p, q in zip(one.loops, other.loops, strict=True)
    )


def chords(shape: Region, along: int, at: float, side: int = 1) -> tuple[tuple[float, float], ...]:
    """Where a line square to an axis lies in a region: intervals of the other coordinate, ascending.

    along: 0 for the line first = at, 1 for the line second = at. side: a line that runs exactly along a
    border is taken as just beyond it, on the greater (+1) or the lesser (-1) side. Arcs are met exactly.
    """
    hits: list[float] = []
    for loop in shape.loops:
        for s in loop.segments:
            hits.extend(_crossings(s, along, at, side))
    hits.sort()
    return tuple((a, b) for a, b in zip(hits[::2], hits[1::2], strict=False) if b - a > SAME_POINT)


def contains(shape: Region, point: Point) -> bool:
    """True for a point inside; a point on the border may go either way."""
    return any(a < point[0] < b for a, b in chords(shape, 1, point[1]))


def inner_point(shape: Region) -> Point:
    """A point well inside, near the middle: where a mark may stand."""
    x0, y0, x1, y1 = shape.bounds
    best, score = (0.0, 0.0), -1.0
    for k in (6, 5, 7, 4, 8, 3, 9, 2, 10, 1, 11):
        for along, at in ((1, y0 + (y1 - y0) * k / 12), (0, x0 + (x1 - x0) * k / 12)):
            for a, b in chords(shape, along, at):
                middle = ((a + b) / 2, at) if along == 1 else (at, (a + b) / 2)
                across = [q - p for p, q in chords(shape, 1 - along, (a + b) / 2) if p < at < q]
                room = min([b - a, *across])
                if across and room > score * 1.001:
                    best, score = middle, room
    return best


def area_and_moments(shape: Region) -> tuple[float, float, float]:
    """Area, mm^2, and its first moments about both axes, mm^3, by the corners; arcs by their chords."""
    area, first, second = 0.0, 0.0, 0.0
    for loop in shape.loops:  # holes run the other way round and are taken off
        corners = loop.flatten()
        for (a, b), (c, d) in itertools.pairwise((*corners, corners[0])):
            cross = a * d - c * b
            area += cross / 2
            first += cross * (a + c) / 6
            second += cross * (b + d) / 6
    return area, first, second


def in_order(shapes: Iterable[Region]) -> tuple[Region, ...]:
    """Regions sorted by their least corner, so that a result does not hang on how it was found."""
    return tuple(sorted(shapes, key=lambda s: (*_rank(s.outer.vertices[0]), *_rank(s.bounds[2:]))))


def smooth_joint(before: Segment, after: Segment) -> bool:
    """True if a path goes from one segment to the next without a corner."""
    (ux, uy), (vx, vy) = before.heading(1.0), after.heading(0.0)
    return abs(ux * vy - uy * vx) < TANGENT and ux * vx + uy * vy > 0


def _crossings(s: Segment, along: int, at: float, side: int) -> list[float]:
    other = 1 - along
    if isinstance(s, Line):
        a, b = s.a, s.b
        if _beyond(a[along], at, side) == _beyond(b[along], at, side):
            return []
        if abs(b[along] - a[along]) <= SAME_POINT or a[other] == b[other]:
            return [a[other]]
        t = min(1.0, max(0.0, (at - a[along]) / (b[along] - a[along])))
        return [a[other] + (b[other] - a[other]) * t]
    hits: list[float] = []
    stops = s.break_parameters(s.radius)  # quarters of the circle: between them an arc is monotone
    for t0, t1 in itertools.pairwise(stops):
        p, q = s.point(t0), s.point(t1)
        if _beyond(p[along], at, side) == _beyond(q[along], at, side):
            continue
        depth = at - s.centre[along]
        reach = sqrt(max(0.0, s.radius * s.radius - depth * depth))
        middle = s.point((t0 + t1) / 2)[other]
        hits.append(s.centre[other] + (reach if middle > s.centre[other] else -reach))
    return hits


def _beyond(value: float, at: float, side: int) -> bool:
    if abs(value - at) <= SAME_POINT:
        return side < 0
    return value > at


def _rank(point: tuple[float, ...]) -> tuple[float, ...]:
    # a step that no fraction of an inch falls half way between, so that noise cannot tip it
    return tuple(round(c * 1e5) for c in point)


def _alike(s: Segment, t: Segment) -> bool:
    if type(s) is not type(t):
        return False
    pairs = [(s.first, t.first), (s.last, t.last)]
    if isinstance(s, Arc):
        pairs.append((s.point(0.5), t.point(0.5) if isinstance(t, Arc) else t.first))
    return all(abs(p[0] - q[0]) <= SAME_POINT and abs(p[1] - q[1]) <= SAME_POINT for p, q in pairs)


def _written(loop: Loop, way: int) -> Loop:
    if loop.area * way < 0:
        loop = loop.reversed()
    segments = _without_needless_corners(loop.segments)
    corners = [_rank(p) for p in Loop(tuple(segments)).vertices]
    least = corners.index(min(corners))
    return Loop(tuple(segments[least:] + segments[:least]))


def _without_needless_corners(segments: Iterable[Segment]) -> list[Segment]:
    kept = list(segments)
    k = 0
    while k < len(kept) and len(kept) > 2:
        before, after = kept[k - 1], kept[k]
        if isinstance(before, Line) and isinstance(after, Line) and smooth_joint(before, after):
            kept[k - 1] = Line(before.a, after.b)
            del kept[k]
        elif (
            isinstance(before, Arc)
            and isinstance(after, Arc)
            and before.sweep * after.sweep > 0
            and abs(before.sweep + after.sweep) < 6.28
            and abs(before.radius - after.radius) <= SAME_POINT
            and abs(before.centre[0] - after.centre[0]) <= SAME_POINT
            and abs(before.centre[1] - after.centre[1]) <= SAME_POINT
        ):
            kept[k - 1] = Arc(before.centre, before.radius, before.start, before.sweep + after.sweep)
            del kept[k]
        else:
            k += 1
    return kept
