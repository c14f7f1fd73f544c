"""Dimension strings as drawn: dimension and extension lines, ticks or arrows, short leaders, lettering."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from sheets.compose.ink import arrow, disc, line, polyline
from sheets.compose.placing.lanes import Lane, PlacedGap, SideLanes, baseline, text_box
from sheets.compose.placing.manner import Manner
from sheets.compose.view_sizes import STRING, VIEW
from sheets.drawing.items import Area, Dimension, Stroke, Text
from sheets.geometry.path import Point

Place = Callable[[float, float], Point]


def dimensions(side: SideLanes, scale: float, manner: Manner) -> tuple[Dimension, ...]:
    """Return the dimensions of one side of a view at a scale, in the paper frame of the view."""
    reached: dict[int, tuple[float, float]] = {}  # where an inner string's extension line already runs
    found: list[Dimension] = []
    for lane in side.lanes:
        for gap in lane.gaps:
            found.append(_dimension(side, lane, gap, scale, manner, reached))
    return tuple(found)


def text_gaps(side: SideLanes, t: float, below: float = STRING.beyond) -> list[tuple[float, float]]:
    """The stretches of d that a line running outward at t must leave clear, for texts of lanes nearer
    than `below`."""
    cuts = [
        (d0 - STRING.broken, d1 + STRING.broken)
        for lane in side.lanes
        if lane.d < below
        for g in lane.gaps
        for t0, t1, d0, d1 in (text_box(g, lane, side.of.outward_text),)
        if t0 - STRING.gap_clear < t < t1 + STRING.gap_clear
    ]
    return sorted(cuts)


def broken(low: float, high: float, cuts: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """What is left of an interval after cuts, pieces under 0.3 mm dropped."""
    pieces: list[tuple[float, float]] = []
    at = low
    for a, b in cuts:
        if b <= at or a >= high:
            continue
        if a - at > STRING.least_piece:
            pieces.append((at, a))
        at = max(at, b)
    if high - at > STRING.least_piece:
        pieces.append((at, high))
    return pieces


def _dimension(
    side: SideLanes,
    lane: Lane,
    g: PlacedGap,
    scale: float,
    manner: Manner,
    reached: dict[int, tuple[float, float]],
) -> Dimension:
    of, d = side.of, lane.d
    horizontal = g.string.direction == "u"
    strokes: list[Stroke] = []
    heads: list[Area] = []
    strokes.append(line(of.at(_line_from(g), d), of.at(_line_to(g), d), "dimension"))
    for t, foot, mine in ((g.ta, g.gap.foot_a, g.first), (g.tb, g.gap.foot_b, True)):
        if mine:
            strokes += _extension(side, t, of.depth(float(foot) * scale) + manner.gap, d, manner, reached)
    _ends(of.at, g, d, manner, strokes, heads, horizontal)
    if g.raised:
        strokes.append(_leader(of.at, g, lane))
    base = baseline(g, lane, of.outward_text)
    text = Text(g.runs, of.at(g.t, base), manner.text, "centre", "baseline", 0.0 if horizontal else 90.0)
    a, b = _measured_points(g, horizontal)
    return Dimension(
        "linear",
        a,
        b,
        g.gap.b - g.gap.a,
        text,
        g.prefix,
        g.suffix,
        0.0 if horizontal else 90.0,
        of.at(g.middle, d),
        tuple(strokes),
        tuple(heads),
        g.string.id,
        g.gap.parts,
        g.value_text,
        g.times,
    )


def _measured_points(g: PlacedGap, horizontal: bool) -> tuple[Point, Point]:
    a = (float(g.gap.a), float(g.gap.foot_a))
    b = (float(g.gap.b), float(g.gap.foot_b))
    return (a, b) if horizontal else ((a[1], a[0]), (b[1], b[0]))


def _line_from(g: PlacedGap) -> float:
    return g.t - g.wide / 2 if g.outside < 0 else g.ta


def _line_to(g: PlacedGap) -> float:
    return g.t + g.wide / 2 if g.outside > 0 else g.tb


def _extension(
    side: SideLanes, t: float, start: float, d: float, manner: Manner, reached: dict[int, tuple[float, float]]
) -> list[Stroke]:
    key = round(t * 100)
    before = reached.get(key)
    low, high = start, d + manner.past
    pieces: Sequence[tuple[float, float]] = [(low, high)]
    if before is not None:
        # The string inside this one has drawn its extension line here: go on from its end.
        pieces = [(low, min(before[0], high)), (max(before[1], low), high)]
    reached[key] = (low, high) if before is None else (min(low, before[0]), max(high, before[1]))
    cuts = text_gaps(side, t, below=d - VIEW.level)
    return [
        line(side.of.at(t, a), side.of.at(t, b), "dimension")
        for p, q in pieces
        for a, b in broken(p, q, cuts)
    ]


def _ends(
    place: Place,
    g: PlacedGap,
    d: float,
    manner: Manner,
    strokes: list[Stroke],
    heads: list[Area],
    horizontal: bool,
) -> None:
    wide = g.tb - g.ta
    for t, inner, mine in ((g.ta, g.middle, g.first), (g.tb, g.middle, True)):
        x, y = place(t, d)
        if manner.ticks:
            if mine:
                strokes.append(
                    line((x - STRING.tick, y - STRING.tick), (x + STRING.tick, y + STRING.tick), "symbol")
                )
        elif wide >= STRING.arrows_need:
            heads.append(arrow((x, y), place(inner, d)))
        else:
            heads.append(disc((x, y), STRING.dot))


def _leader(place: Place, g: PlacedGap, lane: Lane) -> Stroke:
    # Straight out, then leaning over to the text; from the middle of the gap.
    top = place(g.landing, lane.d + lane.rise - STRING.landing)
    return polyline([place(g.middle, lane.d), place(g.middle, lane.d + lane.stem), top], "leader")
