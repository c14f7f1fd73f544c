"""The room round the wall: floor, walls and ceiling as thin bodies, cut away beyond what the drawing
shows."""

from fractions import Fraction
from itertools import pairwise

from sheets.geometry.path import Line, Loop, Segment, arc_through
from sheets.geometry.region import Region, rectangle, region
from sheets.geometry.solid import Solid, stack
from sheets.grammar.measure import arc_radius
from sheets.grammar.schema import Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Curve, Extent, Part
from sheets.model.wall import Component
from sheets.model.wall import Room as RoomFacts
from sheets.resolve.gather import Gathered, piece
from sheets.resolve.materials import FLOORING, GYPSUM, Sizes
from sheets.resolve.middle import Middle

BOARD = ("1/2", "12.5")
"""Gypsum board on the walls and the ceiling (common thickness)."""
FLOOR = ("3/4", "20")
DEPTH_BEYOND = ("12", "300")
"""How far in front of the foremost piece floor, side walls and ceiling are shown."""

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


def room_parts(spec: Spec, gathered: Gathered, sizes: Sizes, front: Fraction, hole: Extent | None) -> None:
    """Add the bodies of the room. front: y of the foremost piece; hole: what goes through the wall (the
    firebox)."""
    t, floor = sizes.of(BOARD), sizes.of(FLOOR)
    half, depth = spec.room.width / 2, front + sizes.of(DEPTH_BEYOND)
    vault = spec.room.ceiling.vault
    height = spec.room.ceiling.height
    side = vault.spring if vault else height
    made_from = gathered.made_from(("room",))
    through = hole is not None and hole.y0 < 0
    back = min(-t, hole.y0) if hole and through else -t
    rows = [(float(-t), 0.0, (_wall_shape(spec, hole if through else None),))]
    parts = [
        piece(
            "wall",
            "Wall",
            "wall",
            "room",
            GYPSUM,
            Extent(-half, half, -t, Fraction(0), Fraction(0), height),
            "yxz",
            solid=stack("y", rows),
            maker="room",
            made_from=made_from,
        ),
        piece(
            "floor",
            "Floor",
            "floor",
            "room",
            FLOORING,
            Extent(-half - t, half + t, back, depth, -floor, Fraction(0)),
            "zyx",
            maker="room",
            made_from=made_from,
        ),
        piece(
            "wall-left",
            "Side wall",
            "side wall",
            "room",
            GYPSUM,
            Extent(-half - t, -half, -t, depth, Fraction(0), side),
            "xyz",
            maker="room",
            made_from=made_from,
        ),
        piece(
            "wall-right",
            "Side wall",
            "side wall",
            "room",
            GYPSUM,
            Extent(half, half + t, -t, depth, Fraction(0), side),
            "xyz",
            maker="room",
            made_from=made_from,
        ),
    ]
    parts.append(_ceiling(spec, gathered, t, depth))
    gathered.parts.extend(parts)
    gathered.components.append(
        Component(
            key="room",
            kind=ROOM,
            name="ROOM",
            extent=Extent(-half, half, Fraction(0), depth, Fraction(0), height),
            facts={"width": spec.room.width, "height": height},
            made_from=made_from,
        )
    )
    _stations(spec, gathered)


def _wall_shape(spec: Spec, hole: Extent | None) -> Region:
    half, height = spec.room.width / 2, spec.room.ceiling.height
    vault = spec.room.ceiling.vault
    # An opening at the floor is a notch of the outline, not a hole in it.
    notch: list[tuple[Fraction, Fraction]] = []
    holes: tuple[Loop, ...] = ()
    if hole is not None and hole.z0 <= 0:
        notch = [(hole.x0, Fraction(0)), (hole.x0, hole.z1), (hole.x1, hole.z1), (hole.x1, Fraction(0))]
    elif hole is not None:
        holes = (rectangle(float(hole.x0), float(hole.z0), float(hole.x1), float(hole.z1)).outer,)
    side = vault.spring if vault else height
    corners = [(-half, side), (-half, Fraction(0)), *notch, (half, Fraction(0)), (half, side)]
    points = [(float(x), float(z)) for x, z in corners]
    segments: list[Segment] = [Line(a, b) for a, b in pairwise(points)]
    if vault:
        segments.append(arc_through(points[0], points[-1], float(height - side)).reversed())
    else:
        segments.append(Line(points[-1], points[0]))
    return region(Loop(tuple(segments)), holes)


def _ceiling(spec: Spec, gathered: Gathered, t: Fraction, depth: Fraction) -> Part:
    half, height = spec.room.width / 2, spec.room.ceiling.height
    vault = spec.room.ceiling.vault
    made_from = gathered.made_from(("room", "ceiling"))
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
        )
    rise = height - vault.spring
    radius = float(arc_radius(spec.room.width, rise))
    solid = _shell(float(half), float(vault.spring), float(rise), float(t), float(-t), float(depth))
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
    )


def _shell(half: float, spring: float, rise: float, t: float, y0: float, y1: float) -> Solid:
    """The vault as a shell of thickness t at the crown, its ends level over the side walls."""
    inner = arc_through((-half, spring), (half, spring), rise)
    # The outer arc starts over the outside of the side walls, at the same height: a shell that tapers a
    # little and stays within the room's box, rather than a concentric one whose ends would lean over the
    # walls.
    outer = arc_through((-half - t, spring), (half + t, spring), rise + t)
    a, b = (-half - t, spring), (half + t, spring)
    segments: tuple[Segment, ...] = (
        Line(a, (-half, spring)),
        inner,
        Line((half, spring), b),
        outer.reversed(),
    )
    return stack("y", ((y0, y1, (region(Loop(segments)),)),))


def _stations(spec: Spec, gathered: Gathered) -> None:
    half, ceiling = spec.room.width / 2, spec.room.ceiling
    gathered.station("x", -half, "overall", "room", "wall", verify=True)
    gathered.station("x", half, "overall", "room", "wall", verify=True)
    gathered.station("z", Fraction(0), "overall", "room", "height", "FLOOR")
    if ceiling.vault:
        gathered.station("z", ceiling.vault.spring, "major", "room", "height", "SPRING OF VAULT", verify=True)
    gathered.station("z", ceiling.height, "overall", "room", "height", "CEILING", verify=True)


def wall_stations(gathered: Gathered, spec: Spec, middle: Middle, edges: list[Fraction]) -> None:
    """Add the strings along the whole wall: components, and openings with the axis."""
    half = spec.room.width / 2
    for x in sorted({-half, half, *edges}):
        gathered.station("x", x, "major", "room", "components")
    if middle.opening_x:
        for x in (-half, *middle.opening_x, half):
            gathered.station("x", x, "major", "room", "openings")
        gathered.station("x", Fraction(0), "major", "room", "openings", "CL")
    gathered.station("x", Fraction(0), "major", "room", "axis", "CL")
