"""What is measured and said of a piece drawn by itself: each cut-out along and across, from one end."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from sheets.annotate.intent import Annotated, Balloon, DimString, Gap, Side
from sheets.annotate.notes import joint_words, material_words
from sheets.annotate.places import Direction, exact, foot, span
from sheets.base.keys import key_order
from sheets.base.notation import size_words
from sheets.base.tolerance import SAME_POINT
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.views.part_view import is_mirrored
from sheets.views.view import View

_CUT = ("dado", "rabbet", "groove", "notch")
_SIDE: dict[Direction, Side] = {"u": "above", "v": "left"}
_GRAIN: dict[Direction, str] = {"u": "ACROSS", "v": "UP AND DOWN"}


def annotated_part(wall: Wall, view: View, by_key: dict[str, Part]) -> Annotated:
    """Return the view of a piece with its strings, its mark and what the face does not show."""
    part = by_key[view.subjects[0]]
    strings = (*_strings(view, part.key, "u"), *_strings(view, part.key, "v"))
    balloon = Balloon(part.mark, view.seen[0].spot, part.key)
    return Annotated(view, strings=strings, balloons=(balloon,), notes=_notes(wall, view, by_key))


def _strings(view: View, key: str, direction: Direction) -> tuple[DimString, ...]:
    """The places of all that is cut, in one chain, and outside it the whole."""
    side = _SIDE[direction]
    stops = _stops(view, direction)
    whole = span(view.box, direction)

    def gap(a: Fraction, b: Fraction) -> Gap:
        return Gap(a, b, foot(view, direction, a, side), foot(view, direction, b, side), (key,))

    chain = tuple(gap(a, b) for a, b in pairwise(stops))
    overall = DimString(f"whole-{direction}", direction, side, 1, (gap(*whole),))
    return (DimString(f"cuts-{direction}", direction, side, 0, chain), overall) if len(chain) > 1 else (overall,)


def _stops(view: View, direction: Direction) -> list[Fraction]:
    # Whatever stands square to the direction in the drawing, dashed lines of the far face included.
    k = 0 if direction == "u" else 1
    found = set(span(view.box, direction))
    for trace in view.lines:
        for segment in trace.path:
            if abs(segment.first[k] - segment.last[k]) < SAME_POINT:
                found.add(exact(segment.first[k]))
    return sorted(found)


def _notes(wall: Wall, view: View, by_key: dict[str, Part]) -> tuple[str, ...]:
    parts = [by_key[key] for key in view.subjects]
    part = parts[0]
    frame = view.frame
    assert frame is not None
    others = [one for one in parts if not is_mirrored(one, part)]
    thick = size_words(part.thickness, wall.notation)
    lines = [f"{_marks(others)}: {len(others)} AS DRAWN, {material_words(part)}, {thick} THICK"]
    if part.grain is not None:
        along = frame.to_view(part.grain, Fraction(0))
        lines[0] += f", GRAIN {_GRAIN[along[0]]}" if along else ""
    mirrored = [one for one in parts if is_mirrored(one, part)]
    if mirrored:
        lines.append(f"{_marks(mirrored)}: {len(mirrored)} MIRRORED")
    words = dict.fromkeys(joint_words(joint, wall.notation) for joint in part.joints if joint.kind in _CUT)
    lines += [word.upper() for word in words]
    return tuple(lines)


def _marks(parts: list[Part]) -> str:
    return ", ".join(sorted({one.mark for one in parts}, key=key_order))
