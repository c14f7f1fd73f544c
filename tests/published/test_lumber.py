"""Sizes of lumber as published, every line of the tables, and what parts of such sizes are milled from."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.schedules.stock import rough_of
from sheets.tables.lumber import (
    hardwood_quarters,
    panel_sheets,
    sawn_thicknesses,
    sheet_sold,
    softwood_thicknesses,
    softwood_widths,
)
from tests.schedules.conftest import FIR, OAK, block, make_wall

# American Softwood Lumber Standard PS 20, minimum dressed sizes, dry and green, inches: nominal, dry, green
# (as an engineering reference and a dictionary of units reprint it; 7/4 is a size of finish, from memory).
THICKNESSES = """1/2 7/16 15/32 | 5/8 9/16 19/32 | 3/4 5/8 11/16 | 1 3/4 25/32 | 5/4 1 33/32 | 6/4 5/4 41/32 |
7/4 11/8 - | 2 3/2 25/16 | 5/2 2 33/16 | 3 5/2 41/16 | 7/2 3 49/16 | 4 7/2 57/16"""
WIDTHS = """2 3/2 25/16 | 3 5/2 41/16 | 4 7/2 57/16 | 5 9/2 37/8 | 6 11/2 45/8 | 7 13/2 53/8 | 8 29/4 15/2 |
9 33/4 17/2 | 10 37/4 19/2 | 11 41/4 21/2 | 12 45/4 23/2"""
# NHLA surfaced thicknesses, inches: rough, surfaced on one side (- none is given), on two; 10/4 is
# from memory.
QUARTERS = """1/2 3/8 5/16 | 5/8 1/2 7/16 | 3/4 5/8 9/16 | 1 7/8 13/16 | 5/4 9/8 17/16 | 3/2 11/8 21/16 |
7/4 - 3/2 | 2 29/16 7/4 | 5/2 37/16 9/4 | 3 45/16 11/4 | 4 61/16 15/4"""


def rows(text: str) -> list[list[str]]:
    return [row.split() for row in text.replace("\n", " ").split("|")]


@pytest.mark.parametrize(
    ("table", "printed"), [(softwood_thicknesses, THICKNESSES), (softwood_widths, WIDTHS)]
)
def test_softwood_is_dressed_as_ps_20_says(table, printed: str) -> None:  # type: ignore[no-untyped-def]
    expected = [(inch(dry), None if green == "-" else inch(green)) for _, dry, green in rows(printed)]
    assert [(size.dressed, size.green) for size in table()] == expected
    assert all("PS 20" in size.cited.source for size in table())


def test_sawn_thicknesses_of_europe_by_trade() -> None:
    # EN 1313-1 for softwood, EN 1313-2 for hardwood, preferred thicknesses in mm (from memory).
    soft = (16, 19, 22, 25, 32, 38, 44, 50, 63, 75, 100)
    hard = (20, 27, 32, 40, 50, 60, 65, 70, 80, 100)
    assert tuple(row.thickness for row in sawn_thicknesses("softwood")) == soft
    assert tuple(row.thickness for row in sawn_thicknesses("hardwood")) == hard


@pytest.mark.parametrize(
    ("material", "thickness", "label"),
    [
        # 3 mm are left for planing: 20 mm of oak come out of 27, of fir out of 25; 24 out of 27, and of 32.
        (OAK, 20, "27"),
        (FIR, 20, "25"),
        (OAK, 24, "27"),
        (FIR, 24, "32"),
        (OAK, 30, "40"),
        (FIR, 30, "38"),
    ],
)
def test_a_metric_part_comes_out_of_the_series_of_its_trade(material, thickness, label) -> None:  # type: ignore[no-untyped-def]
    size = tuple(Fraction(mm) * 5 / 127 for mm in (thickness, 90, 1500))
    part = block("mantel/rail", size=size, material=material)
    rough = rough_of(part, make_wall(part, units="mm").settings.stock, "mm")
    assert rough is not None
    assert rough.label.split(" × ")[0] == label


@pytest.mark.parametrize(
    ("panel", "thickness", "label", "least"),
    [
        # As written, in inches: HP-1 +0 -3/64 of 3/4, sold as 23/32; PS 1 1/32 either way; A208.2 0.125 mm.
        ("veneer-core plywood", "3/4", "3/4", "0.703"),
        ("veneer-core plywood", "23/32", "3/4", "0.703"),
        ("softwood plywood", "3/4", "3/4", "0.719"),
        ("softwood plywood", "23/32", "23/32", "0.688"),
        ("MDF", "3/4", "3/4", "0.745"),
        ("OSB", "23/32", "23/32", "0.688"),
    ],
)
def test_a_sheet_is_reckoned_as_thin_as_it_may_come(
    panel: str, thickness: str, label: str, least: str
) -> None:
    sheet = sheet_sold(panel, "inch", inch(thickness))
    assert sheet is not None
    assert (sheet.label, sheet.least) == (label, inch(Fraction(least)))


@pytest.mark.parametrize(
    ("panel", "thickness", "least"),
    [
        # EN 315 18 - (0.4 + 0.03 x 18) = 17.06; EN 622-1 0.2 and 0.3; EN 312 0.3; EN 300 0.8; Finnish birch.
        ("veneer-core plywood", 18, "17.06"),
        ("MDF", 19, "18.8"),
        ("MDF", 25, "24.7"),
        ("particleboard", 18, "17.7"),
        ("birch plywood", 18, "17.1"),
        ("OSB", 18, "17.2"),
    ],
)
def test_a_metric_sheet_likewise(panel: str, thickness: int, least: str) -> None:
    sheet = sheet_sold(panel, "mm", Fraction(thickness))
    assert sheet is not None
    assert (sheet.label, sheet.least) == (f"{thickness} mm", Fraction(least))


def test_no_sheet_of_another_series_is_taken() -> None:
    assert sheet_sold("MDF", "inch", Fraction(17)) is None
    assert sheet_sold("MDF", "mm", inch("7/8") - 1) is None
    assert sheet_sold("veneer-core plywood", "inch", inch("49/64")) is None


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


@pytest.mark.parametrize("sheet", panel_sheets(), ids=lambda sheet: f"{sheet.panel} {sheet.label}")
def test_sheets_have_the_tolerance_of_their_standard(sheet) -> None:  # type: ignore[no-untyped-def]
    # In inches: PS 1 and PS 2, 1/32 either way of the category up to 13/16 and 5 % above (their labels, to a
    # thousandth); HP-1 +0 -3/64; A208.2 0.125 mm, 0.005 in, and particleboard alike; A135.4 0.02 in. In mm:
    # EN 315 sanded, EN 622-1, EN 312, EN 300. Finnish birch plywood is listed size by size by its makers.
    sheet = next(each for each in panel_sheets() if (each.panel, each.series, each.label) == key_of(sheet))
    if sheet.panel == "birch plywood":
        least, most = FINNISH_BIRCH[sheet.label.removesuffix(" mm")]
        assert (sheet.least, sheet.most) == (Fraction(least), Fraction(most))
        return
    nominal = Fraction(sheet.label.removesuffix(" mm")) if sheet.series == "mm" else inch(whole(sheet.label))
    under, over = ALLOWED[sheet.series, sheet.panel](nominal)
    rounded = inch("1/1000") if sheet.series == "inch" else 0
    assert abs(sheet.least - (nominal - under)) <= rounded
    assert abs(sheet.most - (nominal + over)) <= rounded
    assert sheet.least <= sheet.thickness <= sheet.most


def key_of(sheet) -> tuple[str, str, str]:  # type: ignore[no-untyped-def]
    return sheet.panel, sheet.series, sheet.label


def whole(label: str) -> Fraction:
    return sum((Fraction(word) for word in label.split()), Fraction(0))


FINNISH_BIRCH = {
    "6.5": ("6.1", "6.9"), "9": ("8.8", "9.5"), "12": ("11.5", "12.5"), "15": ("14.3", "15.3"),
    "18": ("17.1", "18.1"), "21": ("20", "20.9"), "24": ("22.9", "24.1"), "27": ("25.2", "27"),
    "30": ("28.1", "30"),
}  # fmt: skip
IN_32NDS = inch("1/32")


def ps_1(nominal: Fraction) -> tuple[Fraction, Fraction]:
    either = IN_32NDS if nominal <= inch("13/16") else nominal / 20
    return either, either


def hp_1(nominal: Fraction) -> tuple[Fraction, Fraction]:
    return inch("3/64"), Fraction(0)


def en_315(nominal: Fraction) -> tuple[Fraction, Fraction]:
    return Fraction(2, 5) + Fraction(3, 100) * nominal, Fraction(1, 5) + Fraction(3, 100) * nominal


def alike(fine: Fraction, coarse: Fraction = Fraction(0), above: int = 10**6):  # type: ignore[no-untyped-def]
    return lambda nominal: (fine, fine) if nominal <= above else (coarse, coarse)


ALLOWED = {
    ("inch", "softwood plywood"): ps_1,
    ("inch", "OSB"): ps_1,
    ("inch", "veneer-core plywood"): hp_1,
    ("inch", "MDF"): alike(inch("1/200")),
    ("inch", "particleboard"): alike(inch("1/200")),
    ("inch", "hardboard"): alike(inch("1/50")),
    ("mm", "veneer-core plywood"): en_315,
    ("mm", "softwood plywood"): en_315,
    ("mm", "MDF"): alike(Fraction(1, 5), Fraction(3, 10), 19),
    ("mm", "particleboard"): alike(Fraction(3, 10)),
    ("mm", "OSB"): alike(Fraction(4, 5)),
    ("mm", "hardboard"): alike(Fraction(3, 10)),
}
