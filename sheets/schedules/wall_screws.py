"""What screws hold a piece to the wall: how many studs are sure to be behind the piece itself, and how many
screws that makes. Schedules, notes and checks read it here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

Span = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class WallScrews:
    """The screws of one piece, or of pieces in one row. sure: studs, or places on blocking, that are behind
    it wherever the studs stand; screws: into those alone.
    """

    sure: int
    screws: int


def sure_studs(spans: Sequence[Span], spacing: Fraction) -> int:
    """Return how many studs some spans along the wall cover together wherever the first stud stands.

    A stud counts where its middle is within a span. What is least over all places of the first stud.
    """
    edges = sorted({edge % spacing for span in spans for edge in span})
    if not edges:
        return 0
    tried = [(a + b) / 2 for a, b in pairwise((*edges, edges[0] + spacing))]
    return min(sum(_behind(span, at, spacing) for span in spans) for at in tried)


def _behind(span: Span, first: Fraction, spacing: Fraction) -> int:
    return max(0, floor((span[1] - first) / spacing) - ceil((span[0] - first) / spacing) + 1)


def screwed_span(part: Part) -> Span:
    """Return where along the wall a piece takes a screw: no nearer to its ends, along its grain, than they
    split; upright pieces in all their width.
    """
    low, high = part.extent.x0, part.extent.x1
    end = min(figure("stability", "screw from an end").value, (high - low) / 2)
    return (low, high) if part.length_axis == "z" else (low + end, high - end)


def wall_screws(wall: Wall, pieces: Sequence[Part]) -> WallScrews:
    """Return the screws that surely hold pieces of one row to the wall."""
    checks, fasteners = wall.settings.checks, wall.settings.fasteners
    spans = [screwed_span(part) for part in pieces]
    if checks.blocking:
        sure = sum(places_along(high - low, checks.stud_spacing) for low, high in spans)
    else:
        sure = sure_studs(spans, checks.stud_spacing)
    return WallScrews(sure, sure * fasteners.screws_per_stud)


def places_along(run: Fraction, spacing: Fraction) -> int:
    """Return how many places hold a run: one at each end and none further apart than the spacing."""
    return max(2, ceil(run / spacing) + 1)
