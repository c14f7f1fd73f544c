"""One view at one scale, with all that is said of it in its place. Paper mm, the view's (0, 0) at the
paper's.

Order: strings in their lanes, centre lines, cut marks beyond the lanes, notes in columns, then what finds
room inside.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from sheets.annotate.intent import Annotated, AxisLine, CutMark, Side
from sheets.compose.ink import bounds, boxes_of, line, moved
from sheets.compose.placing import leaders
from sheets.compose.placing import mark_symbols as marks
from sheets.compose.placing.free_room import Room, part_in_box
from sheets.compose.placing.lanes import SideLanes, SideOf, side_lanes
from sheets.compose.placing.manner import Manner
from sheets.compose.placing.match_line import Ends
from sheets.compose.placing.sayings import Crowding, Said, leader_ends, say, text_boxes
from sheets.compose.placing.strings import broken, dimensions, text_gaps
from sheets.compose.placing.texture import break_lines, cut_areas, face_areas
from sheets.compose.scales import Scale
from sheets.compose.view_sizes import MARK, VIEW
from sheets.drawing.items import Area, Dimension, Item, Stroke, Symbol, Viewport
from sheets.geometry.box import Box, around
from sheets.geometry.path import Line, Point, scaled
from sheets.geometry.region import Region, chords, is_rectangle

_SIDES: tuple[Side, ...] = ("below", "above", "left", "right")
_RINGED: tuple[Side, ...] = ("above", "left")  # the ends of cutting lines that have a ring
_FURTHEST = 60


@dataclass(frozen=True, slots=True)
class Placed:
    """A view at a scale, ready to be moved to its sheet."""

    annotated: Annotated
    scale: Scale
    items: tuple[Item, ...]
    title: tuple[Item, ...]  # the title, its scale bar and the notes under it
    box: Box  # all that belongs to it, title included
    drawn: Box  # the drawn view alone

    @property
    def size(self) -> tuple[float, float]:
        return self.box[2] - self.box[0], self.box[3] - self.box[1]


def drawn_box(annotated: Annotated, ratio: Fraction) -> Box:
    """The drawn view on paper, its (0, 0) at the paper's."""
    b, s = annotated.view.box, float(ratio)
    return Box(float(b.u0) * s, float(b.v0) * s, float(b.u1) * s, float(b.v1) * s)


def lanes_round(annotated: Annotated, ratio: Fraction, manner: Manner) -> dict[Side, SideLanes]:
    """The strings of a view in lanes on its four sides."""
    drawn, s = drawn_box(annotated, ratio), float(ratio)
    return {
        side: side_lanes(
            SideOf(side, drawn),
            annotated.strings,
            s,
            manner,
            _crossings(annotated, side, s),
            (drawn[1] - VIEW.levels_past, drawn[3] + VIEW.levels_past) if side in ("left", "right") else None,
        )
        for side in _SIDES
    }


def least_size(
    annotated: Annotated, ratio: Fraction, sides: dict[Side, SideLanes], beside: float = 0.0
) -> tuple[float, float]:
    """A lower bound of the paper a view needs at a scale, mm: drawn view, strings, cut marks, title, notes.

    beside: width of the widest note that stands in a column.
    """
    drawn = drawn_box(annotated, ratio)
    across, up = drawn[2] - drawn[0], drawn[3] - drawn[1] + 2 * MARK.ring + 4
    ring = 2 * MARK.ring + 2
    for side, lanes in sides.items():
        along = "u" if side in ("left", "right") else "v"
        ringed = side in _RINGED and any(m.direction == along for m in annotated.cut_marks)
        reach = lanes.reach + (ring if ringed else 0.0)
        across, up = (across + reach, up) if along == "u" else (across, up + reach)
    if beside:
        # The widest note stands at one side or the other, past the strings there.
        reaches = sides["left"].reach, sides["right"].reach
        noted = [
            max(reaches[k] + VIEW.column_clear, VIEW.column_off) + beside + reaches[1 - k] for k in (0, 1)
        ]
        across = max(across, drawn[2] - drawn[0] + min(noted))
    return across, up


