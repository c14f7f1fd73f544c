"""The mantel as a whole: its pieces and its stations."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic
from sheets.grammar.measure import arch_chord, written
from sheets.grammar.schema import Mantel, Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Part
from sheets.model.purpose import DecidedBy
from sheets.model.wall import Component, Station
from sheets.resolve.built import NOTHING, Built, Origin, chain
from sheets.resolve.caps import CapPlan, build_cap
from sheets.resolve.case import around
from sheets.resolve.gather import settled
from sheets.resolve.joining import mated
from sheets.resolve.layers import KEY, Layer, blocking, layer_parts, mantel_cap, mantel_layers
from sheets.resolve.layout import Layout
from sheets.resolve.mantel_details import mantel_cuts, mantel_features
from sheets.resolve.materials import Materials
from sheets.resolve.middle import MantelPlan, Middle
from sheets.resolve.posts import arch_half, arch_parts, arch_planes, breast_sides, corbel_parts, post_parts
from sheets.resolve.surround import post_bottom, post_inner

SHOULDER = Fraction(25)
"""mm: an arch whose shoulders are shorter has a string of its own, not the one of posts and corbels."""

MANTEL = Kind(
    "mantel",
    "M",
    rows=Rows("mantel", "mantel", "middle"),
    about_opening=True,
    mantel_shelf=True,
    lies_on_masonry=True,
)
DECIDED = DecidedBy(
    x=("mantel", "width"),
    y=("mantel", "breast"),
    z=("mantel", "top"),
    front=("mantel", "breast"),
    off_fire=("mantel", "top"),
    anchors=("mantel", "layers"),
)


def covered_sides(middle: Middle) -> tuple[bool, bool]:
    """Return whether a case hides the left and the right side of the mantel's enclosure."""
    if middle.mantel is None:
        return (False, False)
    bottom, back = middle.mantel.layers_bottom, middle.slab_back
    cases = (middle.case_beside(-1), middle.case_beside(1))
    return (
        cases[0] is not None and cases[0].case.height >= bottom and cases[0].case.depth >= back,
        cases[1] is not None and cases[1].case.height >= bottom and cases[1].case.depth >= back,
    )


def resolve_mantel(
    spec: Spec, origin: Origin, layout: Layout, middle: Middle, materials: Materials, half: Fraction
) -> Built:
    """Return the mantel. half: of the enclosure, whose sides it covers where no case does."""
    plan = middle.mantel
    if spec.mantel is None or plan is None:
        return NOTHING
    layers, over = mantel_layers(spec, plan)
    blocks = blocking(spec, origin, layers, plan, materials)
    cap, more = mantel_cap(spec, origin, layout, plan, materials, blocks)
    arch = arch_parts(spec, origin, middle, materials)
    found = (*_refused_collisions(spec, origin, middle, plan), *arch.found)
    parts = (
        *(build_cap(cap, materials.sizes) if cap else ()),
        *layer_parts(spec, origin, layers, middle, materials),
        *blocks,
        *post_parts(spec, origin, middle, materials),
        *corbel_parts(spec, origin, middle, materials),
        *arch.parts,
        *breast_sides(spec, origin, middle, materials, covered_sides(middle), half),
    )
    if not parts:
        return Built(leftovers=over + more, found=found)
    return Built(
        parts=settled(mated(parts), DECIDED),
        components=(_component(spec.mantel, origin, plan, parts),),
        stations=(*_stations(spec, middle, plan, layers, cap), *_rib_stations(plan, parts)),
        features=mantel_features(spec, middle, plan, layers, cap, parts, materials.sizes.of(("3/2", "40"))),
        cuts=mantel_cuts(layers, parts),
        leftovers=over + more,
        found=found,
    )


def _component(said: Mantel, origin: Origin, plan: MantelPlan, parts: Sequence[Part]) -> Component:
    facts: dict[str, Fraction | int | str] = {
        "width": 2 * plan.half,
        "top": plan.top,
        "breast": said.breast,
        "depth": plan.cap_front,
    }
    return Component(
        key=KEY,
        kind=MANTEL,
        name="MANTEL",
        extent=around(parts),
        facts=facts,
        made_from=origin.made_from(("mantel",)),
        decided_by=DECIDED,
    )


def _refused_collisions(spec: Spec, origin: Origin, middle: Middle, plan: MantelPlan) -> Iterator[Diagnostic]:
    assert spec.mantel is not None
    inner = post_inner(spec, middle)
    if inner is not None and inner <= 0:
        yield origin.fault("too-wide", ("mantel", "posts", "width"), "the posts leave nothing between them")
    if inner is not None and middle.opening_x and inner < middle.opening_x[1]:
        yield origin.fault(
            "opening-collides",
            ("mantel", "posts", "width"),
            f"the posts stand "
            f"{written(middle.opening_x[1] - inner, spec)} in front of the opening at each side",
        )
    if plan.layers_bottom <= post_bottom(spec, middle):
        yield origin.fault("too-high", ("mantel", "layers"), "the layers leave no height under them")
    if middle.opening_z and plan.layers_bottom < middle.opening_z[1]:
        yield origin.fault(
            "opening-collides",
            ("mantel", "layers"),
            f"the layers hang {written(middle.opening_z[1] - plan.layers_bottom, spec)} into the opening",
        )
    frame = spec.fireplace.frame if spec.fireplace else None
    arch = spec.mantel.arch
    if frame and arch and middle.opening_z and middle.opening_x:
        back, _ = arch_planes(spec, middle)
        low = plan.layers_bottom - arch.rail
        if middle.face + frame.projection > back and middle.opening_z[1] + frame.width > low:
            yield origin.fault(
                "opening-collides",
                ("mantel", "arch", "rail"),
                "the arched rail is in the way of the appliance's frame",
            )
    corbels = spec.mantel.corbels
    if corbels and plan.layers_bottom - corbels.height < post_bottom(spec, middle):
        yield origin.fault(
            "too-high", ("mantel", "corbels", "height"), "the corbels reach below what the posts stand on"
        )
    if corbels and frame and not spec.mantel.posts and middle.opening_x and middle.opening_z:
        beside = plan.half - corbels.width
        low = plan.layers_bottom - corbels.height
        if beside < middle.opening_x[1] + frame.width and low < middle.opening_z[1] + frame.width:
            yield origin.fault(
                "opening-collides",
                ("mantel", "corbels", "width"),
                "the corbels are in the way of the appliance's frame",
            )


