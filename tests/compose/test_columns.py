"""Notes in columns: lined up, apart, and their leaders uncrossed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F  # noqa: N817
from itertools import combinations, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from made_views import MM_MANNER, as_sheet, box_view

from sheets.annotate.intent import Balloon, Callout
from sheets.audit import defects as rules
from sheets.audit.sheet_ink import ink_of
from sheets.compose.placing.columns import Entry, heights
from sheets.compose.placing.free_room import segments_cross
from sheets.compose.placing.placed import place
from sheets.compose.scales import METRIC
from sheets.drawing.items import Stroke, Symbol, Text
from sheets.drawing.lettering import box
from sheets.drawing.walk import ungrouped
from sheets.geometry.path import Line
from sheets.views.view import ExactBox, Trace

TENTH = METRIC[3]
points = st.tuples(st.floats(0, 100), st.floats(0, 200))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(points, min_size=1, max_size=9, unique_by=lambda p: (round(p[0]), round(p[1]))))
def test_leaders_of_a_column_never_cross_and_entries_never_meet(targets):
    entries = [Entry(str(k), at, ("A NOTE", "OF TWO LINES"), "", "") for k, at in enumerate(targets)]
    placed = heights(entries, 110.0, (0.0, 200.0))
    assert sorted(e.id for e, _ in placed) == sorted(e.id for e in entries)
    for (a, ya), (b, yb) in combinations(placed, 2):
        assert not segments_cross(a.target, (110.0, ya), b.target, (110.0, yb))
    for (a, ya), (b, yb) in pairwise(placed):
        assert ya - a.down > yb + b.up


def test_lettering_of_a_column_lines_up():
    notes = tuple(Callout(f"n{k}", (f"NOTE {k}",), (400.0, 300.0 * k + 50), f"p{k}") for k in range(4))
    placed = place(box_view(500, 1200, callouts=notes), TENTH, MM_MANNER)
    xs = {t.at[0] for t in ungrouped(placed.items) if isinstance(t, Text)}
    assert len(xs) == 1


def test_a_part_with_note_and_mark_has_one_leader_for_both():
    said = {"callouts": (Callout("n", ("CAP, WALNUT",), (200.0, 200.0), "cap"),),
            "balloons": (Balloon("M4", (200.0, 200.0), "cap"),)}  # fmt: skip
    placed = place(box_view(500, 500, **said), TENTH, MM_MANNER)
    (ring,) = [i for i in ungrouped(placed.items) if isinstance(i, Symbol) and i.kind == "part balloon"]
    assert ring.fields["mark"] == "M4"
    leaders = [s for i in ungrouped(placed.items) for s in ([i] if not isinstance(i, Symbol) else i.strokes)
               if getattr(s, "pen", "") == "leader"]  # fmt: skip
    assert len(leaders) == 1


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.lists(
        st.tuples(st.floats(20, 1980), st.floats(20, 1180)), max_size=8, unique_by=lambda p: round(p[0] / 40)
    )
)
def test_marks_in_an_open_view_stand_clear(targets):
    balloons = tuple(Balloon(str(k), at, f"p{k}") for k, at in enumerate(targets))
    ink = ink_of(as_sheet(place(box_view(2000, 1200, kind="elevation", balloons=balloons), TENTH, MM_MANNER)))
    assert sum(s.kind == "part balloon" for s, _ in ink.symbols) == len(targets)
    faults = [*rules.text_over_text(ink), *rules.text_over_line(ink), *rules.leaders_cross(ink)]
    assert not faults


def test_a_note_is_written_on_a_large_face_without_a_leader():
    room = ExactBox(F(100), F(900), F(100), F(500))
    note = Callout("n", ("SURROUND, SLATE", "BY OTHERS"), (300.0, 300.0), "slab", room)
    placed = place(box_view(1000, 700, kind="elevation", callouts=(note,)), TENTH, MM_MANNER)
    texts = [i for i in ungrouped(placed.items) if isinstance(i, Text)]
    assert [t.plain for t in texts] == ["SURROUND, SLATE", "BY OTHERS"]
    assert not [i for i in ungrouped(placed.items) if isinstance(i, Stroke) and i.pen == "leader"]
    for text in texts:
        x0, y0, x1, y1 = box(text)
        assert 10 <= x0 < x1 <= 90
        assert 10 <= y0 < y1 <= 50


def test_a_face_too_small_for_its_note_has_it_on_a_leader():
    room = ExactBox(F(100), F(150), F(100), F(150))
    note = Callout("n", ("SURROUND, SLATE",), (120.0, 120.0), "slab", room)
    placed = place(box_view(1000, 700, kind="elevation", callouts=(note,)), TENTH, MM_MANNER)
    assert [i for i in ungrouped(placed.items) if isinstance(i, Stroke) and i.pen == "leader"]


def test_a_leader_is_led_off_the_line_it_would_run_along():
    # A slab 3 mm thick on paper, seen from the right: the straight way out lies between its long edges.
    edges = tuple(Trace((Line((0.0, v), (900.0, v)),), "edge", "slab") for v in (20.0, 32.0))
    view = box_view(1000, 900, callouts=(Callout("n", ("HEARTH",), (120.0, 26.0), "slab"),))
    view = replace(view, view=replace(view.view, lines=(*view.view.lines, *edges)))
    sheet = as_sheet(place(view, TENTH, MM_MANNER))
    assert list(rules.leaders_along(ink_of(sheet))) == []
