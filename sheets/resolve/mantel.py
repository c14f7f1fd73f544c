"""The mantel as a whole: its pieces and its stations."""

from collections.abc import Sequence
from fractions import Fraction

from sheets.grammar.measure import arch_chord, written
from sheets.grammar.schema import Spec
from sheets.model.kind import Kind, Rows
from sheets.model.purpose import DecidedBy
from sheets.model.wall import Component
from sheets.resolve.caps import CapPlan
from sheets.resolve.case import around
from sheets.resolve.gather import Gathered, settled
from sheets.resolve.layers import KEY, Layer, blocking, layer_parts, mantel_cap, mantel_layers
from sheets.resolve.layout import Layout
from sheets.resolve.mantel_details import mantel_cuts, mantel_features
from sheets.resolve.materials import Materials
from sheets.resolve.middle import MantelPlan, Middle
from sheets.resolve.posts import arch_half, arch_parts, arch_planes, breast_sides, corbel_parts, post_parts
from sheets.resolve.surround import post_bottom, post_inner

SHOULDER = Fraction(25)
"""mm: an arch whose shoulders are shorter has a string of its own, not the one of posts and corbels."""

MANTEL = Kind("mantel", "M", rows=Rows("mantel", "mantel", "middle"), about_opening=True, mantel_shelf=True)
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
    spec: Spec, gathered: Gathered, layout: Layout, middle: Middle, materials: Materials, half: Fraction
) -> None:
    """Build the mantel. half: of the enclosure, whose sides it covers where no case does."""
    plan = middle.mantel
    if spec.mantel is None or plan is None:
        return
    _refuse_collisions(spec, gathered, middle, plan)
    layers = mantel_layers(spec, gathered, plan)
    cap, parts = mantel_cap(spec, gathered, layout, middle, plan, materials)
    parts += layer_parts(spec, gathered, layers, middle, materials)
    parts += blocking(spec, gathered, layers, plan, materials)
    parts += post_parts(spec, gathered, middle, materials)
    parts += corbel_parts(spec, gathered, middle, materials)
    parts += arch_parts(spec, gathered, middle, materials)
    parts += breast_sides(spec, gathered, middle, materials, covered_sides(middle), half)
    if not parts:
        return
    gathered.parts.extend(settled(parts, DECIDED))
    facts: dict[str, Fraction | int | str] = {
        "width": 2 * plan.half,
        "top": plan.top,
        "breast": spec.mantel.breast,
        "depth": plan.cap_front,
    }
    gathered.components.append(
        Component(
            key=KEY,
            kind=MANTEL,
            name="MANTEL",
            extent=around(parts),
            facts=facts,
            made_from=gathered.made_from(("mantel",)),
            decided_by=DECIDED,
        )
    )
    _stations(spec, gathered, middle, plan, layers, cap)
    ribs = [p.extent for p in parts if p.name == "Rib"]
    faces = {min(e.x0, e.x1, key=abs) for e in ribs}
    gathered.chain("x", sorted({-plan.half, *faces, plan.half} if ribs else ()), "minor", KEY, "ribs")
    mantel_features(spec, gathered, middle, plan, layers, cap, parts, materials.sizes.of(("3/2", "40")))
    gathered.cuts.extend(mantel_cuts(layers, parts))


