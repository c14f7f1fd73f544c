"""Lines, arcs and loops against published and elementary values."""

import itertools
from math import asin, degrees, pi, radians, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.geometry.path import (
    MIRROR_FIRST,
    Arc,
    Line,
    Polyline,
    arc_angle,
    arc_from_bulge,
    arc_through,
    circle,
    loop_from_points,
    ordinates,
    radius_from_chord_rise,
    scaled,
    shifted,
    turned,
)

near = pytest.approx


@pytest.mark.parametrize(
    ("chord", "rise", "radius"),
    [
        (
            120,
            30,
            75,
        ),  # Hatfield, The American House Carpenter, art. 518: sqrt(5625 - 3600) = 45, 75 - 45 = 30
        (80, 11, 1721 / 22),  # millwork trade example, exact fraction of the intersecting chords theorem
        (30, 2.5, 46.25),  # furniture pattern example, CRC tables formula
        (12, 2, 10),  # 6-8-10 right triangle
        (60, 3, 151.5),  # 900 + 9 over 6
    ],
)
def test_radius_of_an_arch(chord, rise, radius):
    assert radius_from_chord_rise(chord, rise) == near(radius, rel=1e-12)
    arc = arc_through((0, 0), (chord, 0), rise)
    assert arc.radius == near(radius, rel=1e-12)
    assert arc.chord == near(chord)
    assert arc.rise == near(rise)
    assert arc.point(0.5) == near((chord / 2, rise))


def test_ordinates_of_hatfields_arch():
    # R = 75: heights over the chord are sqrt(75^2 - x^2) - 45; 75-60-45 and 75-45-60 are 3-4-5 triangles
    assert ordinates(120, 30, (0, 45, 60)) == near((30, 15, 0), abs=1e-12)
    # to four places, worked by hand from the same formula
    assert ordinates(120, 30, (10, 20, 30, 40, 50)) == near(
        (29.3303, 27.2842, 23.7386, 18.4429, 10.9017), abs=5e-5
    )


def test_angle_and_length_of_an_arch():
    # sin(theta / 2) = 60 / 75 = 4 / 5
    assert degrees(arc_angle(120, 30)) == near(2 * degrees(asin(0.8)))
    assert arc_through((0, 0), (120, 0), 30).length == near(139.094, abs=5e-4)


def test_a_positive_rise_is_above_a_chord_drawn_to_the_right():
    assert arc_through((-60, 0), (60, 0), 30).point(0.5)[1] == near(30)
    assert arc_through((60, 0), (-60, 0), 30).point(0.5)[1] == near(-30)
    assert arc_through((-60, 0), (60, 0), -30).point(0.5)[1] == near(-30)


def test_a_bulge_of_one_is_a_half_circle_to_the_right_of_travel():
    # DXF: bulge = tan(included angle / 4), positive counter-clockwise
    arc = arc_from_bulge((0, 0), (2, 0), 1)
    assert arc.sweep == near(pi)
    assert arc.point(0.5) == near((1, -1))


def test_bounds_of_an_arc_reach_its_crown():
    assert arc_through((-60, 0), (60, 0), 30).bounds == near((-60, 0, 60, 30))
    assert Arc((0, 0), 1, radians(-10), radians(200)).bounds == near((-1, -sin(radians(10)), 1, 1))
    assert Arc((0, 0), 1, radians(190), radians(-200)).bounds == near((-1, -sin(radians(10)), 1, 1))


def test_part_of_an_arc_is_of_the_same_circle():
    arc = arc_through((-60, 0), (60, 0), 30)
    piece = arc.part(0.25, 0.5)
    assert (piece.centre, piece.radius) == (arc.centre, arc.radius)
    assert piece.first == near(arc.point(0.25))
    assert piece.last == near((0, 30))


def test_mirroring_negates_exactly_and_keeps_arcs():
    arc = Arc((3, 4), 5, radians(20), radians(40))
    seen = arc.transformed(MIRROR_FIRST)
    assert seen.centre == (-3, 4)
    assert seen.sweep == -arc.sweep
    for t in (0, 0.3, 1):
        x, y = arc.point(t)
        assert seen.point(t) == near((-x, y))
    assert Line((0.1, 0), (0.7, 2)).transformed(MIRROR_FIRST) == Line((-0.1, 0), (-0.7, 2))


@given(st.floats(-3, 3), st.floats(0.2, 4), st.floats(-9, 9), st.booleans())
@settings(max_examples=30, deadline=None)
def test_a_similarity_moves_the_points_of_an_arc(angle, factor, shift, mirror):
    change = (MIRROR_FIRST if mirror else scaled(1)).then(turned(angle, (1, 2))).then(scaled(factor))
    change = change.then(shifted(shift, -shift))
    arc = Arc((2, -1), 3, 0.5, -2.5)
    moved = arc.transformed(change)
    assert moved.length == near(arc.length * factor)
    for t in (0, 0.4, 1):
        assert moved.point(t) == near(change(arc.point(t)), abs=1e-9)


@given(st.floats(-6, 6), st.floats(0.05, 6.2), st.floats(1, 5000))
@settings(max_examples=40, deadline=None)
def test_chords_stand_off_no_more_than_the_tolerance(start, sweep, radius):
    arc = Arc((0, 0), radius, start, sweep)
    points = arc.flatten(0.05)
    assert points[0] == arc.first
    assert points[-1] == arc.last
    for (ax, ay), (bx, by) in itertools.pairwise(points):
        assert radius - sqrt(((ax + bx) / 2) ** 2 + ((ay + by) / 2) ** 2) <= 0.05 + 1e-9


def test_reversed_paths_run_back():
    arc = Arc((0, 0), 2, 0.3, 1.1)
    assert arc.reversed().first == near(arc.last)
    assert arc.reversed().last == near(arc.first)
    assert Polyline(((0, 0), (1, 0), (1, 2))).reversed().first == (1, 2)
    assert Polyline(((0, 0), (1, 0), (1, 2))).length == 3


def test_area_of_loops_with_arcs():
    assert circle((5, 5), 2).area == near(4 * pi)
    # a circular segment: R^2 / 2 (theta - sin theta), on Hatfield's arch sin theta = 2 * 0.8 * 0.6
    segment = loop_from_points(((60, 0), (-60, 0)))
    arched = type(segment)((Line((-60, 0), (60, 0)), arc_through((-60, 0), (60, 0), 30).reversed()))
    assert arched.area == near(75**2 / 2 * (2 * asin(0.8) - 0.96))
    assert arched.reversed().area == near(-arched.area)
    # a square with half circles out on one side and in on another has the area of the square
    assert loop_from_points(((0, 0, 1), (2, 0, -1), (2, 2), (0, 2))).area == near(4)


def test_a_loop_refuses_points_that_coincide():
    with pytest.raises(ValueError, match="coincide"):
        loop_from_points(((0, 0), (0, 0), (1, 1)))
