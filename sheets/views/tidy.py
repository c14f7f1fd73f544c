"""Making a drawing out of lines: what lies on a heavier line goes, and pieces of one line are joined."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from math import atan2, cos, hypot, pi, sin

from sheets.base.tolerance import SAME_POINT
from sheets.geometry.path import Arc, Line, Segment
from sheets.views.view import LineRole, Trace

# Heaviest first: a lighter line that runs along one of these is not drawn.
WEIGHT: dict[LineRole, int] = {
    "cut": 0,
    "outline": 1,
    "step": 2,
    "edge": 3,
    "beyond": 4,
    "fine": 5,
    "overhead": 6,
    "hidden": 7,
}
_GRAIN = 1e-4  # mm: lines that a view draws nearer to each other than this are one line on any paper
_TURN = 1e-7  # rad: the same, for the direction of a 1 m line

Carrier = tuple[str, int, int, int]
Span = tuple[float, float]


def tidy(traces: Iterable[Trace]) -> tuple[Trace, ...]:
    """Return the traces with nothing drawn twice: heavier covers lighter, touching pieces become one.

    Of two parts that share a line of one role, the part whose key comes first keeps it.
    """
    groups: dict[Carrier, list[tuple[int, str, LineRole, float, float, Segment]]] = defaultdict(list)
    for trace in traces:
        for segment in trace.path:
            if segment.length > SAME_POINT:
                carrier, low, high = _carried(segment)
                groups[carrier].append((WEIGHT[trace.role], trace.part, trace.role, low, high, segment))
    kept: list[tuple[int, str, Carrier, float, Trace]] = []
    for carrier, pieces in groups.items():
        for rank, part, role, low, segment in _on_one_line(pieces):
            kept.append((rank, part, carrier, low, Trace((segment,), role, part)))
    kept.sort(key=lambda one: one[:4])
    return tuple(one[4] for one in kept)


def _on_one_line(
    pieces: list[tuple[int, str, LineRole, float, float, Segment]],
) -> list[tuple[int, str, LineRole, float, Segment]]:
    found: list[tuple[int, str, LineRole, float, Segment]] = []
    covered: list[Span] = []
    by_owner: dict[tuple[int, str, LineRole], list[tuple[float, float, Segment]]] = defaultdict(list)
    for rank, part, role, low, high, segment in pieces:
        by_owner[(rank, part, role)].append((low, high, segment))
    for rank, part, role in sorted(by_owner):
        spans = sorted(by_owner[(rank, part, role)], key=lambda one: one[:2])
        model = spans[0][2]
        for low, high in _less(_joined([one[:2] for one in spans]), covered):
            found.append((rank, part, role, low, _drawn(model, low, high)))
        covered = _joined([*covered, *(one[:2] for one in spans)])
    return found


def _carried(segment: Segment) -> tuple[Carrier, float, float]:
    # The endless line or full circle that a segment lies on, and where on it.
    if isinstance(segment, Arc):
        carrier = ("arc", _bin(segment.centre[0]), _bin(segment.centre[1]), _bin(segment.radius))
        low = segment.start + min(0.0, segment.sweep)
        turns = low % (2 * pi)
        if 2 * pi - turns < _TURN:
            turns = 0.0
        return carrier, turns * segment.radius, (turns + abs(segment.sweep)) * segment.radius
    angle = _direction(segment)
    if angle in (0.0, pi / 2):
        k = 0 if angle == 0.0 else 1
        low, high = sorted((segment.a[k], segment.b[k]))
        return ("level" if k == 0 else "plumb", 0, _bin(segment.a[1 - k]), 0), low, high
    c, s = cos(angle), sin(angle)
    off = segment.a[1] * c - segment.a[0] * s
    low, high = sorted(p[0] * c + p[1] * s for p in (segment.a, segment.b))
    return ("line", round(angle / _TURN), _bin(off), 0), low, high


def _bin(value: float) -> int:
    # Real sizes are eighths of this grain, at the finest; the shift keeps them off the borders of the bins.
    return round(value / _GRAIN + 0.2)


def _direction(line: Line) -> float:
    dx, dy = line.b[0] - line.a[0], line.b[1] - line.a[1]
    size = hypot(dx, dy)
    if abs(dy) <= _GRAIN and abs(dy) < size * 1e-3:
        return 0.0
    if abs(dx) <= _GRAIN and abs(dx) < size * 1e-3:
        return pi / 2
    angle = atan2(dy, dx) % pi
    return 0.0 if pi - angle < _TURN else angle


def _drawn(model: Segment, low: float, high: float) -> Segment:
    if isinstance(model, Arc):
        return Arc(model.centre, model.radius, low / model.radius, (high - low) / model.radius)
    angle = _direction(model)
    if angle == 0.0:
        return Line((low, model.a[1]), (high, model.a[1]))
    if angle == pi / 2:
        return Line((model.a[0], low), (model.a[0], high))
    c, s = cos(angle), sin(angle)
    off = model.a[1] * c - model.a[0] * s
    return Line((low * c - off * s, low * s + off * c), (high * c - off * s, high * s + off * c))


def _joined(spans: Iterable[Span]) -> list[Span]:
    out: list[Span] = []
    for low, high in sorted(spans):
        if out and low <= out[-1][1] + _GRAIN:
            out[-1] = (out[-1][0], max(out[-1][1], high))
        else:
            out.append((low, high))
    return out


def _less(spans: list[Span], taken: list[Span]) -> list[Span]:
    out: list[Span] = []
    for low, high in spans:
        here = low
        for a, b in taken:
            if b <= here + _GRAIN or a >= high - _GRAIN:
                continue
            if a > here + _GRAIN:
                out.append((here, a))
            here = max(here, b)
        if high > here + _GRAIN:
            out.append((here, high))
    return out
