"""Strings close, add up, and say nothing twice."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from sheets.annotate.annotate import annotate
from sheets.annotate.places import foot
from sheets.annotate.runs import runs
from sheets.base.length import inch
from sheets.geometry.path import Line
from sheets.views.make import make_views
from sheets.views.view import ExactBox, Seen, Trace


def strings(annotated, view_id):
    return {s.id: s for one in annotated if one.view.id == view_id for s in one.strings}


def test_the_openings_add_up_to_the_room(annotated, wall):
    found = strings(annotated, "elevation")
    openings, overall = found["openings-middle-x"], found["overall-x"]
    assert sum(gap.b - gap.a for gap in openings.gaps) == inch(120) == wall.room.width
    assert len(overall.gaps) == 1
    assert overall.gaps[0].b - overall.gaps[0].a == inch(120)
    assert overall.rank > openings.rank
    # 36 case, 9 wall, 30 slab, 9 wall, 36 case: as the wall was made by hand
    assert [gap.b - gap.a for gap in openings.gaps] == [inch(n) for n in (36, 9, 30, 9, 36)]


def test_chains_from_stations_have_no_holes(annotated):
    looked = 0
    for one in annotated:
        for string in one.strings:
            if string.id.startswith(("openings", "shelves", "overall")):
                looked += 1
                for before, after in pairwise(string.gaps):
                    assert before.b == after.a
    assert looked >= 8


def test_shelves_are_one_string_in_the_section_of_their_case(annotated):
    found = strings(annotated, "section/cases/flanking/left")
    shelves = found["shelves-z/cases/flanking/left"]
    sizes = ["20", "3/4", "23.25", "3/4", "27.25"]
    assert [gap.b - gap.a for gap in shelves.gaps] == [inch(size) for size in sizes]
    for one in annotated:
        if one.view.id != "section/cases/flanking/left":
            assert not any(string.id.startswith("shelves") for string in one.strings)


def test_no_dimension_twice_in_a_view(annotated):
    looked = 0
    for one in annotated:
        counted = Counter((s.direction, g.a, g.b) for s in one.strings for g in s.gaps)
        looked += len(counted)
        assert [gap for gap, count in counted.items() if count > 1] == []
    assert looked > 20


def test_every_gap_is_longer_than_nothing_and_in_order(annotated):
    for one in annotated:
        for string in one.strings:
            assert string.gaps
            for gap in string.gaps:
                assert gap.b > gap.a
            for before, after in pairwise(string.gaps):
                assert before.b <= after.a


def test_strings_of_one_line_do_not_overlap(annotated):
    for one in annotated:
        lines = {}
        for string in one.strings:
            lines.setdefault((string.direction, string.side, string.rank), []).append(string)
        for held in lines.values():
            spans = sorted((string.gaps[0].a, string.gaps[-1].b) for string in held)
            for before, after in pairwise(spans):
                assert before[1] <= after[0]


def test_a_mirrored_side_has_no_strings_of_its_own(wall):
    assert [run.id for run in runs(wall) if "right" in run.id] == []
    assert [run.id for run in runs(wall) if run.owner == "cases/flanking/left"] == [
        "shelves-z/cases/flanking/left"
    ]


def test_extension_lines_leave_the_object_at_its_face(views):
    elevation = next(view for view in views if view.id == "elevation")
    # The end of the mantel cap: its underside is at 48, its top at 49 1/4.
    assert foot(elevation, "u", inch(20), "below") == inch(48)
    assert foot(elevation, "u", inch(20), "above") == inch("49.25")
    assert foot(elevation, "v", inch(48), "right") == inch(20)
    # Nothing ends at 10: the line comes from the border.
    assert foot(elevation, "u", inch(10), "below") == elevation.box.v0


def test_an_extension_line_leaves_an_opening_at_its_edge_unless_a_part_is_on_the_way(views):
    elevation = next(view for view in views if view.id == "elevation")
    edge = Trace((Line((-50.0, 300.0), (80.0, 300.0)),), "edge", "opening")
    alone = replace(elevation, lines=(edge,), seen=())
    assert foot(alone, "v", Fraction(300), "right") == 80
    box = ExactBox(Fraction(100), Fraction(120), Fraction(0), Fraction(900))
    beside = Seen("side", "visible", box, (110.0, 9.0))
    assert foot(replace(alone, seen=(beside,)), "v", Fraction(300), "right") == elevation.box.u1
    assert foot(replace(alone, seen=(beside,)), "v", Fraction(300), "left") == -50


def test_order_of_parts_and_stations_does_not_matter(wall, annotated):
    turned = replace(wall, stations=wall.stations[::-1])
    again = annotate(turned, make_views(turned))
    assert [(one.view.id, one.strings) for one in again] == [(one.view.id, one.strings) for one in annotated]


def test_lengths_stay_exact(annotated):
    for one in annotated:
        for string in one.strings:
            for gap in string.gaps:
                assert all(isinstance(value, Fraction) for value in (gap.a, gap.b, gap.foot_a, gap.foot_b))
