"""The lines of a case that a drafter dimensions: levels, boards, frame, depths."""

from fractions import Fraction

from sheets.model.part import Axis
from sheets.model.wall import Station
from sheets.resolve.backer import backer_layout, joint_lines
from sheets.resolve.built import chain
from sheets.resolve.caps import CapPlan
from sheets.resolve.case_plan import CasePlan
from sheets.resolve.face_frame import mullions
from sheets.resolve.nailing import rails_of


def case_stations(plan: CasePlan, cap: CapPlan | None, grid: Fraction) -> tuple[Station, ...]:
    """Return all stations of one case."""
    return (*_levels(plan, cap), *_across(plan, cap, grid), *_depths(plan, cap))


def _levels(plan: CasePlan, cap: CapPlan | None) -> list[Station]:
    made: list[Station] = []
    key, case = plan.key, plan.case
    zero = Fraction(0)
    bays = plan.bays
    made.append(Station("z", zero, "major", key, "shelves", "FLOOR"))
    made.append(Station("z", plan.bottom, "minor", key, "shelves", "TOP OF BOTTOM"))
    for bay, level in enumerate(plan.shelf_levels):
        made.append(Station("z", level, "minor", key, "shelves", equal=bays.is_equal(bay)))
        made.append(Station("z", level + plan.shelf, "minor", key, "shelves"))
    made.append(Station("z", plan.top, "minor", key, "shelves", equal=bays.is_equal(-1)))
    made.append(Station("z", plan.carcass_top, "minor", key, "shelves"))
    made.append(Station("z", case.height, "major", key, "shelves", "TOP OF CASE"))
    made += chain("z", (rail.low for rail in rails_of(plan)), "minor", key, "rails")
    made.append(Station("z", zero, "major", key, "height", "FLOOR"))
    made.append(Station("z", case.height, "major", key, "height", "TOP OF CASE"))
    if case.frame or case.plinth:
        levels = [zero, plan.plinth_top]
        if case.frame:
            levels += [plan.plinth_top + case.frame.rail, plan.carcass_top - case.frame.rail]
        made += chain("z", sorted({*levels, plan.carcass_top, case.height}), "minor", key, "frame heights")
    if cap and cap.cuts.levels:
        made += chain("z", (cap.z0, *cap.cuts.edges(), cap.z1), "minor", key, "cap")
    return made


def _across(plan: CasePlan, cap: CapPlan | None, grid: Fraction) -> list[Station]:
    made: list[Station] = []
    key, case = plan.key, plan.case
    outer = (plan.x0 - plan.standing.left.gap, plan.x1 + plan.standing.right.gap)
    ends = sorted({outer[0], plan.x0, plan.x1, outer[1]})
    made += chain("x", outer, "major", key, "width")
    # The scribe is measured with the frame; where there is none, with the sides.
    sides = [plan.x0, plan.clear[0], *(() if case.frame else ends)]
    for left, right in plan.openings:
        sides += [left, right]
    made += chain("x", sorted({*sides, plan.clear[1], plan.x1}), "minor", key, "compartments")
    if case.frame:
        lines = [*ends, plan.seen[0][0], plan.seen[-1][1]]
        for x0, x1 in mullions(plan):
            lines += [x0, x1]
        made += chain("x", sorted(set(lines)), "minor", key, "frame")
    layout = backer_layout(plan, grid)
    if layout and case.backer:
        axis: Axis = "x" if case.backer.direction == "vertical" else "z"
        # The same line is a board's and a side's; the string of boards starts and ends at the sides.
        for line in joint_lines(plan, layout):
            made.append(Station(axis, line, "minor", key, "boards"))
    for end, side in ((cap.left, -1), (cap.right, 1)) if cap else ():
        if end.outer(side) != end.x:
            made += chain("x", sorted((end.x, end.outer(side))), "minor", key, "cap width")
    return made


def _depths(plan: CasePlan, cap: CapPlan | None) -> list[Station]:
    made: list[Station] = []
    key, case = plan.key, plan.case
    depths = {Fraction(0), plan.back, plan.carcass_front, plan.front}
    if case.backer:
        depths.add(plan.backer[0])
    if plan.lip and plan.shelf_levels:
        depths.add(plan.carcass_front - plan.lip)
    if cap:
        depths.add(cap.front)
    made += chain("y", sorted(depths), "minor", key, "depths")
    made += chain("y", (Fraction(0), plan.front), "major", key, "depth")
    if case.plinth:
        face = plan.front - case.plinth.setback
        made += chain("y", sorted({Fraction(0), face, plan.front}), "minor", key, "plinth")
    return made
