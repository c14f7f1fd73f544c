"""The key: a small elevation of the wall that shows where each plan, section and detail was taken. Paper mm.

It is a picture for finding one's way, not for measuring, so it is as large as its room lets it be.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sheets.compose.ink import LEAST_TEXT, line, polyline, words
from sheets.compose.ink import width as text_width
from sheets.compose.page_sizes import KEY
from sheets.compose.pages.page import Page
from sheets.compose.pages.references import Where, numbered
from sheets.compose.placing.columns import Entry, halves, heights
from sheets.compose.placing.mark_symbols import leader_end
from sheets.drawing.items import Item, Stroke
from sheets.geometry.box import Box
from sheets.geometry.path import Point, Similarity
from sheets.model.part import Axis
from sheets.views.view import View

_ROLES = ("outline", "step", "edge")


@dataclass(frozen=True, slots=True)
class _Taken:
    """A view of the set, and the rectangle of the wall that it was taken from: x0, z0, x1, z1, full size."""

    where: Where
    place: Box
    cut: Axis | None  # of a plan or a section, which cuts the whole wall

    @property
    def says(self) -> str:
        return f"{self.where.number}/{self.where.sheet}"


def key_elevation(pages: Sequence[Page], wide: float) -> tuple[tuple[Item, ...], float]:
    """Return the key in a room `wide` mm across, its upper left corner at (0, 0), and its height.

    Nothing if the set has no elevation, or no other view that was taken from it.
    """
    views = [placed.annotated.view for page in pages for placed, _ in page.views]
    fronts = [view for view in views if view.kind == "elevation"]
    places = numbered(pages)
    taken = [one for view in views if (one := _taken(view, places[view.id]))]
    if not fronts or not taken:
        return (), 0.0
    x0, x1 = float(min(v.box.u0 for v in fronts)), float(max(v.box.u1 for v in fronts))
    z0, z1 = float(min(v.box.v0 for v in fronts)), float(max(v.box.v1 for v in fronts))
    beside = KEY.knee + KEY.to_text + max(text_width(one.says) for one in taken)
    s = min((wide - 2 * beside) / (x1 - x0), KEY.tallest / (z1 - z0))
    change = Similarity(s, 0.0, 0.0, s, wide / 2 - s * (x0 + x1) / 2, -KEY.past - s * z1)
    left, low = change((x0, z0))
    right, high = change((x1, z1))
    wall = Box(left, low, right, high)
    items: list[Item] = [
        Stroke(tuple(segment.transformed(change) for segment in trace.path), "edge")
        for view in fronts
        for trace in view.lines
        if trace.role in _ROLES and trace.path
    ]
    entries: list[Entry] = []
    for k, one in enumerate(taken):
        items += _cutting_line(one, change, wall)
        entries.append(Entry(str(k), _target(one, change, wall), (one.says,), ""))
    lowest = low - KEY.past
    for way, group in zip((-1, 1), halves(entries), strict=True):
        knee = left - KEY.knee if way < 0 else right + KEY.knee
        for entry, y in heights(group, knee, (low, high)):
            items += _callout(entry, taken[int(entry.id)].where, (knee, y), way)
            lowest = min(lowest, y - entry.down)
    return tuple(items), -lowest


def _taken(view: View, where: Where) -> _Taken | None:
    frame = view.frame
    if frame is None or view.kind in ("elevation", "part", "axonometric"):
        return None
    at: dict[str, tuple[float, float]] = {}
    for direction, low, high in (("u", view.box.u0, view.box.u1), ("v", view.box.v0, view.box.v1)):
        axis, a = frame.to_world("u" if direction == "u" else "v", low)
        _, b = frame.to_world("u" if direction == "u" else "v", high)
        at[axis] = (float(min(a, b)), float(max(a, b)))
    if frame.cut_axis is not None and frame.cut_at is not None:
        at[frame.cut_axis] = (float(frame.cut_at), float(frame.cut_at))
    if "x" not in at or "z" not in at:
        return None
    place = Box(at["x"][0], at["z"][0], at["x"][1], at["z"][1])
    return _Taken(where, place, frame.cut_axis if view.kind in ("plan", "section") else None)


def _target(one: _Taken, change: Similarity, wall: Box) -> Point:
    # A cut through the wall is led to at the end of its line, at the right or over the top.
    x0, z0, x1, z1 = one.place
    x, y = change(((x0 + x1) / 2, (z0 + z1) / 2))
    if one.cut == "x":
        return x, wall[3] + KEY.past
    return (wall[2] + KEY.past, y) if one.cut == "z" else (x, y)


def _cutting_line(one: _Taken, change: Similarity, wall: Box) -> list[Item]:
    x, y = _target(one, change, wall)
    if one.cut == "x":
        return [line((x, wall[1] - KEY.past), (x, y), "cutting plane")]
    return [line((wall[0] - KEY.past, y), (x, y), "cutting plane")] if one.cut == "z" else []


def _callout(entry: Entry, where: Where, knee: Point, way: int) -> list[Item]:
    x, y = knee[0] + way * KEY.to_text, knee[1]
    (says,) = entry.lines
    text = words(
        says, (x, y - LEAST_TEXT / 2), LEAST_TEXT, h="left" if way > 0 else "right", link=where.sheet
    )
    leader = polyline([(x - way * KEY.clear, y), knee, entry.target], "leader")
    return [leader, leader_end(entry.target, knee, on_edge=False), text]
