"""Words that earlier specs were written in, each answered with the word, and the place, that it has now.

Read before the types see the tree, which then go on with the new words: so an old word is told once, at its
line, and does not hide what else is wrong.
"""

from __future__ import annotations

from collections.abc import Iterable
from copy import deepcopy
from dataclasses import dataclass

from sheets.base.diagnostics import Diagnostic, SpecPath, spec_path
from sheets.base.source import Source

Tree = dict[str, object]
_EACH = "*"  # any item of a list


@dataclass(frozen=True, slots=True)
class _Key:
    """A key that has another name now. new: "" when there is none, and `says` tells what to write."""

    at: tuple[str, ...]
    new: str
    says: str


@dataclass(frozen=True, slots=True)
class _Value:
    """A word that is written otherwise now, whatever its capitals and spaces."""

    at: tuple[str, ...]
    old: str
    new: str


_GRID = "Write the label's size and how many there are, as `grid: 70x37-3x8`."

_KEYS = (
    _Key(("checks", "waivers", _EACH, "code"), "rule", "Write `rule: ...` here."),
    _Key(("cases", _EACH, "shelves", "kind"), "", "Shelves are fixed: leave it out."),
    _Key(("cases", _EACH, "backer", "pattern"), "", "A backer is of V-jointed boards: leave it out."),
    _Key(
        ("fasteners", "wall_spacing"),
        "",
        "Studs have one spacing for checks, schedules and notes: write `checks: {stud_spacing: 16}`.",
    ),
    _Key(("labels", "columns"), "", _GRID),
    _Key(("labels", "rows"), "", _GRID),
)

_VALUES = tuple(
    _Value(("project", "status"), old, "released")
    for old in ("for shop", "for the shop", "for construction", "for fabrication")
)


def renewed(tree: Tree, source: Source) -> tuple[Tree, tuple[Diagnostic, ...]]:
    """Return a copy of a spec's tree with its retired words put into new ones, and an error for each."""
    tree = deepcopy(tree)
    found: list[Diagnostic] = []
    for key in _KEYS:
        *holders, old = key.at
        for path, holder in _mappings(tree, holders):
            if old in holder:
                found.append(_key_fault(key, (*path, old), source))
                value = holder.pop(old)
                if key.new:
                    holder.setdefault(key.new, value)
    for word in _VALUES:
        *holders, name = word.at
        for path, holder in _mappings(tree, holders):
            said = holder.get(name)
            if isinstance(said, str) and " ".join(said.lower().split()) == word.old:
                found.append(_value_fault(word, said, (*path, name), source))
                holder[name] = word.new
    return tree, tuple(found)


def _key_fault(key: _Key, path: SpecPath, source: Source) -> Diagnostic:
    now = f"; it is '{key.new}' now" if key.new else " any more"
    message = f"'{path[-1]}' is not a key of {spec_path(path[:-1])}{now}"
    return Diagnostic("retired-word", "error", message, source.key_place(path), key.says, path)


def _value_fault(word: _Value, said: str, path: SpecPath, source: Source) -> Diagnostic:
    message = f"{spec_path(path)}: '{said}' is written '{word.new}' now"
    return Diagnostic(
        "retired-word", "error", message, source.place_of(path), f"Write `{path[-1]}: {word.new}`.", path
    )


def _mappings(tree: Tree, steps: Iterable[str]) -> list[tuple[SpecPath, Tree]]:
    """The mappings of the tree, with their paths, that steps with `*` among them lead to."""
    paths: list[tuple[SpecPath, object]] = [((), tree)]
    for step in steps:
        onward: list[tuple[SpecPath, object]] = []
        for path, value in paths:
            if step == _EACH and isinstance(value, list):
                onward += [((*path, number), item) for number, item in enumerate(value)]
            elif isinstance(value, dict) and step in value:
                onward.append(((*path, step), value[step]))
        paths = onward
    return [(path, value) for path, value in paths if isinstance(value, dict)]
