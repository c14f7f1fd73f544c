"""Clouds round what changed: they hug it, run together when close, and keep off lettering that has not
changed.

Paper mm. A cloud is a closed stroke of arcs that bulge outward, with the pen `revision`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, hypot

from sheets.drawing.items import Stroke
from sheets.geometry.box import Box
from sheets.geometry.joining import difference, union
from sheets.geometry.path import Arc, Line, Loop, Point, Segment, arc_from_bulge
from sheets.geometry.region import Region, rectangle

MARGIN = 1.6
"""White space between what changed and its cloud, mm."""
CLOSE = 9.0
"""Changes nearer than this share a cloud, mm."""
CHORD = 6.0
"""Width of one scallop, mm (common practice: large enough to tell from any other line)."""
BULGE = 0.42
"""Tangent of a quarter of a scallop's angle: it stands out by 0.21 of its chord."""
CLEAR = 0.5
"""From a cloud to lettering that has not changed, mm."""
_LEAST_CHORD = 1.2  # a shorter side stays straight
_TIGHT = 0.35  # what changed is never left less enclosed than this, mm


def clouds(
    changed: Iterable[Box], texts: Sequence[Box], within: Box, gone: Iterable[Box] = ()
) -> tuple[Stroke, ...]:
    """Return the clouds round boxes. texts: lettering to leave outside. within: the clouds' scallops stay
    inside it. gone: boxes of what is no longer there.

    Where lettering stands so close to a change that both cannot be had, the change is enclosed; what is gone
    is enclosed only as far as no lettering has taken its place.
    """
    reach = CHORD * BULGE / 2
    inner = within.grown(-(reach + 0.1))
    boxes = [box for one in changed if (box := _inside(one, inner)) is not None]
    left = [box for one in gone if (box := _inside(one, inner)) is not None]
    found: list[Stroke] = []
    for shape in cloud_shapes(boxes, texts, left):
        for loop in shape.loops:
            found.append(Stroke(_scalloped(loop, texts), "revision", "cloud", True))
    return tuple(found)


def cloud_shapes(boxes: Sequence[Box], texts: Sequence[Box], gone: Sequence[Box] = ()) -> tuple[Region, ...]:
    """Return the regions that clouds go round, before they are scalloped."""
    if not boxes and not gone:
        return ()
    reach = CHORD * BULGE / 2 + CLEAR
    keep_off = [text.grown(reach) for text in texts]
    merged = _merged([box.grown(MARGIN) for box in _fewer([*boxes, *gone])], texts)
    shapes = union(*(rectangle(*box) for box in merged))
    near = [rectangle(*box) for box in keep_off if any(box.overlaps(s.bounds) for s in shapes)]
    if near:
        shapes = difference(shapes, near)
    tight = [rectangle(*_tightly(box, texts)) for box in _fewer(boxes)]
    shapes = union(*shapes, *tight)
    # A hole is kept only where lettering stands in it: else the cloud would be drawn twice round one change.
    return tuple(
        Region(shape.outer, tuple(hole for hole in shape.holes if _holds(hole, texts)))
        for shape in shapes
        if shape.area > 1.0
    )


def _tightly(box: Box, texts: Sequence[Box]) -> Box:
    # Lines of one note stand close: between a changed one and one that stayed, the cloud takes the middle.
    left, low, right, high = _TIGHT, _TIGHT, _TIGHT, _TIGHT
    for text in texts:
        if text[0] < box[2] + _TIGHT and text[2] > box[0] - _TIGHT:
            if text[3] <= box[1]:
                low = min(low, (box[1] - text[3]) / 2)
            elif text[1] >= box[3]:
                high = min(high, (text[1] - box[3]) / 2)
        if text[1] < box[3] + _TIGHT and text[3] > box[1] - _TIGHT:
            if text[2] <= box[0]:
                left = min(left, (box[0] - text[2]) / 2)
            elif text[0] >= box[2]:
                right = min(right, (text[0] - box[2]) / 2)
    return Box(box[0] - left, box[1] - low, box[2] + right, box[3] + high)


def _fewer(boxes: Sequence[Box]) -> list[Box]:
    # A box that lies in another says nothing more.
    kept: list[Box] = []
    for box in sorted(
        set(boxes), key=lambda b: (-(b[2] - b[0]) * (b[3] - b[1]), -(b[2] - b[0] + b[3] - b[1]), b)
    ):
        if not any(other.holds(box) for other in kept):
            kept.append(box)
    return kept


def _merged(boxes: list[Box], texts: Sequence[Box]) -> list[Box]:
    # Two boxes become one where that encloses little more, and no lettering that would be said to have
    # changed.
    # Largest first, so that small changes are gathered in; each round ends in fewer boxes, so it ends.
    boxes = sorted(boxes, key=lambda b: (-b.area, b))
    going = True
    while going:
        going = False
        k = 0
        while k < len(boxes):
            j = k + 1
            while j < len(boxes):
                both = boxes[k].joined(boxes[j])
                if (
                    boxes[k].gap(boxes[j]) <= CLOSE
                    and _worth(boxes[k], boxes[j], both)
                    and not any(
                        both.overlaps(text) and not boxes[k].overlaps(text) and not boxes[j].overlaps(text)
                        for text in texts
                    )
                ):
                    boxes[k] = both
                    del boxes[j]
                    going = True
                else:
                    j += 1
            k += 1
    return boxes


def _worth(one: Box, other: Box, both: Box) -> bool:
    # Hugging: no more than a scallop's square of white, or half as much again as what is enclosed.
    return both.area <= 1.5 * (one.area + other.area) + 2 * CHORD * CHORD


def _scalloped(loop: Loop, texts: Sequence[Box]) -> tuple[Segment, ...]:
    # The outer loop runs counter-clockwise and holes clockwise: the outside is always to the right.
    path: list[Segment] = []
    for segment in loop.segments:
        (ax, ay), (bx, by) = segment.first, segment.last
        size = hypot(bx - ax, by - ay)
        count = max(1, ceil(size / CHORD - 1e-6))
        for k in range(count):
            a = (ax + (bx - ax) * k / count, ay + (by - ay) * k / count)
            b = (ax + (bx - ax) * (k + 1) / count, ay + (by - ay) * (k + 1) / count)
            path.append(_scallop(a, b, texts) if size / count >= _LEAST_CHORD else Line(a, b))
    return tuple(path)


def _scallop(a: Point, b: Point, texts: Sequence[Box]) -> Segment:
    # Flatter where a full one would touch lettering.
    for bulge in (BULGE, BULGE / 2, BULGE / 4):
        arc = arc_from_bulge(a, b, bulge)
        grown = arc.bounds.grown(0.15)
        if not any(grown.overlaps(text) for text in texts):
            return _rounded(arc)
    return Line(a, b)


def _rounded(arc: Arc) -> Arc:
    # What goes into the record of an issue has these decimals; drawn from them, it is the same later.
    return Arc(
        (round(arc.centre[0], 4), round(arc.centre[1], 4)),
        round(arc.radius, 4),
        round(arc.start, 6),
        round(arc.sweep, 6),
    )


def _inside(box: Box, outer: Box) -> Box | None:
    # A change that runs out of the sheet's drawing space is clouded as far as it lies in it.
    return box.common(outer.grown(-MARGIN))


def _holds(hole: Loop, texts: Sequence[Box]) -> bool:
    return any(hole.bounds.overlaps(text) for text in texts)
