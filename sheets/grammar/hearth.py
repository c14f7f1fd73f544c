"""The spec language, second part: the fireplace and its masonry, its surround and the mantel."""

from typing import Annotated, ClassVar, Literal

from pydantic import PlainValidator

from sheets.grammar.listing import Listing
from sheets.grammar.values import (
    Flag,
    Size,
    SizeOrBreast,
    SizeOrMantel,
    SizeOrOpening,
    SizeOrSurround,
    SizeOrZero,
    SomeText,
    Words,
    counted,
    defaults,
    either,
)

Returns = Literal["mitred", "square"]
CapFixing = Literal["in slots", "glued"]
"""How a cap's board is fixed to what is under it: by screws in slots that let it move, or by glue."""


class Opening(Words):
    """The hole in the wall, centred on the wall's axis. depth: back from the face it is in."""

    width: Size
    height: Size
    depth: Size = either("14", "350")


class ApplianceFrame(Words):
    """The appliance's own trim around the opening: width of its face, and how far it stands out of the
    surround.
    """

    width: Size = either("1-1/2", "40")
    projection: Size = either("1/2", "12")


class Chimney(Words):
    """The chimney over a masonry fireplace, on its axis. behind: from the finished wall back to its face.
    stands: wholly outside the house's walls, or inside them or within the outer one. flue_wall: from the
    inside of the flue's lining to the masonry's face.
    """

    width: Size
    depth: Size
    behind: SizeOrZero
    stands: Literal["inside", "outside"] = "inside"
    flue_wall: Size | None = None


class MasonryWork(Words):
    """The masonry around a firebox, each from the inside of its lining to the masonry's own face."""

    beside: Size
    above: Size
    behind: Size
    chimney: Chimney | None = None


class Hung(Words):
    """A screen, a picture or electronics hung above the fireplace, on its axis. bottom: from the floor."""

    what: Literal["television", "picture", "electronics"]
    width: Size
    height: Size
    bottom: Size
    depth: Size = either("2", "50")


class Fireplace(Words):
    """sill: finished floor to the bottom of the opening. masonry: around the firebox of a masonry fireplace.
    listing: what the manual of a listed one says.
    """

    asked_for: ClassVar[str] = "a fireplace"

    opening: Opening
    sill: SizeOrZero = either("0", "0")
    appliance: Literal["masonry", "listed gas", "listed electric", "listed wood"] = "masonry"
    masonry: MasonryWork | None = None
    listing: Listing | None = None
    frame: ApplianceFrame | None = None
    hung: Hung | None = None


class Hearth(Words):
    """On the floor in front of the surround. width: a length, or `surround` for as wide as that.

    Source: IRC R1001.10 and R1001.9.2, least extension of an opening under 6 square feet, 16 in and 2 in.
    """

    projection: Size = either("16", "400")
    thickness: Size = either("2", "50")
    width: SizeOrSurround = "surround"


class Surround(Words):
    """Noncombustible facing, its thickness the material's: on the wall, or with a mantel between cases in the
    plane of the case fronts.

    to_floor: true runs to the floor and stops the baseboard; false stops at the sill of the opening.
    height: floor to its top, or `mantel` for up to where the mantel covers it.
    """

    asked_for: ClassVar[str] = "a surround"
    made_of: ClassVar[Literal["", "wood", "masonry"]] = "masonry"

    material: SomeText
    width: Size
    to_floor: Flag = True
    height: SizeOrMantel = "mantel"
    hearth: Hearth | None = None


class SawCuts(Words):
    """Grooves along a piece that break its face into count + 1 equal bands."""

    count: Annotated[int, PlainValidator(counted(1, 12))] = 1
    width: Size = either("1/8", "3")
    depth: Size = either("1/4", "6")


class MantelCap(Words):
    """The shelf on top. overhang: beyond the face of the layer below, at the front and at both ends."""

    thickness: Size = either("1-1/4", "32")
    overhang: SizeOrZero = either("1-1/2", "38")
    saw_cuts: SawCuts | None = None
    fixed: CapFixing = "in slots"
    material: SomeText


class Fascia(Words):
    """A board on edge under the cap. setback: its face behind the breast face (fascia) or the fascia's
    (sub-fascia).
    """

    height: Size = either("6", "150")
    thickness: Size = either("3/4", "19")
    setback: SizeOrZero = either("0", "0")
    saw_cuts: SawCuts | None = None
    material: SomeText


class Layers(Words):
    """The mantel's build-up from the top down."""

    cap: MantelCap | None = None
    fascia: Fascia | None = None
    sub_fascia: Fascia | None = None


class Posts(Words):
    """One at each end of the mantel, from the floor or the hearth under it to the underside of the layers.

    depth: out of the surround's face: a length, or `breast` for up to the breast face, less what the
    corbels project. Usual width: plain judgement, a board dressed from 7 in (PS 20).
    """

    width: Size = either("6-1/2", "165")
    depth: SizeOrBreast = "breast"
    material: SomeText


class Curve(Words):
    """An arc that bows the front edge by this much over the corbel's height. Usual rise: plain judgement."""

    rise: SizeOrZero = either("1/2", "12")


class Corbels(Words):
    """One under the layers at each end, on the post when there is one.

    projection: out of the post's face; on posts of depth `breast` the corbels end at the breast face,
    under the layers that they carry. Usual sizes: plain judgement; half as high again as wide or more, and
    so wide as a board dressed from 6 in (PS 20).
    """

    width: Size = either("5-1/2", "140")
    height: Size = either("9", "230")
    projection: Size = either("3", "75")
    curve: Curve = defaults()
    material: SomeText


class Kerfs(Words):
    """Saw kerfs across the back of a piece, that close as it is bent. web: the wood left behind them."""

    count: Annotated[int, PlainValidator(counted(1, 99))]
    width: Size = either("1/8", "3")
    web: Size = either("1/16", "2")


class Lining(Words):
    """A board bent to the arch, from the back of its rail to the facing; it goes on flat where the arch ends.

    laminations: layers bent over a form and glued up to the thickness; 1 is bent in one piece. kerfs: sawn in
    its back. grain: of a panel's face, along the arch or across it.
    """

    thickness: Size = either("1/4", "6")
    laminations: Annotated[int, PlainValidator(counted(1, 24))] = 1
    kerfs: Kerfs | None = None
    grain: Literal["along", "across"] = "along"
    material: SomeText


class Arch(Words):
    """A rail under the layers whose underside is an arc. rail: its height at the ends; rise: of the arc.

    chord: a length, or `opening` for the width of the fireplace opening. Usual sizes: plain judgement; a rail
    dressed from 8 in (PS 20), which an arc of 3 in leaves more than half of.
    """

    rise: Size = either("3", "75")
    rail: Size = either("7-1/4", "185")
    thickness: Size = either("3/4", "19")
    chord: SizeOrOpening = "opening"
    lining: Lining | None = None
    material: SomeText


class Mantel(Words):
    """top: floor to the top of the cap. breast: how far it stands proud of the case fronts (of the
    surround's face when there is no case). width: a length, or `surround`. returns: how each layer
    turns the corner at its ends. Usual breast: with the cap's overhang a shelf 7 1/2 in deep, of the 7 to
    8 in that are usual (common practice, from memory).
    """

    asked_for: ClassVar[str] = "a mantel"
    made_of: ClassVar[Literal["", "wood", "masonry"]] = "wood"

    top: Size
    breast: Size = either("6", "150")
    width: SizeOrSurround = "surround"
    layers: Layers
    returns: Returns = "mitred"
    posts: Posts | None = None
    corbels: Corbels | None = None
    arch: Arch | None = None
    material: SomeText
