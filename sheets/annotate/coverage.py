"""Whether every part can be found by measuring: the fully dimensioned test.

Faces of parts and lines of views are nodes, each a world axis and an exact coordinate. A line of a view
stands for all faces that show there; a printed dimension joins two lines; a size that the parts schedule
gives (thickness, width, length of what the shop makes) joins the two faces of its part. A face is known when
a path leads from it to the datum: the ends of the wall and its axis (x), the wall face (y), the floor (z).
A size that lies half to each side of the wall's axis fixes both its ends, once the axis is drawn. A mirrored
twin is known with its original, once a view says that it is mirrored.

So two parts that happen to share a coordinate help each other only where a view shows them flush.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from sheets.annotate.intent import Annotated
from sheets.annotate.places import Direction, parts_by_key, places
from sheets.annotate.twins import says_mirrored, twins
from sheets.annotate.typical import typical_faces
from sheets.model.part import AXES, Axis, Part
from sheets.model.wall import Wall
from sheets.views.view import View

Node = tuple[str, str, Axis, Fraction]
"""("part", key, axis, at), ("view", id, axis, at), ("line", owner, axis, at) or ("datum", "", axis, at)."""

FACES = {"x": ("left face", "right face"), "y": ("back face", "front face"), "z": ("underside", "top")}


@dataclass(frozen=True, slots=True)
class Missing:
    """A face that cannot be reached from the datum, or the curve of a shaped part that is not given."""

    part: str
    axis: Axis
    what: str
    at: Fraction


_Key = tuple[str, str, Axis, int, int]


def _key(node: Node) -> _Key:
    # The coordinate as two whole numbers: fractions are slow to hash.
    kind, name, axis, at = node
    return kind, name, axis, at.numerator, at.denominator


class Known:
    """Faces and lines, and how they hang together. Nodes are numbered once, as they are slow to compare."""

    def __init__(self, wall: Wall, annotated: Iterable[Annotated]) -> None:
        self._number: dict[_Key, int] = {}
        self._parent: list[int] = []
        self._astride: list[tuple[int, int]] = []  # two nodes of one part or view, alike far from the axis
        sets = tuple(annotated)
        self.axis_drawn = any(_draws_axis(one) for one in sets)
        self._datum = {_key(node)[2:]: self._of(node) for node in datum_nodes(wall)}
        by_key = parts_by_key(wall)
        for part in wall.parts:
            for axis in AXES:
                low, high = (self._of(("part", part.key, axis, at)) for at in part.extent.span(axis))
                if part.maker == "shop" and part.size(axis) == part.extent.size(axis):
                    self._union(low, high)
        for one in sets:
            for line, face in _shown(one, by_key):
                self.join(line, face)
            for a, b in dimensions(one):
                self.join(a, b)
        for (owner, along, place), key, at in typical_faces(sets, wall, by_key):
            joint: Node = ("line", owner, along, place)
            self.join(joint, ("part", key, along, at))
            for one in sets:
                drawn: Node = ("view", one.view.id, along, place)
                if _key(drawn) in self._number:
                    self.join(joint, drawn)
        pairs = _twin_nodes(wall) if says_mirrored(sets) else ()
        self._twins = [(self._of(a), self._of(b)) for a, b in pairs]

    def join(self, a: Node, b: Node) -> None:
        """Say that a dimension runs from a to b."""
        self._union(self._of(a), self._of(b))

    def root(self, node: Node) -> int:
        """Return the number that stands for all those joined with this node."""
        return self._find(self._of(node))

    def roots_known(self) -> set[int]:
        """Return the roots of all groups that hang on the datum."""
        known = {self._find(number) for number in self._datum.values()}
        if self.axis_drawn:
            known |= {self._find(a) for a, b in self._astride if self._find(a) == self._find(b)}
        grown = True
        while grown:
            before = len(known)
            for a, b in self._twins:
                first, second = self._find(a), self._find(b)
                if first in known or second in known:
                    known |= {first, second}
            grown = len(known) > before
        return known

    def _of(self, node: Node) -> int:
        key = _key(node)
        number = self._number.get(key)
        if number is not None:
            return number
        number = self._number[key] = len(self._parent)
        self._parent.append(number)
        kind, name, axis, over, under = key
        if kind != "datum":
            datum = self._datum.get((axis, over, under))
            if datum is not None:
                self._union(number, datum)
            other = self._number.get((kind, name, axis, -over, under)) if axis == "x" and over else None
            if other is not None:
                self._astride.append((number, other))
        return number

    def _union(self, a: int, b: int) -> None:
        first, second = self._find(a), self._find(b)
        if first != second:
            self._parent[max(first, second)] = min(first, second)

    def _find(self, number: int) -> int:
        parent = self._parent
        root = number
        while parent[root] != root:
            root = parent[root]
        while parent[number] != root:
            parent[number], number = root, parent[number]
        return root


def missing(annotated: Iterable[Annotated], wall: Wall) -> tuple[Missing, ...]:
    """Return every face and curve that views and the parts schedule leave open, in the order of the parts.

    Pieces of the room itself are not asked for; of what others build only what stands out of the wall face,
    and not the firebox: the opening is measured, the rest is in the appliance's own drawings.
    """
    sets = tuple(annotated)
    known = Known(wall, sets)
    roots = known.roots_known()
    found: list[Missing] = []
    for part in wall.parts:
        for axis, at, what in faces(part):
            if known.root(("part", part.key, axis, at)) not in roots:
                found.append(Missing(part.key, axis, what, at))
    found.extend(_open_curves(sets, wall))
    return tuple(found)


def faces(part: Part) -> Iterator[tuple[Axis, Fraction, str]]:
    """Yield the faces of the part whose places have to be given: axis, coordinate, the trade's word."""
    if part.maker == "room" or part.does.fire in ("firebox", "masonry"):
        return
    for axis in AXES:
        for at, what in zip(part.extent.span(axis), FACES[axis], strict=True):
            if part.maker == "others" and axis == "y" and at < 0:
                continue  # the inside of the wall is not the joiner's to measure
            yield axis, at, what


