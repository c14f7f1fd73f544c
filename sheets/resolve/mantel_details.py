"""What of the mantel is worth drawing large, and where it is cut.

Details of build-up, return, corbel and post; the section on the axis and the plan of the box.
"""

from collections.abc import Sequence
from fractions import Fraction

from sheets.grammar.measure import written
from sheets.grammar.schema import Corbels, Mantel, Posts, Spec
from sheets.model.part import Part
from sheets.model.wall import Cut, Feature
from sheets.resolve.caps import CapPlan
from sheets.resolve.features import box, feature
from sheets.resolve.layers import KEY, Layer
from sheets.resolve.middle import MantelPlan, Middle
from sheets.resolve.mirror import mirrored_feature
from sheets.resolve.surround import post_bottom

_BUILD_UP = (
    "cap",
    "cap board",
    "fascia",
    "sub-fascia",
    "blocking",
    "packing",
    "soffit",
    "arched rail",
    "arch lining",
)


def mantel_cuts(layers: Sequence[Layer], parts: Sequence[Part]) -> tuple[Cut, ...]:
    """Return the section on the axis and, where there is a box with ribs behind the layers, its plan."""
    cuts = [Cut("section", "SECTION THROUGH MANTEL", KEY, "x", Fraction(0), 1, "mantel")]
    if layers and any(part.name == "Rib" for part in parts):
        cuts.append(Cut("plan", "PLAN THROUGH MANTEL BOX", KEY, "z", box_level(layers), 1, "mantel box"))
    return tuple(cuts)


def box_level(layers: Sequence[Layer]) -> Fraction:
    """Return z about the middle of the tallest layer, and in no saw cut of it."""
    layer = max(layers, key=lambda one: (one.z1 - one.z0, one.z1))
    middle = (layer.z0 + layer.z1) / 2
    bands = (layer.z0, *layer.cuts.edges(), layer.z1)
    # Bands and saw cuts take turns: every other pair is a band.
    low, high = min(
        zip(bands[::2], bands[1::2], strict=True), key=lambda band: (abs(sum(band) / 2 - middle), band)
    )
    return (low + high) / 2


def mantel_features(
    spec: Spec,
    middle: Middle,
    plan: MantelPlan,
    layers: Sequence[Layer],
    cap: CapPlan | None,
    parts: Sequence[Part],
    m: Fraction,
) -> tuple[Feature, ...]:
    """Return the build-ups of the mantel. m: the margin round what a detail shows."""
    assert spec.mantel is not None
    made: list[Feature] = []
    if layers or cap:
        made.append(_build_up(spec, plan, layers, cap, parts, m))
    if layers:
        made.append(_return(plan, layers, parts, m))
    if spec.mantel.corbels:
        made += _both(_corbel(spec.mantel, spec.mantel.corbels, plan, parts, m))
    # The edge of a surround that runs under the post is detailed with the post before it.
    alone = middle.surround_x is None or middle.surround_x[1] < plan.half
    if spec.mantel.posts and alone:
        made += _both(_post(spec.mantel.posts, post_bottom(spec, middle), plan, parts, m))
    return tuple(made)


def _both(left: Feature) -> tuple[Feature, Feature]:
    return left, mirrored_feature(left, KEY, KEY)


def _corbel(
    said: Mantel, corbels: Corbels, plan: MantelPlan, parts: Sequence[Part], m: Fraction
) -> Feature:
    e = next(part for part in parts if part.key == f"{KEY}/corbel-left").extent
    where = box((e.x0, e.x1), (plan.reference - m, max(e.y1, plan.cap_front) + m), (e.z0 - m, plan.top + m))
    return feature(
        "corbel",
        "CORBEL ON POST" if said.posts else "CORBEL",
        KEY,
        "x",
        e.middle("x"),
        where,
        parts,
        ("corbel", "post", "post face", "fascia", "sub-fascia", "cap"),
        (corbels.height, corbels.width, corbels.projection, corbels.curve.rise),
        (
            "CURVE BY CHORD AND RISE; SEE FULL-SIZE PATTERN",
            *(("SCREW FROM BEHIND BEFORE THE POST IS SET",) if said.posts else ()),
        ),
        order=40,
    )


