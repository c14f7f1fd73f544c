"""Clouds, measured: every change inside, no unchanged lettering inside or under the line, near ones
together."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon

from sheets.geometry.box import Box
from sheets.geometry.path import Arc
from sheets.revisions.marking.clouds import CLEAR, clouds

SHEET = Box(0.0, 0.0, 400.0, 300.0)


def corners(box):
    x0, y0, x1, y1 = box
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1), ((x0 + x1) / 2, (y0 + y1) / 2)]


def ink(cloud):
    """Points along the drawn line, 1/4 mm apart or so."""
    return [s.point(k / 24) for s in cloud.path for k in range(25)]


def encloses(cloud, point):
    return Polygon(ink(cloud)).contains(Point(point))


def inside(found, point):
    # Holes are loops of their own: inside means inside an odd number of loops.
    return sum(encloses(cloud, point) for cloud in found) % 2 == 1


def apart(a, b, by):
    return a[2] + by < b[0] or b[2] + by < a[0] or a[3] + by < b[1] or b[3] + by < a[1]


def test_one_change_has_one_cloud_that_hugs_it() -> None:
    (cloud,) = clouds([Box(100, 100, 140, 110)], [], SHEET)
    assert cloud.closed
    assert cloud.pen == "revision"
    assert all(isinstance(s, Arc) for s in cloud.path)
    xs, ys = zip(*ink(cloud), strict=True)
    assert min(xs) > 95
    assert max(xs) < 145
    assert min(ys) > 95
    assert max(ys) < 115
    assert all(encloses(cloud, p) for p in corners(Box(100, 100, 140, 110)))
    ends = [(s.first, s.last) for s in cloud.path]
    gaps = [
        abs(a[1][0] - b[0][0]) + abs(a[1][1] - b[0][1])
        for a, b in zip(ends, (*ends[1:], ends[0]), strict=True)
    ]
    assert max(gaps) < 0.01, "the line is connected"


def test_near_changes_share_a_cloud_and_far_ones_do_not() -> None:
    assert len(clouds([Box(100, 100, 110, 110), Box(115, 100, 125, 110)], [], SHEET)) == 1
    assert len(clouds([Box(100, 100, 110, 110), Box(160, 100, 170, 110)], [], SHEET)) == 2


@pytest.mark.parametrize(
    ("apart", "count"),
    # Each box has 1.6 mm of white round it, and what is 9 mm apart after that shares a cloud: 12.2 mm.
    [(12.1, 1), (12.3, 2)],
)
def test_large_changes_share_a_cloud_up_to_nine_millimetres_of_white(apart: float, count: int) -> None:
    first = Box(100, 100, 140, 140)
    assert len(clouds([first, Box(140 + apart, 100, 180 + apart, 140)], [], SHEET)) == count


@pytest.mark.parametrize(
    ("apart", "count"),
    # Two strips 20 x 2 mm, one over the other, each grown to 23.2 x 5.2. A cloud round both may enclose half
    # as much again and two scallops' squares of 6 mm: 23.2 (10.4 + g) <= 1.5 x 2 x 23.2 x 5.2 + 72 where the
    # white between is g <= 8.303, the strips 11.503 apart.
    [(11.4, 1), (11.6, 2)],
)
def test_small_changes_share_a_cloud_that_encloses_little_more(apart: float, count: int) -> None:
    low = Box(100, 100, 120, 102)
    assert len(clouds([low, Box(100, 102 + apart, 120, 104 + apart)], [], SHEET)) == count


def test_lettering_between_two_changes_keeps_them_apart() -> None:
    text = Box(111.5, 104, 113.5, 106)
    found = clouds([Box(100, 100, 108, 110), Box(117, 100, 125, 110)], [text], SHEET)
    assert not any(inside(found, p) for p in corners(text))


def test_lettering_inside_a_ring_of_changes_stays_outside_the_cloud() -> None:
    sides = ((100, 100, 160, 100), (160, 100, 160, 150), (100, 150, 160, 150), (100, 100, 100, 150))
    ring = [Box(*side) for side in sides]
    text = Box(120, 120, 140, 124)
    found = clouds(ring, [text], SHEET)
    assert not any(inside(found, p) for p in corners(text))
    for line in ring:
        assert all(inside(found, p) for p in corners(line))
    (whole,) = clouds(ring, [], SHEET)
    assert inside((whole,), (130, 125)), "with nothing in it, one cloud goes round the ring"


def test_a_cloud_stays_on_the_sheet() -> None:
    for cloud in clouds([Box(-20, 100, 30, 110)], [], SHEET):
        assert min(p[0] for p in ink(cloud)) >= 0


boxes = st.builds(
    lambda x, y, w, h: Box(float(x), float(y), float(x + w), float(y + h)),
    st.integers(20, 340),
    st.integers(20, 240),
    st.integers(0, 40),
    st.integers(0, 40),
)
words = st.builds(
    lambda x, y, w: Box(float(x), float(y), float(x + w), y + 2.5),
    st.integers(20, 340),
    st.integers(20, 240),
    st.integers(3, 30),
)


@given(st.lists(boxes, min_size=1, max_size=8), st.lists(words, max_size=6))
@settings(max_examples=80, deadline=None)
def test_changes_are_enclosed_and_lettering_is_not(changed, texts) -> None:
    # Lettering stands clear of the lines it does not belong to; the audit of the sheets holds that to be so.
    assume(all(apart(text, box, 1.0) for text in texts for box in changed))
    found = clouds(changed, texts, SHEET)
    for box in changed:
        assert all(inside(found, p) for p in corners(box)), box
    for text in texts:
        assert not inside(found, corners(text)[4]), text
        for cloud in found:
            assert all(not (text[0] < x < text[2] and text[1] < y < text[3]) for x, y in ink(cloud)), text
    assert CLEAR > 0


def test_a_changed_line_close_above_one_that_stayed_is_parted_from_it() -> None:
    """Two lines of one note, 0.1 mm apart: the upper one changed and the lower one did not."""
    changed, stayed = Box(10.0, 14.8, 60.0, 18.2), Box(10.0, 11.0, 38.0, 14.7)
    found = clouds([changed], [stayed], Box(0.0, 0.0, 200.0, 200.0))
    assert found
    lowest = min(segment.bounds[1] for cloud in found for segment in cloud.path)
    over_it = [
        s for cloud in found for s in cloud.path if s.bounds[0] < stayed[2] and s.bounds[2] > stayed[0]
    ]
    assert over_it
    assert min(s.bounds[1] for s in over_it if s.bounds[1] < 16.0) > stayed[3]
    assert lowest < changed[1]
