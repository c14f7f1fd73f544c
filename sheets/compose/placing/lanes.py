"""Dimension strings in lanes round a view: which lane each lies in, and where each text stands.

One side of the view at a time, in two paper coordinates: t along the string, d outward from the drawn view.
Extension lines of outer strings cross the inner ones, so texts slide clear of them, or break them as a last
resort.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from sheets.annotate.intent import DimString, Gap, Side
from sheets.base.notation import Run
from sheets.compose.placing.manner import Manner
from sheets.compose.placing.repeats import Repeated, in_order, measured_of, repeated, said
from sheets.compose.view_sizes import STRING
from sheets.drawing import lettering
from sheets.drawing.items import Text
from sheets.geometry.box import Box
from sheets.geometry.path import Point


@dataclass(slots=True)
class PlacedGap:
    """One dimension where it stands, in the side's own coordinates."""

    string: DimString
    gap: Gap
    ta: float
    tb: float
    runs: tuple[Run, ...]
    value_text: str
    prefix: str
    suffix: str
    times: int
    wide: float
    low: float  # ink below and above the baseline
    high: float
    first: bool  # no neighbour before it in the string
    last: bool
    t: float = 0.0  # middle of the text
    raised: bool = False  # outward of the line, with a leader
    outside: int = 0  # -1, +1: past the end of the string

    @property
    def middle(self) -> float:
        return (self.ta + self.tb) / 2

    @property
    def span(self) -> tuple[float, float]:
        """What the text covers along the string."""
        return self.t - self.wide / 2, self.t + self.wide / 2

    @property
    def landing(self) -> float:
        """Where along the string the leader of a raised text meets it."""
        low, high = self.span
        inset = min(STRING.line_inset, self.wide / 2)
        return min(max(self.middle, low + inset), high - inset)


@dataclass(slots=True)
class Lane:
    """Strings that share a line. d: its distance from the drawn view."""

    gaps: list[PlacedGap] = field(default_factory=list)
    spans: list[tuple[float, float]] = field(default_factory=list)
    d: float = 0.0
    stem: float = 0.0  # how far leaders run straight out before they lean over to a raised text
    rise: float = STRING.raised  # from the line to raised texts


@dataclass(frozen=True, slots=True)
class SideOf:
    """A side of a drawn view and its coordinates."""

    side: Side
    drawn: Box

    @property
    def outward_text(self) -> bool:
        """Text stands over its line, read from below or from the right: outward above and at the left."""
        return self.side in ("above", "left")

    def at(self, t: float, d: float) -> Point:
        """The paper point at t along the side and d outward."""
        x0, y0, x1, y1 = self.drawn
        return {"above": (t, y1 + d), "below": (t, y0 - d), "left": (x0 - d, t), "right": (x1 + d, t)}[
            self.side
        ]

    def depth(self, cross: float) -> float:
        """How far outward a cross coordinate lies; below 0 inside the drawn view."""
        x0, y0, x1, y1 = self.drawn
        return {"above": cross - y1, "below": y0 - cross, "left": x0 - cross, "right": cross - x1}[self.side]


@dataclass(frozen=True, slots=True)
class SideLanes:
    """All strings of a side, placed."""

    of: SideOf
    lanes: tuple[Lane, ...]
    reach: float  # d of the outermost ink, 0 when there is no string

    def texts(self) -> list[tuple[PlacedGap, float, float, float, float]]:
        """Each text with the box it fills: t0, t1, d0, d1."""
        return [(g, *text_box(g, lane, self.of.outward_text)) for lane in self.lanes for g in lane.gaps]


def side_lanes(
    of: SideOf,
    strings: Sequence[DimString],
    scale: float,
    manner: Manner,
    crossing: Iterable[float] = (),
    limits: tuple[float, float] | None = None,
) -> SideLanes:
    """Return the strings of one side in lanes.

    crossing: t of other lines that run outward through them; limits: t between which texts stay, so that
    those of two sides do not meet at a corner.
    """
    mine = sorted(
        (s for s in strings if s.side == of.side and s.gaps), key=lambda s: (s.rank, _ends(s), s.id)
    )
    lanes: list[Lane] = []
    given = {d: measured_of([s.gaps for s in strings if s.direction == d]) for d in ("u", "v")}
    for string in mine:
        gaps = _measured(string, scale, manner, given[string.direction])
        span = _claim(gaps)
        lane = 1 + max(
            (k for k, row in enumerate(lanes) if any(_overlap(span, s) for s in row.spans)), default=-1
        )
        while len(lanes) <= lane:
            lanes.append(Lane())
        lanes[lane].gaps += gaps
        lanes[lane].spans.append(span)
    others = sorted(crossing)
    for k, row in enumerate(lanes):
        outer = [t for later in lanes[k + 1 :] for g in later.gaps for t in (g.ta, g.tb)]
        _place_texts(row, sorted([*outer, *others]), of.outward_text, limits)
    reach = _space_out(lanes, of.outward_text, manner)
    return SideLanes(of, tuple(lanes), reach)


