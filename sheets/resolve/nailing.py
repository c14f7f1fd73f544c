"""What holds a case to the wall and the boards of its back to the case: rails, and battens where boards lie
across.

A back goes in from behind, the case on its face: the boards against the shoulders of the sides' rabbets and
the back edges of shelves and dividers, where they are nailed; then the rails over them, let in between the
rabbets, screwed to bottom and top and to each board. The case is screwed to the wall on site, from inside,
through boards and rails.
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from sheets.base.length import snap
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import Purpose
from sheets.resolve.backer import backer_layout
from sheets.resolve.case_plan import CasePlan, ends_of
from sheets.resolve.gather import piece

RAIL_HEIGHT = ("3", "75")
"""Inches, mm: a nailing or hanging rail takes two screws one above the other (common practice)."""
RAIL_SPACING = ("16", "400")
"""Boards are held at most this far apart: 16 in o.c. (trade instructions for tongue-and-groove boards)."""
RAIL_STEP = ("1/2", "10")
"""Rails stand on whole steps of this above the bottom, easy to set out."""
TO_THE_WALL = "SCREW THROUGH INTO STUDS OR BLOCKING ON SITE"
FROM_INSIDE = f"{TO_THE_WALL}, FROM INSIDE, THROUGH BACK AND RAIL; PLUG THE HEADS"
FROM_BEHIND = "LET IN FROM BEHIND, SCREW INTO WHAT LIES BEFORE IT"


@dataclass(frozen=True, slots=True)
class Rail:
    """One level of rails: where it lies, and whether it holds the case to the wall."""

    step: str
    name: str
    low: Fraction
    high: Fraction
    anchors: bool


def nailing_parts(plan: CasePlan) -> list[Part]:
    """Return the rails, with the battens between them that boards across need."""
    backer, rails = plan.case.backer, rails_of(plan)
    if backer is None:
        return [_bare(plan, rail, place) for rail in rails for place in range(len(plan.openings))]
    made = [_covered(plan, rail, plan.back - plan.rail) for rail in rails]
    return made + _battens(plan, rails) if _lies_across(plan) else made


def _lies_across(plan: CasePlan) -> bool:
    backer = plan.case.backer
    return backer is not None and backer.kind == "boards" and backer.direction == "horizontal"


def rail_step(plan: CasePlan, rail: Rail, place: int) -> str:
    """Return the step of a rail's piece: one in each compartment, from the left, where no back covers it."""
    whole = plan.case.backer is not None or len(plan.openings) == 1
    return rail.step if whole else f"{rail.step}-{place + 1}"


def _covered(plan: CasePlan, rail: Rail, covered: Fraction) -> Part:
    x0, x1 = plan.clear[0] - plan.dado, plan.clear[1] + plan.dado
    return piece(
        rail.step,
        rail.name,
        "nailing rail",
        plan.key,
        plan.hidden,
        Extent(x0, x1, Fraction(0), plan.rail, rail.low, rail.high),
        "yzx",
        joints=(*_butted(plan, ("side-left", "side-right")), *_along(plan, rail), *_into_boards(plan)),
        notes=(FROM_BEHIND, *((FROM_INSIDE,) if rail.anchors else ())),
        made_from=plan.made_from,
        does=Purpose(anchors=True, covered=covered) if rail.anchors else Purpose(),
    )


def _bare(plan: CasePlan, rail: Rail, place: int) -> Part:
    """Without a back the rails show, and stop at the dividers."""
    x0, x1 = plan.openings[place]
    # A wall screw breaks out of fibreboard, which the carcass may be.
    material = plan.hidden if plan.carcass.look == "fibreboard" else plan.carcass
    return piece(
        rail_step(plan, rail, place),
        rail.name,
        "nailing rail",
        plan.key,
        material,
        Extent(x0, x1, Fraction(0), plan.rail, rail.low, rail.high),
        "yzx",
        joints=(*_butted(plan, ends_of(place, len(plan.openings)), "screw"), *_along(plan, rail)),
        shows=("front", "bottom" if rail.high == plan.top else "top"),
        edged=("bottom" if rail.high == plan.top else "top",) if material.kind == "panel" else (),
        notes=(f"{TO_THE_WALL}; PLUG THE HEADS",),
        made_from=plan.made_from,
        does=Purpose(anchors=True),
    )


def _butted(plan: CasePlan, ends: tuple[str, str], fastening: str = "") -> tuple[Joint, ...]:
    return tuple(Joint("butt", mate=f"{plan.key}/{end}", fastening=fastening) for end in ends)


