"""The skin of a solid: flat faces as convex pieces, and the edges between faces that meet at an angle.

Frame: the wall's, millimetres. Curved walls are taken as strips between the break points of their circle.
"""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import hypot
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.joining import difference
from sheets.geometry.path import Arc, Line, Point, Segment
from sheets.geometry.region import Region, is_rectangle, smooth_joint
from sheets.geometry.solid import Axis, Slab, Solid

_Thing = TypeVar("_Thing")
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Rim:
    """An arc edge, in the plane square to the solid's axis at a level. stops: the parameters that its chords
    run between, those where the faces beside it are broken among them."""

    level: float
    arc: Arc
    stops: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class CurvedWall:
    """An arc of the profile swept between two levels."""

    arc: Arc
    lo: float
    hi: float


@dataclass(frozen=True, slots=True, eq=False)
class Boundary:
    """Faces and edges as arrays.

    faces: (n, 4, 3) corners of convex pieces, a triangle repeating its last corner; normals: (n, 3), outward.
    edges: (m, 2, 3) ends of the straight edges; borders between pieces of one face are not among them.
    """

    axis: Axis
    faces: Floats
    normals: Floats
    edges: Floats
    rims: tuple[Rim, ...]
    walls: tuple[CurvedWall, ...]


@lru_cache(maxsize=8192)
def boundary(solid: Solid) -> Boundary:
    """The faces and edges of a solid. Edges where faces pass smoothly into each other are left out, and so
    are the seams between slabs whose sides are flush."""
    caps = [
        (shape, level, way)
        for level, below, above in _interfaces(solid.slabs)
        for one, other, way in ((below, above, 1.0), (above, below, -1.0))
        for shape in difference(one, other)
    ]
    spots: list[Point] = []
    if len(solid.slabs) > 1:
        shapes = [shape for shape, _, _ in caps] + [r for s in solid.slabs for r in s.regions]
        spots = list({_key(p): p for r in shapes for loop in r.loops for p in loop.vertices}.values())
    made = _Skin(solid.axis, spots)
    for shape, level, way in caps:
        made.cap(shape, level, way)
    for wall, lo, hi in _walls(solid.slabs, spots):
        made.wall(wall, lo, hi)
    for corner, lo, hi in _corners(solid.slabs):
        made.rise(corner, lo, hi)
    return made.done()


def lifted(axis: Axis, points: Iterable[Point], level: float) -> list[tuple[float, float, float]]:
    """Profile points as points of the wall's frame."""
    if axis == "x":
        return [(level, p, q) for p, q in points]
    if axis == "y":
        return [(p, level, q) for p, q in points]
    return [(p, q, level) for p, q in points]


class _Skin:
    def __init__(self, axis: Axis, spots: list[Point]) -> None:
        self.axis: Axis = axis
        self.spots = spots
        self.faces: list[list[tuple[float, float, float]]] = []
        self.normals: list[tuple[float, float, float]] = []
        self.edges: list[list[tuple[float, float, float]]] = []
        self.rims: list[Rim] = []
        self.walls: list[CurvedWall] = []

    def cap(self, shape: Region, level: float, way: float) -> None:
        normal = lifted(self.axis, ((0.0, 0.0),), way)[0]
        for piece in _convex_pieces(shape, self.spots):
            corners = lifted(self.axis, piece, level)
            self.faces.append(corners if len(corners) == 4 else [*corners, corners[-1]])
            self.normals.append(normal)
        for loop in shape.loops:
            corners2 = loop.vertices
            for k, s in enumerate(loop.segments):
                if isinstance(s, Arc):
                    self.rims.append(Rim(level, s, _stops(s, self.spots)))
                else:
                    ends = (corners2[k], corners2[(k + 1) % len(corners2)])
                    self.edges.append(lifted(self.axis, ends, level))

    def wall(self, side: Segment, lo: float, hi: float) -> None:
        points = side.flatten()
        if isinstance(side, Arc):
            self.walls.append(CurvedWall(side, lo, hi))
        for a, b in itertools.pairwise(points):
            size = hypot(b[0] - a[0], b[1] - a[1])
            if size <= SAME_POINT:
                continue
            self.faces.append([*lifted(self.axis, (a, b), lo), *lifted(self.axis, (b, a), hi)])
            self.normals.append(lifted(self.axis, (((b[1] - a[1]) / size, (a[0] - b[0]) / size),), 0.0)[0])

    def rise(self, corner: Point, lo: float, hi: float) -> None:
        self.edges.append([*lifted(self.axis, (corner,), lo), *lifted(self.axis, (corner,), hi)])

    def done(self) -> Boundary:
        return Boundary(
            self.axis,
            np.array(self.faces, dtype=np.float64).reshape(-1, 4, 3),
            np.array(self.normals, dtype=np.float64).reshape(-1, 3),
            np.array(self.edges, dtype=np.float64).reshape(-1, 2, 3),
            tuple(self.rims),
            tuple(self.walls),
        )


