"""What is measured and said of a piece drawn by itself: each cut-out along and across, from one end."""

from __future__ import annotations

from collections import Counter
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
from sheets.views.part_view import is_cut_in_both, is_mirrored
from sheets.views.view import View

_CUT = ("dado", "rabbet", "groove", "notch")
_FRONT: dict[tuple[Direction, Fraction], str] = {
    ("u", Fraction(-1)): "AT THE LEFT",
    ("u", Fraction(1)): "AT THE RIGHT",
    ("v", Fraction(-1)): "BELOW",
    ("v", Fraction(1)): "ABOVE",
}
_FEW = 5  # stops that a chain says as well as a stick does
_SIDE: dict[Direction, Side] = {"u": "above", "v": "left"}
_GRAIN: dict[Direction, str] = {"u": "ACROSS", "v": "UP AND DOWN"}


def annotated_part(wall: Wall, view: View, by_key: dict[str, Part]) -> Annotated:
    """Return the view of a piece with its strings, its mark and what the face does not show."""
    part = by_key[view.subjects[0]]
    strings = (*_strings(view, part.key, "u"), *_strings(view, part.key, "v"))
    notes = _notes(wall, view, by_key)
    return Annotated(view, strings=strings, balloons=_balloons(view, by_key), notes=notes)


def _balloons(view: View, by_key: dict[str, Part]) -> tuple[Balloon, ...]:
    # Every mark that is cut from this drawing, one under the other beside the middle of the piece.
    firsts = {by_key[key].mark: key for key in reversed(view.subjects)}
    u, v = view.seen[0].spot
    step = float(view.box.v1 - view.box.v0) / (2 * len(firsts) + 2)
    return tuple(
        Balloon(mark, (u, v - k * step), firsts[mark]) for k, mark in enumerate(sorted(firsts, key=key_order))
    )


def _strings(view: View, key: str, direction: Direction) -> tuple[DimString, ...]:
    """The places of all that is cut, in one chain, and outside it the whole."""
    side = _SIDE[direction]
    stops = _stops(view, direction)
    whole = span(view.box, direction)

    def gap(a: Fraction, b: Fraction) -> Gap:
        return Gap(a, b, foot(view, direction, a, side), foot(view, direction, b, side), (key,))

    chain = tuple(gap(a, b) for a, b in pairwise(stops))
    overall = DimString(f"whole-{direction}", direction, side, 1, (gap(*whole),))
    cuts = DimString(f"cuts-{direction}", direction, side, 0, chain)
    return (cuts, overall) if len(chain) > 1 else (overall,)


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
    others = [one for one in parts if not is_mirrored(one, part)]
    thick = size_words(part.thickness, wall.notation)
    lines = [f"{_marks(others)}: {len(others)} AS DRAWN, {material_words(part)}, {thick} THICK"]
    lines[0] += _lies(view, part)
    mirrored = [one for one in parts if is_mirrored(one, part)]
    if mirrored:
        lines.append(f"{_marks(mirrored)}: {len(mirrored)} MIRRORED")
    words = Counter(joint_words(joint, wall.notation) for joint in part.joints if joint.kind in _CUT)
    lines += [f"{count} {word}" if count > 1 else word for word, count in words.items()]
    if is_cut_in_both(part):
        lines.append("CUT IN BOTH FACES")
    return (*lines, *_running(wall, view))


def _lies(view: View, part: Part) -> str:
    """Which way the grain runs in the drawing, and at which side of it the front edge is."""
    frame = view.frame
    along = frame.to_view(part.grain, Fraction(0)) if frame is not None and part.grain is not None else None
    front = frame.to_view("y", Fraction(1)) if frame is not None else None
    words = f", GRAIN {_GRAIN[along[0]]}" if along is not None else ""
    return words + (f", FRONT EDGE {_FRONT[front]}" if front is not None else "")


def _running(wall: Wall, view: View) -> tuple[str, ...]:
    """The places of all that is cut, as a joiner ticks them off along a stick laid at one end."""
    lines: list[str] = []
    for direction, words in (("v", "UP FROM THE LOWER END"), ("u", "FROM THE LEFT END")):
        stops = _stops(view, "u" if direction == "u" else "v")
        if len(stops) > _FEW:
            said = ", ".join(size_words(at - stops[0], wall.notation) for at in stops[1:])
            lines.append(f"{words}: {said}")
    return tuple(lines)


def _marks(parts: list[Part]) -> str:
    return ", ".join(sorted({one.mark for one in parts}, key=key_order))
