"""What was copied from the appliance's manual, every height measured from the top of the opening."""

from collections.abc import Iterable
from fractions import Fraction

from sheets.grammar.listing import HeightClearance, Listing, SideClearance
from sheets.model.fire import SILENT, BesideRow, Datum, ListedHearth, ListingRow, Manual, Service
from sheets.model.part import Extent


def manual_of(listing: Listing | None, opening: Extent, framing_face: Fraction) -> Manual:
    """Return what the copy says. framing_face: y of the face that the framing opening goes back from."""
    if listing is None:
        return SILENT
    up = _offsets(listing)
    facing, hearth, service = listing.facing, listing.hearth, listing.service
    return Manual(
        mantel=tuple(
            ListingRow(row.projection, row.above + up[row.datum], row.datum) for row in listing.mantel
        ),
        legs=_beside(listing.legs),
        side_trim=_beside(listing.side_trim),
        facing_above=facing.above if facing else None,
        facing_beside=facing.beside if facing else None,
        side_walls=listing.side_walls,
        ceiling=_height(listing.ceiling, up),
        in_front=listing.in_front,
        hearth=ListedHearth(hearth.front, hearth.beside, hearth.thickness) if hearth else None,
        television=_height(listing.television, up),
        service=Service(service.depth, service.beside, service.above) if service else None,
        framing=_framing(listing, opening, framing_face),
    )


def _offsets(listing: Listing) -> dict[Datum, Fraction]:
    # The grammar refuses a datum whose height is not given.
    zero = Fraction(0)
    return {"opening": zero, "unit": listing.unit_above or zero, "hood": listing.hood_above or zero}


def _height(said: HeightClearance | None, up: dict[Datum, Fraction]) -> Fraction | None:
    return said.above + up[said.datum] if said else None


def _beside(rows: Iterable[SideClearance]) -> tuple[BesideRow, ...]:
    return tuple(BesideRow(row.projection, row.beside) for row in rows)


def _framing(listing: Listing, opening: Extent, face: Fraction) -> Extent | None:
    """The opening in the framing, from the back of the facing."""
    framing = listing.framing
    if framing is None:
        return None
    low = opening.z0 - framing.below
    half = framing.width / 2
    return Extent(-half, half, face - framing.depth, face, low, low + framing.height)
