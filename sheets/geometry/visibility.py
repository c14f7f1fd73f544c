"""Which edges are seen: every edge loses the intervals that nearer faces hide.

Method: faces turned to the viewer are convex pieces, each a plane over its outline in the view. An index
of boxes finds the faces an edge can meet; each pair is settled by clipping the edge to the outline and
to the half space behind the plane (Cyrus and Beck 1978), all pairs at once. What is left over is seen.
An edge that runs along the outline of a nearer face counts as hidden by it, since that outline is itself
an edge and is drawn.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sheets.base.tolerance import ABREAST, NEARER, SAME_POINT, STEP_PROBE
from sheets.geometry import pieces
from sheets.geometry.boundary import Boundary, Floats, boundary
from sheets.geometry.overlay import BoxIndex
from sheets.geometry.sight import Sight, Sighted
from sheets.geometry.solid import Solid

Ints = NDArray[np.int64]

_FACING = 1e-6
_FIRST_LOT = 128
_PROBES = (0.25, 0.5, 0.75)


@dataclass(frozen=True, slots=True, eq=False)
class _Faces:
    """Faces turned to the viewer: outlines as four inward half planes (a*u + b*v + c >= 0 inside, in mm),
    depth as a plane (d = p*u + q*v + r), box in the view, greatest depth."""

    half: Floats
    plane: Floats
    box: Floats
    nearest: Floats


def look(
    solids: Sequence[Solid], sight: Sight, *, occluders: Sequence[Solid] = (), hidden: bool = True
) -> tuple[Sighted, ...]:
    """The edges of solids seen along a sight, with true arcs where a circle is seen square on.

    occluders: further solids that hide but are not drawn. hidden=False leaves the unseen pieces out. Edges of
    several parts that fall together are given once: for the one that is in sight, else the nearest, else
    the first. The order is that of the solids, then of the place in the view.
    """
    frame = np.array([sight.right, sight.up, sight.toward])
    skins = [boundary(s) for s in solids]
    faces = _facing([*skins, *(boundary(s) for s in occluders)], frame)
    edges = pieces.gathered(skins, frame)
    if not len(edges.ends):
        return ()
    seen, unseen = _parted(edges, faces)
    curves = pieces.assembled(edges, seen, unseen if hidden else unseen[:0])
    return _with_drops(curves, faces)


def _facing(skins: Sequence[Boundary], frame: Floats) -> _Faces:
    corners = np.concatenate([s.faces for s in skins]) if skins else np.empty((0, 4, 3))
    normals = np.concatenate([s.normals for s in skins]) if skins else np.empty((0, 3))
    turned = normals @ frame.T
    front = turned[:, 2] > _FACING
    seen, turned = corners[front] @ frame.T, turned[front]
    flat = seen[:, :, :2]
    step = np.roll(flat, -1, axis=1) - flat
    twice_area = (flat[:, :, 0] * step[:, :, 1] - flat[:, :, 1] * step[:, :, 0]).sum(axis=1)
    length = np.hypot(step[:, :, 0], step[:, :, 1])
    scale = np.sign(twice_area)[:, None] / np.where(length > 0, length, 1.0)
    a, b = -step[:, :, 1] * scale, step[:, :, 0] * scale
    half = np.stack([a, b, -(a * flat[:, :, 0] + b * flat[:, :, 1])], axis=2)
    p, q = -turned[:, 0] / turned[:, 2], -turned[:, 1] / turned[:, 2]
    first = seen[:, 0]
    plane = np.stack([p, q, first[:, 2] - p * first[:, 0] - q * first[:, 1]], axis=1)
    box = np.concatenate([flat.min(axis=1) - ABREAST, flat.max(axis=1) + ABREAST], axis=1)
    return _Faces(half, plane, box, seen[:, :, 2].max(axis=1) if len(seen) else np.empty(0))


def _parted(edges: pieces.Edges, faces: _Faces) -> tuple[Floats, Floats]:
    """What is seen and what is hidden of the edges, as rows (edge, from, to).

    Faces are taken from the front to the back in ever larger lots, and edges that are hidden already are
    not asked again: so the work grows with what is near the eye and not with how deep the scene is.
    """
    count = len(edges.ends)
    seen: Floats = np.stack([np.arange(count, dtype=np.float64), np.zeros(count), np.ones(count)], axis=1)
    unseen: Floats = np.empty((0, 3))
    order = np.argsort(-faces.nearest, kind="stable")
    farthest = edges.ends[:, :, 2].min(axis=1)
    done, lot = 0, _FIRST_LOT
    while done < len(order):
        block = order[done : done + lot]
        done, lot = done + lot, lot * 4
        open_ = np.flatnonzero(np.bincount(seen[:, 0].astype(np.int64)))
        open_ = open_[farthest[open_] < faces.nearest[block[0]] - NEARER]
        if not len(open_):
            continue
        edge, lo, hi = _hidden_spans(edges.ends, open_, faces, block)
        rows = np.concatenate([unseen, np.stack([edge, lo, hi], axis=1)])
        seen, unseen = pieces.split(edges.lengths, rows[:, 0].astype(np.int64), rows[:, 1], rows[:, 2])
    return seen, unseen


def _hidden_spans(ends: Floats, asked: Ints, faces: _Faces, block: Ints) -> tuple[Ints, Floats, Floats]:
    """(edge, from, to) in parameters of the edge, one for each face of the lot that hides some of it."""
    flat = ends[asked, :, :2]
    boxes = np.concatenate([flat.min(axis=1), flat.max(axis=1)], axis=1)
    edge, face = BoxIndex(faces.box[block]).meeting(boxes)
    edge, face = asked[edge], block[face]
    could = faces.nearest[face] > ends[edge, :, 2].min(axis=1) + NEARER
    edge, face = edge[could], face[could]
    a, b = ends[edge, 0], ends[edge, 1]
    lo, hi = np.zeros(len(edge)), np.ones(len(edge))
    for k in range(4):
        half = faces.half[face, k]
        _clip(lo, hi, _value(half, a), _value(half, b), ABREAST, -ABREAST)
    plane = faces.plane[face]
    _clip(lo, hi, _value(plane, a) - a[:, 2], _value(plane, b) - b[:, 2], NEARER, NEARER)
    met = hi - lo > 1e-12
    return edge[met], lo[met], hi[met]


def _value(law: Floats, at: Floats) -> Floats:
    return law[:, 0] * at[:, 0] + law[:, 1] * at[:, 1] + law[:, 2]


def _clip(lo: Floats, hi: Floats, start: Floats, end: Floats, level: float, least: float) -> None:
    """Narrow lo..hi to where a linear value is positive; where it hardly changes, ask it to pass `least`."""
    change = end - start
    steady = np.abs(change) < level
    with np.errstate(divide="ignore", invalid="ignore"):
        cross = np.where(steady, 0.0, -start / change)
    np.maximum(lo, np.where(~steady & (change > 0), cross, 0.0), out=lo)
    np.minimum(hi, np.where(~steady & (change < 0), cross, 1.0), out=hi)
    hi[steady & ((start + end) / 2 < least)] = -1.0


def _with_drops(curves: list[Sighted], faces: _Faces) -> tuple[Sighted, ...]:
    shown = [k for k, c in enumerate(curves) if c.visible]
    if not len(faces.box) or not shown:
        return tuple(curves)
    index = BoxIndex(faces.box)
    spots = np.array([pieces.probe(curves[k].curve, t) for k in shown for t in _PROBES])
    left = np.stack([spots[:, 0] - spots[:, 3] * STEP_PROBE, spots[:, 1] + spots[:, 2] * STEP_PROBE], axis=1)
    right = np.stack([spots[:, 0] + spots[:, 3] * STEP_PROBE, spots[:, 1] - spots[:, 2] * STEP_PROBE], axis=1)
    near, far = _top(left, faces, index), _top(right, faces, index)
    with np.errstate(invalid="ignore"):
        step = np.abs(near - far)
    step = np.where(np.isnan(step), np.inf, step)
    middle = np.sort(step.reshape(-1, len(_PROBES)), axis=1)[:, len(_PROBES) // 2]
    result = list(curves)
    for k, drop in zip(shown, middle.tolist(), strict=True):
        c = curves[k]
        result[k] = Sighted(c.index, c.curve, True, drop, c.depth)
    return tuple(result)


def _top(points: Floats, faces: _Faces, index: BoxIndex) -> Floats:
    """The depth of the nearest face at each point, minus infinity where there is none."""
    at, face = index.at(points)
    spots = points[at]
    inside = np.ones(len(at), dtype=bool)
    for k in range(4):
        inside &= _value(faces.half[face, k], spots) >= -SAME_POINT
    depth = np.full(len(points), -np.inf)
    np.maximum.at(depth, at[inside], _value(faces.plane[face[inside]], spots[inside]))
    return depth
