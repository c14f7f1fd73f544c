"""On every example wall nothing has to be scaled off the paper, and nothing is said twice."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from sheets.annotate.annotate import annotate
from sheets.annotate.coverage import missing
from sheets.grammar.reader import read_spec
from sheets.resolve.solve import resolve
from sheets.views.make import make_views

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))


@pytest.fixture(scope="module", params=SPECS, ids=lambda path: path.stem)
def drawn(request):
    spec, source, _ = read_spec(request.param)
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    return wall, annotate(wall, make_views(wall))


def test_there_are_examples():
    assert len(SPECS) >= 4


def test_every_part_can_be_found_by_measuring(drawn):
    wall, annotated = drawn
    assert [(one.part, one.axis, one.what) for one in missing(annotated, wall)] == []


def test_without_the_details_something_is_open(drawn):
    wall, annotated = drawn
    bare = tuple(replace(one, strings=()) for one in annotated)
    assert len(missing(bare, wall)) >= 10


def test_no_dimension_twice_in_a_view(drawn):
    _, annotated = drawn
    for one in annotated:
        counted = Counter((s.direction, g.a, g.b) for s in one.strings for g in s.gaps)
        assert [what for what, count in counted.items() if count > 1] == []


def test_strings_are_in_order_and_lines_are_clear(drawn):
    _, annotated = drawn
    for one in annotated:
        lines = {}
        for string in one.strings:
            lines.setdefault((string.direction, string.side, string.rank), []).append(string)
            assert all(gap.b > gap.a for gap in string.gaps)
            assert all(a.b <= b.a for a, b in pairwise(string.gaps))
        for held in lines.values():
            spans = sorted((gap.a, gap.b) for string in held for gap in string.gaps)
            assert all(a[1] <= b[0] for a, b in pairwise(spans))
        assert len({string.id for string in one.strings}) == len(one.strings)


def test_widths_of_the_wall_add_up(drawn):
    wall, annotated = drawn
    elevation = next(one for one in annotated if one.view.id == "elevation")
    strings = {string.id: string for string in elevation.strings}
    assert sum(gap.b - gap.a for gap in strings["overall-x"].gaps) == wall.room.width
    whole = strings.get("openings-middle-x")
    if whole is not None:
        assert sum(gap.b - gap.a for gap in whole.gaps) == wall.room.width


def test_every_mark_has_a_balloon(drawn):
    wall, annotated = drawn
    wanted = {part.mark for part in wall.parts if part.mark}
    assert wanted
    assert {balloon.mark for one in annotated for balloon in one.balloons} == wanted
    for one in annotated:
        hidden = {seen.part for seen in one.view.seen if seen.how == "hidden"}
        marks = [balloon.mark for balloon in one.balloons]
        assert len(marks) == len(set(marks))
        dashed = {trace.part for trace in one.view.lines if trace.role == "hidden"}
        assert sorted(hidden & {balloon.part for balloon in one.balloons} - dashed) == []


def test_every_detail_and_section_is_marked_where_it_was_taken(drawn):
    _, annotated = drawn
    rings = {ring.target for one in annotated for ring in one.detail_marks}
    cuts = {mark.target for one in annotated for mark in one.cut_marks}
    assert rings == {one.view.id for one in annotated if one.view.kind == "detail"}
    assert cuts >= {one.view.id for one in annotated if one.view.kind == "section"}


def test_every_shaped_part_has_its_radius(drawn):
    wall, annotated = drawn
    # What is bent follows the arc of the rail that it lines, and has no arc of its own.
    shaped = {
        part.mark for part in wall.parts
        if part.curve is not None and part.bend is None and part.maker == "shop"
    }
    given = {wall.part(arc.part).mark for one in annotated for arc in one.arcs if arc.part != "room"}
    assert given == shaped


def test_what_is_drawn_lies_within_the_view(drawn):
    _, annotated = drawn
    looked = 0
    for one in annotated:
        box = one.view.box
        for trace in one.view.lines:
            for segment in trace.path:
                u0, v0, u1, v1 = segment.bounds
                looked += 1
                assert u0 >= float(box.u0) - 1e-3
                assert v0 >= float(box.v0) - 1e-3
                assert u1 <= float(box.u1) + 1e-3
                assert v1 <= float(box.v1) + 1e-3
    assert looked > 200


def test_views_are_the_same_again(drawn):
    wall, annotated = drawn
    again = annotate(wall, make_views(wall))
    assert again == annotated
