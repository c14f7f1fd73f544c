"""The planes at the middle of the wall: opening, surround, hearth, the faces of the mantel. World frame,
exact mm.

With cases beside it the surround's face lies in the plane of the case fronts, on an enclosure by others
that holds the appliance; the mantel's breast face stands proud of that plane by `breast`. Without cases
the surround is on the wall.
"""

from dataclasses import dataclass
from fractions import Fraction

from sheets.grammar.measure import layers_height, mantel_width, opening_top, written
from sheets.grammar.schema import Mantel, Spec
from sheets.resolve.gather import Gathered
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


def plan_middle(spec: Spec, gathered: Gathered, layout: Layout, materials: Materials) -> Middle:
    """Return the planes; what cannot be built is said to `gathered`."""
    surround, fireplace = spec.surround, spec.fireplace
    slab = materials.thickness(surround.material) if surround else ZERO
    # Only a mantel brings the middle forward: a surround alone is set on the wall.
    reference = max(layout.front, slab) if spec.mantel and layout.cases else slab
    slab_back = reference - slab
    half = fireplace.opening.width / 2 if fireplace else ZERO
    mantel = _plan_mantel(spec, gathered, spec.mantel, reference, materials) if spec.mantel else None
    surround_half = surround.width / 2 if surround else ZERO
    top = ZERO
    if surround:
        top = _surround_top(spec, gathered, mantel)
    hearth = surround.hearth if surround else None
    hearth_half = ZERO
    if hearth and surround:
        hearth_half = (surround.width if hearth.width == "surround" else Fraction(hearth.width)) / 2
    low = fireplace.sill if fireplace and surround and not surround.to_floor else ZERO
    return Middle(
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


def _surround_top(spec: Spec, gathered: Gathered, mantel: MantelPlan | None) -> Fraction:
    surround = spec.surround
    assert surround is not None
    under = mantel.layers_bottom if mantel else None
    if surround.height == "mantel":
        return under if under is not None else (opening_top(spec.fireplace) if spec.fireplace else ZERO)
    height = Fraction(surround.height)
    if under is not None and height > under and surround.width / 2 > 0:
        gathered.say(
            "surround-too-high",
            ("surround", "height"),
            f"the surround is {written(height, spec)} high; the "
            f"underside of the mantel's layers is at {written(under, spec)}",
            help="Write `height: mantel`.",
        )
    return height


def _plan_mantel(
    spec: Spec, gathered: Gathered, mantel: Mantel, reference: Fraction, materials: Materials
) -> MantelPlan:
    half = (mantel_width(spec) or spec.room.width) / 2
    breast = reference + mantel.breast
    layers, corbels, posts = mantel.layers, mantel.corbels, mantel.posts
    projection = corbels.projection if corbels else ZERO
    post_face = breast - projection if corbels else breast
    if posts and posts.depth != "breast":
        post_face = reference + Fraction(posts.depth)
    if posts and post_face > breast:
        gathered.say(
            "post-depth",
            ("mantel", "posts", "depth"),
            f"the posts stand {written(post_face - breast, spec)} in front of the breast face they carry",
            severity="warning",
        )
    if not posts:
        post_face = reference if corbels else breast
    if post_face < reference or (posts and post_face - reference < spec.precision):
        gathered.say(
            "corbels-too-deep",
            ("mantel", "corbels", "projection"),
            f"corbels that project {written(projection, spec)} leave no post under a breast of "
            f"{written(mantel.breast, spec)}",
            help="The corbels stand on the posts and end at the breast face.",
        )
        post_face = reference + spec.precision
    corbel_face = post_face + projection if corbels else post_face
    if corbels and corbel_face > breast:
        gathered.say(
            "corbels-too-deep",
            ("mantel", "corbels", "projection"),
            f"the corbels end "
            f"{written(corbel_face - breast, spec)} in front of the breast face that they carry",
            severity="warning",
        )
    cap_bottom = mantel.top - (layers.cap.thickness if layers.cap else ZERO)
    fascia_bottom = cap_bottom - (layers.fascia.height if layers.fascia else ZERO)
    bottom = mantel.top - layers_height(mantel)
    fascia_face = breast - (layers.fascia.setback if layers.fascia else ZERO)
    sub_face = fascia_face - (layers.sub_fascia.setback if layers.sub_fascia else ZERO)
    under_cap = fascia_face if layers.fascia else sub_face if layers.sub_fascia else breast
    plan = MantelPlan(
        half=half,
        reference=reference,
        breast=breast,
        post_face=post_face,
        corbel_face=corbel_face,
        fascia_face=fascia_face,
        sub_face=sub_face,
        cap_front=under_cap + (layers.cap.overhang if layers.cap else ZERO),
        layers_bottom=bottom,
        fascia_bottom=fascia_bottom,
        cap_bottom=cap_bottom,
        top=mantel.top,
    )
    _refuse_thick_layers(spec, gathered, mantel, plan)
    if 2 * half > spec.room.width:
        gathered.say(
            "too-wide",
            ("mantel", "width"),
            f"the mantel is {written(2 * half, spec)} wide, the wall {written(spec.room.width, spec)}",
        )
    return plan


def _refuse_thick_layers(spec: Spec, gathered: Gathered, mantel: Mantel, plan: MantelPlan) -> None:
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
            gathered.say(
                "layer-too-thick",
                (*path, "thickness"),
                f"a board {written(layer.thickness, spec)} thick does "
                f"not fit between the wall and a face {written(face, spec)} in front of it",
            )
        elif 2 * (setback + layer.thickness) >= 2 * plan.half - 2 * spec.precision:
            gathered.say("layer-too-thick", (*path, "thickness"), "the returns of this layer meet each other")
