"""The panelling above the mantel: stiles, rails and mullions, and panels that run free in their grooves."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from sheets.base.diagnostics import Diagnostic
from sheets.base.length import split_even
from sheets.geometry.joining import difference
from sheets.geometry.region import Region, rectangle
from sheets.geometry.solid import Solid, stack
from sheets.grammar.measure import written
from sheets.grammar.schema import Overmantel, Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Extent, Joint, Material, Part, Provenance
from sheets.model.purpose import NO_PURPOSE, DecidedBy, Purpose
from sheets.model.wall import Component, Cut, Feature, Leftover, Station
from sheets.resolve.built import NOTHING, Built, Origin, chain, left_over
from sheets.resolve.case import around
from sheets.resolve.features import box, feature
from sheets.resolve.gather import piece, settled
from sheets.resolve.joining import across_glued
from sheets.resolve.layout import Layout
from sheets.resolve.materials import Materials, Sizes
from sheets.resolve.middle import MantelPlan, Middle, Span
from sheets.resolve.mirror import with_twins

KEY = "overmantel"
OVERMANTEL = Kind("overmantel", "P", rows=Rows("mantel", "mantel", "middle"), lies_on_masonry=True)
DEEP = (KEY, "thickness")
DECIDED = DecidedBy(x=(KEY, "width"), y=DEEP, z=(KEY, "height"))
_TO_THE_WALL = "SCREW THROUGH INTO STUDS OR BLOCKING ON SITE; COUNTERBORE AND PLUG WITH ITS OWN WOOD"


@dataclass(frozen=True, slots=True)
class Panelling:
    """Where its pieces stand. uprights: x of stiles and mullions, left to right; groove: y of the grooves."""

    said: Overmantel
    uprights: tuple[Span, ...]
    z: Span
    groove: Span
    material: Material
    panels: Material
    sizes: Sizes
    made_from: Provenance

    @property
    def deep(self) -> Fraction:
        """Depth of the grooves."""
        return self.said.panel.let_in + self.said.panel.gap

    @property
    def opening(self) -> Span:
        """z of the lower and the upper rail's inner edge."""
        return self.z[0] + self.said.rail, self.z[1] - self.said.rail


def resolve_overmantel(
    spec: Spec, origin: Origin, layout: Layout, middle: Middle, materials: Materials
) -> Built:
    """Return the panelling."""
    plan = middle.mantel
    if spec.overmantel is None or plan is None:
        return NOTHING
    made, over = _plan(spec, spec.overmantel, origin, plan, materials)
    parts = with_twins(settled([*_uprights(made), *_rails(made), *_panels(made)], DECIDED))
    x0, x1 = made.uprights[0][0], made.uprights[-1][1]
    component = Component(
        key=KEY,
        kind=OVERMANTEL,
        name="OVERMANTEL",
        extent=around(parts),
        facts={"width": x1 - x0, "height": made.said.height, "panels": made.said.panels},
        made_from=made.made_from,
        decided_by=DECIDED,
    )
    return Built(
        parts=tuple(parts),
        components=(component,),
        stations=tuple(_stations(made)),
        features=_features(spec, made, parts, materials.sizes.of(("1", "25"))),
        cuts=_cuts(made),
        leftovers=over,
        found=tuple(_refused_cases(spec, origin, layout, made)),
    )


def _plan(
    spec: Spec, said: Overmantel, origin: Origin, plan: MantelPlan, materials: Materials
) -> tuple[Panelling, tuple[Leftover, ...]]:
    half = said.width / 2 if isinstance(said.width, Fraction) else plan.half
    clear = 2 * half - 2 * said.stile - (said.panels - 1) * said.mullion
    shows, leftover = split_even(clear, said.panels, spec.precision)
    over = left_over(KEY, "panels of the overmantel", leftover, "half to the first, half to the last")
    uprights = [(-half, -half + said.stile)]
    for number, width in enumerate(shows, 1):
        start = uprights[-1][1] + width
        uprights.append((start, start + (said.mullion if number < said.panels else said.stile)))
    back = (said.thickness - said.panel.thickness) / 2
    made = Panelling(
        said,
        tuple(uprights),
        (plan.top, plan.top + said.height),
        (back, back + said.panel.thickness),
        materials[said.material],
        materials[said.panel.material],
        materials.sizes,
        origin.made_from((KEY,)),
    )
    return made, over


