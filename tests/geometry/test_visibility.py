"""What is seen, held against a point-by-point computation that shares nothing with it but the solids.

The witness knows each solid as a union of convex bodies, each an intersection of half spaces. A point of an
edge is hidden if the ray from it to the viewer passes through a body. Where growing or shrinking all
bodies by a hair changes the answer, the point lies on an outline and is not asked about.
"""

import itertools
from math import cos, hypot, inf, pi, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.geometry.path import Arc, Line, Loop, Polyline, arc_through, circle, loop_from_points
from sheets.geometry.region import rectangle
from sheets.geometry.sight import (
    AXONOMETRIC,
    FROM_BELOW,
    FRONT,
    LEFT_SECTION,
    PLAN,
    RIGHT_SECTION,
    axonometric,
)
from sheets.geometry.solid import box, cut_box, extrude, mirrored_x, stack
from sheets.geometry.visibility import look

near = pytest.approx
SIGHTS = (FRONT, PLAN, LEFT_SECTION, RIGHT_SECTION, AXONOMETRIC, FROM_BELOW, axonometric(20, 35))
HAIR = 0.02
CLEAR = 1.0  # a ray against grown bodies starts this far off, so that it is clear of the skin it starts on


@pytest.mark.parametrize("sight", SIGHTS)
def test_every_sight_shows_the_wall_as_it_is_and_not_in_a_mirror(sight):
    m = np.array([sight.right, sight.up, sight.toward])
    assert m @ m.T == near(np.eye(3), abs=1e-15)
    assert np.linalg.det(m) == near(-1)  # the wall's frame is left-handed


def test_where_the_axes_point():
    assert (FRONT.right, FRONT.up, FRONT.toward) == ((1, 0, 0), (0, 0, 1), (0, 1, 0))
    assert (PLAN.right, PLAN.up, PLAN.toward) == ((1, 0, 0), (0, -1, 0), (0, 0, 1))
    assert (RIGHT_SECTION.right, RIGHT_SECTION.up, RIGHT_SECTION.toward) == (
        (0, 1, 0),
        (0, 0, 1),
        (-1, 0, 0),
    )
    assert (LEFT_SECTION.right, LEFT_SECTION.up, LEFT_SECTION.toward) == ((0, -1, 0), (0, 0, 1), (1, 0, 0))
    along = [hypot(AXONOMETRIC.right[k], AXONOMETRIC.up[k]) for k in range(3)]
    assert along == near([(2 / 3) ** 0.5] * 3)  # isometric: each axis shortened by sqrt(2/3)


# --- small scenes whose drawing is known


def lines(found, visible=True):
    return sorted(
        (*s.curve.a, *s.curve.b) for s in found if s.visible is visible and isinstance(s.curve, Line)
    )


def test_a_board_in_front_of_another():
    found = look([box(0, 100, 0, 20, 0, 50), box(50, 150, 20, 40, 10, 30)], FRONT)
    assert lines(found) == [
        (0, 0, 0, 50),
        (0, 0, 100, 0),
        (0, 50, 100, 50),
        (50, 10, 50, 30),
        (50, 10, 150, 10),
        (50, 30, 150, 30),
        (100, 0, 100, 10),
        (100, 30, 100, 50),
        (150, 10, 150, 30),
    ]
    assert lines(found, visible=False) == [(100, 10, 100, 30)]
    drops = {(*s.curve.a, *s.curve.b): s.drop for s in found}
    assert drops[(50, 10, 50, 30)] == near(20)
    assert drops[(0, 0, 100, 0)] == inf


def test_the_joint_of_flush_boards_is_one_line_without_a_step():
    found = look([box(0, 50, 0, 20, 0, 30), box(50, 90, 0, 20, 0, 30)], FRONT)
    (joint,) = [s for s in found if s.curve == Line((50, 0), (50, 30))]
    assert (joint.index, joint.visible, joint.drop, joint.depth) == (0, True, 0, 20)
    assert not [s for s in found if not s.visible]


