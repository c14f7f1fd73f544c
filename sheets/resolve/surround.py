"""The noncombustible facing round the opening, and the hearth in front of it; both by others."""

from collections.abc import Sequence
from fractions import Fraction

from sheets.geometry.region import polygon
from sheets.geometry.solid import stack
from sheets.grammar.schema import Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Extent, Part
from sheets.model.purpose import DecidedBy, Purpose
from sheets.model.wall import Component, Feature, Station
from sheets.resolve.built import NOTHING, Built, Origin, chain
from sheets.resolve.features import box, feature
from sheets.resolve.fire_plates import plate
from sheets.resolve.gather import piece
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle

SURROUND = Kind("surround", arrives="by others", rows=Rows(y="middle", z="middle"), about_opening=True)
HEARTH = Kind("hearth", arrives="by others", rows=Rows("mantel", "middle", "middle"), about_opening=True)


def resolve_surround(spec: Spec, origin: Origin, middle: Middle, materials: Materials) -> Built:
    """Return surround and hearth."""
    surround = spec.surround
    if surround is None or middle.surround_x is None or middle.surround_z is None:
        return NOTHING
    made_from = origin.made_from(("surround",))
    where = Extent(*middle.surround_x, middle.slab_back, middle.face, *middle.surround_z)
    shapes = plate(middle.surround_x, middle.surround_z, middle.opening_x, middle.opening_z)
    parts: tuple[Part, ...] = ()
    if shapes and where.z1 > where.z0:
        slab = piece(
            "slab",
            "Surround",
            "surround",
            "surround",
            materials[surround.material],
            where,
            "yzx",
            solid=stack("y", ((where.y0, where.y1, shapes),)),
            maker="others",
            shows=("front",),
            notes=("BY OTHERS; SET BEFORE THE MANTEL IS MEASURED",),
            made_from=made_from,
            does=Purpose(lines=("level", "upright"), face="surround", fire="facing"),
        )
        parts = (slab,)
    component = Component(
        key="surround",
        kind=SURROUND,
        name="SURROUND",
        extent=where,
        made_from=made_from,
        facts={"width": surround.width, "thickness": where.size("y"), "height": where.z1},
    )
    own = Built(parts=parts, components=(component,), stations=_stations(middle, where))
    return own + _hearth(spec, origin, middle, materials)


def _stations(middle: Middle, where: Extent) -> tuple[Station, ...]:
    beside = (where.x0, *middle.opening_x, where.x1) if middle.opening_x else ()
    levels = {Fraction(0), where.z0, where.z1, *(middle.opening_z or ())}
    return (
        *chain("x", (where.x0, where.x1), "major", "surround", "width"),
        *chain("x", beside, "minor", "surround", "facing"),
        *chain("z", sorted(levels), "minor", "surround", "facing"),
        *chain("y", sorted({Fraction(0), where.y0, where.y1}), "minor", "surround", "depths"),
    )


def surround_feature(
    spec: Spec, parts: Sequence[Part], middle: Middle, margin: Fraction
) -> tuple[Feature, ...]:
    """Return the edge of the surround as a detail: what it meets at its side, in plan.

    parts: of the whole wall.
    """
    if middle.surround_x is None or middle.surround_z is None:
        return ()
    edge = middle.surround_x[0]
    level = max(middle.hearth_top, middle.surround_z[0]) + 6 * margin
    if level >= middle.surround_z[1]:
        level = (middle.surround_z[0] + middle.surround_z[1]) / 2
    inner, front = edge + 4 * margin, middle.face + 2 * margin
    posts = spec.mantel.posts if spec.mantel else None
    if posts and middle.mantel and middle.mantel.half <= -edge:
        inner = posts.width - middle.mantel.half + 2 * margin
        front = middle.mantel.post_face + margin
    where = box((edge - 2 * margin, inner), (middle.slab_back - 2 * margin, front), (level, level))
    roles: Sequence[str] = (
        "surround",
        "post",
        "post face",
        "post side",
        "stile",
        "side",
        "enclosure",
        "breast side",
    )
    said = "VERIFY ITS FACE BEFORE CUTTING POSTS" if posts else "VERIFY ITS FACE"
    edge_of_stone = feature(
        "surround",
        "EDGE OF SURROUND",
        "surround",
        "z",
        level,
        where,
        parts,
        roles,
        (middle.face - middle.slab_back, edge),
        ("FACING BY OTHERS", said),
        order=90,
    )
    return (edge_of_stone,)


def _hearth(spec: Spec, origin: Origin, middle: Middle, materials: Materials) -> Built:
    if spec.surround is None or middle.hearth_x is None:
        return NOTHING
    made_from = origin.made_from(("surround", "hearth"))
    points, notes = _hearth_plan(spec, middle, *middle.hearth_x)
    xs = [x for x, _ in points]
    x0, x1, y0, y1 = min(xs), max(xs), middle.face, middle.hearth_front
    where = Extent(x0, x1, y0, y1, Fraction(0), middle.hearth_top)
    shape = polygon(points)
    slab = piece(
        "slab",
        "Hearth",
        "hearth",
        "hearth",
        materials[spec.surround.material],
        where,
        "zyx",
        solid=stack("z", ((0, middle.hearth_top, (shape,)),)),
        maker="others",
        shows=("top", "front"),
        notes=notes,
        made_from=made_from,
        does=Purpose(lines=("level", "upright"), fire="hearth"),
        decided_by=DecidedBy(top=("surround", "hearth", "thickness")),
    )
    component = Component(
        key="hearth",
        kind=HEARTH,
        name="HEARTH",
        extent=where,
        made_from=made_from,
        facts={"projection": y1 - y0, "thickness": middle.hearth_top, "width": x1 - x0},
    )
    stations = (
        *chain("x", (x0, x1), "major", "hearth", "width"),
        *chain("y", (y0, y1), "major", "hearth", "projection"),
        *chain("z", (Fraction(0), middle.hearth_top), "minor", "hearth", "thickness"),
    )
    return Built(parts=(slab,), components=(component,), stations=stations)


def _hearth_plan(
    spec: Spec, middle: Middle, x0: Fraction, x1: Fraction
) -> tuple[list[tuple[Fraction, Fraction]], tuple[str, ...]]:
    """The corners of the hearth in plan, and what is noted; one that ends under the posts is cut back round
    them."""
    y0, y1 = middle.face, middle.hearth_front
    inner = post_inner(spec, middle)
    if inner is None or not middle.mantel or not inner < x1 < middle.mantel.half:
        return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)], ("BY OTHERS",)
    face = min(middle.mantel.post_face, y1)
    points = [(-inner, y0), (inner, y0), (inner, face)]
    if face < y1:
        points += [(x1, face), (x1, y1), (x0, y1), (x0, face)]
    return [*points, (-inner, face)], ("BY OTHERS; CUT ROUND THE POSTS",)


def post_inner(spec: Spec, middle: Middle) -> Fraction | None:
    """Return how far the inner faces of the posts are from the axis, or None without posts."""
    if spec.mantel is None or spec.mantel.posts is None or middle.mantel is None:
        return None
    return middle.mantel.half - spec.mantel.posts.width


def post_bottom(spec: Spec, middle: Middle) -> Fraction:
    """Return the height that the posts stand on: the hearth where it runs under them, or the floor."""
    if middle.hearth_x and middle.mantel and middle.hearth_x[1] >= middle.mantel.half:
        return middle.hearth_top
    return Fraction(0)
