"""The spec language, third part: the cases."""

from typing import Annotated, ClassVar, Literal

from pydantic import Discriminator, PlainValidator, Tag

from sheets.grammar.hearth import CapFixing, Returns, SawCuts
from sheets.grammar.values import (
    Flag,
    Length,
    MustBeList,
    Number,
    Size,
    SizeOrFill,
    SizeOrZero,
    SomeText,
    Words,
    counted,
    defaults,
    either,
)


class FaceFrame(Words):
    """Solid wood on the front of the carcass. stile, rail: widths of the faces."""

    stile: Size = either("1-1/2", "38")
    rail: Size = either("2-1/2", "64")
    thickness: Size = either("3/4", "19")
    material: SomeText


class Plinth(Words):
    """The base that carries the case. setback: of its face behind the case front."""

    height: Size = either("5-1/2", "140")
    setback: SizeOrZero = either("0", "0")
    material: SomeText


class Joint(Words):
    """How a shelf is let into the sides. dado: how deep."""

    dado: Size = either("1/4", "6")


class Graduated(Words):
    """Each bay is lower than the one below it by this much."""

    graduated: Size


class Ratio(Words):
    """Each bay is this many times as high as the one above it."""

    ratio: Number


def _spacing_kind(value: object) -> str:
    if isinstance(value, Ratio) or (isinstance(value, dict) and "ratio" in value):
        return "<ratio>"
    if isinstance(value, (dict, Graduated)):
        return "<graduated>"
    return "<list>" if isinstance(value, (list, tuple)) else "<word>"


Spacing = Annotated[
    Annotated[Literal["even"], Tag("<word>")]
    | Annotated[tuple[SizeOrFill, ...], Tag("<list>")]
    | Annotated[Graduated, Tag("<graduated>")]
    | Annotated[Ratio, Tag("<ratio>")],
    Discriminator(_spacing_kind),
]


class Lip(Words):
    """A strip of solid wood glued to the front edge of a panel. thickness: how far it stands before that."""

    thickness: Size = either("3/4", "19")
    material: SomeText


def _edge_kind(value: object) -> str:
    return "<mapping>" if isinstance(value, (dict, Lip)) else "<word>"


Edge = Annotated[
    Annotated[Literal["veneer"], Tag("<word>")] | Annotated[Lip, Tag("<mapping>")],
    Discriminator(_edge_kind),
]


class Shelves(Words):
    """Fixed shelves. count shelves make count + 1 bays, the lowest first. A list of spacings gives each bay's
    clear height. edge: what covers the front edge of a panel, a solid lip where nothing is said; the shelf
    is the narrower by it. thickness: a panel's own where nothing is said.
    """

    count: Annotated[int, PlainValidator(counted(0, 40))] = 3
    thickness: Size = either("3/4", "19")
    spacing: Spacing = "even"
    joint: Joint = defaults()
    edge: Edge | None = None
    material: SomeText


class CaseCap(Words):
    """The board on top of a case. overhang: beyond the case front, and beyond an end that is free."""

    thickness: Size = either("1-1/4", "32")
    overhang: SizeOrZero = either("1-1/4", "32")
    saw_cuts: SawCuts | None = None
    returns: Returns = "mitred"
    fixed: CapFixing = "in slots"
    material: SomeText


class Groove(Words):
    """The V at each joint of two boards' faces: its width over both boards, and its depth."""

    width: Size = either("1/4", "6")
    depth: Size = either("1/8", "3")


class Tongue(Words):
    """The tongue that runs in the next board's groove: its length beyond the face width, and its
    thickness.
    """

    length: Size = either("1/4", "6")
    thickness: Size = either("1/4", "6")


class Backer(Words):
    """The back of a case, let into rabbets of the sides from behind: V-jointed tongue-and-groove boards, or
    plain, one panel. face: the width of a board that shows. gap: left at each joint for the wood to move.
    thickness: a panel's own where nothing is said.
    """

    kind: Literal["boards", "plain"] = "boards"
    face: Size = either("5-1/8", "130")
    thickness: Size = either("11/16", "18")
    direction: Literal["vertical", "horizontal"] = "vertical"
    groove: Groove = defaults()
    tongue: Tongue = defaults()
    gap: SizeOrZero = either("1/16", "1")
    material: SomeText


class Offset(Words):
    """The case's middle this far to the right of the wall's axis (below zero: to the left)."""

    offset: Length


def _place_kind(value: object) -> str:
    return "<mapping>" if isinstance(value, (dict, Offset)) else "<word>"


CasePlace = Annotated[
    Annotated[Literal["left", "right", "centre"], Tag("<word>")] | Annotated[Offset, Tag("<mapping>")],
    Discriminator(_place_kind),
]


class OtherSide(Words):
    """How the case on the right of a mirrored pair is built where it departs from the left one. Whatever is
    left out is as it is on the left; where it stands is always the mirror of where that stands.
    """

    height: Size
    depth: Size = either("12", "300")
    bays: Annotated[int, PlainValidator(counted(1, 12))] = 1
    frame: FaceFrame | None = None
    plinth: Plinth | None = None
    shelves: Shelves | None = None
    cap: CaseCap | None = None
    backer: Backer | None = None
    material: SomeText


class Case(Words):
    """One bookcase, or with mirrored two alike: the one that is written on the left, its mirror image on the
    right.

    at: `left` and `right` stand from that side wall inwards, in the order written; `centre` on the wall's
    axis. width: over all, scribe left out; `fill` takes what is free between its neighbours (side wall,
    mantel or surround, other cases). height: floor to the top of the cap. depth: wall face to the case front,
    face frame counted. scribe: left between the case and a side wall, filled by the stile's scribe. bays:
    compartments side by side. right: what is otherwise in the mirror image of a mirrored one.
    """

    asked_for: ClassVar[str] = "cases"

    name: SomeText
    mirrored: Flag = False
    at: CasePlace = "left"
    width: SizeOrFill = "fill"
    height: Size
    depth: Size = either("12", "300")
    scribe: SizeOrZero = either("1/2", "12")
    bays: Annotated[int, PlainValidator(counted(1, 12))] = 1
    frame: FaceFrame | None = None
    plinth: Plinth | None = None
    shelves: Shelves | None = None
    cap: CaseCap | None = None
    backer: Backer | None = None
    material: SomeText
    right: OtherSide | None = None

    @property
    def on_the_right(self) -> "Case":
        """The case as it is built on the right: itself, or with what departs from it there."""
        if self.right is None:
            return self
        return self.model_copy(update={name: getattr(self.right, name) for name in OtherSide.model_fields})


Cases = Annotated[tuple[Case, ...], MustBeList]
