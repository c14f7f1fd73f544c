"""The board on top, of a case or of the mantel: a front edge, mitred or square returns, and the board
between them."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from sheets.model.part import Extent, Hand, Joint, Material, Part, Provenance
from sheets.model.purpose import DecidedBy, Purpose
from sheets.resolve.edges import Corner, Kerfs, left_return, plan_solid, run
from sheets.resolve.gather import piece
from sheets.resolve.joining import across_glued, front_glued
from sheets.resolve.materials import Sizes
from sheets.resolve.mirror import mirrored_part

EDGE_WIDTH = ("2", "50")
"""Inches, mm of the cap's edge that lie behind the overhang: enough for a mitre that is splined (common
practice)."""


_SIDE = {-1: "left", 1: "right"}


@dataclass(frozen=True, slots=True)
class CapEnd:
    """One end of a cap. x: where the body below ends. overhang: beyond it, from y = back to the front;
    None where the cap ends at x against what stands there."""

    x: Fraction
    overhang: Fraction | None = None
    back: Fraction = Fraction(0)

    def outer(self, side: int) -> Fraction:
        return self.x + side * (self.overhang or Fraction(0))


@dataclass(frozen=True, slots=True)
class CapPlan:
    """A cap to be built: front at y, heights, ends, saw cuts round its edge."""

    assembly: str
    name: str  # "Cap", "Mantel cap"
    front: Fraction
    overhang: Fraction
    z0: Fraction
    z1: Fraction
    left: CapEnd
    right: CapEnd
    corner: Corner
    cuts: Kerfs
    material: Material
    made_from: Provenance
    on_site: bool = False  # set when the body stands
    lies_on: tuple[str, ...] = ()  # keys of the pieces under the board that it is fixed to
    glued: bool = False  # to them; else by screws in slots


def edge_width(plan: CapPlan, sizes: Sizes) -> Fraction:
    """Return the width of the edge pieces: behind the overhang by 2 in, yet within half the depth, a third
    of the length and what a return has in front of where it starts."""
    wanted = sizes.on_grid(plan.overhang + sizes.of(EDGE_WIDTH))
    limits = [plan.front / 2, (plan.right.x - plan.left.x) / 3]
    limits += [plan.front - end.back for end in (plan.left, plan.right) if end.overhang is not None]
    return min(wanted, *limits)


def build_cap(plan: CapPlan, sizes: Sizes) -> list[Part]:
    """Return the pieces of a cap."""
    w = edge_width(plan, sizes)
    x0, x1 = plan.left.outer(-1), plan.right.outer(+1)
    corners: list[Corner] = [
        plan.corner if e.overhang is not None else "dies" for e in (plan.left, plan.right)
    ]
    where, solid = run(x0, x1, plan.front, w, plan.z0, plan.z1, corners[0], corners[1], plan.cuts)
    kind: Literal["mitre", "butt"] = "mitre" if plan.corner == "mitred" else "butt"
    turn = Joint(kind, fastening="glue", glued=across_glued(w, sizes) if kind == "butt" else None)
    front_joints = (
        *plan.cuts.joints(),
        *(
            replace(turn, mate=f"{plan.assembly}/cap-return-{side}")
            for side, c in zip(("left", "right"), corners, strict=True)
            if c != "dies"
        ),
    )
    made = [
        piece(
            "cap-front",
            f"{plan.name} front",
            "cap",
            plan.assembly,
            plan.material,
            where,
            "zyx",
            solid=solid,
            joints=front_joints,
            shows=("front", "top", "bottom"),
            made_from=plan.made_from,
            does=Purpose(lines=("level",), face="cap", on_site=plan.on_site),
            decided_by=_decided(plan),
        )
    ]
    for side, end in ((-1, plan.left), (1, plan.right)):
        if end.overhang is not None:
            made.append(_return(plan, end, side, w, turn, sizes))
    made.append(_board(plan, w))
    return made


def _return(plan: CapPlan, end: CapEnd, side: int, w: Fraction, turn: Joint, sizes: Sizes) -> Part:
    where, solid = left_return(
        end.outer(side) * -side, end.back, plan.front, w, plan.z0, plan.z1, plan.corner, plan.cuts
    )
    hand: Hand = "left"
    made = piece(
        "cap-return-left",
        f"{plan.name} return",
        "cap return",
        plan.assembly,
        plan.material,
        where,
        "zxy",
        solid=solid,
        joints=(
            *plan.cuts.joints(),
            replace(turn, mate=f"{plan.assembly}/cap-front"),
            Joint(
                "butt",
                mate=f"{plan.assembly}/cap-board",
                fastening="glue",
                glued=front_glued(plan.front - w - end.back, sizes),
            ),
            Joint("butt", mate=f"{plan.assembly}/cap-board", fastening="screw", moves=True),
        )
        if plan.front - w > end.back
        else (*plan.cuts.joints(), replace(turn, mate=f"{plan.assembly}/cap-front")),
        shows=("left", "top", "bottom"),
        hand=hand,
        made_from=plan.made_from,
        notes=("GLUE IN FRONT ALONE; SLOTTED SCREWS BEHIND",),
        does=Purpose(on_site=plan.on_site),
        decided_by=_decided(plan),
    )
    return made if side < 0 else mirrored_part(made, plan.assembly, plan.assembly, twin=False)


def _board(plan: CapPlan, w: Fraction) -> Part:
    back = plan.front - w
    points: list[tuple[Fraction, Fraction]] = []
    notches: list[Joint] = []
    for side, end in ((-1, plan.left), (1, plan.right)):
        inner = end.outer(side) - side * w if end.overhang is not None else end.x
        # Behind the start of a return the board reaches to the body's end, against what stands there.
        outline = [(end.x, Fraction(0)), (end.x, end.back), (inner, end.back), (inner, back)]
        if end.overhang is None or end.back == 0:
            outline = [(inner, Fraction(0)), (inner, back)]
        elif (deep := back - end.back) and inner != end.x:
            # The body's end stands out beyond the return's inner edge, or short of it.
            mate, size = f"{plan.assembly}/cap-return-{_SIDE[side]}", abs(inner - end.x)
            in_front = (inner - end.x) * side < 0
            notches.append(Joint("notch", mate, width=size, depth=deep if in_front else end.back))
        points += outline if side < 0 else outline[::-1]
    xs = [x for x, _ in points]
    where = Extent(min(xs), max(xs), Fraction(0), back, plan.z0, plan.z1)
    return piece(
        "cap-board",
        f"{plan.name} board",
        "cap board",
        plan.assembly,
        plan.material,
        where,
        "zyx",
        solid=plan_solid(tuple(points), plan.z0, plan.z1),
        joints=(Joint("butt", mate=f"{plan.assembly}/cap-front", fastening="glue"), *_held(plan), *notches),
        shows=("top",),
        made_from=plan.made_from,
        notes=("GLUE DOWN" if plan.glued else "FIX SO THAT IT CAN MOVE FRONT TO BACK",),
        does=Purpose(on_site=plan.on_site),
        decided_by=_decided(plan, edge=False),
    )


def _decided(plan: CapPlan, *, edge: bool = True) -> DecidedBy:
    """An edge is as wide as its overhang and what lies behind it; the board takes up the rest."""
    said = plan.made_from.path
    over = (*said, "overhang")
    return DecidedBy(
        width=over if edge else (), thickness=(*said, "thickness"), front=over, fixing=(*said, "fixed")
    )


def _held(plan: CapPlan) -> tuple[Joint, ...]:
    """How the board is held down: glued, or by screws in slots, so that it can move."""
    if plan.glued:
        return tuple(Joint("butt", mate=key, fastening="glue") for key in plan.lies_on)
    return tuple(Joint("butt", mate=key, fastening="screw", moves=True) for key in plan.lies_on)
