"""Hatches: strokes where the definition says, all inside the box's reach, none without end."""

import itertools
from math import atan2, degrees, hypot

import pytest

from sheets.drawing import hatches
from sheets.geometry.box import Box


def test_masonry_is_at_45_degrees_and_evenly_spaced():
    strokes = list(hatches.lines_over("masonry", Box(0.0, 0.0, 40.0, 20.0)))
    angles = {round(degrees(atan2(b[1] - a[1], b[0] - a[0])), 6) for a, b in strokes}
    assert angles == {45.0}  # common practice: masonry in section is hatched at 45 degrees
    across = sorted((a[1] - a[0]) / 2**0.5 for a, b in strokes)
    steps = {round(q - p, 6) for p, q in itertools.pairwise(across)}
    assert steps == {2.0}


@pytest.mark.parametrize("name", sorted(hatches.HATCHES))
def test_every_hatch_fills_a_box_at_any_angle(name):
    for angle in (0.0, 30.0, 90.0):
        strokes = list(
            hatches.lines_over(name, Box(100.0, 50.0, 130.0, 70.0), angle=angle, origin=(3.0, 4.0))
        )
        assert 4 < len(strokes) < 3000
        # Each corner region of the box is reached.
        for x, y in ((100, 50), (130, 50), (100, 70), (130, 70), (115, 60)):
            assert min(_distance((x, y), s) for s in strokes) < 8.0


def test_dashes_keep_their_lengths():
    family = hatches.HATCHES["brick face"].families[1]
    strokes = [
        s
        for s in hatches.lines_over("brick face", Box(0.0, 0.0, 60.0, 60.0))
        if abs(s[0][0] - s[1][0]) < 1e-9
    ]
    inner = [s for s in strokes if min(s[0][1], s[1][1]) > 5 and max(s[0][1], s[1][1]) < 55]
    assert inner
    for a, b in inner:
        assert hypot(b[0] - a[0], b[1] - a[1]) == pytest.approx(family.dashes[0])


def test_pitch_scales_the_spacing():
    near = len(list(hatches.lines_over("masonry", Box(0.0, 0.0, 100.0, 100.0))))
    far = len(list(hatches.lines_over("masonry", Box(0.0, 0.0, 100.0, 100.0), pitch=2.0)))
    assert near == pytest.approx(2 * far, abs=2)


def test_a_pitch_gone_wrong_ends():
    strokes = hatches.lines_over("panel", Box(0.0, 0.0, 1000.0, 1000.0), pitch=0.001)
    assert sum(1 for _ in strokes) == hatches.MOST_LINES


def _distance(point, stroke):
    (px, py), (ax, ay), (bx, by) = point, *stroke
    dx, dy = bx - ax, by - ay
    size = dx * dx + dy * dy
    t = 0.0 if size == 0 else max(0.0, min(1.0, ((px - ax) * dx + (py - ay) * dy) / size))
    return hypot(px - ax - t * dx, py - ay - t * dy)
