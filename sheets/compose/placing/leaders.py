"""Notes, balloons, radius dimensions and detail rings of one view, found a place on its paper.

Notes stand in columns beside the view. Balloons stand in the view where it is open (elevations and plans),
else in the columns. What is placed is told to the `Room`, so that the next finds what is left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, pi, sin

import numpy as np
from numpy.typing import NDArray

from sheets.annotate.intent import ArcDim, DetailMark
from sheets.base.notation import Run, format_length
from sheets.compose.ink import LEAST_TEXT, arrow, line, polyline, words
from sheets.compose.placing.columns import Entry
from sheets.compose.placing.free_room import Floats, Room
from sheets.compose.placing.manner import Manner
from sheets.compose.placing.mark_symbols import (
    balloon,
    corner_of,
    detail_mark,
    detail_outline,
    leader_end,
)
from sheets.compose.view_sizes import COLUMN, LEADER, MARK
from sheets.drawing import lettering
from sheets.drawing.items import Dimension, Group, Item, Stroke, Text
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Point

_ANGLES = tuple(pi / 12 * k for k in range(24))
_SHARED = (pi / 4, 3 * pi / 4, 5 * pi / 4, 7 * pi / 4)


@dataclass(frozen=True, slots=True)
class Column:
    """Where a column of notes stands: side, x of its lettering, x where leaders bend."""

    side: str
    x: float
    knee: float


def column_items(placed: Sequence[tuple[Entry, float]], column: Column, room: Room) -> tuple[Item, ...]:
    """The notes and balloons of one column with their leaders, each at its height."""
    found: list[Item] = []
    for entry, y in placed:
        found += _entry_items(entry, (column.x, y), 1 if column.side == "right" else -1, column.knee, room)
        room.leaders += [((column.knee, y), entry.target), ((column.knee, y), (column.x, y))]
    return tuple(found)


def crossed(entry: Entry, y: float, column: Column, room: Room) -> bool:
    """True if the leader of an entry at a height of a column crosses another leader or words."""
    knee = (column.knee, y)
    return not (
        room.leader_free(knee, entry.target)
        and room.leader_free(knee, (column.x, y))
        and not room.along_line(knee, entry.target)
    )


def _entry_items(entry: Entry, at: Point, way: int, knee: float, room: Room) -> list[Item]:
    # at: where the leader meets the ring or the lettering; way: +1 if that runs on to the right.
    x, y = at
    head = leader_end(entry.target, (knee, y), on_edge=_on_ink(room, entry.target))
    found: list[Item] = []
    if entry.mark:
        centre = (x + way * MARK.balloon, y)
        leader = polyline([(x, y), (knee, y), entry.target], "leader", key=entry.part)
        found.append(balloon(centre, entry.mark, entry.part, (leader,), (head,), key=entry.key))
        room.take(_square(centre, MARK.balloon))
        x += way * (2 * MARK.balloon + COLUMN.ring_to_lines)
    else:
        leader = polyline([(x - way * LEADER.to_text, y), (knee, y), entry.target], "leader", key=entry.part)
        found += [leader, head]
    for k, part in enumerate(entry.lines):
        base = y - LEAST_TEXT / 2 - k * COLUMN.note_leading * LEAST_TEXT
        text = words(part, (x, base), LEAST_TEXT, h="left" if way > 0 else "right", key=entry.part)
        found.append(text)
        room.take(lettering.box(text))
    return [_note(entry, found)] if entry.lines else found


def _note(entry: Entry, items: Sequence[Item]) -> Group:
    return group("note", entry.part or entry.id, " ".join(entry.lines), items)


def in_view(entries: Sequence[Entry], room: Room) -> tuple[tuple[Item, ...], tuple[Entry, ...]]:
    """Notes and balloons set in open places of the view, and those that found none."""
    found: list[Item] = []
    left: list[Entry] = []
    for entry in sorted(entries, key=lambda e: (not e.lines, -round(e.target[1]), e.target[0], e.id)):
        items = _note_on_face(entry, room) if entry.face and not entry.mark else []
        if not items:
            items = _note_in_view(entry, room) if entry.lines else _balloon_in_view(entry, room)
        found += items
        if not items:
            left.append(entry)
    return tuple(found), tuple(left)


def _balloon_in_view(entry: Entry, room: Room) -> list[Item]:
    centre = _open_place(entry.target, MARK.balloon + LEADER.balloon_clear, room)
    if centre is None:
        return []
    start = _from_ring(centre, entry.target, MARK.balloon)
    head = leader_end(entry.target, start, on_edge=_on_ink(room, entry.target))
    room.take(_square(centre, MARK.balloon + 0.5))
    room.leaders.append((start, entry.target))
    leader = line(start, entry.target, "leader", entry.part)
    return [balloon(centre, entry.mark, entry.part, (leader,), (head,), key=entry.key)]


def _note_on_face(entry: Entry, room: Room) -> list[Item]:
    # Written on the face it speaks of, as near its middle as there is a clear place: no leader is needed.
    assert entry.face is not None
    x0, y0, x1, y1 = entry.face
    half = (entry.wide / 2 + LEADER.on_face, (entry.up + entry.down) / 2 + LEADER.on_face)
    if x1 - x0 < 2 * half[0] or y1 - y0 < 2 * half[1]:
        return []
    # Its own spot needs no keeping clear: no leader will end there.
    own = entry.target in room.spots
    if own:
        room.spots.remove(entry.target)
    steps = [k / 8 for k in range(9)]
    centres = np.array([
        (x0 + half[0] + i * (x1 - x0 - 2 * half[0]), y0 + half[1] + j * (y1 - y0 - 2 * half[1]))
        for i in steps for j in steps
    ])  # fmt: skip
    boxes = np.hstack([centres - np.array(half), centres + np.array(half)])
    good = (room.ink_in(boxes) == 0) & ~room.meets_taken(boxes) & ~room.holds_spot(boxes)
    off = np.hypot(centres[:, 0] - (x0 + x1) / 2, centres[:, 1] - (y0 + y1) / 2)
    for k in np.argsort(off + np.minimum(room.fine_in(boxes), LEADER.most_fine) * 0.5, kind="stable"):
        x, y = float(centres[int(k)][0]), float(centres[int(k)][1])
        box = Box(x - half[0], y - half[1], x + half[0], y + half[1])
        if good[int(k)] and room.clear_of_leaders(box):
            found: list[Item] = []
            top = y + (entry.up + entry.down) / 2 - entry.up - LEAST_TEXT / 2
            for n, part in enumerate(entry.lines):
                base = top - n * COLUMN.note_leading * LEAST_TEXT
                text = words(part, (x, base), LEAST_TEXT, h="centre", key=entry.part)
                found.append(text)
                room.take(lettering.box(text))
            return [_note(entry, found)]
    if own:
        room.spots.append(entry.target)
    return []


def _note_in_view(entry: Entry, room: Room) -> list[Item]:
    # The whole note must stand clear; its leader leaves on a short shoulder.
    spots = [
        (entry.target[0] + r * cos(a), entry.target[1] + r * sin(a), 1 if cos(a) >= 0 else -1)
        for r in LEADER.radii
        for a in _ANGLES
    ]
    up, down = entry.up + LEADER.note_clear, entry.down + LEADER.note_clear
    boxes = np.array(
        [
            (
                x + LEADER.shoulder if way > 0 else x - LEADER.shoulder - entry.wide - 1.0,
                y - down,
                x + LEADER.shoulder + entry.wide + 1.0 if way > 0 else x - LEADER.shoulder,
                y + up,
            )
            for x, y, way in spots
        ]
    )
    good = (
        _inside(boxes, room) & (room.ink_in(boxes) == 0) & ~room.meets_taken(boxes) & ~room.holds_spot(boxes)
    )
    order = np.argsort(np.minimum(room.fine_in(boxes), LEADER.most_fine), kind="stable")
    for k in order[good[order]]:
        x, y, way = spots[int(k)]
        box = tuple(float(v) for v in boxes[int(k)])
        if not room.clear_of_leaders(Box(box[0], box[1], box[2], box[3])):
            continue
        free = room.leader_free((x, y), entry.target) and room.leader_free(
            (x, y), (x + way * LEADER.shoulder, y)
        )
        if free and not room.along_line((x, y), entry.target):
            room.leaders += [((x, y), entry.target), ((x, y), (x + way * LEADER.shoulder, y))]
            return _entry_items(
                entry,
                (x + way * (LEADER.shoulder + (0.0 if entry.mark else LEADER.to_text)), y),
                way,
                x,
                room,
            )
    return []


def detail_marks(marks: Sequence[DetailMark], scale: float, room: Room) -> tuple[tuple[Item, ...], bool]:
    """The rings round the places that details were taken from, each with its number nearby.

    And whether all of them found a place where they cross nothing.
    """
    found: list[Item] = []
    clear = True
    for mark in sorted(marks, key=lambda m: (m.target, m.u0, m.v0)):
        cost, centre, foot = _beside(_around(mark, scale), room)
        clear = clear and cost < LEADER.in_the_way
        found.append(detail_mark(centre, foot, mark.target, outline(mark, scale)))
        room.take(_square(centre, MARK.ring + LEADER.ring_clear))
        room.leaders.append((_from_ring(centre, foot, MARK.ring), foot))
    return tuple(found), clear


def outline(mark: DetailMark, scale: float) -> Stroke:
    """The line round the place a detail was taken."""
    return detail_outline(_around(mark, scale), mark.target)


def _around(mark: DetailMark, scale: float) -> Box:
    place = Box(*(float(value) * scale for value in (mark.u0, mark.v0, mark.u1, mark.v1)))
    return place.grown(LEADER.round_place)


def radius_dimension(dim: ArcDim, scale: float, manner: Manner, room: Room) -> Dimension:
    """The radius of an arc: an arrow on the arc, square to it, and the size on a shoulder."""
    from fractions import Fraction

    radius = Fraction(dim.radius).limit_denominator(10**6)
    says = format_length(radius, manner.notation, rounded=True)
    runs = (Run("R "), *says.runs)
    foot_full = (
        dim.centre[0] + dim.radius * cos(dim.at_angle),
        dim.centre[1] + dim.radius * sin(dim.at_angle),
    )
    foot = (foot_full[0] * scale, foot_full[1] * scale)
    wide = lettering.width(runs, manner.text)
    best: tuple[float, Point, Text] | None = None
    for inward in (True, False):
        for slant in LEADER.slants:
            angle = dim.at_angle + (pi if inward else 0.0) + slant
            for reach in LEADER.radius_reaches:
                elbow = (foot[0] + reach * cos(angle), foot[1] + reach * sin(angle))
                for way in (1, -1):
                    x = elbow[0] + way * LEADER.radius_to_text - (0.0 if way > 0 else wide)
                    text = Text(runs, (x, elbow[1]), manner.text, "left", "middle")
                    turned_back = LEADER.radius_back if way * cos(angle) < -LEADER.radius_steep else 0.0
                    least = reach + 8 * abs(slant) + turned_back
                    if best is not None and least >= best[0]:
                        continue
                    shoulder = (elbow[0] + way * LEADER.shoulder, elbow[1])
                    cost = least + 4 * _blocked(lettering.box(text), foot, elbow, shoulder, room)
                    if best is None or cost < best[0]:
                        best = (cost, elbow, text)
    assert best is not None
    _, elbow, text = best
    way = 1 if text.at[0] > elbow[0] else -1
    leader = polyline([foot, elbow, (elbow[0] + way * LEADER.shoulder, elbow[1])], "leader")
    room.take(lettering.box(text))
    room.leaders += [(foot, elbow), (elbow, (elbow[0] + way * LEADER.shoulder, elbow[1]))]
    return Dimension(
        "radius",
        foot_full,
        dim.centre,
        dim.radius,
        text,
        "R ",
        "",
        degrees(dim.at_angle),
        elbow,
        (leader,),
        (arrow(foot, elbow),),
        dim.id,
        (dim.part,) if dim.part else (),
        says.plain,
    )


def _blocked(box: Box, foot: Point, elbow: Point, shoulder: Point, room: Room) -> float:
    boxes = np.array([box.grown(LEADER.radius_clear)])
    ink = float(room.ink_in(boxes)[0])
    hit = (
        LEADER.taken
        if bool(room.meets_taken(boxes)[0])
        or bool(room.holds_spot(boxes)[0])
        or not room.clear_of_leaders(box)
        else 0.0
    )
    free = room.leader_free(foot, elbow) and room.leader_free(elbow, shoulder)
    free = free and not room.along_line(foot, elbow)
    return (
        (LEADER.inked if ink else 0.0) + min(ink, LEADER.most_ink) + hit + (0.0 if free else LEADER.crossing)
    )


def _open_place(target: Point, half: float, room: Room) -> Point | None:
    centres = np.array(
        [(target[0] + r * cos(a), target[1] + r * sin(a)) for r in LEADER.radii for a in _ANGLES]
    )
    cost = np.array(
        [
            r + (0.0 if any(abs(a - s) < 1e-9 for s in _SHARED) else LEADER.off_shared)
            for r in LEADER.radii
            for a in _ANGLES
        ]
    )
    boxes = np.hstack([centres - half, centres + half])
    good = (
        _inside(boxes, room) & (room.ink_in(boxes) == 0) & ~room.meets_taken(boxes) & ~room.holds_spot(boxes)
    )
    cost += np.minimum(room.fine_in(boxes) * LEADER.fine, LEADER.most_fine_cost)
    chosen: tuple[float, Point] | None = None
    for k in np.argsort(cost, kind="stable"):
        if chosen is not None and cost[k] >= chosen[0]:
            break
        if not good[k]:
            continue
        centre = (float(centres[k][0]), float(centres[k][1]))
        start = _from_ring(centre, target, MARK.balloon)
        if not room.leader_free(start, target) or room.along_line(start, target):
            continue
        if not room.clear_of_leaders(_square(centre, half)):
            continue
        total = float(cost[k]) + 2.0 * room.ink_along(start, target)
        if chosen is None or total < chosen[0]:
            chosen = (total, centre)
    return chosen[1] if chosen else None


def _inside(boxes: Floats, room: Room) -> NDArray[np.bool_]:
    inside: NDArray[np.bool_] = (
        (boxes[:, 0] > room.box[0])
        & (boxes[:, 1] > room.box[1])
        & (boxes[:, 2] < room.box[2])
        & (boxes[:, 3] < room.box[3])
    )
    return inside


def _beside(box: Box, room: Room) -> tuple[float, Point, Point]:
    # The nearest open place round the outline; corners first, since leaders from there read best.
    x0, y0, x1, y1 = box
    cut = corner_of(box) / 2
    feet = [
        (x1 - cut, y1 - cut),
        (x0 + cut, y1 - cut),
        (x1 - cut, y0 + cut),
        (x0 + cut, y0 + cut),
        (x1, (y0 + y1) / 2),
        (x0, (y0 + y1) / 2),
        ((x0 + x1) / 2, y1),
        ((x0 + x1) / 2, y0),
    ]
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    half = MARK.ring + LEADER.ring_clear
    ways = [
        (k, foot, atan2(foot[1] - middle[1], foot[0] - middle[0]) + turn, reach, abs(turn))
        for k, foot in enumerate(feet)
        for reach in LEADER.reaches
        for turn in LEADER.turns
    ]
    centres = np.array(
        [(foot[0] + reach * cos(angle), foot[1] + reach * sin(angle)) for _, foot, angle, reach, _ in ways]
    )
    boxes = np.hstack([centres - half, centres + half])
    cost = np.array([reach + turn * 3 + k * LEADER.later_foot for k, _, _, reach, turn in ways])
    cost += (
        (room.ink_in(boxes) > 0) * LEADER.in_the_way
        + room.ink_in(boxes) * LEADER.ring_ink
        + room.fine_in(boxes) * LEADER.ring_fine
        + (room.meets_taken(boxes) | room.holds_spot(boxes)) * LEADER.ring_taken
        + ~_inside(boxes, room) * LEADER.ring_taken
    )
    best: tuple[float, Point, Point] | None = None
    for n in np.argsort(cost, kind="stable"):
        if best is not None and cost[n] >= best[0]:
            break
        centre, foot = (float(centres[n][0]), float(centres[n][1])), ways[int(n)][1]
        total = float(cost[n])
        start = _from_ring(centre, foot, MARK.ring)
        if not room.leader_free(start, foot) or room.along_line(start, foot):
            total += LEADER.in_the_way
        if not room.clear_of_leaders(_square(centre, half)):
            total += LEADER.in_the_way
        if best is None or total < best[0]:
            best = (total, centre, foot)
    assert best is not None
    return best


def _from_ring(centre: Point, to: Point, radius: float) -> Point:
    size = max(1e-9, hypot(to[0] - centre[0], to[1] - centre[1]))
    return (centre[0] + (to[0] - centre[0]) / size * radius, centre[1] + (to[1] - centre[1]) / size * radius)


def _square(centre: Point, half: float) -> Box:
    return Box(centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half)


def _on_ink(room: Room, at: Point) -> bool:
    return room.inked(_square(at, LEADER.on_ink))
