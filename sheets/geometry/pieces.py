"""Pieces of edges in a view: from solids to straight pieces, and from what is seen of them back to curves.

An edge is a straight piece in (u, v, depth); an arc enters as the chords between the break points of its
circle and leaves as an arc again.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, hypot, pi

import numpy as np
from numpy.typing import NDArray

from sheets.base.tolerance import ABREAST
from sheets.geometry.boundary import Boundary, CurvedWall, Floats, lifted
from sheets.geometry.path import Arc, Curve, Line, Polyline, Similarity
from sheets.geometry.sight import Sighted
from sheets.geometry.solid import AXES, PROFILE

Ints = NDArray[np.int64]

_SQUARE = 1e-9
_GAP = 1e-3  # mm: a gap or an overlap along an edge below this is none
_SAME_DIRECTION = 1e-7  # radians


@dataclass(frozen=True, slots=True, eq=False)
class Edges:
    """ends: (n, 2, 3) in u, v, depth; owner: which solid; arc: which of `arcs`, or -1; turn: (n, 2) the
    parameters of its arc at the ends. arcs: in the view if seen square on, else None (an ellipse)."""

    ends: Floats
    lengths: Floats
    owner: Ints
    arc: Ints
    turn: Floats
    arcs: tuple[Arc | None, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Spans:
    """Parts of edges: of which, from and to along its line, and whether in sight."""

    edge: Ints
    lo: Floats
    hi: Floats
    seen: NDArray[np.bool_]

    def take(self, which: NDArray[np.bool_] | Ints) -> "_Spans":
        return _Spans(self.edge[which], self.lo[which], self.hi[which], self.seen[which])


def gathered(skins: Sequence[Boundary], frame: Floats) -> Edges:
    """All edges of the skins in view coordinates, and the outlines of curved walls; none that is end on."""
    ends: list[Floats] = []
    owner: list[Ints] = []
    arc_of: list[Ints] = []
    turn: list[Floats] = []
    arcs: list[Arc | None] = []

    def add(points: Floats, k: int, arc: int = -1, steps: Floats | None = None) -> None:
        ends.append(points)
        owner.append(np.full(len(points), k))
        arc_of.append(np.full(len(points), arc))
        both = None if steps is None else np.stack([steps[:-1], steps[1:]], axis=1)
        turn.append(np.zeros((len(points), 2)) if both is None else both)

    for k, skin in enumerate(skins):
        add(skin.edges, k)
        outlines = [line for wall in skin.walls for line in _outlines(skin, wall, frame)]
        if outlines:
            add(np.array(outlines), k)
        facing = abs(frame[2, AXES.index(skin.axis)])
        for rim in skin.rims:
            steps = np.array(rim.stops)
            points = np.array(lifted(skin.axis, [rim.arc.point(t) for t in steps], rim.level))
            chords = np.stack([points[:-1], points[1:]], axis=1)
            if facing < _SQUARE:
                add(chords, k)
                continue
            add(chords, k, len(arcs), steps)
            square = facing > 1 - _SQUARE
            arcs.append(rim.arc.transformed(_placing(skin, rim.level, frame)) if square else None)
    if not ends:
        return Edges(np.empty((0, 2, 3)), np.empty(0), *(np.empty(0, np.int64),) * 2, np.empty((0, 2)), ())
    points = np.concatenate(ends) @ frame.T
    lengths = np.hypot(points[:, 1, 0] - points[:, 0, 0], points[:, 1, 1] - points[:, 0, 1])
    shown = lengths > ABREAST
    return Edges(
        points[shown], lengths[shown], np.concatenate(owner)[shown], np.concatenate(arc_of)[shown],
        np.concatenate(turn)[shown], tuple(arcs),
    )


def split(lengths: Floats, edge: Ints, lo: Floats, hi: Floats) -> tuple[Floats, Floats]:
    """What is seen and what is hidden, given spans that are hidden: two arrays of rows (edge, from, to)."""
    slack = _GAP / lengths
    order = np.lexsort((lo, edge))
    edge, lo, hi = edge[order], lo[order], hi[order]
    # edge n covers 2n .. 2n + 1 of one long line, so that one running maximum serves all edges
    reach = np.maximum.accumulate(2 * edge + hi) if len(edge) else np.empty(0)
    fresh = np.ones(len(edge), dtype=bool)
    fresh[1:] = 2 * edge[1:] + lo[1:] > reach[:-1] + slack[edge[1:]]
    first = np.flatnonzero(fresh)
    edge, lo, hi = edge[first], lo[first], np.maximum.reduceat(hi, first) if len(first) else hi
    lo = np.where(lo < slack[edge], 0.0, lo)
    hi = np.where(hi > 1 - slack[edge], 1.0, hi)
    real = hi - lo > slack[edge]
    edge, lo, hi = edge[real], lo[real], hi[real]
    each, none = np.arange(len(lengths)), np.zeros(len(lengths))
    # between hidden spans lie the seen ones: each starts where a hidden one (or nothing) ends
    owner, start = _by_edge(np.concatenate([each, edge]), np.concatenate([none, hi]))
    _, stop = _by_edge(np.concatenate([each, edge]), np.concatenate([none + 1, lo]))
    kept = stop - start > slack[owner]
    seen = np.stack([owner[kept], start[kept], stop[kept]], axis=1)
    return seen, np.stack([edge.astype(np.float64), lo, hi], axis=1)


def _by_edge(edge: Ints, at: Floats) -> tuple[Ints, Floats]:
    order = np.lexsort((at, edge))
    return edge[order], at[order]


def assembled(edges: Edges, seen: Floats, unseen: Floats) -> list[Sighted]:
    """Curves of what is seen and unseen: doubles left out, pieces that run on joined, arcs whole again."""
    rows = np.concatenate([seen, unseen])
    edge = rows[:, 0].astype(np.int64)
    line, a, b = _lines(edges)
    size = b - a
    lo, hi = a[edge] + rows[:, 1] * size[edge], a[edge] + rows[:, 2] * size[edge]
    spans = _Spans(edge, np.minimum(lo, hi), np.maximum(lo, hi), np.arange(len(rows)) < len(seen))
    spans = _single(spans, edges, line, a, b)
    curved = edges.arc[spans.edge] >= 0
    found = _straight(spans.take(~curved), edges, line, a, b)
    found += _curved(spans.take(curved), edges, a, b)
    found.sort(key=lambda s: (s.index, not s.visible, *_place(s.curve)))
    return found


def probe(curve: Curve, t: float) -> tuple[float, float, float, float]:
    """A point on a curve and the unit direction there: (u, v, du, dv)."""
    if isinstance(curve, Polyline):
        k = min(int(t * (len(curve.points) - 1)), len(curve.points) - 2)
        a, b = curve.points[k], curve.points[k + 1]
        size = hypot(b[0] - a[0], b[1] - a[1])
        return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (b[0] - a[0]) / size, (b[1] - a[1]) / size)
    return (*curve.point(t), *curve.heading(t))


def _outlines(skin: Boundary, wall: CurvedWall, frame: Floats) -> list[list[tuple[float, float, float]]]:
    """Lines along a curved wall where it turns away from the viewer."""
    p, q = PROFILE[skin.axis]
    if hypot(frame[2, p], frame[2, q]) < _SQUARE:
        return []
    found = []
    low = min(wall.arc.start, wall.arc.start + wall.arc.sweep)
    for quarter in (pi / 2, -pi / 2):
        angle = atan2(frame[2, q], frame[2, p]) + quarter
        if (angle - low + 1e-9) % (2 * pi) <= abs(wall.arc.sweep) + 2e-9:
            spot = wall.arc.at_angle(angle)
            found.append([*lifted(skin.axis, (spot,), wall.lo), *lifted(skin.axis, (spot,), wall.hi)])
    return found


def _placing(skin: Boundary, level: float, frame: Floats) -> Similarity:
    p, q = PROFILE[skin.axis]
    s = AXES.index(skin.axis)
    (rp, rq, rs), (up, uq, us) = frame[0, [p, q, s]].tolist(), frame[1, [p, q, s]].tolist()
    return Similarity(rp, rq, up, uq, rs * level, us * level)


def _lines(edges: Edges) -> tuple[Ints, Floats, Floats]:
    """For each edge the number of the endless line it lies on, and where on that line it starts and ends."""
    flat = edges.ends[:, :, :2]
    step = flat[:, 1] - flat[:, 0]
    tiny = 1e-9 * edges.lengths
    back = (step[:, 0] < -tiny) | ((np.abs(step[:, 0]) <= tiny) & (step[:, 1] < 0))
    step = np.where(back[:, None], -step, step)
    angle = np.where(np.abs(step[:, 0]) <= tiny, pi / 2, np.arctan2(step[:, 1], step[:, 0]))
    heading, representative = _clusters(angle, np.zeros(len(angle)), _SAME_DIRECTION)
    way = angle[representative][heading]
    c, s = np.where(way == pi / 2, 0.0, np.cos(way)), np.sin(way)
    middle = flat.mean(axis=1)
    line, _ = _clusters(c * middle[:, 1] - s * middle[:, 0], heading, ABREAST)
    along = c[:, None] * flat[:, :, 0] + s[:, None] * flat[:, :, 1]
    return line, along[:, 0], along[:, 1]


def _clusters(values: Floats, group: NDArray[np.generic], gap: float) -> tuple[Ints, Ints]:
    """Number values of a group so that those chained by less than `gap` share one; and the first of each."""
    order = np.lexsort((values, group))
    v, g = values[order], group[order]
    fresh = np.ones(len(v), dtype=bool)
    fresh[1:] = (g[1:] != g[:-1]) | (v[1:] - v[:-1] > gap)
    number = np.empty(len(v), dtype=np.int64)
    number[order] = np.cumsum(fresh) - 1
    return number, order[fresh]


def _depth_at(edges: Edges, edge: Ints, where: Floats, a: Floats, b: Floats) -> Floats:
    start, stop = edges.ends[edge, 0, 2], edges.ends[edge, 1, 2]
    found: Floats = start + (stop - start) * ((where - a[edge]) / (b[edge] - a[edge]))
    return found


def _single(spans: _Spans, edges: Edges, line: Ints, a: Floats, b: Floats) -> _Spans:
    """Spans with no two over each other: what is in sight stays, then the nearest, then the first solid."""
    order = np.lexsort((spans.lo, line[spans.edge]))
    spans = spans.take(order)
    on = line[spans.edge]
    span = float(np.ptp(np.concatenate([spans.lo, spans.hi]))) + 10.0 if len(on) else 1.0
    base = on * span - (float(spans.lo.min()) if len(on) else 0.0)
    reach = np.maximum.accumulate(base + spans.hi)
    fresh = np.ones(len(on), dtype=bool)
    fresh[1:] = base[1:] + spans.lo[1:] > reach[:-1] - _GAP
    first = np.flatnonzero(fresh)
    count = np.diff(np.append(first, len(on)))
    alone = np.repeat(count == 1, count)
    depth = np.round(_depth_at(edges, spans.edge, (spans.lo + spans.hi) / 2, a, b), 3)
    rank = np.empty(len(on), dtype=np.int64)
    best_first = np.lexsort((spans.lo, spans.edge, edges.owner[spans.edge], -depth, ~spans.seen))
    rank[best_first] = np.arange(len(on))
    lo, hi, ranks = spans.lo.tolist(), spans.hi.tolist(), rank.tolist()
    which: list[int] = []
    cuts: list[tuple[float, float]] = []
    for start, size in zip(first[count > 1].tolist(), count[count > 1].tolist(), strict=True):
        taken: list[tuple[float, float]] = []
        for k in sorted(range(start, start + size), key=ranks.__getitem__):
            left = _less(lo[k], hi[k], taken)
            if left:
                which.extend([k] * len(left))
                cuts.extend(left)
                taken.append((lo[k], hi[k]))
    chosen = np.array(which, dtype=np.int64)
    cut = np.array(cuts).reshape(-1, 2)
    kept = spans.take(alone)
    return _Spans(
        np.concatenate([kept.edge, spans.edge[chosen]]), np.concatenate([kept.lo, cut[:, 0]]),
        np.concatenate([kept.hi, cut[:, 1]]), np.concatenate([kept.seen, spans.seen[chosen]]),
    )


def _less(lo: float, hi: float, taken: list[tuple[float, float]]) -> list[tuple[float, float]]:
    left = [(lo, hi)]
    for a, b in taken:
        if a <= lo + _GAP and b >= hi - _GAP:
            return []
        if b <= lo or a >= hi:
            continue
        left = [p for x, y in left for p in ((x, min(y, a)), (max(x, b), y)) if p[1] - p[0] > _GAP]
    return left


def _straight(spans: _Spans, edges: Edges, line: Ints, a: Floats, b: Floats) -> list[Sighted]:
    if not len(spans.edge):
        return []
    owner = edges.owner[spans.edge]
    order = np.lexsort((spans.lo, line[spans.edge], spans.seen, owner))
    spans, owner = spans.take(order), owner[order]
    on = line[spans.edge]
    near, far = (_depth_at(edges, spans.edge, w, a, b) for w in (spans.lo, spans.hi))
    fresh = np.ones(len(on), dtype=bool)
    fresh[1:] = (
        (on[1:] != on[:-1]) | (owner[1:] != owner[:-1]) | (spans.seen[1:] != spans.seen[:-1])
        | (spans.lo[1:] - spans.hi[:-1] > _GAP) | (np.abs(near[1:] - far[:-1]) > 10 * _GAP)
    )
    first = np.flatnonzero(fresh)
    last = np.append(first[1:], len(on)) - 1
    start, stop = _point_at(spans.edge, spans.lo, edges, a, b), _point_at(spans.edge, spans.hi, edges, a, b)
    depth = (near[first] + far[last]) / 2
    return [
        Sighted(k, Line((p[0], p[1]), (q[0], q[1])), seen, 0.0, d)
        for k, p, q, seen, d in zip(
            owner[first].tolist(), start[first].tolist(), stop[last].tolist(), spans.seen[first].tolist(),
            depth.tolist(), strict=True,
        )
    ]


def _point_at(edge: Ints, where: Floats, edges: Edges, a: Floats, b: Floats) -> Floats:
    """Points in the view at places along lines, rounded at the ninth decimal; ends come out exact."""
    t = ((where - a[edge]) / (b[edge] - a[edge]))[:, None]
    start, stop = edges.ends[edge, 0, :2], edges.ends[edge, 1, :2]
    slack = (_GAP / 10 / edges.lengths[edge])[:, None]
    found: Floats = np.where(t < slack, start, np.where(t > 1 - slack, stop, start + (stop - start) * t))
    return np.round(found, 9) + 0.0


def _curved(spans: _Spans, edges: Edges, a: Floats, b: Floats) -> list[Sighted]:
    """Arcs (or, seen at a slant, polylines) of the chords that are left, as far as each runs on."""
    if not len(spans.edge):
        return []
    e = spans.edge
    at = np.sort(np.stack([(w - a[e]) / (b[e] - a[e]) for w in (spans.lo, spans.hi)], axis=1), axis=1)
    at = np.where(at < 1e-6, 0.0, np.where(at > 1 - 1e-6, 1.0, at))
    turn = edges.turn[e, 0][:, None] + (edges.turn[e, 1] - edges.turn[e, 0])[:, None] * at
    order = np.lexsort((turn[:, 0], ~spans.seen, edges.arc[e]))
    e, at, turn, seen = e[order], at[order], turn[order], spans.seen[order]
    arc = edges.arc[e]
    slack = _GAP / edges.lengths[e] * (edges.turn[e, 1] - edges.turn[e, 0])
    fresh = np.ones(len(e), dtype=bool)
    fresh[1:] = (arc[1:] != arc[:-1]) | (seen[1:] != seen[:-1]) | (turn[1:, 0] - turn[:-1, 1] > 2 * slack[1:])
    first = np.flatnonzero(fresh)
    found = []
    for i, j in zip(first.tolist(), np.append(first[1:], len(e)).tolist(), strict=True):
        whole = edges.arcs[arc[i]]
        points = edges.ends[e[i:j], 0] + (edges.ends[e[i:j], 1] - edges.ends[e[i:j], 0]) * at[i:j, :1]
        end = edges.ends[e[j - 1], 0] + (edges.ends[e[j - 1], 1] - edges.ends[e[j - 1], 0]) * at[j - 1, 1]
        run = [*points.tolist(), end.tolist()]
        curve: Curve = (
            Polyline(tuple((p[0], p[1]) for p in run)) if whole is None
            else whole.part(float(turn[i, 0]), float(turn[j - 1, 1]))
        )
        found.append(Sighted(int(edges.owner[e[i]]), curve, bool(seen[i]), 0.0, run[len(run) // 2][2]))
    return found


def _place(curve: Curve) -> tuple[float, ...]:
    (a, b), (c, d) = curve.first, curve.last
    return (round(min(a, c), 4), round(min(b, d), 4), round(max(a, c), 4), round(max(b, d), 4), a, b)
