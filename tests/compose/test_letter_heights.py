"""Letters are as high as what they say needs, on a large sheet and on a small one."""

from __future__ import annotations

import pytest
from made_views import INCH_MANNER

from sheets.base.notation import Run
from sheets.compose.letter_heights import letter_heights
from sheets.compose.placing.manner import manner
from sheets.drawing.lettering import fraction_layout

# Longer sides, mm: ANSI B 17 in, A3 420 (ISO 216), ARCH C 24 in, A1 841 (ISO 216).
SMALL, LARGE = (431.8, 420.0), (609.6, 841.0)


@pytest.mark.parametrize("length", LARGE)
def test_dimensions_in_inches_are_larger_where_there_is_room(length):
    assert letter_heights("inch", length).dimension == 3.0
    assert letter_heights("mm", length).dimension == 2.5


@pytest.mark.parametrize("length", SMALL)
def test_a_small_sheet_has_the_least_dimension_text(length):
    assert letter_heights("inch", length).dimension == 2.5


@pytest.mark.parametrize("length", [*SMALL, *LARGE])
def test_numerals_of_a_fraction_can_be_read_at_the_bench(length):
    # Common practice: numerals under about 1.8 mm (the least of ISO 3098) are misread off a print.
    how = manner("inch", INCH_MANNER.notation, length)
    digit = fraction_layout(Run("", 23, 32), how.text).digit
    assert digit >= 1.8
    assert digit >= 0.7 * how.text - 1e-9


def test_strings_lie_further_apart_where_their_text_is_higher():
    small, large = (manner("inch", INCH_MANNER.notation, s) for s in (SMALL[0], LARGE[0]))
    assert large.pitch - small.pitch == pytest.approx(large.text - small.text)
    assert large.first > small.first
