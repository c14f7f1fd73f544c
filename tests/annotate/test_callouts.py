"""What is said of materials, once in a set, and where its leader ends."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from sheets.annotate.annotate import annotate
from sheets.annotate.coverage import missing
from sheets.base.length import inch
from sheets.pipeline import solve
from sheets.views.make import make_views

SPEC = Path(__file__).parents[2] / "specs" / "ferry-landing.yaml"


@pytest.fixture(scope="module")
def wall():
    return solve(SPEC).wall


@pytest.fixture(scope="module")
def by_view(wall):
    return {one.view.id: one for one in annotate(wall, make_views(wall))}


def test_a_material_is_said_once_in_the_set(by_view):
    lines = Counter(note.text for one in by_view.values() for note in one.callouts if "," in note.text[0])
    assert lines
    assert {text: count for text, count in lines.items() if count > 1} == {}


def test_no_leader_of_the_elevation_ends_on_the_axis(by_view):
    notes = by_view["elevation"].callouts
    assert {note.text[0] for note in notes} >= {"HEARTH, BRICK"}
    assert all(abs(note.target[0]) > 100 for note in notes)


def test_the_room_for_a_note_is_open_face(by_view):
    """The hearth is 75 wide and 7 high before the wall: the half beside the axis."""
    note = next(note for note in by_view["elevation"].callouts if note.text[0] == "HEARTH, BRICK")
    assert note.room is not None
    sides = sorted((abs(note.room.u0), abs(note.room.u1)))
    assert sides == [0, inch("75/2")]
    assert (note.room.v0, note.room.v1) == (inch("0"), inch("7"))


def test_the_mantel_box_is_measured_in_its_own_plan_and_nowhere_on_the_elevation(by_view):
    box = by_view["plan/mantel"]
    assert box.view.subject == "mantel"
    names = {string.id for string in box.strings}
    assert {"ribs-x/mantel", "breast-y/mantel", "cap-width-x/mantel"} <= names
    # No line below the elevation is left free between the strings.
    below = {string.rank for string in by_view["elevation"].strings if string.side == "below"}
    assert below == set(range(len(below)))
    assert not any(string.id.startswith("ribs") for string in by_view["elevation"].strings)


def test_a_view_is_marked_only_with_cuts_that_go_through_it(by_view):
    for one in by_view.values():
        box = one.view.box
        for mark in one.cut_marks:
            low, high = (box.u0, box.u1) if mark.direction == "v" else (box.v0, box.v1)
            assert low <= mark.at <= high


def test_a_joint_stands_for_others_only_where_typical_is_said(by_view, wall):
    silent = [
        replace(one, view=replace(one.view, says=tuple(w for w in one.view.says if "TYP." not in w)))
        for one in by_view.values()
    ]
    assert missing(by_view.values(), wall) == ()
    assert any("board" in one.part and one.axis == "x" for one in missing(silent, wall))
