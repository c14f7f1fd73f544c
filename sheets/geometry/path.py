"""Plane paths: straight lines, true circular arcs and polylines, and the loops made of them.

Frame: any plane, two axes of equal scale, floats in millimetres. Angles are radians,
counter-clockwise positive from the first axis. What makes a path (`line`, `arc_through`, `loop_from_points`)
takes exact lengths as well: they become floats here and nowhere before.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import acos, asin, atan, atan2, ceil, cos, floor, fsum, hypot, pi, sin, sqrt

from sheets.base.tolerance import CHORD_HEIGHT, SAME_POINT
from sheets.geometry.box import Box, around_points

Length = float | Fraction
"""mm, exact where it comes from a spec."""
Place = tuple[Length, Length]
Point = tuple[float, float]

_ANGLE_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Similarity:
    """A plane map that keeps shape: turn, mirror, scale, shift.

    (x, y) goes to (xx*x + xy*y + dx, yx*x + yy*y + dy).
    """

    xx: float = 1.0
    xy: float = 0.0
    yx: float = 0.0
    yy: float = 1.0
    dx: float = 0.0
    dy: float = 0.0

    def __call__(self, point: Point) -> Point:
        x, y = point
        return (self.xx * x + self.xy * y + self.dx + 0.0, self.yx * x + self.yy * y + self.dy + 0.0)

    @property
    def scale(self) -> float:
        """The factor that lengths grow by; always positive."""
        return hypot(self.xx, self.yx)

    @property
    def mirrors(self) -> bool:
        """True if a counter-clockwise path becomes a clockwise one."""
        return self.xx * self.yy - self.xy * self.yx < 0

    def then(self, later: "Similarity") -> "Similarity":
        """The map that does this one first and `later` after it."""
        dx, dy = later((self.dx, self.dy))
        return Similarity(
            later.xx * self.xx + later.xy * self.yx,
            later.xx * self.xy + later.xy * self.yy,
            later.yx * self.xx + later.yy * self.yx,
            later.yx * self.xy + later.yy * self.yy,
            dx,
            dy,
        )


def shifted(dx: float, dy: float) -> Similarity:
    """Move by (dx, dy) mm."""
    return Similarity(dx=dx, dy=dy)


def scaled(factor: float) -> Similarity:
    """Scale about the origin by a positive factor."""
    return Similarity(xx=factor, yy=factor)


def turned(angle: float, about: Point = (0.0, 0.0)) -> Similarity:
    """Turn counter-clockwise by `angle` radians about a point."""
    c, s = cos(angle), sin(angle)
    x, y = about
    return Similarity(c, -s, s, c, x - c * x + s * y, y - s * x - c * y)


MIRROR_FIRST = Similarity(xx=-1.0)
"""Negates the first coordinate exactly."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight segment from a to b."""

    a: Point
    b: Point

    @property
    def first(self) -> Point:
        return self.a

    @property
    def last(self) -> Point:
        return self.b

    @property
    def length(self) -> float:
        return hypot(self.b[0] - self.a[0], self.b[1] - self.a[1])

    @property
    def bounds(self) -> Box:
        (ax, ay), (bx, by) = self.a, self.b
        return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))

    def point(self, t: float) -> Point:
        """The point at parameter t, 0 at a and 1 at b (both exact)."""
        if t == 0.0:
            return self.a
        if t == 1.0:
            return self.b
        (ax, ay), (bx, by) = self.a, self.b
        return (ax + (bx - ax) * t, ay + (by - ay) * t)

    def heading(self, t: float = 0.0) -> Point:
        """The unit direction of travel."""
        size = self.length
        return ((self.b[0] - self.a[0]) / size, (self.b[1] - self.a[1]) / size)

    def part(self, t0: float, t1: float) -> "Line":
        """The piece between two parameters."""
        return Line(self.point(t0), self.point(t1))

    def reversed(self) -> "Line":
        return Line(self.b, self.a)

    def transformed(self, change: Similarity) -> "Line":
        return Line(change(self.a), change(self.b))

    def flatten(self, tolerance: float = CHORD_HEIGHT) -> tuple[Point, ...]:
        return (self.a, self.b)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc: from angle `start`, through the signed angle `sweep` (counter-clockwise positive)."""

    centre: Point
    radius: float
    start: float
    sweep: float

    @property
    def first(self) -> Point:
        return self.point(0.0)

    @property
    def last(self) -> Point:
        return self.point(1.0)

    @property
    def length(self) -> float:
        return self.radius * abs(self.sweep)

    @property
    def chord(self) -> float:
        """Straight distance between the ends."""
        return 2 * self.radius * abs(sin(self.sweep / 2))

    @property
    def rise(self) -> float:
        """Height of the arc over its chord (the sagitta); over the diameter for more than a half circle."""
        return self.radius * (1 - cos(self.sweep / 2))

    @property
    def crowns(self) -> tuple[Point, ...]:
        """The points strictly inside the arc that are farthest out along an axis."""
        found = []
        low, high = sorted((self.start, self.start + self.sweep))
        for k in range(ceil((low + _ANGLE_NOISE) / (pi / 2)), floor((high - _ANGLE_NOISE) / (pi / 2)) + 1):
            east, north = ((1, 0), (0, 1), (-1, 0), (0, -1))[k % 4]
            found.append((self.centre[0] + east * self.radius, self.centre[1] + north * self.radius))
        return tuple(found)

    @property
    def bounds(self) -> Box:
        return around_points((self.first, self.last, *self.crowns))

    def at_angle(self, angle: float) -> Point:
        return (self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle))

    def point(self, t: float) -> Point:
        """The point at parameter t; t is proportional to the angle turned."""
        return self.at_angle(self.start + self.sweep * t)

    def heading(self, t: float = 0.0) -> Point:
        """The unit direction of travel at parameter t."""
        angle = self.start + self.sweep * t
        way = 1.0 if self.sweep > 0 else -1.0
        return (-sin(angle) * way, cos(angle) * way)

    def part(self, t0: float, t1: float) -> "Arc":
        """The piece of the same circle between two parameters."""
        return Arc(self.centre, self.radius, self.start + self.sweep * t0, self.sweep * (t1 - t0))

    def reversed(self) -> "Arc":
        return Arc(self.centre, self.radius, self.start + self.sweep, -self.sweep)

    def transformed(self, change: Similarity) -> "Arc":
        """The same arc under a similarity; a mirrored arc is an arc that runs the other way."""
        turn = atan2(change.yx, change.xx)
        start = turn - self.start if change.mirrors else turn + self.start
        sweep = -self.sweep if change.mirrors else self.sweep
        return Arc(change(self.centre), self.radius * change.scale, start, sweep)

    def break_parameters(self, tolerance: float = CHORD_HEIGHT) -> tuple[float, ...]:
        """Parameters from 0 to 1 between which a chord stands off by no more than `tolerance`.

        They fall on angles that belong to the circle, quarters included, and not to this arc, so that
        two arcs of one circle break at the same points and fit each other after flattening.
        """
        step = circle_step(self.radius, tolerance)
        low, high = sorted((self.start, self.start + self.sweep))
        noise = max(_ANGLE_NOISE, SAME_POINT / self.radius)
        inner = [k * step for k in range(ceil((low + noise) / step), floor((high - noise) / step) + 1)]
        steps = [(angle - self.start) / self.sweep for angle in inner]
        return (0.0, *(steps if self.sweep > 0 else steps[::-1]), 1.0)

    def flatten(self, tolerance: float = CHORD_HEIGHT) -> tuple[Point, ...]:
        """Points on the arc, ends included."""
        return tuple(self.point(t) for t in self.break_parameters(tolerance))


@dataclass(frozen=True, slots=True)
class Polyline:
    """An open run of straight pieces through points."""

    points: tuple[Point, ...]

    @property
    def first(self) -> Point:
        return self.points[0]

    @property
    def last(self) -> Point:
        return self.points[-1]

    @property
    def length(self) -> float:
        return fsum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(self.points))

    @property
    def bounds(self) -> Box:
        return around_points(self.points)

    def reversed(self) -> "Polyline":
        return Polyline(self.points[::-1])

    def transformed(self, change: Similarity) -> "Polyline":
        return Polyline(tuple(change(p) for p in self.points))

    def flatten(self, tolerance: float = CHORD_HEIGHT) -> tuple[Point, ...]:
        return self.points


Segment = Line | Arc
Curve = Line | Arc | Polyline


def circle_step(radius: float, tolerance: float = CHORD_HEIGHT) -> float:
    """The angle between break points on a circle: a whole part of a quarter turn."""
    widest = 2 * acos(max(0.0, 1 - tolerance / radius)) if radius > tolerance else pi / 2
    return (pi / 2) / max(1, ceil((pi / 2) / widest))


def radius_from_chord_rise(chord: float, rise: float) -> float:
    """The radius of the arc over a chord with a given rise, R = (c^2/4 + h^2) / 2h.

    Source: intersecting chords theorem (Euclid III.35); Hatfield, American House Carpenter, art. 518.
    """
    return (chord * chord / 4 + rise * rise) / (2 * rise)


def ordinate(chord: float, rise: float, offset: float) -> float:
    """Height of an arc over its chord at `offset` from the middle; rise is at most half the chord."""
    radius = radius_from_chord_rise(chord, rise)
    return sqrt(max(0.0, radius * radius - offset * offset)) - (radius - rise)


def ordinates(chord: float, rise: float, offsets: Iterable[float]) -> tuple[float, ...]:
    """Heights to mark off a chord to lay an arc out without a compass."""
    return tuple(ordinate(chord, rise, x) for x in offsets)


def arc_angle(chord: float, rise: float) -> float:
    """The angle in radians that an arc of at most a half circle turns through."""
    return 2 * asin(min(1.0, chord / (2 * radius_from_chord_rise(chord, rise))))


def arc_from_bulge(a: Point, b: Point, bulge: float) -> Arc:
    """The arc from a to b whose bulge, tan(sweep / 4), is given; positive turns counter-clockwise."""
    (ax, ay), (bx, by) = a, b
    dx, dy = bx - ax, by - ay
    off = (1 - bulge * bulge) / (4 * bulge)
    centre = ((ax + bx) / 2 - dy * off, (ay + by) / 2 + dx * off)
    radius = hypot(dx, dy) * (1 + bulge * bulge) / (4 * abs(bulge))
    return Arc(centre, radius, atan2(ay - centre[1], ax - centre[0]), 4 * atan(bulge))


def arc_through(chord_start: Place, chord_end: Place, rise: Length) -> Arc:
    """The arc over a chord. A positive rise is to the left of the chord: above, drawn from left to right."""
    a, b = _point(chord_start), _point(chord_end)
    return arc_from_bulge(a, b, -2 * float(rise) / hypot(b[0] - a[0], b[1] - a[1]))


def line(a: Place, b: Place) -> Line:
    """The straight segment between two places."""
    return Line(_point(a), _point(b))


def _point(place: Place) -> Point:
    return float(place[0]), float(place[1])


@dataclass(frozen=True, slots=True)
class Loop:
    """A closed path: each segment starts where the one before ends, the first where the last ends."""

    segments: tuple[Segment, ...]

    @property
    def area(self) -> float:
        """Signed area in mm^2, positive if counter-clockwise; exact for arcs."""
        total = 0.0
        for s in self.segments:
            (ax, ay), (bx, by) = s.first, s.last
            total += (ax * by - bx * ay) / 2
            if isinstance(s, Arc):
                total += s.radius * s.radius * (s.sweep - sin(s.sweep)) / 2
        return total

    @property
    def length(self) -> float:
        return fsum(s.length for s in self.segments)

    @property
    def bounds(self) -> Box:
        vertices = self.vertices
        crowns = [p for s in self.segments if type(s) is Arc for p in s.crowns]
        return around_points([*vertices, *crowns] if crowns else vertices)

    @property
    def vertices(self) -> tuple[Point, ...]:
        """Where the segments meet, in order; the end of a line is trusted before that of an arc."""
        if all(type(s) is Line for s in self.segments):  # asked so often that the short way is worth it
            return tuple(s.a for s in self.segments)  # type: ignore[union-attr]
        found = []
        for before, after in zip((self.segments[-1], *self.segments[:-1]), self.segments, strict=True):
            exact = after.first if isinstance(after, Line) or isinstance(before, Arc) else before.last
            found.append(exact)
        return tuple(found)

    def flatten(self, tolerance: float = CHORD_HEIGHT) -> tuple[Point, ...]:
        """The loop as points, arcs as chords; the first point is not repeated."""
        points: list[Point] = []
        for corner, s in zip(self.vertices, self.segments, strict=True):
            points.append(corner)
            if isinstance(s, Arc):
                points.extend(s.flatten(tolerance)[1:-1])
        return tuple(points)

    def reversed(self) -> "Loop":
        return Loop(tuple(s.reversed() for s in reversed(self.segments)))

    def transformed(self, change: Similarity) -> "Loop":
        return Loop(tuple(s.transformed(change) for s in self.segments))


def loop_from_points(points: Sequence[Sequence[Length]]) -> Loop:
    """A loop through (x, y) or (x, y, bulge) in turn; a bulge bends the side that leaves its point.

    Raises ValueError for fewer than two points, or two that coincide.
    """
    if len(points) < 2:
        raise ValueError("a loop needs at least two points")
    segments: list[Segment] = []
    for here, there in zip(points, (*points[1:], points[0]), strict=True):
        a, b = (float(here[0]), float(here[1])), (float(there[0]), float(there[1]))
        if hypot(b[0] - a[0], b[1] - a[1]) < SAME_POINT:
            raise ValueError(f"two points of a loop coincide at {a}")
        bulge = float(here[2]) if len(here) > 2 else 0.0
        segments.append(arc_from_bulge(a, b, bulge) if bulge else Line(a, b))
    return Loop(tuple(segments))


def circle(centre: Point, radius: float) -> Loop:
    """A full circle, counter-clockwise, as two half circles."""
    return Loop((Arc(centre, radius, 0.0, pi), Arc(centre, radius, pi, pi)))
