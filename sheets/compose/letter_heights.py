"""How high letters are on a sheet, by what they say: one table for the whole set. Heights of capitals, mm.

Source: ISO 3098 series 2.5, 3.5, 5; 3 mm (about 1/8 in) is the usual dimension text of US architectural
sheets (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass

from sheets.compose.ink import LEAST_TEXT
from sheets.compose.scales import Units

_SMALL_SHEET = 460.0
"""Sheets no longer than this (A3, 11 x 17 in, 12 x 18 in) are read from the hand, larger ones off a bench."""

_BENCH_FRACTIONS = 3.0  # with stacked fractions, on a large sheet
_SMALL_TITLE = 4.0  # of a view
_TITLE = 5.0

NUMBER_OVER_SHEET = 3.0
"""A view's number over its sheet."""
NUMBER_ALONE = 4.0
"""A view's number alone in its ring."""

A3_LENGTH = 420.0
"""The longer side of the sheet that is taken where none is named."""


@dataclass(frozen=True, slots=True)
class LetterHeights:
    """The named heights of a set."""

    dimension: float
    title: float  # of a view
    note: float = LEAST_TEXT  # notes on leaders and under titles, marks of parts, sheets in rings


def is_small(sheet_length: float) -> bool:
    """True for a sheet that is read from the hand, its longer side given, mm."""
    return sheet_length <= _SMALL_SHEET


def letter_heights(units: Units, sheet_length: float) -> LetterHeights:
    """The heights for a sheet whose longer side is given, mm.

    Stacked fractions are smaller than the text they stand in, so dimensions in inches are set larger where
    the sheet has room for it.
    """
    small = is_small(sheet_length)
    return LetterHeights(
        dimension=_BENCH_FRACTIONS if units == "inch" and not small else LEAST_TEXT,
        title=_SMALL_TITLE if small else _TITLE,
    )
