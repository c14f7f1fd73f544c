"""Joining and cutting of regions, and other work left to shapely. The only module that imports it.

Arcs are computed on as chords. All arcs of one circle are broken at the same points, so that borders
which coincide still do so as chords; afterwards every result edge that lies on a chord is given
back to its circle, and corners made by the cut are moved onto the true curves.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import atan2, ceil, cos, hypot, pi, sin, sqrt
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from sheets.base.tolerance import CHORD_HEIGHT, SAME_POINT, SLIVER
from sheets.geometry.path import Arc, Line, Loop, Point, Segment, circle_step
from sheets.geometry.region import Region, in_order, region

_TURN = 2 * pi
_ON_CHORD = 2e-6
_FAR = 50 * CHORD_HEIGHT


@dataclass
class _Circle:
    """One circle of the input with the angles it is broken at and the spans that arcs of the input cover."""

    centre: Point
    radius: float
    arcs: list[Arc] = field(default_factory=list)
    angles: list[float] = field(default_factory=list)
    points: list[Point] = field(default_factory=list)

    def angle(self, p: Point) -> float:
        return atan2(p[1] - self.centre[1], p[0] - self.centre[0]) % _TURN

    def same(self, arc: Arc) -> bool:
        return (
            abs(arc.radius - self.radius) <= SAME_POINT
            and abs(arc.centre[0] - self.centre[0]) <= SAME_POINT
            and abs(arc.centre[1] - self.centre[1]) <= SAME_POINT
        )

    def lay_out(self, corners: dict[tuple[int, int], Point]) -> None:
        """Set the break angles: those of the circle, and the ends of its arcs (with their given points)."""
        step = circle_step(self.radius, CHORD_HEIGHT)
        noise = 2 * SAME_POINT / self.radius
        marks: list[tuple[float, Point]] = []
        for arc in self.arcs:
            for end in (arc.first, arc.last):
                exact = corners.get(_cell(end), end)
                marks.append((self.angle(exact), exact))
        marks.sort()
        kept: list[tuple[float, Point]] = []
        for mark in marks:
            if not kept or mark[0] - kept[-1][0] > noise:
                kept.append(mark)
        if len(kept) > 1 and kept[0][0] + _TURN - kept[-1][0] <= noise:
            kept.pop()
        taken = [m[0] for m in kept]
        for k in range(round(_TURN / step)):
            angle = k * step
            near = bisect_right(taken, angle)
            if taken and min(abs(angle - taken[near - 1]), abs(angle - taken[near % len(taken)]),
                             abs(angle + _TURN - taken[-1])) <= noise:
                continue
            kept.append((angle, (self.centre[0] + self.radius * cos(angle),
                                 self.centre[1] + self.radius * sin(angle))))
        kept.sort()
        self.angles = [m[0] for m in kept]
        self.points = [m[1] for m in kept]

    def between(self, arc: Arc) -> list[Point]:
        """The break points strictly inside an arc, in its direction."""
        low, high = sorted((arc.start, arc.start + arc.sweep))
        noise = 2 * SAME_POINT / self.radius
        found = []
        for angle, p in zip(self.angles, self.points, strict=True):
            lap = ceil((low + noise - angle) / _TURN)
            while (there := angle + lap * _TURN) < high - noise:
                found.append((there, p))
                lap += 1
        found.sort()
        ordered = [p for _, p in found]
        return ordered if arc.sweep > 0 else ordered[::-1]

    def owns(self, p: Point, q: Point) -> int:
        """+1 or -1 if the edge p-q lies on a chord of an arc of the input, by its direction round; else 0."""
        cx, cy = self.centre
        mx, my = (p[0] + q[0]) / 2, (p[1] + q[1]) / 2
        reach = hypot(mx - cx, my - cy)
        if reach > self.radius + _ON_CHORD or reach < self.radius - 2 * CHORD_HEIGHT - _ON_CHORD:
            return 0
        angle = self.angle((mx, my))
        k = bisect_right(self.angles, angle) - 1
        (ax, ay), (bx, by) = self.points[k], self.points[(k + 1) % len(self.points)]
        size = hypot(bx - ax, by - ay)
        for x, y in (p, q):
            if abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) > _ON_CHORD * size:
                return 0
        if not any(_covers(arc, angle) for arc in self.arcs):
            return 0
        return 1 if (p[0] - cx) * (q[1] - cy) - (p[1] - cy) * (q[0] - cx) > 0 else -1


@dataclass(frozen=True, slots=True)
class _Run:
    """Result edges in a row on one circle (way 0: on one straight line); `turned` is their angle round it."""

    circle: int
    way: int
    first: Point
    last: Point
    turned: float

    def leads_to(self, after: "_Run") -> bool:
        if (self.circle, self.way) != (after.circle, after.way):
            return False
        return self.way != 0 or _straight_on(self.first, after.first, after.last)

    def and_then(self, after: "_Run") -> "_Run":
        return _Run(self.circle, self.way, self.first, after.last, self.turned + after.turned)


def combined(operation: str, shapes: Sequence[Region], others: Sequence[Region]) -> tuple[Region, ...]:
    """The union of `shapes`, or their difference from or intersection with `others`, as ordered regions."""
    corners: dict[tuple[int, int], Point] = {}
    circles: list[_Circle] = []
    for shape in (*shapes, *others):
        for loop in shape.loops:
            for p in loop.vertices:
                corners.setdefault(_cell(p), p)
            for s in loop.segments:
                if isinstance(s, Arc):
                    _circle_of(s, circles).arcs.append(s)
    for c in circles:
        c.lay_out(corners)
    left = _joined([_polygon(s, circles, corners) for s in shapes])
    if operation == "union":
        result = left
    else:
        right = _joined([_polygon(s, circles, corners) for s in others])
        result = left.difference(right) if operation == "difference" else left.intersection(right)
    found = []
    for piece in getattr(result, "geoms", [result]):
        if isinstance(piece, Polygon) and not _is_sliver(piece):
            holes = [r for r in piece.interiors if not _is_sliver(Polygon(r))]
            outer = _recovered(_ring(piece.exterior), circles, corners)
            inner = [_recovered(_ring(r), circles, corners) for r in holes]
            found.append(region(outer, [h for h in inner if h.segments]))
    return in_order(found)


class BoxIndex:
    """Finds which boxes are met, in time that grows with what is found. A box is (x0, y0, x1, y1)."""

    def __init__(self, boxes: NDArray[np.float64]) -> None:
        shapes: Any = shapely.box(*boxes.T)
        self._tree = shapely.STRtree(shapes)

    def meeting(self, boxes: NDArray[np.float64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Pairs (asked, met) of box numbers."""
        asked, met = self._tree.query(shapely.box(*boxes.T))
        return asked, met

    def at(self, points: NDArray[np.float64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Pairs (point, box) for points in boxes."""
        asked, met = self._tree.query(shapely.points(points))
        return asked, met


def _cell(p: Point) -> tuple[int, int]:
    return (round(p[0] * 1e5), round(p[1] * 1e5))


def _circle_of(arc: Arc, circles: list[_Circle]) -> _Circle:
    for c in circles:
        if c.same(arc):
            return c
    circles.append(_Circle(arc.centre, arc.radius))
    return circles[-1]


def _covers(arc: Arc, angle: float) -> bool:
    low = min(arc.start, arc.start + arc.sweep)
    return (angle - low) % _TURN <= abs(arc.sweep) + 1e-9


def _polygon(shape: Region, circles: list[_Circle], corners: dict[tuple[int, int], Point]) -> Polygon:
    rings = []
    for loop in shape.loops:
        points: list[Point] = []
        for corner, s in zip(loop.vertices, loop.segments, strict=True):
            points.append(corners.get(_cell(corner), corner))
            if isinstance(s, Arc):
                points.extend(_circle_of(s, circles).between(s))
        rings.append(points)
    return Polygon(rings[0], rings[1:])


def _joined(polygons: list[Polygon]) -> Any:
    return polygons[0] if len(polygons) == 1 else shapely.union_all(polygons)


def _ring(line: Any) -> list[Point]:
    return [(x, y) for x, y in list(line.coords)[:-1]]


def _is_sliver(piece: Polygon) -> bool:
    return 2 * piece.area <= SLIVER * piece.length


def _recovered(
    points: list[Point], circles: list[_Circle], corners: dict[tuple[int, int], Point]
) -> Loop:
    """The loop of a ring of chords with its arcs given back."""
    last = [points[-1], *points[:-1]]
    points = [p for p, q in zip(points, last, strict=True) if hypot(p[0] - q[0], p[1] - q[1]) > SAME_POINT]
    points = _without_spurs([corners.get(_cell(p), p) for p in points])
    edges = list(zip(points, (*points[1:], points[0]), strict=True))
    tags = [_tag(p, q, circles) for p, q in edges]
    runs: list[_Run] = []
    for tag, (p, q) in zip(tags, edges, strict=True):
        run = _Run(*tag, p, q, _turn(circles[tag[0]], p, q) if tag[1] else 0.0)
        if runs and runs[-1].leads_to(run):
            runs[-1] = runs[-1].and_then(run)
        else:
            runs.append(run)
    if len(runs) > 1 and runs[-1].leads_to(runs[0]):
        runs[0] = runs.pop().and_then(runs[0])
    if len(runs) == 1 and runs[0].way:
        c, half = circles[runs[0].circle], runs[0].way * pi
        return Loop((Arc(c.centre, c.radius, 0.0, half), Arc(c.centre, c.radius, pi, half)))
    joints = [_joint(runs[k - 1], runs[k], circles, corners) for k in range(len(runs))]
    segments: list[Segment] = []
    for run, a, b in zip(runs, joints, [*joints[1:], joints[0]], strict=True):
        if not run.way:
            if hypot(b[0] - a[0], b[1] - a[1]) > SAME_POINT:
                segments.append(Line(a, b))
            continue
        c = circles[run.circle]
        start = c.angle(a)
        raw = c.angle(b) - start
        sweep = raw + _TURN * round((run.turned - raw) / _TURN)
        if sweep * run.way * c.radius > SAME_POINT:
            segments.append(Arc(c.centre, c.radius, start, sweep))
    return Loop(tuple(segments))


def _without_spurs(points: list[Point]) -> list[Point]:
    """The ring without corners from which it runs back on itself: what is left of strips too thin to be."""
    around = zip((points[-1], *points[:-1]), points, (*points[1:], points[0]), strict=True)
    spur = next((k for k, (p, q, r) in enumerate(around) if _runs_back(p, q, r)), None)
    if spur is None or len(points) < 4:
        return points
    return _without_spurs([*points[:spur], *points[spur + 1 :]])


def _runs_back(a: Point, b: Point, c: Point) -> bool:
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
    return abs(ux * vy - uy * vx) <= SAME_POINT * min(hypot(ux, uy), hypot(vx, vy)) and ux * vx + uy * vy < 0


def _turn(c: _Circle, p: Point, q: Point) -> float:
    return (c.angle(q) - c.angle(p) + pi) % _TURN - pi


def _tag(p: Point, q: Point, circles: list[_Circle]) -> tuple[int, int]:
    for k, c in enumerate(circles):
        way = c.owns(p, q)
        if way:
            return (k, way)
    return (-1, 0)


def _straight_on(a: Point, b: Point, c: Point) -> bool:
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
    return abs(ux * vy - uy * vx) <= SAME_POINT * min(hypot(ux, uy), hypot(vx, vy)) and ux * vx + uy * vy > 0


def _joint(
    before: _Run, after: _Run, circles: list[_Circle], corners: dict[tuple[int, int], Point]
) -> Point:
    """Where two runs truly meet: the corner found on chords, moved onto the circles it belongs to."""
    corner = after.first
    if _cell(corner) in corners:
        return corners[_cell(corner)]
    if before.way and after.way:
        true = _circle_meets_circle(circles[before.circle], circles[after.circle], corner)
    elif before.way:
        true = _line_meets_circle(after.first, after.last, circles[before.circle], corner)
    elif after.way:
        true = _line_meets_circle(before.first, before.last, circles[after.circle], corner)
    else:
        return corner
    # where curves hardly cross, their meeting point means nothing and the corner is as good as any
    return true if hypot(true[0] - corner[0], true[1] - corner[1]) <= _FAR else corner


def _line_meets_circle(a: Point, b: Point, c: _Circle, near: Point) -> Point:
    size = hypot(b[0] - a[0], b[1] - a[1])
    ux, uy = (b[0] - a[0]) / size, (b[1] - a[1]) / size
    along = (c.centre[0] - a[0]) * ux + (c.centre[1] - a[1]) * uy
    fx, fy = a[0] + ux * along, a[1] + uy * along
    half = sqrt(max(0.0, c.radius**2 - (fx - c.centre[0]) ** 2 - (fy - c.centre[1]) ** 2))
    options = [(fx + ux * half, fy + uy * half), (fx - ux * half, fy - uy * half)]
    return min(options, key=lambda p: hypot(p[0] - near[0], p[1] - near[1]))


def _circle_meets_circle(c: _Circle, d: _Circle, near: Point) -> Point:
    dx, dy = d.centre[0] - c.centre[0], d.centre[1] - c.centre[1]
    gap = hypot(dx, dy)
    if gap <= SAME_POINT:
        return near
    along = (gap * gap + c.radius**2 - d.radius**2) / (2 * gap)
    half = sqrt(max(0.0, c.radius**2 - along * along))
    mx, my = c.centre[0] + dx / gap * along, c.centre[1] + dy / gap * along
    options = [(mx - dy / gap * half, my + dx / gap * half), (mx + dy / gap * half, my - dx / gap * half)]
    return min(options, key=lambda p: hypot(p[0] - near[0], p[1] - near[1]))
