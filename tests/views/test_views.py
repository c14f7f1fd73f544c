"""Views of small walls, against areas that shapely and plain arithmetic give."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from shapely.geometry import Polygon
from shapely.geometry import box as rectangle
from shapely.ops import unary_union

from sheets.base.length import inch
from sheets.geometry.box import Box
from sheets.geometry.clip import clip_segment
from sheets.geometry.path import Arc, Line
from sheets.geometry.solid import cut_box
from sheets.model.wall import Cut
from sheets.views.frames import ELEVATION, box_of, frame_of_cut
from sheets.views.make import make_views
from sheets.views.plan import plan
from sheets.views.silhouettes import shadow, silhouette
from sheets.views.tidy import tidy
from sheets.views.view import Trace

MM2 = 1e-3


@pytest.fixture(scope="module")
def views(wall):
    return {view.id: view for view in make_views(wall)}


def flat(region):
    return Polygon(region.outer.flatten(), [hole.flatten() for hole in region.holes])


def length(view, role, part=None):
    return sum(s.length for t in view.lines if t.role == role and part in (None, t.part) for s in t.path)


DRAWN_ALONE = "part/cases/flanking/left/side-1"  # dadoed; the other three are cut alike


def test_ids_and_order(views):
    assert list(views) == [
        "plan",
        "elevation",
        "section/cases/flanking/left",
        "detail/mantel/mantel",
        DRAWN_ALONE,
        "axonometric",
    ]


def test_a_section_has_the_area_of_what_it_cuts(views):
    # At x = -42 in: two shelves 11 x 3/4 and the cap 13 x 1 1/4; the sides and stiles are missed.
    section = views["section/cases/flanking/left"]
    areas = {face.part.rsplit("/", 1)[1]: sum(r.area for r in face.regions) for face in section.cuts}
    square = float(inch(1)) ** 2
    assert areas == pytest.approx({"shelf-1": 8.25 * square, "shelf-2": 8.25 * square, "cap": 16.25 * square})


def test_cut_faces_do_not_overlap(views):
    looked = 0
    for view in views.values():
        faces = [flat(region) for face in view.cuts for region in face.regions]
        looked += len(faces)
        assert (
            unary_union(faces).area == pytest.approx(sum(face.area for face in faces), abs=MM2)
            if faces
            else True
        )
    assert looked >= 15


def test_the_shadow_of_the_wall_is_the_union_of_its_boxes(wall):
    # Every part of this wall is a box but for cuts that do not show from the front.
    expected = unary_union(
        [
            rectangle(float(e.x0), float(e.z0), float(e.x1), float(e.z1))
            for e in (p.extent for p in wall.parts)
        ]
    )
    found = unary_union([flat(region) for region in shadow((part.solid for part in wall.parts), "y")])
    assert found.symmetric_difference(expected).area < MM2
    assert expected.area > 1e6


def test_a_notch_shows_in_one_silhouette_and_not_in_another(small_block):
    solid = cut_box(small_block.solid, (0.0, 100.0, -1.0, 1e4, 0.0, 50.0))
    whole = sum(region.area for region in silhouette(small_block.solid, "y"))
    assert sum(region.area for region in silhouette(solid, "y")) == pytest.approx(whole - 100 * 50)
    assert sum(region.area for region in silhouette(solid, "z")) == pytest.approx(
        sum(region.area for region in silhouette(small_block.solid, "z"))
    )


@pytest.fixture
def small_block(wall):
    part = wall.part("mantel/cap")
    e = part.extent
    return replace(part, extent=replace(e, z0=Fraction(0), z1=Fraction(100)), solid=_box(e))


def _box(e):
    from sheets.geometry.solid import box

    return box(float(e.x0), float(e.x1), float(e.y0), float(e.y1), 0.0, 100.0, axis="y")


def test_hidden_lines_are_the_housed_ends_of_shelves(views):
    elevation = views["elevation"]
    hidden = [trace for trace in elevation.lines if trace.role == "hidden"]
    assert {trace.part.rsplit("/", 1)[1] for trace in hidden} == {"shelf-1", "shelf-2", "side-1", "side-2"}
    # Behind the left stile at the height of the lower shelf: its edges from the stile's edge 1 in to its
    # end, the end itself, 3/4, and the inner face of the side, 1/4 further in.
    lines = [s for t in hidden for s in t.path if s.bounds[0] < float(inch(-58))]
    level = [s for s in lines if s.bounds[1] == s.bounds[3] == pytest.approx(float(inch(20)))]
    assert sum(s.length for s in level) == pytest.approx(1 * 25.4)
    ends = [s for s in lines if s.bounds[0] == s.bounds[2] == pytest.approx(float(inch("-59.5")))]
    assert sum(s.length for s in ends) == pytest.approx(2 * 0.75 * 25.4)


def test_what_is_behind_a_stile_is_not_drawn_solid(views):
    inside = (float(inch("-59.9")), float(inch("-58.6")))
    for trace in views["elevation"].lines:
        if trace.part.endswith("shelf-1") and trace.role != "hidden":
            for segment in trace.path:
                u0, _, u1, _ = segment.bounds
                assert not inside[0] < u0 < inside[1]
                assert not inside[0] < u1 < inside[1]


def test_a_saw_cut_is_fine_and_a_cap_is_not(views):
    elevation = views["elevation"]
    assert length(elevation, "fine", "mantel/fascia") == pytest.approx(2 * 36 * 25.4)
    assert length(elevation, "fine", "mantel/cap") == 0


def test_frames_put_the_wall_where_it_is_seen():
    # From the room: facing right (viewer on the -x side) the wall is on the left hand.
    facing_right = frame_of_cut("x", Fraction(0), -1)
    assert facing_right.to_view("y", Fraction(10)) == ("u", Fraction(10))
    assert frame_of_cut("x", Fraction(0), 1).to_view("y", Fraction(10)) == ("u", Fraction(-10))
    # Looked down on, the wall is at the top: what stands out of it lies lower on the sheet.
    assert frame_of_cut("z", Fraction(0), 1).to_view("y", Fraction(10)) == ("v", Fraction(-10))
    assert ELEVATION.to_view("y", Fraction(10)) is None
    assert ELEVATION.to_world("u", Fraction(3)) == ("x", 3)


def test_the_plan_lines_up_with_the_elevation(views, wall):
    plan, elevation = views["plan"], views["elevation"]
    assert (plan.box.u0, plan.box.u1) == (elevation.box.u0, elevation.box.u1)
    for one in plan.seen:
        box = box_of(wall.part(one.part).extent, ELEVATION)
        assert (one.box.u0, one.box.u1) == (box.u0, box.u1)


def test_caps_above_the_plan_are_overhead(views):
    overhead = {trace.part for trace in views["plan"].lines if trace.role == "overhead"}
    assert overhead == {"mantel", "cases/flanking/left", "cases/flanking/right"}


def test_a_window_cuts_lines_off_and_draws_no_border(views):
    detail = views["detail/mantel/mantel"]
    box = tuple(float(v) for v in (detail.box.u0, detail.box.v0, detail.box.u1, detail.box.v1))
    for trace in detail.lines:
        for segment in trace.path:
            u0, v0, u1, v1 = segment.bounds
            assert box[0] - 1e-6 <= u0
            assert u1 <= box[2] + 1e-6
            assert box[1] - 1e-6 <= v0
            assert v1 <= box[3] + 1e-6
            assert not (v0 == v1 == box[1])  # the slab goes on below: no line there
    assert {one.part for one in detail.seen if one.how == "cut"} == {
        "mantel/cap",
        "mantel/fascia",
        "surround/slab",
    }


def test_a_vault_is_one_arc(wall):
    # Springing at 84 in under a crown of 96 in over 120 in: R = (60^2 + 12^2) / 24 = 156 in, by hand.
    vaulted = replace(wall, room=replace(wall.room, spring=inch(84)))
    elevation = next(view for view in make_views(vaulted) if view.id == "elevation")
    arcs = [s for t in elevation.lines for s in t.path if isinstance(s, Arc)]
    assert len(arcs) == 1
    assert arcs[0].radius == pytest.approx(float(inch(156)))
    assert arcs[0].bounds[3] == pytest.approx(float(inch(96)))
    section = next(view for view in make_views(vaulted) if view.kind == "section")
    assert float(section.box.v1) == pytest.approx(float(inch(84)) + _vault_at(42), abs=1e-3)


def _vault_at(offset):
    # Height over the spring at an offset from the middle: sqrt(R^2 - x^2) - (R - h).
    return ((156**2 - offset**2) ** 0.5 - (156 - 12)) * 25.4


def test_alike_cuts_are_drawn_once(wall, views):
    assert views["section/cases/flanking/left"].also == ("cases/flanking/right",)
    apart = replace(wall, cuts=tuple(replace(cut, signature="") for cut in wall.cuts))
    assert len([v for v in make_views(apart) if v.kind == "section"]) == 2


def test_a_wall_without_cuts_still_has_plan_and_elevation(wall):
    bare = replace(wall, cuts=(), features=(), components=(), stations=())
    assert [view.id for view in make_views(bare)] == ["plan", "elevation", DRAWN_ALONE, "axonometric"]


def test_looking_from_the_other_side_mirrors_a_section(wall):
    def one(toward):
        cut = Cut("section", "S", "mantel", "x", Fraction(0), toward)
        views = make_views(replace(wall, cuts=(cut,), features=()))
        return next(view for view in views if view.kind == "section")

    right, left = one(-1), one(1)
    mirrored = sorted(
        (-r.bounds[2], r.bounds[1], -r.bounds[0], r.bounds[3]) for f in right.cuts for r in f.regions
    )
    assert mirrored == sorted(r.bounds for f in left.cuts for r in f.regions)


def test_grain_in_a_cut(views):
    grains = {face.part.rsplit("/", 1)[1]: face.grain for face in views["section/cases/flanking/left"].cuts}
    assert set(grains.values()) == {"end"}  # shelves and cap run along the wall
    plan = {face.part.rsplit("/", 1)[1]: face.grain for face in views["plan"].cuts}
    assert plan["side-1"] == "end"
    assert plan["slab"] is None


def test_stone_has_a_texture_where_it_shows(views):
    (texture,) = (t for t in views["elevation"].textures if t.material == "stone")  # slate
    assert texture.part == "surround/slab"
    assert sum(region.area for region in texture.regions) == pytest.approx(30 * 42 * 25.4**2)


def test_wood_shows_its_grain_in_the_elevation_and_where_it_is_drawn_alone(wall, views):
    grain = {t.part: t.grain for t in views["elevation"].textures if t.material == "wood"}
    by_key = {part.key: part for part in wall.parts}
    assert grain
    assert all(grain[key] == {"x": "u", "z": "v"}[by_key[key].grain] for key in grain)
    others = [t for view in views.values() if view.kind not in ("elevation", "part") for t in view.textures]
    assert all(t.material == "masonry" for t in others)


def test_tidy_joins_pieces_and_drops_what_lies_under_a_heavier_line():
    def line(a, b, role, part="p"):
        return Trace((Line((a, 0.0), (b, 0.0)),), role, part)

    (joined,) = tidy([line(0, 10, "edge"), line(10, 30, "edge"), line(25, 40, "edge")])
    assert joined.path == (Line((0, 0.0), (40, 0.0)),)
    found = tidy([line(0, 40, "fine"), line(10, 20, "cut", "q")])
    assert [(t.role, t.path[0].a[0], t.path[0].b[0]) for t in found] == [
        ("cut", 10, 20),
        ("fine", 0, 10),
        ("fine", 20, 40),
    ]
    assert len(tidy([line(0, 5, "edge"), Trace((Line((0, 0.01), (5, 0.01)),), "cut", "q")])) == 2


def test_tidy_treats_an_arc_as_a_circle():
    arc = Arc((0.0, 0.0), 10.0, 0.5, 1.0)
    (left,) = tidy([Trace((arc.part(0, 0.4),), "cut", "a"), Trace((arc,), "edge", "b")])[1:]
    assert left.path[0].length == pytest.approx(6.0)
    assert left.path[0].start == pytest.approx(0.9)


def test_clipping_an_arc_at_a_box():
    # A half circle of radius 10 above a line at 6: cut at x = ±8 (6-8-10 triangle).
    pieces = clip_segment(Arc((0.0, 0.0), 10.0, 0.0, 3.141592653589793), Box(-20.0, 6.0, 20.0, 20.0))
    (piece,) = pieces
    ends = sorted((piece.first, piece.last))
    assert ends[0] == pytest.approx((-8.0, 6.0))
    assert ends[1] == pytest.approx((8.0, 6.0))
    assert clip_segment(Line((0.0, 0.0), (10.0, 10.0)), Box(2.0, 0.0, 5.0, 20.0)) == (
        Line((2.0, 2.0), (5.0, 5.0)),
    )
    assert clip_segment(Line((0.0, 0.0), (1.0, 1.0)), Box(2.0, 2.0, 5.0, 5.0)) == ()


def test_a_ring_is_pointed_at_on_its_rim(wall):
    # A frame 40 x 20 round a hole of 36 x 16: a leader to its middle would point at nothing.
    from sheets.geometry.region import rectangle, region
    from sheets.geometry.solid import stack

    mm = [float(inch(n)) for n in (-20, 0, 20, 20)]
    hole = rectangle(*(float(inch(n)) for n in (-18, 2, 18, 18))).outer
    solid = stack("y", ((0.0, 25.4, (region(rectangle(*mm).outer, (hole,)),)),))
    e = wall.part("surround/slab").extent
    ring = replace(
        wall.part("surround/slab"),
        solid=solid,
        extent=replace(e, x0=inch(-20), x1=inch(20), y0=Fraction(0), y1=inch(1), z0=Fraction(0), z1=inch(20)),
    )
    back = replace(wall.part("mantel/cap"), key="back")
    f = back.extent
    back = replace(back, extent=replace(f, y0=Fraction(0), y1=inch("1/2"), z0=Fraction(0), z1=inch(19)))
    alone = replace(wall, parts=(ring, back), components=(), stations=(), features=(), cuts=())
    seen = {one.part: one for view in make_views(alone) if view.id == "elevation" for one in view.seen}
    u, v = (c / 25.4 for c in seen["surround/slab"].spot)
    assert not (-18 < u < 18 and 2 < v < 18)
    assert seen["back"].how == "visible"  # through the ring


def test_hidden_outlines_are_added_only_where_nothing_is_drawn(wall, views):
    from sheets.views.hidden import with_hidden

    elevation = views["elevation"]
    side = wall.part("cases/flanking/left/side-1")  # behind the stile, hidden ends drawn already in part
    slab = wall.part("surround/slab")  # all of it in sight
    assert with_hidden(elevation, (slab,)).lines == elevation.lines
    assert len(with_hidden(elevation, (side,)).lines) >= len(elevation.lines)
    moved = replace(side, solid=wall.part("mantel/fascia").solid, key="behind")
    bare = replace(elevation, lines=())
    assert length(with_hidden(bare, (moved,)), "hidden") == pytest.approx(2 * (36 + 6) * 25.4)


def test_the_plan_of_a_component_is_no_wider_than_a_little_beyond_it(wall):
    case = next(c for c in wall.components if c.kind.name == "case")
    at = (case.extent.z0 + case.extent.z1) / 2
    cut = Cut("plan", "PLAN OF CASE", case.key, "z", at)
    view = plan(wall, cut, "plan/case")
    assert view.subject == case.key
    assert 0 < case.extent.x0 - view.box.u0 < 200
    assert 0 < view.box.u1 - case.extent.x1 < 200
    assert all(view.box.u0 <= one.box.u0 and one.box.u1 <= view.box.u1 for one in view.seen)


def test_what_hangs_above_a_plan_is_seen_by_its_outline_alone(wall):
    case = next(c for c in wall.components if c.kind.name == "case")
    view = plan(wall, Cut("plan", "PLAN", "", "z", case.extent.z0 + 1), "plan")
    over = {one.part for one in view.seen if one.how == "overhead"}
    above = [p for p in wall.parts if p.maker == "shop" and p.extent.z0 >= case.extent.z0 + 1]
    assert over
    for part in above:
        own = [p.extent for p in above if p.assembly == part.assembly]
        rim = (min(e.x0 for e in own), max(e.x1 for e in own), min(e.y0 for e in own), max(e.y1 for e in own))
        e = part.extent
        on_rim = e.x0 == rim[0] or e.x1 == rim[1] or e.y0 == rim[2] or e.y1 == rim[3]
        assert (part.key in over) == on_rim
