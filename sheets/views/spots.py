"""Where a part shows in a view, and a point well inside what shows of it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sheets.geometry.path import Point
from sheets.geometry.region import Region, clip_to_box, inner_point
from sheets.model.part import Part
from sheets.views.frames import as_floats, meet, sight_axis
from sheets.views.view import Box, Frame, Seen

# Where a draughtsman would try first: the middle, then the thirds, then nearer the ends.
_TRIES = (
    Fraction(1, 2),
    Fraction(1, 3),
    Fraction(2, 3),
    Fraction(1, 6),
    Fraction(5, 6),
    Fraction(1, 20),
    Fraction(19, 20),
)


def seen_parts(
    kept: Sequence[tuple[Part, tuple[Region, ...], Box]], frame: Frame, window: Box
) -> tuple[Seen, ...]:
    """Return how each part shows: cut, visible or hidden behind others, with its box clipped to the window.

    kept: parts on the far side of the cut, with their cut faces and boxes in view coordinates. Parts are
    taken as the boxes that hold them, which is right for all but the ends of mitred and shaped pieces.
    """
    axis, toward = sight_axis(frame)
    fronts = []
    for part, _, _ in kept:
        low, high = part.extent.span(axis)
        front = high if toward > 0 else -low
        if frame.cut_at is not None:
            front = min(front, toward * frame.cut_at)
        fronts.append(front)
    boxes = [as_floats(box) for _, _, box in kept]
    found: list[Seen] = []
    for k, (part, faces, box) in enumerate(kept):
        shown = meet(box, window)
        if shown is None:
            continue
        inside = clip_to_box(faces, as_floats(window)) if faces else ()
        if inside:
            largest = max(inside, key=lambda region: region.area)
            found.append(Seen(part.key, "cut", shown, inner_point(largest)))
            continue
        shades = [
            boxes[n]
            for n in range(len(kept))
            if n != k and fronts[n] > fronts[k] and meet(kept[n][2], shown) is not None
        ]
        spot = _open_spot(as_floats(shown), shades)
        if spot is None:
            found.append(Seen(part.key, "hidden", shown, _middle(as_floats(shown))))
        else:
            found.append(Seen(part.key, "visible", shown, spot))
    return tuple(found)


def _open_spot(
    box: tuple[float, float, float, float], shades: list[tuple[float, float, float, float]]
) -> Point | None:
    u0, v0, u1, v1 = box
    best: Point | None = None
    room = 0.0
    for order, fv in enumerate(_TRIES):
        for fu in _TRIES:
            point = (u0 + (u1 - u0) * float(fu), v0 + (v1 - v0) * float(fv))
            clear = _clearance(point, box, shades)
            if clear > room * 1.05 + 1e-6:
                best, room = point, clear
        if best is not None and order == 0 and not shades:
            break
    return best


def _clearance(
    point: Point, box: tuple[float, float, float, float], shades: list[tuple[float, float, float, float]]
) -> float:
    u, v = point
    clear = min(u - box[0], box[2] - u, v - box[1], box[3] - v)
    for a, b, c, d in shades:
        away = max(a - u, u - c, b - v, v - d)
        if away <= 0:
            return 0.0
        clear = min(clear, away)
    return clear


def _middle(box: tuple[float, float, float, float]) -> Point:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
