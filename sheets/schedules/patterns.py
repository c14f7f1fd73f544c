"""Full-size patterns of shaped parts: outline with true arcs, centreline, ordinates at stations.

A part is shaped when its profile has an arc. The pattern lies in the plane square to the axis its profile is
swept
along: u and v are the two other axes in the order of the alphabet, mm, 0 at the part's own corner.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, hypot
from typing import Literal

from sheets.base.length import MM_PER_INCH
from sheets.base.notation import Notation
from sheets.geometry.joining import union
from sheets.geometry.path import Arc, Loop, Point, shifted
from sheets.geometry.region import Region
from sheets.geometry.solid import AXES, PROFILE
from sheets.model.part import Axis, Part
from sheets.model.wall import Wall
from sheets.schedules.cells import joined, size_cell
from sheets.schedules.fields import Field, Schedule, Told
from sheets.schedules.parts import material_text, shop_parts
from sheets.schedules.table import Cell, TableData, plain

_SAME_RADIUS = 0.05  # mm
_OVERRUN = 6.0  # mm that a centreline runs on past the curve
_FINE_INCH = Notation(
    "inches", MM_PER_INCH / 64
)  # ordinates are marked with a rule of 64ths (common practice)
_FINE_MM = Notation("mm", Fraction(1, 10))


@dataclass(frozen=True, slots=True)
class Ordinate:
    """One station of a curve: how far from its middle, and how far off its chord the curve is there. mm."""

    offset: Fraction
    height: float
    foot: Point  # on the chord, pattern coordinates
    tip: Point  # on the curve


@dataclass(frozen=True, slots=True)
class PatternCurve:
    """One arc of the outline, laid out from its chord."""

    chord: float
    rise: float
    radius: float
    centre: Point
    ends: tuple[Point, Point]
    ordinates: tuple[Ordinate, ...]  # from one end to the other
    centreline: tuple[Point, Point]  # from the middle of the chord, over the crown and on
    crown: Point


@dataclass(frozen=True, slots=True)
class Pattern:
    """One shaped part at full size. Parts with the same mark share it."""

    id: str  # key of the first part
    mark: str
    name: str
    quantity: int
    material: str
    size: tuple[Fraction, Fraction, Fraction]
    thickness: Fraction  # how far the profile is swept
    plane: tuple[Axis, Axis]
    outline: tuple[Loop, ...]  # outer loops and holes
    inner: tuple[Loop, ...]  # edges where the profile changes along the part
    curves: tuple[PatternCurve, ...]
    grain: Literal["u", "v", ""]
    width: float
    height: float
    keys: tuple[str, ...]

    def title(self, notation: Notation) -> Cell:
        """The pattern's name as printed: mark, part, size and number wanted."""
        head = " ".join(word for word in (self.mark, self.name.upper()) if word)
        return joined(f"{head}, ", size_cell(self.size, notation), f", MAKE {self.quantity}")


def patterns(wall: Wall) -> tuple[Pattern, ...]:
    """Return a pattern of each shaped part that the shop makes, one for those that share a mark."""
    station = wall.settings.patterns.station
    found: dict[str, list[Part]] = {}
    for part in shop_parts(wall):
        if is_shaped(part):
            found.setdefault(part.mark or part.key, []).append(part)
    return tuple(_pattern(parts, station) for parts in found.values())


def is_shaped(part: Part) -> bool:
    """Return whether a part needs a pattern: its profile has an arc."""
    return any(
        isinstance(segment, Arc)
        for slab in part.solid.slabs
        for region in slab.regions
        for loop in region.loops
        for segment in loop.segments
    )


def fine(notation: Notation) -> Notation:
    """Return how ordinates are written: to 1/64 in, or 0.1 mm, as a rule can be read."""
    return _FINE_MM if notation.kind == "mm" else _FINE_INCH


def ordinate_table(pattern: Pattern, notation: Notation) -> TableData:
    """Return the pattern's ordinates: station from the middle, and height of the curve over its chord."""
    told = finely_told(notation)
    notes = tuple(
        f"CURVE {number}: CHORD {_said(curve.chord, told)}, RISE {_said(curve.rise, told)}, "
        f"RADIUS {_said(curve.radius, told)}. {_ends(curve, told)} BOTH HALVES ARE ALIKE."
        for number, curve in enumerate(pattern.curves, 1)
    )
    title = f"ORDINATES OF {pattern.mark or pattern.name.upper()}"
    return ORDINATES.table(ordinate_rows((pattern,)), told, notes, id=f"ordinates/{pattern.id}", title=title)


def ordinate_rows(patterns: tuple[Pattern, ...]) -> list[OrdinateRow]:
    """Return every station of every curve, of one half: both are alike."""
    return [
        (pattern, number, curve, ordinate)
        for pattern in patterns
        for number, curve in enumerate(pattern.curves, 1)
        for ordinate in curve.ordinates
        if ordinate.offset >= 0
    ]


def finely_told(notation: Notation) -> Told:
    """Return how the values of ordinates are told: rounded to what a rule can mark."""
    return Told(fine(notation), rounded=True)


OrdinateRow = tuple[Pattern, int, PatternCurve, Ordinate]

ORDINATES: Schedule[OrdinateRow] = Schedule(
    "ordinates",
    (
        Field("mark", "text", lambda r, _: r[0].mark, says="mark of the shaped part"),
        Field("name", "text", lambda r, _: r[0].name, says="what it is"),
        Field("curve", "count", lambda r, _: r[1], "CURVE", "which arc of its outline", "centre"),
        Field("chord", "length", lambda r, _: _exact(r[2].chord), says="chord of the arc"),
        Field("rise", "length", lambda r, _: _exact(r[2].rise), says="rise over the chord"),
        Field("radius", "length", lambda r, _: _exact(r[2].radius), says="radius"),
        Field("station", "length", lambda r, _: r[3].offset,
              "FROM MIDDLE", "from the middle of the chord, to either side"),
        Field("ordinate", "length", lambda r, _: _exact(r[3].height),
              "OFF CHORD", "from the chord to the curve"),
    ),
    "ordinates of shaped parts",
)  # fmt: skip


