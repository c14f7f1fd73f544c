"""The baseboard: along the wall where nothing stands, and across the plinths when it is to stop at the
surround."""

from dataclasses import dataclass
from fractions import Fraction

from sheets.model.part import Extent, Joint, Material, Part
from sheets.model.wall import Component
from sheets.resolve.case import around
from sheets.resolve.edges import Corner, left_return, run
from sheets.resolve.features import box, feature
from sheets.resolve.gather import Gathered, piece
from sheets.resolve.layout import Layout, Standing
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle
from sheets.resolve.mirror import mirrored_part
from sheets.spec.schema import Baseboard, Spec

KEY = "baseboard"
ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class Stretch:
    """One straight length: at the wall (plane 0) or across a plinth. Corners say how it ends."""

    x0: Fraction
    x1: Fraction
    plane: Fraction
    left: Corner = "dies"
    right: Corner = "dies"


def resolve_baseboard(
    spec: Spec, gathered: Gathered, layout: Layout, middle: Middle, materials: Materials, reserved: Fraction
) -> None:
    """Add the baseboard. reserved: half width at the axis that it stops at (surround, mantel, hearth,
    opening)."""
    board = spec.room.baseboard
    if board is None:
        return
    material, t = materials[board.material], board.thickness
    made_from = gathered.made_from(("room", "baseboard"))
    parts: list[Part] = []
    crossing = [s for s in layout.cases if _crosses(board, s)]
    for number, s in enumerate(
        sorted(_stretches(spec, layout, board, crossing, reserved), key=lambda s: s.x0), 1
    ):
        x0 = s.x0 - (t if s.left == "mitred" else 0)
        x1 = s.x1 + (t if s.right == "mitred" else 0)
        if x1 - x0 <= 2 * t:
            continue
        where, solid = run(x0, x1, s.plane + t, t, ZERO, board.height, s.left, s.right)
        joints = tuple(Joint("mitre", fastening="glue") for c in (s.left, s.right) if c == "mitred")
        parts.append(
            piece(
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
                made_from=made_from,
                notes=("STOP SQUARE AGAINST STONE",) if spec.surround and _at_middle(where, reserved) else (),
            )
        )
        parts += _returns(s, number, board, material, gathered, x0, x1)
    if not parts:
        return
    gathered.parts.extend(parts)
    gathered.components.append(
        Component(
            key=KEY,
            kind="baseboard",
            name="BASEBOARD",
            extent=around(parts),
            made_from=made_from,
            facts={"height": board.height, "thickness": t, "stops at": board.stops_at},
        )
    )
    gathered.chain("z", (ZERO, board.height), "minor", KEY, "height")
    for part in parts:
        if part.role == "baseboard":
            gathered.chain("x", (part.extent.x0, part.extent.x1), "minor", KEY, "lengths")
            gathered.chain("y", (part.extent.y0, part.extent.y1), "minor", KEY, "thickness")


def baseboard_feature(gathered: Gathered, middle: Middle, reserved: Fraction, margin: Fraction) -> None:
    """Add a plan of where the baseboard stops at stone or mantel, on the left or else on the right."""
    for side in (-1, 1):
        edge = side * reserved
        ends = [
            p
            for p in gathered.parts
            if p.role == "baseboard" and reserved > 0 and edge in (p.extent.x0, p.extent.x1)
        ]
        if not ends:
            continue
        board = ends[0].extent
        level = board.z1 * 3 / 4
        x = sorted((edge + side * 4 * margin, edge - side * 4 * margin))
        where = box(
            (x[0], x[1]), (board.y0 - 2 * margin, max(board.y1, middle.face) + 3 * margin / 2), (level, level)
        )
        gathered.features.append(
            feature(
                "baseboard",
                "BASEBOARD STOPS",
                KEY,
                "z",
                level,
                where,
                gathered.parts,
                ("baseboard", "plinth", "post", "post face", "post side", "surround", "hearth"),
                (board.size("y"), board.y0, reserved),
                ("SQUARE END, TIGHT TO WHAT IT MEETS", "NO BASEBOARD CROSSES THE STONE"),
            )
        )
        return


def _crosses(board: Baseboard, standing: Standing) -> bool:
    """It crosses a plinth that is flush with the case front; a plinth set back is a toe space and stays
    open."""
    plinth = standing.case.plinth
    return (
        board.stops_at == "surround"
        and plinth is not None
        and plinth.setback == 0
        and plinth.height >= board.height
    )


def _stretches(
    spec: Spec, layout: Layout, board: Baseboard, crossing: list[Standing], reserved: Fraction
) -> list[Stretch]:
    half = spec.room.width / 2
    blocks = [(s.x0 - s.left.gap, s.x1 + s.right.gap) for s in layout.cases]
    if reserved > 0:
        blocks.append((-reserved, reserved))
    wall: list[Stretch] = []
    at = -half
    for a, b in sorted(blocks):
        if a > at:
            wall.append(Stretch(at, a, ZERO))
        at = max(at, b)
    if half > at:
        wall.append(Stretch(at, half, ZERO))
    t = board.thickness
    made = []
    for s in wall:
        # Beside a case that it turns round, the length at the wall stops at the return.
        left = t if any(c.x1 + c.right.gap == s.x0 for c in crossing) and s.x0 != reserved else ZERO
        right = t if any(c.x0 - c.left.gap == s.x1 for c in crossing) and s.x1 != -reserved else ZERO
        if s.x1 - s.x0 > left + right:
            made.append(Stretch(s.x0 + left, s.x1 - right, ZERO))
    return made + _across_cases(layout, crossing, reserved, t)


def _across_cases(layout: Layout, crossing: list[Standing], reserved: Fraction, t: Fraction) -> list[Stretch]:
    """Neighbouring plinths in one plane are crossed by one length."""
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
        one = Stretch(stops_left, stops_right, s.case.depth, left, right)
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
    gathered: Gathered,
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
            joints=(Joint("mitre", fastening="glue"), Joint("butt", fastening="nail")),
            shows=("left", "top"),
            hand="left",
            made_from=gathered.made_from(("room", "baseboard")),
        )
        made.append(part if side < 0 else mirrored_part(part, KEY, KEY, twin=False))
    return made


def _at_middle(where: Extent, reserved: Fraction) -> bool:
    return reserved > 0 and (where.x1 == -reserved or where.x0 == reserved)
