"""Tongue-and-groove boards side by side: gap, tongue and body at each joint; boards and panels let into
grooves.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from sheets.base.tolerance import SAME_POINT
from sheets.checks.mechanics.touching import overlap
from sheets.geometry.solid import PROFILE
from sheets.model.part import AXES, Part
from sheets.model.wall import Wall


@dataclass(frozen=True, slots=True)
class BoardJoint:
    """One joint of two boards, exact mm. body: what moves at it, the wider board without its tongue."""

    board: Part  # the one with the tongue
    neighbour: Part
    gap: Fraction
    tongue: Fraction
    body: Fraction


def board_joints(wall: Wall) -> tuple[BoardJoint, ...]:
    """Return every joint of the tongue-and-groove boards, assembly by assembly, in order across."""
    rows: dict[str, list[Part]] = {}
    for part in wall.parts:
        if part.maker == "shop" and part.material.kind == "wood" and _let_in(part):
            rows.setdefault(part.assembly, []).append(part)
    found = []
    for boards in rows.values():
        axis = boards[0].width_axis
        boards.sort(key=lambda part: (part.extent.span(axis)[0], part.key))
        found += [joint for one, other in pairwise(boards) if (joint := _joint(one, other)) is not None]
    return tuple(found)


@dataclass(frozen=True, slots=True)
class BoardEnd:
    """The edge of a row let into the groove of a side, exact mm: free room behind it, and how deep it is let
    in.
    """

    board: Part
    side: Part
    play: Fraction
    housed: Fraction
    body: Fraction


def board_ends(wall: Wall) -> tuple[BoardEnd, ...]:
    """Return every edge of a board, or of a solid panel, that runs in the groove of the upright beside it."""
    found = []
    for part in wall.parts:
        if part.maker != "shop" or part.material.kind != "wood" or part.width_axis != "x":
            continue
        if part.does.member not in ("board", "panel"):
            continue
        for side in wall.parts:
            deep = _groove(side)
            if side.assembly == part.assembly and deep and overlap(side.extent, part.extent):
                from_left = side.extent.middle("x") < part.extent.middle("x")
                housed = side.extent.x1 - part.extent.x0 if from_left else part.extent.x1 - side.extent.x0
                found.append(BoardEnd(part, side, deep - housed, housed, part.width - tongue_of(part)))
    return tuple(found)


def _groove(part: Part) -> Fraction:
    """The depth of the groove or rabbet along an upright; a board's own groove takes a tongue and is none."""
    if part.length_axis != "z" or part.does.member == "board":
        return Fraction(0)
    return max(
        (
            joint.depth or Fraction(0)
            for joint in part.joints
            if joint.kind in ("groove", "rabbet") and not joint.mate
        ),
        default=Fraction(0),
    )


def tongue_of(part: Part) -> Fraction:
    """Return the length of a board's tongue, mm, 0 without one."""
    return sum((joint.depth or Fraction(0) for joint in part.joints if joint.kind == "tongue"), Fraction(0))


def body_of(part: Part) -> tuple[Fraction, Fraction]:
    """Return the span of a board across its row without its tongue, which runs one way or the other."""
    low, high = part.extent.span(part.width_axis)
    tongue = tongue_of(part)
    return (low + tongue, high) if tongue and _tongue_is_low(part) else (low, high - tongue)


def _tongue_is_low(part: Part) -> bool:
    # The end at a tongue is thinner than the other.
    across = PROFILE[part.solid.axis].index(AXES.index(part.width_axis))
    points = [s.first for slab in part.solid.slabs for r in slab.regions for s in r.outer.segments]
    ends = (min(p[across] for p in points), max(p[across] for p in points))
    thick = []
    for end in ends:
        at = [p[1 - across] for p in points if abs(p[across] - end) < SAME_POINT]
        thick.append(max(at) - min(at))
    return thick[0] < thick[1]


def _let_in(part: Part) -> bool:
    return part.does.member == "board" and any(joint.kind in ("tongue", "groove") for joint in part.joints)


def _joint(one: Part, other: Part) -> BoardJoint | None:
    axis = one.width_axis
    carrier, tongue = (one, tongue_of(one)) if tongue_of(one) else (other, Fraction(0))
    if not tongue:
        return None
    gap = other.extent.span(axis)[0] - (one.extent.span(axis)[1] - tongue)
    return BoardJoint(
        carrier, other, gap, tongue, max(one.width - tongue_of(one), other.width - tongue_of(other))
    )
