"""What is done when paper is short: narrower columns, keynotes, marks told elsewhere, match lines."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from made_views import MM_MANNER, box_view, chain

from sheets.annotate.intent import AxisLine, Balloon, Callout, CutMark
from sheets.audit.audit import audit
from sheets.compose.compose import compose
from sheets.compose.placing.match_line import divided
from sheets.compose.placing.placed import place
from sheets.compose.scales import METRIC
from sheets.drawing.items import Symbol, Text, Viewport
from sheets.drawing.walk import ungrouped

TENTH, FIFTIETH = METRIC[3], METRIC[5]
NOTES = tuple(
    Callout(f"n{k}", ("A NOTE OF SOME LENGTH ABOUT THIS", "AND MORE OF IT"), (300.0, 150.0 * k + 40), f"p{k}")
    for k in range(4)
)


def _marks(placed, kind):
    return [i.fields["mark"] for i in ungrouped(placed.items) if isinstance(i, Symbol) and i.kind == kind]


def test_each_crowding_is_narrower_than_the_one_before():
    widths = [
        place(box_view(1000, 700, callouts=NOTES), TENTH, MM_MANNER, crowding=c).size[0] for c in (0, 1, 2)
    ]
    assert widths[0] > widths[1] > widths[2]


def test_keynotes_keep_every_word_under_the_title():
    placed = place(box_view(400, 700, callouts=NOTES), TENTH, MM_MANNER, crowding=2)
    words = " ".join(t.plain for t in ungrouped(placed.title) if isinstance(t, Text))
    assert "A NOTE OF SOME LENGTH ABOUT THIS, AND MORE OF IT" in words
    assert set(_marks(placed, "keynote")) == {"K1"}  # the same words share a key
    assert len(_marks(placed, "keynote")) == len(NOTES)


def test_the_mark_of_a_part_is_its_own_key():
    said = {"callouts": NOTES[:1], "balloons": (Balloon("M4", (300.0, 40.0), "p0"),)}
    placed = place(box_view(400, 700, **said), TENTH, MM_MANNER, crowding=2)
    assert _marks(placed, "part balloon") == ["M4"]
    assert any(isinstance(t, Text) and t.plain == "M4" for t in ungrouped(placed.title))


def test_a_mark_without_an_open_place_is_left_to_the_view_that_has_it():
    # A view of 6 by 6 mm on paper, full of lines, has no place for a ring inside.
    crowded = box_view(60, 60, kind="elevation", balloons=(Balloon("M1", (30.0, 30.0), "p"),))
    beside = place(crowded, TENTH, MM_MANNER)
    assert _marks(beside, "part balloon") == ["M1"]
    full = replace(crowded, cut_marks=(CutMark("s", "v", Fraction(30), Fraction(0), Fraction(60), 1),))
    assert _marks(place(full, TENTH, MM_MANNER), "part balloon") == ["M1"]


def test_a_divided_view_keeps_every_string_or_tells_of_it():
    cuts = [0, 400, 900, 1500, 2000]
    whole = box_view(
        2000,
        500,
        kind="elevation",
        strings=(chain("below", cuts), chain("below", [0, 2000], rank=1)),
        balloons=(Balloon("A", (100.0, 100.0), "a"), Balloon("B", (1900.0, 100.0), "b")),
    )
    left, right = (part.annotated for part in divided(whole, 2, MM_MANNER))
    assert left.view.box.u1 == right.view.box.u0
    measured = [g.b - g.a for part in (left, right) for s in part.strings for g in s.gaps]
    told = [note for part in (left, right) for note in part.notes]
    assert sorted(measured) == [400, 500, 500]  # 600 and 2000 reach across
    assert {"ACROSS THE MATCH LINE: 600", "ACROSS THE MATCH LINE: 2000"} <= set(told)
    assert ([b.mark for b in left.balloons], [b.mark for b in right.balloons]) == (["A"], ["B"])


def test_a_match_line_keeps_off_axes_and_cutting_lines():
    whole = box_view(
        2000,
        500,
        kind="elevation",
        axes=(AxisLine("v", Fraction(1000)),),
        cut_marks=(CutMark("s", "v", Fraction(1100), Fraction(0), Fraction(500), 1),),
    )
    left, _ = divided(whole, 2, MM_MANNER)
    assert all(abs(left.annotated.view.box.u1 - at) >= 100 for at in (1000, 1100))


@pytest.mark.parametrize("wide", [20000, 30000])
def test_an_elevation_too_wide_is_drawn_in_parts_that_name_each_other(make_small_wall, wide):
    wall = replace(make_small_wall("iso-a3", "iso-7200"), units="mm", notation=MM_MANNER.notation)
    view = box_view(wide, 2400, kind="elevation", strings=(chain("below", [0, 3000, wide]),))
    drawing, found = compose((view,), wall)
    assert not found
    parts = {v.id: (v.number, s.number) for s in drawing.sheets for v in s.items if isinstance(v, Viewport)}
    assert len(parts) >= 2
    marks = [
        i
        for s in drawing.sheets
        for v in s.items
        if isinstance(v, Viewport)
        for i in ungrouped(v.items)
        if isinstance(i, Symbol) and i.kind == "match mark"
    ]
    assert len(marks) == 2 * (len(parts) - 1)
    assert all((m.fields["number"], m.fields["sheet"]) == parts[m.target] for m in marks)
    assert audit(drawing) == ()
