"""Strings stop only at what a view shows, and measure nothing twice for it."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817
from itertools import pairwise

from sheets.annotate.intent import Annotated, DimString, Gap
from sheets.annotate.shown import between_what_shows
from sheets.geometry.path import Line
from sheets.views.view import ExactBox, Trace, View


def string(name: str, *cuts: int) -> DimString:
    gaps = tuple(Gap(F(a), F(b), F(0), F(0)) for a, b in pairwise(cuts))
    return DimString(name, "v", "left", 0, gaps)


def test_gaps_joined_over_a_line_that_is_not_drawn_repeat_no_other_string() -> None:
    corners = [(0.0, 0.0), (80.0, 0.0), (80.0, 25.0), (0.0, 25.0), (0.0, 0.0)]
    lines = tuple(Trace((Line(a, b),), "outline", "shelf") for a, b in pairwise(corners))
    view = View("detail/shelf", "detail", "A SHELF", "", None, ExactBox(F(0), F(80), F(0), F(25)), lines)
    strings = (string("profile", 0, 10, 25), string("layers", 0, 25))
    found = between_what_shows(Annotated(view, strings=strings), {})
    assert [(g.a, g.b) for s in found.strings for g in s.gaps] == [(0, 25)]
