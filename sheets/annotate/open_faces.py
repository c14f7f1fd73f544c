"""Where the face of a part lies open in a view: room for a note, or for the end of its leader."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import accumulate, combinations, pairwise

from sheets.annotate.intent import Annotated
from sheets.annotate.places import exact
from sheets.geometry.box import Box
from sheets.geometry.path import Point
from sheets.model.part import Part
from sheets.views.frames import as_floats, box_of, meet
from sheets.views.spots import Cover, cover_of, front_of
from sheets.views.view import ExactBox, Seen

_INWARD = 1 / 8  # of a room's width: how far from its outer side a leader ends


def open_face(one: Annotated, seen: Seen, by_key: Mapping[str, Part], *, right: bool) -> ExactBox | None:
    """Return the largest rectangle that a part shows of itself, to one side of the axes, or None.

    right: which of two equally large ones is taken, left and right of the middle of the view.
    """
    view = one.view
    frame, part = view.frame, by_key.get(seen.part)
    if frame is None or part is None:
        return None
    own = cover_of(part, box_of(part.extent, frame), frame)
    shades: list[Cover] = []
    for other in view.seen:
        standing = by_key.get(other.part)
        if standing is None or standing is part or other.how not in ("cut", "visible"):
            continue
        if front_of(standing, frame) > front_of(part, frame) and meet(other.box, seen.box) is not None:
            shades.append(cover_of(standing, box_of(standing.extent, frame), frame))
    around = as_floats(seen.box)
    axes = [float(a.at) for a in one.axes if a.direction == "v" and around[0] < a.at < around[2]]
    us = sorted({*_lines(around, [own, *shades], 0), *axes})
    vs = _lines(around, [own, *shades], 1)
    middle = float(view.box.u0 + view.box.u1) / 2
    best: Box | None = None
    largest: tuple[float, bool] = (0.0, False)
    for (a, c), (b, d) in _open(us, vs, own, shades, axes):
        size = (round((c - a) * (d - b), 3), ((a + c) / 2 > middle) == right)
        if size > largest:
            best, largest = Box(a, b, c, d), size
    return None if best is None else ExactBox(exact(best[0]), exact(best[2]), exact(best[1]), exact(best[3]))


def end_of_leader(room: ExactBox, view_middle: float) -> Point:
    """Return a point in a room near its outer side, half way up: a leader from beside the view ends there."""
    u0, v0, u1, v1 = as_floats(room)
    inward = (u1 - u0) * _INWARD
    return (u0 + inward if (u0 + u1) / 2 < view_middle else u1 - inward, (v0 + v1) / 2)


def _lines(around: Box, covers: list[Cover], k: int) -> list[float]:
    found = {around[k], around[k + 2]}
    for cover in covers:
        for pane, holes in cover.panes:
            for bounds in (pane, *holes):
                found |= {at for at in (bounds[k], bounds[k + 2]) if around[k] < at < around[k + 2]}
    return sorted(found)


def _open(
    us: list[float], vs: list[float], own: Cover, shades: list[Cover], axes: list[float]
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    # A rectangle between the lines is open when it holds no cell that is covered: counted by running sums.
    columns = [[0] * len(vs)]
    for a, c in pairwise(us):
        taken = [0]
        for b, d in pairwise(vs):
            point = ((a + c) / 2, (b + d) / 2)
            free = own.clearance(point) > 0 and all(shade.clearance(point) < 0 for shade in shades)
            taken.append(not free)
        columns.append([x + y for x, y in zip(columns[-1], accumulate(taken), strict=True)])
    found = []
    for i, j in combinations(range(len(us)), 2):
        if any(us[i] < at < us[j] for at in axes):
            continue
        for k, m in combinations(range(len(vs)), 2):
            if columns[j][m] - columns[i][m] - columns[j][k] + columns[i][k] == 0:
                found.append(((us[i], us[j]), (vs[k], vs[m])))
    return found
