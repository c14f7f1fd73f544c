"""Posts, corbels and the arched rail of the mantel, and the sides of the enclosure that no case covers."""

from dataclasses import replace
from fractions import Fraction

from sheets.geometry.path import Loop, Segment, arc_through, line
from sheets.geometry.region import Region, polygon, rectangle, region
from sheets.geometry.solid import Solid, stack
from sheets.grammar.inherit import SECONDARY
from sheets.grammar.measure import arc_radius, arch_chord
from sheets.grammar.schema import Arch, Spec
from sheets.model.part import Curve, Extent, Joint, Material, Part, Provenance
from sheets.model.purpose import NO_PURPOSE, DecidedBy, Purpose
from sheets.resolve.built import NOTHING, Built, Origin
from sheets.resolve.edges import left_return, run
from sheets.resolve.gather import piece
from sheets.resolve.joining import across_glued
from sheets.resolve.layers import FIXED, KEY
from sheets.resolve.lining import lining_parts
from sheets.resolve.materials import Materials
from sheets.resolve.middle import MantelPlan, Middle
from sheets.resolve.mirror import mirrored_part
from sheets.resolve.surround import post_bottom, post_inner

WIDE = ("mantel", "posts", "width")
FRONT = Purpose(lines=("upright",), face="post")


def post_parts(spec: Spec, origin: Origin, middle: Middle, materials: Materials) -> list[Part]:
    """Return both posts: boxes mitred at their edges, or solid where they are too slim for a box."""
    plan = middle.mantel
    if spec.mantel is None or spec.mantel.posts is None or plan is None:
        return []
    posts = spec.mantel.posts
    material, t = materials[posts.material], materials.thickness(posts.material)
    made_from = origin.made_from(("mantel", "posts"))
    x0, x1 = -plan.half, -plan.half + posts.width
    y0, y1 = plan.reference, plan.post_face
    z0, z1 = post_bottom(spec, middle), plan.layers_bottom
    where = Extent(x0, x1, y0, y1, z0, z1)
    if y1 - y0 <= 2 * t or posts.width <= 3 * t:
        left = [
            piece(
                "post-left",
                "Post",
                "post",
                KEY,
                material,
                where,
                "yxz",
                joints=(FIXED,),
                shows=("front", "left", "right"),
                hand="left",
                made_from=made_from,
                does=FRONT,
                decided_by=DecidedBy(width=WIDE, thickness=("mantel", "posts", "depth"), off_fire=WIDE),
            )
        ]
    else:
        left = _boxed_post(where, t, material, made_from)
        left += _post_blocks(spec, middle, materials, origin, (x0 + t, x1 - t), (y0, y1 - t), (z0, z1))
    left += _post_packing(spec, middle, materials, origin, (x0, x1), (z0, z1))
    return left + [mirrored_part(part, KEY, KEY) for part in left]


def _boxed_post(post: Extent, t: Fraction, material: Material, made_from: Provenance) -> list[Part]:
    """The face and both sides of the left post, mitred to each other."""
    x0, x1, y0, y1, z = post.x0, post.x1, post.y0, post.y1, (post.z0, post.z1)
    mitre = Joint("mitre", fastening="glue")
    at_face = replace(mitre, mate=f"{KEY}/post-face-left")

    def board(
        step: str, name: str, axes: str, shows: str, body: tuple[Extent, Solid], does: Purpose, *joints: Joint
    ) -> Part:
        return piece(
            step,
            name,
            name.lower(),
            KEY,
            material,
            body[0],
            axes,
            solid=body[1],
            joints=joints,
            shows=(shows,),
            hand="left",
            made_from=made_from,
            does=does,
            decided_by=DecidedBy(width=WIDE if does is FRONT else (), off_fire=WIDE),
        )

    face = run(x0, x1, y1, t, *z, "mitred", "mitred")
    outer = left_return(x0, y0, y1, t, *z, "mitred")
    plan = polygon(((x1 - t, y0), (x1, y0), (x1, y1), (x1 - t, y1 - t)))
    inner = Extent(x1 - t, x1, y0, y1, *z), stack("z", ((*z, (plan,)),))
    return [
        board("post-face-left", "Post face", "yxz", "front", face, FRONT, *(
            replace(mitre, mate=f"{KEY}/post-side-left-{side}") for side in ("outer", "inner"))),
        board("post-side-left-outer", "Post side", "xyz", "left", outer, NO_PURPOSE, at_face),
        board("post-side-left-inner", "Post side", "xyz", "right", inner, NO_PURPOSE, at_face),
    ]


