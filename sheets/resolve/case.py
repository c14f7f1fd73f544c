"""One case: its pieces, its stations, its build-ups worth a detail, its section."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic
from sheets.grammar.measure import highest_here, is_under_ceiling, written
from sheets.grammar.schema import Spec
from sheets.model.kind import Kind
from sheets.model.part import Extent, Part
from sheets.model.purpose import DecidedBy
from sheets.model.wall import Component, Cut, Leftover
from sheets.resolve.backer import backer_parts
from sheets.resolve.built import NOTHING, Built, Origin, left_over
from sheets.resolve.caps import CapEnd, CapPlan, build_cap
from sheets.resolve.carcass import carcass_parts
from sheets.resolve.case_details import case_features
from sheets.resolve.case_plan import CasePlan, plan_case
from sheets.resolve.case_shelves import shelf_parts
from sheets.resolve.case_stations import case_stations
from sheets.resolve.edges import saw_cuts
from sheets.resolve.face_frame import frame_parts
from sheets.resolve.gather import settled
from sheets.resolve.layout import End, Layout, Standing
from sheets.resolve.materials import Materials
from sheets.resolve.mirror import mirrored, reflected
from sheets.resolve.nailing import nailing_parts

CASE = Kind("case", "C", "stood up", widths_in="plan")


def resolve_cases(
    spec: Spec, origin: Origin, layout: Layout, materials: Materials, middle_top: Fraction
) -> Built:
    """Return every case; a mirrored one is built once, on the left, and its twin is its exact mirror, but for
    one that departs from it.

    middle_top: height of the mantel or surround that stands between the cases.
    """
    made = NOTHING
    for standing in layout.cases:
        if standing.mirror_of < 0:
            one = _resolve_case(spec, origin, layout, materials, standing, middle_top)
            twin = next((s for s in layout.cases if s.mirror_of == standing.index), None)
            made += one
            if twin is not None and twin.case == standing.case:
                made += mirrored(one, standing.key, twin.key)
            elif twin is not None:
                made += _departing(spec, origin, layout, materials, twin, middle_top)
    return made


def _departing(
    spec: Spec,
    origin: Origin,
    layout: Layout,
    materials: Materials,
    twin: Standing,
    middle_top: Fraction,
) -> Built:
    # Built as the left one is, and then mirrored: what does not depart is the same pieces in the same places.
    turned = layout.in_mirror
    standing = next(s for s in turned.cases if s.key == twin.key)
    return reflected(_resolve_case(spec, origin, turned, materials, standing, middle_top), twin.key)


def _resolve_case(
    spec: Spec,
    origin: Origin,
    layout: Layout,
    materials: Materials,
    standing: Standing,
    middle_top: Fraction,
) -> Built:
    plan, made = plan_case(spec, origin, standing, materials)
    if plan is None:
        return made
    backer = backer_parts(plan, origin, materials, spec.precision)
    cap, over = _cap_plan(spec, origin, layout, plan, materials, middle_top)
    parts = [
        *carcass_parts(plan, materials),
        *shelf_parts(plan, materials),
        *nailing_parts(plan),
        *frame_parts(plan, materials),
        *backer.parts,
        *(build_cap(cap, materials.sizes) if cap else ()),
    ]
    if plan.case.mirrored:
        parts = [replace(part, hand="left") for part in parts]
    return made + Built(
        parts=settled(parts, _decided(plan)),
        components=(_component(plan, parts),),
        stations=case_stations(plan, cap, spec.precision),
        features=tuple(case_features(plan, cap, parts)),
        cuts=(_section(plan),),
        leftovers=backer.leftovers + over,
        found=(*backer.found, *(_refused_cap(spec, origin, plan, cap) if cap else ())),
    )


def _component(plan: CasePlan, parts: Sequence[Part]) -> Component:
    case = plan.case
    side = ", LEFT" if case.mirrored else ""
    facts: dict[str, Fraction | int | str] = {
        "width": plan.x1 - plan.x0,
        "height": case.height,
        "depth": case.depth,
        "compartments": case.bays,
        "shelves": case.shelves.count if case.shelves else 0,
    }
    if plan.standing.left.gap or plan.standing.right.gap:
        facts["scribe"] = max(plan.standing.left.gap, plan.standing.right.gap)
    if case.shelves:
        facts["dado"] = plan.dado
    if case.backer and case.backer.kind == "boards":
        facts["board face"] = case.backer.face
    return Component(
        key=plan.key,
        kind=CASE,
        name=f"{plan.title}{side}",
        extent=around(parts),
        hand="left" if case.mirrored else "",
        facts=facts,
        made_from=plan.made_from,
        decided_by=_decided(plan),
    )


def _decided(plan: CasePlan) -> DecidedBy:
    """A rail high up is lost in a top bay too low to hold one."""
    path = plan.path
    return DecidedBy(
        x=(*path, "width"),
        y=(*path, "depth"),
        z=(*path, "height"),
        count=(*path, "shelves", "count"),
        setback=(*path, "plinth", "setback") if plan.case.plinth else (),
        scribe=(*path, "scribe"),
        anchors=(*path, "shelves", "spacing"),
    )


def around(parts: Sequence[Part]) -> Extent:
    """Return the box that just holds the parts."""
    first = parts[0].extent
    return replace(
        first,
        x0=min(p.extent.x0 for p in parts),
        x1=max(p.extent.x1 for p in parts),
        y0=min(p.extent.y0 for p in parts),
        y1=max(p.extent.y1 for p in parts),
        z0=min(p.extent.z0 for p in parts),
        z1=max(p.extent.z1 for p in parts),
    )


def _cap_plan(
    spec: Spec, origin: Origin, layout: Layout, plan: CasePlan, materials: Materials, middle_top: Fraction
) -> tuple[CapPlan | None, tuple[Leftover, ...]]:
    """The cap, and what the grid left over of its bands."""
    cap = plan.case.cap
    if cap is None:
        return None, ()
    z0, z1 = plan.carcass_top, plan.case.height
    cuts, leftover = saw_cuts(z0, z1, cap.saw_cuts, spec.precision)
    ends = [
        _cap_end(layout, plan, side, end, z0, middle_top, cap.overhang)
        for side, end in ((-1, plan.standing.left), (1, plan.standing.right))
    ]
    made = CapPlan(
        assembly=plan.key,
        name="Cap",
        front=plan.front + cap.overhang,
        overhang=cap.overhang,
        z0=z0,
        z1=z1,
        left=ends[0],
        right=ends[1],
        corner="square" if cap.returns == "square" else "mitred",
        cuts=cuts,
        material=materials[cap.material],
        made_from=origin.made_from((*plan.path, "cap")),
        on_site=True,
        lies_on=(f"{plan.key}/top",),
        glued=cap.fixed == "glued",
    )
    placed = "half to the lowest band, half to the highest"
    return made, left_over(plan.key, "bands of the cap", leftover, placed)


def _cap_end(
    layout: Layout,
    plan: CasePlan,
    side: int,
    end: End,
    z0: Fraction,
    middle_top: Fraction,
    overhang: Fraction,
) -> CapEnd:
    """An end is free, and returned, where nothing stands as high beside it."""
    x = plan.x0 if side < 0 else plan.x1
    if end.meets == "wall":
        return CapEnd(x + side * end.gap)
    if end.meets == "middle" and middle_top > z0:
        return CapEnd(x)
    if end.meets == "case" and layout.cases[end.other].case.height > z0:
        return CapEnd(x)
    if _something_near(layout, plan, side, x, z0, middle_top, overhang):
        return CapEnd(x)
    return CapEnd(x, overhang)


def _refused_cap(spec: Spec, origin: Origin, plan: CasePlan, cap: CapPlan) -> Iterator[Diagnostic]:
    """The case's body was held against the ceiling where it stands; a cap that hangs over reaches farther."""
    reached = [abs(end.outer(side)) for side, end in ((-1, cap.left), (1, cap.right)) if end.overhang]
    outer = max(reached, default=Fraction(0))
    if not is_under_ceiling(spec.room.ceiling, spec.room.width, outer, plan.case.height):
        yield origin.fault(
            "above-the-ceiling",
            (*plan.path, "cap", "overhang"),
            f"the cap's top is {written(plan.case.height, spec)} high and hangs over to "
            f"{written(outer, spec)} from the wall's axis; the ceiling is lower there",
            help=highest_here(spec, outer),
        )


