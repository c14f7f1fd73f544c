"""The planes at the middle of the wall: opening, surround, hearth, the faces of the mantel. World frame,
exact mm.

With cases beside it the surround's face lies in the plane of the case fronts, on an enclosure by others
that holds the appliance; the mantel's breast face stands proud of that plane by `breast`. Without cases
the surround is on the wall.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic
from sheets.grammar.measure import layers_height, mantel_width, opening_top, written
from sheets.grammar.schema import Mantel, Spec
from sheets.resolve.built import Origin
from sheets.resolve.layout import Layout, Standing
from sheets.resolve.materials import Materials

Span = tuple[Fraction, Fraction]
ZERO = Fraction(0)


@dataclass(frozen=True, slots=True)
class MantelPlan:
    """The planes of the mantel; y of faces, z of levels."""

    half: Fraction
    reference: Fraction  # y of the plane that the breast stands proud of
    breast: Fraction  # y of the breast face
    post_face: Fraction
    corbel_face: Fraction
    fascia_face: Fraction
    sub_face: Fraction
    cap_front: Fraction
    layers_bottom: Fraction  # z
    fascia_bottom: Fraction
    cap_bottom: Fraction
    top: Fraction


@dataclass(frozen=True, slots=True)
class Middle:
    """What stands at the middle of the wall. Spans are None where that thing is not built."""

    opening_x: Span | None
    opening_z: Span | None
    opening_back: Fraction
    face: Fraction  # y of the face that the opening is in
    slab_back: Fraction  # y of the back of the surround
    surround_x: Span | None
    surround_z: Span | None
    hearth_x: Span | None
    hearth_top: Fraction
    hearth_front: Fraction
    enclosure: Fraction  # y of the front of the enclosure by others where no surround covers it; 0 without
    mantel: MantelPlan | None
    beside: tuple[Standing | None, Standing | None]  # the cases that touch it, left and right

    @property
    def top(self) -> Fraction:
        """Height of the highest thing here but an opening; 0 when there is none."""
        tops = [self.mantel.top] if self.mantel else []
        tops += [self.surround_z[1]] if self.surround_z else []
        return max(tops, default=ZERO)

    def case_beside(self, side: int) -> Standing | None:
        return self.beside[0 if side < 0 else 1]


def plan_middle(
    spec: Spec, origin: Origin, layout: Layout, materials: Materials
) -> tuple[Middle, tuple[Diagnostic, ...]]:
    """Return the planes, and what cannot be built."""
    surround, fireplace = spec.surround, spec.fireplace
    slab = materials.thickness(surround.material) if surround else ZERO
    # Only a mantel brings the middle forward: a surround alone is set on the wall.
    reference = max(layout.front, slab) if spec.mantel and layout.cases else slab
    slab_back = reference - slab
    half = fireplace.opening.width / 2 if fireplace else ZERO
    mantel = _plan_mantel(spec, spec.mantel, reference) if spec.mantel else None
    surround_half = surround.width / 2 if surround else ZERO
    top = _surround_top(spec, mantel) if surround else ZERO
    hearth = surround.hearth if surround else None
    hearth_half = ZERO
    if hearth and surround:
        hearth_half = (surround.width if hearth.width == "surround" else Fraction(hearth.width)) / 2
    low = fireplace.sill if fireplace and surround and not surround.to_floor else ZERO
    made = Middle(
        opening_x=(-half, half) if fireplace else None,
        opening_z=(fireplace.sill, opening_top(fireplace)) if fireplace else None,
        opening_back=reference - fireplace.opening.depth if fireplace else ZERO,
        face=reference,
        slab_back=slab_back,
        surround_x=(-surround_half, surround_half) if surround else None,
        surround_z=(low, top) if surround else None,
        hearth_x=(-hearth_half, hearth_half) if hearth else None,
        hearth_top=hearth.thickness if hearth else ZERO,
        hearth_front=reference + hearth.projection if hearth else ZERO,
        enclosure=reference if mantel and layout.cases else ZERO,
        mantel=mantel,
        beside=(layout.beside_middle(-1), layout.beside_middle(1)),
    )
    found: list[Diagnostic] = []
    if mantel and spec.mantel:
        found += _refused_post_and_corbels(spec, origin, spec.mantel, mantel)
        found += _refused_layers(spec, origin, spec.mantel, mantel)
        found += _refused_surround(spec, origin, mantel, top)
    return made, tuple(found)


def _surround_top(spec: Spec, mantel: MantelPlan | None) -> Fraction:
    surround = spec.surround
    assert surround is not None
    if surround.height != "mantel":
        return Fraction(surround.height)
    if mantel:
        return mantel.layers_bottom
    return opening_top(spec.fireplace) if spec.fireplace else ZERO


def _refused_surround(spec: Spec, origin: Origin, plan: MantelPlan, top: Fraction) -> Iterator[Diagnostic]:
    if spec.surround and top > plan.layers_bottom:
        yield origin.fault(
            "surround-too-high",
            ("surround", "height"),
            f"the surround is {written(top, spec)} high; the "
            f"underside of the mantel's layers is at {written(plan.layers_bottom, spec)}",
            help="Write `height: mantel`.",
        )


def _post_face(mantel: Mantel, reference: Fraction) -> Fraction:
    """y of the face of the posts, before which corbels stand; as the spec says, whether it can be or not."""
    breast, corbels, posts = reference + mantel.breast, mantel.corbels, mantel.posts
    if not posts:
        return reference if corbels else breast
    if posts.depth != "breast":
        return reference + Fraction(posts.depth)
    return breast - corbels.projection if corbels else breast


def _plan_mantel(spec: Spec, mantel: Mantel, reference: Fraction) -> MantelPlan:
    half = (mantel_width(spec) or spec.room.width) / 2
    breast = reference + mantel.breast
    layers, corbels = mantel.layers, mantel.corbels
    post_face = max(_post_face(mantel, reference), reference + (spec.precision if mantel.posts else ZERO))
    cap_bottom = mantel.top - (layers.cap.thickness if layers.cap else ZERO)
    fascia_bottom = cap_bottom - (layers.fascia.height if layers.fascia else ZERO)
    bottom = mantel.top - layers_height(mantel)
    fascia_face = breast - (layers.fascia.setback if layers.fascia else ZERO)
    sub_face = fascia_face - (layers.sub_fascia.setback if layers.sub_fascia else ZERO)
    under_cap = fascia_face if layers.fascia else sub_face if layers.sub_fascia else breast
    return MantelPlan(
        half=half,
        reference=reference,
        breast=breast,
        post_face=post_face,
        corbel_face=post_face + (corbels.projection if corbels else ZERO),
        fascia_face=fascia_face,
        sub_face=sub_face,
        cap_front=under_cap + (layers.cap.overhang if layers.cap else ZERO),
        layers_bottom=bottom,
        fascia_bottom=fascia_bottom,
        cap_bottom=cap_bottom,
        top=mantel.top,
    )


def _refused_post_and_corbels(
    spec: Spec, origin: Origin, mantel: Mantel, plan: MantelPlan
) -> Iterator[Diagnostic]:
    wanted, corbels = _post_face(mantel, plan.reference), mantel.corbels
    if mantel.posts and wanted > plan.breast:
        yield origin.fault(
            "post-depth",
            ("mantel", "posts", "depth"),
            f"the posts stand {written(wanted - plan.breast, spec)} in front of the breast face they carry",
            severity="warning",
        )
    if wanted < plan.post_face:
        projection = corbels.projection if corbels else ZERO
        yield origin.fault(
            "corbels-too-deep",
            ("mantel", "corbels", "projection"),
            f"corbels that project {written(projection, spec)} leave no post under a breast of "
            f"{written(mantel.breast, spec)}",
            help="The corbels stand on the posts and end at the breast face.",
        )
    if corbels and plan.corbel_face > plan.breast:
        yield origin.fault(
            "corbels-too-deep",
            ("mantel", "corbels", "projection"),
            f"the corbels end "
            f"{written(plan.corbel_face - plan.breast, spec)} in front of the breast face that they carry",
            severity="warning",
        )


def _refused_layers(spec: Spec, origin: Origin, mantel: Mantel, plan: MantelPlan) -> Iterator[Diagnostic]:
    layers = (
        ("fascia", mantel.layers.fascia, plan.fascia_face),
        ("sub_fascia", mantel.layers.sub_fascia, plan.sub_face),
    )
    for name, layer, face in layers:
        if layer is None:
            continue
        path = ("mantel", "layers", name)
        setback = plan.breast - face
        if face - layer.thickness < spec.precision:
            yield origin.fault(
                "layer-too-thick",
                (*path, "thickness"),
                f"a board {written(layer.thickness, spec)} thick does "
                f"not fit between the wall and a face {written(face, spec)} in front of it",
            )
        elif 2 * (setback + layer.thickness) >= 2 * plan.half - 2 * spec.precision:
            yield origin.fault(
                "layer-too-thick", (*path, "thickness"), "the returns of this layer meet each other"
            )
    if 2 * plan.half > spec.room.width:
        yield origin.fault(
            "too-wide",
            ("mantel", "width"),
            f"the mantel is {written(2 * plan.half, spec)} wide, the wall {written(spec.room.width, spec)}",
        )