def test_an_arch_stays_one_arc_and_is_split_only_where_hidden():
    straight = loop_from_points(((-80, 0), (-60, 0), (60, 0), (80, 0), (80, 50), (-80, 50))).segments
    arch = arc_through((-60, 0), (60, 0), 30)
    rail = extrude("y", Loop((straight[0], arch, *straight[2:])), 0, 20)
    (seen,) = [s.curve for s in look([rail], FRONT) if isinstance(s.curve, Arc)]
    assert (seen.centre, seen.radius) == (near((0, -45)), near(75))
    assert seen.length == near(arch.length)
    post = box(-10, 10, 20, 30, -20, 100)
    seen = [s.curve for s in look([rail, post], FRONT) if isinstance(s.curve, Arc) and s.visible]
    assert len(seen) == 2
    assert {round(abs(end[0]), 2) for a in seen for end in (a.first, a.last)} == {60, 10}
    hidden = [s.curve for s in look([rail, post], FRONT) if isinstance(s.curve, Arc) and not s.visible]
    assert sum(a.length for a in seen + hidden) == near(arch.length)


def test_an_arch_from_the_side_and_at_a_slant():
    straight = loop_from_points(((-80, 0), (-60, 0), (60, 0), (80, 0), (80, 50), (-80, 50))).segments
    rail = extrude("y", Loop((straight[0], arc_through((-60, 0), (60, 0), 30), *straight[2:])), 0, 20)
    assert {type(s.curve) for s in look([rail], RIGHT_SECTION)} == {Line}
    # the crown of the arch is where the soffit turns away: a hidden line at its height
    assert (0, 30, 20, 30) in lines(look([rail], RIGHT_SECTION), visible=False)
    assert any(isinstance(s.curve, Polyline) for s in look([rail], AXONOMETRIC))


def test_a_round_post_shows_its_two_outlines_and_no_joint():
    post = extrude("z", circle((0, 0), 25), 0, 100)
    assert lines(look([post], FRONT)) == [
        (-25, 0, -25, 100),
        (-25, 0, 25, 0),
        (-25, 100, 25, 100),
        (25, 0, 25, 100),
    ]
    rings = [s.curve for s in look([post], PLAN)]
    assert all(isinstance(r, Arc) for r in rings)
    assert sum(r.length for r in rings) == near(50 * pi)


def test_a_tangent_joint_gives_no_edge():
    eased = extrude(
        "z", loop_from_points(((0, 0), (100, 0), (100, 15, 0.41421356237309503), (95, 20), (0, 20))), 0, 30
    )
    fronts = lines(look([eased], FRONT, hidden=False))
    assert (95, 0, 95, 30) not in fronts
    assert fronts == [(0, 0, 0, 30), (0, 0, 100, 0), (0, 30, 100, 30), (100, 0, 100, 30)]


def test_flush_slabs_show_no_seam_and_nothing_shows_through_it():
    side = cut_box(
        box(0, 20, 0, 300, 0, 2000), (14, 30, -1, 250, 500, 525)
    )  # stopped dado, not to the front
    assert lines(look([side], FRONT)) == [
        (0, 0, 0, 2000),
        (0, 0, 20, 0),
        (0, 2000, 20, 2000),
        (20, 0, 20, 2000),
    ]
    dado = [(14, 500, 14, 525), (14, 500, 20, 500), (14, 525, 20, 525)]
    assert lines(look([side], FRONT), visible=False) == dado


def test_a_saw_cut_round_a_cap_is_two_lines_on_the_face():
    whole, inset = rectangle(0, 0, 200, 100), rectangle(6, 0, 194, 94)
    cap = stack("z", ((0, 10, (whole,)), (10, 13, (inset,)), (13, 30, (whole,))))
    found = look([cap], FRONT, hidden=False)
    cuts = [s for s in found if s.curve.a[1] == s.curve.b[1] in (10, 13)]
    assert sorted((s.curve.a, s.curve.b) for s in cuts) == [((0, 10), (200, 10)), ((0, 13), (200, 13))]
    assert [s.drop for s in cuts] == near([6, 6])
    assert (6, 10, 6, 13) in lines(found)


def test_occluders_hide_and_are_not_drawn():
    found = look([box(0, 100, 0, 20, 0, 50)], FRONT, occluders=[box(50, 150, 20, 40, 10, 30)])
    assert {s.index for s in found} == {0}
    assert lines(found, visible=False) == [(100, 10, 100, 30)]


def test_no_solids_no_lines():
    assert look([], FRONT) == ()


# --- the witness


class Body:
    """A convex body: all p with normals @ p <= reach."""

    def __init__(self, normals, reach):
        self.normals, self.reach = np.array(normals), np.array(reach)

    def stops(self, point, way, grown):
        """True if the ray from a point passes through the body, beyond its own skin."""
        slope = self.normals @ way
        room = self.reach + grown - self.normals @ point
        lo, hi = CLEAR if grown > 0 else 0.0, inf
        for s, r in zip(slope, room, strict=True):
            if abs(s) < 1e-12:
                if r <= 0:
                    return False
            elif s > 0:
                hi = min(hi, r / s)
            else:
                lo = max(lo, r / s)
        return hi - lo > HAIR


