"""The room round the wall: floor, walls and ceiling as thin bodies, cut away beyond what the drawing
shows."""

from fractions import Fraction
from functools import partial
from itertools import pairwise

from sheets.geometry.path import Loop, Segment, arc_through, line
from sheets.geometry.region import Region, rectangle, region
from sheets.geometry.solid import Solid, stack
from sheets.grammar.measure import arc_radius
from sheets.grammar.schema import Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Curve, Extent, Material, Part, Provenance
from sheets.model.purpose import NO_PURPOSE, Purpose
from sheets.model.wall import Component, Station
from sheets.model.wall import Room as RoomFacts
from sheets.resolve.built import Built, Origin, chain
from sheets.resolve.gather import piece
from sheets.resolve.materials import FLOORING, GYPSUM, Sizes
from sheets.resolve.middle import Middle, Span

BOARD = ("1/2", "12.5")
"""Gypsum board on the walls and the ceiling (common thickness)."""
FLOOR = ("3/4", "20")
DEPTH_BEYOND = ("12", "300")
"""How far in front of the foremost piece floor, side walls and ceiling are shown."""

_TO_THE_FIRE = {
    "floor": Purpose(fire="floor"),
    "wall-left": Purpose(fire="side wall"),
    "wall-right": Purpose(fire="side wall"),
}

ROOM = Kind("room", arrives="by others", rows=Rows(z="cases"), given=True)


def room_facts(spec: Spec) -> RoomFacts:
    """Return the room's sizes."""
    room = spec.room
    spring = room.ceiling.vault.spring if room.ceiling.vault else None
    doorway = (room.doorway.width, room.doorway.height) if room.doorway else None
    return RoomFacts(
        width=room.width,
        height=room.ceiling.height,
        spring=spring,
        doorway=doorway,
        out_of_plumb=room.out_of_plumb,
    )


def resolve_room(spec: Spec, origin: Origin, sizes: Sizes, front: Fraction, hole: Extent | None) -> Built:
    """Return the bodies of the room. front: y of the foremost piece; hole: what goes through the wall (the
    firebox, or the masonry around it)."""
    half, depth = spec.room.width / 2, front + sizes.of(DEPTH_BEYOND)
    height = spec.room.ceiling.height
    made_from = origin.made_from(("room",))
    component = Component(
        key="room",
        kind=ROOM,
        name="ROOM",
        extent=Extent(-half, half, Fraction(0), depth, Fraction(0), height),
        facts={"width": spec.room.width, "height": height},
        made_from=made_from,
    )
    through = hole if hole is not None and hole.y0 < 0 else None
    parts = (*_walls_and_floor(spec, made_from, sizes, depth, through), _ceiling(spec, origin, sizes, depth))
    return Built(parts=parts, components=(component,), stations=tuple(_stations(spec)))


def _walls_and_floor(
    spec: Spec, made_from: Provenance, sizes: Sizes, depth: Fraction, hole: Extent | None
) -> list[Part]:
    t, floor, zero = sizes.of(BOARD), sizes.of(FLOOR), Fraction(0)
    half, ceiling = spec.room.width / 2, spec.room.ceiling
    side = ceiling.vault.spring if ceiling.vault else ceiling.height
    back = min(-t, hole.y0) if hole else -t
    face = stack("y", ((-t, 0, (_wall_shape(spec, hole),)),))
    rows: tuple[tuple[str, str, Material, Extent, str, Solid | None], ...] = (
        ("wall", "Wall", GYPSUM, Extent(-half, half, -t, zero, zero, ceiling.height), "yxz", face),
        ("floor", "Floor", FLOORING, Extent(-half - t, half + t, back, depth, -floor, zero), "zyx", None),
        ("wall-left", "Side wall", GYPSUM, Extent(-half - t, -half, -t, depth, zero, side), "xyz", None),
        ("wall-right", "Side wall", GYPSUM, Extent(half, half + t, -t, depth, zero, side), "xyz", None),
    )
    room = partial(piece, maker="room", made_from=made_from)
    return [
        room(
            step,
            name,
            name.lower(),
            "room",
            material,
            where,
            axes,
            solid=solid,
            does=_TO_THE_FIRE.get(step, NO_PURPOSE),
        )
        for step, name, material, where, axes, solid in rows
    ]


