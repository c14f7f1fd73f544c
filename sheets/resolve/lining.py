"""The lining under the mantel's arch: a board bent to the arc, flat boards where the rail has shoulders."""

from fractions import Fraction
from math import asin

from sheets.base.length import snap
from sheets.geometry.path import Arc, Line, Loop, arc_through
from sheets.geometry.region import Region, region
from sheets.geometry.solid import stack
from sheets.grammar.hearth import Lining
from sheets.grammar.measure import arc_radius, arch_chord, written
from sheets.grammar.schema import Spec
from sheets.model.part import Bend, Curve, Extent, Joint, Kerfs, Part
from sheets.model.purpose import DecidedBy
from sheets.resolve.gather import Gathered, piece
from sheets.resolve.materials import Materials
from sheets.resolve.middle import Middle
from sheets.resolve.mirror import mirrored_part

_FIXED = (Joint("butt", fastening="glue"), Joint("butt", fastening="screw"))
"""Glued to the back of the rail, screwed to blocks."""


def lining_parts(
    spec: Spec,
    gathered: Gathered,
    middle: Middle,
    materials: Materials,
    assembly: str,
    half: Fraction,
    rail: tuple[Fraction, Fraction],
) -> list[Part]:
    """Return the lining under an arched rail of this half length. rail: y of its back, z of its arc."""
    arch = spec.mantel.arch if spec.mantel else None
    lining = arch.lining if arch else None
    if arch is None or lining is None:
        return []
    path = ("mantel", "arch", "lining")
    low = rail[1]
    y = (_behind(spec, gathered, middle, low, low + arch.rise + lining.thickness), rail[0])
    if y[1] - y[0] < spec.precision:
        gathered.say(
            "lining",
            path,
            "the arched rail is against the facing: there is nothing behind it to line",
            help="A lining wants posts that stand farther out than the rail is thick.",
        )
        return []
    chord = arch_chord(arch, spec.fireplace)
    assert chord is not None
    material = materials[lining.material]
    made_from = gathered.made_from(path)
    t, rise = lining.thickness, arch.rise
    radius = arc_radius(chord, rise)
    made = [
        piece(
            "arch-lining",
            "Arch lining",
            "arch lining",
            assembly,
            material,
            Extent(-chord / 2, chord / 2, *y, low, low + rise + t),
            "zyx" if lining.grain == "along" else "zxy",
            solid=stack("y", ((float(y[0]), float(y[1]), (_profile(chord, rise, t, low),)),)),
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
            decided_by=DecidedBy(thickness=(*path, "thickness"), off_fire=("mantel", "arch", "rail")),
        )
    ]
    if chord / 2 < half:
        left = piece(
            "arch-lining-end-left",
            "Arch lining end",
            "arch lining end",
            assembly,
            material,
            Extent(-half, -chord / 2, *y, low, low + t),
            "zyx",
            joints=_FIXED,
            shows=("bottom",),
            notes=("MEET THE LINING PLUMB",),
            hand="left",
            made_from=made_from,
            decided_by=DecidedBy(thickness=(*path, "thickness"), off_fire=("mantel", "arch", "rail")),
        )
        made += [left, mirrored_part(left, assembly, assembly)]
    return made


def _behind(spec: Spec, gathered: Gathered, middle: Middle, low: Fraction, high: Fraction) -> Fraction:
    """Return y of what the lining meets at its back: the facing, or what the facing stands on where it ends
    lower.
    """
    if middle.surround_z is None or middle.surround_z[1] <= low:
        return middle.slab_back
    if middle.surround_z[1] < high:
        gathered.say(
            "lining",
            ("surround", "height"),
            f"the surround ends {written(middle.surround_z[1], spec)} above the floor, behind the "
            "lining of the arch",
            help=f"Let it end at {written(low, spec)}, under the lining, or run up to the mantel.",
        )
    return middle.face


def _profile(chord: Fraction, rise: Fraction, t: Fraction, low: Fraction) -> Region:
    """Two arcs of one centre, cut plumb at the ends of the chord."""
    half, z0 = float(chord / 2), float(low)
    under = arc_through((-half, z0), (half, z0), float(rise))
    centre, outer = under.centre, under.radius + float(t)
    turn = asin(half / outer)
    over = Arc(centre, outer, _UP - turn, 2 * turn)
    return region(Loop((under, Line((half, z0), over.first), over, Line(over.last, (-half, z0)))))


_UP = asin(1.0)


def _developed(chord: Fraction, radius: Fraction) -> float:
    """Length along the underside, mm: the longer face between plumb ends."""
    return 2 * float(radius) * asin(float(chord / 2) / float(radius))


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
