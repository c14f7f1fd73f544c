"""The back of a case: tongue-and-groove boards with a V at each joint, laid out so that both ends are alike.

A joint stands on the line where two faces meet. Each board keeps half the movement gap off that line; the
V is half on each board; the tongue runs on into the next board's groove, which is deeper by the gap. They are
laid from behind, the first in the rabbet of one side and the last in that of the other; the last one's groove
has no cheek at the back, so that it drops in over the tongue.
"""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from sheets.geometry.region import polygon
from sheets.geometry.solid import stack
from sheets.grammar.schema import Backer
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import DecidedBy, Purpose
from sheets.resolve.boards import BoardLayout, lay_boards
from sheets.resolve.built import NOTHING, Built, Origin, left_over
from sheets.resolve.case_plan import CasePlan, shelf_step
from sheets.resolve.gather import piece
from sheets.resolve.materials import Materials
from sheets.resolve.mirror import mirrored_part

LAST_IN = "LAST IN: ITS GROOVE HAS NO CHEEK AT THE BACK. NAIL AS THE OTHERS"


def backer_layout(plan: CasePlan, grid: Fraction) -> BoardLayout | None:
    """Return how the boards are laid out over the clear width (or height), None without a backer."""
    backer = plan.case.backer
    if backer is None or backer.kind == "plain":
        return None
    low, high = _across(plan, backer)
    return lay_boards(high - low, backer.face, grid)


def joint_lines(plan: CasePlan, layout: BoardLayout) -> tuple[Fraction, ...]:
    """Return the lines between faces, both ends included, in order along x (vertical boards) or z."""
    assert plan.case.backer is not None
    at = _across(plan, plan.case.backer)[0]
    lines = [at]
    for face in layout.faces:
        at += face
        lines.append(at)
    return tuple(lines)


def backer_parts(plan: CasePlan, origin: Origin, materials: Materials, grid: Fraction) -> Built:
    """Return the boards, or an error when an end board is narrower than its own groove.

    They are laid from the side wall inwards: on the right as in the mirror, whether the case mirrors another
    or stands there by itself.
    """
    backer = plan.case.backer
    if backer is not None and backer.kind == "plain":
        return Built(parts=(_plain(plan, backer, materials),))
    if plan.standing.from_the_right:
        made = _laid(replace(plan, standing=plan.standing.in_mirror), origin, materials, grid)
        parts = tuple(mirrored_part(part, plan.key, plan.key, twin=False) for part in made.parts)
        made = replace(made, parts=parts)
    else:
        made = _laid(plan, origin, materials, grid)
    return replace(
        made, parts=tuple(replace(p, joints=(*p.joints, *_nailed(plan, p.extent))) for p in made.parts)
    )


def _plain(plan: CasePlan, backer: Backer, materials: Materials) -> Part:
    """One panel in the rabbets, a step of the grid short of them on each side so that it drops in."""
    room = plan.dado - min(plan.sizes.grid, plan.dado / 2)
    shelves = [
        shelf_step(bay, len(plan.openings), k)
        for bay in range(1, len(plan.openings) + 1)
        for k in range(1, len(plan.shelf_levels) + 1)
    ]
    onto = [*shelves, *(f"divider-{k}" for k in range(1, len(plan.openings)))]
    return piece(
        "back",
        "Back",
        "back",
        plan.key,
        materials[backer.material],
        Extent(
            *(plan.clear[0] - room, plan.clear[1] + room),
            *plan.backer,
            *(plan.bottom, plan.bottom + plan.sizes.on_grid_below(plan.top - plan.bottom)),
        ),
        "yxz",
        joints=tuple(Joint("butt", mate=f"{plan.key}/{step}", fastening="nail") for step in onto),
        shows=("front",),
        notes=("LET IN FROM BEHIND, NAIL INTO SHELVES AND DIVIDERS",),
        made_from=plan.said_in("backer"),
        does=Purpose(bounds=("back",)),
        decided_by=DecidedBy(housing=(*plan.path, "backer", "thickness")),
    )


def _nailed(plan: CasePlan, board: Extent) -> tuple[Joint, ...]:
    """One nail from behind into the edge of each shelf that an upright board crosses, of each divider that
    one across does: in its middle, so that both halves of it move.
    """
    last = len(plan.openings)
    if plan.case.backer is not None and plan.case.backer.direction == "vertical":
        crossed = [min(board.x1, x1) - max(board.x0, x0) for x0, x1 in plan.openings]
        bay = crossed.index(max(crossed)) + 1
        onto = [shelf_step(bay, last, k) for k in range(1, len(plan.shelf_levels) + 1)]
    else:
        onto = [f"divider-{k}" for k in range(1, last)]
    return tuple(Joint("butt", mate=f"{plan.key}/{step}", fastening="nail", fasteners=1) for step in onto)


