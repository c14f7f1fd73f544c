"""Blocks that cover a solid: exact along the axes, a fine stair along slopes and arcs."""

from __future__ import annotations

import math

import pytest

from sheets.geometry.blocks import blocks
from sheets.geometry.path import Loop, arc_through, line
from sheets.geometry.region import polygon, rectangle, region
from sheets.geometry.solid import box, cut_prism, extrude, volume

STEP = 1.0


def size(found: tuple[tuple[float, ...], ...]) -> float:
    return sum((b[1] - b[0]) * (b[3] - b[2]) * (b[5] - b[4]) for b in found)


def test_a_board_is_one_block() -> None:
    assert blocks(box(0, 10, 1, 4, 2, 3), STEP) == ((0, 10, 1, 4, 2, 3),)


def test_what_is_cut_along_the_axes_is_covered_exactly() -> None:
    cut = cut_prism(box(0, 100, 0, 20, 0, 10, axis="y"), rectangle(40, 0, 50, 5), 0, 20)
    found = blocks(cut, STEP)
    # 100 x 10 less 10 x 5, 20 deep.
    assert size(found) == pytest.approx(20 * (1000 - 50)) == pytest.approx(volume(cut))
    assert max(b[5] for b in found if b[0] < 45 < b[1]) == 10
    assert min(b[4] for b in found if b[0] < 45 < b[1]) == 5


def test_a_slope_is_covered_within_a_step() -> None:
    # A wedge 10 high whose width falls from 20 to 0: in each of 10 strips the stair is 2 wide by 1 high too
    # much by half.
    wedge = extrude("y", polygon(((0, 0), (20, 0), (0, 10))).outer, 0, 1)
    assert size(blocks(wedge, STEP)) == pytest.approx(100 + 10 * (2 * 1 / 2))


def test_an_arc_is_covered_from_outside_and_ends_where_it_ends() -> None:
    a, b = (0.0, 0.0), (80.0, 0.0)
    rise = 10.0
    shape = region(_segment(a, b, rise))
    solid = extrude("y", shape.outer, 0, 1)
    found = blocks(solid, STEP)
    radius = (40**2 + rise**2) / (2 * rise)
    half = math.asin(40 / radius)
    assert volume(solid) == pytest.approx(radius**2 * (half - math.sin(half) * math.cos(half)))
    assert volume(solid) < size(found) < volume(solid) + 80 * STEP
    assert max(block[5] for block in found) == pytest.approx(rise)


def _segment(a: tuple[float, float], b: tuple[float, float], rise: float) -> Loop:
    return Loop((line(a, b), arc_through(b, a, -rise)))
