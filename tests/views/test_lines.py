"""Tidying and clipping of lines against shapely, on many random drawings."""

from __future__ import annotations

from collections import defaultdict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiLineString, box
from shapely.ops import unary_union

from sheets.geometry.box import Box
from sheets.geometry.clip import clip_segment
from sheets.geometry.path import Arc, Line
from sheets.views.tidy import WEIGHT, tidy
from sheets.views.view import Trace

ROLES = sorted(WEIGHT, key=WEIGHT.__getitem__)
grid = st.integers(0, 12).map(lambda n: n * 3.175)  # eighths of an inch


@st.composite
def level_or_plumb(draw):
    at, a, b = draw(grid), draw(grid), draw(grid)
    flat = draw(st.booleans())
    ends = ((a, at), (b, at)) if flat else ((at, a), (at, b))
    return Trace((Line(*ends),), draw(st.sampled_from(ROLES)), draw(st.sampled_from("pqr")))


def drawn(traces):
    lines = [LineString([s.a, s.b]) for t in traces for s in t.path if s.length > 0]
    return unary_union(lines) if lines else MultiLineString()


@settings(max_examples=150, deadline=None)
@given(st.lists(level_or_plumb(), max_size=14))
def test_tidy_draws_all_of_it_once_and_the_heaviest_wins(traces):
    found = tidy(traces)
    assert sum(s.length for t in found for s in t.path) == pytest.approx(drawn(traces).length, abs=1e-6)
    assert drawn(found).symmetric_difference(drawn(traces)).length < 1e-6
    by_role = defaultdict(list)
    for trace in traces:
        by_role[trace.role].append(trace)
    heavier = MultiLineString()
    for role in ROLES:
        mine = drawn([t for t in found if t.role == role])
        assert mine.symmetric_difference(drawn(by_role[role]).difference(heavier)).length < 1e-6
        heavier = unary_union([heavier, drawn(by_role[role])])


@settings(max_examples=100, deadline=None)
@given(st.lists(level_or_plumb(), max_size=10), st.randoms(use_true_random=False))
def test_tidy_does_not_depend_on_the_order(traces, chance):
    mixed = list(traces)
    chance.shuffle(mixed)
    assert tidy(mixed) == tidy(traces)
    assert tidy(tidy(traces)) == tidy(traces)


@settings(max_examples=150, deadline=None)
@given(
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
    st.floats(1, 60),
    st.floats(0, 6.2),
    st.floats(-6.2, 6.2),
    st.tuples(st.floats(-40, 0), st.floats(-40, 0)),
    st.tuples(st.floats(1, 40), st.floats(1, 40)),
)
def test_a_clipped_arc_has_the_length_shapely_finds(centre, radius, start, sweep, low, size):
    if abs(sweep) < 0.05:
        return
    arc = Arc(centre, radius, start, sweep)
    frame = Box(low[0], low[1], low[0] + size[0], low[1] + size[1])
    found = sum(piece.length for piece in clip_segment(arc, frame))
    chords = LineString([arc.point(k / 4000) for k in range(4001)])
    assert found == pytest.approx(chords.intersection(box(*frame)).length, rel=1e-4, abs=0.15)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.floats(-50, 50), min_size=4, max_size=4), st.lists(st.floats(1, 40), min_size=2, max_size=2)
)
def test_a_clipped_line_has_the_length_shapely_finds(ends, size):
    line = Line((ends[0], ends[1]), (ends[2], ends[3]))
    frame = Box(-10.0, -10.0, -10.0 + size[0], -10.0 + size[1])
    found = sum(piece.length for piece in clip_segment(line, frame))
    assert found == pytest.approx(LineString([line.a, line.b]).intersection(box(*frame)).length, abs=1e-5)
