"""Two walls in, what changed out: by key and exact size, never by the text of a spec.

The order of keys, comments, and a length restated in another unit change nothing here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.length import MM_PER_FOOT
from sheets.base.tolerance import settled
from sheets.checks.finding import Finding
from sheets.geometry.path import Arc, Segment
from sheets.geometry.solid import Solid
from sheets.model.part import AXES, Axis, Extent, Joint, Part
from sheets.model.wall import Component, Wall
from sheets.revisions.comparing.changes import (
    PART_KINDS,
    Changes,
    ComponentChange,
    PartChange,
    PartKind,
    TakeOffLine,
)
from sheets.revisions.comparing.findings import finding_changes
from sheets.revisions.comparing.sizes import size_changes, word_changes
from sheets.schedules.amounts import board_feet, cubic_metres
from sheets.schedules.parts import material_text, shop_parts
from sheets.schedules.stock import rough_of

_EXACT = Fraction(0)
_DECIMALS = 4  # of mm, for solids: floats that differ by less are the same cut


def compare(
    before: Wall,
    after: Wall,
    findings_before: Iterable[Finding] = (),
    findings_after: Iterable[Finding] = (),
    blocks: tuple[str, str] = ("", ""),
) -> Changes:
    """Return what changed from one wall to the other.

    The findings are those of each wall's checks; blocks: what the title block of each holds. Where the
    precision is another, what the rounding of both comes to is no change.
    """
    slack = (before.grid + after.grid) / 2 if before.grid != after.grid else _EXACT
    parts = _parts(before, after, slack)
    components = _components(before, after)
    whole = {change.key for change in components if change.before is None or change.after is None}
    sizes = size_changes(before, after, slack)
    lost, gained, restated = finding_changes(before, after, findings_before, findings_after)
    other_units = before.units != after.units  # all that is said in numbers is said in others
    return Changes(
        parts=parts,
        components=components,
        sizes=tuple(
            size for size in sizes if size.owner not in whole
        ),  # an assembly that came has no size "before"
        words=word_changes(before, after, blocks),
        gained=gained,
        lost=lost,
        restated=() if other_units else restated,
        take_off=() if other_units else _take_off(before, after),
        slack=slack,
    )


def part_kinds(before: Part, after: Part, slack: Fraction = _EXACT) -> tuple[PartKind, ...]:
    """Return in which ways a part changed; empty if it is built and placed alike, to a slack in mm."""
    found: set[PartKind] = set()
    resized = any(not _near(a, b, slack) for a, b in zip(_sizes_of(before), _sizes_of(after), strict=True))
    if resized:
        found.add("resized")
    if any(_moved(before.extent, after.extent, axis, slack) for axis in AXES):
        found.add("moved")
    if material_text(before.material) != material_text(after.material):
        found.add("material")
    if not _alike(_joints(before.joints), _joints(after.joints), slack):
        found.add("joints")
    bent = not _alike((before.curve, _bend(before)), (after.curve, _bend(after)), slack)
    if bent or (not resized and not found & {"joints"} and _cut_otherwise(before, after, slack)):
        found.add("shape")
    if _details(before) != _details(after):
        found.add("details")
    if not found and not _alike(before.extent, after.extent, slack):
        found.add("moved")
    return tuple(kind for kind in PART_KINDS if kind in found)


def _near(one: object, other: object, slack: Fraction) -> bool:
    if isinstance(one, Fraction) and isinstance(other, Fraction):
        return abs(one - other) <= slack
    if isinstance(one, float) and isinstance(other, float):
        return one == other or abs(one - other) <= slack
    return one == other


def _alike(one: object, other: object, slack: Fraction) -> bool:
    # Values of any kind, number by number.
    if not slack:
        return one == other
    if is_dataclass(one) and type(one) is type(other):
        return all(_alike(getattr(one, f.name), getattr(other, f.name), slack) for f in fields(one))
    if isinstance(one, (tuple, list)) and isinstance(other, (tuple, list)):
        return len(one) == len(other) and all(_alike(a, b, slack) for a, b in zip(one, other, strict=True))
    return _near(one, other, slack)


def _parts(before: Wall, after: Wall, slack: Fraction) -> tuple[PartChange, ...]:
    # The room's bodies reach as far as the drawing shows them; its own sizes are told as such.
    old, new = ({part.key: part for part in wall.parts if part.maker != "room"} for wall in (before, after))
    found: list[PartChange] = []
    for key in sorted(old.keys() | new.keys(), key=key_order):
        was, now = old.get(key), new.get(key)
        if was is None:
            found.append(PartChange(key, ("added",), None, now))
        elif now is None:
            found.append(PartChange(key, ("removed",), was, None))
        elif kinds := part_kinds(was, now, slack):
            found.append(PartChange(key, kinds, was, now))
    return tuple(found)


def _bend(part: Part) -> tuple[object, ...] | None:
    return (part.bend.laminations, part.bend.kerfs) if part.bend else None


def _sizes_of(part: Part) -> tuple[object, ...]:
    return part.thickness, part.width, part.length


def _moved(before: Extent, after: Extent, axis: Axis, slack: Fraction) -> bool:
    # A part that grows from one end, or from its middle, has not moved; one whose faces both went one way
    # has.
    low, high = (b - a for a, b in zip(before.span(axis), after.span(axis), strict=True))
    return (low > slack and high > slack) or (low < -slack and high < -slack)


def _joints(joints: Iterable[Joint]) -> list[tuple[object, ...]]:
    found: Counter[tuple[object, ...]] = Counter()
    for joint in joints:
        whole = joint.glued is None
        sizes = (joint.width or _EXACT, joint.depth or _EXACT, joint.glued or _EXACT)
        found[(joint.kind, joint.held, whole, *sizes)] += joint.count
    return sorted((*kind, count) for kind, count in found.items())


def _details(part: Part) -> tuple[object, ...]:
    return (
        part.name,
        part.role,
        part.assembly,
        part.maker,
        tuple(sorted(part.shows)),
        part.notes,
        part.thickness_axis,
        part.width_axis,
        part.length_axis,
    )


def _cut_otherwise(before: Part, after: Part, slack: Fraction) -> bool:
    return not _alike(_profile(before.solid, before.extent), _profile(after.solid, after.extent), slack)


def _profile(solid: Solid, extent: Extent) -> tuple[object, ...]:
    # The solid seen from its own corner, so that a part that only moved is the same.
    along, (u, v) = solid.axis, _across(solid.axis)
    base, du, dv = (float(extent.span(axis)[0]) for axis in (along, u, v))
    return (
        along,
        *(
            (
                settled(slab.lo - base, _DECIMALS),
                settled(slab.hi - base, _DECIMALS),
                tuple(
                    tuple(_segment(s, du, dv) for s in loop.segments)
                    for region in slab.regions
                    for loop in region.loops
                ),
            )
            for slab in solid.slabs
        ),
    )


def _across(axis: str) -> tuple[Axis, Axis]:
    others: dict[str, tuple[Axis, Axis]] = {"x": ("y", "z"), "y": ("x", "z"), "z": ("x", "y")}
    return others[axis]


def _segment(segment: Segment, du: float, dv: float) -> tuple[float, ...]:
    (ax, ay), (bx, by) = segment.first, segment.last
    bend = segment.sweep if isinstance(segment, Arc) else 0.0
    return tuple(settled(value, _DECIMALS) for value in (ax - du, ay - dv, bx - du, by - dv, bend))


def _components(before: Wall, after: Wall) -> tuple[ComponentChange, ...]:
    old, new = ({component.key: component for component in wall.components} for wall in (before, after))
    return tuple(
        ComponentChange(key, old.get(key), new.get(key))
        for key in sorted(old.keys() | new.keys(), key=key_order)
        if _identity(old.get(key)) != _identity(new.get(key))
    )


def _identity(component: Component | None) -> tuple[object, ...] | None:
    return None if component is None else (component.kind, component.name, component.hand, component.twin)


def _take_off(before: Wall, after: Wall) -> tuple[TakeOffLine, ...]:
    old, new = _needs(before), _needs(after)
    nothing = (0, Fraction(0))
    found: list[TakeOffLine] = []
    for key in sorted(old.keys() | new.keys()):
        was, now = old.get(key, nothing), new.get(key, nothing)
        if was != now:
            found.append(TakeOffLine(*key, was[0], now[0], was[1], now[1]))
    return tuple(found)


def _needs(wall: Wall) -> dict[tuple[str, str, str], tuple[int, Fraction]]:
    stock, metric = wall.settings.stock, wall.units == "mm"
    found: dict[tuple[str, str, str], tuple[int, Fraction]] = {}
    for part in shop_parts(wall):
        rough = rough_of(part, stock, wall.units)
        if rough is None:
            continue
        thickness, width, length = rough.blank
        if rough.kind == "panel":
            unit, each = (
                ("M²", width * length / 10**6) if metric else ("SQ FT", width * length / MM_PER_FOOT**2)
            )
        elif metric:
            unit, each = "M³", cubic_metres(thickness, width, length)
        else:
            unit, each = "BD FT", board_feet(rough.thickness, width, length)
        key = (material_text(part.material), rough.label, unit)
        count, amount = found.get(key, (0, Fraction(0)))
        found[key] = (count + rough.pieces, amount + rough.pieces * each)
    return found
