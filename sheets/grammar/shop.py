"""The spec language, last part: what the checks, the shop's schedules and the issues of the set need."""

import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, PlainValidator
from pydantic_core import PydanticCustomError

from sheets.grammar.room import SheetSize
from sheets.grammar.values import (
    Flag,
    IsoDate,
    MustBeList,
    Size,
    SizeOrZero,
    SomeText,
    Text,
    Words,
    counted,
    defaults,
    either,
)


class Waiver(Words):
    """A finding that the user has judged. rule: that it is of; reason and by (a name or initials): printed
    on the checks sheet beside it; part: only what belongs under this key; relied_on: the document that it
    rests on, wanted where an error about fire is waived.
    """

    rule: SomeText
    reason: SomeText
    by: SomeText
    part: Text = ""
    relied_on: Text = ""


class GivenLoad(Words):
    """What a running length of shelf carries: pounds per foot, or kilograms per metre."""

    weight: Annotated[int, PlainValidator(counted(1, 2000))]
    per: Literal["foot", "metre"]


class Sag(Words):
    """How far shelves may sag, as the span over the sag. aim: at first, under what they carry; years: with
    the years, under the same; most: under the industry's load.
    """

    aim: Annotated[int, PlainValidator(counted(50, 5000))] = 600
    years: Annotated[int, PlainValidator(counted(50, 5000))] = 384
    most: Annotated[int, PlainValidator(counted(50, 5000))] = 144


class Season(Words):
    """The air of the room in a season. humidity: relative, percent."""

    humidity: Annotated[int, PlainValidator(counted(1, 99))]
    temperature: Annotated[int, PlainValidator(counted(-20, 140))]
    degrees: Literal["F", "C"] = "F"


class Air(Words):
    """The driest and the dampest season; the moisture content of the wood follows from them."""

    driest: Season
    dampest: Season


class Checks(Words):
    """What the findings are judged by. load: what the shelves carry; given_load goes before it. region: for
    the wood's moisture content in use; air goes before it. stud_spacing: in the wall, on centre, for checks,
    schedules and notes alike. blocking: whether solid backing stands in the wall behind all that is screwed
    to it.
    """

    load: Literal["books", "heavy books", "display"] = "books"
    given_load: GivenLoad | None = None
    sag: Sag = defaults()
    region: Literal["most", "dry", "damp"] = "most"
    air: Air | None = None
    stud_spacing: Size = either("16", "400")
    blocking: Flag = False
    waivers: Annotated[tuple[Waiver, ...], MustBeList] = ()


class Search(Words):
    """How long a cutting plan is sought before its gap is stated. steps: of branch and bound for one plan,
    the same on every machine; seconds: for one plan at most, a guard that makes plans depend on the machine
    where it is reached.
    """

    steps: Annotated[int, PlainValidator(counted(1, 1_000_000))] = 1000
    seconds: Annotated[int, PlainValidator(counted(1, 3600))] = 20


class Stock(Words):
    """What the shop buys and cuts. board_widths: of rough hardwood, and of sawn metric sections; dressed
    softwood has those of its standard. thickest: nominal; a thicker part is laminated. end_trim: cut off each
    end of a board; edge_trim: off each edge of a sheet, which may be short of its size by sheet_tolerance.
    rough_allowance: left on the thickness; twice on the width, eight times on the length.
    waste: added to the lumber count, percent. keep_offcut: a shorter one is waste.
    """

    board_lengths: Annotated[tuple[Size, ...], MustBeList] = (
        either("96", "2400"),
        either("120", "3000"),
        either("144", "3600"),
    )
    board_widths: Annotated[tuple[Size, ...], MustBeList]
    thickest: Size = either("2", "50")
    panel_length: Size = either("96", "2440")
    panel_width: Size = either("48", "1220")
    edge_trim: SizeOrZero = either("1/8", "3")
    sheet_tolerance: SizeOrZero = either("1/16", "3.5")
    kerf: Size = either("1/8", "3")
    end_trim: SizeOrZero = either("2", "50")
    rough_allowance: SizeOrZero = either("1/8", "3")
    waste: Annotated[int, PlainValidator(counted(0, 100))] = 20
    keep_offcut: SizeOrZero = either("12", "300")
    search: Search = defaults()