def _laid(plan: CasePlan, origin: Origin, materials: Materials, grid: Fraction) -> Built:
    backer = plan.case.backer
    layout = backer_layout(plan, grid)
    if backer is None or layout is None:
        return NOTHING
    least = backer.tongue.length + backer.groove.width + backer.gap
    if min(layout.faces) <= least and len(layout.faces) > 1:
        fault = origin.fault(
            "backer",
            (*plan.path, "backer", "face"),
            "the boards at the ends are narrower than tongue, groove and V need",
            help="Choose another face width.",
        )
        return Built(found=(fault,))
    upright = backer.direction == "vertical"
    # Boards side by side are let into the sides' rabbets; boards on top of each other stand on the bottom.
    housing = plan.dado - min(backer.gap, plan.dado / 2) if upright else Fraction(0)
    lines = joint_lines(plan, layout)
    last = len(layout.faces) - 1
    # Where the grid does not meet the end of a row the rabbets hide what it is short of it, both ends alike.
    short = Fraction(0)
    if upright:
        low, high, _ = _profile(
            backer, lines[0], lines[1], plan.backer, first=True, last=not last, housing=housing
        )
        short = high - low - plan.sizes.on_grid_below(high - low)
    made = []
    for k, (a, b) in enumerate(pairwise(lines)):
        ends = k == 0, k == last
        let_in = max(housing - short / sum(ends), Fraction(0)) if any(ends) else housing
        low, high, shape = _profile(backer, a, b, plan.backer, first=ends[0], last=ends[1], housing=let_in)
        made.append(
            _board(
                plan,
                backer,
                materials,
                k + 1,
                low,
                high,
                shape,
                ripped=bool(layout.ripped) and k in (0, last),
                joined=(k > 0, k < last),
            )
        )
    over = left_over(plan.key, "width of the end boards", layout.leftover, "half on each end board")
    return Built(parts=tuple(made), leftovers=over if layout.ripped else ())


def _across(plan: CasePlan, backer: Backer) -> tuple[Fraction, Fraction]:
    return plan.clear if backer.direction == "vertical" else (plan.bottom, plan.top)


def _profile(
    backer: Backer,
    a: Fraction,
    b: Fraction,
    y: tuple[Fraction, Fraction],
    *,
    first: bool,
    last: bool,
    housing: Fraction,
) -> tuple[Fraction, Fraction, list[tuple[Fraction, Fraction]]]:
    """Return where a board starts and ends across, tongue counted, and its section as (across, y) points."""
    y0, y1 = y
    gap, v, deep = backer.gap / 2, backer.groove.width / 2, backer.groove.depth
    tongue, thick = backer.tongue.length, backer.tongue.thickness
    middle = (y0 + y1 - deep) / 2
    t0, t1 = middle - thick / 2, middle + thick / 2
    # Where the gap is wider than half the V, the V has no flank left on that board.
    sloped = v > gap
    points: list[tuple[Fraction, Fraction]] = []
    if first:
        low = a - housing
        points += [(low, y1), (low, y0)]
    else:
        low = a + gap
        points += [(a + v, y1), (low, y1 - deep)] if sloped else [(low, y1)]
        points += [(low, t1), (low + tongue, t1)]
        points += [(low + tongue, y0)] if last else [(low + tongue, t0), (low, t0), (low, y0)]
    if last:
        high = b + housing
        points += [(high, y0), (high, y1)]
    else:
        edge = b - gap
        high = edge + tongue
        points += [(edge, y0), (edge, t0), (high, t0), (high, t1), (edge, t1)]
        points += [(edge, y1 - deep), (b - v, y1)] if sloped else [(edge, y1)]
    return low, high, points


def _board(
    plan: CasePlan,
    backer: Backer,
    materials: Materials,
    number: int,
    low: Fraction,
    high: Fraction,
    points: list[tuple[Fraction, Fraction]],
    *,
    ripped: bool,
    joined: tuple[bool, bool],
) -> Part:
    y0, y1 = plan.backer
    upright = backer.direction == "vertical"
    if upright:
        shape = polygon(points)
        # Under the top it is short of it by what the true thickness of a panel is off the grid.
        z0, z1 = plan.bottom, plan.bottom + plan.sizes.on_grid_below(plan.top - plan.bottom)
        where = Extent(low, high, y0, y1, z0, z1)
        solid, axes = stack("z", ((z0, z1, (shape,)),)), "yxz"
    else:
        shape = polygon([(y, p) for p, y in points])
        x0, x1 = plan.clear[0] - plan.dado, plan.clear[1] + plan.dado
        where = Extent(x0, x1, y0, y1, low, high)
        solid, axes = stack("x", ((x0, x1, (shape,)),)), "yzx"
    joints = []
    if joined[0]:
        joints.append(Joint("groove", width=backer.tongue.thickness, depth=backer.tongue.length))
    if joined[1]:
        joints.append(Joint("tongue", width=backer.tongue.thickness, depth=backer.tongue.length))
    return piece(
        f"board-{number}",
        "Backer board, ripped" if ripped else "Backer board",
        "backer board",
        plan.key,
        materials[backer.material],
        where,
        axes,
        solid=solid,
        joints=tuple(joints),
        shows=("front",),
        notes=("NAIL FROM BEHIND, ONE A LEVEL, IN ITS MIDDLE",) if joined[1] or not joined[0] else (LAST_IN,),
        made_from=plan.said_in("backer"),
        does=Purpose(bounds=("back",), member="board"),
        decided_by=DecidedBy(housing=(*plan.path, "backer", "tongue", "length")),
    )
