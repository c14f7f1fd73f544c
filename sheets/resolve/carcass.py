"""The carcass of a case: sides, bottom, top, dividers, fixed shelves in their dadoes, plinth, nailing
rails."""

from fractions import Fraction
from itertools import pairwise

from sheets.base.diagnostics import SpecPath
from sheets.base.length import snap
from sheets.geometry.path import Place
from sheets.geometry.region import Region, polygon, rectangle
from sheets.geometry.solid import Solid, stack
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import Bears, DecidedBy, Purpose
from sheets.resolve.case_openings import Span
from sheets.resolve.case_plan import CasePlan, shelf_step
from sheets.resolve.gather import piece
from sheets.resolve.joining import part_glued
from sheets.resolve.materials import Materials
from sheets.resolve.nailing import rail_step, rails_of

STOP = ("1/2", "12")
"""A dado that would show at an open front stops this far behind it (common practice: 1/2 to 3/4 in)."""

PLINTH_STEP = ("1/2", "10")
"""A plinth's board that runs on behind the frame ends on whole steps of this (common practice: dressed boards
are sold so)."""

FLOOR = "floor"
"""What a bottom without a plinth lies on."""
Notch = tuple[Fraction, Fraction, Fraction]
"""From y, to y, depth into the face."""


def carcass_parts(plan: CasePlan, materials: Materials) -> list[Part]:
    """Return the pieces of the carcass."""
    made = [_side(plan, "left", materials), _side(plan, "right", materials)]
    made += [_level(plan, "bottom"), _level(plan, "top")]
    made += _dividers(plan, materials)
    made += _plinth(plan, materials)
    return made


def dado_front(plan: CasePlan) -> Fraction:
    """Return y where the dadoes of the shelves end: at the frame, or short of an open front."""
    return (
        plan.carcass_front
        if plan.case.frame
        else max(plan.back + (plan.carcass_front - plan.back) / 2, plan.carcass_front - plan.sizes.of(STOP))
    )


def shelf_dado_front(plan: CasePlan) -> Fraction:
    """Return y where the dado of a shelf ends: a lip covers it where there is no frame."""
    return plan.carcass_front if plan.case.frame else min(dado_front(plan), plan.carcass_front - plan.lip)


def let_in(ends: Span, clear: Span, y: tuple[Fraction, Fraction, Fraction]) -> Region:
    """Return a board in plan that is let into dadoes at its ends, all in x. y: its back, where the dadoes
    end, its front.
    """
    (a, b), (c, d), (back, end, front) = ends, clear, y
    if end >= front:
        return rectangle(a, back, b, front)
    return polygon(((a, back), (b, back), (b, end), (d, end), (d, front), (c, front), (c, end), (a, end)))


def _bands(plan: CasePlan, *, side: bool) -> list[tuple[Fraction, Fraction, list[Notch]]]:
    """The heights at which a side (or divider) is notched on a face towards a compartment, ascending."""
    depth = plan.dado if side else plan.divider_dado
    shelf = (plan.back, shelf_dado_front(plan), depth)
    rabbet = _rabbet(plan) if side else []
    rows: list[tuple[Fraction, Fraction, list[Notch]]] = []
    if side:
        whole = (Fraction(0), dado_front(plan), depth)
        rows.append((plan.bottom - plan.board, plan.bottom, [whole]))
    at = plan.bottom
    for level in plan.shelf_levels:
        rows.append((at, level, rabbet))
        rows.append((level, level + plan.shelf, [*rabbet, shelf]))
        at = level + plan.shelf
    rows.append((at, plan.top, rabbet))
    if side:
        rows.append((plan.top, plan.carcass_top, [whole]))
    return rows


def _rabbet(plan: CasePlan) -> list[Notch]:
    """From the back edge of a side to the face of the back, all the way up: boards and rails go in from
    behind."""
    return [(Fraction(0), plan.back, plan.dado)] if plan.case.backer else []


def _profile(
    x: Fraction, face: Fraction, y0: Fraction, y1: Fraction, notches: list[Notch]
) -> list[Place]:
    """Points along a face from y0 to y1; a notch goes from `face` towards x by its depth."""
    inward = 1 if x > face else -1
    # Intervals of one depth each, so that a notch that ends at an edge, or at the next notch, leaves no
    # spike.
    levels = sorted({y0, y1, *(v for a, b, _ in notches for v in (a, b) if y0 < v < y1)})
    points: list[Place] = []
    for low, high in pairwise(levels):
        depth = max((d for a, b, d in notches if a <= low and high <= b), default=Fraction(0))
        points += [(face + inward * depth, low), (face + inward * depth, high)]
    return points