class Fasteners(Words):
    """What the hardware schedule counts, and the names of the fasteners. spacing: of screws along a joint;
    nail_spacing: of nails; each is the most. wall_diameter, wall_length: of the screw that holds work to the
    wall, over its thread and from its head; screws_per_stud: of each rail at the wall. Usual screw:
    1/4 by 3-1/2 in, through board and rail (common practice).
    """

    case: SomeText = "wood screw"
    nail: SomeText = "finish nail"
    wall: SomeText = "structural wood screw into blocking or stud"
    spacing: Size = either("8", "200")
    nail_spacing: Size = either("16", "400")
    wall_diameter: Size = either("1/4", "6")
    wall_length: Size = either("3-1/2", "90")
    screws_per_stud: Annotated[int, PlainValidator(counted(1, 6))] = 2


class LabelGrid(Words):
    """A sheet of labels by the size of one and how many there are, across and down."""

    width: Size
    height: Size
    columns: Annotated[int, PlainValidator(counted(1, 10))]
    rows: Annotated[int, PlainValidator(counted(1, 30))]


_GRID = re.compile(r"(?P<width>[^x]+)x(?P<height>[^x]+)-(?P<columns>[0-9 ]+)x(?P<rows>[0-9 ]+)")


def _grid_by_name(value: object) -> object:
    # 70x37-3x8: the last dash stands before the counts, so that a size may be 2-5/8.
    if not isinstance(value, str):
        return value
    named = _GRID.fullmatch(value)
    if named is None:
        raise PydanticCustomError(
            "not-a-grid",
            "'{found}' does not say a size and a count",
            {"found": value[:40], "help": "Write width x height - columns x rows, as 70x37-3x8."},
        )
    return {key: part.strip() for key, part in named.groupdict().items()}


class Labels(Words):
    """A sheet of part labels, as it is bought. grid: size and count, as 70x37-3x8; gap: between columns;
    row_gap: between rows. side_margin, top_margin: from the edge of the paper to the first label; left
    out, the labels stand in the middle of the paper.
    """

    paper: SheetSize
    grid: Annotated[LabelGrid, BeforeValidator(_grid_by_name)]
    gap: SizeOrZero = either("1/8", "0")
    row_gap: SizeOrZero = either("0", "0")
    side_margin: SizeOrZero | None = None
    top_margin: SizeOrZero | None = None


class Patterns(Words):
    """Full-size patterns of shaped pieces. station: how far apart the ordinates of a curve are given."""

    paper: SheetSize
    station: Size = either("2", "50")
    overlap: Size = either("1/2", "12")


class Void(Words):
    """That an issue is not to be used. sheets: those that carry its number; after: the last revision that
    was issued before, whose prints do not say so.
    """

    reason: SomeText
    sheets: Annotated[tuple[SomeText, ...], MustBeList] = ()
    after: Text = ""


_DIGEST = re.compile(r"[0-9a-f]{12}")


def _digest(value: object) -> object:
    if value is None or (isinstance(value, str) and _DIGEST.fullmatch(value)):
        return value
    raise PydanticCustomError(
        "not-a-digest",
        "'{found}' is not the digest of an issue",
        {"found": str(value)[:40], "help": "`revise` writes it: 12 of 0-9, a-f. Leave it as it was written."},
    )


class Revision(Words):
    """One issue of the set. digest: of what was issued, as `revise` writes it."""

    number: SomeText
    date: IsoDate
    by: Text = ""
    reason: SomeText
    digest: Annotated[str | None, PlainValidator(_digest)] = None
    void: Void | None = None


Notes = Annotated[tuple[SomeText, ...], MustBeList]
Revisions = Annotated[tuple[Revision, ...], MustBeList]

__all__ = [
    "Air",
    "Checks",
    "Fasteners",
    "GivenLoad",
    "LabelGrid",
    "Labels",
    "Notes",
    "Patterns",
    "Revision",
    "Revisions",
    "Sag",
    "Search",
    "Season",
    "Stock",
    "Void",
    "Waiver",
]
