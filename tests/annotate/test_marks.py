"""Every mark has its balloon, every view its way back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sheets.annotate.annotate import annotate
from sheets.annotate.twins import MIRRORED
from sheets.base.length import inch
from sheets.model.part import Curve
from sheets.model.wall import Component
from sheets.resolve.case import CASE
from sheets.views.make import make_views


def test_every_mark_has_a_balloon_on_a_part_that_bears_it(annotated, wall):
    wanted = {part.mark for part in wall.parts if part.mark}
    found = {balloon.mark for one in annotated for balloon in one.balloons}
    assert found == wanted == {"1", "2", "3", "4", "5", "6"}
    for one in annotated:
        for balloon in one.balloons:
            assert wall.part(balloon.part).mark == balloon.mark
            u, v = balloon.target
            box = one.view.box
            assert float(box.u0) <= u <= float(box.u1)
            assert float(box.v0) <= v <= float(box.v1)


def test_a_mark_is_not_put_twice_on_a_view(annotated):
    for one in annotated:
        marks = [balloon.mark for balloon in one.balloons]
        assert len(marks) == len(set(marks))


def test_no_balloon_points_at_what_is_hidden(annotated):
    for one in annotated:
        how = {seen.part: seen.how for seen in one.view.seen}
        for balloon in one.balloons:
            assert how[balloon.part] != "hidden"


def test_the_plan_says_where_the_section_was_cut_and_which_way_it_looks(annotated):
    plan = next(one for one in annotated if one.view.id == "plan")
    (mark,) = plan.cut_marks
    assert mark.target == "section/cases/flanking/left"
    assert (mark.direction, mark.at) == ("v", inch(-42))
    # The viewer stands on the +x side and looks to -x: to the left on the plan.
    assert mark.look == -1


def test_the_elevation_says_where_the_plan_was_cut(annotated):
    elevation = next(one for one in annotated if one.view.id == "elevation")
    mark = next(mark for mark in elevation.cut_marks if mark.target == "plan")
    assert (mark.direction, mark.at, mark.look) == ("u", inch(30), -1)


def test_every_detail_is_ringed_once(annotated):
    details = [one.view.id for one in annotated if one.view.kind == "detail"]
    rings = [ring.target for one in annotated for ring in one.detail_marks]
    assert details
    assert sorted(rings) == sorted(details)


def test_the_axis_is_drawn_where_it_crosses(annotated):
    drawn = {one.view.id: one.axes for one in annotated}
    assert [line.at for line in drawn["elevation"]] == [0]
    assert [line.at for line in drawn["plan"]] == [0]
    assert drawn["section/cases/flanking/left"] == ()


def test_mirroring_is_said_only_of_a_mirrored_wall(annotated, wall):
    assert any(MIRRORED in one.notes for one in annotated)
    alone = replace(
        wall,
        parts=tuple(p for p in wall.parts if p.hand == ""),
        components=wall.components[2:],
        stations=(),
        cuts=(),
    )
    assert not any(MIRRORED in one.notes for one in annotate(alone, make_views(alone)))


def test_an_alike_case_is_said_under_the_title_unless_it_is_the_mirrored_one(annotated, wall):
    def notes(sets):
        return next(one for one in sets if one.view.kind == "section").notes

    assert notes(annotated) == ()
    apart = tuple(replace(component, twin="") for component in wall.components)
    other = replace(wall, components=apart)
    assert notes(annotate(other, make_views(other))) == ("ALSO AT FLANKING CASE",)


def test_a_lopsided_wall_does_not_claim_to_be_mirrored(wall, small):
    extra = small.block("extra/shelf", "Shelf", "shelf", "extra", 30, 50, 0, 10, 80, 81, grain="x")
    component = Component("extra", CASE, "EXTRA CASE", extra.extent)
    other = replace(wall, parts=(*wall.parts, extra), components=(*wall.components, component))
    notes = [note for one in annotate(other, make_views(other)) for note in one.notes]
    assert MIRRORED not in notes
    assert any(note == f"FLANKING CASE: {MIRRORED}" for note in notes)


def test_an_arched_rail_gets_chord_rise_and_radius(wall, small):
    # R = (c^2/4 + h^2) / 2h: a chord of 36 in with a rise of 2 in has R = (324 + 4) / 4 = 82 in, by hand.
    from sheets.geometry.path import Line, Loop, arc_through
    from sheets.geometry.solid import extrude

    mm = lambda n: float(inch(n))  # noqa: E731
    corners = [(mm(-18), mm(42)), (mm(-18), mm(36)), (mm(18), mm(36)), (mm(18), mm(42))]
    under = arc_through(corners[1], corners[2], mm(2))
    loop = Loop(
        (Line(corners[0], corners[1]), under, Line(corners[2], corners[3]), Line(corners[3], corners[0]))
    )
    solid = extrude("y", loop, mm("5.25"), mm(6))
    rail = small.block(
        "mantel/rail",
        "Rail",
        "rail",
        "mantel",
        -18,
        18,
        Fraction("5.25"),
        6,
        36,
        42,
        grain="x",
        solid=solid,
        mark="7",
        curve=Curve(inch(36), inch(2), mm(82), "y", "underside"),
    )
    other = replace(wall, parts=(*wall.parts, rail))
    done = annotate(other, make_views(other))
    (arc,) = [arc for one in done for arc in one.arcs]
    assert abs(arc.radius - mm(82)) < 1e-6
    elevation = next(one for one in done if one.view.id == "elevation")
    sizes = {string.id: [gap.b - gap.a for gap in string.gaps] for string in elevation.strings}
    assert sizes["chord/mantel/rail"] == [inch(36)]
    assert sizes["rise/mantel/rail"] == [inch(2)]
