"""Which pen an edge is drawn with, from the step in depth across it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import inf

from sheets.geometry.path import Line, Polyline, Segment
from sheets.geometry.sight import Sighted
from sheets.model.part import Part
from sheets.views.view import ExactBox, LineRole

# Steps in depth, mm, that a drafter tells apart with the pen; common practice, not a standard.
OUTLINE_STEP_MM = 350.0  # deeper than a case: one thing stands clear of what is behind it
STEP_MM = 15.0  # a board's thickness or more
FLUSH_MM = 0.6  # faces meet in one plane: a joint
_INSIDE_MM = 0.05  # nearer to the border of a part than this is its border


def role_seen(piece: Sighted, own: ExactBox, part: Part) -> LineRole | None:
    """Return the role of a visible edge of a part that covers `own` in the view, None for an edge not drawn.

    A groove, a saw cut and a flush joint are fine; the border of a part is an edge even at a small step.
    Boards joined side by side show one line a joint: at the scale of a whole wall the lines of a V are one.
    """
    if part.does.member == "board" and piece.drop < STEP_MM:
        return None if lies_inside(piece, own) else "fine"
    if piece.drop == inf or piece.drop >= OUTLINE_STEP_MM:
        return "outline"
    if piece.drop >= STEP_MM:
        return "step"
    if piece.drop < FLUSH_MM or lies_inside(piece, own):
        return "fine"
    return "edge"


def role_beyond(piece: Sighted, own: ExactBox) -> LineRole:
    """Return the role of a visible edge behind a cut: lighter than what is cut, joints lightest."""
    return "fine" if piece.drop < FLUSH_MM or (piece.drop < STEP_MM and lies_inside(piece, own)) else "beyond"


def segments(piece: Sighted) -> Iterator[Segment]:
    """Yield what is seen as lines and arcs."""
    curve = piece.curve
    if isinstance(curve, Polyline):
        for a, b in pairwise(curve.points):
            yield Line(a, b)
    else:
        yield curve


def lies_inside(piece: Sighted, own: ExactBox) -> bool:
    """Return whether an edge runs within what its part covers, and not along the border of it."""
    u0, v0, u1, v1 = piece.curve.bounds
    level, plumb = v1 - v0 <= _INSIDE_MM, u1 - u0 <= _INSIDE_MM
    if level and _on_border(v0, own.v0, own.v1):
        return False
    return not (plumb and _on_border(u0, own.u0, own.u1))


def _on_border(at: float, low: Fraction, high: Fraction) -> bool:
    return min(abs(at - float(low)), abs(at - float(high))) <= _INSIDE_MM