def _something_near(
    layout: Layout,
    plan: CasePlan,
    side: int,
    x: Fraction,
    z0: Fraction,
    middle_top: Fraction,
    overhang: Fraction,
) -> bool:
    """Whether the overhang would run into a neighbour that stands a little way off; two overhangs may
    face."""
    reach = x + side * overhang

    def between(edge: Fraction) -> bool:
        return side * (edge - x) >= 0 and side * (reach - edge) > 0

    if between(side * layout.half_room):
        return True
    if layout.middle and middle_top > z0 and (between(-side * layout.middle)):
        return True
    for other in layout.cases:
        if other.key == plan.key or other.case.height <= z0:
            continue
        edge = other.x0 if side > 0 else other.x1
        own = other.case.cap.overhang if other.case.cap else Fraction(0)
        if between(edge - side * own):
            return True
    return False


def _section(plan: CasePlan) -> Cut:
    size = f"{plan.x1 - plan.x0}x{plan.case.height}x{plan.case.depth}"
    side = ", RIGHT" if plan.standing.mirror_of >= 0 else ""
    return Cut(
        kind="section",
        title=f"SECTION THROUGH {plan.title}{side}",
        owner=plan.key,
        axis="x",
        at=plan.section_at,
        toward=1,
        signature=f"case/{plan.standing.index}{side.lower()}/{size}",
    )
