"""Facts of the trade can be drawn and read off the set, each from the least spec that shows it.

All values: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from sheets.commands.one_set import draw
from sheets.drawing.items import DrawingSet, Text
from sheets.drawing.walk import dimensions, leaves

INCH = Fraction(127, 5)
HEAD = """\
project: {title: One fact}
units: inch
dimensions: inches
materials: {pine: {species: eastern white pine}, slate: {masonry: slate, thickness: 3/4}}
"""
CASE = "cases: [{name: side, mirrored: true, width: 24, height: 60, shelves: {count: 0}}]\n"


@dataclass(frozen=True)
class Fact:
    """sizes: in inches, each dimensioned on a sheet; says: each lettered on one."""

    name: str
    spec: str
    sizes: tuple[Fraction, ...] = ()
    says: tuple[str, ...] = ()
    room: str = "{width: 130}"


def _fraction(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def _sizes(*texts: str) -> tuple[Fraction, ...]:
    return tuple(_fraction(text) for text in texts)


FACTS = (
    # Its width is dimensioned from the axis to both sides.
    Fact("a landscape opening", "fireplace: {opening: {width: 60, height: 13}}\n", _sizes("30", "13")),
    *(
        Fact(
            f"a sill of {sill} in, for a view from a chair",
            f"fireplace: {{opening: {{width: 40, height: 20}}, sill: {sill}}}\n",
            _sizes(sill),
        )
        for sill in ("17 1/2", "20")
    ),
    *(
        Fact(
            f"a breast {breast} in proud of the cases",
            f"mantel: {{top: 50, breast: {breast}, width: 70, layers: {{fascia: {{}}}}}}\n{CASE}",
            _sizes(breast),
        )
        for breast in ("4", "4 1/2", "5")
    ),
    Fact(
        "corbels 7 in wide with a shallow curve",
        "mantel: {top: 50, width: 70, layers: {fascia: {}}, corbels: {width: 7, curve: {rise: 1/2}}}\n",
        _sizes("7"),
        ("RISE 1/2",),
    ),
    Fact(
        # 8 less two cuts of 1/4 is 7 1/2: three bands of 2 1/2.
        "a fascia in three bands by saw cuts",
        "mantel: {top: 50, width: 70, layers: {fascia: {height: 8, saw_cuts: {count: 2, width: 1/4}}}}\n",
        _sizes("2 1/2", "1/4"),
        ("SAW CUTS BREAK THE FASCIA INTO 3 BANDS",),
    ),
    Fact(
        # Of a wall of 130 a surround of 60 leaves 35 on each side.
        "a surround to the floor stops the baseboard",
        "fireplace: {opening: {width: 30, height: 20}}\n"
        "surround: {material: slate, width: 60, height: 40, to_floor: true}\n",
        _sizes("35"),
        ("NO BASEBOARD CROSSES THE FACING",),
        "{width: 130, baseboard: {}}",
    ),
    Fact(
        "fixed shelves in dadoes",
        "cases: [{name: shelves, at: centre, width: 30, height: 60, shelves: {count: 2}}]\n",
        (),
        ("FIXED IN DADO",),
    ),
)


def _drawn(fact: Fact, folder: Path) -> DrawingSet:
    path = folder / "fact.yaml"
    path.write_text(f"{HEAD}room: {fact.room}\n{fact.spec}", "utf-8")
    made = draw(path)
    assert made.drawing is not None, made.diagnostics
    return made.drawing


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact.name)
def test_the_fact_is_on_a_sheet(fact: Fact, tmp_path: Path) -> None:
    items = [item for sheet in _drawn(fact, tmp_path).sheets for item in sheet.items]
    sizes = {Fraction(one.value) / INCH for one in dimensions(items) if one.kind == "linear"}
    assert [size for size in fact.sizes if size not in sizes] == []
    words = " ".join(" ".join(i.plain.split()) for _, i in leaves(items) if isinstance(i, Text))
    assert [said for said in fact.says if said not in words] == []
