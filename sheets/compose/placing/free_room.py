"""Where there is room on a view: the ink already drawn, on a fine grid, and what has been placed since.

A box is asked about many times while a place is sought, so the ink is summed once over the grid and each
question costs four look-ups. Paper mm, in the view's frame.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from math import ceil, hypot, radians, tan

import numpy as np
from numpy.typing import NDArray

from sheets.compose.view_sizes import COLUMN
from sheets.drawing.items import Stroke
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Point

_FIVE_DEGREES = tan(radians(5.0))

Floats = NDArray[np.float64]


class Room:
    """Ink over a box. `taken` boxes and `leaders` are added as things are placed."""

    def __init__(self, box: Box, step: float = 0.5) -> None:
        self.box = box
        self.step = step
        self.nx = max(2, ceil((box[2] - box[0]) / step) + 1)
        self.ny = max(2, ceil((box[3] - box[1]) / step) + 1)
        self.ink = np.zeros((self.ny, self.nx), dtype=np.int32)
        self.fine = np.zeros((self.ny, self.nx), dtype=np.int32)  # lines that break for a mark
        self._sum: NDArray[np.int32] | None = None
        self._fine_sum: NDArray[np.int32] | None = None
        self.taken: list[Box] = []
        self.leaders: list[tuple[Point, Point]] = []
        self._lines: list[Box] = []
        self._line_array: Floats | None = None
        self._line_boxes: Floats | None = None
        self.spots: list[Point] = []  # where leaders will end: nothing may stand on them

    def draw(self, strokes: Iterable[Stroke]) -> None:
        """Add strokes to the ink. Fine ones are kept apart: they break where a mark or a note must stand."""
        for stroke in strokes:
            grid = self.fine if stroke.pen == "fine" else self.ink
            for s in stroke.path:
                points = s.flatten(COLUMN.chord) if isinstance(s, Arc) else (s.a, s.b)
                for a, b in itertools.pairwise(points):
                    self._ink_line(grid, a, b)
                    if abs(a[0] - b[0]) + abs(a[1] - b[1]) >= COLUMN.along:
                        self._lines.append(Box(a[0], a[1], b[0], b[1]))
        self._line_array = None
        self._sum = self._fine_sum = None

    def fill(self, box: Box) -> None:
        """Add a box to the ink."""
        i0, j0 = self._cell(box[0], box[1])
        i1, j1 = self._cell(box[2], box[3])
        self.ink[max(j0, 0) : max(j1 + 1, 0), max(i0, 0) : max(i1 + 1, 0)] = 1
        self._sum = None

    def take(self, box: Box) -> None:
        self.taken.append(box)

    def kept(self) -> tuple[int, int]:
        """How much has been placed, for `back_to`."""
        return len(self.taken), len(self.leaders)

    def back_to(self, kept: tuple[int, int]) -> None:
        """Forget what has been placed since."""
        del self.taken[kept[0] :], self.leaders[kept[1] :]

    def _cell(self, x: float, y: float) -> tuple[int, int]:
        return int((x - self.box[0]) / self.step), int((y - self.box[1]) / self.step)

    def _ink_line(self, grid: NDArray[np.int32], a: Point, b: Point) -> None:
        i0, j0 = self._cell(*a)
        i1, j1 = self._cell(*b)
        if i0 == i1 or j0 == j1:
            # Most lines run along an axis: one row or column of cells.
            i0, i1, j0, j1 = min(i0, i1), max(i0, i1), min(j0, j1), max(j0, j1)
            grid[max(j0, 0) : max(j1 + 1, 0), max(i0, 0) : max(i1 + 1, 0)] = 1
            return
        n = max(2, int(hypot(b[0] - a[0], b[1] - a[1]) / self.step * COLUMN.samples) + 2)
        i = ((_spaced(a[0], b[0], n) - self.box[0]) / self.step).astype(int)
        j = ((_spaced(a[1], b[1], n) - self.box[1]) / self.step).astype(int)
        inside = (i >= 0) & (i < self.nx) & (j >= 0) & (j < self.ny)
        grid[j[inside], i[inside]] = 1

    def ink_in(self, boxes: Floats) -> NDArray[np.int32]:
        """How many inked cells lie in each box; boxes is n by 4."""
        if self._sum is None:
            self._sum = _summed(self.ink)
        return self._count(self._sum, boxes)

    def inked(self, box: Box) -> bool:
        """True if any ink lies in one box: sooner told than by `ink_in` while ink is still being added."""
        i0, j0 = self._cell(box[0], box[1])
        i1, j1 = self._cell(box[2], box[3])
        return bool(self.ink[max(j0, 0) : max(j1 + 1, 0), max(i0, 0) : max(i1 + 1, 0)].any())

    def fine_in(self, boxes: Floats) -> NDArray[np.int32]:
        """The same of lines that would break for a mark."""
        if self._fine_sum is None:
            self._fine_sum = _summed(self.fine)
        return self._count(self._fine_sum, boxes)

    def _count(self, s: NDArray[np.int32], boxes: Floats) -> NDArray[np.int32]:
        x = np.clip(((boxes[:, [0, 2]] - self.box[0]) / self.step).astype(int), -1, self.nx - 1)
        y = np.clip(((boxes[:, [1, 3]] - self.box[1]) / self.step).astype(int), -1, self.ny - 1)
        x0, x1, y0, y1 = np.maximum(x[:, 0], 0), x[:, 1] + 1, np.maximum(y[:, 0], 0), y[:, 1] + 1
        counted: NDArray[np.int32] = s[y1, x1] - s[y0, x1] - s[y1, x0] + s[y0, x0]
        return counted

    def meets_taken(self, boxes: Floats) -> NDArray[np.bool_]:
        """Which boxes meet one that is taken."""
        if not self.taken:
            return np.zeros(len(boxes), dtype=bool)
        t = np.array(self.taken)
        hit: NDArray[np.bool_] = (
            (boxes[:, None, 0] < t[None, :, 2])
            & (t[None, :, 0] < boxes[:, None, 2])
            & (boxes[:, None, 1] < t[None, :, 3])
            & (t[None, :, 1] < boxes[:, None, 3])
        )
        return hit.any(axis=1).astype(bool)

    def ink_along(self, a: Point, b: Point) -> int:
        """How many separate lines a leader from a to b runs over."""
        n = max(2, int(hypot(b[0] - a[0], b[1] - a[1]) / self.step) + 1)
        i = np.clip(((_spaced(a[0], b[0], n) - self.box[0]) / self.step).astype(int), 0, self.nx - 1)
        j = np.clip(((_spaced(a[1], b[1], n) - self.box[1]) / self.step).astype(int), 0, self.ny - 1)
        run = self.ink[j, i]
        return int(((run[1:] == 1) & (run[:-1] == 0)).sum())

    def holds_spot(self, boxes: Floats) -> NDArray[np.bool_]:
        """Which boxes hold, or nearly, a point where some leader ends."""
        if not self.spots:
            return np.zeros(len(boxes), dtype=bool)
        p = np.array(self.spots)
        held: NDArray[np.bool_] = (
            (boxes[:, None, 0] < p[None, :, 0] + COLUMN.head)
            & (p[None, :, 0] - COLUMN.head < boxes[:, None, 2])
            & (boxes[:, None, 1] < p[None, :, 1] + COLUMN.head)
            & (p[None, :, 1] - COLUMN.head < boxes[:, None, 3])
        )
        return held.any(axis=1).astype(bool)

    def clear_of_leaders(self, box: Box) -> bool:
        """True if no leader runs through a box."""
        return not any(segment_meets_box(p, q, box) for p, q in self.leaders)

    def leader_free(self, a: Point, b: Point, but: Box | None = None) -> bool:
        """True if a straight leader crosses no other leader and no taken box (`but` one)."""
        if any(segments_cross(a, b, p, q) for p, q in self.leaders):
            return False
        x0, x1 = (a[0], b[0]) if a[0] < b[0] else (b[0], a[0])
        y0, y1 = (a[1], b[1]) if a[1] < b[1] else (b[1], a[1])
        near = (t for t in self.taken if t[0] <= x1 and t[2] >= x0 and t[1] <= y1 and t[3] >= y0)
        return not any(box != but and segment_meets_box(a, b, box) for box in near)

    def along_line(self, a: Point, b: Point) -> bool:
        """True if a leader would run along a line that is drawn."""
        if self._line_array is None or self._line_boxes is None:
            lines = np.array(self._lines).reshape(-1, 4)
            self._line_array = lines
            self._line_boxes = np.sort(lines.reshape(-1, 2, 2), axis=1).reshape(-1, 4)
        boxes = self._line_boxes
        x0, x1 = (a[0], b[0]) if a[0] < b[0] else (b[0], a[0])
        y0, y1 = (a[1], b[1]) if a[1] < b[1] else (b[1], a[1])
        # Few lines come near; the rest need no closer look.
        near = (
            (boxes[:, 0] <= x1 + 2 * COLUMN.near)
            & (boxes[:, 1] <= y1 + 2 * COLUMN.near)
            & (boxes[:, 2] >= x0 - 2 * COLUMN.near)
            & (boxes[:, 3] >= y0 - 2 * COLUMN.near)
        )
        return bool(runs_along(a, b, self._line_array[near]).any())


def _spaced(first: float, last: float, count: int) -> Floats:
    """The numbers of `numpy.linspace`, in a third of its time for the few that a line needs."""
    numbers = np.arange(count, dtype=np.float64)
    numbers *= (last - first) / (count - 1)
    numbers += first
    numbers[-1] = last
    return numbers


def _summed(grid: NDArray[np.int32]) -> NDArray[np.int32]:
    whole = np.zeros((grid.shape[0] + 1, grid.shape[1] + 1), dtype=np.int32)
    np.cumsum(grid, axis=1, out=whole[1:, 1:])
    return np.cumsum(whole, axis=0, out=whole)


def segments_cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True if two segments cross, touching ends included."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    s1, s2, s3, s4 = side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
    return s1 * s2 < 0 and s3 * s4 < 0


def runs_along(a: Point, b: Point, lines: Floats) -> NDArray[np.bool_]:
    """Which lines (n by 4: x0, y0, x1, y1) a segment runs along: within 5 degrees of their direction and
    half a millimetre of them, over 3 mm."""
    if not len(lines):
        return np.zeros(0, dtype=bool)
    way = np.array([b[0] - a[0], b[1] - a[1]])
    size = float(hypot(way[0], way[1]))
    if size < COLUMN.along:
        return np.zeros(len(lines), dtype=bool)
    way = way / size
    start, end = lines[:, :2] - np.array(a), lines[:, 2:] - np.array(a)
    # Along the segment and across it, of both ends of each line.
    s0, s1 = start @ way, end @ way
    d0, d1 = start @ np.array([-way[1], way[0]]), end @ np.array([-way[1], way[0]])
    run, rise = s1 - s0, d1 - d0
    even = np.abs(rise) <= np.abs(run) * _FIVE_DEGREES
    run = np.where(np.abs(run) < 1e-9, 1e-9, run)
    slope = rise / run
    # The stretch of s in which the line is near, and both are there.
    level = np.abs(slope) < 1e-9
    safe = np.where(level, 1.0, slope)
    p, q = s0 + (-COLUMN.near - d0) / safe, s0 + (COLUMN.near - d0) / safe
    low = np.where(level, np.where(np.abs(d0) <= COLUMN.near, -np.inf, np.inf), np.minimum(p, q))
    high = np.where(level, np.where(np.abs(d0) <= COLUMN.near, np.inf, -np.inf), np.maximum(p, q))
    low = np.maximum(np.maximum(low, np.minimum(s0, s1)), 0.0)
    high = np.minimum(np.minimum(high, np.maximum(s0, s1)), size)
    along: NDArray[np.bool_] = even & (high - low > COLUMN.along)
    return along


def segment_meets_box(a: Point, b: Point, box: Box) -> bool:
    """True if a segment has a point inside a box."""
    return part_in_box(a, b, box) is not None


def part_in_box(a: Point, b: Point, box: Box) -> tuple[float, float] | None:
    """The parameters between which a segment lies inside a box, or None."""
    t0, t1 = 0.0, 1.0
    for p, q, low, high in ((a[0], b[0], box[0], box[2]), (a[1], b[1], box[1], box[3])):
        delta = q - p
        if abs(delta) < COLUMN.level_slope:
            if p <= low or p >= high:
                return None
            continue
        near, far = (low - p) / delta, (high - p) / delta
        if near > far:
            near, far = far, near
        t0, t1 = max(t0, near), min(t1, far)
        if t0 >= t1:
            return None
    return t0, t1