def _wall_shape(spec: Spec, hole: Extent | None) -> Region:
    half, height = spec.room.width / 2, spec.room.ceiling.height
    vault = spec.room.ceiling.vault
    # An opening at the floor is a notch of the outline, not a hole in it.
    notch: list[tuple[Fraction, Fraction]] = []
    holes: tuple[Loop, ...] = ()
    if hole is not None and hole.z0 <= 0:
        notch = [(hole.x0, Fraction(0)), (hole.x0, hole.z1), (hole.x1, hole.z1), (hole.x1, Fraction(0))]
    elif hole is not None:
        holes = (rectangle(hole.x0, hole.z0, hole.x1, hole.z1).outer,)
    side = vault.spring if vault else height
    corners = [(-half, side), (-half, Fraction(0)), *notch, (half, Fraction(0)), (half, side)]
    segments: list[Segment] = [line(a, b) for a, b in pairwise(corners)]
    if vault:
        segments.append(arc_through(corners[0], corners[-1], height - side).reversed())
    else:
        segments.append(line(corners[-1], corners[0]))
    return region(Loop(tuple(segments)), holes)


def _ceiling(spec: Spec, origin: Origin, sizes: Sizes, depth: Fraction) -> Part:
    t, half, height = sizes.of(BOARD), spec.room.width / 2, spec.room.ceiling.height
    vault = spec.room.ceiling.vault
    made_from = origin.made_from(("room", "ceiling"))
    if vault is None:
        return piece(
            "ceiling",
            "Ceiling",
            "ceiling",
            "room",
            GYPSUM,
            Extent(-half - t, half + t, -t, depth, height, height + t),
            "zyx",
            maker="room",
            made_from=made_from,
            does=Purpose(fire="ceiling"),
        )
    rise = height - vault.spring
    radius = float(arc_radius(spec.room.width, rise))
    solid = _shell(half, vault.spring, rise, t, (-t, depth))
    return piece(
        "ceiling",
        "Vaulted ceiling",
        "ceiling",
        "room",
        GYPSUM,
        Extent(-half - t, half + t, -t, depth, vault.spring, height + t),
        "zyx",
        solid=solid,
        maker="room",
        curve=Curve(spec.room.width, rise, radius, "y", "underside"),
        made_from=made_from,
        does=Purpose(fire="ceiling"),
    )


def _shell(half: Fraction, spring: Fraction, rise: Fraction, t: Fraction, y: Span) -> Solid:
    """The vault as a shell of thickness t at the crown, its ends level over the side walls."""
    inner = arc_through((-half, spring), (half, spring), rise)
    # The outer arc starts over the outside of the side walls, at the same height: a shell that tapers a
    # little and stays within the room's box, rather than a concentric one whose ends would lean over the
    # walls.
    outer = arc_through((-half - t, spring), (half + t, spring), rise + t)
    a, b = (-half - t, spring), (half + t, spring)
    segments: tuple[Segment, ...] = (
        line(a, (-half, spring)),
        inner,
        line((half, spring), b),
        outer.reversed(),
    )
    return stack("y", ((*y, (region(Loop(segments)),)),))


def _stations(spec: Spec) -> list[Station]:
    half, ceiling = spec.room.width / 2, spec.room.ceiling
    made = [
        Station("x", -half, "overall", "room", "wall", verify=True),
        Station("x", half, "overall", "room", "wall", verify=True),
        Station("z", Fraction(0), "overall", "room", "height", "FLOOR"),
    ]
    if ceiling.vault:
        spring = ceiling.vault.spring
        made.append(Station("z", spring, "major", "room", "height", "SPRING OF VAULT", verify=True))
    made.append(Station("z", ceiling.height, "overall", "room", "height", "CEILING", verify=True))
    return made


def wall_stations(spec: Spec, middle: Middle, edges: list[Fraction]) -> tuple[Station, ...]:
    """Return the strings along the whole wall: components, and openings with the axis."""
    half = spec.room.width / 2
    made = chain("x", sorted({-half, half, *edges}), "major", "room", "components")
    if middle.opening_x:
        made += chain("x", (-half, *middle.opening_x, half), "major", "room", "openings")
        made += (Station("x", Fraction(0), "major", "room", "openings", "CL"),)
    return (*made, Station("x", Fraction(0), "major", "room", "axis", "CL"))