def place(
    annotated: Annotated,
    scale: Scale,
    manner: Manner,
    *,
    crowding: Crowding = 0,
    elsewhere: frozenset[str] = frozenset(),
    ends: Ends = (),
    sides: dict[Side, SideLanes] | None = None,
) -> Placed:
    """Return the view at a scale with its annotations placed.

    crowding, elsewhere: see `said.say`; ends: the sides at which the view goes on in another part; sides: its
    strings in lanes, if they are known.
    """
    view, s = annotated.view, float(scale.ratio)
    drawn = drawn_box(annotated, scale.ratio)
    change = scaled(s)
    strokes = tuple(
        Stroke(tuple(seg.transformed(change) for seg in t.path), t.role, t.part) for t in view.lines if t.path
    )
    cuts = cut_areas(view.cuts, change)
    breaks = break_lines(view, change)
    sides = sides or lanes_round(annotated, scale.ratio, manner)
    dims = [d for side in _SIDES for d in dimensions(sides[side], s, manner)]
    room = _room(drawn, strokes + breaks, cuts, dims)
    items: list[Item] = [*breaks, *dims]
    items += _cut_marks(annotated.cut_marks, drawn, s, sides, room)
    rings = [bounds([item]) for item in items if isinstance(item, Symbol)]
    items += _match_lines(ends, drawn, sides, rings, room)
    items += _axes(annotated.axes, drawn, s, room)
    room.draw([leaders.outline(mark, s) for mark in annotated.detail_marks])
    # Radii before notes: they have the fewest places to stand. Yet not where a note's leader must end.
    room.spots = leader_ends(annotated, s)
    items += [
        leaders.radius_dimension(a, s, manner, room) for a in sorted(annotated.arcs, key=lambda a: a.id)
    ]
    room.spots = []
    told, details = _told_and_detailed(annotated, drawn, s, sides, items, room, crowding, elsewhere)
    items += [*told.items, *details]
    words = text_boxes(items)
    textures = face_areas(view.textures, change, words)
    items = [*textures, *cuts, *_broken_for(strokes, words), *items]
    box = around([drawn, bounds(items)]) if items else drawn
    title = marks.view_title(
        min(drawn[0], box[0] + VIEW.title_inset),
        box[1] - VIEW.title_under,
        view.title.upper(),
        scale,
        manner,
        view_id=view.id,
        room=max(box[2] - drawn[0], VIEW.title_least),
        notes=(*view.says, *annotated.notes),
        measured=view.kind != "axonometric",
        keynotes=told.keynotes,
    )
    box = around([box, bounds(title)])
    return Placed(annotated, scale, tuple(items), title, box, drawn)


def _told_and_detailed(
    annotated: Annotated,
    drawn: Box,
    s: float,
    sides: dict[Side, SideLanes],
    items: Sequence[Item],
    room: Room,
    crowding: Crowding,
    elsewhere: frozenset[str],
) -> tuple[Said, tuple[Item, ...]]:
    # Notes first, as they need the most room; if a detail's ring is then in the way, the rings first.
    start = room.kept()
    told = say(annotated, drawn, s, sides, items, room, crowding=crowding, elsewhere=elsewhere)
    details, clear = leaders.detail_marks(annotated.detail_marks, s, room)
    if clear:
        return told, details
    room.back_to(start)
    details, _ = leaders.detail_marks(annotated.detail_marks, s, room)
    beside = [*items, *details]
    return say(annotated, drawn, s, sides, beside, room, crowding=crowding, elsewhere=elsewhere), details


def lowered(placed: Placed, by: float) -> Placed:
    """The view with its title moved down, so that titles side by side stand level."""
    if by < VIEW.level:
        return placed
    title = tuple(moved(i, 0.0, -by) for i in placed.title)
    return replace(placed, title=title, box=placed.box._replace(y0=placed.box.y0 - by))


def title_height(placed: Placed) -> float:
    """Height of the top of a view's title, the view's (0, 0) at 0."""
    return placed.title[0].at[1] if isinstance(placed.title[0], Symbol) else placed.box[1]


def viewport(placed: Placed, at: Point, number: str) -> Viewport:
    """The placed view on its sheet, the view's (0, 0) at `at`."""
    view = placed.annotated.view
    dx, dy = at
    items = tuple(moved(item, dx, dy) for item in (*placed.items, *placed.title))
    return Viewport(
        view.id,
        number,
        view.title,
        placed.scale.ratio,
        placed.scale.text,
        at,
        _shift(placed.box, at),
        _shift(placed.drawn, at),
        items,
    )


