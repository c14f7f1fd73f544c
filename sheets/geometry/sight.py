"""Directions of sight, and what is seen along them.

A view has two axes: u to the right on the paper and v up it, both in mm at full size, and a depth that
grows towards the viewer.

The wall's frame, with x to the right for someone who faces the wall, y out of the wall towards them and z
up, is left-handed (x cross z points out of the room: for a right-handed frame it would have to be the
other way). Nothing but this page depends on it: every sight here has right x up = -toward, so that each
shows the wall as it is and none shows it as in a mirror.
"""

from dataclasses import dataclass
from math import asin, cos, degrees, radians, sin, sqrt

from sheets.geometry.path import Curve, Point
from sheets.geometry.solid import Point3


@dataclass(frozen=True, slots=True)
class Sight:
    """Unit vectors of the wall's frame: right and up on the paper, and `toward` the viewer."""

    right: Point3
    up: Point3
    toward: Point3

    def place(self, point: Point3) -> Point:
        """Where a point of the wall's frame falls in the view."""
        return (_dot(self.right, point), _dot(self.up, point))

    def depth(self, point: Point3) -> float:
        """How near to the viewer a point is, in mm; greater is nearer."""
        return _dot(self.toward, point)


@dataclass(frozen=True, slots=True)
class Sighted:
    """A piece of an edge as seen: of which solid, where, whether in sight, and how deep.

    drop: the depth step across it in mm: infinite at the outline of everything, 0 between flush faces; for
    what is hidden 0. depth: of its middle; greater is nearer.
    """

    index: int
    curve: Curve
    visible: bool
    drop: float
    depth: float


def axonometric(turn_deg: float, tilt_deg: float) -> Sight:
    """A parallel view from the room, the viewer moved to the right round the wall by `turn_deg` and up by
    `tilt_deg`. (0, 0) is the elevation, (0, 90) the plan with the wall at the top of the sheet."""
    a, b = radians(turn_deg), radians(tilt_deg)
    ca, sa, cb, sb = _neat(cos(a)), _neat(sin(a)), _neat(cos(b)), _neat(sin(b))
    return Sight(
        right=(ca, -sa + 0.0, 0.0),
        up=(-sa * sb + 0.0, -ca * sb + 0.0, cb),
        toward=(sa * cb, ca * cb, sb),
    )


def _neat(value: float) -> float:
    return float(round(value)) if abs(value - round(value)) < 1e-15 else value


def _dot(a: Point3, b: Point3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


FRONT = axonometric(0, 0)
"""Elevation: the viewer stands in the room and faces the wall; x to the right, z up."""

PLAN = axonometric(0, 90)
"""Looked down on: x to the right, the wall at the top, the room below it."""

LEFT_SECTION = axonometric(90, 0)
"""Looking along -x, to the left end of the wall: the wall on the right, the room on the left, z up."""

RIGHT_SECTION = axonometric(-90, 0)
"""Looking along +x, to the right end of the wall: the wall on the left, the room on the right, z up."""

AXONOMETRIC = axonometric(45, degrees(asin(1 / sqrt(3))))
"""Isometric: the three axes at 120 degrees and equally shortened, seen from the right, in front and above."""

FROM_BELOW = axonometric(0, -90)
"""Looked up at, as for the soffit of a mantel: x to the right, the wall at the bottom of the view."""
