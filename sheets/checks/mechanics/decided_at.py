"""Which word of the spec a finding asks to change: the paths that sizes and places of pieces come from."""

from __future__ import annotations

from dataclasses import replace

from sheets.model.part import Part, Provenance
from sheets.model.purpose import Size
from sheets.model.wall import Component, Wall


def under(place: Provenance, *words: str) -> Provenance:
    """Return the place of words under a place of the spec; what its path ends with is not said twice."""
    for known in range(min(len(words), len(place.path)), 0, -1):
        if place.path[-known:] == words[:known]:
            return replace(place, path=(*place.path, *words[known:]))
    return replace(place, path=(*place.path, *words))


def at(known: Provenance, *path: str | int) -> Provenance:
    """Return a place of the spec by its whole path, with line and column of a known one until the text is
    asked.
    """
    return replace(known, path=path)


def decided(thing: Part | Component, *sizes: Size) -> Provenance:
    """Return the first place of the spec that decides one of these sizes; its own place when none does."""
    path = thing.decided_by.of(*sizes)
    return at(thing.made_from, *path) if path else thing.made_from


def across_the_grain(part: Part) -> Provenance:
    """Return where the width of a piece across its grain is written."""
    return decided(part, "width", part.width_axis)


def material(part: Part) -> Provenance:
    """Return where the name of a piece's material is told."""
    return under(part.made_from, "material")


def of_section(wall: Wall, section: str, *words: str, otherwise: Provenance) -> Provenance:
    """Return a word of a section that the spec has, else another place."""
    built = any(component.made_from.path == (section,) for component in wall.components)
    return at(otherwise, section, *words) if built else otherwise
