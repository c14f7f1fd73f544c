"""The mantel's layers from the top down: cap, fascia, sub-fascia, and the blocking that they are fixed to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Literal

from sheets.base.diagnostics import SpecPath
from sheets.base.length import snap
from sheets.grammar.inherit import SECONDARY
from sheets.grammar.schema import Fascia, Spec
from sheets.model.part import Extent, Joint, Material, Part, Provenance
from sheets.model.purpose import DecidedBy, Purpose
from sheets.model.wall import Leftover
from sheets.resolve.built import Origin, left_over
from sheets.resolve.caps import CapEnd, CapPlan
from sheets.resolve.edges import Corner, Kerfs, left_return, run, saw_cuts
from sheets.resolve.gather import piece
from sheets.resolve.layout import Layout
from sheets.resolve.materials import Materials
from sheets.resolve.middle import MantelPlan, Middle
from sheets.resolve.mirror import mirrored_part

RIB_SPACING = ("15", "380")
"""Ribs that carry the cap, about this far apart: with their steps within the 16 in of studs (common
practice)."""
RIB_STEP = ("1", "20")
"""Ribs stand on whole steps of this, easy to set out."""
CLEAT = ("7/2", "90")
"""Height of the cleat on the wall."""
KEY = "mantel"
FIXED = Joint("butt", fastening="screw")
"""Screwed from behind, through backing and packing."""
_PLACED = "half to the lowest, half to the highest"


Step = Literal["fascia", "sub-fascia"]


@dataclass(frozen=True, slots=True)
class Layer:
    """One board on edge with its returns. face: y of its face; half: x of the face of its returns."""

    step: Step
    name: str
    said: Fascia
    face: Fraction
    half: Fraction
    z0: Fraction
    z1: Fraction
    cuts: Kerfs

    @property
    def back(self) -> Fraction:
        return self.face - self.said.thickness

    @property
    def inner(self) -> Fraction:
        return self.half - self.said.thickness


def mantel_layers(spec: Spec, plan: MantelPlan) -> tuple[tuple[Layer, ...], tuple[Leftover, ...]]:
    """Return fascia and sub-fascia, those that are built, and what the grid left over of their bands."""
    assert spec.mantel is not None
    said = spec.mantel.layers
    rows: tuple[tuple[Step, str, Fascia | None, Fraction, Fraction, Fraction], ...] = (
        ("fascia", "Fascia", said.fascia, plan.fascia_face, plan.fascia_bottom, plan.cap_bottom),
        ("sub-fascia", "Sub-fascia", said.sub_fascia, plan.sub_face, plan.layers_bottom, plan.fascia_bottom),
    )
    made: list[Layer] = []
    over: tuple[Leftover, ...] = ()
    for step, name, layer, face, z0, z1 in rows:
        if layer is None:
            continue
        cuts, leftover = saw_cuts(z0, z1, layer.saw_cuts, spec.precision)
        over += left_over(KEY, f"bands of the {name.lower()}", leftover, _PLACED)
        made.append(Layer(step, name, layer, face, plan.half - (plan.breast - face), z0, z1, cuts))
    return tuple(made), over


def layer_parts(
    spec: Spec, origin: Origin, layers: Sequence[Layer], middle: Middle, materials: Materials
) -> list[Part]:
    """Return the boards of the layers with their returns."""
    assert spec.mantel is not None
    corner: Corner = "square" if spec.mantel.returns == "square" else "mitred"
    turn = Joint("mitre" if corner == "mitred" else "butt", fastening="glue")
    made: list[Part] = []
    for layer in layers:
        material = materials[layer.said.material]
        made_from = origin.made_from(("mantel", "layers", layer.step.replace("-", "_")))
        where, solid = run(
            -layer.half,
            layer.half,
            layer.face,
            layer.said.thickness,
            layer.z0,
            layer.z1,
            corner,
            corner,
            layer.cuts,
        )
        turns = [replace(turn, mate=f"{KEY}/{layer.step}-return-{side}") for side in ("left", "right")]
        joints = (*layer.cuts.joints(), *turns, FIXED)
        by = _decided(layer, made_from.path)
        made.append(
            piece(
                layer.step,
                layer.name,
                layer.step,
                KEY,
                material,
                where,
                "yzx",
                solid=solid,
                joints=joints,
                shows=("front",),
                notes=("SCREW FROM BEHIND",),
                made_from=made_from,
                does=Purpose(lines=("level",), face=layer.step),
                decided_by=by,
            )
        )
        made += _returns(layer, corner, turn, middle, material, made_from, spec.precision)
    return made


def _returns(
    layer: Layer,
    corner: Corner,
    turn: Joint,
    middle: Middle,
    material: Material,
    made_from: Provenance,
    grid: Fraction,
) -> list[Part]:
    """The returns of a layer at its left and its right end."""
    made = []
    for side in (-1, 1):
        back = return_back(middle, layer, side, grid)
        where, solid = left_return(
            -layer.half, back, layer.face, layer.said.thickness, layer.z0, layer.z1, corner, layer.cuts
        )
        part = piece(
            f"{layer.step}-return-left",
            f"{layer.name} return",
            f"{layer.step} return",
            KEY,
            material,
            where,
            "xzy",
            solid=solid,
            joints=(*layer.cuts.joints(), replace(turn, mate=f"{KEY}/{layer.step}"), FIXED),
            shows=("left",),
            hand="left",
            made_from=made_from,
            decided_by=_decided(layer, made_from.path),
        )
        alike = return_back(middle, layer, -1, grid) == back
        made.append(part if side < 0 else mirrored_part(part, KEY, KEY, twin=alike))
    return made


def _decided(layer: Layer, said: SpecPath) -> DecidedBy:
    return DecidedBy(
        width=(*said, "height"),
        thickness=(*said, "thickness"),
        top=(*said, "height") if layer.step == "fascia" else (),
        setback=(*said, "setback") if layer.step == "sub-fascia" else (),
    )


OVER_IT = "FIRST ON SITE: THE BREAST IS SET OVER IT AND SCREWED TO IT FROM ABOVE, BEFORE THE CAP"
"""So that no screw to the wall goes through a face that is seen."""


def return_back(middle: Middle, layer: Layer, side: int, grid: Fraction) -> Fraction:
    """Return y where a return starts: the front of the case that hides the rest, or the wall."""
    case = middle.case_beside(side)
    if case is None or case.case.height < layer.z1:
        return Fraction(0)
    return min(case.case.depth, layer.back - grid)


def blocking(
    spec: Spec, origin: Origin, layers: Sequence[Layer], plan: MantelPlan, materials: Materials
) -> list[Part]:
    """Return the box behind the layers: backing, ends, bottom, ribs and the cleat on the wall."""
    if not layers or spec.mantel is None:
        return []
    hidden, t = materials.secondary, materials.thickness(SECONDARY)
    y, x = min(layer.back for layer in layers), min(layer.inner for layer in layers)
    z0, z1 = plan.layers_bottom, plan.cap_bottom
    boxed = y > 4 * t and 2 * x > 6 * t
    # The bottom shows from below: it runs on to the back of the lowest layer, and all else stands on it.
    lowest = min(layers, key=lambda layer: layer.z0)
    seen = materials.under(spec.mantel.material)
    thick = seen.thickness or t
    # What stands on it is cut on the grid: the bottom lies up by what its true thickness is short of that.
    floor = snap(z0 + thick, materials.sizes.grid, "up")
    if not boxed or lowest.z1 <= floor or z1 - z0 < 3 * thick:
        floor = z0
    made = _packing(layers, x, y, floor, hidden, origin)
    made_from = origin.made_from(("mantel", "layers"))
    screw = (Joint("butt", fastening="screw"),)

    def block(step: str, name: str, where: Extent, axes: str, *notes: str) -> None:
        made.append(
            piece(
                step,
                name,
                "blocking",
                KEY,
                hidden,
                where,
                axes,
                joints=screw,
                notes=notes,
                made_from=made_from,
            )
        )

    if not boxed:
        # What is screwed to the wall is one board; what it wants in thickness is screwed to that.
        first = min(t, y)
        made.append(_cleat(Extent(-x, x, Fraction(0), first, z0, z1), hidden, made_from))
        if y > first:
            block("backing", "Backing", Extent(-x, x, first, y, z0, z1), "yzx", "BUILD UP TO THICKNESS")
        return made
    block("backing", "Backing", Extent(-x, x, y - t, y, floor, z1), "yzx")
    block("end-left", "End blocking", Extent(-x, -x + t, Fraction(0), y - t, floor, z1), "xzy")
    block("end-right", "End blocking", Extent(x - t, x, Fraction(0), y - t, floor, z1), "xzy")
    inner = x - t
    if floor > z0:
        where = Extent(-lowest.inner, lowest.inner, Fraction(0), lowest.back, floor - thick, floor)
        made.append(_soffit(where, seen, made_from))
    height = min(materials.sizes.of(CLEAT), z1 - floor)
    made.append(_cleat(Extent(-inner, inner, Fraction(0), t, z1 - height, z1), hidden, made_from, OVER_IT))
    for k, (x0, x1) in enumerate(_ribs(inner, t, materials), 1):
        block(f"rib-{k}", "Rib", Extent(x0, x1, t, y - t, floor, z1), "xzy")
    return made


def _soffit(where: Extent, seen: Material, made_from: Provenance) -> Part:
    return piece(
        "soffit",
        "Soffit",
        "soffit",
        KEY,
        seen,
        where,
        "zyx",
        joints=(Joint("butt", fastening="screw", moves=seen.kind == "wood"),),
        shows=("bottom",),
        notes=("GOOD FACE DOWN",),
        made_from=made_from,
    )


def _cleat(where: Extent, hidden: Material, made_from: Provenance, *first: str) -> Part:
    return piece(
        "cleat",
        "Wall cleat",
        "cleat",
        KEY,
        hidden,
        where,
        "yzx",
        joints=(Joint("butt", fastening="screw"),),
        notes=("SCREW THROUGH INTO STUDS OR BLOCKING ON SITE", *first),
        made_from=made_from,
        does=Purpose(anchors=True),
    )


def _ribs(inner: Fraction, t: Fraction, materials: Materials) -> list[tuple[Fraction, Fraction]]:
    """Return where the ribs stand, left to right: evenly about the axis, their inner faces on whole steps.

    An even number leaves the axis free, where the mantel is cut for its section.
    """
    pairs = max(1, ceil((2 * inner / materials.sizes.of(RIB_SPACING) - 1) / 2))
    step = materials.sizes.of(RIB_STEP)
    spacing = max(2 * inner / (2 * pairs + 1) // step, 1) * step
    faces = [spacing * (2 * k + 1) / 2 for k in range(pairs)]
    right = [(face, face + t) for face in faces if face + t < inner]
    return [(-b, -a) for a, b in reversed(right)] + right


def _packing(
    layers: Sequence[Layer], x: Fraction, y: Fraction, floor: Fraction, wood: Material, origin: Origin
) -> list[Part]:
    """Strips that bring each layer out to its plane from the common backing; they start at `floor` or
    higher."""
    made = []
    glue = (Joint("butt", fastening="screw"),)
    for layer in layers:
        made_from = origin.made_from(("mantel", "layers", layer.step.replace("-", "_")))
        z = max(layer.z0, floor)
        if layer.back > y:
            made.append(
                piece(
                    f"{layer.step}-packing",
                    "Packing",
                    "packing",
                    KEY,
                    wood,
                    Extent(-layer.inner, layer.inner, y, layer.back, z, layer.z1),
                    "yzx",
                    joints=glue,
                    made_from=made_from,
                )
            )
        if layer.inner > x:
            left = piece(
                f"{layer.step}-packing-left",
                "Packing",
                "packing",
                KEY,
                wood,
                Extent(-layer.inner, -x, Fraction(0), y, z, layer.z1),
                "xzy",
                joints=glue,
                hand="left",
                made_from=made_from,
            )
            made += [left, mirrored_part(left, KEY, KEY)]
    return made


def mantel_cap(
    spec: Spec,
    origin: Origin,
    layout: Layout,
    plan: MantelPlan,
    materials: Materials,
    blocks: Sequence[Part],
) -> tuple[CapPlan | None, tuple[Leftover, ...]]:
    """Return the plan of the cap, and what the grid left over of its bands. blocks: what may be under it."""
    assert spec.mantel is not None
    cap = spec.mantel.layers.cap
    if cap is None:
        return None, ()
    cuts, leftover = saw_cuts(plan.cap_bottom, plan.top, cap.saw_cuts, spec.precision)
    beyond = plan.cap_front - plan.breast  # at the ends the cap stands out as far as at the front
    ends = [_end(layout, plan, side, beyond) for side in (-1, 1)]
    made = CapPlan(
        assembly=KEY,
        name="Mantel cap",
        front=plan.cap_front,
        overhang=max(cap.overhang, Fraction(0)),
        z0=plan.cap_bottom,
        z1=plan.top,
        left=ends[0],
        right=ends[1],
        corner="square" if spec.mantel.returns == "square" else "mitred",
        cuts=cuts,
        material=materials[cap.material],
        made_from=origin.made_from(("mantel", "layers", "cap")),
        lies_on=tuple(part.key for part in blocks if part.extent.z1 == plan.cap_bottom),
        glued=cap.fixed == "glued",
    )
    return made, left_over(KEY, "bands of the cap", leftover, _PLACED)


def _end(layout: Layout, plan: MantelPlan, side: int, beyond: Fraction) -> CapEnd:
    """The cap's end: its overhang is returned to the case front, or to the wall where no case stands as
    high."""
    edge = side * plan.half
    if beyond < 0:
        return CapEnd(edge + side * beyond, Fraction(0), Fraction(0))
    if plan.half + beyond > layout.half_room:
        return CapEnd(edge)
    back = Fraction(0)
    for standing in layout.cases:
        near = standing.x0 if side > 0 else -standing.x1
        far = standing.x1 if side > 0 else -standing.x0
        own = standing.case.cap.overhang if standing.case.cap else Fraction(0)
        if far <= plan.half or near - own >= plan.half + beyond or standing.case.height <= plan.cap_bottom:
            continue
        back = max(back, standing.case.depth + (own if standing.cap_bottom < plan.top else 0))
    if back >= plan.cap_front:
        return CapEnd(edge)
    return CapEnd(edge, beyond, back)
