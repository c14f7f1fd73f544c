"""The masonry around a firebox and the chimney over it, by others: what the wall's finish is cut away for."""

from fractions import Fraction
from itertools import pairwise

from sheets.geometry.region import Region
from sheets.geometry.solid import stack
from sheets.grammar.hearth import Chimney as SaidChimney
from sheets.grammar.schema import Spec
from sheets.model.fire import Chimney, MasonryWork
from sheets.model.part import Extent, Part
from sheets.model.purpose import Purpose
from sheets.resolve.built import Origin
from sheets.resolve.fire_plates import plate
from sheets.resolve.gather import piece
from sheets.resolve.materials import MASONRY_BREAST, Sizes
from sheets.resolve.middle import Middle

ASSUMED = ("12", "305")
"""Masonry about the firebox that is drawn where the spec does not say it: what lets the wall's finish end
against it (IRC R1001.11, exception 3)."""


def masonry_work(spec: Spec, origin: Origin, middle: Middle, sizes: Sizes) -> MasonryWork | None:
    """Return the masonry around the firebox, or None where none is built."""
    fireplace = spec.fireplace
    if fireplace is None or fireplace.appliance != "masonry" or not middle.opening_x or not middle.opening_z:
        return None
    said, assumed = fireplace.masonry, sizes.of(ASSUMED)
    half = middle.opening_x[1] + (said.beside if said else assumed)
    extent = Extent(
        -half,
        half,
        middle.opening_back - (said.behind if said else assumed),
        middle.slab_back,
        Fraction(0),
        min(middle.opening_z[1] + (said.above if said else assumed), spec.room.ceiling.height),
    )
    path = ("fireplace", "masonry")
    chimney = _chimney(said.chimney, spec, origin, extent.z1) if said and said.chimney else None
    return MasonryWork(extent, said is not None, chimney, origin.made_from(path))


def _chimney(said: SaidChimney, spec: Spec, origin: Origin, low: Fraction) -> Chimney:
    half, face, high = said.width / 2, -said.behind, spec.room.ceiling.height
    high = max(high, low + spec.precision)
    flue = None
    wall = said.flue_wall
    if wall is not None and wall < half and 2 * wall < said.depth:
        flue = Extent(-half + wall, half - wall, face - said.depth + wall, face - wall, low, high)
    return Chimney(
        Extent(-half, half, face - said.depth, face, low, high),
        said.stands == "outside",
        flue,
        origin.made_from(("fireplace", "masonry", "chimney")),
    )


def hole_for(work: MasonryWork | None, firebox: Extent | None) -> Extent | None:
    """Return what goes through the wall's finish: the masonry with its firebox, or an appliance's box."""
    if work is None or firebox is None or work.extent.y0 >= 0:
        return firebox
    body = work.extent
    return Extent(
        min(body.x0, firebox.x0),
        max(body.x1, firebox.x1),
        min(body.y0, firebox.y0),
        body.y1,
        Fraction(0),
        max(body.z1, firebox.z1),
    )


def masonry_parts(work: MasonryWork | None, firebox: Extent) -> tuple[Part, ...]:
    """Return the masonry behind the finished face of the wall, around the firebox."""
    if work is None or work.extent.y0 >= 0:
        return ()
    body = work.extent
    x, z, front = (body.x0, body.x1), (body.z0, body.z1), min(body.y1, Fraction(0))
    levels = sorted({body.y0, front, *(y for y in (firebox.y0, firebox.y1) if body.y0 < y < front)})
    rows: list[tuple[Fraction, Fraction, tuple[Region, ...]]] = []
    for a, b in pairwise(levels):
        within = firebox.y0 <= a and b <= firebox.y1
        hole = ((firebox.x0, firebox.x1), (firebox.z0, firebox.z1)) if within else (None, None)
        rows.append((a, b, plate(x, z, *hole)))
    made = piece(
        "masonry",
        "Masonry",
        "masonry",
        "fireplace",
        MASONRY_BREAST,
        Extent(*x, body.y0, front, *z),
        "yzx",
        solid=stack("y", rows),
        maker="others",
        notes=("BY OTHERS; ITS SIZES ARE THE MASON'S",),
        made_from=work.made_from,
        does=Purpose(fire="masonry"),
    )
    return (made,)