def _interfaces(slabs: tuple[Slab, ...]) -> list[tuple[float, tuple[Region, ...], tuple[Region, ...]]]:
    found: list[tuple[float, tuple[Region, ...], tuple[Region, ...]]] = []
    below: Slab | None = None
    for slab in slabs:
        if below is not None and slab.lo - below.hi > SAME_POINT:
            found.append((below.hi, below.regions, ()))
            below = None
        found.append((slab.lo, below.regions if below else (), slab.regions))
        below = slab
    found.append((slabs[-1].hi, slabs[-1].regions, ()))
    return found


def _convex_pieces(shape: Region, spots: list[Point]) -> list[tuple[Point, ...]]:
    if is_rectangle(shape):
        return [shape.outer.vertices]
    points = shape.outer.vertices
    if not shape.holes and all(isinstance(s, Line) for s in shape.outer.segments) and _is_convex(points):
        if len(points) <= 4:
            return [points]
        return [(points[0], points[k], points[k + 1]) for k in range(1, len(points) - 1)]
    rings = [
        [p for whole in loop.segments for piece in _broken_arc(whole, spots) for p in piece.flatten()[:-1]]
        for loop in shape.loops
    ]
    return _trapezoids(rings)


def _trapezoids(rings: list[list[Point]]) -> list[tuple[Point, ...]]:
    """The inside of rings of points, in strips from corner to corner along the axis that needs fewer of them.

    A triangulation would do as well on paper; shapes that touch themselves at a corner, as a rabbet that
    meets a dado does, break one and leave strips whole.
    """
    turned = len({_key(p)[1] for ring in rings for p in ring}) < len(
        {_key(p)[0] for ring in rings for p in ring}
    )
    if turned:
        rings = [[(q, p) for p, q in ring] for ring in rings]
    levels = sorted({_key(p)[0]: p[0] for ring in rings for p in ring}.values())
    sides = [
        (a, b) if a[0] < b[0] else (b, a)
        for ring in rings
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True)
        if abs(a[0] - b[0]) > SAME_POINT
    ]
    found: list[tuple[Point, ...]] = []
    for lo, hi in itertools.pairwise(levels):
        if hi - lo <= SAME_POINT:
            continue  # the ends of an arc and of its neighbour, on two sides of a rounding border
        middle = (lo + hi) / 2
        crossing = sorted(
            ((_height(side, middle), side) for side in sides if side[0][0] < middle < side[1][0]),
            key=lambda one: one[0],
        )
        for (_, low), (_, high) in zip(crossing[::2], crossing[1::2], strict=True):
            ends = (_height(low, lo), _height(low, hi), _height(high, hi), _height(high, lo))
            if max(ends[3] - ends[0], ends[2] - ends[1]) <= SAME_POINT:
                continue  # a face without area would hide all that lies in its line
            corners = ((lo, ends[0]), (hi, ends[1]), (hi, ends[2]), (lo, ends[3]))
            found.append(tuple((q, p) for p, q in reversed(corners)) if turned else corners)
    return found


def _height(side: tuple[Point, Point], at: float) -> float:
    (ax, ay), (bx, by) = side
    return ay + (by - ay) * (at - ax) / (bx - ax)


