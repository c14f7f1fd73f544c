"""Sag, moment and section of beams. Any one set of units: N and mm here, pounds and inches as well.

Sources: Wood Handbook chapter 9, equation 9-2 and table 9-1 (bending coefficients); AWC Design Aid 6, beam
formulas.
"""

from __future__ import annotations

from typing import Literal

Ends = Literal["simple", "fixed", "propped", "two spans", "cantilever"]

# Greatest sag is w L^4 / (EI) times this. Two equal spans, both loaded, sag as a propped one by symmetry.
SAG_UNIFORM: dict[Ends, float] = {
    "simple": 5 / 384,
    "fixed": 1 / 384,
    "propped": 1 / 185,
    "two spans": 1 / 185,
    "cantilever": 1 / 8,
}


def sag_uniform(load: float, span: float, modulus: float, inertia: float, ends: Ends = "simple") -> float:
    """Return the greatest sag of a beam under a uniform load per length."""
    return SAG_UNIFORM[ends] * load * span**4 / (modulus * inertia)


def inertia_of_board(breadth: float, thickness: float) -> float:
    """Return the second moment of area of a rectangle about its own middle."""
    return breadth * thickness**3 / 12


def span_for_sag_ratio(load: float, modulus: float, inertia: float, ratio: float) -> float:
    """Return the longest simple span whose sag is the span over `ratio`."""
    return float((384 * modulus * inertia / (5 * load * ratio)) ** (1 / 3))


def thickness_for_sag_ratio(load: float, span: float, modulus: float, breadth: float, ratio: float) -> float:
    """Return the least thickness of a board on a simple span that sags by the span over `ratio`."""
    inertia = 5 * load * span**3 * ratio / (384 * modulus)
    return float((12 * inertia / breadth) ** (1 / 3))


def sag_at(fraction: float) -> float:
    """Return the sag of a simple, uniformly loaded beam at a fraction of its span, as a part of the
    greatest.
    """
    x = fraction
    return 3.2 * (x - 2 * x**3 + x**4)
