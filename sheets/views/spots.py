"""Where a part shows in a view, and a point well inside what shows of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.geometry.region import Region, contains, inner_point, is_rectangle
from sheets.model.part import Part
from sheets.views.frames import as_floats, meet, onto_view, sight_axis
from sheets.views.view import ExactBox, Frame, Seen

# Where a draughtsman would try first. Up: the middle, then the thirds, then nearer the ends. Across: a third
# before the middle, as what lies across the axis of the wall would be pointed at along its centre line.
_UP = (1 / 2, 1 / 3, 2 / 3, 1 / 6, 5 / 6, 1 / 20, 19 / 20)
_ACROSS = (1 / 3, 2 / 3, 1 / 2, 1 / 6, 5 / 6, 1 / 20, 19 / 20)


@dataclass(frozen=True, slots=True)
class Cover:
    """What a part covers, as rectangles less rectangular holes: right for all but mitred and shaped ends."""

    panes: tuple[tuple[Box, tuple[Box, ...]], ...]

    def clearance(self, point: Point) -> float:
        """Return how far inside a point lies, mm; negative: how far outside of it, at least."""
        if len(self.panes) == 1 and not self.panes[0][1]:
            return _depth(point, self.panes[0][0])
        return max(
            min([_depth(point, pane), *(-_depth(point, hole) for hole in holes)])
            for pane, holes in self.panes
        )


def seen_parts(
    kept: Sequence[tuple[Part, tuple[Region, ...], ExactBox]], frame: Frame, window: ExactBox
) -> tuple[Seen, ...]:
    """Return how each part shows: cut, visible or hidden behind others, with its box clipped to the window.

    kept: parts on the far side of the cut, with their cut faces within the window and their boxes in view
    coordinates.
    """
    fronts = [float(front_of(part, frame)) for part, _, _ in kept]
    covers = [cover_of(part, box, frame) for part, _, box in kept]
    # Whether two boxes overlap is asked of every pair: floats will do, and exact fractions would take long.
    boxes = [as_floats(box) for _, _, box in kept]
    found: list[Seen] = []
    for k, (part, faces, box) in enumerate(kept):
        shown = meet(box, window)
        if shown is None:
            continue
        if faces:
            largest = max(faces, key=lambda region: region.area)
            found.append(Seen(part.key, "cut", shown, _spot_of_cut(largest)))
            continue
        around = as_floats(shown)
        shades = [
            cover
            for cover, front, other in zip(covers, fronts, boxes, strict=True)
            if front > fronts[k] and other.overlaps(around)
        ]
        spot = _open_spot(around, covers[k], shades)
        if spot is None:
            found.append(Seen(part.key, "hidden", shown, _middle(around)))
        else:
            found.append(Seen(part.key, "visible", shown, spot))
    return tuple(found)


def _spot_of_cut(face: Region) -> Point:
    # A long strip is pointed at off its middle, for the same reason.
    u0, v0, u1, v1 = face.bounds
    u, v = ((u0 + u1) / 2, (v0 + v1) / 2) if is_rectangle(face) else inner_point(face)
    aside = (u0 + (u1 - u0) / 3, v)
    return aside if u1 - u0 > 2 * (v1 - v0) and contains(face, aside) else (u, v)


def front_of(part: Part, frame: Frame) -> Fraction:
    """Return how near a part comes to the viewer, mm along the sight; the cut is as near as can be."""
    axis, toward = sight_axis(frame)
    low, high = part.extent.span(axis)
    front = high if toward > 0 else -low
    return front if frame.cut_at is None else min(front, toward * frame.cut_at)


def cover_of(part: Part, box: ExactBox, frame: Frame) -> Cover:
    """Return what a part, whose box in the view this is, covers of the view."""
    solid = part.solid
    axis, _ = sight_axis(frame)
    regions = [region for slab in solid.slabs for region in slab.regions] if solid.axis == axis else []
    if len(regions) < 2 and not any(region.holes for region in regions):
        return Cover(((as_floats(box), ()),))
    turned = [region.transformed(onto_view(frame)) for region in regions]
    return Cover(tuple((region.bounds, tuple(hole.bounds for hole in region.holes)) for region in turned))


def _open_spot(box: Box, own: Cover, shades: list[Cover]) -> Point | None:
    best: Point | None = None
    room = 0.0
    panes = [pane for pane, holes in own.panes if holes or len(own.panes) > 1]
    for a, b, c, d in [box, *panes]:
        for order, fv in enumerate(_UP):
            for fu in _ACROSS:
                point = (a + (c - a) * fu, b + (d - b) * fv)
                clear = min(_depth(point, box), own.clearance(point))
                if clear <= room:
                    continue
                for shade in shades:
                    clear = min(clear, -shade.clearance(point))
                    if clear <= room:
                        break
                if clear > room * 1.05 + 1e-6:
                    best, room = point, clear
            if best is not None and order == 0 and not shades:
                break
    return best


def _depth(point: Point, box: Box) -> float:
    u, v = point
    return min(u - box[0], box[2] - u, v - box[1], box[3] - v)


def _middle(box: Box) -> Point:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