def _is_convex(points: tuple[Point, ...]) -> bool:
    for k in range(len(points)):
        (ax, ay), (bx, by), (cx, cy) = points[k - 2], points[k - 1], points[k]
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < 0:
            return False
    return True


def _key(*points: Point) -> tuple[int, ...]:
    return tuple(round(c * 1e5) for p in points for c in p)


def _walls(slabs: tuple[Slab, ...], spots: list[Point]) -> list[tuple[Segment, float, float]]:
    """The sides of all slabs, each run on through neighbouring slabs as far as it goes.

    Sides are first broken at the spots, every corner of the solid, so that those of two slabs are the same
    or do not meet.
    """
    runs: dict[tuple[int, ...], list[tuple[Segment, float, float]]] = {}
    for slab in slabs:
        for r in slab.regions:
            for loop in r.loops:
                for s in loop.segments:
                    for piece in _broken(s, spots):
                        _prolong(runs, _key(piece.first, piece.point(0.5), piece.last), piece, slab)
    return [run for found in runs.values() for run in found]


def _corners(slabs: tuple[Slab, ...]) -> list[tuple[Point, float, float]]:
    runs: dict[tuple[int, ...], list[tuple[Point, float, float]]] = {}
    for slab in slabs:
        for r in slab.regions:
            for loop in r.loops:
                for k, corner in enumerate(loop.vertices):
                    if not smooth_joint(loop.segments[k - 1], loop.segments[k]):
                        _prolong(runs, _key(corner), corner, slab)
    return [run for found in runs.values() for run in found]


def _prolong(
    runs: dict[tuple[int, ...], list[tuple[_Thing, float, float]]],
    key: tuple[int, ...],
    thing: _Thing,
    slab: Slab,
) -> None:
    found = runs.setdefault(key, [])
    if found and abs(found[-1][2] - slab.lo) <= SAME_POINT:
        found[-1] = (found[-1][0], found[-1][1], slab.hi)
    elif not found or found[-1][2] != slab.hi:
        found.append((thing, slab.lo, slab.hi))


def _stops(arc: Arc, spots: list[Point]) -> tuple[float, ...]:
    """The parameters of an arc that its chords run between: those of its circle and those at spots."""
    stops: list[float] = [0.0]
    at = 0.0
    for piece in _broken(arc, spots):
        size = piece.length / arc.length
        if isinstance(piece, Arc):
            stops.extend(at + t * size for t in piece.break_parameters()[1:])
        at += size
    stops[-1] = 1.0
    return tuple(stops)


def _broken_arc(s: Segment, spots: list[Point]) -> list[Segment]:
    return _broken(s, spots) if isinstance(s, Arc) else [s]


def _broken(s: Segment, spots: list[Point]) -> list[Segment]:
    if not spots:
        return [s]
    stops = [0.0, 1.0]
    x0, y0, x1, y1 = s.bounds
    for p in spots:
        if not (x0 - SAME_POINT <= p[0] <= x1 + SAME_POINT and y0 - SAME_POINT <= p[1] <= y1 + SAME_POINT):
            continue
        t = _parameter(s, p)
        if t is not None and SAME_POINT < t * s.length < s.length - SAME_POINT:
            stops.append(t)
    if len(stops) == 2:
        return [s]
    stops.sort()
    return [s.part(a, b) for a, b in itertools.pairwise(stops) if (b - a) * s.length > SAME_POINT]


def _parameter(s: Segment, p: Point) -> float | None:
    """Where a point lies on a segment, or None if it does not lie on it."""
    if isinstance(s, Line):
        ux, uy = s.heading()
        vx, vy = p[0] - s.a[0], p[1] - s.a[1]
        return (ux * vx + uy * vy) / s.length if abs(ux * vy - uy * vx) <= SAME_POINT else None
    vx, vy = p[0] - s.centre[0], p[1] - s.centre[1]
    if abs(hypot(vx, vy) - s.radius) > SAME_POINT:
        return None
    turn = float(np.arctan2(vy, vx)) - s.start
    lap = turn % (2 * np.pi) if s.sweep > 0 else -((-turn) % (2 * np.pi))
    t = lap / s.sweep
    return t if t <= 1.0 else None
