"""A whole set: which sheets, how views line up, and that every mark finds its view."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F  # noqa: N817

import pytest
from made_views import MM_MANNER, box_view

from sheets.annotate.annotate import annotate
from sheets.audit.audit import audit
from sheets.base.diagnostics import has_errors
from sheets.compose.compose import compose
from sheets.drawing.dump import dump
from sheets.drawing.items import Symbol, Viewport
from sheets.drawing.walk import ungrouped
from sheets.views.make import make_views


def _views(sheet):
    return [i for i in sheet.items if isinstance(i, Viewport)]


def test_sheets_come_in_the_order_of_a_set(drawn):
    drawing, found = drawn
    assert not has_errors(found)
    numbers = [s.number for s in drawing.sheets]
    # US National CAD Standard sheet types: 0 general, 1 plans, 2 elevations, 3 sections, 5 details, 6
    # schedules.
    assert numbers[0] == "Z-001"
    assert numbers == sorted(numbers)
    assert {n[2] for n in numbers} <= set("012356")


def test_plan_and_elevation_share_a_scale_and_line_up(drawn):
    views = {v.id: (v, s.number) for s in drawn[0].sheets for v in _views(s)}
    (plan, on), (elevation, at) = views["plan"], views["elevation"]
    assert plan.scale == elevation.scale
    assert on == at
    assert plan.origin[0] == pytest.approx(elevation.origin[0])


def test_sections_of_a_row_line_up_in_height(make_small_wall):
    wall = make_small_wall("arch-d")
    views = [v for v in annotate(wall, make_views(wall)) if v.view.kind == "section"]
    twin = replace(views[0], view=replace(views[0].view, id="section/other", title="OTHER"))
    drawing, _ = compose((*views, twin), wall)
    one, other = (v for s in drawing.sheets for v in _views(s))
    assert one.origin[1] == pytest.approx(other.origin[1])
    assert one.scale == other.scale


def test_every_mark_names_the_view_it_leads_to_and_the_view_names_it_back(drawn):
    where = {v.id: (v.number, s.number) for s in drawn[0].sheets for v in _views(s)}
    marks = [(s.number, i) for s in drawn[0].sheets for v in _views(s) for i in ungrouped(v.items)
             if isinstance(i, Symbol) and i.target]  # fmt: skip
    assert marks
    for _, mark in marks:
        assert (mark.fields["number"], mark.fields["sheet"]) == where[mark.target]
        assert mark.link == mark.fields["sheet"]
        assert {t.plain for t in mark.texts} == set(where[mark.target])
    sheets_of = {}
    for number, mark in marks:
        sheets_of.setdefault(mark.target, set()).add(number)
    for s in drawn[0].sheets:
        for v in _views(s):
            title = next(i for i in ungrouped(v.items) if isinstance(i, Symbol) and i.kind == "view title")
            if title.fields["sheet"]:
                assert title.fields["sheet"] in sheets_of[v.id]


def test_views_lie_in_the_frame_and_apart(drawn):
    for sheet in drawn[0].sheets:
        for v in _views(sheet):
            assert sheet.frame[0] <= v.box[0] < v.box[2] <= sheet.frame[2]
            assert sheet.frame[1] <= v.box[1] < v.box[3] <= sheet.frame[3]


def test_a_viewport_leads_back_to_full_size(drawn, annotated):
    boxes = {a.view.id: a.view.box for a in annotated}
    for sheet in drawn[0].sheets:
        for v in _views(sheet):
            x = v.origin[0] + float(v.scale) * float(boxes[v.id].u0)
            assert x == pytest.approx(v.drawn[0])


def test_the_same_input_gives_the_same_set(wall, annotated, drawn):
    again, _ = compose(annotated, wall)
    assert again == drawn[0]
    assert [dump(s) for s in again.sheets] == [dump(s) for s in drawn[0].sheets]


@pytest.mark.parametrize(
    ("size", "block"),
    [
        ("ansi-b", "shop-small"),
        ("arch-b", "shop-small"),
        ("arch-d", "architect-strip"),
        ("iso-a3", "iso-7200"),
        ("iso-a1", "iso-7200"),
        ("ansi-d", "architect-strip"),
    ],
)
def test_other_sheets_carry_the_set_without_a_defect(make_small_wall, size, block):
    wall = make_small_wall(size, block)
    drawing, found = compose(annotate(wall, make_views(wall)), wall)
    assert not has_errors(found)
    assert audit(drawing) == ()


def test_a_view_that_fits_no_sheet_is_an_error_that_names_one_that_would_do(wall):
    view = box_view(F(26000), F(3000), kind="section")
    paper = replace(wall.paper, size="arch-c")
    drawing, found = compose((view,), replace(wall, paper=paper))
    assert drawing.sheets == ()
    (problem,) = [d for d in found if d.code == "view-too-large"]
    assert problem.severity == "error"
    assert "arch-d" in problem.help


@pytest.mark.parametrize(
    ("wide", "tall", "turned"),
    [
        (4000, 7000, "orientation portrait"),
        (9000, 7000, ""),
    ],  # at 1:50 on A4: taller than it lies, than it stands
)
def test_a_sheet_that_is_said_to_do_does(wall, wide, tall, turned):
    wall = replace(wall, units="mm", notation=MM_MANNER.notation)
    view = box_view(F(wide), F(tall), kind="section")

    def drawn_on(size, orientation="landscape"):
        paper = replace(wall.paper, size=size, orientation=orientation, titleblock="shop-small")
        return compose((view,), replace(wall, paper=paper))

    (problem,) = [d for d in drawn_on("iso-a4")[1] if d.code == "view-too-large"]
    assert problem.help == (turned + " or " if turned else "") + "sheet size iso-a3 would do"
    assert drawn_on("iso-a3")[0].sheets
    assert bool(drawn_on("iso-a4", "portrait")[0].sheets) == bool(turned)


def test_a_title_block_that_leaves_no_room_is_what_is_wrong(wall, tmp_path):
    body = '{size: fill, field: "{project.title}", label: JOB}'
    layouts = f"[{{needs: {{}}, edge: bottom, depth: 420, body: {body}}}]"
    (tmp_path / "mine.yaml").write_text(f"name: mine\nlayouts: {layouts}\n")
    paper = replace(wall.paper, size="arch-c", titleblock="mine.yaml")
    drawing, found = compose((), replace(wall, paper=paper), folder=tmp_path)
    assert drawing.sheets == ()
    (problem,) = found
    assert (problem.code, problem.path) == ("titleblock-too-large", ("sheet", "titleblock"))
    assert "420 mm deep at the bottom" in problem.message
    assert "depth" in problem.help


@pytest.mark.parametrize(("size", "block"), [("arch-z", "architect-strip"), ("arch-c", "architect-stripe")])
def test_unknown_paper_or_title_block_is_an_error(make_small_wall, size, block):
    drawing, found = compose((), make_small_wall(size, block))
    assert drawing.sheets == ()
    assert has_errors(found)


def test_a_mark_whose_view_is_missing_is_left_out_and_said(wall, annotated):
    kept = tuple(a for a in annotated if a.view.kind != "detail")
    drawing, found = compose(kept, wall)
    assert {d.code for d in found} == {"mark-without-view"}
    assert not [d for d in audit(drawing) if d.kind == "mark without target"]