def _post_blocks(
    spec: Spec,
    middle: Middle,
    materials: Materials,
    origin: Origin,
    x: tuple[Fraction, Fraction],
    y: tuple[Fraction, Fraction],
    z: tuple[Fraction, Fraction],
) -> list[Part]:
    assert spec.mantel is not None
    t = min(materials.thickness(SECONDARY), (z[1] - z[0]) / 3)
    made = []
    for step, low in (("post-block-left-bottom", z[0]), ("post-block-left-top", z[1] - t)):
        made.append(
            piece(
                step,
                "Post block",
                "blocking",
                KEY,
                materials.secondary,
                Extent(*x, *y, low, low + t),
                "zyx",
                hand="left",
                joints=(Joint("butt", fastening="screw"),),
                made_from=origin.made_from(("mantel", "posts")),
                decided_by=DecidedBy(off_fire=WIDE),
            )
        )
    return made


def _post_packing(
    spec: Spec,
    middle: Middle,
    materials: Materials,
    origin: Origin,
    x: tuple[Fraction, Fraction],
    z: tuple[Fraction, Fraction],
) -> list[Part]:
    """Behind a post on the wall that the surround does not reach under: as thick as the stone."""
    assert spec.mantel is not None
    assert middle.mantel is not None
    if middle.enclosure or middle.surround_x is None or middle.face <= 0:
        return []
    end = min(x[1], -middle.surround_x[1])
    if end <= x[0]:
        return []
    return [
        piece(
            "post-packing-left",
            "Post packing",
            "packing",
            KEY,
            materials.secondary,
            Extent(x[0], end, Fraction(0), middle.face, *z),
            "yxz",
            joints=(Joint("butt", fastening="screw"),),
            hand="left",
            made_from=origin.made_from(("mantel", "posts")),
            decided_by=DecidedBy(off_fire=WIDE),
        )
    ]


def corbel_parts(spec: Spec, origin: Origin, middle: Middle, materials: Materials) -> list[Part]:
    """Return both corbels: the front edge bows by an arc over the whole height."""
    plan = middle.mantel
    if spec.mantel is None or spec.mantel.corbels is None or plan is None:
        return []
    corbels, posts = spec.mantel.corbels, spec.mantel.posts
    x0 = -plan.half + ((posts.width - corbels.width) / 2 if posts else Fraction(0))
    x1 = x0 + corbels.width
    y0, y1 = plan.post_face, plan.corbel_face
    z1 = plan.layers_bottom
    z0 = z1 - corbels.height
    rise = corbels.curve.rise
    shape: Region
    curve = None
    if rise > 0:
        back, front, low, high = y0, y1 - rise, z0, z1
        bow = arc_through((front, high), (front, low), rise).reversed()
        # Up along the bowed front, back along the top, down the back.
        segments: tuple[Segment, ...] = (
            bow,
            line((front, high), (back, high)),
            line((back, high), (back, low)),
            line((back, low), (front, low)),
        )
        shape = region(Loop(segments))
        curve = Curve(corbels.height, rise, float(arc_radius(corbels.height, rise)), "x", "front")
    else:
        shape = rectangle(y0, z0, y1, z1)
    left = piece(
        "corbel-left",
        "Corbel",
        "corbel",
        KEY,
        materials[corbels.material],
        Extent(x0, x1, y0, y1, z0, z1),
        "yxz",
        solid=stack("x", ((x0, x1, (shape,)),)),
        joints=(Joint("butt", fastening="screw"),),
        shows=("front", "left", "right", "bottom"),
        notes=("SHAPE TO PATTERN; SCREW FROM BEHIND",),
        hand="left",
        curve=curve,
        made_from=origin.made_from(("mantel", "corbels")),
        does=Purpose(face="corbel"),
        decided_by=_corbel_decided(),
    )
    return [left, mirrored_part(left, KEY, KEY)]


