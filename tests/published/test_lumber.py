"""Sizes of lumber as published, every line of the tables, and what parts of such sizes are milled from."""

from __future__ import annotations

import pytest

from sheets.base.length import inch
from sheets.schedules.stock import rough_of
from sheets.tables.lumber import hardwood_quarters, softwood_thicknesses, softwood_widths
from tests.schedules.conftest import FIR, OAK, block, make_wall

# American Softwood Lumber Standard PS 20, minimum dressed sizes, dry and green, inches: nominal, dry, green
# (as an engineering reference and a dictionary of units reprint it).
THICKNESSES = """1/2 7/16 15/32 | 5/8 9/16 19/32 | 3/4 5/8 11/16 | 1 3/4 25/32 | 5/4 1 33/32 | 6/4 5/4 41/32 |
2 3/2 25/16 | 5/2 2 33/16 | 3 5/2 41/16 | 7/2 3 49/16 | 4 7/2 57/16"""
WIDTHS = """2 3/2 25/16 | 3 5/2 41/16 | 4 7/2 57/16 | 5 9/2 37/8 | 6 11/2 45/8 | 7 13/2 53/8 | 8 29/4 15/2 |
9 33/4 17/2 | 10 37/4 19/2 | 11 41/4 21/2 | 12 45/4 23/2"""
# NHLA surfaced thicknesses, inches: rough, surfaced on one side (- none is given), on two.
QUARTERS = """1/2 3/8 5/16 | 5/8 1/2 7/16 | 3/4 5/8 9/16 | 1 7/8 13/16 | 5/4 9/8 17/16 | 3/2 11/8 21/16 |
7/4 - 3/2 | 2 29/16 7/4 | 3 45/16 11/4 | 4 61/16 15/4"""


def rows(text: str) -> list[list[str]]:
    return [row.split() for row in text.replace("\n", " ").split("|")]


@pytest.mark.parametrize(
    ("table", "printed"), [(softwood_thicknesses, THICKNESSES), (softwood_widths, WIDTHS)]
)
def test_softwood_is_dressed_as_ps_20_says(table, printed: str) -> None:  # type: ignore[no-untyped-def]
    expected = [(inch(dry), inch(green)) for _, dry, green in rows(printed)]
    assert [(size.dressed, size.green) for size in table()] == expected
    assert all("PS 20" in size.cited.source for size in table())


def test_hardwood_surfaces_as_nhla_says() -> None:
    expected = [
        (inch(rough), None if one == "-" else inch(one), inch(two)) for rough, one, two in rows(QUARTERS)
    ]
    assert [(size.rough, size.s1s, size.s2s) for size in hardwood_quarters()] == expected
    assert all("NHLA" in size.cited.source for size in hardwood_quarters())


@pytest.mark.parametrize(
    ("size", "label"),
    [
        (("3/4", "11/2", 60), "1 × 6"),
        (("3/4", "177/32", 60), "1 × 7"),  # a 32nd more than a 1 x 6 dresses to
        (("3/2", "7/2", 60), "2 × 4"),
        ((1, "29/4", 60), "5/4 × 8"),
        (("5/8", "45/4", 60), "3/4 × 12"),
    ],
)
def test_a_softwood_part_comes_out_of_the_size_that_dresses_to_it(
    size: tuple[str | int, str | int, str | int], label: str
) -> None:
    part = block("mantel/rail", size=size, material=FIR)
    rough = rough_of(part, make_wall(part).settings.stock, "inch")
    assert rough is not None
    assert rough.label == label
    assert rough.pieces == 1


@pytest.mark.parametrize(
    ("thickness", "label"),
    [("5/16", "1/2"), ("3/4", "4/4"), ("13/16", "4/4"), ("27/32", "5/4"), ("3/2", "7/4"), ("7/4", "8/4")],
)
def test_a_hardwood_part_comes_out_of_the_quarter_that_surfaces_to_it(thickness: str, label: str) -> None:
    part = block("mantel/rail", size=(thickness, 4, 60), material=OAK)
    rough = rough_of(part, make_wall(part).settings.stock, "inch")
    assert rough is not None
    assert (rough.label, rough.layers) == (label, 1)
