"""What a manual's copy asks of a projection, and what it does not say."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from sheets.checks.finding import Finding, about
from sheets.checks.mechanics.fireside import named
from sheets.model.fire import BesideRow, ListingRow
from sheets.model.part import Part
from sheets.model.wall import Opening, Wall
from sheets.tables.read import Cited

MANUAL = Cited("the appliance's manual, as copied by the user", "not seen")


def by_manual(wall: Wall, opening: Opening) -> bool:
    """Return whether the copied manual judges: of a listed appliance, or by `codes: manual`."""
    return opening.listed or wall.settings.codes.body == "manual"


def required_height(rows: tuple[ListingRow, ...], projection: Fraction) -> Fraction | None:
    """Return how far above the opening a projection must be, mm, by the next stricter row; None beyond the
    last.

    A row that asks more height for less projection than the one that applies is taken as well: the stricter
    governs.
    """
    return _stricter(((row.projection, row.above) for row in rows), projection)


def required_beside(rows: tuple[BesideRow, ...], projection: Fraction) -> Fraction | None:
    """Return how far beside the opening a projection must be, mm, in the same way; None beyond the last."""
    return _stricter(((row.projection, row.beside) for row in rows), projection)


def silent(
    opening: Opening, rule: str, word: str, what: str, parts: Iterable[Part], *, cure: str
) -> tuple[Finding, ...]:
    """Return the warning that the copy does not say a thing, naming every piece it concerns; nothing where it
    concerns none.

    word: its key in the listing.
    """
    concerned = tuple(parts)
    if not concerned:
        return ()
    return (
        about(
            rule,
            "warning",
            f"the manual's copy does not say {what}; not judged for that: {named(concerned)}",
            *concerned,
            made_from=replace(opening.made_from, path=("fireplace", "listing", word)),
            cure=cure,
            cited=MANUAL,
        ),
    )


def _stricter(pairs: Iterable[tuple[Fraction, Fraction]], projection: Fraction) -> Fraction | None:
    rows = tuple(pairs)
    covering = [most for most, _ in rows if most >= projection]
    if not covering:
        return None
    return max(distance for most, distance in rows if most <= min(covering))
