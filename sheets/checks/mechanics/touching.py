"""Which pieces lie against each other, by their boxes."""

from __future__ import annotations

from fractions import Fraction

from sheets.model.part import AXES, Axis, Extent, Part
from sheets.model.wall import Wall


def contact_axis(one: Extent, other: Extent) -> Axis | None:
    """Return the axis square to the face where two boxes touch, or None; overlapping boxes (let in) touch
    too.
    """
    shared: dict[Axis, Fraction] = {}
    for axis in AXES:
        (a, b), (c, d) = one.span(axis), other.span(axis)
        if b < c or d < a:
            return None  # as most are: soon told
        shared[axis] = min(b, d) - max(a, c)
    flat = [axis for axis in AXES if shared[axis] == 0]
    if len(flat) > 1:
        return None
    if flat:
        return flat[0]
    least: Axis = min(AXES, key=lambda axis: shared[axis])
    return least


def shared(one: Extent, other: Extent, axis: Axis) -> Fraction:
    """Return how much of an axis two boxes have in common, exact mm; below zero where they lie apart."""
    (a, b), (c, d) = one.span(axis), other.span(axis)
    return min(b, d) - max(a, c)


def overlap(one: Extent, other: Extent) -> bool:
    """Return whether two boxes share space."""
    return (
        one.x0 < other.x1
        and other.x0 < one.x1
        and one.y0 < other.y1
        and other.y0 < one.y1
        and one.z0 < other.z1
        and other.z0 < one.z1
    )


def let_into(wall: Wall, part: Part) -> tuple[tuple[Part, Fraction], ...]:
    """Return the shop's boards that are let into the faces of a part, each with its depth, exact mm."""
    low, high = part.extent.span(part.thickness_axis)
    found = []
    for other in wall.parts:
        if other.key == part.key or other.maker != "shop" or other.thickness_axis == part.thickness_axis:
            continue
        if overlap(part.extent, other.extent):
            a, b = other.extent.span(part.thickness_axis)
            depth = min(b, high) - max(a, low)
            if depth < part.thickness:
                found.append((other, depth))
    return tuple(found)


def mates(wall: Wall, part: Part) -> tuple[Part, ...]:
    """Return the shop's pieces that a piece is joined to: named by a joint of either, or lying against its
    broad face.
    """
    named = {joint.mate for joint in part.joints if joint.mate}
    named |= {other.key for other in wall.parts for joint in other.joints if joint.mate == part.key}
    found = []
    for other in wall.parts:
        if other.key == part.key or other.maker != "shop":
            continue
        if other.key in named or contact_axis(part.extent, other.extent) == part.thickness_axis:
            found.append(other)
    return tuple(found)
