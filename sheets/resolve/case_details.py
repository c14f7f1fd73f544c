"""The build-ups of a case that are worth a detail: cap, shelf in its dado, backer joint, scribe, base."""

from collections.abc import Sequence
from fractions import Fraction

from sheets.model.part import Axis, Part
from sheets.model.wall import Feature
from sheets.resolve.caps import CapPlan
from sheets.resolve.case_plan import CasePlan
from sheets.resolve.features import box, feature
from sheets.resolve.materials import Sizes
from sheets.resolve.nailing import rails_of


def case_features(plan: CasePlan, cap: CapPlan | None, parts: Sequence[Part]) -> list[Feature]:
    """Return the features of one case."""
    made = []
    if cap:
        made.append(_cap(plan, cap, parts))
    if plan.shelf_levels:
        made.append(_shelf(plan, parts))
    if plan.shelf_levels and plan.lip:
        made.append(_shelf_edge(plan, parts))
    if plan.case.backer:
        made.append(_backer(plan, parts))
    made += _scribe(plan, parts)
    made.append(_base(plan, parts))
    return made


def _margin(sizes: Sizes) -> Fraction:
    return Fraction(3, 2) * Fraction(127, 5) if sizes.unit == "inch" else Fraction(40)


def _cap(plan: CasePlan, cap: CapPlan, parts: Sequence[Part]) -> Feature:
    m = _margin(plan.sizes)
    rail = plan.case.frame.rail if plan.case.frame else plan.board
    at = plan.section_at
    where = box(
        (plan.x0, plan.x1), (plan.front - 3 * m, cap.front + m), (plan.carcass_top - rail - m, cap.z1 + m)
    )
    says = [f"CAP {plan.case.cap.material.upper()}, RETURNS {cap.corner.upper()}" if plan.case.cap else "CAP"]
    if cap.cuts.levels:
        says.append("SAW CUT CONTINUES ROUND THE RETURNS")
    says.append("GLUE CAP TO THE TOP" if cap.glued else "FIX CAP FROM BELOW, SLOTTED TO LET IT MOVE")
    return feature(
        "case cap",
        f"CAP OF {plan.title}",
        plan.key,
        "x",
        at,
        where,
        parts,
        ("cap", "cap return", "cap board", "rail", "top"),
        (
            cap.z1 - cap.z0,
            cap.overhang,
            cap.cuts.levels and len(cap.cuts.levels),
            cap.cuts.depth,
            rail,
            plan.case.cap.material if plan.case.cap else "",
            plan.board,
        ),
        tuple(says),
        order=30,
    )