def _refused_cases(spec: Spec, origin: Origin, layout: Layout, made: Panelling) -> Iterator[Diagnostic]:
    x0, x1 = made.uprights[0][0], made.uprights[-1][1]
    for standing in layout.cases:
        own = standing.case.cap.overhang if standing.case.cap else Fraction(0)
        if standing.case.height > made.z[0] and standing.x0 - own < x1 and standing.x1 + own > x0:
            yield origin.fault(
                "too-wide",
                (KEY, "width"),
                f"the panelling, {written(x1 - x0, spec)} wide, reaches into the case '{standing.case.name}'",
            )
            return


def _grooved(a: Span, b: Span, cuts: Sequence[tuple[Span, Span]]) -> tuple[Region, ...]:
    """The face a by b of a piece less its grooves."""
    whole = rectangle(a[0], b[0], a[1], b[1])
    taken = [rectangle(p[0], q[0], p[1], q[1]) for p, q in cuts]
    return difference((whole,), taken)


def _uprights(made: Panelling) -> list[Part]:
    """Stiles as high as the panelling, mullions between its rails with a stub tenon at each end."""
    said, d, y = made.said, made.deep, (Fraction(0), made.said.thickness)
    groove = Joint("groove", width=said.panel.thickness, depth=d)
    parts = []
    for number, (x0, x1) in enumerate(made.uprights):
        first, last = number == 0, number == len(made.uprights) - 1
        cuts = ([] if first else [((x0, x0 + d), made.groove)]) + (
            [] if last else [((x1 - d, x1), made.groove)]
        )
        face = _grooved((x0, x1), y, cuts)
        if first or last:
            low, high = made.z
            solid = stack("z", ((low, high, face),))
            step, name = f"stile-{'left' if first else 'right'}", "Stile"
            joints: tuple[Joint, ...] = (groove,)
            does = Purpose(lines=("upright",), member="stile")
        else:
            low, high = made.opening[0] - d, made.opening[1] + d
            tenon = (rectangle(x0 + d, made.groove[0], x1 - d, made.groove[1]),)
            solid = _tenoned("z", (low, high), d, face, tenon)
            step, name = f"mullion-{number}", "Mullion"
            joints = (groove, groove, *_stubs(made, made.said.mullion, "bottom-rail", "top-rail"))
            does = NO_PURPOSE
        parts.append(
            piece(
                step,
                name,
                name.lower(),
                KEY,
                made.material,
                Extent(x0, x1, *y, low, high),
                "yxz",
                solid=solid,
                joints=joints,
                shows=("front",),
                made_from=made.made_from,
                does=does,
                decided_by=DecidedBy(width=(KEY, name.lower()), thickness=DEEP),
            )
        )
    return parts


def _rails(made: Panelling) -> list[Part]:
    """Between the stiles, with a stub tenon in the groove of each."""
    said, d, y = made.said, made.deep, (Fraction(0), made.said.thickness)
    x0, x1 = made.uprights[0][1] - d, made.uprights[-1][0] + d
    low, high = made.opening
    parts = []
    for step, name, z, edge in (
        ("bottom-rail", "Bottom rail", (made.z[0], low), (low - d, low)),
        ("top-rail", "Top rail", (high, made.z[1]), (high, high + d)),
    ):
        face = _grooved(y, z, [(made.groove, edge)])
        tongue = (z[0], edge[0]) if edge[1] == z[1] else (edge[1], z[1])
        tenon = (rectangle(made.groove[0], tongue[0], made.groove[1], tongue[1]),)
        parts.append(
            piece(
                step,
                name,
                "rail",
                KEY,
                made.material,
                Extent(x0, x1, *y, *z),
                "yzx",
                solid=_tenoned("x", (x0, x1), d, face, tenon),
                joints=(
                    Joint("groove", width=said.panel.thickness, depth=d),
                    *_stubs(made, said.rail, "stile-left", "stile-right"),
                ),
                shows=("front",),
                notes=(_TO_THE_WALL,),
                made_from=made.made_from,
                does=Purpose(anchors=True, lines=("level",)),
                decided_by=DecidedBy(width=(KEY, "rail"), thickness=DEEP),
            )
        )
    return parts


