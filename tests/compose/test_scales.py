"""The standard series."""

from __future__ import annotations

from fractions import Fraction as F  # noqa: N817

import pytest

from sheets.compose.scales import bar_steps, is_standard, sensible, series


@pytest.mark.parametrize(
    ("text", "ratio"),
    # Inches on paper to a foot: 1/4" is 1/48, 3" is 1/4 (arithmetic).
    [
        ('3" = 1\'-0"', F(1, 4)),
        ('1 1/2" = 1\'-0"', F(1, 8)),
        ('1" = 1\'-0"', F(1, 12)),
        ('3/4" = 1\'-0"', F(1, 16)),
        ('1/2" = 1\'-0"', F(1, 24)),
        ('3/8" = 1\'-0"', F(1, 32)),
        ('1/4" = 1\'-0"', F(1, 48)),
    ],
)
def test_inch_scales_say_what_they_are(text, ratio):
    assert {s.text: s.ratio for s in series("inch")}[text] == ratio


def test_metric_series_is_that_of_iso_5455():
    # ISO 5455 reductions as far as woodwork needs them: 1:2, 1:5, 1:10, 1:20, 1:50.
    assert [s.text for s in series("mm")] == ["1:1", "1:2", "1:5", "1:10", "1:20", "1:50"]


def test_other_ratios_are_not_standard():
    assert not is_standard(F(1, 7), "inch")
    assert not is_standard(F(1, 24), "mm")


def test_elevations_are_never_below_a_quarter_inch():
    # VA 06 20 00: plans and elevations at 1/4" or larger.
    assert min(s.ratio for s in sensible("elevation", "inch")) == F(1, 48)


@pytest.mark.parametrize("units", ["inch", "mm"])
def test_scale_bars_fit_under_a_title(units):
    for scale in series(units):
        step, count, _ = bar_steps(scale.ratio, units)
        assert 12 <= float(step * count * scale.ratio) <= 60
