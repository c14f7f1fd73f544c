"""Two walls in, what changed out: by key and exact size, never by the text of a spec.

The order of keys, comments, and a length restated in another unit change nothing here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import astuple, fields, is_dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.length import MM_PER_FOOT
from sheets.base.tolerance import settled
from sheets.checks.finding import Finding
from sheets.geometry.path import Arc, Segment
from sheets.geometry.solid import Solid
from sheets.model.fire import Manual
from sheets.model.part import AXES, Axis, Extent, Joint, Part
from sheets.model.settings import Waiver
from sheets.model.wall import Component, Wall
from sheets.revisions.comparing.changes import (
    PART_KINDS,
    Changes,
    ComponentChange,
    FindingLine,
    PartChange,
    PartKind,
    Restated,
    SizeChange,
    TakeOffLine,
    Value,
)
from sheets.schedules.amounts import board_feet, cubic_metres
from sheets.schedules.parts import material_text, shop_parts
from sheets.schedules.stock import rough_of

_DECIMALS = 4  # of mm, for solids: floats that differ by less are the same cut


def compare(
    before: Wall, after: Wall, findings_before: Iterable[Finding] = (), findings_after: Iterable[Finding] = ()
) -> Changes:
    """Return what changed from one wall to the other. The findings are those of each wall's checks."""
    lost, gained, restated = _findings(findings_before, findings_after)
    components = _components(before, after)
    whole = {change.key for change in components if change.before is None or change.after is None}
    sizes = _differences(_sizes(before), _sizes(after))
    return Changes(
        parts=_parts(before, after),
        components=components,
        sizes=tuple(
            size for size in sizes if size.owner not in whole
        ),  # an assembly that came has no size "before"
        words=_differences(_words(before), _words(after)),
        gained=gained,
        lost=lost,
        restated=restated,
        take_off=_take_off(before, after),
    )


def part_kinds(before: Part, after: Part) -> tuple[PartKind, ...]:
    """Return in which ways a part changed; empty if it is built and placed alike."""
    found: set[PartKind] = set()
    resized = _sizes_of(before) != _sizes_of(after)
    if resized:
        found.add("resized")
    if any(_moved(before.extent, after.extent, axis) for axis in AXES):
        found.add("moved")
    if material_text(before.material) != material_text(after.material):
        found.add("material")
    if _joints(before.joints) != _joints(after.joints):
        found.add("joints")
    if (before.curve, _bend(before)) != (after.curve, _bend(after)) or (
        not resized and not found & {"joints"} and _cut_otherwise(before, after)
    ):
        found.add("shape")
    if _details(before) != _details(after):
        found.add("details")
    if not found and before.extent != after.extent:
        found.add("moved")
    return tuple(kind for kind in PART_KINDS if kind in found)


def _parts(before: Wall, after: Wall) -> tuple[PartChange, ...]:
    # The room's bodies reach as far as the drawing shows them; its own sizes are told as such.
    old, new = ({part.key: part for part in wall.parts if part.maker != "room"} for wall in (before, after))
    found: list[PartChange] = []
    for key in sorted(old.keys() | new.keys(), key=key_order):
        was, now = old.get(key), new.get(key)
        if was is None:
            found.append(PartChange(key, ("added",), None, now))
        elif now is None:
            found.append(PartChange(key, ("removed",), was, None))
        elif kinds := part_kinds(was, now):
            found.append(PartChange(key, kinds, was, now))
    return tuple(found)


def _bend(part: Part) -> tuple[object, ...] | None:
    return (part.bend.laminations, part.bend.kerfs) if part.bend else None


def _sizes_of(part: Part) -> tuple[object, ...]:
    return part.thickness, part.width, part.length


def _moved(before: Extent, after: Extent, axis: Axis) -> bool:
    # A part that grows from one end, or from its middle, has not moved; one whose faces both went one way
    # has.
    low, high = (b - a for a, b in zip(before.span(axis), after.span(axis), strict=True))
    return (low > 0 and high > 0) or (low < 0 and high < 0)


def _joints(joints: Iterable[Joint]) -> Counter[tuple[object, ...]]:
    found: Counter[tuple[object, ...]] = Counter()
    for joint in joints:
        found[(joint.kind, joint.width, joint.depth, joint.fastening)] += joint.count
    return found


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


def _cut_otherwise(before: Part, after: Part) -> bool:
    return _profile(before.solid, before.extent) != _profile(after.solid, after.extent)


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


Named = Mapping[tuple[str, str], Value]


def _differences(before: Named, after: Named) -> tuple[SizeChange, ...]:
    # In the order in which the later side says them; what is gone comes last.
    names = [*after, *(name for name in before if name not in after)]
    order = sorted(range(len(names)), key=lambda k: (key_order(names[k][0] or "0"), names[k][1]))
    return tuple(
        SizeChange(*names[k], before.get(names[k]), after.get(names[k]))
        for k in order
        if before.get(names[k]) != after.get(names[k])
    )


