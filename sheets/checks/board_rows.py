"""Tongue-and-groove boards side by side: the gap, the tongue and the body at each of their joints."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.model.part import Part
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
        found += [
            joint for one, other in zip(boards, boards[1:]) if (joint := _joint(one, other)) is not None
        ]
    return tuple(found)


def tongue_of(part: Part) -> Fraction:
    """Return the length of a board's tongue, mm, 0 without one."""
    return sum((joint.depth or Fraction(0) for joint in part.joints if joint.kind == "tongue"), Fraction(0))


def _let_in(part: Part) -> bool:
    return "board" in part.role and any(joint.kind in ("tongue", "groove") for joint in part.joints)


def _joint(one: Part, other: Part) -> BoardJoint | None:
    axis = one.width_axis
    carrier, tongue = (one, tongue_of(one)) if tongue_of(one) else (other, Fraction(0))
    if not tongue:
        return None
    gap = other.extent.span(axis)[0] - (one.extent.span(axis)[1] - tongue)
    return BoardJoint(
        carrier, other, gap, tongue, max(one.width - tongue_of(one), other.width - tongue_of(other))
    )
