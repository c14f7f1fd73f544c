"""A cutting line has its ring at one end, and at the other an arrow that looks the same way."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest
from made_views import MM_MANNER, as_sheet, box_view

from sheets.annotate.intent import CutMark
from sheets.audit import defects as rules
from sheets.audit.sheet_ink import ink_of
from sheets.compose.ink import bounds
from sheets.compose.placing.placed import place
from sheets.compose.scales import METRIC
from sheets.drawing.items import Stroke, Symbol

TENTH = METRIC[3]


def _ends(direction, look):
    mark = CutMark("section/a", direction, F(700), F(0), F(1000), look)
    placed = place(box_view(2000, 1000, cut_marks=(mark,)), TENTH, MM_MANNER)
    kinds = {i.kind: i for i in placed.items if isinstance(i, Symbol)}
    return placed, kinds["section mark"], kinds["cut end"]


@pytest.mark.parametrize("look", [-1, 1])
@pytest.mark.parametrize("direction", ["u", "v"])
def test_the_ring_stands_above_or_at_the_left_and_both_ends_look_one_way(direction, look):
    placed, ring, end = _ends(direction, look)
    x0, y0, x1, y1 = placed.drawn
    if direction == "v":
        assert ring.at[1] > y1
        assert end.at[1] < y0
        assert ring.at[0] == end.at[0] == pytest.approx(70)
    else:
        assert ring.at[0] < x0
        assert end.at[0] > x1
        assert ring.at[1] == end.at[1] == pytest.approx(70)
    across = 0 if direction == "v" else 1
    low, high = bounds([end])[across], bounds([end])[across + 2]
    assert (high - end.at[across] > end.at[across] - low) == (look > 0)
    assert not end.target
    assert ring.target == "section/a"


def test_the_end_without_a_ring_stands_before_the_first_string():
    placed, _, end = _ends("v", 1)
    assert placed.drawn[1] - bounds([end])[1] < MM_MANNER.first


def test_lines_of_cuts_run_over_no_words():
    placed, _, _ = _ends("v", 1)
    assert list(rules.text_over_line(ink_of(as_sheet(placed)))) == []


@pytest.mark.parametrize("off", [20, 30, 55])
def test_a_match_line_breaks_at_the_ring_of_a_cut_beside_it(off):
    mark = CutMark("section/a", "v", F(2000 - off), F(0), F(1000), 1)
    placed = place(
        box_view(2000, 1000, cut_marks=(mark,)), TENTH, MM_MANNER, ends=(("right", "elevation/part-2"),)
    )
    (ring,) = [i for i in placed.items if isinstance(i, Symbol) and i.kind == "section mark"]
    x0, y0, x1, y1 = bounds([ring])
    match = [s for i in placed.items if isinstance(i, Stroke) and i.pen == "match line" for s in i.path]
    assert match
    assert x0 < match[0].a[0] < x1  # the line would run through the ring
    assert all(max(s.a[1], s.b[1]) <= y0 or min(s.a[1], s.b[1]) >= y1 for s in match)
