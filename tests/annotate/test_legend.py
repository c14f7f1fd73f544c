"""The first sheet says what applies, and always the cautions."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheets.annotate.legend import legend
from sheets.base.length import inch
from sheets.model.part import Extent
from sheets.model.wall import Opening


def words(found):
    return "\n".join(line for group in found.notes for line in group.lines)


def test_cautions_are_on_every_set(wall, annotated):
    said = "\n".join(legend(wall, annotated).cautions)
    assert "DRAWINGS PROPOSE" in said
    assert "LISTING AND MANUAL" in said
    assert "TIP" in said
    assert "APPROVED" not in said + words(legend(wall, annotated))


def test_fire_is_spoken_of_where_there_is_a_fireplace(wall):
    opening = Opening(Extent(*(inch(n) for n in (-15, 15, -10, 0, 18, 33))), "listed gas")
    with_fire = legend(replace(wall, opening=opening))
    assert any("COMBUSTIBLE" in line for line in with_fire.cautions)
    assert "LISTED GAS" in words(with_fire)
    assert not any("COMBUSTIBLE" in line for line in legend(wall).cautions)


def test_materials_and_joints_are_those_of_the_wall(wall, annotated):
    said = words(legend(wall, annotated))
    assert "WHITE OAK, QUARTER SAWN, CLEAR FINISH" in said
    assert 'SAW CUT 1/8" x 1/4" DEEP: FASCIA.' in said
    assert "NOT IN THE WOODWORKER'S WORK: SLAB." in said


def test_shelf_load_in_both_units(wall):
    # Books: 25 lb per foot of shelf, 37 kg per metre (0.4536 / 0.3048 * 25 = 37.2, by hand).
    assert "25 LB PER FOOT" in words(legend(wall))
    assert "37 KG PER METRE" in words(legend(replace(wall, units="mm")))
    display = replace(wall, settings={"checks": {"load": "display"}})
    assert "15 LB PER FOOT" in words(legend(display))


def test_only_abbreviations_in_use_are_explained(wall, annotated):
    assert [short for short, _ in legend(wall, annotated).abbreviations] == ["CL"]
    bare = tuple(replace(one, axes=()) for one in annotated)
    assert legend(wall, bare).abbreviations == (("CL", "CENTRE LINE"),)  # the mirror note still says CL
    silent = tuple(replace(one, axes=(), notes=()) for one in annotated)
    assert legend(wall, silent).abbreviations == ()


@pytest.mark.parametrize(("key", "grains"), [("oak", {"end", "u"}), ("slate", {None})])
def test_material_legend_shows_how_each_is_cut(wall, annotated, key, grains):
    row = next(row for row in legend(wall, annotated).materials if row.key == key)
    assert set(row.grains) <= grains
    assert row.grains
