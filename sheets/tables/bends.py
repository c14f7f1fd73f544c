"""How tightly wood and plywood bend. Exact mm for lengths."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from sheets.base.length import MM_PER_FOOT
from sheets.tables.read import Cited, cited, inches, rows


@dataclass(frozen=True, slots=True)
class BendRatio:
    """Least radius over thickness for a way of bending: the boldest and the careful figure."""

    method: str
    least: Fraction
    careful: Fraction
    cited: Cited


@dataclass(frozen=True, slots=True)
class PlywoodBend:
    """Least radius to which a dry sheet bends, across and along its face grain."""

    thickness: Fraction
    across: Fraction
    parallel: Fraction
    cited: Cited


@cache
def bend_ratios() -> tuple[BendRatio, ...]:
    """Return the ways of bending solid strips."""
    return tuple(
        BendRatio(row["method"], Fraction(row["least_ratio"]), Fraction(row["careful_ratio"]), cited(row))
        for row in rows("bend_ratios")
    )


def bend_ratio(method: str) -> BendRatio:
    """Return one way of bending by its name."""
    return next(ratio for ratio in bend_ratios() if ratio.method == method)


@cache
def plywood_bends() -> tuple[PlywoodBend, ...]:
    """Return the plywood radii, thinnest sheet first."""
    return tuple(
        PlywoodBend(
            inches(row["thickness_in"]),
            Fraction(row["across_ft"]) * MM_PER_FOOT,
            Fraction(row["parallel_ft"]) * MM_PER_FOOT,
            cited(row),
        )
        for row in rows("plywood_bends")
    )


def plywood_bend(thickness: Fraction) -> PlywoodBend | None:
    """Return the row of the next thicker sheet (never a thinner one), or None beyond the table."""
    return next((bend for bend in plywood_bends() if bend.thickness >= thickness), None)