def _side(plan: CasePlan, which: str, materials: Materials) -> Part:
    outer, inner = (plan.x0, plan.x0 + plan.board) if which == "left" else (plan.x1, plan.x1 - plan.board)
    low, high = min(outer, inner), max(outer, inner)
    front = plan.carcass_front
    rows: list[tuple[Fraction, Fraction, tuple[Region, ...]]] = []

    def add(z0: Fraction, z1: Fraction, y1: Fraction, notches: list[Notch]) -> None:
        if z1 > z0:
            face = _profile(outer, inner, Fraction(0), y1, notches)
            back: list[Place] = [(outer, y1), (outer, 0)]
            rows.append((z0, z1, (polygon(face + back),)))

    toe = _toe_back(plan, materials)
    start = plan.bottom - plan.board
    toe_top = min(_plinth_top(plan), start) if toe < front else Fraction(0)
    add(Fraction(0), toe_top, toe, _rabbet(plan))
    add(toe_top, start, front, _rabbet(plan))
    for z0, z1, notches in _bands(plan, side=True):
        add(z0, z1, front, notches)
    joints = [
        Joint("dado", mate=f"{plan.key}/bottom", width=plan.board, depth=plan.dado, fastening="glue"),
        Joint("rabbet", mate=f"{plan.key}/top", width=plan.board, depth=plan.dado, fastening="glue"),
    ]
    bay = 1 if which == "left" else len(plan.openings)
    joints += _shelf_dadoes(plan, materials, bay, plan.dado)
    if plan.case.backer:
        joints.append(Joint("rabbet", width=plan.back, depth=plan.dado))
    if toe < front and toe_top > 0:
        joints.append(Joint("notch", width=front - toe, depth=toe_top))
    end = plan.standing.left if which == "left" else plan.standing.right
    shows = ("inside", *((which,) if end.seen else ()), *front_edge(plan))
    return piece(
        f"side-{which}",
        "Side",
        "side",
        plan.key,
        plan.carcass,
        Extent(low, high, Fraction(0), front, Fraction(0), plan.carcass_top),
        "xyz",
        solid=stack("z", rows),
        joints=tuple(joints),
        shows=shows,
        edged=veneered(plan),
        hand="left" if which == "left" else "right",
        made_from=plan.made_from,
        does=Purpose(bounds=("end",)),
        decided_by=DecidedBy(housing=_dado(plan)),
    )


def _dado(plan: CasePlan) -> SpecPath:
    return (*plan.path, "shelves", "joint", "dado")


def front_edge(plan: CasePlan) -> tuple[str, ...]:
    """The front edge of the carcass, where no frame covers it."""
    return () if plan.case.frame else ("front",)


def veneered(plan: CasePlan) -> tuple[str, ...]:
    """Return the edges of the carcass that show the plies of a panel, and so are covered."""
    return front_edge(plan) if plan.carcass.kind == "panel" else ()


def _toe_back(plan: CasePlan, materials: Materials) -> Fraction:
    """y of the back of the plinth's board; the carcass front when there is none."""
    plinth = plan.case.plinth
    if plinth is None:
        return plan.carcass_front
    return min(plan.carcass_front, plan.front - plinth.setback - plinth_board(plan, materials))


def plinth_board(plan: CasePlan, materials: Materials) -> Fraction:
    """Return the thickness of the plinth's board; where a baseboard covers it, of hidden stock."""
    assert plan.case.plinth is not None
    return materials.thickness(plan.case.plinth.material if plan.plinth_seen else plan.hidden.key)


def _plinth_top(plan: CasePlan) -> Fraction:
    """Height of the plinth's board: one that stands behind the frame goes on up behind it, on whole steps as
    boards are bought; without a frame it carries the bottom.
    """
    plinth = plan.case.plinth
    if plinth is None or plan.front - plinth.setback > plan.carcass_front:
        return plan.plinth_top
    under = plan.bottom - plan.board
    if plan.case.frame is None:
        return under
    return max(plan.plinth_top, snap(under, plan.sizes.of(PLINTH_STEP), "down"))