def _post(posts: Posts, bottom: Fraction, plan: MantelPlan, parts: Sequence[Part], m: Fraction) -> Feature:
    level = bottom + 6 * m
    where = box(
        (-plan.half - 3 * m, -plan.half + posts.width + 2 * m),
        (plan.reference - 2 * m, plan.post_face + m),
        (level, level),
    )
    boxed = any(p.role == "post face" for p in parts)
    return feature(
        "post",
        "POST IN PLAN",
        KEY,
        "z",
        min(level, (bottom + plan.layers_bottom) / 2),
        where,
        parts,
        ("post", "post face", "post side"),
        (posts.width, plan.post_face - plan.reference, posts.material),
        ("MITRE FULL LENGTH, SPLINE AND GLUE",) if boxed else (),
    )


def _return(plan: MantelPlan, layers: Sequence[Layer], parts: Sequence[Part], m: Fraction) -> Feature:
    """The corner where the front of the layers turns to the side, in plan."""
    level = box_level(layers)
    front = max(layer.face for layer in layers)
    inner = min(layer.inner for layer in layers)
    back = min(layer.back for layer in layers)
    where = box((-plan.half - m, -inner + 2 * m), (max(Fraction(0), back - 3 * m), front + m), (level, level))
    roles = [role for layer in layers for role in (layer.step, f"{layer.step} return")]
    packing = {f"{KEY}/{layer.step}-packing" for layer in layers}
    behind = "BACKING AND PACKING" if any(part.key in packing for part in parts) else "BACKING"
    return feature(
        "mantel return",
        "MANTEL RETURN IN PLAN",
        KEY,
        "z",
        level,
        where,
        parts,
        (*roles, "packing", "blocking"),
        tuple((layer.said.thickness, layer.said.setback) for layer in layers),
        ("BOTH ENDS ALIKE", f"FIX FROM BEHIND THROUGH {behind}"),
        order=20,
    )


def _build_up(
    spec: Spec,
    plan: MantelPlan,
    layers: Sequence[Layer],
    cap: CapPlan | None,
    parts: Sequence[Part],
    m: Fraction,
) -> Feature:
    front = max([plan.cap_front, *(layer.face for layer in layers)])
    back = min([plan.breast, *(layer.back for layer in layers)]) - 3 * m
    low = plan.layers_bottom - (
        2 * m if not (spec.mantel and spec.mantel.arch) else spec.mantel.arch.rail - spec.mantel.arch.rise + m
    )
    where = box(
        (Fraction(0), Fraction(0)), (max(Fraction(0), back), front + m), (max(Fraction(0), low), plan.top + m)
    )
    says = []
    if cap:
        says.append("CAP OVERHANGS FRONT AND ENDS ALIKE")
    says += [
        f"SAW CUTS BREAK THE {layer.name.upper()} INTO {len(layer.cuts.levels) + 1} BANDS"
        for layer in layers
        if layer.cuts.levels
    ]
    says += [
        f"{layer.name.upper()} SET BACK {written(layer.said.setback, spec)}"
        for layer in layers
        if layer.said.setback
    ]
    signature: list[object] = [plan.top - plan.layers_bottom, plan.cap_front - plan.breast]
    signature += [
        (layer.z1 - layer.z0, layer.said.thickness, layer.said.setback, len(layer.cuts.levels))
        for layer in layers
    ]
    return feature(
        "mantel",
        "MANTEL BUILD-UP",
        KEY,
        "x",
        Fraction(0),
        where,
        parts,
        _BUILD_UP,
        signature,
        tuple(says or ["BLOCKING SCREWED TO STUDS"]),
        order=10,
    )
