"""The spec language, first part: the project, the sheet, the materials and the room."""

from typing import Annotated, Literal

from pydantic import Discriminator, Tag

from sheets.grammar.values import IsoDate, Size, SizeOrZero, SomeText, Text, Words, defaults, either

SheetSize = Literal[
    "iso-a0",
    "iso-a1",
    "iso-a2",
    "iso-a3",
    "iso-a4",
    "ansi-a",
    "ansi-b",
    "ansi-c",
    "ansi-d",
    "ansi-e",
    "arch-a",
    "arch-b",
    "arch-c",
    "arch-d",
    "arch-e",
]


class Project(Words):
    """What the title block says. Only the title is wanted; what is left out stays blank. owner: the legal
    owner of the drawings, the firm unless it is told.
    """

    title: SomeText
    number: Text = ""
    client: Text = ""
    site: Text = ""
    owner: Text = ""
    firm: Text = ""
    drawn: Text = ""
    checked: Text = ""
    approved: Text = ""
    date: IsoDate = ""
    status: Text = "for review"


class Sheet(Words):
    """The paper. titleblock: the name of one that is supplied, or the path of the user's own file."""

    size: SheetSize
    titleblock: SomeText
    orientation: Literal["landscape", "portrait"] = "landscape"


class SolidWood(Words):
    """Boards of a species. thickness: of the carcass boards when a case is built of it; other parts name
    their own.
    """

    species: SomeText
    cut: Literal["plain sawn", "rift sawn", "quarter sawn"] = "plain sawn"
    finish: Text = "clear"
    thickness: Size = either("3/4", "19")


class Panel(Words):
    """Sheet goods. panel: what it is (veneer-core plywood, MDF); face: the species or skin that shows."""

    panel: SomeText
    face: Text = ""
    finish: Text = "clear"
    thickness: Size = either("23/32", "18")


class Masonry(Words):
    """Stone, brick, tile, concrete; by another trade than the joiner's."""

    masonry: SomeText
    finish: Text = ""
    thickness: Size = either("3/4", "20")


class OtherMaterial(Words):
    """Anything else that has to be named: steel, glass, gypsum board."""

    other: SomeText
    finish: Text = ""
    thickness: Size = either("1/8", "3")


_KINDS = {"species": SolidWood, "panel": Panel, "masonry": Masonry, "other": OtherMaterial}
MATERIAL_KINDS = tuple(_KINDS)
"""The key that says what a material is."""


def _material_kind(value: object) -> str | None:
    if not isinstance(value, dict):
        return next((f"<{key}>" for key, kind in _KINDS.items() if isinstance(value, kind)), None)
    return next((f"<{key}>" for key in MATERIAL_KINDS if key in value), None)


Material = Annotated[
    Annotated[SolidWood, Tag("<species>")]
    | Annotated[Panel, Tag("<panel>")]
    | Annotated[Masonry, Tag("<masonry>")]
    | Annotated[OtherMaterial, Tag("<other>")],
    Discriminator(_material_kind),
]


class Vault(Words):
    """A barrel vault over the wall, seen as an arc of a circle from side wall to side wall.

    spring: floor to where the arc starts. The rise is the ceiling's height less the spring; the user may
    write `rise` instead of the ceiling's height.
    """

    spring: Size


class Ceiling(Words):
    """height: floor to the ceiling, at the crown when there is a vault. vault: absent for a flat ceiling."""

    height: Size = either("96", "2400")
    vault: Vault | None = None


class Baseboard(Words):
    """Along the wall. stops_at: `surround` crosses the cases' plinths and stops at the surround; `cases`
    stops at them.
    """

    height: Size = either("5-1/2", "140")
    thickness: Size = either("5/8", "16")
    material: SomeText
    stops_at: Literal["surround", "cases"] = "surround"


class Doorway(Words):
    """The smallest doorway that finished pieces are carried through."""

    width: Size
    height: Size


class Room(Words):
    """The wall that is drawn. width: side wall to side wall. out_of_plumb: the most that a side wall
    leans, floor to case top, which the scribe has to take.
    """

    width: Size
    ceiling: Ceiling = defaults()
    baseboard: Baseboard | None = None
    doorway: Doorway | None = None
    out_of_plumb: SizeOrZero = either("1/4", "6")


__all__ = [
    "MATERIAL_KINDS",
    "Baseboard",
    "Ceiling",
    "Doorway",
    "Masonry",
    "Material",
    "OtherMaterial",
    "Panel",
    "Project",
    "Room",
    "Sheet",
    "SheetSize",
    "SolidWood",
    "Vault",
]
