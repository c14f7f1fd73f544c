"""Which notes and marks stand at which side of a view, and how high, so that no leader crosses anything.

The side that reads best is tried first. What is then wrong is set higher or lower, or moved to the other
side, as long as that leaves less wrong. Paper mm, in the view's frame.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from sheets.annotate.intent import Side
from sheets.compose.ink import bounds
from sheets.compose.placing import leaders
from sheets.compose.placing.columns import Entry, halves, heights
from sheets.compose.placing.free_room import Room, segments_cross
from sheets.compose.placing.lanes import SideLanes
from sheets.compose.view_sizes import COLUMN, VIEW
from sheets.drawing.items import Item, Symbol
from sheets.geometry.box import Box, around
from sheets.geometry.path import Point

_MOST_LIFTED = 3  # with more of them wrong the side is
_MOST_MOVED = 4  # rounds of moving one to the other side
_SIDES: tuple[Side, Side] = ("right", "left")

_Plan = dict[str, Side]  # the side of each entry, by its id


@dataclass(frozen=True, slots=True)
class _Judged:
    """A plan with the heights chosen for it, what it costs and which of its leaders cross something."""

    cost: float
    wrong: tuple[str, ...]
    plan: _Plan
    lifts: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class _Places:
    """The columns at the sides of a view and what leaders must miss there."""

    entries: Sequence[Entry]
    columns: Mapping[Side, leaders.Column]
    reach: tuple[float, float]
    blocked: Mapping[Side, list[tuple[float, float]]]
    room: Room

    def of(self, plan: _Plan, side: Side) -> list[Entry]:
        return [e for e in self.entries if plan[e.id] == side]

    def placed(self, plan: _Plan, side: Side, lifts: Mapping[str, float]) -> list[tuple[Entry, float]]:
        here = self.of(plan, side)
        return heights(here, self.columns[side].knee, self.reach, self.blocked[side], lifts) if here else []

    def judged(self, plan: _Plan, lifts: Mapping[str, float]) -> _Judged:
        outside, wrong = 0, set()
        legs: list[tuple[str, Point, Point]] = []
        for side in _SIDES:
            column = self.columns[side]
            placed = self.placed(plan, side, lifts)
            for entry, y in placed:
                if leaders.crossed(entry, y, column, self.room):
                    wrong.add(entry.id)
                outside += not self.reach[0] - VIEW.knee_slack <= y <= self.reach[1] + VIEW.knee_slack
                legs.append((entry.id, (column.knee, y), entry.target))
        for (one, a, b), (other, c, d) in itertools.combinations(legs, 2):
            if segments_cross(a, b, c, d):
                wrong |= {one, other}
        in_order = tuple(e.id for e in self.entries if e.id in wrong)
        return _Judged(outside + COLUMN.crossing * len(wrong), in_order, plan, lifts)

    def lifted(self, plan: _Plan) -> _Judged:
        """A plan with some entries higher or lower than their own places, where their leaders miss what they
        would run over."""
        best = self.judged(plan, {})
        for name in best.wrong if len(best.wrong) <= _MOST_LIFTED else ():
            for lift in COLUMN.lifts:
                tried = self.judged(plan, {**best.lifts, name: lift})
                if tried.cost < best.cost:
                    best = tried
                if name not in tried.wrong:
                    break
        return best

    def moved_over(self, start: _Judged) -> _Judged:
        """A plan with some entries at the other side, where what is wrong is wrong no more."""
        best = start
        for _ in range(_MOST_MOVED):
            if not best.wrong:
                break
            together = [best.wrong] if 1 < len(best.wrong) < len(self.entries) else []
            tried = [
                self.lifted(_turned(best.plan, names)) for names in (*together, *((w,) for w in best.wrong))
            ]
            least = min(tried, key=lambda j: j.cost)
            if least.cost >= best.cost:
                break
            best = least
        return best


def column_items_beside(
    entries: list[Entry], drawn: Box, sides: dict[Side, SideLanes], items: Sequence[Item], room: Room
) -> list[Item]:
    """The notes and marks that stand in columns beside a view, with their leaders.

    items: what stands round the view already.
    """
    if not entries:
        return []
    reach = around([drawn, bounds(items)]) if items else drawn
    columns: dict[Side, leaders.Column] = {
        "right": leaders.Column(
            "right", max(drawn[2] + VIEW.column_off, reach[2] + VIEW.column_clear), drawn[2] + VIEW.knee
        ),
        "left": leaders.Column(
            "left", min(drawn[0] - VIEW.column_off, reach[0] - VIEW.column_clear), drawn[0] - VIEW.knee
        ),
    }
    blocked = {side: _shoulders_blocked(sides[side], items) for side in columns}
    places = _Places(
        entries, columns, (drawn[1] - VIEW.column_past, drawn[3] + VIEW.column_past), blocked, room
    )
    best: tuple[float, _Judged] | None = None
    for order, plan in enumerate(_plans(entries, drawn, sides)):
        judged = places.moved_over(places.lifted(plan))
        if best is None or judged.cost + COLUMN.later * order < best[0]:
            best = (judged.cost + COLUMN.later * order, judged)
        if best[0] <= COLUMN.later * (order + 1):
            break
    assert best is not None
    _, chosen = best
    found: list[Item] = []
    for side in _SIDES:
        placed = places.placed(chosen.plan, side, chosen.lifts)
        found += leaders.column_items(placed, columns[side], room)
    return found


def _turned(plan: _Plan, names: Sequence[str]) -> _Plan:
    return {name: _other(side) if name in names else side for name, side in plan.items()}


def _other(side: Side) -> Side:
    return _SIDES[1 - _SIDES.index(side)]


def _plans(entries: list[Entry], drawn: Box, sides: dict[Side, SideLanes]) -> Iterator[_Plan]:
    # The plan that reads best first: the side with fewest strings while the view is narrow, each to its
    # nearer side when it is wide.
    ordered = sorted(_SIDES, key=lambda s: (len(sides[s].lanes), s == "left"))
    one_side: list[_Plan] = [{e.id: side for e in entries} for side in ordered]
    left, _ = halves(entries)
    both: _Plan = {e.id: "left" if e in left else "right" for e in entries}
    narrow = drawn[2] - drawn[0] <= COLUMN.wide or len(entries) == 1
    yield from [*one_side, both] if narrow else [both, *one_side]


def _shoulders_blocked(side: SideLanes, items: Sequence[Item]) -> list[tuple[float, float]]:
    # A shoulder runs out through the lanes: it must miss their texts and not lie along an extension line.
    blocked = [(t0 - VIEW.text_band, t1 + VIEW.text_band) for _, t0, t1, _, _ in side.texts()]
    band = VIEW.line_band
    blocked += [(t - band, t + band) for lane in side.lanes for g in lane.gaps for t in (g.ta, g.tb)]
    edge = side.of.at(0.0, 0.0)[0]
    out = 1 if side.of.side == "right" else -1
    for item in items:
        if isinstance(item, Symbol) and item.kind in ("section mark", "cut end", "centre line"):
            box = bounds([item])
            if (box[2 if out > 0 else 0] - edge) * out > 0:
                blocked.append((box[1] - 1.0, box[3] + 1.0))
    return blocked