def _sizes(wall: Wall) -> Named:
    found: dict[tuple[str, str], Value] = {
        ("", "room width"): wall.room.width,
        ("", "ceiling height"): wall.room.height,
        ("", "spring line of the ceiling"): wall.room.spring,
    }
    if wall.room.doorway:
        found["", "doorway width"], found["", "doorway height"] = wall.room.doorway
    if wall.opening is not None:
        _add_opening(found, wall)
    for component in wall.components:
        if component.kind.given:
            continue
        named = {name.replace("_", " ") for name in component.facts}
        for name, fact in component.facts.items():
            found[component.key, name.replace("_", " ")] = fact
        # An assembly's own words for its sizes come before those of its box.
        for name, axis in (("width", "x"), ("depth", "y"), ("height", "z")):
            if name not in named:
                found[component.key, f"{name} over all"] = component.extent.size(axis)  # type: ignore[arg-type]
    return found


def _add_opening(found: dict[tuple[str, str], Value], wall: Wall) -> None:
    opening = wall.opening
    assert opening is not None
    found["", "opening width"] = opening.extent.size("x")
    found["", "opening height"] = opening.extent.size("z")
    found["", "sill of the opening above the floor"] = opening.extent.z0
    found["", "appliance"] = opening.appliance
    for name, value in _copied(opening.manual):
        found["", f"{name}, from the listing"] = value
    if opening.masonry is not None:
        for axis, name in (("x", "width"), ("y", "depth"), ("z", "height")):
            found["", f"masonry around the firebox, {name}"] = opening.masonry.extent.size(axis)  # type: ignore[arg-type]


def _copied(manual: Manual) -> Iterator[tuple[str, Value]]:
    yield "facing above the opening", manual.facing_above
    yield "facing beside the opening", manual.facing_beside
    yield "side walls", manual.side_walls
    yield "ceiling above the opening", manual.ceiling
    yield "free in front", manual.in_front
    yield "television above the opening", manual.television
    for row in manual.mantel:
        yield f"projection {float(row.projection):g} mm, above the opening", row.above
    for what, rows in (("legs", manual.legs), ("side trim", manual.side_trim)):
        for each in rows:
            yield f"{what}, projection {float(each.projection):g} mm, beside the opening", each.beside
    for part in (manual.hearth, manual.service):
        if part is not None:
            for field in fields(part):
                yield f"{type(part).__name__.lower()}, {field.name}", getattr(part, field.name)


def _words(wall: Wall) -> Named:
    project = wall.project
    found: dict[tuple[str, str], Value] = {
        ("", name): getattr(project, name)
        for name in (
            "title",
            "number",
            "site",
            "client",
            "owner",
            "firm",
            "drawn",
            "checked",
            "approved",
            "date",
            "status",
        )
    }
    found["", "sheet size"] = wall.paper.size
    found["", "sheet orientation"] = wall.paper.orientation
    found["", "title block"] = wall.paper.titleblock
    found["", "units"] = wall.units
    found["", "way of writing dimensions"] = wall.notation.kind
    found["", "precision"] = wall.grid
    found |= {("", f"note: {note}"): "stands" for note in wall.notes}
    for path, value in (*_flat(wall.settings, ""), *_flat(wall.room.out_of_plumb, "room, out of plumb")):
        found["", path] = value
    return found


def _flat(value: object, path: str) -> Iterable[tuple[str, Value]]:
    if is_dataclass(value):
        for field in fields(value):
            name = field.name.replace("_", " ")
            yield from _flat(getattr(value, field.name), f"{path}, {name}" if path else name)
    elif isinstance(value, (Fraction, int)) and not isinstance(value, bool):
        yield path, value
    elif isinstance(value, (tuple, list)):
        yield path, "; ".join(_one(item) for item in value)
    else:
        yield path, None if value is None else str(value)


def _one(item: object) -> str:
    return " ".join(astuple(item)).strip() if isinstance(item, Waiver) else str(item)


def _findings(
    before: Iterable[Finding], after: Iterable[Finding]
) -> tuple[tuple[FindingLine, ...], tuple[FindingLine, ...], tuple[Restated, ...]]:
    # A finding is known by its rule, its severity and its parts; its numbers may change.
    old, new = (
        _in_order(FindingLine(f.rule, f.severity, f.message, f.subjects) for f in side if f.waived is None)
        for side in (before, after)
    )
    lost = list((Counter(old) - Counter(new)).elements())
    gained = list((Counter(new) - Counter(old)).elements())
    restated: list[Restated] = []
    for was in tuple(lost):
        now = next((one for one in gained if _topic(one) == _topic(was)), None)
        if now is not None:
            restated.append(Restated(was, now))
            lost.remove(was)
            gained.remove(now)
    return tuple(lost), tuple(gained), tuple(restated)


def _topic(finding: FindingLine) -> tuple[object, ...]:
    return (finding.rule, finding.severity, finding.subjects)


def _in_order(lines: Iterable[FindingLine]) -> list[FindingLine]:
    rank = {"error": 0, "warning": 1, "note": 2}
    return sorted(lines, key=lambda one: (rank.get(one.severity, 3), one.rule, one.subjects, one.message))


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