def text_box(g: PlacedGap, lane: Lane, outward: bool) -> Box:
    """t0, t1, d0, d1 of a text's ink, in its lane."""
    tall = g.high - g.low
    if g.raised:
        low = lane.d + lane.rise
    elif outward:
        low = lane.d + STRING.above
    else:
        low = lane.d - STRING.above - tall
    return Box(g.t - g.wide / 2, g.t + g.wide / 2, low, low + tall)


def baseline(g: PlacedGap, lane: Lane, outward: bool) -> float:
    """d of the baseline of a text; its capitals rise outward above and at the left, inward elsewhere."""
    _, _, d0, d1 = text_box(g, lane, outward)
    return d0 - g.low if outward else d1 + g.low


def _ends(string: DimString) -> tuple[Fraction, Fraction]:
    values = [v for g in string.gaps for v in (g.a, g.b)]
    return min(values), max(values)


def _measured(
    string: DimString, scale: float, manner: Manner, given: Collection[tuple[Fraction, Fraction]]
) -> list[PlacedGap]:
    def has_room(gap: Gap) -> bool:
        words = lettering.box(Text(said(Repeated(gap), manner).runs, (0.0, 0.0), manner.text))
        return words[2] - words[0] + 2 * STRING.clear <= float(gap.b - gap.a) * scale

    found: list[PlacedGap] = []
    ordered = list(repeated(in_order(string.gaps), has_room, given))
    for k, one in enumerate(ordered):
        gap, words = one.gap, said(one, manner)
        x0, y0, x1, y1 = lettering.box(Text(words.runs, (0.0, 0.0), manner.text))
        # Level rows: a text with a stacked fraction and one without share a baseline only in inch sets.
        if manner.units == "inch":
            fraction = lettering.fraction_layout(Run("", 1, 2), manner.text)
            y0, y1 = min(y0, fraction.bottom), max(y1, fraction.top)
        found.append(
            PlacedGap(
                string,
                gap,
                float(gap.a) * scale,
                float(gap.b) * scale,
                words.runs,
                words.value,
                words.prefix,
                words.suffix,
                one.times,
                x1 - x0,
                y0,
                y1,
                not (k > 0 and ordered[k - 1].gap.b == gap.a),
                not (k + 1 < len(ordered) and ordered[k + 1].gap.a == gap.b),
            )
        )
    return found


def _fits(g: PlacedGap) -> bool:
    return g.wide + 2 * STRING.clear <= g.tb - g.ta


def _claim(gaps: list[PlacedGap]) -> tuple[float, float]:
    # What a string may cover: a narrow end gap puts its text past the end.
    low, high = gaps[0].ta - STRING.past_ends, gaps[-1].tb + STRING.past_ends
    if not _fits(gaps[0]) and len(gaps) > 1:
        low -= gaps[0].wide + 2 * STRING.clear
    if not _fits(gaps[-1]):
        high += gaps[-1].wide + 2 * STRING.clear
    return low, high


