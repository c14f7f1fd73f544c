"""A rectangular face with a rectangular hole, as regions: of slabs, boxes and masonry around an opening."""

from sheets.geometry.region import Region, polygon, rectangle, region
from sheets.resolve.middle import Span


def plate(x: Span, z: Span, hole_x: Span | None, hole_z: Span | None) -> tuple[Region, ...]:
    """Return the face x by z less a rectangle, as regions in (x, z); a hole that reaches an edge is a
    notch of it."""
    (x0, x1), (z0, z1) = x, z
    if hole_x is None or hole_z is None:
        return (rectangle(x0, z0, x1, z1),)
    a, b = max(x0, hole_x[0]), min(x1, hole_x[1])
    c, d = max(z0, hole_z[0]), min(z1, hole_z[1])
    if a >= b or c >= d:
        return (rectangle(x0, z0, x1, z1),)
    if a <= x0 or b >= x1:
        strips = ((x0, z0, x1, c), (x0, d, x1, z1), (x0, c, a, d), (b, c, x1, d))
        return tuple(rectangle(*s) for s in strips if s[2] > s[0] and s[3] > s[1])
    if c <= z0 and d >= z1:
        return (rectangle(x0, z0, a, z1), rectangle(b, z0, x1, z1))
    if c <= z0:
        return (polygon(((x0, z0), (a, z0), (a, d), (b, d), (b, z0), (x1, z0), (x1, z1), (x0, z1))),)
    if d >= z1:
        return (polygon(((x0, z0), (x1, z0), (x1, z1), (b, z1), (b, c), (a, c), (a, z1), (x0, z1))),)
    return (region(rectangle(x0, z0, x1, z1).outer, (rectangle(a, c, b, d).outer,)),)
