"""The bays of a case: from the spacing that was asked for to clear heights on the grid that add up
exactly."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import snap
from sheets.grammar.schema import Graduated, Ratio


@dataclass(frozen=True, slots=True)
class Bays:
    """Clear heights from the bottom up. fault: why they cannot be laid out, or empty."""

    heights: tuple[Fraction, ...]
    leftover: Fraction = Fraction(0)
    placed: str = ""
    fault: str = ""

    def is_equal(self, bay: int) -> bool:
        """Return whether this bay is one of the equal series: at least two, and more than of any other
        height."""
        counted = Counter(self.heights)
        best = max(counted.values(), default=0)
        return best > 1 and counted[self.heights[bay]] == best


def lay_bays(clear: Fraction, count: int, spacing: object, grid: Fraction) -> Bays:
    """Return count + 1 bays that take `clear` exactly: the interior height less the shelves, mm."""
    n = count + 1
    if clear <= 0 or clear / n < grid:
        return Bays((), fault="the shelves leave no height between them")
    if isinstance(spacing, tuple):
        return _listed(clear, n, spacing, grid)
    if isinstance(spacing, Graduated):
        low = (clear + spacing.graduated * count * n / 2) / n
        return _from_lowest(clear, [low - k * spacing.graduated for k in range(n)], grid)
    if isinstance(spacing, Ratio):
        if spacing.ratio <= 0:
            return Bays((), fault="a ratio is above zero")
        weights = [spacing.ratio ** (count - k) for k in range(n)]
        total = sum(weights, Fraction(0))
        return _from_lowest(clear, [clear * w / total for w in weights], grid)
    heights, leftover = _even(clear, n, grid)
    return Bays(heights, leftover, "in the lowest bay")


def _listed(clear: Fraction, n: int, spacing: tuple[object, ...], grid: Fraction) -> Bays:
    if len(spacing) != n:
        return Bays((), fault=f"{n} bays are wanted and {len(spacing)} are listed")
    fixed = [bay for bay in spacing if isinstance(bay, Fraction)]
    fills = n - len(fixed)
    rest = clear - sum(fixed, Fraction(0))
    if not fills:
        return Bays(tuple(fixed)) if rest == 0 else Bays((), fault="the bays that are listed do not add up")
    if rest / fills < grid:
        return Bays((), fault="the bays that are listed leave nothing to fill")
    shares, leftover = _even(rest, fills, grid)
    given = iter(shares)
    return Bays(
        tuple(bay if isinstance(bay, Fraction) else next(given) for bay in spacing),
        leftover,
        "in the lowest bay that fills",
    )


def _from_lowest(clear: Fraction, wanted: list[Fraction], grid: Fraction) -> Bays:
    """Land every bay but the lowest on the grid; the lowest takes the rest, where a joiner hides it."""
    upper = [snap(height, grid) for height in wanted[1:]]
    lowest = clear - sum(upper, Fraction(0))
    if lowest <= 0 or any(height <= 0 for height in upper):
        return Bays((), fault="the bays shrink to nothing")
    return Bays((lowest, *upper), lowest - snap(wanted[0], grid), "in the lowest bay")


def _even(total: Fraction, n: int, grid: Fraction) -> tuple[tuple[Fraction, ...], Fraction]:
    """Split evenly on the grid; up a case there is no symmetry to keep, so one bay, the lowest, takes what
    is left."""
    each = snap(total / n, grid)
    lowest = total - (n - 1) * each
    if lowest <= 0:
        each = snap(total / n, grid, "down")
        lowest = total - (n - 1) * each
    return (lowest, *((each,) * (n - 1))), lowest - each