def _overlap(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return a[0] < b[1] and b[0] < a[1]


def _place_texts(
    lane: Lane, blockers: Sequence[float], outward: bool, limits: tuple[float, float] | None
) -> None:
    gaps = sorted(lane.gaps, key=lambda g: (g.ta, g.tb))
    on_line: list[tuple[float, float]] = []
    ends = [(g.ta - STRING.tick_clear, g.tb + STRING.tick_clear) for g in gaps]
    for g in gaps:
        if _fits(g):
            g.t = _inside(g, blockers)
            on_line.append(g.span)
    raised: list[PlacedGap] = []
    for g in gaps:
        if _fits(g):
            continue
        if _place_outside(g, on_line, ends, blockers, limits):
            on_line.append(g.span)
        else:
            g.raised = True
            raised.append(g)
    _spread(raised, limits)
    if outward and any(_overlap(_hull(g), span) for g in raised for span in on_line):
        # Leaders run straight past the texts that stand on the line, and lean over above them.
        lane.stem = STRING.above + max(g.high - g.low for g in gaps) + 0.5
        lane.rise = lane.stem + STRING.slant


def _hull(g: PlacedGap) -> tuple[float, float]:
    low, high = g.span
    return min(low, g.middle) - 0.5, max(high, g.middle) + 0.5


def _spread(gaps: Sequence[PlacedGap], limits: tuple[float, float] | None) -> None:
    # Side by side in the order of their gaps, each as near its own as the others let it: neighbours that
    # would
    # meet are pooled and the pool is centred on theirs. Their leaders cannot cross.
    ordered = sorted(gaps, key=lambda g: (g.middle, g.ta))
    shifts: list[float] = []
    for k, g in enumerate(ordered):
        before = ordered[k - 1]
        shifts.append(shifts[-1] + (before.wide + g.wide) / 2 + STRING.between if k else 0.0)
    pools: list[tuple[float, int]] = []
    for g, shift in zip(ordered, shifts, strict=True):
        pools.append((g.middle - shift, 1))
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            total, count = pools.pop()
            pools[-1] = (pools[-1][0] + total, pools[-1][1] + count)
    means = [total / count for total, count in pools for _ in range(count)]
    if limits and ordered:
        # Clipping the pools keeps order and distances; a run too long for the side is centred on it.
        low, high = limits[0] + ordered[0].wide / 2, limits[1] - ordered[-1].wide / 2 - shifts[-1]
        low, high = (low, high) if low <= high else ((low + high) / 2, (low + high) / 2)
        means = [min(max(mean, low), high) for mean in means]
    for g, shift, mean in zip(ordered, shifts, means, strict=True):
        g.t = mean + shift


def _inside(g: PlacedGap, blockers: Sequence[float]) -> float:
    half = g.wide / 2
    if all(abs(b - g.middle) > half + STRING.off for b in blockers):
        return g.middle
    inner = [b for b in blockers if g.ta + STRING.blocker < b < g.tb - STRING.blocker]
    stops = [g.ta + STRING.clear - STRING.off, *inner, g.tb - STRING.clear + STRING.off]
    places = [
        min(max(g.middle, a + STRING.off + half), b - STRING.off - half)
        for a, b in itertools.pairwise(stops)
        if b - a >= g.wide + 2 * STRING.off
    ]
    return min(places, key=lambda t: (abs(t - g.middle), t)) if places else g.middle


def _place_outside(
    g: PlacedGap,
    taken: list[tuple[float, float]],
    ends: list[tuple[float, float]],
    blockers: Sequence[float],
    limits: tuple[float, float] | None,
) -> bool:
    for way, open_end, edge in ((1, g.last, g.tb), (-1, g.first, g.ta)):
        if not open_end:
            continue
        t = edge + way * (STRING.clear + STRING.beside_end + g.wide / 2)
        span = (t - g.wide / 2 - STRING.beside_clear, t + g.wide / 2 + STRING.beside_clear)
        if limits and not (limits[0] <= span[0] and span[1] <= limits[1]):
            continue
        free = not any(
            _overlap(span, other)
            for other in (*taken, *ends)
            if other != (g.ta - STRING.tick_clear, g.tb + STRING.tick_clear)
        )
        if free and not any(span[0] < b < span[1] for b in blockers):
            g.t, g.outside = t, way
            return True
    return False


def _space_out(lanes: Sequence[Lane], outward: bool, manner: Manner) -> float:
    # Lanes lie a pitch apart, further where raised texts need the room.
    reach = 0.0
    for k, lane in enumerate(lanes):
        inward = 0.0
        if not outward:
            inward = max(
                (STRING.above + g.high - g.low + STRING.raised_clear for g in lane.gaps if not g.raised),
                default=0.0,
            )
        lane.d = (
            manner.first
            if k == 0
            else max(lanes[k - 1].d + manner.pitch, reach + max(inward, STRING.least_inward))
        )
        outer = [text_box(g, lane, outward)[3] for g in lane.gaps]
        raised = max(
            (d for d, g in zip(outer, lane.gaps, strict=True) if g.raised or outward), default=lane.d
        )
        reach = max(lane.d + manner.past, raised)
    return reach
