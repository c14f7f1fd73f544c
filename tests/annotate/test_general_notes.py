"""General notes say what applies to the wall, and no more."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheets.annotate.general_notes import general_notes
from sheets.base.length import inch
from sheets.compose.pages.tables import lettered
from sheets.grammar.reader import read_spec_text
from sheets.model.part import Extent
from sheets.model.wall import Opening
from sheets.resolve.solve import resolve


def words(wall):
    return "\n".join(line for group in general_notes(wall) for line in group.lines)


def test_anchorage_and_tipping_are_on_every_set(wall):
    assert "CAN TIP" in words(wall)
    assert "INTO BLOCKING OR STUD" in words(wall)
    assert "APPROVED" not in words(wall)
    assert "COMPLIES" not in words(wall)


def test_fire_is_spoken_of_where_there_is_a_fireplace(wall):
    opening = Opening(Extent(*(inch(n) for n in (-15, 15, -10, 0, 18, 33))), "listed gas")
    said = words(replace(wall, opening=opening))
    assert "LISTED GAS" in said
    assert "LISTING AND MANUAL AND LOCAL CODE GOVERN" in said
    assert "FIREPLACE" not in [group.heading for group in general_notes(wall)]


def test_materials_and_joints_are_those_of_the_wall(wall):
    said = words(wall)
    assert "WHITE OAK, QUARTER SAWN, CLEAR FINISH" in said
    assert 'SAW CUT 1/8" x 1/4" DEEP: FASCIA.' in said
    assert "NOT IN THE WOODWORKER'S WORK: SLAB." in said
    bare = replace(wall, parts=tuple(p for p in wall.parts if p.role == "shelf"))
    assert "SAW CUT" not in words(bare)


def test_shelf_load_in_both_units(wall):
    # Books: 25 lb per foot of shelf, 37 kg per metre (0.4536 / 0.3048 * 25 = 37.2, by hand).
    assert "25 LB PER FOOT" in words(wall)
    assert "37 KG PER METRE" in words(replace(wall, units="mm"))


SPEC = """
project: {title: Made up for a test}
units: %s
room: {width: 4 m}
cases: [{name: books, width: 1 m, height: 2 m, shelves: {count: 3}}]
"""


def printed(units, said=""):
    """What a spec's general notes come out as, with the letters of the sheet."""
    spec, source, found = read_spec_text(SPEC % units + said)
    assert spec is not None, found
    solved, _ = resolve(spec, source)
    return [lettered(line) for group in general_notes(solved) for line in group.lines]


@pytest.mark.parametrize(
    ("units", "said", "load"),
    [
        ("inch", "", "BOOKS, 25 lb PER FOOT"),
        ("mm", "", "BOOKS, 37 kg PER METRE"),  # 25 x 0.4536 / 0.3048 = 37.2, by hand
        ("inch", "checks: {load: display}", "DISPLAY, 15 lb PER FOOT"),
        ("inch", "checks: {load: display, given_load: {weight: 60, per: foot}}", "60 lb PER FOOT"),
        ("inch", "checks: {given_load: {weight: 90, per: metre}}", "90 kg PER METRE"),
    ],
)
def test_the_load_that_the_spec_gives_is_printed(units, said, load):
    # 25 lb for books and 15 lb for display: sheets/tables/shelf_loads.csv, common practice.
    assert f"SHELVES ARE MEANT FOR {load} OF SHELF; SEE THE CHECKS." in printed(units, said)


def test_the_fasteners_that_the_spec_gives_are_printed():
    said = "fasteners: {wall: lag bolt, wall_length: 4, screws_per_stud: 1, case: trim screw}"
    said += "\nchecks: {stud_spacing: 12}"
    lines = printed("inch", said)
    fixed = 'HEADS PLUGGED OR CAPPED: LAG BOLT, 1/4" X 4", 1 TO A STUD, STUDS 1\'-0" ON CENTRE.'
    assert [line for line in lines if line.endswith(fixed)]
    assert "CASES: TRIM SCREW, CONCEALED WHERE IT CAN BE, PILOT HOLES IN SOLID WOOD." in lines


def test_without_a_case_its_screws_are_not_spoken_of(wall):
    assert "CASES: " in words(wall)
    assert "CASES: " not in words(replace(wall, components=()))


@pytest.mark.parametrize("notes", [(), ("Set the surround first.",)])
def test_the_projects_own_notes_come_last(wall, notes):
    groups = general_notes(replace(wall, notes=notes))
    assert (groups[-1].lines == ("SET THE SURROUND FIRST.",)) == bool(notes)