def _shift(box: Box, by: Point) -> Box:
    return box.moved(*by)


def _crossings(annotated: Annotated, side: Side, s: float) -> list[float]:
    # Cutting lines that leave the view on this side run through its lanes.
    runs = "v" if side in ("above", "below") else "u"
    return [float(m.at) * s for m in annotated.cut_marks if m.direction == runs]


def _room(drawn: Box, strokes: Sequence[Stroke], cuts: Sequence[Area], dims: Sequence[Dimension]) -> Room:
    reach = around([drawn, *(b for d in dims for b in boxes_of(d))])
    box = reach.grown(VIEW.reach)
    room = Room(box, 0.5 if box.area < VIEW.large else 1.0)
    room.draw(strokes)
    for area in cuts:
        for shape in area.regions:
            _fill(room, shape)
    for d in dims:
        room.draw(d.strokes)
        for b in boxes_of(d.text):
            room.fill(b)
            room.take(b)
    return room


def _fill(room: Room, shape: Region) -> None:
    x0, y0, x1, y1 = shape.bounds
    if is_rectangle(shape):
        room.fill(Box(x0, y0, x1, y1))
        return
    rows = max(1, int((y1 - y0) / room.step))
    for k in range(rows):
        y = y0 + (k + 0.5) * (y1 - y0) / rows
        for a, b in chords(shape, 1, y):
            room.fill(Box(a, y, b, y))


def _axes(axes: Sequence[AxisLine], drawn: Box, s: float, room: Room) -> list[Item]:
    found: list[Item] = []
    x0, y0, x1, y1 = drawn
    for axis in axes:
        at = float(axis.at) * s
        if axis.direction == "v":
            stroke = line((at, y0 - VIEW.axis_past), (at, y1 + VIEW.axis_past), "centre")
            spots = [
                (at, y1 + VIEW.axis_on),
                (at, y0 - VIEW.axis_on),
                (at + VIEW.axis_beside, y1 + VIEW.axis_low),
                (at - VIEW.axis_beside, y1 + VIEW.axis_low),
                (at + VIEW.axis_beside, y0 - VIEW.axis_low),
                (at - VIEW.axis_beside, y0 - VIEW.axis_low),
                (at + VIEW.axis_beside, y1 + VIEW.axis_high),
                (at - VIEW.axis_beside, y1 + VIEW.axis_high),
                (at + VIEW.axis_beside, y0 - VIEW.axis_on),
                (at - VIEW.axis_beside, y0 - VIEW.axis_on),
            ]
        else:
            stroke = line((x0 - VIEW.axis_past, at), (x1 + VIEW.axis_past, at), "centre")
            past, up = VIEW.axis_side
            spots = [
                (x1 + VIEW.axis_on, at),
                (x0 - VIEW.axis_on, at),
                (x1 + past, at + up),
                (x0 - past, at + up),
            ]
        left, low, right, high = VIEW.axis_letters
        boxes = np.array([(x + left, y + low, x + right, y + high) for x, y in spots])
        busy = room.ink_in(boxes) + 1000 * room.meets_taken(boxes)
        best = int(np.argmin(busy))
        letters = marks.centre_letters(spots[best])
        found += [stroke, letters]
        room.draw([stroke])
        room.take(Box(boxes[best][0], boxes[best][1], boxes[best][2], boxes[best][3]))
    return found


