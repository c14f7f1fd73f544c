"""Hatch lines against lengths that can be counted and against shapely."""

import itertools
from math import hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, MultiLineString, Polygon
from shapely.geometry import box as flat_box

from sheets.geometry.hatching import LineFamily, grain_lines, hatch_lines, ring_lines
from sheets.geometry.path import circle, loop_from_points
from sheets.geometry.region import contains, polygon, rectangle, region

near = pytest.approx


def total(lines):
    return sum(s.length for s in lines)


def test_level_lines_in_a_rectangle_can_be_counted():
    found = hatch_lines([rectangle(0, 0, 100, 50)], [LineFamily(0, (0, 5), 10)])
    assert [(s.a, s.b) for s in found] == [((0, y), (100, y)) for y in (5, 15, 25, 35, 45)]


def test_a_hole_and_a_text_box_that_stands_out_stay_clear():
    plate = region(rectangle(0, 0, 100, 50).outer, [rectangle(40, 0.5, 60, 49.5).outer])
    found = hatch_lines(
        [plate], [LineFamily(0, (0, 5), 10)], holes=[rectangle(90, 0, 130, 20), rectangle(95, 8, 200, 18)]
    )
    spans = [(s.a, s.b) for s in found]
    assert spans[:4] == [((0, 5), (40, 5)), ((60, 5), (90, 5)), ((0, 15), (40, 15)), ((60, 15), (90, 15))]
    assert spans[-1] == ((60, 45), (100, 45))


def test_dashes_run_on_from_the_base_and_shift_from_line_to_line():
    found = hatch_lines([rectangle(0, 0, 20, 10)], [LineFamily(0, (0, 0.5), 5, (4, -2), 3)])
    assert [(s.a[0], s.b[0]) for s in found if s.a[1] == 0.5] == [(0, 4), (6, 10), (12, 16), (18, 20)]
    assert [(s.a[0], s.b[0]) for s in found if s.a[1] == 5.5] == [(0, 1), (3, 7), (9, 13), (15, 19)]


def test_dots_are_lines_without_length():
    found = hatch_lines([rectangle(0, 0, 11, 4)], [LineFamily(0, (1, 2), 5, (0, -3))])
    assert [s.a for s in found] == [(1, 2), (4, 2), (7, 2), (10, 2)]
    assert total(found) == 0


def test_the_length_of_fine_lines_is_the_area_over_their_spacing():
    found = hatch_lines([region(circle((3, 4), 50))], [LineFamily(37, (0, 0), 0.5)])
    assert total(found) * 0.5 == near(pi * 2500, rel=1e-3)


corner = st.tuples(st.integers(0, 12), st.integers(0, 12))


@given(
    st.lists(corner, min_size=3, max_size=8, unique=True), st.sampled_from([0, 45, 90, 135, 17.5]), corner
)
@settings(max_examples=60, deadline=None)
def test_hatching_agrees_with_shapely(corners, angle, base):
    flat = Polygon(corners).buffer(0)
    if flat.geom_type != "Polygon" or flat.area < 1:
        return
    shape = region(
        loop_from_points(list(flat.exterior.coords)[:-1]),
        [loop_from_points(list(h.coords)[:-1]) for h in flat.interiors],
    )
    origin = (base[0] + 0.123, base[1] + 0.456)
    found = hatch_lines([shape], [LineFamily(angle, origin, 1.0)], holes=[rectangle(4, 3, 9, 7)])
    rows = MultiLineString([LineString(((-40, k), (40, k))) for k in range(-40, 41)])
    rows = affinity.translate(affinity.rotate(rows, angle, origin=(0, 0)), *origin)
    wanted = rows.intersection(flat.difference(flat_box(4, 3, 9, 7)))
    assert total(found) == near(wanted.length, abs=1e-6)


@pytest.mark.parametrize("bad", [LineFamily(0, (0, 0), 0), LineFamily(0, (0, 0), 1, (0, 0))])
def test_patterns_that_never_end_are_refused(bad):
    with pytest.raises(ValueError, match=r"hatch lines|dash pattern"):
        hatch_lines([rectangle(0, 0, 5, 5)], [bad])


def test_rings_are_arcs_about_one_pith_inside_the_wood():
    board = polygon(((0, 0), (140, 0), (140, 19), (60, 19), (60, 12), (52, 12), (52, 19), (0, 19)))
    rings = ring_lines(board, 7, 4.0)
    assert len(rings) > 4
    assert len({r.centre for r in rings}) == 1
    for r in rings:
        for t in (0.01, 0.5, 0.99):
            assert contains(board, r.point(t))
    gaps = sorted({r.radius for r in rings})
    assert all(4 * 0.66 < b - a < 4 * 1.34 for a, b in itertools.pairwise(gaps))
    assert ring_lines(board, 7, 4.0) == rings
    assert ring_lines(board, 8, 4.0) != rings


def test_grain_runs_one_way_inside_the_wood():
    board = rectangle(0, 0, 900, 140)
    strokes = grain_lines(board, 0, 11, 12.0)
    assert len(strokes) > 10
    assert all(s.a[1] == near(s.b[1]) and 0 <= s.a[0] < s.b[0] <= 900 and 0 < s.a[1] < 140 for s in strokes)
    assert len({round(s.a[1], 6) for s in strokes}) == round(140 / 12)
    assert 0.2 < total(strokes) / (900 * round(140 / 12)) < 0.8
    upright = grain_lines(rectangle(0, 0, 140, 900), 90, 11, 12.0)
    assert all(hypot(s.b[0] - s.a[0], 0) < 1e-9 for s in upright)
    assert grain_lines(board, 0, 11, 12.0) == strokes