def _stubs(made: Panelling, wide: Fraction, *mates: str) -> tuple[Joint, ...]:
    """A stub tenon at each end; of a wide piece glued in part, so that it can move."""
    thick, glued = made.said.panel.thickness, across_glued(wide, made.sizes)
    return tuple(
        Joint("stub tenon", f"{KEY}/{mate}", width=thick, depth=made.deep, fastening="glue", glued=glued)
        for mate in mates
    )


def _tenoned(
    axis: str, ends: Span, d: Fraction, face: tuple[Region, ...], tenon: tuple[Region, ...]
) -> Solid:
    a, b = ends
    rows = ((a, a + d, tenon), (a + d, b - d, face), (b - d, b, tenon))
    return stack("x" if axis == "x" else "z", rows)


def _panels(made: Panelling) -> list[Part]:
    let_in = made.said.panel.let_in
    z0, z1 = made.opening[0] - let_in, made.opening[1] + let_in
    return [
        piece(
            f"panel-{number}",
            "Panel",
            "panel",
            KEY,
            made.panels,
            Extent(left[1] - let_in, right[0] + let_in, *made.groove, z0, z1),
            "yxz",
            shows=("front",),
            notes=("FREE IN ITS GROOVES: NO GLUE, FINISH BEFORE IT IS SET",),
            made_from=_of_panels(made.made_from),
            does=Purpose(member="panel"),
            decided_by=DecidedBy(thickness=(KEY, "panel", "thickness"), housing=(KEY, "panel", "let_in")),
        )
        for number, (left, right) in enumerate(pairwise(made.uprights), 1)
    ]


def _of_panels(made_from: Provenance) -> Provenance:
    return Provenance((*made_from.path, "panel"), made_from.line, made_from.column)


def _stations(panelling: Panelling) -> list[Station]:
    made: list[Station] = []
    edges = [x for upright in panelling.uprights for x in upright]
    made += chain("x", edges, "minor", KEY, "frame")
    made += chain("x", (edges[0], edges[-1]), "major", KEY, "width")
    made += chain("z", (panelling.z[0], *panelling.opening, panelling.z[1]), "minor", KEY, "frame")
    made.append(Station("z", panelling.z[1], "major", KEY, "height", "TOP OF PANELLING"))
    made += chain("y", (Fraction(0), panelling.said.thickness), "minor", KEY, "thickness")
    return made


def _middle(made: Panelling) -> tuple[Fraction, Fraction]:
    """x in the middle of the first panel, z in the middle of the panelling."""
    return (made.uprights[0][1] + made.uprights[1][0]) / 2, sum(made.opening, Fraction(0)) / 2


def _cuts(made: Panelling) -> tuple[Cut, ...]:
    at, level = _middle(made)
    return (
        Cut("section", "SECTION THROUGH OVERMANTEL", KEY, "x", at, 1, "overmantel"),
        Cut("plan", "PLAN THROUGH OVERMANTEL", KEY, "z", level, 1, "overmantel"),
    )


def _features(spec: Spec, made: Panelling, parts: Sequence[Part], m: Fraction) -> tuple[Feature, ...]:
    at, level = _middle(made)
    said = made.said
    x0, x1 = made.uprights[0]
    signature = (said.thickness, said.panel.thickness, said.panel.let_in, said.panel.gap)
    says = (
        "PANELS FREE IN THEIR GROOVES, TYP.",
        f"{written(said.panel.gap, spec)} LEFT BEHIND EACH EDGE TO MOVE",
    )
    side = feature(
        "panel",
        "PANEL IN ITS FRAME",
        KEY,
        "z",
        level,
        box((x0 - m, x1 + 3 * m), (-m, said.thickness + m), (level, level)),
        parts,
        ("stile", "panel"),
        signature,
        says,
        order=95,
    )
    low = made.z[0]
    below = feature(
        "panel",
        "PANEL AT ITS RAIL",
        KEY,
        "x",
        at,
        box((at, at), (-m, said.thickness + m), (low - m, low + said.rail + 3 * m)),
        parts,
        ("rail", "panel"),
        (*signature, "rail"),
        (*says, "WALL SCREWS ON SITE THROUGH THE RAILS, COUNTERBORED AND PLUGGED, GRAIN IN LINE"),
        order=95,
    )
    return side, below
