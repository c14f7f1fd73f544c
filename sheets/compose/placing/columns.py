"""Notes and balloons in a column beside a view: lettering lined up, leaders parallel where they can be,
none crossing.

Paper mm, in the view's frame. Heights are found in order of the targets; two leaders that would cross swap
places.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, radians, tan
from types import MappingProxyType

from sheets.compose.ink import LEAST_TEXT, width, wrapped
from sheets.compose.placing.free_room import segments_cross
from sheets.compose.view_sizes import COLUMN, MARK
from sheets.geometry.box import Box
from sheets.geometry.path import Point

SHARED_ANGLE = radians(30)
"""The angle leaders take where there is room."""


@dataclass(frozen=True, slots=True)
class Entry:
    """What stands in a column: a note's lines, a part's mark, or both on one leader."""

    id: str
    target: Point
    lines: tuple[str, ...]  # of a note; () for a mark alone
    part: str
    mark: str = ""  # of the part, in a ring before the lines
    key: bool = False  # the mark is the key of a note under the title, in a square
    face: Box | None = None  # open place that the note may stand in without a leader

    @property
    def up(self) -> float:
        """Room over the height where the leader meets it."""
        return MARK.balloon if self.mark else LEAST_TEXT / 2 + COLUMN.above_letters

    @property
    def down(self) -> float:
        more = COLUMN.note_leading * LEAST_TEXT * (len(self.lines) - 1)
        lines = LEAST_TEXT / 2 + COLUMN.below_letters + more if self.lines else 0.0
        return max(lines, MARK.balloon if self.mark else 0.0)

    @property
    def wide(self) -> float:
        ring = 2 * MARK.balloon + (COLUMN.ring_to_lines if self.lines else 0.0) if self.mark else 0.0
        return ring + max((width(part) for part in self.lines), default=0.0)


def note_lines(text: Sequence[str], room: float = COLUMN.note_width) -> tuple[str, ...]:
    """The lines of a note, broken where they are wider than a column."""
    return tuple(piece for part in text for piece in wrapped(part, room))


def halves(entries: Sequence[Entry]) -> tuple[list[Entry], list[Entry]]:
    """The entries for a column at the left and for one at the right, by their targets, about equally tall."""
    needed = fsum(e.up + e.down + COLUMN.between for e in entries)
    ordered = sorted(entries, key=lambda e: (e.target[0], e.target[1], e.id))
    left: list[Entry] = []
    total = 0.0
    for entry in ordered:
        tall_of = entry.up + entry.down + COLUMN.between
        if total + tall_of / 2 > needed / 2:
            break
        left.append(entry)
        total += tall_of
    return left, ordered[len(left) :]


def heights(
    entries: Sequence[Entry],
    knee_x: float,
    reach: tuple[float, float],
    blocked: Sequence[tuple[float, float]] = (),
    lifts: Mapping[str, float] = MappingProxyType({}),
) -> list[tuple[Entry, float]]:
    """Return each entry with the height at which its leader meets it, from the top down, no leaders crossing.

    reach: heights between which leaders meet their entries if there are not too many; blocked: heights at
    which no shoulder may run. lifts: how much higher than its own some entries are wanted, by their ids.
    """
    if not entries:
        return []
    middle = (reach[0] + reach[1]) / 2
    blocked = _merged(blocked)
    wanted = {e.id: _wanted(e, knee_x, middle) + lifts.get(e.id, 0.0) for e in entries}
    order = sorted(entries, key=lambda e: (-wanted[e.id], e.target[0], e.id))
    placed: list[tuple[Entry, float]] = []
    for _ in range(4 * len(order) + 1):
        placed = _spread(order, wanted, reach, blocked)
        pair = _crossing(placed, knee_x)
        if pair is None:
            break
        i, j = pair
        order[i], order[j] = order[j], order[i]
    return placed


def _merged(blocked: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for a, b in sorted(blocked):
        if found and a < found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], b))
        else:
            found.append((a, b))
    return found


def _wanted(entry: Entry, knee_x: float, middle_y: float) -> float:
    reach = abs(knee_x - entry.target[0])
    rise = min(reach * tan(SHARED_ANGLE), COLUMN.most_rise)
    return entry.target[1] + (rise if entry.target[1] >= middle_y else -rise)


def _spread(
    order: Sequence[Entry],
    wanted: dict[str, float],
    reach: tuple[float, float],
    blocked: Sequence[tuple[float, float]],
) -> list[tuple[Entry, float]]:
    # Pool neighbours that would overlap and give each pool its mean: the least total movement.
    shifts = [0.0]
    for above, below in itertools.pairwise(order):
        shifts.append(shifts[-1] + above.down + COLUMN.between + below.up)
    pools: list[list[float]] = []  # [sum, count]
    for entry, shift in zip(order, shifts, strict=True):
        pools.append([wanted[entry.id] + shift, 1])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] < pools[-1][0] / pools[-1][1]:
            total, count = pools.pop()
            pools[-1][0] += total
            pools[-1][1] += count
    means = [p[0] / p[1] for p in pools for _ in range(int(p[1]))]
    # Keeping every height within reach is a clip of the pools: their order and distances stay.
    low, high = reach[0] + shifts[-1], reach[1]
    if low > high:
        low = high = (low + high) / 2
    ys = [min(max(mean, low), high) - shift for mean, shift in zip(means, shifts, strict=True)]
    placed: list[tuple[Entry, float]] = []
    ceiling = float("inf")
    for entry, y in zip(order, ys, strict=True):
        y = min(y, ceiling)
        y = _unblocked(y, ceiling, blocked)
        placed.append((entry, y))
        ceiling = y - entry.down - COLUMN.between - _next_up(order, entry)
    return placed


def _next_up(order: Sequence[Entry], entry: Entry) -> float:
    k = order.index(entry)
    return order[k + 1].up if k + 1 < len(order) else 0.0


def _unblocked(y: float, ceiling: float, blocked: Sequence[tuple[float, float]]) -> float:
    def free(at: float) -> bool:
        return at <= ceiling + 1e-9 and not any(a < at < b for a, b in blocked)

    if free(y):
        return y
    choices = [c for a, b in blocked for c in (a - COLUMN.step_off, b + COLUMN.step_off) if free(c)]
    return min(choices, key=lambda c: (abs(c - y), c)) if choices else y


def _crossing(placed: Sequence[tuple[Entry, float]], knee_x: float) -> tuple[int, int] | None:
    for i, (a, ya) in enumerate(placed):
        for j in range(i + 1, len(placed)):
            b, yb = placed[j]
            if segments_cross(a.target, (knee_x, ya), b.target, (knee_x, yb)):
                return i, j
    return None
