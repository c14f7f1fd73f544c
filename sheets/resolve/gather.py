"""One piece: a part made of what a component says of it."""

from collections.abc import Iterable
from dataclasses import replace

from sheets.base.keys import join_key
from sheets.geometry.solid import Solid, box
from sheets.model.part import Axis, Bend, Curve, Extent, Hand, Joint, Maker, Material, Part, Provenance
from sheets.model.purpose import NO_PURPOSE, UNDECIDED, DecidedBy, Purpose

NOWHERE = Provenance()
AXIS_OF: dict[str, Axis] = {"x": "x", "y": "y", "z": "z"}


def piece(
    step: str,
    name: str,
    role: str,
    assembly: str,
    material: Material,
    where: Extent,
    axes: str,
    *,
    solid: Solid | None = None,
    joints: tuple[Joint, ...] = (),
    shows: tuple[str, ...] = (),
    edged: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
    maker: Maker = "shop",
    hand: Hand = "",
    curve: Curve | None = None,
    bend: Bend | None = None,
    made_from: Provenance = NOWHERE,
    does: Purpose = NO_PURPOSE,
    decided_by: DecidedBy = UNDECIDED,
) -> Part:
    """Return a part. `axes` names its thickness, width and length axis in that order: "yzx" is a board on
    edge along the wall. Without `solid` it is the plain block of its extent."""
    t, w, length = (AXIS_OF[c] for c in axes)
    return Part(
        key=join_key(assembly, step),
        name=name,
        role=role,
        assembly=assembly,
        material=material,
        extent=where,
        solid=solid or box(where.x0, where.x1, where.y0, where.y1, where.z0, where.z1),
        thickness_axis=t,
        width_axis=w,
        length_axis=length,
        joints=joints,
        shows=shows,
        edged=edged,
        notes=(*notes, *(f"VENEER ON THE {face.upper()} EDGE" for face in edged)),
        maker=maker,
        hand=hand,
        curve=curve,
        bend=bend,
        made_from=made_from,
        does=does,
        decided_by=decided_by,
    )


def settled(parts: Iterable[Part], whole: DecidedBy) -> tuple[Part, ...]:
    """Return the parts of a component, the whole's places of the spec filled in where they name none."""
    return tuple(replace(part, decided_by=part.decided_by.over(whole)) for part in parts)
