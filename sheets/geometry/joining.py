"""Regions joined, cut from one another and cut off at boxes.

What takes more than arithmetic is left to `overlay`, which is loaded when first needed: it brings shapely.
"""

from __future__ import annotations

from collections.abc import Iterable

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.box import Box, around
from sheets.geometry.region import Region, in_order, is_rectangle, rectangle


def union(*shapes: Region) -> tuple[Region, ...]:
    """All that is in any of the regions."""
    if len(shapes) < 2:
        return shapes
    return _combined("union", shapes, ())


def difference(shapes: Iterable[Region], taken: Iterable[Region]) -> tuple[Region, ...]:
    """All that is in `shapes` and not in `taken`."""
    shapes = tuple(shapes)
    nearby = tuple(t for t in taken if any(s.bounds.overlaps(t.bounds) for s in shapes))
    if not nearby:
        return shapes
    return _combined("difference", shapes, nearby)


def intersection(shapes: Iterable[Region], others: Iterable[Region]) -> tuple[Region, ...]:
    """All that is in both."""
    shapes, others = tuple(shapes), tuple(others)
    found: list[Region] = []
    left = [s for s in shapes if any(s.bounds.overlaps(t.bounds) for t in others)]
    if left and len(others) == 1 and is_rectangle(others[0]):
        return clip_to_box(left, others[0].bounds)
    if left:
        found.extend(_combined("intersection", tuple(left), others))
    return tuple(found)


def clip_to_box(shapes: Iterable[Region], box: Box) -> tuple[Region, ...]:
    """What lies in a box with sides along the axes. A side of the box may be infinite."""
    kept: list[Region] = []
    hard: list[Region] = []
    for s in shapes:
        cut = s.bounds.common(box)
        if cut is None or cut.width <= SAME_POINT or cut.height <= SAME_POINT:
            continue
        if cut == s.bounds:
            kept.append(s)
        elif is_rectangle(s):
            kept.append(rectangle(*cut))
        else:
            hard.append(s)
    if hard:
        # Just round what is cut, since a side of the box may be infinite.
        frame = around(s.bounds for s in hard).grown(1.0).common(box)
        assert frame is not None
        kept.extend(_combined("intersection", tuple(hard), (rectangle(*frame),)))
    return in_order(kept)


def clip_to_half(shapes: Iterable[Region], along: int, at: float, keep: int) -> tuple[Region, ...]:
    """What lies on one side of the line first = at (along 0) or second = at (along 1).

    keep: +1 for the greater side, -1 for the lesser.
    """
    box = [-float("inf"), -float("inf"), float("inf"), float("inf")]
    box[along if keep > 0 else along + 2] = at
    return clip_to_box(shapes, Box(box[0], box[1], box[2], box[3]))


def _combined(how: str, shapes: tuple[Region, ...], others: tuple[Region, ...]) -> tuple[Region, ...]:
    from sheets.geometry.overlay import combined

    return combined(how, shapes, others)
