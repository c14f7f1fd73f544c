"""The fixed shelves of a case: solid, glued in front alone so that they move, or of a panel with its front
edge covered."""

from fractions import Fraction

from sheets.geometry.solid import stack
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import Bears, DecidedBy, Purpose
from sheets.resolve.carcass import let_in, shelf_dado_front, stopped
from sheets.resolve.case_plan import CasePlan, ends_of, shelf_step
from sheets.resolve.gather import piece
from sheets.resolve.joining import part_glued
from sheets.resolve.materials import Materials


def shelf_parts(plan: CasePlan, materials: Materials) -> list[Part]:
    """Return the shelves of every compartment, each followed by its lip where it has one."""
    count = len(plan.openings)
    return [
        part
        for bay in range(count if plan.case.shelves else 0)
        for k in range(1, len(plan.shelf_levels) + 1)
        for part in (_shelf(plan, materials, bay, k), *_lip(plan, materials, bay, k))
    ]


def _ends(plan: CasePlan, bay: int) -> tuple[Fraction, Fraction]:
    (left, right), last = plan.openings[bay], len(plan.openings) - 1
    return (
        left - (plan.dado if bay == 0 else plan.divider_dado),
        right + (plan.dado if bay == last else plan.divider_dado),
    )


def _shelf(plan: CasePlan, materials: Materials, bay: int, number: int) -> Part:
    shelves, count = plan.case.shelves, len(plan.openings)
    assert shelves is not None
    (x0, x1), (left, right) = _ends(plan, bay), plan.openings[bay]
    z, front, end = plan.shelf_levels[number - 1], plan.carcass_front - plan.lip, shelf_dado_front(plan)
    outline = let_in((x0, x1), plan.openings[bay], (plan.back, end, front))
    on = tuple(f"{plan.key}/{step}" for step in ends_of(bay, count))
    glued = part_glued(front - plan.back, materials[shelves.material], plan.carcass, plan.sizes)
    said = (*plan.path, "shelves")
    return piece(
        shelf_step(bay + 1, count, number),
        "Shelf",
        "shelf",
        plan.key,
        materials[shelves.material],
        Extent(x0, x1, plan.back, front, z, z + plan.shelf),
        "zyx",
        solid=stack("z", ((z, z + plan.shelf, (outline,)),)),
        joints=tuple(Joint("butt", mate=key) for key in on)
        if end >= front
        else stopped(front - end, left - x0, x1 - right),
        shows=("top", "bottom") if plan.lip else ("top", "bottom", "front"),
        edged=("front",) if shelves.edge == "veneer" else (),
        notes=("FIXED IN DADOS",) if glued is None else ("FIXED IN DADOS, GLUED IN FRONT ALONE",),
        made_from=plan.said_in("shelves"),
        does=Purpose(
            Bears(on),
            bounds=("floor", "ceiling"),
            lines=() if plan.lip else ("level",),
            face="" if plan.lip else "shelf",
        ),
        decided_by=DecidedBy(thickness=(*said, "thickness"), top=(*said, "spacing")),
    )


def _lip(plan: CasePlan, materials: Materials, bay: int, number: int) -> list[Part]:
    """A strip of solid wood along a panel's front: into the dadoes behind a frame, else between the sides."""
    shelves, count = plan.case.shelves, len(plan.openings)
    if not plan.lip or shelves is None or shelves.edge is None or shelves.edge == "veneer":
        return []
    x0, x1 = _ends(plan, bay) if plan.case.frame else plan.openings[bay]
    z, step = plan.shelf_levels[number - 1], shelf_step(bay + 1, count, number)
    return [
        piece(
            f"{step}-edge",
            "Shelf edge",
            "shelf edge",
            plan.key,
            materials[shelves.edge.material],
            Extent(x0, x1, plan.carcass_front - plan.lip, plan.carcass_front, z, z + plan.shelf),
            "yzx",
            joints=(Joint("butt", mate=f"{plan.key}/{step}", fastening="glue"),),
            shows=("front", "top", "bottom"),
            notes=("GLUE ON, THEN PLANE FLUSH WITH THE PANEL",),
            made_from=plan.said_in("shelves"),
            does=Purpose(lines=("level",), face="shelf"),
            decided_by=DecidedBy(
                thickness=(*plan.path, "shelves", "edge", "thickness"), top=(*plan.path, "shelves", "spacing")
            ),
        )
    ]