def _rib_stations(plan: MantelPlan, parts: Sequence[Part]) -> tuple[Station, ...]:
    ribs = [p.extent for p in parts if p.name == "Rib"]
    faces = {min(e.x0, e.x1, key=abs) for e in ribs}
    return chain("x", sorted({-plan.half, *faces, plan.half} if ribs else ()), "minor", KEY, "ribs")


def _stations(
    spec: Spec, middle: Middle, plan: MantelPlan, layers: Sequence[Layer], cap: CapPlan | None
) -> list[Station]:
    assert spec.mantel is not None
    zero = Fraction(0)
    made: list[Station] = []
    made += chain("x", (-plan.half, plan.half), "major", KEY, "width")
    levels = {zero, plan.layers_bottom, plan.fascia_bottom, plan.cap_bottom, plan.top}
    if spec.mantel.arch:
        levels.add(plan.layers_bottom - spec.mantel.arch.rail)
    made += chain("z", sorted(levels), "minor", KEY, "layers")
    made.append(Station("z", zero, "major", KEY, "height", "FLOOR"))
    made.append(Station("z", plan.top, "major", KEY, "height", "TOP OF CAP"))
    for layer in layers:
        if layer.cuts.levels:
            made += chain(
                "z", (layer.z0, *layer.cuts.edges(), layer.z1), "minor", KEY, f"{layer.name.lower()} bands"
            )
    if cap and cap.cuts.levels:
        made += chain("z", (cap.z0, *cap.cuts.edges(), cap.z1), "minor", KEY, "cap bands")
    depths = {zero, plan.reference, plan.post_face, *(layer.face for layer in layers)}
    if middle.slab_back:
        depths.add(middle.slab_back)
    if spec.mantel.corbels:
        depths.add(plan.corbel_face)
    if cap:
        depths.add(plan.cap_front)
    made += chain("y", sorted(depths), "minor", KEY, "depths")
    made += chain("y", sorted({zero, plan.reference, plan.breast}), "minor", KEY, "breast")
    inner = post_inner(spec, middle)
    if inner is not None:
        made += chain("x", (-plan.half, -inner, inner, plan.half), "minor", KEY, "front")
        bottom = post_bottom(spec, middle)
        made += chain("z", sorted({zero, bottom, plan.layers_bottom}), "minor", KEY, "posts")
    if cap:
        ends = sorted({cap.left.outer(-1), -plan.half, plan.half, cap.right.outer(1)})
        made += chain("x", ends, "minor", KEY, "cap width")
    for layer in layers:
        if layer.half != plan.half:
            made += chain(
                "x", (-plan.half, -layer.half, layer.half, plan.half), "minor", KEY, layer.name.lower()
            )
    return made + _corbel_stations(spec.mantel, plan) + _arch_stations(spec, middle, plan)


def _corbel_stations(said: Mantel, plan: MantelPlan) -> list[Station]:
    made: list[Station] = []
    corbels = said.corbels
    if corbels:
        start = plan.half - ((said.posts.width - corbels.width) / 2 if said.posts else 0)
        as_wide = said.posts is None or said.posts.width == corbels.width
        edges = (-start, -start + corbels.width, start - corbels.width, start)
        made += chain("x", edges, "minor", KEY, "front" if as_wide else "corbels")
        made += chain("z", (plan.layers_bottom - corbels.height, plan.layers_bottom), "minor", KEY, "corbels")
        made += chain(
            "y",
            sorted({plan.post_face, plan.corbel_face - corbels.curve.rise, plan.corbel_face}),
            "minor",
            KEY,
            "corbels",
        )
    return made


def _arch_stations(spec: Spec, middle: Middle, plan: MantelPlan) -> list[Station]:
    made: list[Station] = []
    arch, half = spec.mantel.arch if spec.mantel else None, arch_half(spec, middle)
    chord = arch_chord(arch, spec.fireplace) if arch else None
    if arch and half is not None and chord is not None:
        beside = half - chord / 2
        own = 0 < beside < SHOULDER
        ends = sorted({-half, -chord / 2, chord / 2, half})
        made += chain("x", ends, "minor", KEY, "arch" if own else "front")
        low = plan.layers_bottom - arch.rail
        made += chain("z", (low, low + arch.rise, plan.layers_bottom), "minor", KEY, "arch")
        if arch.lining:
            crown, t = low + arch.rise, arch.lining.thickness
            made += chain("z", (crown, crown + t), "minor", KEY, "lining")
            if beside:
                made += chain("z", (low, low + t), "minor", KEY, "lining ends")
        made += chain(
            "y",
            (plan.reference, *arch_planes(spec, middle))
            if arch_planes(spec, middle)[0] != plan.reference
            else arch_planes(spec, middle),
            "minor",
            KEY,
            "arch",
        )
    return made
