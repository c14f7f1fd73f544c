"""Hardware and fasteners: what the joints and the anchorage imply, by count, each with the rule it was
counted by.

Spacings are the shop's own. What carries load (anchorage to studs) is to be verified by those responsible for
it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.notation import Notation
from sheets.model.part import AXES, Joint, Part
from sheets.model.settings import Fasteners
from sheets.model.wall import Wall
from sheets.schedules.cells import length_cell
from sheets.schedules.fields import Field, Line, Schedule, Told
from sheets.schedules.lumber_list import length_text
from sheets.schedules.parts import shop_parts
from sheets.schedules.table import TableData, plain
from sheets.schedules.wall_screws import places_along, wall_screws

_LEAST_PLACES = 2
"""A piece at the wall is held at two places at least (common practice)."""


@dataclass(frozen=True, slots=True)
class HardwareRow:
    """One kind of fastener for one assembly and use. `run`: mm of glue line, for what is not counted by the
    piece.
    """

    assembly: str  # key
    name: str  # of the assembly
    item: str
    use: str
    quantity: int
    rule: str
    run: Fraction = Fraction(0)


def hardware_rows(wall: Wall) -> tuple[HardwareRow, ...]:
    """Return the fasteners of each assembly, by use."""
    rules = wall.settings.fasteners
    parts = {part.key: part for part in wall.parts}
    found: dict[tuple[str, str, str, str], HardwareRow] = {}
    for part in shop_parts(wall):
        for joint in part.joints:
            _add(found, _of_joint(part, joint, parts, rules, wall))
        if part.does.anchors:
            anchor = _anchor(part, rules, wall)
            _add(found, anchor)
            _add(found, _plugs(part, anchor))
    for row in _dowels(wall):
        _add(found, row)
    names = {component.key: (number, component.name) for number, component in enumerate(wall.components)}
    rows = [
        HardwareRow(
            row.assembly,
            names.get(row.assembly, (0, row.assembly))[1],
            row.item,
            row.use,
            row.quantity,
            row.rule,
            row.run,
        )
        for row in found.values()
    ]
    last = len(names)
    return tuple(
        sorted(
            rows, key=lambda r: (names.get(r.assembly, (last, ""))[0], key_order(r.assembly), r.item, r.use)
        )
    )


def hardware_table(rows: tuple[HardwareRow, ...], told: Told) -> TableData:
    """Return the rows as a table, with the whole count of each kind at the end."""
    lines: list[HardwareRow | Line] = list(rows)
    for item in dict.fromkeys(row.item for row in rows):
        own = [row for row in rows if row.item == item]
        if len(own) > 1:
            run = sum((row.run for row in own), Fraction(0))
            counted = _quantity(run, sum(row.quantity for row in own), told.metric)
            lines.append(Line({"name": "TOTAL", "item": item, "counted": counted}))
    notes = ("ANCHORAGE INTO STUDS OR BLOCKING IS TO BE VERIFIED ON SITE BY THOSE RESPONSIBLE FOR IT.",)
    return HARDWARE.table(lines, told, notes)


HARDWARE: Schedule[HardwareRow] = Schedule(
    "hardware",
    (
        Field("name", "text", lambda r, _: r.name.upper(), "ASSEMBLY"),
        Field("assembly", "text", lambda r, _: r.name, says="what it is for"),
        Field("item", "text", lambda r, _: r.item, "ITEM", "kind of fastener"),
        Field("use", "text", lambda r, _: r.use, "USE", "which joint"),
        Field("counted", "text", lambda r, t: _quantity(r.run, r.quantity, t.metric), "QTY", align="right"),
        Field("quantity", "count", lambda r, _: r.quantity,
              says="how many; 0 for what is counted by length"),
        Field("run", "length", lambda r, _: r.run, says="length of glue line"),
        Field("rule", "text", lambda r, _: r.rule, "RULE", "how it was counted"),
    ),
    "hardware and fasteners",
    "HARDWARE AND FASTENERS",
)  # fmt: skip


def _of_joint(
    part: Part, joint: Joint, parts: dict[str, Part], rules: Fasteners, wall: Wall
) -> HardwareRow | None:
    use = f"{part.name.lower()}, {joint.kind}"
    run = _run(part, joint, parts)
    if joint.kind == "dowel":
        return None  # counted by the assembly
    if joint.fasteners:
        item = rules.nail if joint.fastening == "nail" else rules.case
        rule = f"{joint.fasteners} to each piece"
        return HardwareRow(part.assembly, "", item, use, joint.count * joint.fasteners, rule)
    if joint.fastening == "screw":
        rule = f"at most {_said(rules.spacing, wall)} apart, at least 2 a joint"
        count = joint.count * places_along(run, rules.spacing)
        return HardwareRow(part.assembly, "", rules.case, use, count, rule)
    if joint.fastening == "nail":
        rule = f"at most {_said(rules.nail_spacing, wall)} apart, at least 2 a joint"
        count = joint.count * places_along(run, rules.nail_spacing)
        return HardwareRow(part.assembly, "", rules.nail, use, count, rule)
    if joint.fastening == "glue":
        glued = run if joint.glued is None else min(run, joint.glued)
        return HardwareRow(
            part.assembly, "", "wood glue", "joints", 0, "length of glue line", joint.count * glued
        )
    return None


def _dowels(wall: Wall) -> list[HardwareRow]:
    """Dowels of each assembly. Both parts that one stands in may say so: uprights and rails count apart."""
    counts: dict[str, dict[bool, int]] = {}
    for part in shop_parts(wall):
        number = sum(joint.count for joint in part.joints if joint.kind == "dowel")
        own = counts.setdefault(part.assembly, {True: 0, False: 0})
        own[part.length_axis == "z"] += number
    rule = "as the joints say, each dowel once"
    return [
        HardwareRow(assembly, "", "dowel", "frame joints", max(own.values()), rule)
        for assembly, own in counts.items()
        if max(own.values())
    ]


def _anchor(part: Part, rules: Fasteners, wall: Wall) -> HardwareRow:
    """Screws into the studs that are surely behind the piece; two places at least, the rest into blocking."""
    screws, checks = wall_screws(wall, (part,)), wall.settings.checks
    every = _said(checks.stud_spacing, wall)
    places = max(_LEAST_PLACES, screws.sure)
    if checks.blocking:
        rule = f"{rules.screws_per_stud} a place, at most {every} apart, into blocking"
    elif screws.sure < _LEAST_PLACES:
        rule = (
            f"{rules.screws_per_stud} a stud, studs {every} on centre: sure of {screws.sure}, "
            "the rest into blocking"
        )
    else:
        rule = f"{rules.screws_per_stud} a stud, studs {every} on centre"
    use = f"{part.name.lower()} to wall"
    return HardwareRow(part.assembly, "", wall_screw_words(wall), use, places * rules.screws_per_stud, rule)


def _plugs(part: Part, anchor: HardwareRow) -> HardwareRow | None:
    """A plug over the head of each wall screw that is driven through a face that is seen."""
    if not part.does.covered and "front" not in part.shows:
        return None
    use = f"over wall screws, {part.name.lower()}"
    return HardwareRow(part.assembly, "", "wood plug or cap", use, anchor.quantity, "one to each head")


def wall_screw_words(wall: Wall) -> str:
    """Return the screw that holds work to the wall, with its size."""
    rules = wall.settings.fasteners
    return f"{rules.wall}, {_said(rules.wall_diameter, wall)} x {_said(rules.wall_length, wall)}"


def _run(part: Part, joint: Joint, parts: dict[str, Part]) -> Fraction:
    """How long a joint is: what its two parts share lengthwise, or without a mate what its kind implies."""
    mate = parts.get(joint.mate)
    if mate is not None:
        shared = [
            min(part.extent.span(a)[1], mate.extent.span(a)[1])
            - max(part.extent.span(a)[0], mate.extent.span(a)[0])
            for a in AXES
        ]
        if max(shared) > 0:
            return max(shared)
    crosswise = joint.kind in ("dado", "rabbet", "notch", "mitre")
    return part.width if crosswise else part.length


def _add(found: dict[tuple[str, str, str, str], HardwareRow], row: HardwareRow | None) -> None:
    if row is None:
        return
    key = (row.assembly, row.item, row.use, row.rule)
    before = found.get(key)
    found[key] = (
        row
        if before is None
        else HardwareRow(
            row.assembly,
            row.name,
            row.item,
            row.use,
            before.quantity + row.quantity,
            row.rule,
            before.run + row.run,
        )
    )


def _said(length: Fraction, wall: Wall) -> str:
    return plain(length_cell(length, Notation("mm" if wall.units == "mm" else "inches", wall.notation.grid)))


def _quantity(run: Fraction, count: int, metric: bool) -> str:
    return f"{length_text(run, metric)} {'m' if metric else 'ft'}" if run else str(count)
