"""The arithmetic of boxes, held against shapely's and against numbers found by hand."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from sheets.geometry.box import Box, around, around_points

_HALVES = st.integers(-8, 8).map(lambda k: k / 2)  # exact in floats, so that touching sides do touch


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    x0, y0 = draw(_HALVES), draw(_HALVES)
    return Box(x0, y0, x0 + draw(st.integers(1, 12)) / 2, y0 + draw(st.integers(1, 12)) / 2)


@given(boxes(), boxes())
def test_boxes_stand_to_each_other_as_shapely_says(a: Box, b: Box) -> None:
    p, q = shapely.box(*a), shapely.box(*b)
    assert a.touches(b) == p.intersects(q)
    assert a.meets(b) == a.overlaps(b) == (p.intersection(q).area > 0)
    assert a.holds(b) == p.covers(q)
    assert a.gap(b) == pytest.approx(p.distance(q))
    assert tuple(a.joined(b)) == tuple(around((a, b))) == p.union(q).bounds
    shared = a.common(b)
    assert (shared is None) == (not p.intersects(q))
    if shared is not None:
        assert tuple(shared) == p.intersection(q).bounds


def test_sizes_of_a_box() -> None:
    box = Box(1.0, 2.0, 4.0, 8.0)
    assert (box.width, box.height, box.area, box.middle) == (3.0, 6.0, 18.0, (2.5, 5.0))
    assert box.grown(0.5) == (0.5, 1.5, 4.5, 8.5)
    assert box.moved(-1.0, 2.0) == (0.0, 4.0, 3.0, 10.0)


def test_clear_is_counted_on_both_sides_of_it() -> None:
    one, other = Box(0.0, 0.0, 1.0, 1.0), Box(3.0, 0.0, 4.0, 1.0)  # 2 apart
    assert one.meets(other, 2.01)
    assert not one.meets(other, 2.0)
    assert one.holds_point((1.5, 0.5), 0.5)
    assert not one.holds_point((1.5, 0.5), 0.49)


def test_nothing_has_no_box_around_it() -> None:
    assert around_points([(3.0, 1.0), (2.0, 5.0)]) == (2.0, 1.0, 3.0, 5.0)
    with pytest.raises(ValueError, match="unpack"):
        around([])
    with pytest.raises(ValueError, match="unpack"):
        around_points([])