def _shelf(plan: CasePlan, parts: Sequence[Part]) -> Feature:
    m = _margin(plan.sizes)
    level = plan.shelf_levels[len(plan.shelf_levels) // 2]
    # Looked at from the front, cut between backer and front: the dado is seen from its end.
    at = (plan.back + plan.carcass_front) / 2
    where = box(
        (plan.x1 - plan.board - m * 2, plan.x1 + m / 2), (at, at), (level - m, level + plan.shelf + m)
    )
    if plan.standing.right.meets == "middle" or plan.standing.left.meets == "wall":
        where = box(
            (plan.x0 - m / 2, plan.x0 + plan.board + 2 * m), (at, at), (level - m, level + plan.shelf + m)
        )
    return feature(
        "shelf",
        f"SHELF IN ITS DADO, {plan.title}",
        plan.key,
        "y",
        at,
        where,
        parts,
        ("shelf", "side"),
        (
            plan.shelf,
            plan.dado,
            plan.board,
            plan.carcass.key,
            plan.case.shelves.material if plan.case.shelves else "",
            bool(plan.case.frame),
        ),
        (
            "TYP. AT BOTH ENDS OF EVERY SHELF",
            "DADO TO ACTUAL SHELF THICKNESS, SNUG",
            *_shelf_notes(plan, parts),
        ),
        order=70,
    )


def _shelf_notes(plan: CasePlan, parts: Sequence[Part]) -> tuple[str, ...]:
    shelf = next(part for part in parts if part.does.bears)
    dado = next(j for part in parts for j in part.joints if j.kind == "dado" and j.mate == shelf.key)
    notes = ["GLUE IN FRONT ALONE, SO THAT THE SHELF MOVES" if dado.glued is not None else "GLUE AND CLAMP"]
    if any(joint.kind == "notch" for joint in shelf.joints):
        notes.append("STOP THE DADO SHORT OF THE FRONT; NOTCH THE SHELF")
    return tuple(notes)


def _shelf_edge(plan: CasePlan, parts: Sequence[Part]) -> Feature:
    """The strip of solid wood before a shelf of a panel."""
    m, front = _margin(plan.sizes), plan.carcass_front
    level, at = plan.shelf_levels[len(plan.shelf_levels) // 2], plan.section_at
    edges = [part.material.key for part in parts if part.role == "shelf edge"]
    return feature(
        "shelf edge",
        f"SHELF EDGE, {plan.title}",
        plan.key,
        "x",
        at,
        box((at, at), (front - plan.lip - m, front + m / 2), (level - m / 2, level + plan.shelf + m / 2)),
        parts,
        ("shelf", "shelf edge"),
        (plan.shelf, plan.lip, edges[0]),
        ("GLUE ON, THEN PLANE FLUSH WITH THE PANEL",),
        order=75,
    )


def _backer(plan: CasePlan, parts: Sequence[Part]) -> Feature:
    m = _margin(plan.sizes)
    backer = plan.case.backer
    assert backer is not None
    y = (Fraction(0), plan.back + m)
    if backer.kind == "plain":
        return _plain_back(plan, parts, y)
    signature = (
        backer.face,
        backer.thickness,
        backer.gap,
        backer.groove.width,
        backer.groove.depth,
        backer.tongue.length,
        backer.tongue.thickness,
        backer.direction,
        backer.material,
    )
    says = (
        "JOINTS TYP., END BOARDS ALIKE, GAP AT EACH JOINT FOR MOVEMENT",
        "LAY FROM BEHIND, CASE ON ITS FACE; THE RAILS FOLLOW",
        "WALL SCREWS ON SITE, FROM INSIDE, THROUGH BOARD AND RAIL; PLUG THE HEADS",
        "FINISH TONGUES BEFORE ASSEMBLY",
    )
    clear = plan.top - plan.shelf_levels[-1] - plan.shelf if plan.shelf_levels else plan.top - plan.bottom
    axis: Axis = "z" if backer.direction == "vertical" else "x"
    if axis == "z":
        hanging = rails_of(plan)[-1]
        at, low = (hanging.low + hanging.high) / 2, plan.clear[0]
        where = box((plan.x0 - m / 2, low + min(2 * backer.face, plan.clear[1] - low)), y, (at, at))
    else:
        at, low = plan.section_at, plan.bottom
        where = box((at, at), y, (low - plan.board - m / 2, low + min(2 * backer.face, clear)))
    return feature(
        "backer",
        f"BACKER JOINT, {plan.title}",
        plan.key,
        axis,
        at,
        where,
        parts,
        ("backer board", "side", "nailing rail") if axis == "z" else ("backer board", "bottom"),
        signature,
        says,
        order=60,
    )


def _plain_back(plan: CasePlan, parts: Sequence[Part], y: tuple[Fraction, Fraction]) -> Feature:
    m = _margin(plan.sizes)
    hanging = rails_of(plan)[-1]
    at = (hanging.low + hanging.high) / 2
    return feature(
        "backer",
        f"BACK IN ITS RABBET, {plan.title}",
        plan.key,
        "z",
        at,
        box((plan.x0 - m / 2, plan.clear[0] + 2 * m), y, (at, at)),
        parts,
        ("back", "side", "nailing rail"),
        (plan.backer, plan.dado, plan.board, plan.case.backer and plan.case.backer.material),
        (
            "LAY FROM BEHIND, CASE ON ITS FACE; THE RAILS FOLLOW",
            "WALL SCREWS ON SITE, FROM INSIDE, THROUGH BACK AND RAIL; PLUG THE HEADS",
        ),
        order=60,
    )


def _scribe(plan: CasePlan, parts: Sequence[Part]) -> list[Feature]:
    m = _margin(plan.sizes)
    made: list[Feature] = []
    first, second = (plan.shelf_levels[0] if plan.shelf_levels else plan.top), plan.bottom
    at = (first + second) / 2
    stiles = (plan.seen[0][0] - plan.x0, plan.x1 - plan.seen[-1][1])
    for side, end, stile in ((-1, plan.standing.left, stiles[0]), (1, plan.standing.right, stiles[1])):
        if not end.gap or made:
            continue
        wall = plan.x0 - end.gap if side < 0 else plan.x1 + end.gap
        x = (wall - m / 2, plan.x0 + stile + m) if side < 0 else (plan.x1 - stile - m, wall + m / 2)
        where = box(x, (plan.carcass_front - 2 * m, plan.front + m), (at, at))
        made.append(
            feature(
                "scribe",
                f"SCRIBE AT WALL, {plan.title}",
                plan.key,
                "z",
                at,
                where,
                parts,
                ("stile", "side", "scribe"),
                (end.gap, stile, plan.board, plan.carcass.key, bool(plan.case.frame)),
                ("SCRIBE TO FINISHED WALL", "VERIFY WALL FOR PLUMB BEFORE CUTTING"),
                order=80,
            )
        )
    return made


def _base(plan: CasePlan, parts: Sequence[Part]) -> Feature:
    m = _margin(plan.sizes)
    rail = plan.case.frame.rail if plan.case.frame else plan.board
    at = plan.section_at
    back = plan.front - max(plan.case.plinth.setback if plan.case.plinth else 0, plan.board) - 3 * m
    where = box(
        (plan.x0, plan.x1),
        (max(Fraction(0), back), plan.front + m),
        (-m / 2, max(plan.bottom, plan.plinth_top + rail) + m),
    )
    plinth = plan.case.plinth
    return feature(
        "base",
        f"BASE OF {plan.title}",
        plan.key,
        "x",
        at,
        where,
        parts,
        ("plinth", "rail", "bottom", "baseboard"),
        (
            plan.plinth_top,
            plinth.setback if plinth else "",
            rail,
            plan.board,
            plan.bottom,
            plinth.material if plinth else "",
        ),
        ("SIDES RUN TO THE FLOOR", "BOTTOM FLUSH WITH TOP OF RAIL")
        if plan.case.frame
        else ("SIDES RUN TO THE FLOOR",),
        order=50,
    )