def _level(plan: CasePlan, which: str) -> Part:
    """The bottom or the top: let into the sides, dadoed for the dividers."""
    z0, z1 = (plan.bottom - plan.board, plan.bottom) if which == "bottom" else (plan.top, plan.carcass_top)
    x0, x1 = plan.clear[0] - plan.dado, plan.clear[1] + plan.dado
    full = let_in((x0, x1), plan.clear, (Fraction(0), dado_front(plan), plan.carcass_front))
    if len(plan.openings) == 1:
        solid = stack("z", ((z0, z1, (full,)),))
        joints: tuple[Joint, ...] = ()
    else:
        solid = _dadoed_level(plan, which, z0, z1, full)
        joints = tuple(
            Joint(
                "dado", mate=f"{plan.key}/divider-{k}", width=plan.board, depth=plan.dado, fastening="glue"
            )
            for k in range(1, len(plan.openings))
        )
    below = which == "bottom"
    return piece(
        which,
        which.capitalize(),
        which,
        plan.key,
        plan.carcass,
        Extent(x0, x1, Fraction(0), plan.carcass_front, z0, z1),
        "zyx",
        solid=solid,
        joints=(*joints, *stopped(plan.carcass_front - dado_front(plan), plan.dado, plan.dado)),
        shows=("top" if below else "bottom", *front_edge(plan)),
        edged=veneered(plan),
        notes=("LET INTO THE SIDES",),
        made_from=plan.made_from,
        does=Purpose(
            carries=Bears(_ends(plan, which), _edges(plan, which)), bounds=("floor" if below else "ceiling",)
        ),
        decided_by=DecidedBy(
            thickness=("materials", plan.carcass.key, "thickness"),
            top=(*plan.path, "plinth", "height") if below else (),
            housing=_dado(plan),
        ),
    )


def _ends(plan: CasePlan, which: str) -> tuple[str, ...]:
    """The sides carry a bottom, on which the dividers stand; they carry a top too."""
    dividers = () if which == "bottom" else tuple(f"divider-{k}" for k in range(1, len(plan.openings)))
    return tuple(f"{plan.key}/{step}" for step in ("side-left", *dividers, "side-right"))


def _edges(plan: CasePlan, which: str) -> tuple[str, ...]:
    """What carries the bottom or the top along its front and its back: frame or plinth, and the rails at the
    wall that are screwed to it.
    """
    below = which == "bottom"
    found = []
    if plan.case.frame:
        found.append(f"{plan.key}/{'bottom' if below else 'top'}-rail")
    elif below and plan.case.plinth and _plinth_top(plan) == plan.bottom - plan.board:
        found.append(f"{plan.key}/plinth")
    elif below and plan.bottom == plan.board:
        found.append(FLOOR)
    for rail in rails_of(plan):
        if plan.bottom == rail.low if below else plan.top == rail.high:
            found.append(f"{plan.key}/{rail_step(plan, rail, 0)}")
    return tuple(found)


def _dadoed_level(plan: CasePlan, which: str, z0: Fraction, z1: Fraction, full: Region) -> Solid:
    """The level with a dado for each divider, from the backer to the front."""
    # Behind the backer's face the board is whole; before it the dadoes part it. One comb-shaped region.
    a, b = plan.clear[0] - plan.dado, plan.clear[1] + plan.dado
    c, d = plan.clear[0], plan.clear[1]
    back, end, front = plan.back, dado_front(plan), plan.carcass_front
    stopped = [] if end == front else [(a, end), (c, end)]
    stopped_right = [] if end == front else [(d, end), (b, end)]
    tops: list[Place] = [*stopped, (c if stopped else a, front)]
    for (_, left), (right, _) in pairwise(plan.openings):
        if back > 0:
            tops += [(left, front), (left, back), (right, back), (right, front)]
        else:
            tops += [(left, front), (left, 0)]
            tops += [(right, 0), (right, front)]
    tops += [(d if stopped else b, front), *stopped_right]
    if back > 0:
        comb: tuple[Region, ...] = (polygon([(b, 0), (a, 0), *tops]),)
    else:
        comb = _separate(plan, a, b, c, d, end, front)
    cut_from, cut_to = (z1 - plan.dado, z1) if which == "bottom" else (z0, z0 + plan.dado)
    rows = [(z0, cut_from, (full,)), (cut_from, cut_to, comb), (cut_to, z1, (full,))]
    return stack("z", [(p, q, shape) for p, q, shape in rows if q > p])


def _separate(
    plan: CasePlan, a: Fraction, b: Fraction, c: Fraction, d: Fraction, end: Fraction, front: Fraction
) -> tuple[Region, ...]:
    """The level's dadoed layer where the dividers run back to the wall: one region a compartment."""
    shapes = []
    last = len(plan.openings) - 1
    for k, (x0, x1) in enumerate(plan.openings):
        points: list[Place] = [(a, 0) if k == 0 else (x0, 0)]
        points += [(b, 0), (b, end), (d, end)] if k == last else [(x1, 0)]
        points += [(d if k == last else x1, front), (c if k == 0 else x0, front)]
        points += [(c, end), (a, end)] if k == 0 else []
        shapes.append(polygon(points))
    return tuple(shapes)


