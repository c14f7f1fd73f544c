"""The sizes and the words of a wall by name, and which of them differ between two walls."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import astuple, fields, is_dataclass
from difflib import SequenceMatcher
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.model.fire import Manual
from sheets.model.settings import Waiver
from sheets.model.wall import Wall
from sheets.revisions.comparing.changes import SizeChange, Value

NOTE = "note"
PRECISION = "precision"
CONTENT = "content of "
_OVER_ALL = " over all"
_CORRECTED = 0.6
"""Two notes that share less of their letters are two notes, not one that was corrected."""

Name = tuple[str, str, Fraction | None]
"""Key of the owner, what it is called, the length that `{at}` in that stands for."""
Named = Mapping[Name, Value]


def size_changes(before: Wall, after: Wall, slack: Fraction) -> tuple[SizeChange, ...]:
    """Return the sizes of room, opening and assemblies that differ by more than a slack, mm.

    What an assembly measures over all is left out where a size of its own says the same of it.
    """
    found = _differences(_sizes(before), _sizes(after), slack)
    own = {(one.owner, one.before, one.after) for one in found if not one.name.endswith(_OVER_ALL)}
    return tuple(
        one
        for one in found
        if not (one.name.endswith(_OVER_ALL) and (one.owner, one.before, one.after) in own)
    )


def word_changes(before: Wall, after: Wall, blocks: tuple[str, str]) -> tuple[SizeChange, ...]:
    """Return what differs of the project, the paper, the settings and the notes. blocks: what the title block
    of each side holds."""
    found = list(_differences(_words(before), _words(after), Fraction(0)))
    if before.paper.titleblock == after.paper.titleblock and blocks[0] != blocks[1]:
        found.append(SizeChange("", f"{CONTENT}the title block {after.paper.titleblock}", *blocks))
    return (*found, *_notes(before.notes, after.notes))


def _differences(before: Named, after: Named, slack: Fraction) -> tuple[SizeChange, ...]:
    # In the order in which the later side says them; what is gone comes last.
    names = [*after, *(name for name in before if name not in after)]
    order = sorted(range(len(names)), key=lambda k: (key_order(names[k][0] or "0"), *_said(names[k])))
    return tuple(
        SizeChange(owner, name, was, now, at)
        for owner, name, at in (names[k] for k in order)
        if not _same(was := before.get((owner, name, at)), now := after.get((owner, name, at)), slack)
    )


def _said(name: Name) -> tuple[str, Fraction]:
    return name[1], name[2] or Fraction(0)


def _same(was: Value, now: Value, slack: Fraction) -> bool:
    if isinstance(was, Fraction) and isinstance(now, Fraction):
        return abs(was - now) <= slack
    return was == now


def _notes(before: Iterable[str], after: Iterable[str]) -> tuple[SizeChange, ...]:
    # One that was corrected is one change, from what it said to what it says.
    gone, come = ([n for n in one if n not in other] for one, other in ((before, after), (after, before)))
    pairs = sorted((-_alike(was, now), sorted((was, now)), was, now) for was in gone for now in come)
    found: list[SizeChange] = []
    for unlike, _, was, now in pairs:
        if -unlike >= _CORRECTED and was in gone and now in come:
            gone.remove(was)
            come.remove(now)
            found.append(SizeChange("", NOTE, was, now))
    found += [SizeChange("", NOTE, note, None) for note in gone]
    found += [SizeChange("", NOTE, None, note) for note in come]
    return tuple(sorted(found, key=lambda one: sorted((str(one.before or ""), str(one.after or "")))))


def _alike(one: str, other: str) -> float:
    first, second = sorted((one, other))  # the same whichever is the later
    return SequenceMatcher(None, first, second, autojunk=False).ratio()


def _sizes(wall: Wall) -> Named:
    found: dict[Name, Value] = {
        ("", "room width", None): wall.room.width,
        ("", "ceiling height", None): wall.room.height,
        ("", "spring line of the ceiling", None): wall.room.spring,
    }
    if wall.room.doorway:
        found["", "doorway width", None], found["", "doorway height", None] = wall.room.doorway
    if wall.opening is not None:
        found |= {("", name, at): value for name, at, value in _opening(wall)}
    for component in wall.components:
        if component.kind.given:
            continue
        named = {name.replace("_", " ") for name in component.facts}
        for name, fact in component.facts.items():
            found[component.key, name.replace("_", " "), None] = fact
        # An assembly's own words for its sizes come before those of its box.
        for name, axis in (("width", "x"), ("depth", "y"), ("height", "z")):
            if name not in named:
                found[component.key, f"{name}{_OVER_ALL}", None] = component.extent.size(axis)  # type: ignore[arg-type]
    return found


_Measured = tuple[str, Fraction | None, Value]


def _opening(wall: Wall) -> Iterator[_Measured]:
    opening = wall.opening
    assert opening is not None
    yield "opening width", None, opening.extent.size("x")
    yield "opening height", None, opening.extent.size("z")
    yield "sill of the opening above the floor", None, opening.extent.z0
    yield "appliance", None, opening.appliance
    for name, at, value in _copied(opening.manual):
        yield f"{name}, from the listing", at, value
    if opening.masonry is not None:
        around = opening.masonry.extent
        yield "masonry around the firebox, width", None, around.size("x")
        yield "masonry around the firebox, depth", None, around.size("y")
        yield "masonry around the firebox, height", None, around.size("z")


def _copied(manual: Manual) -> Iterator[_Measured]:
    yield "facing above the opening", None, manual.facing_above
    yield "facing beside the opening", None, manual.facing_beside
    yield "side walls", None, manual.side_walls
    yield "ceiling above the opening", None, manual.ceiling
    yield "free in front", None, manual.in_front
    yield "television above the opening", None, manual.television
    for row in manual.mantel:
        yield "above the opening at a projection of {at}", row.projection, row.above
    for what, rows in (("legs", manual.legs), ("side trim", manual.side_trim)):
        for each in rows:
            yield f"{what}, beside the opening at a projection of {{at}}", each.projection, each.beside
    for part in (manual.hearth, manual.service):
        if part is not None:
            for field in fields(part):
                yield f"{type(part).__name__.lower()}, {field.name}", None, getattr(part, field.name)


_PROJECT = (
    "title", "number", "site", "client", "owner", "firm", "drawn", "checked", "approved", "date", "status"
)  # fmt: skip


def _words(wall: Wall) -> Named:
    found: dict[Name, Value] = {("", name, None): getattr(wall.project, name) for name in _PROJECT}
    found["", "sheet size", None] = wall.paper.size
    found["", "sheet orientation", None] = wall.paper.orientation
    found["", "title block", None] = wall.paper.titleblock
    found["", "units", None] = wall.units
    found["", "way of writing dimensions", None] = wall.notation.kind
    found["", PRECISION, None] = wall.grid
    for path, value in (*_flat(wall.settings, ""), *_flat(wall.room.out_of_plumb, "room, out of plumb")):
        found["", path, None] = value
    return found


def _flat(value: object, path: str) -> Iterator[tuple[str, Value]]:
    if is_dataclass(value):
        for field in fields(value):
            name = field.name.replace("_", " ")
            yield from _flat(getattr(value, field.name), f"{path}, {name}" if path else name)
    elif isinstance(value, (Fraction, int)) and not isinstance(value, bool):
        yield path, value
    elif isinstance(value, (tuple, list)):
        yield path, tuple(_one(item) for item in value)
    else:
        yield path, None if value is None else str(value)


def _one(item: object) -> Fraction | str:
    if isinstance(item, Fraction):
        return item
    return " ".join(astuple(item)).strip() if isinstance(item, Waiver) else str(item)
