"""Windows for details: a box round what the detail is about, with some of its neighbours."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from sheets.model.part import Axis, Extent, Part
from sheets.model.wall import LAST, Feature


def window(e: Extent, margin: Fraction, axis: Axis, *, low: Fraction | None = None) -> Extent:
    """Return the box grown by a margin in the two axes of the plane; `low`: floor that it does not go
    below (z)."""
    grown = Extent(e.x0 - margin, e.x1 + margin, e.y0 - margin, e.y1 + margin, e.z0 - margin, e.z1 + margin)
    if axis == "x":
        grown = replace(grown, x0=e.x0, x1=e.x1)
    elif axis == "y":
        grown = replace(grown, y0=e.y0, y1=e.y1)
    else:
        grown = replace(grown, z0=e.z0, z1=e.z1)
    return replace(grown, z0=max(grown.z0, low)) if low is not None else grown


def box(x: tuple[Fraction, Fraction], y: tuple[Fraction, Fraction], z: tuple[Fraction, Fraction]) -> Extent:
    """Return a box from three spans."""
    return Extent(x[0], x[1], y[0], y[1], z[0], z[1])


def subjects(
    parts: Iterable[Part], roles: Sequence[str], axis: Axis, at: Fraction, frame: Extent
) -> tuple[str, ...]:
    """Return the keys of the parts of these roles that the cut meets inside the window, in their own
    order."""
    found = []
    for part in parts:
        low, high = part.extent.span(axis)
        if part.role in roles and low <= at <= high and _meets(part.extent, frame, axis):
            found.append(part.key)
    return tuple(found)


def feature(
    kind: str,
    title: str,
    owner: str,
    axis: Axis,
    at: Fraction,
    where: Extent,
    parts: Sequence[Part],
    roles: Sequence[str],
    signature: Iterable[object],
    says: tuple[str, ...],
    toward: int = 1,
    order: int = LAST,
) -> Feature:
    """Return a feature; its subjects are the parts of the roles that the cut meets in the window."""
    return Feature(
        kind=kind,
        title=title,
        owner=owner,
        axis=axis,
        at=at,
        window=where,
        subjects=subjects(parts, roles, axis, at, where),
        signature="/".join((kind, *(str(s) for s in signature))),
        says=says,
        toward=toward,
        order=order,
    )


def _meets(e: Extent, frame: Extent, axis: Axis) -> bool:
    axes: tuple[Axis, ...] = ("x", "y", "z")
    for other in axes:
        if other != axis:
            (a, b), (c, d) = e.span(other), frame.span(other)
            if b <= c or a >= d:
                return False
    return True
