"""What of a later wall is what of an earlier one, whatever it is called: an assembly is known by its place
and its build.

A case with another name, or written for each side where one was mirrored, keeps its part marks and its
history. The earlier wall is told as if it had always been called what the later one calls it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from sheets.model.part import AXES, Extent, Part
from sheets.model.wall import Component, Wall

_ENOUGH = 0.75
"""Of two assemblies with different names, the shares of place and of build that agree, added: with less they
are two."""
_WHOLLY = 2.0
_AS_WAS = "-as-was"


@dataclass(frozen=True, slots=True)
class _Side:
    """The assemblies of a wall, the parts of each, and what those are by role and size."""

    assemblies: Mapping[str, Component]
    parts: Mapping[str, tuple[Part, ...]]
    built: Mapping[str, Counter[tuple[object, ...]]]


def new_keys(before: Wall, after: Wall) -> dict[str, str]:
    """Return by earlier key the later key of each assembly and part that is called something else now."""
    then, now = _side(before), _side(after)
    found: dict[str, str] = {}
    for was, key in _same_assemblies(then, now).items():
        if was != key:
            found[was] = key
            found |= _same_parts(then.parts[was], now.parts[key], was, key)
    return found


def called(wall: Wall, names: Mapping[str, str]) -> Wall:
    """Return a wall with its assemblies and parts called by other keys."""

    def name(key: str) -> str:
        if key in names:
            return names[key]
        whole = max((k for k in names if key.startswith(f"{k}/")), key=len, default="")
        return names[whole] + key[len(whole) :] if whole else key

    return replace(
        wall,
        parts=tuple(_part(part, name) for part in wall.parts),
        components=tuple(replace(c, key=name(c.key), twin=name(c.twin)) for c in wall.components),
        stations=tuple(replace(s, owner=name(s.owner)) for s in wall.stations),
        features=tuple(
            replace(f, owner=name(f.owner), subjects=tuple(name(key) for key in f.subjects))
            for f in wall.features
        ),
        cuts=tuple(replace(c, owner=name(c.owner)) for c in wall.cuts),
        leftovers=tuple(replace(one, owner=name(one.owner)) for one in wall.leftovers),
    )


def _part(part: Part, name: Callable[[str], str]) -> Part:
    return replace(
        part,
        key=name(part.key),
        assembly=name(part.assembly),
        joints=tuple(replace(joint, mate=name(joint.mate)) for joint in part.joints),
        does=part.does.renamed(name),
        twin=name(part.twin),
    )


def _side(wall: Wall) -> _Side:
    assemblies = {one.key: one for one in wall.components if not one.kind.given}
    parts: dict[str, list[Part]] = {key: [] for key in assemblies}
    for part in wall.parts:
        if part.assembly in parts:
            parts[part.assembly].append(part)
    built = {key: Counter(map(_build, some)) for key, some in parts.items()}
    return _Side(assemblies, {key: tuple(some) for key, some in parts.items()}, built)


def _same_assemblies(then: _Side, now: _Side) -> dict[str, str]:
    # What stands in one place and is built alike is one; then what has one name; then what agrees most.
    found: dict[str, str] = {}

    def take(was: str, key: str) -> None:
        if was not in found and key not in found.values():
            found[was] = key

    agree = {
        (was, key): _agreement(then, now, was, key)
        for was in then.assemblies
        for key in now.assemblies
        if then.assemblies[was].kind == now.assemblies[key].kind
    }
    for (was, key), share in agree.items():
        if share == _WHOLLY:
            take(was, key)
    for was, key in agree:
        if was == key:
            take(was, key)
    left = sorted(agree.items(), key=lambda one: -one[1])
    for (was, key), share in left:
        if share >= _ENOUGH:
            take(was, key)
    return found


def _agreement(then: _Side, now: _Side, was: str, key: str) -> float:
    one, other = then.built[was], now.built[key]
    whole = one.total() + other.total()
    build = 2 * (one & other).total() / whole if whole else 0.0
    return build + _overlap(then.assemblies[was].extent, now.assemblies[key].extent)


def _build(part: Part) -> tuple[object, ...]:
    return (part.role, part.thickness, part.width, part.length)


def _overlap(one: Extent, other: Extent) -> float:
    common, volumes = 1.0, [1.0, 1.0]
    for axis in AXES:
        (a0, a1), (b0, b1) = one.span(axis), other.span(axis)
        common *= max(0.0, float(min(a1, b1) - max(a0, b0)))
        volumes = [volumes[0] * float(a1 - a0), volumes[1] * float(b1 - b0)]
    both = volumes[0] + volumes[1] - common
    return common / both if both else 0.0


def _same_parts(then: tuple[Part, ...], now: tuple[Part, ...], was: str, key: str) -> dict[str, str]:
    # A piece of one role in one place is one, whatever its number; then what has one name in its assembly.
    found: dict[str, str] = {}
    at = {(part.role, part.extent): part.key for part in now}
    for part in then:
        if (same := at.get((part.role, part.extent))) is not None and same not in found.values():
            found[part.key] = same
    for part in then:
        if part.key not in found:
            called_now = key + part.key[len(was) :]
            found[part.key] = called_now if called_now not in found.values() else called_now + _AS_WAS
    return found
