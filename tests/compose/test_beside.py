"""Notes at both sides of a view: the leaders of one side miss those of the other."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import example, given, settings
from hypothesis import strategies as st
from made_views import MM_MANNER, as_sheet, box_view

from sheets.annotate.intent import Callout
from sheets.audit import defects as rules
from sheets.audit.sheet_ink import ink_of
from sheets.compose.placing.placed import place
from sheets.compose.scales import METRIC
from sheets.geometry.path import Line
from sheets.views.view import Trace

TENTH = METRIC[3]
ACROSS, UP = 500, 600
slabs = st.tuples(
    st.integers(2, 47),  # the note's point along and up, centimetres
    st.integers(15, 34),
    st.sampled_from((6.0, 10.0, 14.0)),  # half the slab's thickness, mm: 1.2 to 2.8 mm on paper
    st.sampled_from((0.0, 60.0)),  # where it ends: at the view's edges, or this far from the point
    st.sampled_from((0.0, 60.0)),
)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(slabs, min_size=2, max_size=6, unique_by=lambda slab: slab[:2]))
@example(
    [(34, 16, 6, 60, 0), (17, 17, 6, 60, 60), (7, 15, 10, 60, 0), (18, 20, 14, 0, 0), (5, 18, 10, 60, 60)]
)
@example(
    [(27, 16, 10, 60, 60), (22, 18, 10, 60, 60), (8, 20, 14, 60, 60), (3, 20, 6, 0, 60), (30, 27, 6, 60, 0)]
)
def test_leaders_of_thin_slabs_cross_none_from_either_side(drawn):
    notes, edges = [], []
    for k, (x, y, half, left, right) in enumerate(drawn):
        at = (x * 10.0, y * 10.0)
        notes.append(Callout(f"n{k}", ("A NOTE",), at, f"p{k}"))
        ends = (at[0] - left if left else 0.0, at[0] + right if right else float(ACROSS))
        edges += [
            Trace((Line((ends[0], at[1] + up), (ends[1], at[1] + up)),), "edge", f"p{k}")
            for up in (-half, half)
        ]
    view = box_view(ACROSS, UP, callouts=tuple(notes))
    view = replace(view, view=replace(view.view, lines=(*view.view.lines, *edges)))
    ink = ink_of(as_sheet(place(view, TENTH, MM_MANNER)))
    assert sum(one.text.plain == "A NOTE" for one in ink.letters) == len(drawn)
    assert [*rules.leaders_cross(ink)] == []
