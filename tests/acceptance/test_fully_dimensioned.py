"""Fully dimensioned: each part's place on all three axes can be added up from the sizes printed.

Coordinates are nodes. A printed dimension joins two; a part's row in the schedule joins its two faces. A face
that no chain joins to the wall's axis (or its ends), the wall face or the floor is a phone call. This reads
the finished drawing set, not the intentions it was made from.
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from sheets.drawing.items import Dimension, DrawingSet, Stroke, Text, Viewport
from sheets.drawing.walk import ungrouped
from sheets.model.wall import Wall
from sheets.views.view import Frame, View
from tests.acceptance.stages import staged

Node = tuple[str, int]


class Joined:
    """Sets of coordinates that are joined by sizes."""

    def __init__(self) -> None:
        self.parent: dict[Node, Node] = {}

    def root(self, node: Node) -> Node:
        while self.parent.setdefault(node, node) != node:
            self.parent[node] = self.parent[self.parent[node]]
            node = self.parent[node]
        return node

    def join(self, one: Node, other: Node) -> None:
        self.parent[self.root(one)] = self.root(other)


def node(axis: str, at: float | Fraction) -> Node:
    return axis, round(float(at) * 64)  # 1/64 mm apart is the same face


def places(frame: Frame, dimension: Dimension) -> tuple[str, list[Fraction]]:
    """The axis that a dimension runs along, and the places it measures: its ends, and between them those of
    a size that it says comes again so many times."""
    direction, i = ("u", 0) if dimension.angle == 0 else ("v", 1)
    a, b = (Fraction(point[i]).limit_denominator(1 << 20) for point in (dimension.a, dimension.b))
    times = int(match[1]) if (match := re.match(r"(\d+) [@\u00d7] ", dimension.text.plain)) else 1
    found = [frame.to_world(direction, a + (b - a) * k / times) for k in range(times + 1)]  # type: ignore[arg-type]
    return found[0][0], [at for _, at in found]


def join_sizes(joined: Joined, frame: Frame, dimension: Dimension) -> None:
    """Join the places that a dimension measures from one to the next."""
    axis, measured = places(frame, dimension)
    for one, other in pairwise(measured):
        joined.join(node(axis, one), node(axis, other))


def strings(viewport: Viewport, frame: Frame) -> dict[str, tuple[str, list[Fraction]]]:
    """By the name of each string of a view: the axis it runs along, and the places it measures."""
    found: dict[str, tuple[str, set[Fraction]]] = {}
    for item in viewport.items:
        if isinstance(item, Dimension) and item.kind == "linear":
            axis, measured = places(frame, item)
            found.setdefault(item.id, (axis, set()))[1].update(measured)
    return {name: (axis, sorted(measured)) for name, (axis, measured) in found.items()}


def typical(views: tuple[View, ...], drawing: DrawingSet) -> list[tuple[Node, Node]]:
    """What a detail that says TYP. stands for.

    Where it shows how far a face stands off a line that a string of the plan or section measures, the like
    face stands as far off each line of that string, at its two ends to either hand ("both ends", "end boards
    alike"), and so in the components that it says it is also at.
    """
    seen = {view.id: view for view in views}
    placed = [
        item
        for sheet in drawing.sheets
        for item in sheet.items
        if isinstance(item, Viewport) and item.id in seen and seen[item.id].frame is not None
    ]
    lines = [
        (name.partition("/")[0], name.partition("/")[2], axis, stops)
        for viewport in placed
        if not viewport.id.startswith("detail")
        for name, (axis, stops) in strings(viewport, seen[viewport.id].frame).items()
        if len(stops) > 2
    ]  # type: ignore[arg-type]
    joined: list[tuple[Node, Node]] = []
    for viewport in placed:
        words = " ".join(item.plain for item in ungrouped(viewport.items) if isinstance(item, Text))
        if not viewport.id.startswith("detail") or "TYP." not in words:
            continue
        view = seen[viewport.id]
        also = view.also if "ALSO AT" in words else ()
        own = Joined()
        measured: dict[str, set[Fraction]] = {}
        for axis, stops in strings(viewport, view.frame).values():  # type: ignore[arg-type]
            measured.setdefault(axis, set()).update(stops)
        for item in viewport.items:
            if isinstance(item, Dimension) and item.kind == "linear":
                join_sizes(own, view.frame, item)  # type: ignore[arg-type]
        for kind, owner, axis, stops in lines:
            here = [line for line in stops if line in measured.get(axis, ())]
            if owner != view.subject or not here:
                continue
            near = min(b - a for a, b in pairwise(stops)) / 2  # farther off it belongs to another line
            offs = {
                at - line
                for at in measured[axis]
                for line in here
                if abs(at - line) < near and own.root(node(axis, at)) == own.root(node(axis, line))
            }
            for other_kind, other, other_axis, others in lines:
                if (other_kind, other_axis) == (kind, axis) and other in (owner, *also):
                    for line in others:
                        hands = (1, -1) if line in (others[0], others[-1]) else (1,)
                        joined += [
                            (node(axis, line), node(axis, line + hand * off))
                            for off in offs
                            for hand in hands
                        ]
    return joined


def draws_the_axis(views: tuple[View, ...], drawing: DrawingSet) -> bool:
    """Whether a centreline is drawn up the elevation at the wall's axis."""
    elevations = {view.id for view in views if view.kind == "elevation"}
    ends = [
        (end[0] - viewport.origin[0])
        for sheet in drawing.sheets
        for viewport in sheet.items
        if isinstance(viewport, Viewport) and viewport.id in elevations
        for stroke in viewport.items
        if isinstance(stroke, Stroke) and stroke.pen == "centre"
        for piece in stroke.path
        for end in (piece.first, piece.last)
    ]
    return any(abs(off) < 0.01 for off in ends)


def unmeasured(wall: Wall, views: tuple[View, ...], drawing: DrawingSet) -> list[str]:
    """Parts, with the axis on which they cannot be placed."""
    joined = Joined()
    frames = {view.id: view.frame for view in views}
    for sheet in drawing.sheets:
        for viewport in sheet.items:
            if isinstance(viewport, Viewport) and frames.get(viewport.id) is not None:
                for item in viewport.items:
                    if isinstance(item, Dimension) and item.kind == "linear":
                        join_sizes(joined, frames[viewport.id], item)  # type: ignore[arg-type]
    for one, other in typical(views, drawing):
        joined.join(one, other)
    made = [part for part in wall.parts if part.maker == "shop"]
    for part in made:
        for axis in "xyz":
            if part.size(axis) == part.extent.size(axis):  # else it is bent: its row tells how it lies flat  # type: ignore[arg-type]
                joined.join(*(node(axis, at) for at in part.extent.span(axis)))  # type: ignore[arg-type]
    if any(part.twin for part in made):
        # the sheets say that one side is the other mirrored about the axis
        for part in made:
            for at in part.extent.span("x"):
                joined.join(node("x", at), node("x", -at))
    joined.join(node("x", 0), node("x", wall.room.width / 2))
    joined.join(node("x", 0), node("x", -wall.room.width / 2))
    if draws_the_axis(views, drawing):
        # a piece as far to one hand of the drawn axis as to the other is placed on it by its length alone
        for part in made:
            if part.extent.x0 == -part.extent.x1:
                joined.join(node("x", part.extent.x0), node("x", 0))
    missing = []
    for part in made:
        for axis in "xyz":
            if joined.root(node(axis, part.extent.span(axis)[0])) != joined.root(node(axis, 0)):  # type: ignore[arg-type]
                missing.append(f"{part.key}: {axis}")
    return missing


def test_every_part_can_be_placed_from_the_sheets(spec: Path) -> None:
    wall, views, drawing = staged(spec)
    made = [part for part in wall.parts if part.maker == "shop"]
    assert len(made) >= 10
    assert unmeasured(wall, views, drawing) == []


def test_a_dimension_left_out_is_missed() -> None:
    """The test can fail: without the dimensions of the sections nobody can place a shelf."""
    from dataclasses import replace

    spec = Path(__file__).resolve().parents[2] / "specs" / "ferry-landing.yaml"
    wall, views, drawing = staged(spec)
    bare = replace(
        drawing,
        sheets=tuple(
            replace(
                sheet,
                items=tuple(
                    item
                    for item in sheet.items
                    if not (isinstance(item, Viewport) and not item.id.startswith("plan"))
                ),
            )
            for sheet in drawing.sheets
        ),
    )
    assert any("shelf" in line and line.endswith(": z") for line in unmeasured(wall, views, bare))


def test_like_joints_are_placed_only_where_a_detail_says_typical() -> None:
    """The test can fail: a backer joint detailed once, without TYP., says nothing of the other boards."""
    from dataclasses import replace

    spec = Path(__file__).resolve().parents[2] / "specs" / "ferry-landing.yaml"
    wall, views, drawing = staged(spec)
    assert [view.id for view in views if any("TYP." in line for line in view.says)]
    silent = replace(
        drawing,
        sheets=tuple(
            replace(
                sheet,
                items=tuple(
                    replace(
                        item,
                        items=tuple(
                            word
                            for word in ungrouped(item.items)
                            if not (isinstance(word, Text) and "TYP." in word.plain)
                        ),
                    )
                    if isinstance(item, Viewport)
                    else item
                    for item in sheet.items
                ),
            )
            for sheet in drawing.sheets
        ),
    )
    assert any("board-5" in line and line.endswith(": x") for line in unmeasured(wall, views, silent))


@pytest.mark.parametrize("direction", [0.0, 90.0])
def test_chains_are_not_a_flood(direction: float) -> None:
    """What a joiner measures, not what a computer knows: no view says a size twice; sheets stay readable."""
    spec = Path(__file__).resolve().parents[2] / "specs" / "ferry-landing.yaml"
    wall, _, drawing = staged(spec)
    count = 0
    for sheet in drawing.sheets:
        for viewport in sheet.items:
            if isinstance(viewport, Viewport):
                spans = [
                    (item.angle, round(min(item.a[i], item.b[i]), 3), round(max(item.a[i], item.b[i]), 3))
                    for item in viewport.items
                    if isinstance(item, Dimension) and item.kind == "linear"
                    for i in [0 if item.angle == 0 else 1]
                    if item.angle == direction
                ]
                assert len(spans) == len(set(spans)), viewport.id
                count += len(spans)
    assert 0 < count <= 3 * len(wall.parts)
