"""One case: its pieces, its stations, its build-ups worth a detail, its section."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from sheets.grammar.measure import highest_here, is_under_ceiling, written
from sheets.grammar.schema import Spec
from sheets.model.part import Extent, Part
from sheets.model.wall import Component, Cut
from sheets.resolve.backer import backer_parts
from sheets.resolve.caps import CapEnd, CapPlan, build_cap
from sheets.resolve.carcass import carcass_parts
from sheets.resolve.case_details import case_features
from sheets.resolve.case_plan import CasePlan, plan_case
from sheets.resolve.case_stations import case_stations
from sheets.resolve.edges import NO_KERFS, Kerfs, kerfs
from sheets.resolve.face_frame import frame_parts
from sheets.resolve.gather import Gathered
from sheets.resolve.layout import End, Layout, Standing
from sheets.resolve.materials import Materials
from sheets.resolve.mirror import mirrored_component, mirrored_feature, mirrored_part, mirrored_station
from sheets.resolve.nailing import nailing_parts


def resolve_cases(
    spec: Spec, gathered: Gathered, layout: Layout, materials: Materials, middle_top: Fraction
) -> None:
    """Build every case; a mirrored one is built once, on the left, and its twin is its exact mirror.

    middle_top: height of the mantel or surround that stands between the cases.
    """
    for standing in layout.cases:
        if standing.mirror_of < 0:
            _resolve_case(spec, gathered, layout, materials, standing, middle_top)


def _resolve_case(
    spec: Spec,
    gathered: Gathered,
    layout: Layout,
    materials: Materials,
    standing: Standing,
    middle_top: Fraction,
) -> None:
    plan = plan_case(spec, gathered, standing, materials)
    if plan is None:
        return
    starts = (len(gathered.parts), len(gathered.stations), len(gathered.features))
    parts = carcass_parts(plan, materials) + nailing_parts(plan) + frame_parts(plan, materials)
    parts += backer_parts(plan, gathered, materials, spec.precision)
    cap = _cap_plan(spec, gathered, layout, plan, materials, middle_top)
    parts += build_cap(cap, materials.sizes) if cap else []
    if plan.case.mirrored:
        parts = [replace(part, hand="left") for part in parts]
    gathered.parts.extend(parts)
    component = _component(plan, parts)
    gathered.components.append(component)
    case_stations(gathered, plan, cap, spec.precision)
    gathered.features.extend(case_features(plan, cap, parts))
    gathered.cuts.append(_section(plan))
    twin = next((s for s in layout.cases if s.mirror_of == standing.index), None)
    if twin is not None:
        _mirror(gathered, plan, component, twin, starts)


def _mirror(
    gathered: Gathered, plan: CasePlan, component: Component, twin: Standing, starts: tuple[int, int, int]
) -> None:
    old, new = plan.key, twin.key
    gathered.parts.extend([mirrored_part(part, old, new) for part in gathered.parts[starts[0] :]])
    gathered.components.append(mirrored_component(component, new, f"{plan.title}, RIGHT"))
    gathered.stations.extend(
        [mirrored_station(s, new) for s in gathered.stations[starts[1] :] if s.owner == old]
    )
    gathered.features.extend([mirrored_feature(f, old, new) for f in gathered.features[starts[2] :]])


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
    if case.backer:
        facts["board face"] = case.backer.face
    return Component(
        key=plan.key,
        kind="case",
        name=f"{plan.title}{side}",
        extent=around(parts),
        hand="left" if case.mirrored else "",
        facts=facts,
        made_from=plan.made_from,
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
    spec: Spec, gathered: Gathered, layout: Layout, plan: CasePlan, materials: Materials, middle_top: Fraction
) -> CapPlan | None:
    cap = plan.case.cap
    if cap is None:
        return None
    z0, z1 = plan.carcass_top, plan.case.height
    cuts: Kerfs = NO_KERFS
    if cap.saw_cuts:
        cuts, leftover = kerfs(
            z0, z1, cap.saw_cuts.count, cap.saw_cuts.width, cap.saw_cuts.depth, spec.precision
        )
        gathered.left_over(
            plan.key, "bands of the cap", leftover, "half to the lowest band, half to the highest"
        )
    ends = [
        _cap_end(layout, plan, side, end, z0, middle_top, cap.overhang)
        for side, end in ((-1, plan.standing.left), (1, plan.standing.right))
    ]
    _refuse_cap_above_ceiling(spec, gathered, plan, ends)
    return CapPlan(
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
        made_from=gathered.made_from((*plan.path, "cap")),
        glued_to=f"{plan.key}/top" if cap.fixed == "glued" else "",
    )


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


def _refuse_cap_above_ceiling(
    spec: Spec, gathered: Gathered, plan: CasePlan, ends: Sequence[CapEnd]
) -> None:
    """The case's body was held against the ceiling where it stands; a cap that hangs over reaches farther."""
    reached = [abs(end.outer(side)) for side, end in zip((-1, 1), ends, strict=True) if end.overhang]
    outer = max(reached, default=Fraction(0))
    if not is_under_ceiling(spec.room.ceiling, spec.room.width, outer, plan.case.height):
        gathered.say(
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
    return Cut(
        kind="section",
        title=f"SECTION THROUGH {plan.title}",
        owner=plan.key,
        axis="x",
        at=plan.section_at,
        toward=1,
        signature=f"case/{plan.standing.index}/{size}",
    )
