"""The spec language: what the user copies from the manual of a listed appliance."""

from typing import Annotated, Literal

from sheets.grammar.values import MustBeList, Size, SizeOrZero, Words, either

Datum = Literal["opening", "unit", "hood"]
"""What a height of a manual is measured from: the top of the opening, of the unit, or of its hood."""


class MantelClearance(Words):
    """One pair of an appliance's manual: a mantel that stands out this far must be this far above. datum:
    what the manual measures that from.
    """

    projection: Size
    above: SizeOrZero
    datum: Datum = "opening"


class SideClearance(Words):
    """One pair of an appliance's manual: what stands out this far must be this far beside the opening."""

    projection: Size
    beside: SizeOrZero


class HeightClearance(Words):
    """A height of an appliance's manual. datum: what the manual measures it from."""

    above: SizeOrZero
    datum: Datum = "opening"


class FacingClearance(Words):
    """The noncombustible facing that an appliance's manual wants above and beside the opening."""

    above: SizeOrZero
    beside: SizeOrZero


class FramingOpening(Words):
    """The opening in the framing that an appliance's manual wants, behind the facing. below: how far
    it starts below the fireplace opening.
    """

    width: Size
    height: Size
    depth: Size
    below: SizeOrZero = either("0", "0")


class ListedHearth(Words):
    """The noncombustible hearth that an appliance's manual wants before the opening and beyond its sides."""

    front: SizeOrZero
    beside: SizeOrZero
    thickness: SizeOrZero = either("0", "0")


class ServiceSpace(Words):
    """What an appliance's manual wants left free for service, of any piece: out of the face, beyond the sides
    of the opening, above it.
    """

    depth: Size
    beside: SizeOrZero = either("0", "0")
    above: SizeOrZero = either("0", "0")


class Listing(Words):
    """What the user copied from the appliance's manual; nothing here is known by the program.

    unit_above, hood_above: how far the top of the unit and of its hood stand above the opening, which heights
    with that datum need. legs: of a mantel, posts and cases; side_trim: what else is beside the opening.
    side_walls: from the side of the opening. in_front: of the face, free of what burns. television: a screen,
    a picture or electronics.
    """

    unit_above: SizeOrZero | None = None
    hood_above: SizeOrZero | None = None
    mantel: Annotated[tuple[MantelClearance, ...], MustBeList] = ()
    legs: Annotated[tuple[SideClearance, ...], MustBeList] = ()
    side_trim: Annotated[tuple[SideClearance, ...], MustBeList] = ()
    facing: FacingClearance | None = None
    side_walls: SizeOrZero | None = None
    ceiling: HeightClearance | None = None
    in_front: SizeOrZero | None = None
    hearth: ListedHearth | None = None
    television: HeightClearance | None = None
    service: ServiceSpace | None = None
    framing: FramingOpening | None = None
