"""The lining under the mantel's arch: a board bent to the arc, flat boards where the rail has shoulders."""

from collections.abc import Iterator
from fractions import Fraction
from math import asin

from sheets.base.diagnostics import Diagnostic
from sheets.base.length import snap
from sheets.geometry.path import Arc, Loop, arc_through, line
from sheets.geometry.region import Region, region
from sheets.geometry.solid import stack
from sheets.grammar.hearth import Arch, Lining
from sheets.grammar.measure import arc_radius, arch_chord, written
from sheets.grammar.schema import Spec
from sheets.model.part import Bend, Curve, Extent, Joint, Kerfs, Material, Part, Provenance
from sheets.model.purpose import DecidedBy
from sheets.resolve.built import NOTHING, Built, Origin
from sheets.resolve.gather import piece
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle
from sheets.resolve.mirror import mirrored_part

_FIXED = (Joint("butt", mate="mantel/arched-rail", fastening="glue"), Joint("butt", fastening="screw"))
"""Glued to the back of the rail, screwed to blocks."""

BY = DecidedBy(
    thickness=("mantel", "arch", "lining", "thickness"), off_fire=("mantel", "arch", "rail")
)


def lining_parts(
    spec: Spec,
    origin: Origin,
    middle: Middle,
    materials: Materials,
    assembly: str,
    half: Fraction,
    rail: tuple[Fraction, Fraction],
) -> Built:
    """Return the lining under an arched rail of this half length. rail: y of its back, z of its arc."""
    arch = spec.mantel.arch if spec.mantel else None
    lining = arch.lining if arch else None
    if arch is None or lining is None:
        return NOTHING
    path = ("mantel", "arch", "lining")
    low = rail[1]
    high = low + arch.rise + lining.thickness
    found = tuple(_refused_surround(spec, origin, middle, low, high))
    y = (_behind(middle, low), rail[0])
    if y[1] - y[0] < spec.precision:
        fault = origin.fault(
            "lining",
            path,
            "the arched rail is against the facing: there is nothing behind it to line",
            help="A lining wants posts that stand farther out than the rail is thick.",
        )
        return Built(found=(*found, fault))
    chord = arch_chord(arch, spec.fireplace)
    assert chord is not None
    material, made_from = materials[lining.material], origin.made_from(path)
    where = Extent(-chord / 2, chord / 2, *y, low, high)
    made = [_bent(spec, arch, lining, where, assembly, material, made_from)]
    if chord / 2 < half:
        left = piece(
            "arch-lining-end-left",
            "Arch lining end",
            "arch lining end",
            assembly,
            material,
            Extent(-half, -chord / 2, *y, low, low + lining.thickness),
            "zyx",
            joints=_FIXED,
            shows=("bottom",),
            notes=("MEET THE LINING PLUMB",),
            hand="left",
            made_from=made_from,
            decided_by=BY,
        )
        made += [left, mirrored_part(left, assembly, assembly)]
    return Built(parts=tuple(made), found=found)


def _bent(
    spec: Spec,
    arch: Arch,
    lining: Lining,
    where: Extent,
    assembly: str,
    material: Material,
    made_from: Provenance,
) -> Part:
    """The board under the arc itself."""
    chord, rise, t = where.size("x"), arch.rise, lining.thickness
    radius = arc_radius(chord, rise)
    return piece(
        "arch-lining",
        "Arch lining",
        "arch lining",
        assembly,
        material,
        where,
        "zyx" if lining.grain == "along" else "zxy",
        solid=stack("y", ((where.y0, where.y1, (_profile(chord, rise, t, where.z0),)),)),
        joints=_FIXED,
        shows=("bottom",),
        notes=(_how(spec, lining), "FIX TO THE RAIL AND TO BLOCKS BEHIND IT"),
        curve=Curve(chord, rise, float(radius), "y", "underside"),
        bend=Bend(
            "x",
            t,
            snap(Fraction(_developed(chord, radius)), spec.precision, "up"),
            lining.laminations,
            Kerfs(lining.kerfs.count, lining.kerfs.width, lining.kerfs.web) if lining.kerfs else None,
        ),
        made_from=made_from,
        decided_by=BY,
    )


def _behind(middle: Middle, low: Fraction) -> Fraction:
    """Return y of what the lining meets at its back: the facing, or what the facing stands on where it ends
    lower.
    """
    lower = middle.surround_z is None or middle.surround_z[1] <= low
    return middle.slab_back if lower else middle.face


def _refused_surround(
    spec: Spec, origin: Origin, middle: Middle, low: Fraction, high: Fraction
) -> Iterator[Diagnostic]:
    if middle.surround_z is not None and low < middle.surround_z[1] < high:
        yield origin.fault(
            "lining",
            ("surround", "height"),
            f"the surround ends {written(middle.surround_z[1], spec)} above the floor, behind the "
            "lining of the arch",
            help=f"Let it end at {written(low, spec)}, under the lining, or run up to the mantel.",
        )


def _profile(chord: Fraction, rise: Fraction, t: Fraction, low: Fraction) -> Region:
    """Two arcs of one centre, cut plumb at the ends of the chord."""
    half = chord / 2
    under = arc_through((-half, low), (half, low), rise)
    # The outer arc is a path already: its ends are as exact as floats are.
    outer = under.radius + t
    turn = asin(half / outer)
    over = Arc(under.centre, outer, _UP - turn, 2 * turn)
    return region(Loop((under, line((half, low), over.first), over, line(over.last, (-half, low)))))


_UP = asin(1.0)


def _developed(chord: Fraction, radius: Fraction) -> float:
    """Length along the underside, mm: the longer face between plumb ends."""
    return 2 * radius * asin(chord / 2 / radius)


def _how(spec: Spec, lining: Lining) -> str:
    """How it is bent, in the words of the shop."""
    if lining.kerfs:
        kerfs = lining.kerfs
        return (
            f"KERF THE BACK: {kerfs.count} KERFS {written(kerfs.width, spec)} WIDE, EQUAL, "
            f"{written(kerfs.web, spec)} LEFT; FILL WITH GLUE AND BEND"
        )
    if lining.laminations > 1:
        layer = written(lining.thickness / lining.laminations, spec)
        return f"BEND {lining.laminations} LAYERS OF {layer} OVER A FORM AND GLUE"
    return "BEND DRY TO THE ARCH"