def block(x0, x1, y0, y1, z0, z1):
    eye = np.eye(3)
    return Body([*eye, *-eye], [x1, y1, z1, -x0, -y0, -z0])


def at(axis, p, q, s):
    return np.array({"x": (s, p, q), "y": (p, s, q), "z": (p, q, s)}[axis])


def make_block(x, y, z, w, d, h):
    around = (x, x + w, y, y + d, z, z + h)
    corners = [
        np.array((around[i], around[2 + j], around[4 + k])) for i in (0, 1) for j in (0, 1) for k in (0, 1)
    ]
    pairs = [
        (a, b) for n, a in enumerate(corners) for b in corners[n + 1 :] if np.count_nonzero(a != b) == 1
    ]
    return box(*around), [block(*around)], pairs


def make_rabbeted(x, y, z, w, d, h):
    """A block less its upper front half: two blocks; its edges are those of an L pulled along x."""
    y1, z1 = y + d, z + h
    ym, zm = y + d / 2, z + h / 2
    ell = [(y, z), (y1, z), (y1, zm), (ym, zm), (ym, z1), (y, z1)]
    pairs = [(at("x", *ell[k], end), at("x", *ell[k - 1], end)) for k in range(6) for end in (x, x + w)]
    pairs += [(at("x", *p, x), at("x", *p, x + w)) for p in ell]
    solid = cut_box(box(x, x + w, y, y1, z, z1), (x - 1, x + w + 1, ym, y1 + 1, zm, z1 + 1))
    return solid, [block(x, x + w, y, y1, z, zm), block(x, x + w, y, ym, z, z1)], pairs


def make_prism(x, y, z, w, d, h, sides=5, axis="y"):
    centre = {"x": (y, z, x), "y": (x, z, y), "z": (x, y, z)}[axis]
    points = [
        (centre[0] + w * cos(0.3 + 2 * pi * k / sides), centre[1] + d * sin(0.3 + 2 * pi * k / sides))
        for k in range(sides)
    ]
    lo, hi = centre[2], centre[2] + h
    normals, reach = [at(axis, 0, 0, 1), at(axis, 0, 0, -1)], [hi, -lo]
    for a, b in zip(points, points[1:] + points[:1], strict=True):
        n = np.array((b[1] - a[1], a[0] - b[0])) / hypot(b[0] - a[0], b[1] - a[1])
        normals.append(at(axis, n[0], n[1], 0))
        reach.append(n @ a)
    pairs = [
        (at(axis, *points[k], end), at(axis, *points[k - 1], end)) for k in range(sides) for end in (lo, hi)
    ]
    pairs += [(at(axis, *p, lo), at(axis, *p, hi)) for p in points]
    return extrude(axis, loop_from_points(points), lo, hi), [Body(normals, reach)], pairs


def distance(curve, p):
    points = curve.flatten(1e-3)
    best = inf
    for a, b in itertools.pairwise(points):
        ux, uy = b[0] - a[0], b[1] - a[1]
        t = min(1, max(0, ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / (ux * ux + uy * uy)))
        best = min(best, hypot(a[0] + ux * t - p[0], a[1] + uy * t - p[1]))
    return best


