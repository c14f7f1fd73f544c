"""Whether every part can be found by measuring: the fully dimensioned test.

Coordinates are nodes (world axis, exact mm); a printed dimension joins two, and so does a size that the
parts schedule gives (thickness, width, length of a part the shop makes). A coordinate is known when a path
leads from it to the datum: the ends of the wall and its axis (x), the wall face (y), the floor (z).
A size that lies half to each side of the wall's axis fixes both its ends, once the axis is drawn. A mirrored
twin is known with its original, once a view says that it is mirrored.

Contact is no dimension, but two parts that share a coordinate share a node: flush faces need one dimension.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from sheets.annotate.intent import Annotated
from sheets.annotate.notes import MIRRORED
from sheets.model.part import AXES, Axis, Part
from sheets.model.wall import Wall

Node = tuple[Axis, Fraction]

FACES = {"x": ("left face", "right face"), "y": ("back face", "front face"), "z": ("underside", "top")}


@dataclass(frozen=True, slots=True)
class Missing:
    """A face that cannot be reached from the datum, or the curve of a shaped part that is not given."""

    part: str
    axis: Axis
    what: str
    at: Fraction


class Known:
    """Coordinates and how they hang together; grows by `join`."""

    def __init__(self, wall: Wall, annotated: Iterable[Annotated]) -> None:
        self._parent: dict[Node, Node] = {}
        sets = tuple(annotated)
        self.axis_drawn = any(_draws_axis(one) for one in sets)
        self.mirror_said = any(MIRRORED in one.notes for one in sets)
        self._datum = datum_nodes(wall)
        self._twins = _twin_nodes(wall) if self.mirror_said else ()
        for part in wall.parts:
            for axis in AXES:
                low, high = part.extent.span(axis)
                self._find((axis, low))
                self._find((axis, high))
                if part.maker == "shop":
                    self.join((axis, low), (axis, high))
        for a, b in dimensions(sets):
            self.join(a, b)

    def join(self, a: Node, b: Node) -> None:
        """Say that a dimension runs from a to b."""
        first, second = self._find(a), self._find(b)
        if first != second:
            self._parent[max(first, second)] = min(first, second)

    def root(self, node: Node) -> Node:
        """Return the node that stands for all those joined with this one."""
        return self._find(node)

    def roots_known(self) -> set[Node]:
        """Return the roots of all groups that hang on the datum."""
        known = {self._find(node) for node in self._datum if node in self._parent}
        if self.axis_drawn:
            known |= {self._find(node) for node in tuple(self._parent) if self._straddles(node)}
        grown = True
        while grown:
            before = len(known)
            for a, b in self._twins:
                first, second = self._find(a), self._find(b)
                if first in known or second in known:
                    known |= {first, second}
            grown = len(known) > before
        return known

    def _straddles(self, node: Node) -> bool:
        axis, at = node
        other: Node = (axis, -at)
        return axis == "x" and at != 0 and other in self._parent and self._find(node) == self._find(other)

    def _find(self, node: Node) -> Node:
        parent = self._parent
        if node not in parent:
            parent[node] = node
        root = node
        while parent[root] != root:
            root = parent[root]
        while parent[node] != root:
            parent[node], node = root, parent[node]
        return root


def missing(annotated: Iterable[Annotated], wall: Wall) -> tuple[Missing, ...]:
    """Return every face and curve that these views and the parts schedule leave open, in the order of the parts.

    Pieces of the room itself are not asked for; of what others build only what stands out of the wall face.
    """
    sets = tuple(annotated)
    known = Known(wall, sets)
    roots = known.roots_known()
    found: list[Missing] = []
    for part in wall.parts:
        for axis, at, what in faces(part):
            if known.root((axis, at)) not in roots:
                found.append(Missing(part.key, axis, what, at))
    found.extend(_open_curves(sets, wall))
    return tuple(found)


def faces(part: Part) -> Iterator[tuple[Axis, Fraction, str]]:
    """Yield the faces of the part whose places have to be given: axis, coordinate, the trade's word."""
    if part.maker == "room":
        return
    for axis in AXES:
        for at, what in zip(part.extent.span(axis), FACES[axis], strict=True):
            if part.maker == "others" and axis == "y" and at < 0:
                continue  # the inside of the wall is not the joiner's to measure
            yield axis, at, what


def dimensions(annotated: Iterable[Annotated]) -> Iterator[tuple[Node, Node]]:
    """Yield both ends of every dimension of every view, as world coordinates."""
    for one in annotated:
        frame = one.view.frame
        if frame is None:
            continue
        for string in one.strings:
            for gap in string.gaps:
                yield frame.to_world(string.direction, gap.a), frame.to_world(string.direction, gap.b)


def datum_nodes(wall: Wall) -> tuple[Node, ...]:
    """Return the coordinates that are there before anything is measured."""
    half = wall.room.width / 2
    zero = Fraction(0)
    return (("x", -half), ("x", zero), ("x", half), ("y", zero), ("z", zero))


def _draws_axis(one: Annotated) -> bool:
    frame = one.view.frame
    if frame is None:
        return False
    return any(frame.to_world("u" if line.direction == "v" else "v", line.at) == ("x", 0) for line in one.axes)


def _twin_nodes(wall: Wall) -> tuple[tuple[Node, Node], ...]:
    pairs: set[tuple[Node, Node]] = set()
    for part in wall.parts:
        if part.twin:
            for at in part.extent.span("x"):
                pairs.add((("x", at), ("x", -at)))
    return tuple(sorted(pairs))


def _open_curves(annotated: tuple[Annotated, ...], wall: Wall) -> Iterator[Missing]:
    given = {arc.part for one in annotated for arc in one.arcs}
    by_key = {part.key: part for part in wall.parts}
    mirrored = any(MIRRORED in one.notes for one in annotated)
    for part in wall.parts:
        if part.curve is None or part.maker == "room" or part.key in given:
            continue
        twin_given = mirrored and (part.twin in given or any(
            by_key[key].twin == part.key for key in sorted(given) if key in by_key))
        alike = any(key in by_key and by_key[key].mark and by_key[key].mark == part.mark for key in sorted(given))
        if not twin_given and not alike:
            yield Missing(part.key, part.curve.across, "radius of its curve", part.extent.span(part.curve.across)[0])