def _pattern(parts: list[Part], station: Fraction) -> Pattern:
    part = parts[0]
    solid = part.solid
    first, second = PROFILE[solid.axis]
    plane = (part_axis(first), part_axis(second))
    regions = union(*(region for slab in solid.slabs for region in slab.regions))
    boxes = [region.bounds for region in regions]
    low = (min(b[0] for b in boxes), min(b[1] for b in boxes))
    high = (max(b[2] for b in boxes), max(b[3] for b in boxes))
    move = shifted(-low[0], -low[1])
    placed = [region.transformed(move) for region in regions]
    outline = tuple(loop for region in placed for loop in region.loops)
    inner = _inner([r.transformed(move) for slab in solid.slabs for r in slab.regions], outline)
    size = (high[0] - low[0], high[1] - low[1])
    curves = tuple(_curve(arc, station) for arc in _arcs(outline) if _is_laid_out(arc, part))
    grain: Literal["u", "v", ""] = "u" if part.grain == plane[0] else "v" if part.grain == plane[1] else ""
    return Pattern(
        part.key,
        part.mark,
        part.name,
        len(parts),
        material_text(part.material),
        (part.thickness, part.width, part.length),
        part.extent.size(solid.axis),
        plane,
        outline,
        inner,
        curves,
        grain,
        size[0],
        size[1],
        tuple(p.key for p in parts),
    )


def _is_laid_out(arc: Arc, part: Part) -> bool:
    """Of what is bent, only the face that lies on the form: the other is its thickness away all along."""
    if part.bend is None or part.curve is None:
        return True
    return abs(arc.radius - part.curve.radius) < _SAME_RADIUS


def part_axis(number: int) -> Axis:
    """Return the axis of this number: 0 x, 1 y, 2 z."""
    return AXES[number]


def _inner(regions: list[Region], outline: tuple[Loop, ...]) -> tuple[Loop, ...]:
    loops: list[Loop] = []
    for region in regions:
        loops += [loop for loop in region.loops if loop not in outline and loop not in loops]
    return tuple(loops)


def _arcs(loops: tuple[Loop, ...]) -> list[Arc]:
    """The arcs of the outline, pieces of one circle that follow each other joined."""
    found: list[Arc] = []
    for loop in loops:
        for segment in loop.segments:
            if not isinstance(segment, Arc):
                continue
            last = found[-1] if found else None
            if last is not None and _goes_on(last, segment):
                found[-1] = Arc(last.centre, last.radius, last.start, last.sweep + segment.sweep)
            else:
                found.append(segment)
    return found


def _goes_on(one: Arc, other: Arc) -> bool:
    apart = hypot(one.last[0] - other.first[0], one.last[1] - other.first[1])
    same = hypot(one.centre[0] - other.centre[0], one.centre[1] - other.centre[1])
    return apart < 1e-6 and same < 1e-6 and one.sweep * other.sweep > 0


def _curve(arc: Arc, station: Fraction) -> PatternCurve:
    a, b = arc.first, arc.last
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    chord = arc.chord
    along = ((b[0] - a[0]) / chord, (b[1] - a[1]) / chord)
    crown = arc.point(0.5)
    rise = hypot(crown[0] - middle[0], crown[1] - middle[1])
    off = ((crown[0] - middle[0]) / rise, (crown[1] - middle[1]) / rise)
    half = _exact(chord / 2)
    steps = [n * station for n in range(ceil(half / station))]
    offsets = sorted({-half, half, *steps, *(-step for step in steps)})
    return PatternCurve(
        chord,
        rise,
        arc.radius,
        arc.centre,
        (a, b),
        tuple(_ordinate(arc, offset, middle, along, off, rise) for offset in offsets),
        (middle, (crown[0] + off[0] * _OVERRUN, crown[1] + off[1] * _OVERRUN)),
        crown,
    )


def _ordinate(arc: Arc, offset: Fraction, middle: Point, along: Point, off: Point, rise: float) -> Ordinate:
    # y = sqrt(R^2 - x^2) - (R - h), x from the middle of the chord: Hatfield, American House Carpenter, art.
    # 520.
    x = float(offset)
    height = max(0.0, arc.radius * arc.radius - x * x) ** 0.5 - (arc.radius - rise)
    foot = (middle[0] + along[0] * x, middle[1] + along[1] * x)
    return Ordinate(offset, max(0.0, height), foot, (foot[0] + off[0] * height, foot[1] + off[1] * height))


def _ends(curve: PatternCurve, told: Told) -> str:
    """Where the chord lies on the piece, from the corner of what the piece is cut from."""
    # In the order of what is said: two ends one above the other differ to the left by arithmetic alone, which
    # is another wherever the piece stands.
    ends = sorted((_exact(u), _exact(v)) for u, v in curve.ends)
    places = (f"{plain(told.length(u))} FROM THE LEFT, {plain(told.length(v))} UP" for u, v in ends)
    return f"ITS CHORD RUNS FROM {' TO '.join(places)}."


def _exact(value: float) -> Fraction:
    # A ten-thousandth of a mm: what floats of the outline say is on the grid again, the rest is near enough
    # to mark.
    return Fraction(round(value * 10**4), 10**4)


def _said(value: float, told: Told) -> str:
    return plain(told.length(_exact(value)))
