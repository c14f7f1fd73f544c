"""Small walls made by hand: two mirrored cases and a mantel shelf between them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.base.notation import Notation
from sheets.geometry.solid import box, cut_box, mirrored_x
from sheets.model.part import Extent, Joint, Material, Part
from sheets.model.purpose import NO_PURPOSE, Bears, Purpose
from sheets.model.wall import Component, Cut, Feature, Paper, Project, Room, Station, Wall
from sheets.resolve.case import CASE
from sheets.resolve.mantel import MANTEL
from sheets.resolve.surround import SURROUND
from tests.made_settings import settings

OAK = Material("oak", "wood", "white oak", cut="quarter sawn", finish="clear")
SLATE = Material("slate", "masonry", "slate", thickness=inch("3/4"))

DOES = {
    "shelf": Purpose(bears=Bears()),
    "side": Purpose(bounds=("end",)),
    "backer board": Purpose(member="board"),
}


def block(key, name, role, assembly, *ends, material=OAK, grain="z", solid=None, **more):
    """A part that fills a box given in inches: x0, x1, y0, y1, z0, z1."""
    x0, x1, y0, y1, z0, z1 = (inch(end) for end in ends)
    extent = Extent(x0, x1, y0, y1, z0, z1)
    others = sorted({"x", "y", "z"} - {grain}, key=extent.size)
    body = solid or box(*(float(v) for v in (x0, x1, y0, y1, z0, z1)), axis=grain)
    does = DOES.get(role, NO_PURPOSE)
    return Part(
        key, name, role, assembly, material, extent, body, others[0], others[1], grain, does=does, **more
    )


def mirror(part: Part) -> Part:
    """The part on the other side of the axis."""
    e = part.extent
    return replace(
        part,
        key=part.key.replace("/left", "/right"),
        assembly=part.assembly.replace("/left", "/right"),
        extent=Extent(-e.x1, -e.x0, e.y0, e.y1, e.z0, e.z1),
        solid=mirrored_x(part.solid),
        hand="right",
        twin=part.key,
        mark=part.mark,
    )


def make_wall() -> Wall:
    """A room of 120 by 96 in: cases 36 wide, 72 high, 12 deep at both ends, a mantel shelf of 40 at 48."""
    case = "cases/flanking/left"
    dado = (Joint("dado", width=inch("3/4"), depth=inch("1/4")),)
    shelf = Joint("dado", mate=f"{case}/side-1", depth=inch("1/4"))
    left = [
        block(
            f"{case}/side-1",
            "Side",
            "side",
            case,
            -60,
            Fraction("-59.25"),
            0,
            Fraction("11.25"),
            0,
            72,
            mark="1",
            joints=dado,
        ),
        block(
            f"{case}/side-2",
            "Side",
            "side",
            case,
            Fraction("-24.75"),
            -24,
            0,
            Fraction("11.25"),
            0,
            72,
            mark="1",
            joints=dado,
        ),
        block(
            f"{case}/shelf-1",
            "Shelf",
            "shelf",
            case,
            Fraction("-59.5"),
            Fraction("-24.5"),
            0,
            11,
            20,
            Fraction("20.75"),
            grain="x",
            joints=(shelf,),
            mark="2",
        ),
        block(
            f"{case}/shelf-2",
            "Shelf",
            "shelf",
            case,
            Fraction("-59.5"),
            Fraction("-24.5"),
            0,
            11,
            44,
            Fraction("44.75"),
            grain="x",
            joints=(shelf,),
            mark="2",
        ),
        block(
            f"{case}/stile-1",
            "Stile",
            "stile",
            case,
            -60,
            Fraction("-58.5"),
            Fraction("11.25"),
            12,
            0,
            72,
            mark="3",
        ),
        block(
            f"{case}/stile-2",
            "Stile",
            "stile",
            case,
            Fraction("-25.5"),
            -24,
            Fraction("11.25"),
            12,
            0,
            72,
            mark="3",
        ),
        block(f"{case}/cap", "Cap", "cap", case, -60, -23, 0, 13, 72, Fraction("73.25"), grain="x", mark="4"),
    ]
    left = [replace(part, hand="left", solid=_dadoed(part)) for part in left]
    cap = block(
        "mantel/cap", "Cap", "cap", "mantel", -20, 20, 0, 8, 48, Fraction("49.25"), grain="x", mark="5"
    )
    fascia_box = box(*(float(inch(v)) for v in (-18, 18, Fraction("5.25"), 6, 42, 48)), axis="x")
    cut = cut_box(
        fascia_box, tuple(float(inch(v)) for v in (-18, 18, Fraction("5.75"), 6, 44, Fraction("44.125")))
    )
    fascia = block(
        "mantel/fascia",
        "Fascia",
        "fascia",
        "mantel",
        -18,
        18,
        Fraction("5.25"),
        6,
        42,
        48,
        grain="x",
        mark="6",
        solid=cut,
        joints=(Joint("saw cut", width=inch("1/8"), depth=inch("1/4")),),
    )
    stone = block(
        "surround/slab",
        "Slab",
        "slab",
        "surround",
        -15,
        15,
        0,
        Fraction("0.75"),
        0,
        42,
        material=SLATE,
        maker="others",
    )
    parts = (*left, *(mirror(part) for part in left), cap, fascia, stone)
    return Wall(
        project=Project("A small wall"),
        paper=Paper("arch-c", "plain"),
        units="inch",
        notation=Notation("feet-inches", inch("1/16")),
        grid=inch("1/16"),
        room=Room(inch(120), inch(96), None, out_of_plumb=inch("1/4")),
        settings=settings(),
        parts=parts,
        components=_components(),
        stations=_stations(),
        features=(
            Feature(
                "mantel",
                "MANTEL BUILD-UP",
                "mantel",
                "x",
                Fraction(0),
                _extent(-1, 1, -1, 10, 40, 51),
                ("mantel/cap", "mantel/fascia"),
                "mantel",
                ("SAW CUT 1/8 x 1/4",),
            ),
        ),
        cuts=(
            Cut("plan", "PLAN", "", "z", inch(30)),
            Cut("section", "SECTION AT CASE", case, "x", inch(-42), signature="case"),
            Cut("section", "SECTION AT CASE", "cases/flanking/right", "x", inch(42), signature="case"),
        ),
        materials=(OAK, SLATE),
    )


def _dadoed(part: Part):
    # The sides are housed for the shelves, 1/4 deep on their inner faces.
    if part.role != "side":
        return part.solid
    e, solid = part.extent, part.solid
    inner = e.x1 if part.key.endswith("1") else e.x0
    for z in (20, 44):
        block_mm = (
            float(inner - inch("1/4")),
            float(inner + inch("1/4")),
            float(e.y0) - 1,
            float(inch(11)),
            float(inch(z)),
            float(inch(z + Fraction("0.75"))),
        )
        solid = cut_box(solid, block_mm)
    return solid


def _extent(*ends) -> Extent:
    return Extent(*(inch(end) for end in ends))


def _components() -> tuple[Component, ...]:
    return (
        Component(
            "cases/flanking/left",
            CASE,
            "FLANKING CASE, LEFT",
            _extent(-60, -23, 0, 13, 0, Fraction("73.25")),
            "left",
        ),
        Component(
            "cases/flanking/right",
            CASE,
            "FLANKING CASE, RIGHT",
            _extent(23, 60, 0, 13, 0, Fraction("73.25")),
            "right",
            "cases/flanking/left",
        ),
        Component("mantel", MANTEL, "MANTEL", _extent(-20, 20, 0, 8, 42, Fraction("49.25"))),
        Component("surround", SURROUND, "SURROUND", _extent(-15, 15, 0, Fraction("0.75"), 0, 42)),
    )


def _stations() -> tuple[Station, ...]:
    def at(axis, place, rank, owner, chain="", **more):
        return Station(axis, inch(place), rank, owner, chain, **more)

    left, right = "cases/flanking/left", "cases/flanking/right"
    shelves = [0, 20, Fraction("20.75"), 44, Fraction("44.75"), 72]
    return (
        at("x", -60, "overall", "room"),
        at("x", 60, "overall", "room"),
        at("z", 0, "overall", "room"),
        at("z", 96, "overall", "room"),
        at("x", -60, "major", left),
        at("x", -24, "major", left),
        at("x", 24, "major", right),
        at("x", 60, "major", right),
        at("x", -15, "major", "surround"),
        at("x", 15, "major", "surround"),
        at("x", -20, "major", "mantel"),
        at("x", 20, "major", "mantel"),
        at("y", 12, "major", left),
        at("y", 12, "major", right),
        at("y", 8, "major", "mantel"),
        at("z", 72, "major", left),
        at("z", Fraction("73.25"), "major", left),
        at("z", 72, "major", right),
        at("z", Fraction("73.25"), "major", right),
        at("z", 42, "major", "mantel"),
        at("z", Fraction("49.25"), "major", "mantel"),
        *(at("z", z, "minor", left, "shelves") for z in shelves),
        *(at("z", z, "minor", right, "shelves") for z in shelves),
    )


@pytest.fixture(scope="session")
def wall() -> Wall:
    return make_wall()