def dimensions(one: Annotated) -> Iterator[tuple[Node, Node]]:
    """Yield the nodes that the dimensions of a view join: its lines, and the faces of the parts they name."""
    for string in one.strings:
        for gap in string.gaps:
            yield line_node(one.view, string.direction, gap.a), line_node(one.view, string.direction, gap.b)


def line_node(view: View, direction: Direction, at: Fraction) -> Node:
    """Return the node of a line of a view. Raises ValueError for a view without axes."""
    if view.frame is None:
        raise ValueError(f"{view.id} has no axes to measure along")
    axis, place = view.frame.to_world(direction, at)
    return ("view", view.id, axis, place)


def datum_nodes(wall: Wall) -> tuple[Node, ...]:
    """Return the coordinates that are there before anything is measured."""
    half = wall.room.width / 2
    zero = Fraction(0)
    places: tuple[tuple[Axis, Fraction], ...] = (
        ("x", -half),
        ("x", zero),
        ("x", half),
        ("y", zero),
        ("z", zero),
    )
    return tuple(("datum", "", axis, at) for axis, at in places)


def _shown(one: Annotated, by_key: dict[str, Part]) -> Iterator[tuple[Node, Node]]:
    # A line of a view and each face on it. A hidden face counts where it is flush with one of its own
    # assembly that shows, or where a dimension names its part.
    if one.view.frame is None:
        return
    named = {
        (string.direction, at, key)
        for string in one.strings for gap in string.gaps for at in (gap.a, gap.b) for key in gap.parts
    }  # fmt: skip
    directions: tuple[Direction, Direction] = ("u", "v")
    for direction in directions:
        on_line = tuple(places(one.view, by_key, direction))
        open_lines = {(place.at, by_key[place.part].assembly) for place in on_line if place.how != "hidden"}
        for place in on_line:
            flush = (place.at, by_key[place.part].assembly) in open_lines
            if place.how != "hidden" or flush or (direction, place.at, place.part) in named:
                line = line_node(one.view, direction, place.at)
                yield line, ("part", place.part, line[2], line[3])


def _draws_axis(one: Annotated) -> bool:
    frame = one.view.frame
    if frame is None:
        return False
    middle: tuple[Axis, Fraction] = ("x", Fraction(0))
    return any(frame.to_world("u" if line.direction == "v" else "v", line.at) == middle for line in one.axes)


def _twin_nodes(wall: Wall) -> tuple[tuple[Node, Node], ...]:
    pairs: list[tuple[Node, Node]] = []
    by_key = parts_by_key(wall)
    for key, other in twins(wall):
        part = by_key[key]
        for axis in AXES:
            for at in part.extent.span(axis):
                across = -at if axis == "x" else at
                pairs.append((("part", key, axis, at), ("part", other, axis, across)))
    for part in wall.parts:
        e = part.extent
        if e.x0 == -e.x1 and part.maker != "room":
            pairs.append((("part", part.key, "x", e.x0), ("part", part.key, "x", e.x1)))
    return tuple(pairs)


def _centre(part: Part) -> tuple[str, str, Axis, int, int]:
    """The assembly of a part and the centre of its curve, to 1/64 mm, where the arc is on its underside."""
    curve = part.curve
    if curve is None or curve.edge != "underside":
        return part.key, "", "y", 0, 0
    crown = float(part.extent.z0 + curve.rise)
    middle = part.extent.middle("x" if curve.across == "y" else "y")
    return part.assembly, "", curve.across, round(middle * 64), round((crown - curve.radius) * 64)


def _open_curves(annotated: tuple[Annotated, ...], wall: Wall) -> Iterator[Missing]:
    given = {arc.part for one in annotated for arc in one.arcs}
    marks = {part.mark for part in wall.parts if part.key in given and part.mark}
    if says_mirrored(annotated):
        given |= {key for key, original in twins(wall) if original in given}
    centres = {_centre(part) for part in wall.parts if part.key in given}
    for part in wall.parts:
        if part.curve is None or part.maker == "room" or part.key in given or part.mark in marks:
            continue
        if part.bend is not None and _centre(part) in centres:
            continue  # bent to an arc that is given, or a thickness off it
        across = part.curve.across
        yield Missing(part.key, across, "radius of its curve", part.extent.span(across)[0])
