"""Solids, cutting and contact, against elementary volumes and shapely areas."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.geometry import box as flat_box

from sheets.geometry.contact import contact_area, intersection_volume, touching
from sheets.geometry.cutting import halve, section
from sheets.geometry.path import circle, loop_from_points
from sheets.geometry.region import rectangle
from sheets.geometry.solid import (
    add_prism,
    bounds,
    box,
    common,
    cut_box,
    cut_prism,
    extrude,
    mirrored_x,
    moved,
    stack,
    volume,
)

near = pytest.approx


def side_with_dado():
    """A 20 mm side with a dado 6 deep and 25 high, cut from its right face."""
    return cut_box(box(0, 20, 0, 300, 0, 2000), (14, 30, -1, 301, 500, 525))


def test_a_dado_takes_its_volume_and_a_shelf_fits_it():
    side, shelf = side_with_dado(), box(14, 800, 0, 300, 500, 525, axis="x")
    assert volume(side) == near(20 * 300 * 2000 - 6 * 300 * 25)
    assert len(side.slabs) == 3
    assert intersection_volume(box(0, 20, 0, 300, 0, 2000), shelf) == near(6 * 300 * 25)
    assert intersection_volume(side, shelf) == 0
    assert touching(side, shelf)
    assert contact_area(side, shelf) == near(25 * 300, rel=1e-6)  # the end grain, the largest of the three


def test_contact_needs_a_face_and_forgives_a_hair():
    a = box(0, 10, 0, 10, 0, 10)
    assert touching(a, box(10, 20, 0, 10, 0, 10))
    assert touching(a, box(10.005, 20, 0, 10, 0, 10))
    assert not touching(a, box(10.1, 20, 0, 10, 0, 10))
    assert not touching(a, box(10, 20, 10, 20, 0, 10))  # along an edge only
    assert not touching(a, box(10, 20, 10, 20, 10, 20))  # at a corner only


def test_mitred_returns_meet_on_the_mitre():
    front = extrude("z", loop_from_points(((0, 40), (200, 40), (160, 0), (40, 0))), 0, 30)
    left = extrude("z", loop_from_points(((0, 40), (40, 0), (40, -100), (0, -100))), 0, 30)
    assert intersection_volume(front, left) == near(0, abs=1e-6)
    assert contact_area(front, left) == near(40 * 30, rel=1e-3)  # the mitre seen along the wall


def test_volume_common_to_two_equal_crossed_cylinders():
    # Archimedes, The Method: 16/3 r^3
    upright, lying = extrude("z", circle((0, 0), 50), 0, 100), extrude("x", circle((0, 50), 50), -50, 50)
    assert intersection_volume(upright, lying) == near(16 / 3 * 50**3, rel=1e-9)


def test_equal_neighbours_are_one_slab_and_faults_are_refused():
    a = rectangle(0, 0, 1, 1)
    assert len(stack("z", ((0, 1, (a,)), (1, 2, (a,)))).slabs) == 1
    with pytest.raises(ValueError, match="thickness"):
        stack("z", ((1, 1, (a,)),))
    with pytest.raises(ValueError, match="below"):
        stack("z", ((0, 2, (a,)), (1, 3, (a,))))
    with pytest.raises(ValueError, match="nothing"):
        cut_box(box(0, 1, 0, 1, 0, 1), (-1, 2, -1, 2, -1, 2))


def test_mirror_negates_every_x_exactly():
    for axis in ("x", "y", "z"):
        part = cut_box(box(0.1, 20.3, 0, 300, 0, 2000, axis=axis), (14.7, 30, -1, 100, 500, 525))
        seen = mirrored_x(part)
        x0, x1, *rest = bounds(part)
        assert bounds(seen) == (-x1, -x0, *rest)
        assert volume(seen) == near(volume(part))
        assert mirrored_x(seen) == part


def test_moving_and_tongues():
    board = extrude("z", loop_from_points(((0, 0), (100, 0), (100, 20), (0, 20))), 0, 50)
    assert bounds(moved(board, 1, 2, 3)) == (1, 101, 2, 22, 3, 53)
    tongued = add_prism(board, rectangle(100, 6, 106, 14), 0, 50)
    assert volume(tongued) == near(100 * 20 * 50 + 6 * 8 * 50)
    assert len(tongued.slabs) == 1
    grooved = cut_prism(board, rectangle(0, 6, 7, 14), 10, 50)
    assert volume(grooved) == near(100 * 20 * 50 - 7 * 8 * 40)
    assert volume(common(tongued, moved(grooved, 100))) == near(6 * 8 * 10)


def test_a_cut_on_a_face_looks_to_the_asked_side():
    side = side_with_dado()
    assert len(section(side, "x", 14, side=+1)) == 2
    assert len(section(side, "x", 14, side=-1)) == 1
    assert section(side, "x", 20, side=+1) == ()
    assert section(side, "z", 500, side=+1) == (rectangle(0, 0, 14, 300),)
    assert section(side, "z", 500, side=-1) == (rectangle(0, 0, 20, 300),)
    assert section(side, "z", 2000, side=+1) == ()


def test_halving_on_a_face_keeps_all_or_nothing():
    part = box(0, 10, 0, 10, 0, 10)
    assert halve(part, "x", 0, +1) == part
    assert halve(part, "x", 10, +1) is None
    assert halve(part, "z", 10, -1) == part


coordinate = st.integers(-20, 20)
outline = st.lists(st.tuples(st.floats(0.3, 1.0)), min_size=4, max_size=8)


def prism(rays, axis, lo, hi, notch):
    from math import cos, sin

    points = [
        (30 * r * cos(2 * pi * k / len(rays)), 30 * r * sin(2 * pi * k / len(rays)))
        for k, (r,) in enumerate(rays)
    ]
    flat = Polygon(points)
    whole = extrude(axis, loop_from_points(points), lo, hi)
    middle = (2 * lo + hi) / 3
    x0, y0 = notch
    cutter = flat_box(x0, y0, x0 + 15, y0 + 15)
    left = flat.difference(cutter)
    solid = cut_prism(whole, rectangle(x0, y0, x0 + 15, y0 + 15), lo, middle)
    return solid, ((lo, middle, left), (middle, hi, flat))


@given(
    outline,
    st.sampled_from("xyz"),
    st.sampled_from("xyz"),
    st.tuples(coordinate, coordinate),
    st.floats(-25, 25),
)
@settings(max_examples=60, deadline=None)
def test_sections_and_halves_agree_with_shapely(rays, axis, plane, notch, at):
    at += 0.0137  # off every face: those have tests of their own
    solid, slabs = prism(rays, axis, -10.0, 23.0, notch)
    assert volume(solid) == near(sum((hi - lo) * flat.area for lo, hi, flat in slabs), rel=1e-9)
    found = sum(r.area for r in section(solid, plane, at))
    beyond = halve(solid, plane, at, +1)
    before = halve(solid, plane, at, -1)
    assert sum(volume(s) for s in (beyond, before) if s) == near(volume(solid), rel=1e-9)
    if plane == axis:
        assert found == near(sum(flat.area for lo, hi, flat in slabs if lo < at < hi), rel=1e-9)
        return
    others = [a for a in "xyz" if a != axis]
    if others[0] == plane:
        ray, keep = LineString(((at, -99), (at, 99))), flat_box(at, -99, 99, 99)
    else:
        ray, keep = LineString(((-99, at), (99, at))), flat_box(-99, at, 99, 99)
    assert found == near(
        sum((hi - lo) * flat.intersection(ray).length for lo, hi, flat in slabs), rel=1e-6, abs=1e-3
    )
    kept = sum((hi - lo) * flat.intersection(keep).area for lo, hi, flat in slabs)
    assert (volume(beyond) if beyond else 0) == near(kept, rel=1e-6, abs=1e-3)


@given(outline, outline, st.sampled_from("xyz"), st.sampled_from("xyz"), st.tuples(coordinate, coordinate))
@settings(max_examples=25, deadline=None)
def test_common_volume_agrees_with_thin_slices(one, other, axis, second, shift):
    """Against slices through both, each of them cut by shapely: midpoint rule, so to a few per mille."""
    a, _ = prism(one, axis, -10.0, 23.0, (0, 0))
    b, _ = prism(other, second, -15.0, 12.0, shift)
    b = moved(b, shift[0] / 4, 3, shift[1] / 4)
    steps, total = 400, 0.0
    for k in range(steps):
        z = -40 + 80 * (k + 0.5) / steps
        flats = []
        for s in (a, b):
            shapes = [
                Polygon(r.outer.flatten(), [h.flatten() for h in r.holes]) for r in section(s, "z", z)
            ]
            flats.append(shapes)
        total += sum(p.intersection(q).area for p in flats[0] for q in flats[1]) * 80 / steps
    assert intersection_volume(a, b) == near(total, rel=2e-2, abs=60)
