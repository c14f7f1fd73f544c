"""What is said of a view, given its place: in the view where it is open, in columns beside it, or as
keynotes.

A crowded view is tried in three manners, from the fullest down: notes beside it; notes in narrower columns;
notes as keynotes, a key at the part and the words under the title. Paper mm, in the view's frame.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from sheets.annotate.intent import Annotated, Side
from sheets.compose.ink import boxes_of
from sheets.compose.placing import leaders
from sheets.compose.placing.columns import Entry, note_lines
from sheets.compose.placing.free_room import Room
from sheets.compose.placing.lanes import SideLanes
from sheets.compose.placing.side_columns import column_items_beside
from sheets.compose.view_sizes import COLUMN, MARK
from sheets.drawing.items import Dimension, Item, Symbol, Text
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.geometry.path import Point

Crowding = Literal[0, 1, 2]
"""0: notes beside the view; 1: in narrow columns; 2: as keynotes."""
CROWDINGS: tuple[Crowding, ...] = (0, 1, 2)
PLAIN: tuple[Crowding, ...] = (0, 1)
KEYED: tuple[Crowding, ...] = (2,)
_OPEN_KINDS = ("elevation", "plan")  # views with open places for balloons


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of a view: items in their places, and keynotes (key, words) for under its title."""

    items: tuple[Item, ...]
    keynotes: tuple[tuple[str, str], ...] = ()


def crowding_matters(annotated: Annotated, crowding: Crowding) -> bool:
    """False if a view's notes are the same as in the fullest manner."""
    if crowding == 2:
        return any(c.text for c in annotated.callouts)
    wide = [note_lines(c.text, COLUMN.note_width) for c in annotated.callouts]
    return crowding == 1 and wide != [note_lines(c.text, COLUMN.narrow) for c in annotated.callouts]


def least_beside(annotated: Annotated, crowding: Crowding) -> float:
    """Width of the widest of the notes and marks that stand beside a view, mm; 0 if they may stand in it."""
    if annotated.view.kind in _OPEN_KINDS:
        return 0.0
    return max((e.wide for e in _entries(annotated, 1.0, crowding)[0]), default=0.0)


def leader_ends(annotated: Annotated, s: float) -> list[Point]:
    """Where the leaders of a view's notes and marks will end at a scale: nothing may stand there."""
    return [entry.target for entry in _entries(annotated, s, 0)[0]]


def say(
    annotated: Annotated,
    drawn: Box,
    s: float,
    sides: dict[Side, SideLanes],
    items: Sequence[Item],
    room: Room,
    *,
    crowding: Crowding = 0,
    elsewhere: frozenset[str] = frozenset(),
) -> Said:
    """Return notes and marks in their places. s: scale; items: what stands round the view already.

    elsewhere: part marks that other views show. In an open view such a mark is left out when it finds no
    open place.
    """
    entries, keynotes = _entries(annotated, s, crowding)
    room.spots += [e.target for e in entries]
    if annotated.view.kind not in _OPEN_KINDS:
        return Said(tuple(column_items_beside(entries, drawn, sides, items, room)), keynotes)
    beside: list[Entry] = []
    start = room.kept()
    while True:
        # What finds no open place goes beside the view, and is set first: the rest must then miss its
        # leaders.
        room.back_to(start)
        columns = column_items_beside(beside, drawn, sides, items, room)
        found, left = leaders.in_view([e for e in entries if e not in beside], room)
        left = tuple(e for e in left if e.lines or e.key or e.mark not in elsewhere)
        if not left:
            return Said((*columns, *found), keynotes)
        beside = [*beside, *left]


def _entries(
    annotated: Annotated, s: float, crowding: Crowding
) -> tuple[list[Entry], tuple[tuple[str, str], ...]]:
    # A part that has both a note and a mark gets one leader for them.
    marked: dict[str, str] = {}
    for b in annotated.balloons:
        marked.setdefault(b.part, b.mark)
    noted = {c.part for c in annotated.callouts if c.part}
    entries: list[Entry] = []
    keynotes: list[tuple[str, str]] = []
    for c in annotated.callouts:
        if not c.text:
            continue
        target = (c.target[0] * s, c.target[1] * s)
        lines = note_lines(c.text, COLUMN.note_width if crowding == 0 else COLUMN.narrow)
        face = (
            Box(float(c.room.u0) * s, float(c.room.v0) * s, float(c.room.u1) * s, float(c.room.v1) * s)
            if c.room
            else None
        )
        entry = Entry("note " + c.id, target, lines, c.part, marked.get(c.part, ""), face=face)
        if crowding == 2:
            entry = _keyed(entry, ", ".join(c.text), keynotes)
        entries.append(entry)
    done: set[tuple[str, str]] = set()
    for b in annotated.balloons:
        if b.part not in noted and (b.mark, b.part) not in done:
            done.add((b.mark, b.part))
            target = (b.target[0] * s, b.target[1] * s)
            entries.append(Entry(f"mark {b.mark} {b.part}", target, (), b.part, b.mark))
    return entries, tuple(keynotes)


def _keyed(entry: Entry, words: str, keynotes: list[tuple[str, str]]) -> Entry:
    # A part's mark is its own key; a note without one gets K1, K2, ... ; the same words share a key.
    known = next((key for key, said in keynotes if said == words and key.startswith("K")), "")
    key = entry.mark or known or f"K{1 + sum(k.startswith('K') for k, _ in keynotes)}"
    if (key, words) not in keynotes:
        keynotes.append((key, words))
    return replace(entry, lines=(), mark=key, key=not entry.mark, face=None)


def text_boxes(items: Sequence[Item]) -> list[Box]:
    """The boxes of all words, and of the rings they stand in."""
    found: list[Box] = []
    for item in ungrouped(items):
        texts = (
            (item,)
            if isinstance(item, Text)
            else item.texts
            if isinstance(item, Symbol)
            else ((item.text,) if isinstance(item, Dimension) else ())
        )
        for text in texts:
            for b in boxes_of(text):
                found.append(Box(b[0] - 0.5, b[1] - 0.5, b[2] + 0.5, b[3] + 0.5))
        if isinstance(item, Symbol) and item.kind in (
            "part balloon",
            "keynote",
            "detail mark",
            "section mark",
        ):
            r = MARK.balloon if item.kind in ("part balloon", "keynote") else MARK.ring
            found.append(Box(item.at[0] - r, item.at[1] - r, item.at[0] + r, item.at[1] + r))
    return found