def compare(scene, sight):
    """Hold a drawing against the witness; returns counts of points in sight and hidden."""
    found = look([solid for solid, _, _ in scene], sight)
    way = np.array(sight.toward)
    bodies = [b for _, some, _ in scene for b in some]
    asked = [0, 0]

    def witness(point):
        if any(b.stops(point, way, -HAIR) for b in bodies):
            return True
        return None if any(b.stops(point, way, HAIR) for b in bodies) else False

    for index, (_, _, pairs) in enumerate(scene):
        for a, b in pairs:
            u, v = sight.place(tuple(b - a))
            if hypot(u, v) < 1e-6:
                continue
            for t in (0.137, 0.391, 0.618, 0.877):
                point = a + (b - a) * t
                hidden = witness(point)
                if hidden is None:
                    continue
                asked[hidden] += 1
                spot = sight.place(tuple(point))
                own = [s for s in found if hidden is False or s.index == index]
                drawn = [s for s in own if s.visible and distance(s.curve, spot) < 1e-3]
                along = [s for s in drawn if parallel(s.curve, (u, v))]
                if hidden:
                    if any(not witness(p) for p in over(pairs, spot, (u, v), sight)):
                        continue  # another edge of the same solid falls on it, nearer and perhaps in sight
                    assert not along, f"{index} {a} {b} {t}: hidden but drawn as seen"
                    dashed = [
                        s for s in found if distance(s.curve, spot) < 1e-3 and parallel(s.curve, (u, v))
                    ]
                    assert dashed, f"{index} {a} {b} {t}: hidden and not even dashed"
                else:
                    assert along, f"{index} {a} {b} {t}: in sight but not drawn"
    for s in found:
        middle = ((s.curve.a[0] + s.curve.b[0]) / 2, (s.curve.a[1] + s.curve.b[1]) / 2)
        ends = [(sight.place(tuple(a)), sight.place(tuple(b))) for a, b in scene[s.index][2]]
        assert any(
            p != q and distance(Line(p, q), middle) < 1e-3
            for p, q in ends
            if hypot(p[0] - q[0], p[1] - q[1]) > 1e-6
        )
    return asked


def over(pairs, spot, way, sight):
    """The points of edges that fall on a spot of the view, of those that run the same way there."""
    for a, b in pairs:
        p, q = sight.place(tuple(a)), sight.place(tuple(b))
        size = hypot(q[0] - p[0], q[1] - p[1])
        if size > 1e-6 and parallel(Line(p, q), way) and distance(Line(p, q), spot) < 1e-3:
            yield a + (b - a) * (
                ((spot[0] - p[0]) * (q[0] - p[0]) + (spot[1] - p[1]) * (q[1] - p[1])) / size**2
            )


def parallel(line, way):
    u, v = line.b[0] - line.a[0], line.b[1] - line.a[1]
    return abs(u * way[1] - v * way[0]) <= 1e-6 * hypot(u, v) * hypot(*way)


grid = st.integers(0, 8).map(lambda k: k * 10.0)
size = st.integers(1, 5).map(lambda k: k * 10.0)
free = st.floats(0, 80)
free_size = st.floats(5, 50)
maker = st.sampled_from((make_block, make_rabbeted, make_prism))
on_grid = st.lists(
    st.tuples(st.just(make_block), grid, grid, grid, size, size, size), min_size=2, max_size=7
)
anywhere = st.lists(
    st.tuples(maker, free, free, free, free_size, free_size, free_size), min_size=2, max_size=6
)


def apart(scene):
    """The solids of a scene that share no space with an earlier one: built things do not."""
    from sheets.geometry.contact import intersection_volume

    kept = []
    for item in scene:
        if all(intersection_volume(item[0], other[0]) < 1e-9 for other in kept):
            kept.append(item)
    return kept


@given(on_grid, st.sampled_from(SIGHTS))
@settings(max_examples=50, deadline=None)
def test_blocks_on_a_grid_touching_and_aligned_agree_with_the_witness(blocks, sight):
    compare(apart([make(*sizes) for make, *sizes in blocks]), sight)


@given(anywhere, st.sampled_from(SIGHTS))
@settings(max_examples=50, deadline=None)
def test_prisms_anywhere_agree_with_the_witness(parts, sight):
    compare(apart([make(*sizes) for make, *sizes in parts]), sight)


def make_bow(x, y, z, w, d, h, axis):
    """A segment of a circle pulled along an axis; the witness has it as the half spaces of many tangents."""
    p, q = {"x": (y, z), "y": (x, z), "z": (x, y)}[axis]
    s = {"x": x, "y": y, "z": z}[axis]
    arc = arc_through((p + w, q), (p, q), -0.4 * w)
    solid = extrude(axis, Loop((Line((p, q), (p + w, q)), arc)), s, s + h)
    normals, reach = [at(axis, 0, 0, 1), at(axis, 0, 0, -1), at(axis, 0, -1, 0)], [s + h, -s, -q]
    for k in range(301):
        spot = arc.point(k / 300)
        n = np.array((spot[0] - arc.centre[0], spot[1] - arc.centre[1])) / arc.radius
        normals.append(at(axis, n[0], n[1], 0))
        reach.append(n @ spot)
    spots = [(at(axis, *arc.point(t), end)) for t in (0.07, 0.31, 0.52, 0.83) for end in (s, s + h)]
    return solid, [Body(normals, reach)], spots


