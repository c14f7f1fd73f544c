"""The opening and what others set round it: firebox, enclosure, the appliance's frame."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from sheets.geometry.solid import stack
from sheets.grammar.schema import Fireplace, Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Extent, Part, Provenance
from sheets.model.purpose import Purpose
from sheets.model.wall import Component, Opening, Station
from sheets.resolve.built import Built, Origin, chain
from sheets.resolve.fire_plates import plate
from sheets.resolve.gather import piece
from sheets.resolve.manual import manual_of
from sheets.resolve.masonry import masonry_parts, masonry_work
from sheets.resolve.materials import ENCLOSURE, FIREBOX, FRAMING, HUNG, MASONRY_BREAST, Sizes
from sheets.resolve.middle import Middle

LINING = ("1", "25")
"""Thickness that the firebox is drawn with; the appliance's drawing governs."""


def firebox_extent(spec: Spec, middle: Middle, sizes: Sizes) -> Extent | None:
    """Return the box of the firebox, its lining counted, or None without a fireplace."""
    if middle.opening_x is None or middle.opening_z is None:
        return None
    lining = sizes.of(LINING)
    widest = spec.room.width / 2
    if middle.enclosure and middle.mantel:
        widest = max(middle.mantel.half, middle.surround_x[1] if middle.surround_x else Fraction(0))
    side = min(lining, widest - middle.opening_x[1])
    top = lining
    if middle.mantel:
        top = min(lining, middle.mantel.layers_bottom - middle.opening_z[1])
    back = min(middle.opening_back, middle.slab_back)
    return Extent(
        middle.opening_x[0] - side,
        middle.opening_x[1] + side,
        back - lining,
        middle.slab_back,
        max(Fraction(0), middle.opening_z[0] - lining),
        middle.opening_z[1] + top,
    )


FIREPLACE = Kind("fireplace", arrives="by others", rows=Rows(y="middle", z="middle"), given=True)


def resolve_fireplace(
    spec: Spec, origin: Origin, middle: Middle, sizes: Sizes, covered: tuple[bool, bool], side: Fraction
) -> Built:
    """Return the opening, and firebox, enclosure and appliance frame. covered: whether a case covers the
    enclosure's left and right side; side: thickness of the mantel's side that covers it where none does."""
    box = firebox_extent(spec, middle, sizes)
    enclosure = _enclosure(spec, origin, middle, box, covered, side) if middle.enclosure else ()
    if spec.fireplace is None or box is None or middle.opening_x is None or middle.opening_z is None:
        return Built(parts=enclosure)
    extent = Extent(*middle.opening_x, middle.opening_back, middle.face, *middle.opening_z)
    masonry = masonry_work(spec, origin, middle, sizes)
    opening = replace(_opening(spec.fireplace, origin, extent, middle.slab_back), masonry=masonry)
    component = Component(
        key="fireplace",
        kind=FIREPLACE,
        name="FIREPLACE OPENING",
        extent=extent,
        made_from=opening.made_from,
        facts={
            "width": extent.size("x"),
            "height": extent.size("z"),
            "sill": extent.z0,
            "appliance": spec.fireplace.appliance,
        },
    )
    hung = _hung(spec.fireplace, origin, middle)
    return Built(
        parts=(
            *enclosure,
            _firebox(box, middle, sizes.of(LINING), opening.made_from),
            *masonry_parts(masonry, box),
            *hung,
            *_appliance_frame(spec, origin, middle),
        ),
        components=(component,),
        stations=(*_stations(extent), *(station for part in hung for station in _hung_stations(part.extent))),
        openings=(opening,),
    )


def _firebox(box: Extent, middle: Middle, lining: Fraction, made_from: Provenance) -> Part:
    x, z = (box.x0, box.x1), (box.z0, box.z1)
    rows = [(box.y0, box.y0 + lining, plate(x, z, None, None))]
    ring = plate(x, z, middle.opening_x, middle.opening_z)
    if ring and box.y1 > box.y0 + lining:
        rows.append((box.y0 + lining, box.y1, ring))
    return piece(
        "firebox",
        "Firebox",
        "firebox",
        "fireplace",
        FIREBOX,
        box,
        "yzx",
        solid=stack("y", rows),
        maker="others",
        notes=("BY OTHERS; APPLIANCE'S MANUAL GOVERNS",),
        made_from=made_from,
        does=Purpose(fire="firebox"),
    )


def _stations(opening: Extent) -> tuple[Station, ...]:
    zero = Fraction(0)
    return (
        *chain("x", (opening.x0, opening.x1), "major", "fireplace", "opening"),
        Station("x", zero, "major", "fireplace", "opening", "CL"),
        Station("z", zero, "major", "fireplace", "opening", "FLOOR"),
        Station("z", opening.z0, "major", "fireplace", "opening", "SILL", verify=True),
        Station("z", opening.z1, "major", "fireplace", "opening", "TOP OF OPENING", verify=True),
        *chain("y", (opening.y0, opening.y1), "minor", "fireplace", "opening"),
    )


