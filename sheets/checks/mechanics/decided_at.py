"""Which word of the spec a finding asks to change: the paths that sizes and places of pieces come from."""

from __future__ import annotations

from dataclasses import replace

from sheets.model.part import Axis, Part, Provenance
from sheets.model.wall import Wall

_ACROSS = {
    "stile": ("stile",),
    "rail": ("rail",),
    "mullion": ("mullion",),
    "fascia": ("height",),
    "fascia return": ("height",),
    "sub-fascia return": ("height",),
    "sub-fascia": ("height",),
    "plinth": ("height",),
    "arched rail": ("rail",),
    "post": ("width",),
    "post face": ("width",),
    "corbel": ("width",),
    "cap": ("overhang",),
    "cap return": ("overhang",),
}
"""By role: the word for the size across the grain, under the piece's own place. A cap's edge is as wide as
its overhang and what lies behind it."""

_CASE: dict[Axis, str] = {"x": "width", "y": "depth", "z": "height"}
_MANTEL: dict[Axis, str] = {"x": "width", "y": "breast", "z": "top"}
_OVERMANTEL: dict[Axis, str] = {"x": "width", "y": "thickness", "z": "height"}
_TOPS = {
    "plinth": "height",
    "baseboard": "height",
    "hearth": "thickness",
    "fascia": "height",
    "shelf": "spacing",
}


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


def across_the_grain(part: Part) -> Provenance:
    """Return where the width of a piece across its grain is written."""
    words = _ACROSS.get(part.role)
    return under(part.made_from, *words) if words else decides(part, part.width_axis)


def decides(part: Part, axis: Axis) -> Provenance:
    """Return what a piece's size along an axis follows from: its case's, or the mantel's, size that way."""
    path = part.made_from.path
    if path[:1] == ("cases",) and len(path) > 1:
        return at(part.made_from, *path[:2], _CASE[axis])
    if path[:1] == ("mantel",):
        return at(part.made_from, "mantel", _MANTEL[axis])
    if path[:1] == ("overmantel",):
        return at(part.made_from, "overmantel", _OVERMANTEL[axis])
    return part.made_from


def material(part: Part) -> Provenance:
    """Return where the name of a piece's material is told."""
    return under(part.made_from, "material")


def top_edge(part: Part) -> Provenance:
    """Return where the height of a piece's upper edge is written."""
    if part.role in _TOPS:
        return under(part.made_from, _TOPS[part.role])
    if "cap" in part.role or part.made_from.path[:1] in (("cases",), ("mantel",)):
        return decides(part, "z")
    return part.made_from


def farther_from_fire(part: Part) -> Provenance:
    """Return what brings a piece of the mantel farther from the opening: a lower rail, a slimmer post, a
    higher top.
    """
    path = part.made_from.path
    if path[:2] == ("mantel", "arch"):
        return at(part.made_from, "mantel", "arch", "rail")
    if path[:2] in (("mantel", "posts"), ("mantel", "corbels")):
        return at(part.made_from, *path[:2], "width")
    if path[:1] == ("mantel",):
        return at(part.made_from, "mantel", "width" if part.role == "breast side" else "top")
    return part.made_from


def nearer_to_wall(part: Part) -> Provenance:
    """Return what brings the front of a piece of the mantel nearer to the wall."""
    if "cap" in part.role:
        return under(part.made_from, "overhang")
    if part.made_from.path[:1] == ("mantel",):
        return at(part.made_from, "mantel", "breast")
    return part.made_from


def of_section(wall: Wall, section: str, *words: str, otherwise: Provenance) -> Provenance:
    """Return a word of a section that the spec has, else another place."""
    built = any(component.kind == section for component in wall.components)
    return at(otherwise, section, *words) if built else otherwise