def arch_parts(spec: Spec, origin: Origin, middle: Middle, materials: Materials) -> Built:
    """Return the rail between the posts (or corbels, or the ends), its underside an arc."""
    plan = middle.mantel
    if spec.mantel is None or spec.mantel.arch is None or plan is None:
        return NOTHING
    arch = spec.mantel.arch
    half = arch_half(spec, middle)
    chord = arch_chord(arch, spec.fireplace)
    made_from = origin.made_from(("mantel", "arch"))
    if half is None or half <= 0 or chord is None or chord > 2 * half:
        fault = origin.fault(
            "arch-too-wide", ("mantel", "arch"), "the arch's chord is longer than the rail that it is cut in"
        )
        return Built(found=(fault,))
    back, face = arch_planes(spec, middle)
    z1 = plan.layers_bottom
    z0 = z1 - arch.rail
    shape = _arched(half, z0, z1, chord / 2, arch.rise)
    joints = (
        2 * (Joint("dowel", count=2, fastening="glue", glued=across_glued(arch.rail, materials.sizes)),)
        if spec.mantel.posts
        else (Joint("butt", fastening="screw"),)
    )
    rail = piece(
        "arched-rail",
        "Arched rail",
        "arched rail",
        KEY,
        materials[arch.material],
        Extent(-half, half, back, face, z0, z1),
        "yzx",
        solid=stack("y", ((back, face, (shape,)),)),
        joints=joints,
        shows=("front", "bottom"),
        notes=("CUT TO PATTERN",),
        curve=Curve(chord, arch.rise, float(arc_radius(chord, arch.rise)), "y", "underside"),
        made_from=made_from,
        does=Purpose(face="arch"),
        decided_by=_arch_decided(),
    )
    return Built(parts=(rail,)) + lining_parts(spec, origin, middle, materials, KEY, half, (back, z0))


def _corbel_decided() -> DecidedBy:
    said = ("mantel", "corbels")
    wide = (*said, "width")
    return DecidedBy(
        width=wide, thickness=(*said, "projection"), off_fire=wide, curve=(*said, "curve", "rise")
    )


def _arch_decided() -> DecidedBy:
    said = ("mantel", "arch")
    rail = (*said, "rail")
    return DecidedBy(width=rail, thickness=(*said, "thickness"), off_fire=rail, curve=(*said, "rise"))


def arch_half(spec: Spec, middle: Middle) -> Fraction | None:
    """Return half the length of the arched rail."""
    if spec.mantel is None or middle.mantel is None:
        return None
    inner = post_inner(spec, middle)
    if inner is not None:
        return inner
    corbels = spec.mantel.corbels
    return middle.mantel.half - (corbels.width if corbels else Fraction(0))


def arch_planes(spec: Spec, middle: Middle) -> tuple[Fraction, Fraction]:
    """Return y of the back and the face of the arched rail: flush with the posts, or on the surround."""
    assert spec.mantel is not None
    assert spec.mantel.arch is not None
    assert middle.mantel is not None
    arch: Arch = spec.mantel.arch
    plan: MantelPlan = middle.mantel
    back = max(plan.reference, plan.post_face - arch.thickness) if spec.mantel.posts else plan.reference
    return back, back + arch.thickness


def breast_sides(
    spec: Spec,
    origin: Origin,
    middle: Middle,
    materials: Materials,
    covered: tuple[bool, bool],
    half: Fraction,
) -> list[Part]:
    """Return the boards that cover the sides of the enclosure where no case does."""
    plan = middle.mantel
    if spec.mantel is None or plan is None or not middle.enclosure or middle.slab_back <= 0:
        return []
    material = materials[spec.mantel.material]
    t = materials.thickness(spec.mantel.material)
    left = piece(
        "breast-side-left",
        "Breast side",
        "breast side",
        KEY,
        material,
        Extent(-half, -half + t, Fraction(0), middle.slab_back, Fraction(0), plan.layers_bottom),
        "xyz",
        shows=("left",),
        joints=(Joint("butt", fastening="screw", moves=True), Joint("scribe")),
        notes=("SCRIBE TO WALL; SLOTTED SCREWS, SO THAT IT CAN MOVE",),
        hand="left",
        made_from=origin.made_from(("mantel",)),
        decided_by=DecidedBy(off_fire=("mantel", "width")),
    )
    made = [] if covered[0] else [left]
    if not covered[1]:
        made.append(mirrored_part(left, KEY, KEY, twin=not covered[0]))
    return made


def _arched(half: Fraction, z0: Fraction, z1: Fraction, reach: Fraction, rise: Fraction) -> Region:
    arc = arc_through((-reach, z0), (reach, z0), rise)
    segments: list[Segment] = [] if reach == half else [line((-half, z0), (-reach, z0))]
    segments.append(arc)
    if reach != half:
        segments.append(line((reach, z0), (half, z0)))
    segments += [line((half, z0), (half, z1)), line((half, z1), (-half, z1)), line((-half, z1), (-half, z0))]
    return region(Loop(tuple(segments)))
