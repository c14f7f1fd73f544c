"""What holds a case to the wall and its backer boards to the case: rails or battens at the wall."""

from fractions import Fraction
from math import ceil

from sheets.base.length import snap
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import Purpose
from sheets.resolve.case_plan import CasePlan, Span, ends_of
from sheets.resolve.gather import piece

RAIL_HEIGHT = ("3", "75")
"""Inches, mm: a nailing or hanging rail takes two screws one above the other (common practice)."""
RAIL_SPACING = ("16", "400")
"""Nailing for boards at most this far apart: 16 in o.c. (trade instructions for tongue-and-groove boards)."""
RAIL_STEP = ("1/2", "10")
"""Rails stand on whole steps of this above the bottom, easy to set out."""
TO_THE_WALL = ("SCREW THROUGH INTO STUDS OR BLOCKING",)


def nailing_parts(plan: CasePlan) -> list[Part]:
    """Return the rails, with the battens between them that boards across need."""
    backer = plan.case.backer
    # Boards cover the rails from side to side; without them the rails show, and stop at the dividers.
    spans = [plan.clear] if backer is not None else list(plan.openings)
    levels = nailing_levels(plan)
    made = []
    for k, (low, high) in enumerate(levels, 1):
        highest = k == len(levels)
        for s, (x0, x1) in enumerate(spans, 1):
            ends = ends_of(s - 1, len(spans))
            made.append(
                piece(
                    f"nailing-rail-{k}" if len(spans) == 1 else f"nailing-rail-{k}-{s}",
                    "Hanging rail" if highest else "Nailing rail",
                    "nailing rail",
                    plan.key,
                    plan.carcass,
                    Extent(x0, x1, Fraction(0), plan.board, low, high),
                    "yzx",
                    joints=(
                        *(Joint("butt", mate=f"{plan.key}/{end}", fastening="screw") for end in ends),
                        *_along(plan, low, high),
                    ),
                    shows=() if backer is not None else ("front",),
                    notes=TO_THE_WALL,
                    made_from=plan.made_from,
                    does=Purpose(anchors=True),
                )
            )
    return made + _battens(plan, levels) if _lies_across(plan) else made


def _along(plan: CasePlan, low: Fraction, high: Fraction) -> tuple[Joint, ...]:
    """What lies along a rail, bottom or top, is screwed to it: so its back edge does not hang free."""
    levels = (("bottom", low == plan.bottom), ("top", high == plan.top))
    return tuple(
        Joint("butt", mate=f"{plan.key}/{level}", fastening="screw") for level, meets in levels if meets
    )


def _lies_across(plan: CasePlan) -> bool:
    return plan.case.backer is not None and plan.case.backer.direction == "horizontal"


def nailing_levels(plan: CasePlan) -> list[Span]:
    """Return the lower and upper edge of each rail, from the bottom up: two for boards that run across."""
    backer = plan.case.backer
    height = min(plan.sizes.of(RAIL_HEIGHT), (plan.top - plan.bottom) / 4)
    lows = [plan.bottom, plan.top - height]
    if backer is not None and backer.direction == "vertical":
        lows = _spread(plan.bottom, plan.top - height, plan)
    elif backer is None and plan.shelf_levels and min(plan.bays.heights[0], plan.bays.heights[-1]) <= height:
        lows = [plan.bottom]
        height = min(plan.bays.heights[0], height) / 2
    return [(low, low + height) for low in lows]


def _battens(plan: CasePlan, rails: list[Span]) -> list[Part]:
    """Upright between the lowest rail and the highest, screwed to both; the rails hold them to the wall."""
    x0, x1 = plan.clear
    ends = tuple(
        Joint("butt", mate=f"{plan.key}/nailing-rail-{k}", fastening="screw") for k in (1, len(rails))
    )
    width = min(plan.sizes.of(RAIL_HEIGHT), (x1 - x0) / 4)
    return [
        piece(
            f"batten-{k}",
            "Nailing batten",
            "nailing batten",
            plan.key,
            plan.carcass,
            Extent(x, x + width, Fraction(0), plan.board, rails[0][1], rails[-1][0]),
            "yxz",
            joints=ends,
            made_from=plan.made_from,
        )
        for k, x in enumerate(_spread(x0, x1 - width, plan), 1)
    ]


def _spread(first: Fraction, last: Fraction, plan: CasePlan) -> list[Fraction]:
    """Return starts from first to last, as far apart as nailing may be, on steps but for the last."""
    most = plan.sizes.of(RAIL_SPACING)
    gaps = max(1, ceil((last - first) / most))
    each = min(most, snap((last - first) / gaps, plan.sizes.of(RAIL_STEP), "up"))
    starts = [first + each * k for k in range(gaps)]
    height = plan.sizes.of(RAIL_HEIGHT)
    return [s for k, s in enumerate(starts) if k == 0 or s + height < last] + [last]
