"""What a shelf of some depth carries."""

from __future__ import annotations

from fractions import Fraction

from sheets.model.settings import Checks
from sheets.tables.loads import newton_per_mm, shelf_load


def lasting_load(checks: Checks, depth: Fraction) -> float:
    """Return the load along a shelf that stays on it, N/mm: as the spec gives it, or what its use puts on it,
    once for each row that stands on a shelf so deep.
    """
    given = checks.given_load
    if given is not None:
        return newton_per_mm(given.weight, given.per)
    use = shelf_load(checks.load)
    return use.newton_per_mm * use.rows_on(depth)
