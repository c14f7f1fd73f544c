"""The manner a set is drawn in: what follows from its units and is the same on every sheet. Paper mm."""

from __future__ import annotations

from dataclasses import dataclass

from sheets.base.notation import Notation
from sheets.compose.letter_heights import A3_LENGTH, LetterHeights, letter_heights
from sheets.compose.scales import Units
from sheets.compose.view_sizes import STRING


@dataclass(frozen=True, slots=True)
class Manner:
    """Units, how lengths are written, and the sizes that dimensions are drawn with."""

    units: Units
    notation: Notation
    heights: LetterHeights
    first: float = 10.0  # from the object to the first string (3/8 in), past the ends of centre lines
    pitch: float = 9.5  # from string to string at least
    gap: float = 1.5  # from the object to the extension line (1/16 in)
    past: float = 3.0  # of the extension line past the string (1/8 in)

    @property
    def text(self) -> float:
        """Height of a dimension's capitals."""
        return self.heights.dimension

    @property
    def ticks(self) -> bool:
        """Ticks on US sets, filled arrows on ISO ones."""
        return self.units == "inch"


def manner(units: Units, notation: Notation, sheet_length: float = A3_LENGTH) -> Manner:
    """The manner of a set on sheets whose longer side is given, mm.

    Strings lie as far apart as their text is high; metric text has no stacked fractions, so they may lie
    closer.
    """
    heights = letter_heights(units, sheet_length)
    pitch = heights.dimension + (STRING.inch_pitch if units == "inch" else STRING.mm_pitch)
    return Manner(units, notation, heights, first=STRING.first + 2 * heights.dimension, pitch=pitch)
