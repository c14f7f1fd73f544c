"""Standard scales, and which of them suit a kind of view.

Source: inch series as used on US architectural drawings (full size down to 1/4" = 1'-0"); mm series ISO 5455.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.views.view import ViewKind

Units = Literal["inch", "mm"]


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale: paper over full size, and how it is written under a view."""

    ratio: Fraction
    text: str


INCH: tuple[Scale, ...] = (
    Scale(Fraction(1), "FULL SIZE"),
    Scale(Fraction(1, 2), '6" = 1\'-0"'),
    Scale(Fraction(1, 4), '3" = 1\'-0"'),
    Scale(Fraction(1, 8), '1 1/2" = 1\'-0"'),
    Scale(Fraction(1, 12), '1" = 1\'-0"'),
    Scale(Fraction(1, 16), '3/4" = 1\'-0"'),
    Scale(Fraction(1, 24), '1/2" = 1\'-0"'),
    Scale(Fraction(1, 32), '3/8" = 1\'-0"'),
    Scale(Fraction(1, 48), '1/4" = 1\'-0"'),
)
METRIC: tuple[Scale, ...] = tuple(Scale(Fraction(1, n), f"1:{n}") for n in (1, 2, 5, 10, 20, 50))

# Largest and smallest ratio that make sense for a kind of view. Smallest: 1/4" for plans and elevations
# (VA 06 20 00), 3" for details as a rule; a section below 3/4" no longer shows how a case is made (common
# practice), but a tall wall on a small sheet has nothing else, so it may go down to 1/2".
_RANGE: dict[ViewKind, tuple[Fraction, Fraction]] = {
    "elevation": (Fraction(1, 10), Fraction(1, 50)),
    "plan": (Fraction(1, 10), Fraction(1, 50)),
    "section": (Fraction(1, 4), Fraction(1, 50)),
    "detail": (Fraction(1), Fraction(1, 12)),
    "part": (Fraction(1, 4), Fraction(1, 50)),
    "axonometric": (Fraction(1, 10), Fraction(1, 50)),
}
WANTED: dict[ViewKind, Fraction] = {"detail": Fraction(1, 5), "part": Fraction(1, 20)}
"""A detail is wanted at 3" (1:5) or larger, a piece by itself at 3/4" (1:20), where a dado still shows as two
lines; smaller only where no sheet of the set could hold it."""


def series(units: Units) -> tuple[Scale, ...]:
    """The standard series of a set, largest first."""
    return INCH if units == "inch" else METRIC


def sensible(kind: ViewKind, units: Units) -> tuple[Scale, ...]:
    """The scales of the series that suit a kind of view, largest first."""
    largest, smallest = _RANGE[kind]
    return tuple(s for s in series(units) if smallest <= s.ratio <= largest)


def is_standard(ratio: Fraction, units: Units) -> bool:
    """True for a ratio of the series."""
    return any(s.ratio == ratio for s in series(units))


def bar_steps(ratio: Fraction, units: Units) -> tuple[Fraction, int, str]:
    """Length of one step of a graphic scale bar (full size, mm), the number of steps, and the unit's name.

    The bar is the longest of round steps that stays under about 60 mm on paper.
    """
    if units == "mm":
        rounds = [Fraction(n) for n in (5, 10, 20, 50, 100, 200, 250, 500, 1000)]
    else:
        inch = Fraction(127, 5)
        rounds = [inch * n for n in (Fraction(1, 4), Fraction(1, 2), 1, 2, 3, 6, 12, 24)]
    fitting = [r for r in rounds if r * ratio * 4 <= 44]
    step = fitting[-1] if fitting else rounds[0]
    if units == "mm":
        return step, 4, "mm"
    return step, 4, "ft" if step * 4 % (Fraction(127, 5) * 12) == 0 else "in"
