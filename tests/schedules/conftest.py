"""A small wall made by hand for the schedules: two mirrored cases of ply and oak, and a few odd parts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.base.notation import Notation
from sheets.geometry.solid import box
from sheets.model.part import Extent, Joint, Material, Part
from sheets.model.wall import Component, Paper, Project, Room, Wall
from sheets.resolve.case import CASE
from sheets.resolve.mantel import MANTEL
from tests.made_settings import settings

OAK = Material("oak", "wood", "white oak", cut="quarter sawn", finish="clear")
FIR = Material("fir", "wood", "Douglas-fir", finish="paint")
PLY = Material("ply", "panel", "veneer-core plywood", face="white oak", thickness=inch("23/32"))
MDF = Material("mdf", "panel", "MDF", thickness=inch("3/4"))
SLATE = Material("slate", "masonry", "slate", thickness=inch("3/4"))


def block(
    key: str,
    *,
    size: tuple[str | int, str | int, str | int],
    material: Material = OAK,
    mark: str = "",
    assembly: str = "cases/flanking/left",
    at: tuple[int, int, int] = (0, 0, 0),
    **more: object,
) -> Part:
    """A plain part: size is thickness, width, length in inches, laid along y, x and z."""
    t, w, length = (inch(s) for s in size)
    x, y, z = (inch(a) for a in at)
    extent = Extent(x, x + w, y, y + t, z, z + length)
    solid = box(*(float(v) for v in (extent.x0, extent.x1, extent.y0, extent.y1, extent.z0, extent.z1)))
    name = str(more.pop("name", key.split("/")[-1].split("-")[0].capitalize()))
    role = str(more.pop("role", name.lower()))
    return Part(
        key=key,
        name=name,
        role=role,
        assembly=assembly,
        material=material,
        extent=extent,
        solid=solid,
        thickness_axis="y",
        width_axis="x",
        length_axis="z",
        mark=mark,
        **more,
    )  # type: ignore[arg-type]


def make_wall(*parts: Part, units: str = "inch", **sections: Mapping[str, object]) -> Wall:
    inches = units == "inch"
    notation = Notation("inches", inch("1/16")) if inches else Notation("mm", Fraction(1))
    around = Extent(inch(0), inch(40), inch(0), inch(13), inch(0), inch(80))
    left = Component("cases/flanking/left", CASE, "Flanking case, left", around, hand="left")
    right = Component(
        "cases/flanking/right",
        CASE,
        "Flanking case, right",
        around,
        hand="right",
        twin="cases/flanking/left",
    )
    mantel = Component("mantel", MANTEL, "Mantel", around)
    return Wall(
        project=Project("A wall"),
        paper=Paper("arch-c", "studio"),
        units="inch" if inches else "mm",
        notation=notation,
        grid=notation.grid,
        room=Room(inch(200), inch(104), None, out_of_plumb=inch("1/4")),
        parts=parts,
        components=(left, right, mantel),
        stations=(),
        features=(),
        cuts=(),
        materials=(OAK, PLY),
        settings=settings(units, **sections),
    )


def bookcase(side: str, twin: str = "") -> tuple[Part, ...]:
    home = f"cases/flanking/{side}"

    def mate(name: str) -> str:
        return f"cases/flanking/{twin}/{name}" if twin else ""

    dado = Joint("dado", width=inch(1), depth=inch("1/4"), fastening="glue")
    parts = [
        block(
            f"{home}/side-wall",
            size=("23/32", 12, 72),
            material=PLY,
            assembly=home,
            hand=side,
            mark=f"C1{side[0]}",
            name="Side",
            joints=(dado, dado, dado),
            twin=mate("side-wall"),
        ),
        block(
            f"{home}/stile-1",
            size=("3/4", "3/2", 72),
            assembly=home,
            mark="C4",
            name="Stile",
            twin=mate("stile-1"),
            shows=("front",),
        ),
    ]
    parts += [
        block(
            f"{home}/shelf-{n}",
            size=("3/4", 12, 34),
            assembly=home,
            mark="C2",
            name="Shelf",
            twin=mate(f"shelf-{n}"),
            shows=("front", "top"),
        )
        for n in (1, 2, 3)
    ]
    return tuple(parts)


@pytest.fixture
def wall() -> Wall:
    corbel = block("mantel/corbel-1", size=("7/2", "13/2", 11), assembly="mantel", mark="M3", name="Corbel")
    hearth = block("hearth/slab", size=("3/4", 16, 60), material=SLATE, assembly="hearth", maker="others")
    return make_wall(*bookcase("left"), *bookcase("right", "left"), corbel, hearth)


PartMaker = Callable[..., Part]
