"""The schedule of parts: every piece that the shop makes, alike ones in a row, grouped by what they belong
to.

Finished sizes are exact, as cut. Mirrored assemblies stand under one heading with their parts counted
together; a left and a right hand are rows of their own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.notation import Notation
from sheets.model.marks import is_own_mirror
from sheets.model.part import Axis, Hand, Joint, Material, Part
from sheets.model.wall import Component, Wall
from sheets.schedules.cells import joints_cell, size_cell
from sheets.schedules.stock import Rough, rough_of
from sheets.schedules.table import Cell, Column, TableData

_SIDES: tuple[Hand, Hand] = ("left", "right")
_GRAIN: dict[Axis, str] = {"x": "across", "y": "front to back", "z": "upright"}


@dataclass(frozen=True, slots=True)
class PartRow:
    """Alike parts. Sizes in mm, exact and finished; `keys` are the parts it stands for."""

    mark: str
    quantity: int
    name: str
    hand: Hand  # only of pieces that do not serve on the other side
    group: str  # key of the component it is listed under
    material: Material
    thickness: Fraction
    width: Fraction
    length: Fraction
    rough: Rough | None  # None for what is neither board nor panel
    grain: str  # which way it runs in the finished work; empty without grain
    shows: tuple[str, ...]  # "front", or "left on 1" where not all of them show it
    joints: tuple[Joint, ...]
    notes: tuple[str, ...]
    keys: tuple[str, ...]
    sheets: tuple[str, ...] = ()  # numbers of the sheets where it is detailed

    @property
    def title(self) -> str:
        """Its name with its hand."""
        return f"{self.name}, {self.hand} hand" if self.hand else self.name

    @property
    def material_text(self) -> str:
        return material_text(self.material)


@dataclass(frozen=True, slots=True)
class PartsSchedule:
    """All rows in order, and the groups (key, heading) they are listed under."""

    groups: tuple[tuple[str, str], ...]
    rows: tuple[PartRow, ...]

    def of_group(self, key: str) -> tuple[PartRow, ...]:
        return tuple(row for row in self.rows if row.group == key)


def shop_parts(wall: Wall) -> tuple[Part, ...]:
    """Return the parts that the shop makes, in the wall's order."""
    return tuple(part for part in wall.parts if part.maker == "shop")


def material_text(material: Material) -> str:
    """Return what a part is made of as a schedule prints it: `white oak, quarter sawn, clear`."""
    words = [
        material.name,
        f"{material.face} face" if material.face and material.face not in material.name else "",
        material.cut,
        material.finish,
    ]
    return ", ".join(word for word in words if word)


def parts_schedule(wall: Wall, sheets: Mapping[str, tuple[str, ...]] | None = None) -> PartsSchedule:
    """Return the schedule of the parts the shop makes.

    sheets: for each part key, the numbers of the sheets where it is detailed, once they are known.
    """
    stock = wall.settings.stock
    components = {component.key: component for component in wall.components}
    order = {component.key: number for number, component in enumerate(wall.components)}
    found: dict[tuple[object, ...], list[Part]] = {}
    for part in shop_parts(wall):
        found.setdefault((_original(part.assembly, components), *_likeness(part)), []).append(part)
    rows = sorted(
        (_row(alike, components, rough_of(alike[0], stock, wall.units)) for alike in found.values()),
        key=lambda row: (order.get(row.group, len(order)), row.group, _by_mark(row)),
    )
    if sheets:
        rows = [replace(row, sheets=_sheets_of(row, sheets)) for row in rows]
    groups = tuple(dict.fromkeys(row.group for row in rows))
    return PartsSchedule(tuple((key, _heading(key, components)) for key in groups), tuple(rows))


def with_sheets(schedule: PartsSchedule, sheet_of: Mapping[str, str]) -> PartsSchedule:
    """Return the schedule with the sheet of each mark, now that the sheets are composed."""
    rows = tuple(
        replace(row, sheets=(sheet_of[row.mark],)) if row.mark in sheet_of else row for row in schedule.rows
    )
    return replace(schedule, rows=rows)


