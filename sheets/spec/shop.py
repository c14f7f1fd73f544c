"""The spec language, last part: what the checks, the shop's schedules and the issues of the set need."""

from typing import Annotated, Literal

from pydantic import PlainValidator

from sheets.spec.values import IsoDate, MustBeList, Size, SizeOrZero, SomeText, Text, Words, counted, either
from sheets.spec.wall import SheetSize


class Waiver(Words):
    """A finding that the user has judged. code: the finding's; reason: printed on the checks sheet beside
    it.
    """

    code: SomeText
    reason: SomeText
    part: Text = ""


class Checks(Words):
    """What the findings are judged by. load: what the shelves carry. region: for the wood's moisture
    content in use.
    """

    load: Literal["books", "display"] = "books"
    region: Literal["most", "dry", "damp"] = "most"
    waivers: Annotated[tuple[Waiver, ...], MustBeList] = ()


class Stock(Words):
    """What the shop buys and cuts. end_trim: cut off each end of a board; waste: added to the lumber
    count, percent.
    """

    board_lengths: Annotated[tuple[Size, ...], MustBeList] = (
        either("96", "2400"),
        either("120", "3000"),
        either("144", "3600"),
    )
    panel_length: Size = either("96", "2440")
    panel_width: Size = either("48", "1220")
    kerf: Size = either("1/8", "3")
    end_trim: SizeOrZero = either("2", "50")
    rough_allowance: SizeOrZero = either("1/8", "3")
    waste: Annotated[int, PlainValidator(counted(0, 100))] = 20


class Fasteners(Words):
    """What the hardware schedule counts. spacing: at most this far apart along a joint."""

    case: SomeText = "wood screw"
    wall: SomeText = "structural wood screw into blocking or stud"
    spacing: Size = either("8", "200")
    wall_spacing: Size = either("16", "400")


class Labels(Words):
    """A sheet of part labels."""

    paper: SheetSize = "ansi-a"
    columns: Annotated[int, PlainValidator(counted(1, 10))] = 3
    rows: Annotated[int, PlainValidator(counted(1, 30))] = 10
    margin: SizeOrZero = either("1/2", "12")
    gap: SizeOrZero = either("1/8", "3")


class Patterns(Words):
    """Full-size patterns of shaped pieces. station: how far apart the ordinates of a curve are given."""

    paper: SheetSize = "ansi-a"
    station: Size = either("2", "50")
    overlap: Size = either("1/2", "12")


class Revision(Words):
    """One issue of the set."""

    number: SomeText
    date: IsoDate
    by: Text = ""
    reason: SomeText


Notes = Annotated[tuple[SomeText, ...], MustBeList]
Revisions = Annotated[tuple[Revision, ...], MustBeList]

__all__ = [
    "Checks",
    "Fasteners",
    "Labels",
    "Notes",
    "Patterns",
    "Revision",
    "Revisions",
    "Stock",
    "Waiver",
]