def _into_boards(plan: CasePlan) -> tuple[Joint, ...]:
    """One screw into each board, in its middle, so that both halves of it move; a plain back is screwed along
    the rail.
    """
    if plan.case.backer is not None and plan.case.backer.kind == "plain":
        return (Joint("butt", mate=f"{plan.key}/back", fastening="screw"),)
    layout = backer_layout(plan, plan.sizes.grid)
    count = len(layout.faces) if layout else 0
    return tuple(
        Joint("butt", mate=f"{plan.key}/board-{k}", fastening="screw", fasteners=1)
        for k in range(1, count + 1)
    )


def _along(plan: CasePlan, rail: Rail) -> tuple[Joint, ...]:
    """What lies along a rail, bottom or top, is screwed to it: so its back edge does not hang free."""
    levels = (("bottom", rail.low == plan.bottom), ("top", rail.high == plan.top))
    return tuple(
        Joint("butt", mate=f"{plan.key}/{level}", fastening="screw") for level, meets in levels if meets
    )


def rails_of(plan: CasePlan) -> list[Rail]:
    """Return the rails from the bottom up: at bottom and top to hold the case to the wall, and between them
    where upright boards have no shelf to be nailed to within what they may span.

    Where nothing covers the rails and the bays are too low to hold both, one lies in the lowest bay.
    """
    backer, bays = plan.case.backer, plan.bays.heights
    height = min(plan.sizes.of(RAIL_HEIGHT), (plan.top - plan.bottom) / 4)
    if backer is None and plan.shelf_levels and min(bays[0], bays[-1]) <= height:
        half = min(bays[0], height) / 2
        return [Rail("hanging-rail", "Hanging rail", plan.bottom, plan.bottom + half, True)]
    boards = backer is not None and backer.kind == "boards"
    between = _between(plan, height) if boards and not _lies_across(plan) else []
    return [
        Rail("lower-hanging-rail", "Lower hanging rail", plan.bottom, plan.bottom + height, True),
        *(
            Rail(f"nailing-rail-{k}", "Nailing rail", low, low + height, False)
            for k, low in enumerate(between, 1)
        ),
        Rail("hanging-rail", "Hanging rail", plan.top - height, plan.top, True),
    ]


def _between(plan: CasePlan, height: Fraction) -> list[Fraction]:
    """Lower edges of rails where the middles of shelves, and of the rails at bottom and top, are too far
    apart."""
    shelves = [level + plan.shelf / 2 for level in plan.shelf_levels]
    held = [plan.bottom + height / 2, *shelves, plan.top - height / 2]
    most, step = plan.sizes.of(RAIL_SPACING), plan.sizes.of(RAIL_STEP)
    found = []
    for low, high in pairwise(held):
        gaps = ceil((high - low) / most)
        for k in range(1, gaps):
            middle = low + (high - low) * k / gaps
            found.append(plan.bottom + snap(middle - height / 2 - plan.bottom, step))
    return found


def _battens(plan: CasePlan, rails: list[Rail]) -> list[Part]:
    """Upright between the lowest rail and the highest, screwed from behind to each board."""
    x0, x1 = plan.clear
    width = min(plan.sizes.of(RAIL_HEIGHT), (x1 - x0) / 4)
    top = rails[0].high + plan.sizes.on_grid_below(rails[-1].low - rails[0].high)
    return [
        piece(
            f"batten-{k}",
            "Nailing batten",
            "nailing batten",
            plan.key,
            plan.hidden,
            Extent(x, x + width, Fraction(0), plan.rail, rails[0].high, top),
            "yxz",
            joints=_into_boards(plan),
            notes=(FROM_BEHIND,),
            made_from=plan.made_from,
        )
        for k, x in enumerate(_spread(x0, x1 - width, plan), 1)
    ]


def _spread(first: Fraction, last: Fraction, plan: CasePlan) -> list[Fraction]:
    """Return starts from first to last, as far apart as nailing may be; those on the right mirror those on
    the left, which stand on steps.
    """
    gaps = max(1, ceil((last - first) / plan.sizes.of(RAIL_SPACING)))
    step = plan.sizes.of(RAIL_STEP)
    left = [first + snap((last - first) * k / gaps, step) for k in range((gaps + 1) // 2)]
    middle = [] if gaps % 2 else [(first + last) / 2]
    return [*left, *middle, *(first + last - start for start in reversed(left))]