def parts_table(schedule: PartsSchedule, notation: Notation) -> TableData:
    """Return the schedule as the table that is set on a sheet: a heading row, then rows, for each group."""
    columns = (
        Column("MARK", "centre", 0.5),
        Column("QTY", "right", 0.3),
        Column("PART", weight=1.4),
        Column("MATERIAL", weight=1.4),
        Column("T × W × L FINISHED", weight=1.5),
        Column("ROUGH", weight=1.4),
        Column("GRAIN", weight=0.7),
        Column("SHOWS", weight=0.8),
        Column("JOINTS", weight=1.6),
        Column("NOTES", weight=1.6),
        Column("SHEET", "centre", 0.6),
    )
    rows: list[tuple[Cell, ...]] = []
    for key, heading in schedule.groups:
        rows.append(("", "", heading.upper(), *([""] * (len(columns) - 3))))
        for row in schedule.of_group(key):
            rows.append(
                (
                    row.mark,
                    str(row.quantity),
                    row.title,
                    row.material_text,
                    size_cell((row.thickness, row.width, row.length), notation),
                    row.rough.cell(notation) if row.rough else "",
                    row.grain,
                    ", ".join(row.shows),
                    joints_cell(row.joints, notation),
                    "; ".join(row.notes),
                    ", ".join(row.sheets),
                )
            )
    notes = (
        "FINISHED SIZES ARE AS CUT, TONGUES AND WHAT IS LET INTO JOINTS INCLUDED. LENGTH IS ALONG THE GRAIN.",
        "ROUGH: WHAT THE PART IS MILLED FROM. A PIECE WITHOUT A HAND SERVES ON EITHER SIDE, TURNED OVER.",
    )
    return TableData("parts", "SCHEDULE OF PARTS", columns, tuple(rows), notes)


def _row(alike: Sequence[Part], components: Mapping[str, Component], rough: Rough | None) -> PartRow:
    part = alike[0]
    notes = part.notes if rough is None or not rough.glue_up else (*part.notes, rough.glue_up)
    return PartRow(
        mark=part.mark,
        quantity=len(alike),
        name=part.name,
        hand=_hand(alike),
        group=_original(part.assembly, components),
        material=part.material,
        thickness=part.thickness,
        width=part.width,
        length=part.length,
        rough=rough,
        grain=_GRAIN[part.grain] if part.grain else "",
        shows=_shows(alike),
        joints=part.joints,
        notes=notes,
        keys=tuple(each.key for each in alike),
    )


def _hand(alike: Sequence[Part]) -> Hand:
    """The hand of pieces that turning over does not make the other hand; none of those that serve on both
    sides. It is the side of its own assembly that a piece stands on, else that of the assembly.
    """
    if is_own_mirror(alike[0]):
        return ""
    for side in _SIDES:
        if all(side in part.key.rsplit("/", 1)[-1].split("-") for part in alike):
            return side
    hands = {part.hand for part in alike}
    return hands.pop() if len(hands) == 1 else ""


def _shows(alike: Sequence[Part]) -> tuple[str, ...]:
    """Faces that show: of all alike pieces first, then what only some of them show, and how many."""
    common = [face for face in alike[0].shows if all(face in part.shows for part in alike)]
    others = list(dict.fromkeys(face for part in alike for face in part.shows if face not in common))
    if set(others) == set(_SIDES) and all(sum(f in part.shows for f in others) == 1 for part in alike):
        return (*common, "left or right")  # its outer end, whichever side it stands on
    counts = (f"{face} on {sum(face in part.shows for part in alike)}" for face in others)
    return (*common, *counts)


def _likeness(part: Part) -> tuple[object, ...]:
    if part.mark:
        return ("mark", part.mark)
    joints = tuple(sorted(str((j.kind, j.width, j.depth, j.count, j.fastening)) for j in part.joints))
    return (
        "likeness",
        part.name,
        part.role,
        part.hand,
        part.material.key,
        part.thickness,
        part.width,
        part.length,
        joints,
        part.notes,
        tuple(sorted(part.shows)),
        part.curve,
        part.bend,
    )


def _original(assembly: str, components: Mapping[str, Component]) -> str:
    component = components.get(assembly)
    return component.twin if component is not None and component.twin else assembly


def _heading(key: str, components: Mapping[str, Component]) -> str:
    twins = [c for c in components.values() if c.twin == key]
    own = components.get(key)
    if own is None:
        return key
    return " and ".join([own.name, *(twin.name for twin in twins)])


def _by_mark(row: PartRow) -> tuple[object, ...]:
    return (not row.mark, _natural(row.mark), key_order(row.keys[0]) if not row.mark else (), row.hand)


def _natural(mark: str) -> tuple[tuple[int, int, str], ...]:
    # B2 before B10.
    runs: list[tuple[int, int, str]] = []
    digits, letters = "", ""
    for sign in mark + "\0":
        if sign.isdigit():
            if letters:
                runs.append((1, 0, letters))
            letters, digits = "", digits + sign
            continue
        if digits:
            runs.append((0, int(digits), ""))
        digits, letters = "", letters + sign
    return tuple(runs)


def _sheets_of(row: PartRow, sheets: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(sorted({number for key in row.keys for number in sheets.get(key, ())}))