def _shelf_dadoes(plan: CasePlan, materials: Materials, bay: int, depth: Fraction) -> list[Joint]:
    """The dadoes of the shelves of a bay, counted from 1, in what stands beside it."""
    shelves = plan.case.shelves
    if shelves is None:
        return []
    deep = plan.carcass_front - plan.lip - plan.back
    glued = part_glued(deep, materials[shelves.material], plan.carcass, plan.sizes)
    return [
        Joint(
            "dado",
            mate=f"{plan.key}/{shelf_step(bay, len(plan.openings), k)}",
            width=plan.shelf,
            depth=depth,
            fastening="glue",
            glued=glued,
        )
        for k in range(1, len(plan.shelf_levels) + 1)
    ]


def _dividers(plan: CasePlan, materials: Materials) -> list[Part]:
    made = []
    y0, y1 = plan.back, plan.carcass_front
    # As long as the grid has it: what that leaves is air in the dado of the top.
    low_end = plan.bottom - plan.dado
    high_end = low_end + snap(plan.top + plan.dado - low_end, plan.sizes.grid, "down")
    for k, ((_, low), (high, _)) in enumerate(pairwise(plan.openings), 1):
        rows: list[tuple[Fraction, Fraction, tuple[Region, ...]]] = []
        whole = (rectangle(low, y0, high, y1),)
        rows.append((low_end, plan.bottom, whole))
        for z0, z1, notches in _bands(plan, side=False):
            right = _profile(low, high, y0, y1, notches)
            left = _profile(high, low, y0, y1, notches)
            if z1 > z0:
                rows.append((z0, z1, (polygon(right + left[::-1]),)))
        rows.append((plan.top, high_end, whole))
        joints = tuple(
            joint for bay in (k, k + 1) for joint in _shelf_dadoes(plan, materials, bay, plan.divider_dado)
        )
        made.append(
            piece(
                f"divider-{k}",
                "Divider",
                "divider",
                plan.key,
                plan.carcass,
                Extent(low, high, y0, y1, low_end, high_end),
                "xyz",
                solid=stack("z", rows),
                joints=joints,
                shows=("left", "right", *front_edge(plan)),
                edged=veneered(plan),
                made_from=plan.made_from,
                does=Purpose(bounds=("partition",)),
                decided_by=DecidedBy(housing=_dado(plan)),
            )
        )
    return made


def stopped(short: Fraction, *let_in: Fraction) -> tuple[Joint, ...]:
    """Return the front corners of a piece that are notched where the dadoes it is let into stop short of its
    front, by how deep it is let in at each end.
    """
    return tuple(Joint("notch", width=deep, depth=short) for deep in let_in) if short > 0 else ()


def _plinth(plan: CasePlan, materials: Materials) -> list[Part]:
    plinth = plan.case.plinth
    if plinth is None:
        return []
    seen = plan.plinth_seen
    material = materials[plinth.material] if seen else plan.hidden
    front = plan.front - plinth.setback
    x0 = plan.x0 - plan.standing.left.gap
    x1 = plan.x1 + plan.standing.right.gap
    gaps = [end.gap for end in (plan.standing.left, plan.standing.right) if end.gap]
    joints = [Joint("scribe", width=gap) for gap in gaps]
    joints += [
        Joint("butt", mate=f"{plan.key}/{side}", fastening="screw") for side in ("side-left", "side-right")
    ]
    top = _plinth_top(plan)
    if top == plan.bottom - plan.board:
        joints.append(Joint("butt", mate=f"{plan.key}/bottom", fastening="screw"))
    back = front - plinth_board(plan, materials)
    high = (*plan.path, "plinth", "height")
    return [
        piece(
            "plinth",
            "Plinth",
            "plinth",
            plan.key,
            material,
            Extent(x0, x1, back, front, Fraction(0), top),
            "yzx",
            joints=tuple(joints),
            shows=("front",) if seen else (),
            notes=() if seen else ("BEHIND THE BASEBOARD",),
            made_from=plan.said_in("plinth"),
            does=Purpose(lines=("level",)) if top == plinth.height else Purpose(),
            decided_by=DecidedBy(width=high, top=high),
        )
    ]
