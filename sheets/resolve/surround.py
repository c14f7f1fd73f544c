"""The noncombustible facing round the opening, and the hearth in front of it; both by others."""

from collections.abc import Sequence
from fractions import Fraction

from sheets.geometry.region import polygon
from sheets.geometry.solid import stack
from sheets.grammar.schema import Spec
from sheets.model.kind import Kind, Rows
from sheets.model.part import Extent
from sheets.model.purpose import DecidedBy, Purpose
from sheets.model.wall import Component
from sheets.resolve.features import box, feature
from sheets.resolve.fireplace import plate
from sheets.resolve.gather import Gathered, piece
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle

SURROUND = Kind("surround", arrives="by others", rows=Rows(y="middle", z="middle"), about_opening=True)
HEARTH = Kind("hearth", arrives="by others", rows=Rows("mantel", "middle", "middle"), about_opening=True)


def resolve_surround(spec: Spec, gathered: Gathered, middle: Middle, materials: Materials) -> None:
    """Add surround and hearth."""
    surround = spec.surround
    if surround is None or middle.surround_x is None or middle.surround_z is None:
        return
    material = materials[surround.material]
    made_from = gathered.made_from(("surround",))
    where = Extent(*middle.surround_x, middle.slab_back, middle.face, *middle.surround_z)
    shapes = plate(middle.surround_x, middle.surround_z, middle.opening_x, middle.opening_z)
    if shapes and where.z1 > where.z0:
        rows = ((float(where.y0), float(where.y1), shapes),)
        gathered.parts.append(
            piece(
                "slab",
                "Surround",
                "surround",
                "surround",
                material,
                where,
                "yzx",
                solid=stack("y", rows),
                maker="others",
                shows=("front",),
                notes=("BY OTHERS; SET BEFORE THE MANTEL IS MEASURED",),
                made_from=made_from,
                does=Purpose(lines=("level", "upright"), face="surround", fire="facing"),
            )
        )
    gathered.components.append(
        Component(
            key="surround",
            kind=SURROUND,
            name="SURROUND",
            extent=where,
            made_from=made_from,
            facts={"width": surround.width, "thickness": where.size("y"), "height": where.z1},
        )
    )
    gathered.chain("x", middle.surround_x, "major", "surround", "width")
    if middle.opening_x:
        gathered.chain("x", (where.x0, *middle.opening_x, where.x1), "minor", "surround", "facing")
    levels = {Fraction(0), *middle.surround_z, *(middle.opening_z or ())}
    gathered.chain("z", sorted(levels), "minor", "surround", "facing")
    gathered.chain("y", sorted({Fraction(0), where.y0, where.y1}), "minor", "surround", "depths")
    _hearth(spec, gathered, middle, materials)


def surround_feature(spec: Spec, gathered: Gathered, middle: Middle, margin: Fraction) -> None:
    """Add the edge of the surround as a detail: what it meets at its side, in plan."""
    if middle.surround_x is None or middle.surround_z is None:
        return
    edge = middle.surround_x[0]
    level = max(middle.hearth_top, Fraction(0)) + 6 * margin
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
    gathered.features.append(
        feature(
            "surround",
            "EDGE OF SURROUND",
            "surround",
            "z",
            level,
            where,
            gathered.parts,
            roles,
            (middle.face - middle.slab_back, edge),
            ("STONE BY OTHERS", "VERIFY FACE OF STONE BEFORE CUTTING POSTS")
            if posts
            else ("STONE BY OTHERS", "VERIFY FACE OF STONE"),
            order=90,
        )
    )


def _hearth(spec: Spec, gathered: Gathered, middle: Middle, materials: Materials) -> None:
    if spec.surround is None or middle.hearth_x is None:
        return
    x0, x1 = middle.hearth_x
    y0, y1 = middle.face, middle.hearth_front
    made_from = gathered.made_from(("surround", "hearth"))
    points = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    notes: tuple[str, ...] = ("BY OTHERS",)
    inner = post_inner(spec, middle)
    if inner is not None and middle.mantel and inner < x1 < middle.mantel.half:
        # The hearth ends under the posts: it is cut back round them.
        face = min(middle.mantel.post_face, y1)
        points = [
            (-inner, y0),
            (inner, y0),
            (inner, face),
            (x1, face),
            (x1, y1),
            (x0, y1),
            (x0, face),
            (-inner, face),
        ]
        notes = ("BY OTHERS; CUT ROUND THE POSTS",)
        if face == y1:
            points, x0, x1 = [(-inner, y0), (inner, y0), (inner, y1), (-inner, y1)], -inner, inner
    shape = polygon(tuple((float(x), float(y)) for x, y in points))
    where = Extent(x0, x1, y0, y1, Fraction(0), middle.hearth_top)
    gathered.parts.append(
        piece(
            "slab",
            "Hearth",
            "hearth",
            "hearth",
            materials[spec.surround.material],
            where,
            "zyx",
            solid=stack("z", ((0.0, float(middle.hearth_top), (shape,)),)),
            maker="others",
            shows=("top", "front"),
            notes=notes,
            made_from=made_from,
            does=Purpose(lines=("level", "upright"), fire="hearth"),
            decided_by=DecidedBy(top=("surround", "hearth", "thickness")),
        )
    )
    gathered.components.append(
        Component(
            key="hearth",
            kind=HEARTH,
            name="HEARTH",
            extent=where,
            made_from=made_from,
            facts={"projection": y1 - y0, "thickness": middle.hearth_top, "width": x1 - x0},
        )
    )
    gathered.chain("x", (x0, x1), "major", "hearth", "width")
    gathered.chain("y", (y0, y1), "major", "hearth", "projection")
    gathered.chain("z", (Fraction(0), middle.hearth_top), "minor", "hearth", "thickness")


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