@given(
    st.lists(
        st.tuples(free, free, free, free_size, free_size, free_size, st.sampled_from("xyz")),
        min_size=1,
        max_size=3,
    ),
    st.lists(st.tuples(free, free, free, free_size, free_size, free_size), min_size=0, max_size=3),
    st.sampled_from(SIGHTS),
)
@settings(max_examples=50, deadline=None)
def test_arcs_agree_with_the_witness(bows, blocks, sight):
    scene = apart([make_bow(*b) for b in bows] + [make_block(*b) for b in blocks])
    found = look([solid for solid, _, _ in scene], sight)
    way = np.array(sight.toward)
    bodies = [b for _, some, _ in scene for b in some]
    for index, (solid, _, spots) in enumerate(scene):
        if not isinstance(spots[0], np.ndarray):
            continue
        across = abs(way["xyz".index(solid.axis)])
        for point in spots:
            spot = sight.place(tuple(point))
            if any(b.stops(point, way, -HAIR) for b in bodies):
                # an arc seen square on is known by its depth; at a slant two curves hardly cross on the spot
                kinds = Arc if across > 1 - 1e-9 else Polyline if across > 1e-9 else ()
                own = [s for s in found if s.index == index and s.visible and isinstance(s.curve, kinds)]
                own = [s for s in own if isinstance(s.curve, Polyline) or abs(s.depth - way @ point) < 1]
                assert all(distance(s.curve, spot) > 1e-3 for s in own)
            elif not any(b.stops(point, way, HAIR) for b in bodies):
                assert any(s.visible and distance(s.curve, spot) < 0.03 for s in found), (index, point)


@given(anywhere, st.sampled_from((FRONT, PLAN)))
@settings(max_examples=25, deadline=None)
def test_a_mirrored_scene_is_drawn_mirrored(parts, sight):
    solids = [solid for solid, _, _ in apart([make(*sizes) for make, *sizes in parts])]
    here = look(solids, sight)
    there = look([mirrored_x(s) for s in solids], sight)
    for visible in (True, False):
        ours = sorted(tuple(sorted([s.curve.a, s.curve.b])) for s in here if s.visible is visible)
        theirs = sorted(
            tuple(sorted([(0.0 - s.curve.a[0], s.curve.a[1]), (0.0 - s.curve.b[0], s.curve.b[1])]))
            for s in there
            if s.visible is visible
        )
        assert np.array(theirs) == near(np.array(ours), abs=1e-6)


@given(on_grid, st.sampled_from(SIGHTS))
@settings(max_examples=25, deadline=None)
def test_the_drawing_does_not_hang_on_the_order_of_the_parts(blocks, sight):
    solids = [solid for solid, _, _ in apart([make(*sizes) for make, *sizes in blocks])]
    lengths = [
        [
            sum(s.curve.length for s in look(order, sight) if s.visible is visible)
            for visible in (True, False)
        ]
        for order in (solids, solids[::-1])
    ]
    assert lengths[0] == near(lengths[1], abs=1e-2)


def test_the_witness_has_something_to_say():
    scene = [
        make_block(0, 0, 0, 100, 20, 100),
        make_block(33, 30, 21, 40, 10, 50),
        make_prism(60, -50, 61, 51, 32, 30),
    ]
    seen, hidden = compare(scene, axonometric(20, 35))
    assert seen > 40
    assert hidden > 20


def test_scenes_too_large_for_one_lot_of_faces_are_drawn_the_same(monkeypatch):
    solids = [
        box(x * 9.0, x * 9 + 7 + z % 3, y * 9.0, y * 9 + 5 + x, z * 9.0, z * 9 + 4 + y)
        for x in range(4)
        for y in range(4)
        for z in range(4)
    ]
    for sight in SIGHTS:
        drawings = []
        for lot in (3, 10**6):
            monkeypatch.setattr("sheets.geometry.visibility._FIRST_LOT", lot)
            drawings.append([(s.index, s.curve, s.visible, s.drop) for s in look(solids, sight)])
        assert drawings[0] == drawings[1]


def test_the_same_scene_gives_the_same_lines():
    scene = [box(k * 7.0, k * 7 + 5, 0, 10 + k, 0, 50 - k, axis="xyz"[k % 3]) for k in range(9)]
    assert look(scene, AXONOMETRIC) == look(list(scene), AXONOMETRIC)
    assert repr(look(scene, FRONT)) == repr(look(scene, FRONT))
