"""Dimension strings on paper: lanes, extension lines, and what becomes of narrow gaps."""

from __future__ import annotations

import itertools
from fractions import Fraction as F  # noqa: N817

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_views import INCH_MANNER, MM_MANNER, as_sheet, box_view, chain

from sheets.audit import defects as rules
from sheets.audit.sheet_ink import ink_of
from sheets.compose.placing.placed import place
from sheets.compose.scales import INCH, METRIC
from sheets.drawing.items import Dimension

FULL_MM = METRIC[0]
TENTH = METRIC[3]


def _dims(placed):
    return [i for i in placed.items if isinstance(i, Dimension)]


def _line_y(d):
    return d.line_at[1] if d.angle == 0 else d.line_at[0]


def test_the_first_string_is_ten_mm_off_and_the_next_are_evenly_spaced():
    # Drafting practice: first string about 3/8 in (10 mm) off the object, then even lanes of 8 to 9.5 mm.
    strings = (chain("below", [0, 700, 2000], rank=0), chain("below", [0, 1000, 2000], rank=1),
               chain("below", [0, 2000], rank=2))  # fmt: skip
    ys = sorted(
        {round(_line_y(d), 6) for d in _dims(place(box_view(2000, 1000, strings=strings), TENTH, MM_MANNER))}
    )
    assert ys[-1] == pytest.approx(-10)
    assert [b - a for a, b in itertools.pairwise(ys)] == pytest.approx([8, 8])


def test_rank_grows_outward():
    strings = (chain("left", [0, 1000], rank=2), chain("left", [0, 300, 1000], rank=0))
    by_rank = {d.id: _line_y(d) for d in _dims(place(box_view(500, 1000, strings=strings), TENTH, MM_MANNER))}
    assert by_rank["left/2"] < by_rank["left/0"] < 0


def test_strings_that_do_not_meet_share_a_lane():
    strings = (chain("below", [0, 400], name="a"), chain("below", [1200, 2000], name="b"))
    assert (
        len({_line_y(d) for d in _dims(place(box_view(2000, 500, strings=strings), TENTH, MM_MANNER))}) == 1
    )


def test_extension_lines_leave_a_gap_at_the_object_and_pass_the_string():
    # 1.5 mm (1/16 in) at the object, 3 mm (1/8 in) past the string: common teaching.
    (d,) = _dims(place(box_view(1000, 500, strings=(chain("below", [0, 1000]),)), TENTH, MM_MANNER))
    ends = [(s.path[0].a, s.path[0].b) for s in d.strokes if s.path[0].a[0] == s.path[0].b[0]]
    assert {round(a[1], 6) for a, _ in ends} == {-1.5}
    assert {round(b[1], 6) for _, b in ends} == {-13.0}


def test_text_reads_from_below_and_from_the_right_and_stands_over_its_line():
    strings = (chain("below", [0, 1000]), chain("right", [0, 500], foot=1000))
    below, right = _dims(place(box_view(1000, 500, strings=strings), TENTH, MM_MANNER))
    assert (below.text.angle, right.text.angle) == (0, 90)
    assert below.text.at[1] > below.line_at[1]
    assert right.text.at[0] < right.line_at[0]


def test_inch_sets_have_ticks_and_metric_ones_arrows():
    inch = _dims(place(box_view(2540, 500, strings=(chain("below", [0, 2540]),)), INCH[4], INCH_MANNER))[0]
    metric = _dims(place(box_view(2500, 500, strings=(chain("below", [0, 2500]),)), TENTH, MM_MANNER))[0]
    assert not inch.heads
    assert any(s.path[0].a[0] != s.path[0].b[0] and s.path[0].a[1] != s.path[0].b[1] for s in inch.strokes)
    assert len(metric.heads) == 2


def test_a_fraction_is_stacked_and_reads_back():
    value = F(127, 5) * F(125, 2)  # 62 1/2 in
    (d,) = _dims(place(box_view(value, 500, strings=(chain("below", [0, value]),)), INCH[4], INCH_MANNER))
    assert d.text.plain == "5'-2 1/2\""
    assert d.value_text == d.text.plain
    assert any(run.denominator == 2 for run in d.text.runs)


def test_a_narrow_gap_at_the_end_puts_its_text_past_the_end():
    strings = (chain("below", [0, 900, 910]),)
    narrow = next(
        d for d in _dims(place(box_view(910, 500, strings=strings), TENTH, MM_MANNER)) if d.value == 10
    )
    assert narrow.text.at[0] > 91
    assert not any(s.pen == "leader" for s in narrow.strokes)


def test_narrow_gaps_in_a_row_are_raised_each_on_a_leader():
    strings = (chain("below", [0, 300, 310, 320, 330, 340, 900]),)
    narrow = [d for d in _dims(place(box_view(900, 500, strings=strings), TENTH, MM_MANNER)) if d.value == 10]
    assert len(narrow) == 4
    assert all(sum(s.pen == "leader" for s in d.strokes) == 1 for d in narrow)
    xs = [d.text.at[0] for d in narrow]
    assert xs == sorted(xs)


cuts = st.lists(st.integers(1, 1999), min_size=0, max_size=9, unique=True).map(
    lambda inner: [0, *sorted(inner), 2000]
)
sides = st.sampled_from(["below", "above", "left", "right"])
many = st.lists(st.tuples(sides, cuts, st.integers(0, 2)), max_size=6)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(many, st.sampled_from(["inch", "mm"]))
def test_no_text_meets_a_text_or_a_line_whatever_the_strings(drawn, units):
    feet = {"below": 0, "left": 0, "above": 2000, "right": 2000}
    strings = tuple(
        chain(side, at, rank=rank, foot=feet[side], name=f"{k}") for k, (side, at, rank) in enumerate(drawn)
    )
    scale, manner = (INCH[4], INCH_MANNER) if units == "inch" else (TENTH, MM_MANNER)
    ink = ink_of(as_sheet(place(box_view(2000, 2000, strings=strings), scale, manner)))
    assert len(ink.dimensions) == sum(len(s.gaps) for s in strings)
    assert not list(rules.text_over_text(ink))
    assert not list(rules.text_over_line(ink))
    assert not list(rules.dimension_text(ink))
    assert not list(rules.leaders_cross(ink))
    assert not list(rules.strings_over_views(ink))
