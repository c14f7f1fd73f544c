"""The baseboard: along the wall where nothing stands, and across the plinths when it is to stop at the
surround."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.grammar.measure import crosses_plinth
from sheets.grammar.schema import Baseboard, Spec
from sheets.model.kind import Kind
from sheets.model.part import Extent, Joint, Material, Part
from sheets.model.purpose import DecidedBy, Purpose
from sheets.model.wall import Component, Feature, Station
from sheets.resolve.built import NOTHING, Built, Origin, chain
from sheets.resolve.case import around
from sheets.resolve.edges import Corner, left_return, run
from sheets.resolve.features import box, feature, subjects
from sheets.resolve.gather import piece
from sheets.resolve.layout import Layout, Standing
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle
from sheets.resolve.mirror import mirrored_part, with_twins

KEY = "baseboard"
ZERO = Fraction(0)
BASEBOARD = Kind("baseboard", "T", "by the length", lies_on_masonry=True)
BY = DecidedBy(thickness=("room", "baseboard", "thickness"), top=("room", "baseboard", "height"))


@dataclass(frozen=True, slots=True)
class Stretch:
    """One straight length: at the wall (plane 0) or across a plinth. Corners say how it ends."""

    x0: Fraction
    x1: Fraction
    plane: Fraction
    left: Corner = "dies"
    right: Corner = "dies"


def reserved_half(spec: Spec, middle: Middle) -> Fraction:
    """Return the half width at the axis that the baseboard stops at: posts, stone, hearth or a low opening.

    What hangs above it, as a mantel without posts, does not stop it.
    """
    board = spec.room.baseboard
    top = board.height if board else ZERO
    stops = [ZERO]
    if middle.mantel and spec.mantel and spec.mantel.posts:
        stops.append(middle.mantel.half)
    if middle.surround_x and middle.surround_z and middle.surround_z[0] < top:
        stops.append(middle.surround_x[1])
    if middle.hearth_x:
        stops.append(middle.hearth_x[1])
    frame = spec.fireplace.frame.width if spec.fireplace and spec.fireplace.frame else ZERO
    if middle.opening_x and middle.opening_z and middle.opening_z[0] - frame < top:
        stops.append(middle.opening_x[1] + frame)
    return max(stops)


def resolve_baseboard(
    spec: Spec,
    origin: Origin,
    layout: Layout,
    middle: Middle,
    materials: Materials,
    reserved: Fraction,
    enclosure: Fraction,
) -> Built:
    """Return the baseboard. reserved: half width at the axis that it stops at; enclosure: half width of what
    stands out of the wall there, 0 without."""
    board = spec.room.baseboard
    if board is None:
        return NOTHING
    crossing = [s for s in layout.cases if crosses_plinth(board, s.case)]
    stretches = _stretches(layout, middle, board, crossing, reserved, enclosure)
    stone = reserved if spec.surround else ZERO
    parts: list[Part] = []
    for number, s in enumerate(sorted(stretches, key=lambda s: s.x0), 1):
        parts += _length(s, number, board, materials[board.material], origin, stone)
    if not parts:
        return NOTHING
    parts = with_twins(parts)
    component = Component(
        key=KEY,
        kind=BASEBOARD,
        name="BASEBOARD",
        extent=around(parts),
        made_from=origin.made_from(("room", "baseboard")),
        facts={"height": board.height, "thickness": board.thickness, "stops at": board.stops_at},
    )
    return Built(parts=tuple(parts), components=(component,), stations=_stations(board, parts))


def _stations(board: Baseboard, parts: Sequence[Part]) -> tuple[Station, ...]:
    made = chain("z", (ZERO, board.height), "minor", KEY, "height")
    for part in parts:
        if part.does.runs:
            made += chain("x", (part.extent.x0, part.extent.x1), "minor", KEY, "lengths")
            made += chain("y", (part.extent.y0, part.extent.y1), "minor", KEY, "thickness")
    return made


def _length(
    s: Stretch, number: int, board: Baseboard, material: Material, origin: Origin, stone: Fraction
) -> list[Part]:
    """One length with its returns, nothing where it would be too short. stone: half width of what it stops
    at, 0 without."""
    t = board.thickness
    x0 = s.x0 - (t if s.left == "mitred" else 0)
    x1 = s.x1 + (t if s.right == "mitred" else 0)
    if x1 - x0 <= 2 * t:
        return []
    where, solid = run(x0, x1, s.plane + t, t, ZERO, board.height, s.left, s.right)
    joints = tuple(
        Joint("mitre", mate=f"{KEY}/return-{number}-{side}", fastening="glue")
        for side, c in (("left", s.left), ("right", s.right))
        if c == "mitred"
    )
    length = piece(
        f"length-{number}",
        "Baseboard",
        "baseboard",
        KEY,
        material,
        where,
        "yzx",
        solid=solid,
        joints=(*joints, Joint("butt", fastening="nail")),
        shows=("front", "top"),
        made_from=origin.made_from(("room", "baseboard")),
        notes=("STOP SQUARE AT THE FACING",) if _at_middle(where, stone) else (),
        does=Purpose(lines=("level",), runs=True),
        decided_by=BY,
    )
    return [length, *_returns(s, number, board, material, origin, x0, x1)]


def baseboard_feature(
    parts: Sequence[Part], middle: Middle, reserved: Fraction, margin: Fraction
) -> tuple[Feature, ...]:
    """Return a plan of where the baseboard stops at stone or mantel, on the left or else on the right.

    parts: of the whole wall.
    """
    boards = [p.extent for p in parts if p.does.runs] if reserved > 0 else []
    for side in (-1, 1):
        edge = side * reserved
        board = next((e for e in boards if edge in (e.x0, e.x1)), None)
        if board is None:
            continue
        level = board.z1 * 3 / 4
        x = sorted((edge + side * 4 * margin, edge - side * 4 * margin))
        where = box(
            (x[0], x[1]), (board.y0 - 2 * margin, max(board.y1, middle.face) + 3 * margin / 2), (level, level)
        )
        stop = feature(
            "baseboard",
            "BASEBOARD STOPS",
            KEY,
            "z",
            level,
            where,
            parts,
            ("baseboard", "plinth", "post", "post face", "post side", "surround", "hearth"),
            (board.size("y"), board.y0, reserved),
            ("SQUARE END, TIGHT TO WHAT IT MEETS", "NO BASEBOARD CROSSES THE FACING"),
        )
        return (stop,)
    return ()


def with_baseboard(features: Sequence[Feature], boards: Sequence[Part]) -> tuple[Feature, ...]:
    """Return the features; the base of a case is detailed with the baseboard before it."""
    made = []
    for one in features:
        if one.kind == "base" and boards:
            more = subjects(boards, ("baseboard",), one.axis, one.at, one.window)
            one = replace(one, subjects=(*one.subjects, *more), signature=f"{one.signature}/{len(more)}")
        made.append(one)
    return tuple(made)


def _stretches(
    layout: Layout,
    middle: Middle,
    board: Baseboard,
    crossing: list[Standing],
    reserved: Fraction,
    enclosure: Fraction,
) -> list[Stretch]:
    half, t = layout.half_room, board.thickness
    before = _before_enclosure(layout, middle, reserved, enclosure, t)
    blocks = [(s.x0 - s.left.gap, s.x1 + s.right.gap) for s in layout.cases]
    standing = max(reserved, enclosure)
    if standing > 0:
        blocks.append((-standing, standing))
    # Where a length turns a corner, the one at the wall stops at the return.
    turned = {s.x1 + s.right.gap for s in crossing} | {s.x0 - s.left.gap for s in crossing}
    turned -= {-reserved, reserved}
    turned |= {x for s in before for x, end in ((s.x0, s.left), (s.x1, s.right)) if end == "mitred"}
    made = []
    at = -half
    for a, b in (*sorted(blocks), (half, half)):
        x0, x1 = at + (t if at in turned else 0), a - (t if a in turned else 0)
        if x1 > x0:
            made.append(Stretch(x0, x1, ZERO))
        at = max(at, b)
    return made + _joined([*_across_cases(layout, crossing, standing, t), *before])


def _before_enclosure(
    layout: Layout, middle: Middle, reserved: Fraction, enclosure: Fraction, t: Fraction
) -> list[Stretch]:
    """The face of the enclosure beside the stone, where no post stands before it."""
    if enclosure <= reserved:
        return []
    corners: list[Corner] = []
    for side in (-1, 1):
        free = middle.case_beside(side) is None and enclosure + 2 * t < layout.half_room
        corners.append("mitred" if free else "dies")
    if reserved <= 0:
        return [Stretch(-enclosure, enclosure, middle.face, corners[0], corners[1])]
    return [
        Stretch(-enclosure, -reserved, middle.face, left=corners[0]),
        Stretch(reserved, enclosure, middle.face, right=corners[1]),
    ]


def _across_cases(layout: Layout, crossing: list[Standing], reserved: Fraction, t: Fraction) -> list[Stretch]:
    made: list[Stretch] = []
    for s in crossing:
        x0, x1 = s.x0 - s.left.gap, s.x1 + s.right.gap
        stops_left = max(x0, reserved) if x1 > reserved > 0 and x0 < reserved and x1 > 0 and x0 > 0 else x0
        stops_right = min(x1, -reserved) if reserved > 0 and x0 < -reserved < x1 else x1
        left: Corner = (
            "mitred"
            if s.left.meets == "free" and stops_left == x0 and _room_for(layout, s, -1, t, reserved)
            else "dies"
        )
        right: Corner = (
            "mitred"
            if s.right.meets == "free" and stops_right == x1 and _room_for(layout, s, 1, t, reserved)
            else "dies"
        )
        made.append(Stretch(stops_left, stops_right, s.case.depth, left, right))
    return made


def _joined(stretches: list[Stretch]) -> list[Stretch]:
    """Neighbours in one plane are crossed by one length."""
    made: list[Stretch] = []
    for one in sorted(stretches, key=lambda s: s.x0):
        before = made[-1] if made else None
        if before and before.x1 == one.x0 and before.plane == one.plane:
            made[-1] = Stretch(before.x0, one.x1, one.plane, before.left, one.right)
        else:
            made.append(one)
    return made


def _room_for(layout: Layout, standing: Standing, side: int, t: Fraction, reserved: Fraction) -> bool:
    """Whether a return fits between a free end and what stands next along the wall."""
    x = standing.x1 if side > 0 else standing.x0
    edges = [side * layout.half_room]
    edges += [s.x0 if side > 0 else s.x1 for s in layout.cases if s.key != standing.key]
    if reserved > 0:
        edges += [-reserved, reserved]
    return all(side * (edge - x) < 0 or side * (edge - x) > 2 * t for edge in edges)


def _returns(
    s: Stretch,
    number: int,
    board: Baseboard,
    material: Material,
    origin: Origin,
    x0: Fraction,
    x1: Fraction,
) -> list[Part]:
    made = []
    t = board.thickness
    for side, corner, x in ((-1, s.left, x0), (1, s.right, x1)):
        if corner != "mitred":
            continue
        where, solid = left_return(x if side < 0 else -x, ZERO, s.plane + t, t, ZERO, board.height, "mitred")
        part = piece(
            f"return-{number}-left",
            "Baseboard return",
            "baseboard return",
            KEY,
            material,
            where,
            "xzy",
            solid=solid,
            joints=(
                Joint("mitre", mate=f"{KEY}/length-{number}", fastening="glue"),
                Joint("butt", fastening="nail"),
            ),
            shows=("left", "top"),
            hand="left",
            made_from=origin.made_from(("room", "baseboard")),
            decided_by=BY,
        )
        made.append(part if side < 0 else mirrored_part(part, KEY, KEY, twin=False))
    return made


def _at_middle(where: Extent, reserved: Fraction) -> bool:
    return reserved > 0 and (where.x1 == -reserved or where.x0 == reserved)