def _cut_marks(
    cuts: Sequence[CutMark], drawn: Box, s: float, sides: dict[Side, SideLanes], room: Room
) -> list[Item]:
    found: list[Item] = []
    rings: list[Box] = []
    for cut in sorted(cuts, key=lambda c: (c.direction, c.at, c.target)):
        t = float(cut.at) * s
        look = (0.0, float(cut.look)) if cut.direction == "u" else (float(cut.look), 0.0)
        ends: tuple[tuple[Side, Point], ...] = (
            (("left", (-1.0, 0.0)), ("right", (1.0, 0.0)))
            if cut.direction == "u"
            else (("below", (0.0, -1.0)), ("above", (0.0, 1.0)))
        )
        for side, along in ends:
            lanes = sides[side]
            outside = max(lanes.reach + VIEW.cut_past, VIEW.cut_least)
            if side in _RINGED:
                drawer, depths = marks.cut_mark, [outside]
            else:
                # Without a ring the end has room before the first string.
                drawer, depths = marks.cut_end, [*VIEW.cut_ends, outside]
            # Marks that would meet stand one behind the other.
            depths += [outside + VIEW.cut_step * k for k in range(1, _FURTHEST)]
            tried = ((d, drawer(lanes.of.at(t, d), along, look, cut.target)) for d in depths)
            d, mark = next(
                (d, m) for d, m in tried if d == depths[-1] or not _in_the_way(bounds([m]), rings, room)
            )
            box = bounds([mark])
            rings.append(box)
            room.take(box)
            gaps = sorted([*text_gaps(lanes, t), *_ring_gaps(lanes, t, rings[:-1])])
            for a, b in broken(-VIEW.into_view, d, gaps):
                stroke = line(lanes.of.at(t, a), lanes.of.at(t, b), "cutting plane", cut.target)
                found.append(stroke)
                room.draw([stroke])
            found.append(mark)
    return found


def _match_lines(
    ends: Ends, drawn: Box, sides: dict[Side, SideLanes], rings: Sequence[Box], room: Room
) -> list[Item]:
    found: list[Item] = []
    for side, target in ends:
        x = drawn[0] if side == "left" else drawn[2]
        low, high = drawn[1] - VIEW.match_past, drawn[3] + max(sides["above"].reach, 0.0) + VIEW.match_past
        mark = marks.match_mark((x, high + MARK.ring), target)
        while _in_the_way(bounds([mark]), (), room):
            high += VIEW.cut_step
            mark = marks.match_mark((x, high + MARK.ring), target)
        cuts = sorted([*text_gaps(sides["above"], x), *_ring_gaps(sides["above"], x, rings)])
        pieces = broken(low - drawn[3], high - drawn[3], cuts)
        strokes = [line((x, drawn[3] + a), (x, drawn[3] + b), "match line") for a, b in pieces]
        room.draw(strokes)
        room.take(bounds([mark]))
        found += [*strokes, mark]
    return found


def _ring_gaps(lanes: SideLanes, t: float, rings: Sequence[Box]) -> list[tuple[float, float]]:
    # Where a cutting line passes the ring of a nearer one.
    k = 0 if lanes.of.side in ("left", "right") else 1
    found: list[tuple[float, float]] = []
    for box in rings:
        depths = sorted((lanes.of.depth(box[k]), lanes.of.depth(box[k + 2])))
        if depths[1] > 0 and box[1 - k] - VIEW.ring_gap < t < box[3 - k] + VIEW.ring_gap:
            found.append((depths[0] - VIEW.ring_gap, depths[1] + VIEW.ring_gap))
    return found


def _in_the_way(box: Box, rings: Sequence[Box], room: Room) -> bool:
    boxes = np.array([box])
    beyond = box[0] < room.box[0] or box[1] < room.box[1] or box[2] > room.box[2] or box[3] > room.box[3]
    inked = not beyond and room.inked(box)
    return any(box.meets(r, 1) for r in rings) or bool(room.meets_taken(boxes)[0]) or inked


def _broken_for(strokes: Sequence[Stroke], boxes: Sequence[Box]) -> list[Stroke]:
    # Fine lines (board joints, grooves at a small scale) are left out where a mark or a note stands.
    found: list[Stroke] = []
    for stroke in strokes:
        if stroke.pen != "fine" or len(stroke.path) != 1 or not isinstance(stroke.path[0], Line):
            found.append(stroke)
            continue
        whole = stroke.path[0]
        cuts = sorted(c for box in boxes if (c := part_in_box(whole.a, whole.b, box)) is not None)
        if not cuts:
            found.append(stroke)
            continue
        size = max(whole.length, 1e-9)
        pieces = broken(0.0, size, [(t0 * size, t1 * size) for t0, t1 in cuts])
        found += [replace(stroke, path=(whole.part(a / size, b / size),)) for a, b in pieces]
    return found
