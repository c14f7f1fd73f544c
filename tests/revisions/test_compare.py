"""Comparing two walls: nothing for the same, both ways alike, enough to rebuild the later schedule."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from hypothesis import given, settings
from hypothesis import strategies as st

from sheets.base.keys import key_order
from sheets.base.length import inch
from sheets.checks.finding import Finding
from sheets.geometry.solid import moved
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.revisions.comparing.change_json import to_json
from sheets.revisions.comparing.change_words import groups, to_text
from sheets.revisions.comparing.changes import Changes, mirrored
from sheets.revisions.comparing.compare import compare
from sheets.revisions.comparing.reason import summary
from sheets.schedules.parts import parts_schedule

LEFT = "cases/flanking/left"


def with_part(wall: Wall, key: str, **values: object) -> Wall:
    return replace(wall, parts=tuple(replace(p, **values) if p.key == key else p for p in wall.parts))


def stretched(part: Part, axis: str, more: Fraction) -> Part:
    """The part longer by that much at its far end; the solid is left to the extent."""
    return replace(part, extent=replace(part.extent, **{f"{axis}1": part.extent.span(axis)[1] + more}))


def shifted(part: Part, up: Fraction) -> Part:
    e = part.extent
    return replace(part, extent=replace(e, z0=e.z0 + up, z1=e.z1 + up), solid=moved(part.solid, dz=float(up)))


def without(wall: Wall, key: str) -> Wall:
    return replace(wall, parts=tuple(p for p in wall.parts if p.key != key))


def test_a_wall_has_not_changed_from_itself(wall: Wall) -> None:
    assert not compare(wall, wall)
    backwards = replace(wall, parts=wall.parts[::-1], components=wall.components[::-1])
    assert not compare(wall, backwards), "the order of keys is no change"


def test_a_longer_part_is_resized_and_nothing_else(wall: Wall) -> None:
    key = f"{LEFT}/stile-1"
    later = with_part(wall, key, extent=replace(wall.part(key).extent, z1=inch(74)))
    found = compare(wall, later)
    assert [(c.key, c.kinds) for c in found.parts] == [(key, ("resized",))]
    # 2 in more of a stile 1 1/2 in wide, 4/4: 1/4 in more for edging makes 1.75 / 12 * 2 / 12 board feet.
    (line,) = found.take_off
    assert line.stock == "4/4"
    assert line.pieces_before == line.pieces_after
    assert line.after - line.before == Fraction(7, 4) * 2 / 144


def test_a_part_lifted_is_moved_and_told_how_far(wall: Wall) -> None:
    later = replace(
        wall, parts=tuple(shifted(p, inch("3/2")) if p.key.endswith("shelf-1") else p for p in wall.parts)
    )
    found = compare(wall, later)
    assert {c.kinds for c in found.parts} == {("moved",)}
    text = to_text(found, wall, later)
    assert 'moved: 2 Shelf (2), 1 1/2" up' in text, "both hands share the mark"
    assert "TAKE-OFF" not in text


def test_a_part_that_grows_from_its_middle_has_not_moved(wall: Wall) -> None:
    e = wall.part("mantel/cap").extent
    later = with_part(wall, "mantel/cap", extent=replace(e, x0=e.x0 - 25, x1=e.x1 + 25))
    assert [c.kinds for c in compare(wall, later).parts] == [("resized",)]


def test_another_species_is_another_material(wall: Wall) -> None:
    walnut = replace(wall.part("mantel/cap").material, name="black walnut")
    later = with_part(wall, "mantel/cap", material=walnut)
    found = compare(wall, later)
    assert [c.kinds for c in found.parts] == [("material",)]
    assert {line.material.split(",")[0] for line in found.take_off} == {"white oak", "black walnut"}
    assert "white oak, quarter sawn, clear to black walnut" in to_text(found, wall, later)


def test_a_saw_cut_elsewhere_is_cut_differently(wall: Wall, small) -> None:
    fascia = wall.part("mantel/fascia")
    plain = small.block("x", "X", "x", "mantel", -18, 18, Fraction("5.25"), 6, 42, 48, grain="x").solid
    later = with_part(wall, "mantel/fascia", solid=plain)
    assert fascia.solid != plain
    assert [c.kinds for c in compare(wall, later).parts] == [("shape",)]


def test_a_removed_shelf_is_told_by_assembly(wall: Wall) -> None:
    later = without(without(wall, f"{LEFT}/shelf-2"), "cases/flanking/right/shelf-2")
    found = compare(wall, later)
    (group,) = groups(found, wall, later)
    assert group.heading == "FLANKING CASE, LEFT AND RIGHT"
    assert [(line.verb, line.mark, line.count) for line in group.lines] == [("removed", "2", 2)]
    assert summary(found, wall, later) == "Flanking case, left and right: 2 shelf (2) removed"
    json.dumps(to_json(found, wall, later))


def test_room_and_words_are_told_apart(wall: Wall) -> None:
    project = replace(wall.project, status="released")
    later = replace(wall, room=replace(wall.room, width=inch(122)), project=project, notes=("Verify.",))
    found = compare(wall, later)
    assert [(s.name, s.before, s.after) for s in found.sizes] == [("room width", inch(120), inch(122))]
    assert [(s.name, s.after) for s in found.words] == [("status", "released"), ("note", "Verify.")]
    assert "room width 10'-0\" to 10'-2\"" in to_text(found, wall, later)


@st.composite
def edits(draw):
    """What is done to which part: (number of the part, way, by how much in sixteenths)."""
    return draw(
        st.lists(
            st.tuples(
                st.integers(0, 16),
                st.sampled_from(["remove", "stretch x", "stretch z", "shift", "species", "add"]),
                st.integers(-8, 8),
            ),
            max_size=5,
        )
    )


def edited(wall: Wall, doings) -> Wall:
    for which, way, by in doings:
        part, amount = wall.parts[which % len(wall.parts)], by * inch("1/16")
        if way == "remove" and len(wall.parts) > 1:
            wall = without(wall, part.key)
        elif way.startswith("stretch"):
            wall = replace(
                wall, parts=tuple(stretched(p, way[-1], abs(amount)) if p is part else p for p in wall.parts)
            )
        elif way == "shift":
            wall = replace(wall, parts=tuple(shifted(p, amount) if p is part else p for p in wall.parts))
        elif way == "species":
            wall = with_part(wall, part.key, material=replace(part.material, name="cherry"))
        else:
            key = f"{part.assembly}/filler-{by + 9}"
            if key not in {p.key for p in wall.parts}:
                wall = replace(wall, parts=(*wall.parts, replace(part, key=key, mark=f"N{by + 9}")))
    return wall


# Three topics, and each may say several things: some are lost, some gained, some stand with other numbers.
findings = st.lists(
    st.builds(
        lambda rule, says: Finding(rule, "note", f"{rule} {says}", "", None, None, (rule,)),  # type: ignore[arg-type]
        st.sampled_from(["sag", "clearance", "doorway"]),
        st.integers(1, 3),
    ),
    max_size=4,
)
rooms = st.tuples(
    st.integers(118, 122), st.sampled_from(["", "Verify."]), st.sampled_from(["released", "for review"])
)


def roomy(wall: Wall, room: tuple[int, str, str]) -> Wall:
    """The wall in a room of another width, with another note and status."""
    width, note, status = room
    return replace(
        wall,
        room=replace(wall.room, width=inch(width)),
        notes=(note,) if note else (),
        project=replace(wall.project, status=status),
    )


T = TypeVar("T", Part, Component)


def applied(changes: Changes, wall: Wall) -> Wall:
    """The earlier wall with the changes made to its parts and assemblies, in the order of their keys."""
    return replace(
        wall,
        parts=changed(wall.parts, {c.key: c.after for c in changes.parts}),
        components=changed(wall.components, {c.key: c.after for c in changes.components}),
    )


def changed(earlier: tuple[T, ...], after: Mapping[str, T | None]) -> tuple[T, ...]:
    found: dict[str, T | None] = {**{one.key: one for one in earlier}, **after}
    return tuple(one for key in sorted(found, key=key_order) if (one := found[key]) is not None)


def in_key_order(wall: Wall) -> Wall:
    return replace(wall, parts=changed(wall.parts, {}), components=changed(wall.components, {}))


@given(edits(), edits(), rooms, rooms, findings, findings)
@settings(max_examples=80, deadline=None)
def test_changes_mirror_and_rebuild_the_later_schedule(
    wall: Wall, one, other, room_one, room_other, found_one, found_other
) -> None:
    a, b = roomy(edited(wall, one), room_one), roomy(edited(wall, other), room_other)
    found = compare(a, b, found_one, found_other)
    assert not compare(a, a, found_one, found_one)
    assert compare(b, a, found_other, found_one) == mirrored(found)
    assert mirrored(mirrored(found)) == found
    assert parts_schedule(applied(found, a)) == parts_schedule(in_key_order(b))
    assert bool(found) or parts_schedule(in_key_order(a)) == parts_schedule(in_key_order(b))
    # What a side says of its findings is what the other had, less what was lost, with what was gained.
    said = Counter(f.message for f in found_one)
    said -= Counter(f.message for f in found.lost) + Counter(r.before.message for r in found.restated)
    said += Counter(f.message for f in found.gained) + Counter(r.after.message for r in found.restated)
    assert said == Counter(f.message for f in found_other)
