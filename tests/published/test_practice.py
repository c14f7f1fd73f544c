"""Figures of practice and of what is sold a second time, in mm or decimals: a change in either is seen.

Sources and degrees of confidence stand with each figure in the tables; what is from memory there is so here.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.tables.bends import bend_ratio, plywood_bends
from sheets.tables.clearances import clearances, of_where
from sheets.tables.figures import FigureTable, figure, figures
from sheets.tables.lumber import Series, Trade, sheet_sizes, stock_lengths, tongue_and_groove
from sheets.tables.people import body, book_formats

# Lengths in decimals of an inch, ratios and counts as they are.
PRACTICE: dict[FigureTable, dict[str, float]] = {
    "joinery": {
        "dado depth usual": 0.333333, "dado depth most": 0.5, "wood left at a saw cut": 0.125,
        "wood left beside a saw cut": 0.25, "wood left between dadoes": 0.1875,
        "edge distance of a dado": 0.375, "least reveal": 0.125, "scribe most": 1.5,
        "frame overhang least": 0.125, "frame overhang most": 0.25, "saw kerf": 0.125, "kerf web": 0.0625,
        "rough over thickness": 0.125, "short grain least": 1.5, "cross-grain glue most": 3,
        "fixed width most": 6, "gap the eye sees": 0.03125, "tongue left engaged": 0.0625,
        "free board edge": 0.125, "grain run-out most": 0.25, "scarf slope": 8,
        "shelf let in least": 0.15625, "shelf let in at all": 0.125,
    },
    "order": {"almost aligned within": 0.5, "proud at least": 0.125, "arch ratio apart": 0.25},
    "fireplace": {
        "large opening from": 6, "hearth front small": 16, "hearth side small": 8, "hearth front large": 20,
        "hearth side large": 12, "hearth extension thickness": 2,
        "hearth extension thickness raised": 0.375, "raised opening from": 8,
    },
    "stability": {
        "stud width": 1.5, "studs at least": 2, "anchors above": 0.666667, "tall from": 27,
        "carried by one person": 50, "carried by two people": 150,
    },
}  # fmt: skip


@pytest.mark.parametrize("table", PRACTICE)
def test_single_figures(table: FigureTable) -> None:
    for name, value in PRACTICE[table].items():
        found = figure(table, name)
        told = found.value / inch(1) if found.unit == "mm" else found.value
        assert float(told) == pytest.approx(value, rel=1e-5), name


@pytest.mark.parametrize("table", ["joinery", "order", "fireplace"])
def test_every_figure_is_told_twice(table: FigureTable) -> None:
    assert {each.name for each in figures(table)} == set(PRACTICE[table])


def test_plywood_bent_dry() -> None:
    # APA TT-003: radius in feet across and along the face grain of 1/4, 5/16, 3/8, 1/2, 5/8, 3/4 in.
    assert [row.thickness / inch(1) * 16 for row in plywood_bends()] == [4, 5, 6, 8, 10, 12]
    assert [row.across / inch(12) for row in plywood_bends()] == [2, 2, 3, 6, 8, 12]
    assert [row.parallel / inch(12) for row in plywood_bends()] == [5, 6, 8, 12, 16, 20]


def test_dry_lamination() -> None:
    # Common practice: 40 times the thickness at best, 60 with care.
    ratio = bend_ratio("dry lamination")
    assert (ratio.least, ratio.careful) == (40, 60)


def test_sizes_of_sheets() -> None:
    # A mill's list, feet: 4 x 6, 4 x 8, 4 x 10, 5 x 8.
    sold = [(size.width / inch(12), size.length / inch(12)) for size in sheet_sizes()]
    assert sold == [(4, 6), (4, 8), (4, 10), (5, 8)]


@pytest.mark.parametrize(
    ("trade", "series", "sold"),
    [
        # PS 20-05: even feet from 6; NHLA FAS: 8 to 16 ft by the foot. In Europe by 0.3 m, or by 0.5 from 2
        # (from memory).
        ("softwood", "inch", [feet * inch(12) for feet in (6, 8, 10, 12, 14, 16)]),
        ("hardwood", "inch", [feet * inch(12) for feet in range(8, 17)]),
        ("softwood", "mm", [Fraction(300 * n) for n in range(6, 19)]),
        ("hardwood", "mm", [Fraction(500 * n) for n in range(4, 11)]),
    ],
)
def test_lengths_of_boards(trade: Trade, series: Series, sold: list[Fraction]) -> None:
    assert [row.length for row in stock_lengths(trade, series)] == sold


def test_tongue_and_groove_patterns() -> None:
    # WWPA estimator: a tongue of 1/4; it covers 3 1/8, 5 1/8, 6 7/8, 8 7/8, 10 7/8 in.
    assert [row.face / inch("1/8") for row in tongue_and_groove()] == [25, 41, 55, 71, 87]
    assert {row.tongue for row in tongue_and_groove()} == {inch("1/4")}


def test_books() -> None:
    # Clear heights 8 to 16 in by 2 and depths 8, 10, 12, 14 of octavos, large, art, folio; a paperback of 129
    # mm, its widest usual trim, wants 5 1/2 in (common practice).
    assert [row.clear_height / inch(1) for row in book_formats()] == [8, 10, 12, 14, 16]
    assert [row.depth / inch(1) for row in book_formats()] == [Fraction(11, 2), 8, 10, 12, 14]


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [
        ("lounge seat eye height", 965, 1118),  # 38 and 44 in
        ("picture centre", 1448, 1524),  # 57 and 60
        ("picture above furniture", 152, 203),  # 6 and 8
        ("mantel shelf height", 1219, 1524),  # 48 and 60
    ],
)
def test_habits_in_millimetres(name: str, least: int, most: int) -> None:
    assert (round(body(name).least), round(body(name).most)) == (least, most)


def test_clearances_told_twice() -> None:
    # In mm: distance, of what projects over, more per projection, no limit beyond. IRC R1001.11 with
    # exception 4 in both forms, R1003.18; NFPA 211 11.2.5.4; Ontario 9.22.9.1.
    told = {
        ("IRC", "around"): [(152.4, None, 0, None), (0, 0, 8, 304.8)],
        ("IRC", "above"): [(0, 0, 8, 304.8)],
        ("IRC", "beside"): [(152.4, 38.1, 1, None)],
        ("IRC", "air front"): [(50.8, None, 0, None)],
        ("IRC", "air side"): [(50.8, None, 0, None)],
        ("IRC", "air back"): [(101.6, None, 0, None)],
        ("IRC", "lining"): [(304.8, None, 0, None)],
        ("IRC", "chimney inside"): [(50.8, None, 0, None)],
        ("IRC", "chimney outside"): [(25.4, None, 0, None)],
        ("IRC", "flue"): [(304.8, None, 0, None)],
        ("NFPA 211", "around"): [(152.4, None, 0, None)],
        ("NFPA 211", "above"): [(304.8, 38.1, 0, None)],
        ("Ontario code", "around"): [(150, None, 0, None)],
        ("Ontario code", "above"): [(300, 38, 0, None)],
    }
    for (body_of_rules, where), wanted in told.items():
        found = of_where(clearances(body_of_rules), where)  # type: ignore[arg-type]
        assert [
            (
                float(row.distance),
                None if row.projects_over is None else float(row.projects_over),
                row.per_projection,
                None if row.no_limit_beyond is None else float(row.no_limit_beyond),
            )
            for row in found
        ] == wanted, (body_of_rules, where)
