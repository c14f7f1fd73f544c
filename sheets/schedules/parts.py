"""The schedule of parts: every piece that the shop makes, alike ones in a row, grouped by what they belong
to.

Finished sizes are exact, as cut. Mirrored assemblies stand under one heading with their parts counted
together; a left and a right hand are rows of their own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.model.marks import is_own_mirror
from sheets.model.part import Axis, Hand, Joint, Material, Part
from sheets.model.wall import Component, Wall
from sheets.schedules.cells import joints_cell, size_cell
from sheets.schedules.fields import Field, Line, Schedule, Told
from sheets.schedules.stock import Rough, rough_of
from sheets.schedules.table import TableData

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
    heading: str  # of its group

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


def parts_schedule(wall: Wall) -> PartsSchedule:
    """Return the schedule of the parts the shop makes."""
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
    return PartsSchedule(tuple({row.group: row.heading for row in rows}.items()), tuple(rows))


def parts_table(schedule: PartsSchedule, told: Told) -> TableData:
    """Return the schedule as the table that is set on a sheet: a heading, then rows, for each group."""
    rows: list[PartRow | Line] = []
    for key, heading in schedule.groups:
        rows += [Line({"title": heading.upper()}), *schedule.of_group(key)]
    notes = (
        "FINISHED SIZES ARE AS CUT, TONGUES AND WHAT IS LET INTO JOINTS INCLUDED. LENGTH IS ALONG THE GRAIN.",
        "ROUGH: WHAT THE PART IS MILLED FROM. A PIECE WITHOUT A HAND SERVES ON EITHER SIDE, TURNED OVER.",
    )
    return PARTS.table(rows, told, notes)


PARTS: Schedule[PartRow] = Schedule(
    "parts",
    (
        Field("mark", "text", lambda r, _: r.mark, "MARK", "mark of the part, as on the drawings", "centre"),
        Field("quantity", "count", lambda r, _: r.quantity, "QTY", "how many are made"),
        Field("title", "text", lambda r, _: r.title, "PART"),
        Field("name", "text", lambda r, _: r.name, says="what it is"),
        Field("hand", "text", lambda r, _: r.hand, says="left or right where the two differ"),
        Field("assembly", "text", lambda r, _: r.heading, says="what it belongs to"),
        Field("material", "text", lambda r, _: r.material_text, "MATERIAL", "species, panel, cut and finish"),
        Field("size", "text", lambda r, t: size_cell((r.thickness, r.width, r.length), t.notation),
              "T × W × L FINISHED"),
        Field("thickness", "length", lambda r, _: r.thickness, says="finished thickness"),
        Field("width", "length", lambda r, _: r.width, says="finished width"),
        Field("length", "length", lambda r, _: r.length, says="finished length, along the grain"),
        Field("rough", "text", lambda r, t: r.rough.cell(t.notation) if r.rough else "",
              "ROUGH", "what it is milled from"),
        Field("grain", "text", lambda r, _: r.grain,
              "GRAIN", "which way the grain runs in the finished work"),
        Field("shows", "text", lambda r, _: ", ".join(r.shows), "SHOWS", "faces and edges that show"),
        Field("joints", "text", lambda r, t: joints_cell(r.joints, t.notation),
              "JOINTS", "joints cut in it, with width and depth"),
        Field("notes", "text", lambda r, _: "; ".join(r.notes), "NOTES", "what else is to be known"),
        Field("sheets", "text", lambda r, t: t.sheet_of.get(r.mark, ""),
              "SHEET", "sheets where it is detailed", "centre"),
    ),
    "parts that the shop makes, alike ones in a row",
    "SCHEDULE OF PARTS",
)  # fmt: skip


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
        heading=_heading(_original(part.assembly, components), components),
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
    joints = tuple(sorted(str((j.kind, j.width, j.depth, j.count, j.held, j.glued)) for j in part.joints))
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

