"""General notes say what applies to the wall, and no more."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheets.annotate.general_notes import general_notes
from sheets.base.length import inch
from sheets.model.part import Extent
from sheets.model.wall import Opening


def words(wall):
    return "\n".join(line for group in general_notes(wall) for line in group.lines)


def test_anchorage_and_tipping_are_on_every_set(wall):
    assert "CAN TIP" in words(wall)
    assert "STUDS OR BLOCKING" in words(wall)
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
    display = replace(wall, settings={"checks": {"load": "display"}})
    assert "15 LB PER FOOT" in words(display)


@pytest.mark.parametrize("notes", [(), ("Set the surround first.",)])
def test_the_projects_own_notes_come_last(wall, notes):
    groups = general_notes(replace(wall, notes=notes))
    assert (groups[-1].lines == ("SET THE SURROUND FIRST.",)) == bool(notes)
