"""Part marks: what the shop calls a piece. Alike pieces share one; marks are kept from issue to issue.

A mark is the letter of the component's kind and a number. Two pieces are alike when name, material, sizes,
joints and shape are the same; a piece and its mirror image are alike only when turning one over gives the
other. A mark that was given in an earlier issue is never given to another piece.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from itertools import groupby
from math import floor

from sheets.base.keys import key_order
from sheets.geometry.path import Arc, Segment
from sheets.geometry.solid import Solid, bounds
from sheets.model.part import Joint, Part
from sheets.model.wall import Wall

_STEP = 1e-3  # mm: far finer than any cut, far coarser than float noise
_OFF_STEP = 0.3137  # sizes lie on neat fractions, so steps are counted from where none lies on a border
_TURNS = ((1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1))
"""Half turns about the axes: what can be done to a piece without changing it."""

Likeness = tuple[object, ...]


def marks_of(
    parts: Iterable[Part], letter_of: Callable[[str], str], kept: Mapping[str, str] | None = None
) -> dict[str, str]:
    """Return the mark of each shop part by its key.

    letter_of: the letter of the component that a key belongs to. kept: marks by key of all earlier issues,
    those of parts that are gone included. A group of alike parts keeps the mark that most of its parts
    had; when a group has split, the larger share keeps it and the others get a new one.
    """
    earlier = dict(kept or {})
    shop = sorted((p for p in parts if p.maker == "shop"), key=lambda p: key_order(p.key))
    groups: dict[Likeness, list[str]] = {}
    for part in shop:
        groups.setdefault(likeness(part), []).append(part.key)
    given = _kept_marks(groups, letter_of, earlier)
    last = _last_numbers(earlier.values())
    for like, keys in groups.items():
        if like not in given:
            letter = letter_of(keys[0])
            last[letter] = last.get(letter, 0) + 1
            given[like] = f"{letter}{last[letter]}"
    return {key: given[like] for like, keys in groups.items() for key in keys}


def marked(wall: Wall, kept: Mapping[str, str] | None = None) -> Wall:
    """Return the wall with a mark on every shop part."""
    marks = marks_of(wall.parts, lambda key: letter_of(wall, key), kept)
    return replace(wall, parts=tuple(replace(p, mark=marks.get(p.key, "")) for p in wall.parts))


def letter_of(wall: Wall, key: str) -> str:
    """Return the letter of the component that a key belongs to; of its own first step when it names none."""
    owner = wall.component_of(key)
    return owner.kind.letter if owner is not None and owner.kind.letter else key[:1].upper()


def likeness(part: Part) -> Likeness:
    """Return what two parts must have in common to be alike; it can be compared and hashed."""
    joints = tuple(sorted(_joint(joint) for joint in part.joints))
    sizes = (part.thickness, part.width, part.length, part.bend)
    return (
        part.key.split("/", 1)[0],
        part.name,
        part.material.key,
        sizes,
        joints,
        shape(part.solid, part.thickness_axis, part.width_axis),
    )


def is_own_mirror(part: Part) -> bool:
    """Return whether the left-hand piece serves on the right: its mirror image is itself, turned over if
    need be."""
    return min(_turned(part.solid, turn) for turn in _TURNS) == min(
        _turned(part.solid, (-turn[0], turn[1], turn[2])) for turn in _TURNS
    )


def shape(solid: Solid, *lies: str) -> tuple[object, ...]:
    """Return the shape of a solid wherever it stands and whichever way it is turned over.

    lies: what else tells pieces apart that are turned by a quarter, such as the axis of the thickness;
    left out for plain blocks, whose sizes say all.
    """
    if is_block(solid):
        return ("block",)
    return (solid.axis, *lies, min(_turned(solid, turn) for turn in _TURNS))


def is_block(solid: Solid) -> bool:
    """Return whether a solid is its plain box."""
    only = solid.slabs[0].regions
    plain = len(solid.slabs) == 1 and len(only) == 1 and not only[0].holes
    return plain and _is_block(only[0].outer.segments)


def _kept_marks(
    groups: Mapping[Likeness, list[str]], letter_of: Callable[[str], str], earlier: Mapping[str, str]
) -> dict[Likeness, str]:
    claims: list[tuple[int, int, str, Likeness]] = []
    for place, (like, keys) in enumerate(groups.items()):
        for mark, same in groupby(sorted(earlier[key] for key in keys if key in earlier)):
            # A part that moved to another assembly cannot keep a letter that says where it was.
            if mark[:1] == letter_of(keys[0]):
                claims.append((-len(list(same)), place, mark, like))
    given: dict[Likeness, str] = {}
    taken: set[str] = set()
    for _, _, mark, like in sorted(claims, key=lambda claim: claim[:3]):
        if like not in given and mark not in taken:
            given[like] = mark
            taken.add(mark)
    return given


def _last_numbers(marks: Iterable[str]) -> dict[str, int]:
    last: dict[str, int] = {}
    for mark in marks:
        letter, number = mark[:1], mark[1:]
        if number.isdigit():
            last[letter] = max(last.get(letter, 0), int(number))
    return last


def _joint(joint: Joint) -> tuple[str, str, str, int, str, str]:
    sizes = (str(joint.width), str(joint.depth))
    return (joint.kind, *sizes, joint.count, joint.held, str(joint.glued))


def _is_block(segments: tuple[Segment, ...]) -> bool:
    if len(segments) != 4 or any(isinstance(s, Arc) for s in segments):
        return False
    return all(s.first[0] == s.last[0] or s.first[1] == s.last[1] for s in segments)


def _turned(solid: Solid, turn: tuple[int, int, int]) -> tuple[object, ...]:
    """The solid moved to its least corner and turned by signs of x, y, z, as whole steps in one order."""
    box = bounds(solid)
    middles = [(box[2 * k] + box[2 * k + 1]) / 2 for k in range(3)]
    s = "xyz".index(solid.axis)
    p, q = (k for k in range(3) if k != s)

    def along(value: float) -> int:
        return _steps(turn[s] * (value - middles[s]))

    def spot(point: tuple[float, float]) -> tuple[int, int]:
        return (_steps(turn[p] * (point[0] - middles[p])), _steps(turn[q] * (point[1] - middles[q])))

    slabs = []
    for slab in solid.slabs:
        segments = []
        for region in slab.regions:
            for loop in region.loops:
                for segment in loop.segments:
                    ends = sorted((spot(segment.first), spot(segment.last)))
                    bend = spot(segment.point(0.5))
                    segments.append((*ends, bend))
        low, high = sorted((along(slab.lo), along(slab.hi)))
        slabs.append((low, high, tuple(sorted(segments))))
    return tuple(sorted(slabs))


def _steps(value: float) -> int:
    return floor(value / _STEP + _OFF_STEP)