def _opening(said: Fireplace, origin: Origin, extent: Extent, facing_back: Fraction) -> Opening:
    return Opening(
        extent=extent,
        appliance=said.appliance,
        manual=manual_of(said.listing, extent, facing_back),
        made_from=origin.made_from(("fireplace", "opening")),
    )


def enclosure_half(middle: Middle) -> Fraction:
    """Return half the width of the enclosure and what covers its sides."""
    mantel = middle.mantel.half if middle.mantel else Fraction(0)
    return max(mantel, middle.surround_x[1] if middle.surround_x else Fraction(0))


def _enclosure(
    spec: Spec,
    origin: Origin,
    middle: Middle,
    box: Extent | None,
    covered: tuple[bool, bool],
    side: Fraction,
) -> tuple[Part, ...]:
    assert middle.mantel is not None
    half = enclosure_half(middle)
    x = (-half + (0 if covered[0] else side), half - (0 if covered[1] else side))
    z = (Fraction(0), middle.mantel.layers_bottom)
    levels = {Fraction(0), middle.slab_back}
    if box:
        levels |= {level for level in (box.y0, box.y1) if 0 < level < middle.slab_back}
    ordered = sorted(levels)
    rows = []
    for a, b in pairwise(ordered):
        inside = box is not None and box.y0 <= a and b <= box.y1
        shapes = (
            plate(x, z, (box.x0, box.x1), (box.z0, box.z1)) if inside and box else plate(x, z, None, None)
        )
        rows.append((a, b, shapes))
    front = middle.slab_back
    if middle.surround_x and middle.face > middle.slab_back and middle.surround_z:
        beside = plate((-half, half), z, middle.surround_x, middle.surround_z)
        whole = middle.surround_x[1] >= half and middle.surround_z[0] <= 0 and middle.surround_z[1] >= z[1]
        if not whole:
            rows.append((middle.slab_back, middle.face, beside))
            front = middle.face
    if not rows:
        return ()
    masonry = spec.fireplace is not None and spec.fireplace.appliance == "masonry"
    wide = (-half, half) if front > middle.slab_back else x
    made = piece(
        "enclosure",
        "Enclosure",
        "enclosure",
        "fireplace" if spec.fireplace else "mantel",
        MASONRY_BREAST if masonry else ENCLOSURE if spec.fireplace else FRAMING,
        Extent(*wide, Fraction(0), front, *z),
        "yzx",
        solid=stack("y", rows),
        maker="others",
        notes=("BY OTHERS, TO SUIT THE APPLIANCE AND ITS CLEARANCES" if spec.fireplace else "BY OTHERS",),
        made_from=origin.made_from(("fireplace",) if spec.fireplace else ("mantel",)),
        does=Purpose(fire="masonry" if masonry else "enclosure" if spec.fireplace else ""),
    )
    return (made,)


def _hung(said: Fireplace, origin: Origin, middle: Middle) -> tuple[Part, ...]:
    """The screen or the picture above: on the wall, or on what stands before it."""
    hung = said.hung
    if hung is None:
        return ()
    half, back = hung.width / 2, middle.enclosure
    if middle.mantel and hung.bottom >= middle.mantel.top:
        back = Fraction(0)
    made = piece(
        "hung",
        hung.what.capitalize(),
        hung.what,
        "fireplace",
        HUNG,
        Extent(-half, half, back, back + hung.depth, hung.bottom, hung.bottom + hung.height),
        "yzx",
        maker="others",
        notes=("BY OTHERS",),
        made_from=origin.made_from(("fireplace", "hung")),
        does=Purpose(fire="electronics"),
    )
    return (made,)


def _hung_stations(box: Extent) -> tuple[Station, ...]:
    return (
        *chain("x", (box.x0, box.x1), "minor", "fireplace", "hung"),
        *chain("z", (Fraction(0), box.z0, box.z1), "minor", "fireplace", "hung"),
    )


def _appliance_frame(spec: Spec, origin: Origin, middle: Middle) -> tuple[Part, ...]:
    assert spec.fireplace is not None
    frame = spec.fireplace.frame
    if frame is None or middle.opening_x is None or middle.opening_z is None:
        return ()
    half = middle.opening_x[1] + frame.width
    low = max(middle.opening_z[0] - frame.width, middle.hearth_top)
    high = middle.opening_z[1] + frame.width
    # As its maker makes it, even where it does not fit: the check of the opening tells what is in its way.
    shapes = plate((-half, half), (low, high), middle.opening_x, middle.opening_z)
    if not shapes:
        return ()
    y0, y1 = middle.face, middle.face + frame.projection
    made = piece(
        "frame",
        "Appliance frame",
        "appliance frame",
        "fireplace",
        FIREBOX,
        Extent(-half, half, y0, y1, low, high),
        "yzx",
        solid=stack("y", ((y0, y1, shapes),)),
        maker="others",
        notes=("BY OTHERS, WITH THE APPLIANCE",),
        made_from=origin.made_from(("fireplace", "frame")),
        does=Purpose(fire="trim"),
    )
    return (made,)