def _refuse_collisions(spec: Spec, gathered: Gathered, middle: Middle, plan: MantelPlan) -> None:
    assert spec.mantel is not None
    inner = post_inner(spec, middle)
    if inner is not None and inner <= 0:
        gathered.say("too-wide", ("mantel", "posts", "width"), "the posts leave nothing between them")
    if inner is not None and middle.opening_x and inner < middle.opening_x[1]:
        gathered.say(
            "opening-collides",
            ("mantel", "posts", "width"),
            f"the posts stand "
            f"{written(middle.opening_x[1] - inner, spec)} in front of the opening at each side",
        )
    if plan.layers_bottom <= post_bottom(spec, middle):
        gathered.say("too-high", ("mantel", "layers"), "the layers leave no height under them")
    if middle.opening_z and plan.layers_bottom < middle.opening_z[1]:
        gathered.say(
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
            gathered.say(
                "opening-collides",
                ("mantel", "arch", "rail"),
                "the arched rail is in the way of the appliance's frame",
            )
    corbels = spec.mantel.corbels
    if corbels and plan.layers_bottom - corbels.height < post_bottom(spec, middle):
        gathered.say(
            "too-high", ("mantel", "corbels", "height"), "the corbels reach below what the posts stand on"
        )
    if corbels and frame and not spec.mantel.posts and middle.opening_x and middle.opening_z:
        beside = plan.half - corbels.width
        low = plan.layers_bottom - corbels.height
        if beside < middle.opening_x[1] + frame.width and low < middle.opening_z[1] + frame.width:
            gathered.say(
                "opening-collides",
                ("mantel", "corbels", "width"),
                "the corbels are in the way of the appliance's frame",
            )


def _stations(
    spec: Spec,
    gathered: Gathered,
    middle: Middle,
    plan: MantelPlan,
    layers: Sequence[Layer],
    cap: CapPlan | None,
) -> None:
    assert spec.mantel is not None
    zero = Fraction(0)
    gathered.chain("x", (-plan.half, plan.half), "major", KEY, "width")
    levels = {zero, plan.layers_bottom, plan.fascia_bottom, plan.cap_bottom, plan.top}
    if spec.mantel.arch:
        levels.add(plan.layers_bottom - spec.mantel.arch.rail)
    gathered.chain("z", sorted(levels), "minor", KEY, "layers")
    gathered.station("z", zero, "major", KEY, "height", "FLOOR")
    gathered.station("z", plan.top, "major", KEY, "height", "TOP OF CAP")
    for layer in layers:
        if layer.cuts.levels:
            gathered.chain(
                "z", (layer.z0, *layer.cuts.edges(), layer.z1), "minor", KEY, f"{layer.name.lower()} bands"
            )
    if cap and cap.cuts.levels:
        gathered.chain("z", (cap.z0, *cap.cuts.edges(), cap.z1), "minor", KEY, "cap bands")
    depths = {zero, plan.reference, plan.post_face, *(layer.face for layer in layers)}
    if middle.slab_back:
        depths.add(middle.slab_back)
    if spec.mantel.corbels:
        depths.add(plan.corbel_face)
    if cap:
        depths.add(plan.cap_front)
    gathered.chain("y", sorted(depths), "minor", KEY, "depths")
    gathered.chain("y", sorted({zero, plan.reference, plan.breast}), "minor", KEY, "breast")
    inner = post_inner(spec, middle)
    if inner is not None:
        gathered.chain("x", (-plan.half, -inner, inner, plan.half), "minor", KEY, "front")
        bottom = post_bottom(spec, middle)
        gathered.chain("z", sorted({zero, bottom, plan.layers_bottom}), "minor", KEY, "posts")
    if cap:
        ends = sorted({cap.left.outer(-1), -plan.half, plan.half, cap.right.outer(1)})
        gathered.chain("x", ends, "minor", KEY, "cap width")
    for layer in layers:
        if layer.half != plan.half:
            gathered.chain(
                "x", (-plan.half, -layer.half, layer.half, plan.half), "minor", KEY, layer.name.lower()
            )
    _corbel_and_arch_stations(spec, gathered, middle, plan)


def _corbel_and_arch_stations(spec: Spec, gathered: Gathered, middle: Middle, plan: MantelPlan) -> None:
    assert spec.mantel is not None
    corbels, arch = spec.mantel.corbels, spec.mantel.arch
    if corbels:
        start = plan.half - ((spec.mantel.posts.width - corbels.width) / 2 if spec.mantel.posts else 0)
        as_wide = spec.mantel.posts is None or spec.mantel.posts.width == corbels.width
        edges = (-start, -start + corbels.width, start - corbels.width, start)
        gathered.chain("x", edges, "minor", KEY, "front" if as_wide else "corbels")
        gathered.chain(
            "z", (plan.layers_bottom - corbels.height, plan.layers_bottom), "minor", KEY, "corbels"
        )
        gathered.chain(
            "y",
            sorted({plan.post_face, plan.corbel_face - corbels.curve.rise, plan.corbel_face}),
            "minor",
            KEY,
            "corbels",
        )
    half = arch_half(spec, middle)
    chord = arch_chord(arch, spec.fireplace) if arch else None
    if arch and half is not None and chord is not None:
        beside = half - chord / 2
        own = 0 < beside < SHOULDER
        ends = sorted({-half, -chord / 2, chord / 2, half})
        gathered.chain("x", ends, "minor", KEY, "arch" if own else "front")
        low = plan.layers_bottom - arch.rail
        gathered.chain("z", (low, low + arch.rise, plan.layers_bottom), "minor", KEY, "arch")
        if arch.lining:
            crown, t = low + arch.rise, arch.lining.thickness
            gathered.chain("z", (crown, crown + t), "minor", KEY, "lining")
            if beside:
                gathered.chain("z", (low, low + t), "minor", KEY, "lining ends")
        gathered.chain(
            "y",
            (plan.reference, *arch_planes(spec, middle))
            if arch_planes(spec, middle)[0] != plan.reference
            else arch_planes(spec, middle),
            "minor",
            KEY,
            "arch",
        )
