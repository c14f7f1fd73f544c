"""The fully dimensioned test can fail, and names what is open when it does."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.annotate.annotate import annotate
from sheets.annotate.complete import complete
from sheets.annotate.coverage import faces, missing
from sheets.annotate.intent import Annotated
from sheets.annotate.twins import MIRRORED
from sheets.base.length import inch
from sheets.views.make import make_views


def without(annotated, keep):
    """The same views with only the dimensions for which keep(view, string, gap) is true."""
    return tuple(
        replace(
            one,
            strings=tuple(
                replace(string, gaps=tuple(gap for gap in string.gaps if keep(one.view, string, gap)))
                for string in one.strings
            ),
        )
        for one in annotated
    )


def test_nothing_is_missing_when_a_drafter_is_done(annotated, wall):
    assert missing(annotated, wall) == ()


def test_bare_views_leave_nearly_everything_open(views, wall):
    bare = tuple(Annotated(view) for view in views)
    named = {(one.part, one.axis) for one in missing(bare, wall)}
    assert ("cases/flanking/left/shelf-2", "z") in named
    assert ("mantel/cap", "z") in named
    # The sides stand on the floor: their heights come from the schedule.
    assert ("cases/flanking/left/side-1", "z") not in named


def test_one_dimension_less_names_the_parts_that_hang_on_it(annotated, wall):
    def keep(view, string, gap):
        return not (
            string.id.startswith("shelves-z")
            and (gap.a, gap.b) in ((inch("20.75"), inch(44)), (inch("44.75"), inch(72)))
        )

    found = missing(without(annotated, keep), wall)
    assert {one.part for one in found} == {"cases/flanking/left/shelf-2", "cases/flanking/right/shelf-2"}
    assert {one.axis for one in found} == {"z"}
    assert {one.what for one in found} == {"underside", "top"}


def test_every_added_dimension_is_needed(views, wall):
    done = complete(tuple(Annotated(view) for view in views), wall)
    total = sum(len(string.gaps) for one in done for string in one.strings)
    assert total > 0
    before = len(missing(done, wall))
    for one in done:
        for string in one.strings:
            for gap in string.gaps:
                fewer = without(
                    done, lambda v, s, g, key=(one.view.id, string.id, gap): (v.id, s.id, g) != key
                )
                assert len(missing(fewer, wall)) > before


def test_the_right_side_counts_only_when_the_views_say_it_is_mirrored(annotated, wall):
    silent = tuple(replace(one, notes=tuple(n for n in one.notes if n != MIRRORED)) for one in annotated)
    hands = {wall.part(one.part).hand for one in missing(silent, wall)}
    assert hands == {"right"}


def test_a_size_about_the_axis_needs_the_axis_drawn(annotated, wall):
    def keep(view, string, gap):
        on_axis = gap.a == -gap.b and string.direction == "u" and view.kind in ("plan", "elevation")
        return on_axis or string.direction != "u" or view.kind not in ("plan", "elevation")

    centred = without(annotated, keep)
    assert not [one for one in missing(centred, wall) if one.part.startswith("mantel")]
    axisless = tuple(replace(one, axes=()) for one in centred)
    assert {one.part for one in missing(axisless, wall) if one.axis == "x"} >= {"mantel/cap", "mantel/fascia"}


def test_a_gap_of_no_part_leads_nowhere(views, wall):
    # A part set off the stations: found open, then closed by one dimension on the axis that lacks it.
    part = wall.part("mantel/cap")
    e = part.extent
    moved = replace(part, extent=replace(e, z0=e.z0 + inch(3), z1=e.z1 + inch(3)))
    other = replace(wall, parts=tuple(moved if p.key == part.key else p for p in wall.parts))
    stations = tuple(s for s in other.stations if not (s.axis == "z" and s.owner == "mantel"))
    other = replace(other, stations=stations)
    done = annotate(other, make_views(other))
    assert missing(done, other) == ()


@pytest.mark.parametrize("maker", ["shop", "others"])
def test_what_the_shop_does_not_make_has_no_schedule_to_lean_on(wall, views, maker):
    part = replace(wall.part("mantel/cap"), maker=maker)
    alone = replace(wall, parts=(part,), stations=())
    bare = tuple(Annotated(view) for view in views)
    open_faces = {(one.axis, one.what) for one in missing(bare, alone)}
    assert ("y", "back face") not in open_faces  # it touches the wall face
    assert (("y", "front face") in open_faces) == (maker == "others")


def test_pieces_of_the_room_are_not_asked_for(wall):
    part = replace(wall.part("mantel/cap"), maker="room")
    assert list(faces(part)) == []
    assert len(list(faces(wall.part("mantel/cap")))) == 6
    assert all(isinstance(at, Fraction) for _, at, _ in faces(wall.part("mantel/cap")))
