"""The front of a case: stiles with their scribe, rails and mullions; a scribe strip where there is no
frame."""

from fractions import Fraction
from itertools import pairwise

from sheets.model.part import Extent, Hand, Joint, Part
from sheets.model.purpose import DecidedBy, Purpose
from sheets.resolve.case_plan import CasePlan
from sheets.resolve.gather import piece
from sheets.resolve.joining import across_glued
from sheets.resolve.layout import End
from sheets.resolve.materials import Materials


def _on(plan: CasePlan, piece_behind: str) -> Joint:
    """The frame is glued to the front edges of the carcass."""
    return Joint("butt", mate=f"{plan.key}/{piece_behind}", fastening="glue")


def _dowelled(plan: CasePlan, *mates: str) -> tuple[Joint, ...]:
    """Two dowels a joint; a wide rail is glued in part, so that it can move."""
    frame = plan.case.frame
    assert frame is not None
    glued = across_glued(frame.rail, plan.sizes)
    return tuple(
        Joint("dowel", f"{plan.key}/{mate}", count=2, fastening="glue", glued=glued) for mate in mates
    )


def frame_parts(plan: CasePlan, materials: Materials) -> list[Part]:
    """Return the pieces of the face frame, or the strips that fill the scribe."""
    frame = plan.case.frame
    ends = (("left", plan.standing.left), ("right", plan.standing.right))
    if frame is None:
        return [_strip(plan, which, end) for which, end in ends if end.gap]
    material = materials[frame.material]
    y0, y1 = plan.carcass_front, plan.front
    made = [_stile(plan, which, end, materials) for which, end in ends]
    inner0, inner1 = plan.seen[0][0], plan.seen[-1][1]
    rails = (
        ("bottom-rail", "Bottom rail", plan.plinth_top, "bottom"),
        ("top-rail", "Top rail", plan.carcass_top - frame.rail, "top"),
    )
    for step, name, z, behind in rails:
        made.append(
            piece(
                step,
                name,
                "rail",
                plan.key,
                material,
                Extent(inner0, inner1, y0, y1, z, z + frame.rail),
                "yzx",
                joints=(*_dowelled(plan, "stile-left", "stile-right"), _on(plan, behind)),
                shows=("front",),
                made_from=plan.said_in("frame"),
                does=Purpose(lines=("level",), face="frame"),
                decided_by=DecidedBy(width=(*plan.path, "frame", "rail")),
            )
        )
    for k, (x0, x1) in enumerate(mullions(plan), 1):
        made.append(
            piece(
                f"mullion-{k}",
                "Mullion",
                "mullion",
                plan.key,
                material,
                Extent(x0, x1, y0, y1, plan.plinth_top + frame.rail, plan.carcass_top - frame.rail),
                "yxz",
                joints=(*_dowelled(plan, "bottom-rail", "top-rail"), _on(plan, f"divider-{k}")),
                shows=("front",),
                made_from=plan.said_in("frame"),
                decided_by=DecidedBy(width=(*plan.path, "frame", "mullion")),
            )
        )
    return made


def mullions(plan: CasePlan) -> list[tuple[Fraction, Fraction]]:
    """Return where the mullions stand: between the openings that are seen, each before a divider."""
    if plan.case.frame is None:
        return []
    return [(left, right) for (_, left), (right, _) in pairwise(plan.seen)]


def _stile(plan: CasePlan, which: str, end: End, materials: Materials) -> Part:
    frame = plan.case.frame
    assert frame is not None
    x0, x1 = (
        (plan.x0 - end.gap, plan.seen[0][0])
        if which == "left"
        else (plan.seen[-1][1], plan.x1 + end.gap)
    )
    joints = (*_dowelled(plan, "bottom-rail", "top-rail"), _on(plan, f"side-{which}"))
    notes: tuple[str, ...] = ()
    if end.gap:
        joints += (Joint("scribe", width=end.gap),)
        notes = ("BACK-BEVEL AND SCRIBE TO WALL",)
    return piece(
        f"stile-{which}",
        "Stile",
        "stile",
        plan.key,
        materials[frame.material],
        Extent(x0, x1, plan.carcass_front, plan.front, plan.plinth_top, plan.carcass_top),
        "yxz",
        joints=joints,
        shows=("front", which) if end.seen else ("front",),
        notes=notes,
        hand=_hand(which),
        made_from=plan.said_in("frame"),
        does=Purpose(lines=("upright",), face="frame", member="stile"),
        decided_by=DecidedBy(width=(*plan.path, "frame", "stile")),
    )


def _strip(plan: CasePlan, which: str, end: End) -> Part:
    x0, x1 = (plan.x0 - end.gap, plan.x0) if which == "left" else (plan.x1, plan.x1 + end.gap)
    return piece(
        f"scribe-{which}",
        "Scribe strip",
        "scribe",
        plan.key,
        plan.carcass,
        Extent(x0, x1, plan.front - plan.board, plan.front, plan.plinth_top, plan.carcass_top),
        "xyz",
        joints=(
            Joint("scribe", width=end.gap),
            Joint("butt", mate=f"{plan.key}/side-{which}", fastening="screw"),
        ),
        shows=("front",),
        edged=("front",) if plan.carcass.kind == "panel" else (),
        notes=("SCRIBE TO WALL",),
        hand=_hand(which),
        made_from=plan.made_from,
        does=Purpose(on_site=True),
    )


def _hand(which: str) -> Hand:
    return "left" if which == "left" else "right"
