"""What stands mirrored on the right: measured once, on the left."""

from __future__ import annotations

from collections.abc import Iterable

from sheets.annotate.intent import Annotated
from sheets.model.part import Extent
from sheets.model.wall import Component, Wall

MIRRORED = "RIGHT SIDE IS THE LEFT MIRRORED ABOUT CL"
"""Printed where one side stands for both; the coverage test counts twins by it."""


def twins(wall: Wall) -> tuple[tuple[str, str], ...]:
    """Return (part, original) for all that stands mirrored on the right.

    A part names its original as its twin; within one assembly, a piece of the same name and the mirrored
    place is a twin as well, as the two posts of a mantel are.
    """
    found = {part.key: part.twin for part in wall.parts if part.twin}
    left = {(p.name, p.assembly, p.extent): p.key for p in wall.parts if p.extent.x1 <= 0}
    for part in wall.parts:
        e = part.extent
        if part.key not in found and e.x0 >= 0 and part.maker != "room":
            mirrored = (part.name, part.assembly, Extent(-e.x1, -e.x0, e.y0, e.y1, e.z0, e.z1))
            if mirrored in left:
                found[part.key] = left[mirrored]
    return tuple(sorted(found.items()))


def mirror_note(wall: Wall) -> str:
    """Return what a view of the whole wall says of its symmetry; "" where there is none."""
    mirrored = dict(twins(wall))
    if not mirrored:
        return ""
    # What lies across the axis is drawn whole; only a component of the right side alone can spoil the claim.
    aside = {component.key for component in wall.components if component.extent.x0 >= 0}
    right = [
        part for part in wall.parts if part.extent.x0 >= 0 and part.maker != "room" and part.assembly in aside
    ]
    lonely = {part.assembly for part in right if part.key not in mirrored}
    if not lonely:
        return MIRRORED
    named = {part.assembly for part in right if part.key in mirrored} - lonely
    names = [pair_name(component) for component in wall.components if component.key in named]
    return f"{', '.join(names)}: {MIRRORED}" if names else ""


def pair_name(component: Component) -> str:
    """Return the name of a component without its hand: FLANKING CASE for both."""
    return component.name.upper().removesuffix(", LEFT").removesuffix(", RIGHT")


def says_mirrored(annotated: Iterable[Annotated]) -> bool:
    """Return whether a view says that one side is the other mirrored."""
    return any(MIRRORED in note for one in annotated for note in one.notes)
