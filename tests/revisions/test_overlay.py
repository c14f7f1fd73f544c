"""Lines compared however they are split; before and after laid over each other, told apart without colour."""

from __future__ import annotations

import itertools
from fractions import Fraction
from math import hypot, pi
from pathlib import Path

import pytest
from hypothesis import given as given_examples
from hypothesis import strategies as st

from sheets.base.stopwatch import Stopwatch
from sheets.commands.comparison import bare_sets, compared
from sheets.commands.given import given
from sheets.drawing.items import DrawingSet, Stroke, Viewport
from sheets.drawing.pens import style
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line
from sheets.revisions.marking.before_after import ADDED, REMOVED, SAME, overlaid
from sheets.revisions.marking.linework import Piece, less, pieces
from tests.commands.shelf import SPEC


def line(a, b, pen="edge") -> Piece:
    return Piece(Line(a, b), pen, "")


def test_a_line_drawn_in_two_pieces_is_the_same_line() -> None:
    whole = [line((0, 0), (100, 50))]
    halves = [line((60, 30), (0, 0)), line((60, 30), (100, 50))]
    assert less(whole, halves) == ()
    assert less(halves, whole) == ()


def test_what_is_left_is_the_stretch_that_is_not_there() -> None:
    (rest,) = less([line((0, 0), (100, 0))], [line((20, 0), (-5, 0)), line((100, 0), (70, 0))])
    assert rest.segment.bounds == pytest.approx(Box(20, 0, 70, 0))


def test_another_pen_or_a_line_beside_is_another_line() -> None:
    assert len(less([line((0, 0), (9, 0))], [line((0, 0), (9, 0), "hidden")])) == 1
    assert len(less([line((0, 0), (9, 0))], [line((0, 0.4), (9, 0.4))])) == 1


def test_arcs_are_compared_by_the_turn_they_cover() -> None:
    whole = [Piece(Arc((5, 5), 10, 0.0, pi), "edge", "")]
    parts = [Piece(Arc((5, 5), 10, pi, -pi / 2), "edge", ""), Piece(Arc((5, 5), 10, 0.0, pi / 3), "edge", "")]
    (rest,) = less(whole, parts)
    assert isinstance(rest.segment, Arc)
    assert (rest.segment.start, rest.segment.sweep) == pytest.approx((pi / 3, pi / 6))
    assert less(parts, whole) == ()


coordinates = st.integers(-2000, 2000)


@given_examples(
    coordinates, coordinates, coordinates, coordinates, st.lists(st.floats(0.05, 0.95), max_size=4)
)
def test_any_line_covers_itself_however_it_is_cut(ax, ay, bx, by, cuts) -> None:
    a, b = (float(ax), float(ay)), (float(bx), float(by))
    if hypot(bx - ax, by - ay) < 10:
        return
    spots = [0.0, *sorted(cuts), 1.0]
    at = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for t in spots]
    parts = [line(p, q) for p, q in itertools.pairwise(at) if p != q]
    assert less([line(b, a)], parts) == ()
    assert less(parts, [line(a, b)]) == ()


def test_a_view_moved_on_its_sheet_or_at_another_scale_is_the_same() -> None:
    def placed(scale: Fraction, x: float, y: float) -> Viewport:
        s = float(scale)
        path = (Line((x, y), (x + 500 * s, y)), Line((x + 500 * s, y), (x + 500 * s, y + 300 * s)))
        return Viewport(
            "elevation",
            "1",
            "E",
            scale,
            "",
            (x, y),
            Box(0, 0, 9, 9),
            Box(0, 0, 9, 9),
            (Stroke(path, "outline"),),
        )

    one, other = pieces(placed(Fraction(1, 12), 100.3, 80.1)), pieces(placed(Fraction(1, 16), 33.9, 7.7))
    assert less(one, other) == ()
    assert less(other, one) == ()


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> DrawingSet:
    """The hall shelf before and after it got another shelf, laid over each other."""
    home: Path = tmp_path_factory.mktemp("overlay")
    for name, count in (("old.yaml", 1), ("new.yaml", 2)):
        (home / name).write_text(SPEC.replace("count: 1", f"count: {count}"), "utf-8")
    old, new = (given(str(home / name)) for name in ("old.yaml", "new.yaml"))
    watch = Stopwatch()
    found = compared(old, new, watch)
    before, after, _ = bare_sets(found, old, new, watch)
    return overlaid(before, after, "What changed.\n  a shelf was added")


def test_the_three_are_told_apart_in_grey_print() -> None:
    removed, added, same = (style(pen, "elevation") for pen in (REMOVED, ADDED, SAME))
    assert removed.dash
    assert not added.dash
    assert not same.dash
    assert added.width >= 2 * same.width
    assert added.width >= 2 * removed.width
    assert same.grey - added.grey >= 0.4
    assert same.grey - removed.grey >= 0.4


def test_each_view_that_changed_has_a_sheet_with_all_three(laid: DrawingSet) -> None:
    (first, *others) = laid.sheets
    assert "shelf was added" in " ".join(getattr(item, "plain", "") for item in first.items)
    by_view = {i.id: i for sheet in others for i in sheet.items if isinstance(i, Viewport)}
    assert "elevation" in by_view
    pens = {i.pen for i in by_view["elevation"].items if isinstance(i, Stroke)}
    assert {REMOVED, ADDED, SAME} <= pens
    for sheet in others:
        for view in (i for i in sheet.items if isinstance(i, Viewport)):
            x0, y0, x1, y1 = view.box
            assert x0 >= 0
            assert y0 >= 0
            assert x1 <= sheet.width
            assert y1 <= sheet.height
