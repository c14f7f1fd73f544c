"""Lines that fill regions: pattern families, growth rings of end grain, strokes of long grain.

All lengths are mm of the plane the regions are in; what a pattern measures on paper is the caller's to
scale. Nothing is drawn at random: irregular patterns follow from the seed that is given.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, radians, sin, sqrt
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from sheets.geometry.path import Arc, Line, Point
from sheets.geometry.region import Region, contains
from sheets.geometry.tolerance import SAME_POINT

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class LineFamily:
    """Parallel lines, endless until clipped.

    angle_deg: direction, counter-clockwise from the first axis. base: a point that the first line, and the
    start of its dashes, goes through. spacing: square to the lines. dashes: stroke lengths, gaps negative, 0
    a dot; () for unbroken. shift: how far the dashes of a line are moved along from those of the one before.
    """

    angle_deg: float
    base: Point
    spacing: float
    dashes: tuple[float, ...] = ()
    shift: float = 0.0


def hatch_lines(
    regions: Sequence[Region], families: Iterable[LineFamily], *, holes: Sequence[Region] = ()
) -> tuple[Line, ...]:
    """The lines of families inside regions and outside holes, line by line from the base out.

    regions must not overlap each other; holes may overlap anything (they are where text stands). A dot comes
    out as a line of no length. Raises ValueError for a spacing or a dash pattern that is not positive.
    """
    found: list[Line] = []
    for family in families:
        if family.spacing <= 0:
            raise ValueError(f"hatch lines cannot be {family.spacing} mm apart")
        row, lo, hi = _spans(regions, family)
        for hole in holes:
            row, lo, hi = _without(row, lo, hi, *_spans((hole,), family))
        if family.dashes:
            row, lo, hi = _dashed(row, lo, hi, family)
        found.extend(_placed(row, lo, hi, family))
    return tuple(found)


def ring_lines(region: Region, seed: int, spacing: float) -> tuple[Arc, ...]:
    """Growth rings of end grain: arcs about a pith outside the region, clipped to it.

    spacing: mean distance of the rings in mm; they vary by a third about it. The pith and the variation
    follow from the seed.
    """
    x0, y0, x1, y1 = region.bounds
    size = hypot(x1 - x0, y1 - y0)
    # below or above the long faces, as in a flat-sawn board, and off the middle
    aside, below = 0.6 * (_share(seed, "aside") - 0.5), 0.35 + 0.5 * _share(seed, "below")
    wide = x1 - x0 >= y1 - y0
    side = 1 if _share(seed, "side") < 0.5 else -1
    middle, half = ((x0 + x1) / 2, (y0 + y1) / 2), (min(x1 - x0, y1 - y0)) / 2
    off = side * (half + below * size)
    shift = (aside * size, off) if wide else (off, aside * size)
    pith = (middle[0] + shift[0], middle[1] + shift[1])
    corners = [p for loop in region.loops for p in loop.flatten()]
    farthest = max(hypot(p[0] - pith[0], p[1] - pith[1]) for p in corners)
    near = (pith[0] - min(max(pith[0], x0), x1), pith[1] - min(max(pith[1], y0), y1))
    radius = hypot(*near) + spacing * (0.3 + 0.4 * _share(seed, "first"))
    found: list[Arc] = []
    ring = 0
    while radius < farthest:
        found.extend(_circle_in(region, pith, radius))
        ring += 1
        radius += spacing * (0.67 + 0.66 * _share(seed, f"ring {ring}"))
    return tuple(found)


def grain_lines(region: Region, direction_deg: float, seed: int, spacing: float) -> tuple[Line, ...]:
    """Light strokes of long grain: broken lines one way, of uneven length, clipped to the region.

    spacing: mean distance of the lines in mm. Lengths of strokes go with the length of the region.
    """
    x0, y0, x1, y1 = region.bounds
    c, s = cos(radians(direction_deg)), sin(radians(direction_deg))
    length = abs(c) * (x1 - x0) + abs(s) * (y1 - y0)
    width = abs(s) * (x1 - x0) + abs(c) * (y1 - y0)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    found: list[Line] = []
    count = max(1, round(width / spacing))
    for k in range(count):
        off = ((k + 0.25 + 0.5 * _share(seed, f"line {k}")) / count - 0.5) * width
        stroke = length * (0.15 + 0.35 * _share(seed, f"stroke {k}"))
        gap = length * (0.10 + 0.30 * _share(seed, f"gap {k}"))
        start = -length / 2 - (stroke + gap) * _share(seed, f"start {k}")
        base = (middle[0] + c * start - s * off, middle[1] + s * start + c * off)
        # one line of a family: the next would be farther off than the region is wide
        family = LineFamily(direction_deg, base, 2 * (width + length) + 1.0, (stroke, -gap))
        found.extend(hatch_lines((region,), (family,)))
    return tuple(found)


def _share(seed: int, what: str) -> float:
    """A number from 0 to 1 that follows from a seed and a name, the same on every machine."""
    return crc32(f"{seed}:{what}".encode()) / 0xFFFFFFFF


def _spans(regions: Sequence[Region], family: LineFamily) -> tuple[Ints, Floats, Floats]:
    """Where the lines of a family lie in regions: (which line, from, to) along each, by even-odd crossings.

    Along is measured from the base; line 0 goes through it.
    """
    starts, stops = [], []
    for shape in regions:
        for loop in shape.loops:
            points = np.array(loop.flatten())
            starts.append(points)
            stops.append(np.roll(points, -1, axis=0))
    if not starts:
        return np.empty(0, np.int64), np.empty(0), np.empty(0)
    angle = radians(family.angle_deg)
    turn = np.array(((cos(angle), -sin(angle)), (sin(angle), cos(angle))))
    a, b = ((np.concatenate(e) - family.base) @ turn for e in (starts, stops))
    va, vb = a[:, 1] / family.spacing, b[:, 1] / family.spacing
    first = np.ceil(np.minimum(va, vb) - 1e-9).astype(np.int64)
    beyond = np.ceil(np.maximum(va, vb) - 1e-9).astype(np.int64)  # half open, so a shared corner counts once
    count = np.maximum(beyond - first, 0)
    edge = np.repeat(np.arange(len(a)), count)
    step = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    row = first[edge] + step
    t = np.clip((row - va[edge]) / (vb[edge] - va[edge]), 0.0, 1.0)
    along = a[edge, 0] + (b[edge, 0] - a[edge, 0]) * t
    order = np.lexsort((along, row))
    row, along = row[order], along[order]
    lo, hi = along[0::2], along[1::2]
    real = hi - lo > SAME_POINT
    return row[0::2][real], lo[real], hi[real]


def _without(
    row: Ints, lo: Floats, hi: Floats, gone_row: Ints, gone_lo: Floats, gone_hi: Floats
) -> tuple[Ints, Floats, Floats]:
    """Spans less other spans of the same lines; neither set overlaps itself."""
    if not len(gone_row) or not len(row):
        return row, lo, hi
    # both sets as +1 / -1 steps along each line: left is what has cover of the first and none of the second
    rows = np.concatenate([row, row, gone_row, gone_row])
    at = np.concatenate([lo, hi, gone_lo, gone_hi])
    kept = np.concatenate([np.ones(len(row)), -np.ones(len(row)), np.zeros(2 * len(gone_row))])
    gone = np.concatenate([np.zeros(2 * len(row)), np.ones(len(gone_row)), -np.ones(len(gone_row))])
    order = np.lexsort((at, rows))
    rows, at = rows[order], at[order]
    clear = (np.cumsum(kept[order]) > 0.5) & (np.cumsum(gone[order]) < 0.5)
    use = clear[:-1] & (rows[:-1] == rows[1:]) & (at[1:] - at[:-1] > SAME_POINT)
    return rows[:-1][use], at[:-1][use], at[1:][use]


def _dashed(row: Ints, lo: Floats, hi: Floats, family: LineFamily) -> tuple[Ints, Floats, Floats]:
    """Spans as the strokes of a dash pattern that runs on along each line."""
    period = sum(abs(d) for d in family.dashes)
    if period <= 0:
        raise ValueError("a dash pattern needs some length")
    phase = row * family.shift
    first = np.floor((lo - phase) / period).astype(np.int64)
    count = np.ceil((hi - phase) / period).astype(np.int64) - first
    span = np.repeat(np.arange(len(row)), count)
    lap = first[span] + np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
    begin = phase[span] + lap * period
    parts, offset = [], 0.0
    for dash in family.dashes:
        if dash >= 0:
            a, b = begin + offset, begin + offset + dash
            a, b = np.maximum(a, lo[span]), np.minimum(b, hi[span])
            inside = b >= a if dash == 0 else b - a > SAME_POINT
            parts.append(np.stack([span[inside], a[inside], b[inside]]))
        offset += abs(dash)
    found = np.concatenate(parts, axis=1) if parts else np.empty((3, 0))
    found = found[:, np.lexsort((found[1], found[0]))]
    return row[found[0].astype(np.int64)], found[1], found[2]


def _placed(row: Ints, lo: Floats, hi: Floats, family: LineFamily) -> list[Line]:
    angle = radians(family.angle_deg)
    c, s = cos(angle), sin(angle)
    off = row * family.spacing
    x, y = family.base[0] - s * off, family.base[1] + c * off
    ends = np.stack([x + c * lo, y + s * lo, x + c * hi, y + s * hi], axis=1)
    return [Line((a, b), (p, q)) for a, b, p, q in ends.tolist()]


def _circle_in(region: Region, centre: Point, radius: float) -> list[Arc]:
    """The arcs of a circle that lie in a region."""
    cuts = sorted({round(angle % (2 * pi), 12) for loop in region.loops for s in loop.segments
                   for angle in _meetings(s, centre, radius)})
    if not cuts:
        return [Arc(centre, radius, 0.0, 2 * pi)] if contains(region, (centre[0] + radius, centre[1])) else []
    found: list[Arc] = []
    for start, stop in zip(cuts, [*cuts[1:], cuts[0] + 2 * pi], strict=True):
        arc = Arc(centre, radius, start, stop - start)
        if arc.length > SAME_POINT and contains(region, arc.point(0.5)):
            found.append(arc)
    return found


def _meetings(s: Line | Arc, centre: Point, radius: float) -> list[float]:
    """The angles on a circle where a segment crosses it."""
    if isinstance(s, Line):
        ux, uy = s.heading()
        along = (centre[0] - s.a[0]) * ux + (centre[1] - s.a[1]) * uy
        off = (centre[1] - s.a[1]) * ux - (centre[0] - s.a[0]) * uy
        if abs(off) >= radius:
            return []
        half = sqrt(radius * radius - off * off)
        spots = [s.point(t / s.length) for t in (along - half, along + half) if 0 <= t <= s.length]
    else:
        dx, dy = s.centre[0] - centre[0], s.centre[1] - centre[1]
        gap = hypot(dx, dy)
        if gap <= SAME_POINT or gap >= radius + s.radius or gap <= abs(radius - s.radius):
            return []
        along = (gap * gap + radius * radius - s.radius * s.radius) / (2 * gap)
        half = sqrt(max(0.0, radius * radius - along * along))
        mx, my = centre[0] + dx / gap * along, centre[1] + dy / gap * along
        both = ((mx - dy / gap * half, my + dx / gap * half), (mx + dy / gap * half, my - dx / gap * half))
        low = min(s.start, s.start + s.sweep)
        spots = [p for p in both
                 if (atan2(p[1] - s.centre[1], p[0] - s.centre[0]) - low) % (2 * pi) <= abs(s.sweep)]
    return [atan2(p[1] - centre[1], p[0] - centre[0]) for p in spots]
