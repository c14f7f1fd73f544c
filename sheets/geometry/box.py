"""Boxes with sides along two axes of a plane, and their arithmetic. Any unit; on sheets, paper mm."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot
from typing import NamedTuple

from sheets.base.tolerance import SAME_POINT


class Box(NamedTuple):
    """A box by its least and its greatest corner. It is a tuple, so that it costs what a tuple costs."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        return self[2] - self[0]

    @property
    def height(self) -> float:
        return self[3] - self[1]

    @property
    def area(self) -> float:
        return (self[2] - self[0]) * (self[3] - self[1])

    @property
    def middle(self) -> tuple[float, float]:
        return ((self[0] + self[2]) / 2, (self[1] + self[3]) / 2)

    def grown(self, by: float) -> Box:
        """This box with each side moved outward."""
        return Box(self[0] - by, self[1] - by, self[2] + by, self[3] + by)

    def moved(self, dx: float, dy: float) -> Box:
        return Box(self[0] + dx, self[1] + dy, self[2] + dx, self[3] + dy)

    def joined(self, other: tuple[float, float, float, float]) -> Box:
        """The box round both."""
        a0, a1, a2, a3 = self
        b0, b1, b2, b3 = other
        return Box(min(a0, b0), min(a1, b1), max(a2, b2), max(a3, b3))

    def common(self, other: Box) -> Box | None:
        """What both hold, were it a line or a point; None where they stand apart."""
        found = Box(
            max(self[0], other[0]), max(self[1], other[1]), min(self[2], other[2]), min(self[3], other[3])
        )
        return found if found[0] <= found[2] and found[1] <= found[3] else None

    def overlaps(self, other: Box) -> bool:
        """True if both share area, more than noise."""
        across = min(self[2], other[2]) - max(self[0], other[0])
        up = min(self[3], other[3]) - max(self[1], other[1])
        return across > SAME_POINT and up > SAME_POINT

    def meets(self, other: Box, clear: float = 0.0) -> bool:
        """True if both come nearer than `clear`; sides that only touch do not meet."""
        return (
            self[0] < other[2] + clear
            and other[0] < self[2] + clear
            and self[1] < other[3] + clear
            and other[1] < self[3] + clear
        )

    def touches(self, other: Box) -> bool:
        """True if both have a point in common, be it on their sides."""
        return self[0] <= other[2] and other[0] <= self[2] and self[1] <= other[3] and other[1] <= self[3]

    def holds(self, other: Box) -> bool:
        """True if the other lies in this one, its sides included."""
        return self[0] <= other[0] and self[1] <= other[1] and other[2] <= self[2] and other[3] <= self[3]

    def holds_point(self, point: tuple[float, float], clear: float = 0.0) -> bool:
        """True for a point in this box or no further from it than `clear`."""
        return (
            self[0] - clear <= point[0] <= self[2] + clear and self[1] - clear <= point[1] <= self[3] + clear
        )

    def gap(self, other: Box) -> float:
        """How far both stand apart, 0 where they meet."""
        dx = max(self[0] - other[2], other[0] - self[2], 0.0)
        dy = max(self[1] - other[3], other[1] - self[3], 0.0)
        return hypot(dx, dy)


def around(boxes: Iterable[tuple[float, float, float, float]]) -> Box:
    """The box round boxes. Raises ValueError for none."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return Box(min(x0), min(y0), max(x1), max(y1))


def around_points(points: Iterable[tuple[float, float]]) -> Box:
    """The box round points. Raises ValueError for none."""
    x, y = zip(*points, strict=True)
    return Box(min(x), min(y), max(x), max(y))
