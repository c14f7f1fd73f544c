"""Changes in the trade's words: grouped by assembly, alike parts counted together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.notation import Notation, format_length
from sheets.model.part import AXES, Axis, Material, Part
from sheets.model.wall import Component, Wall
from sheets.revisions.comparing.changes import (
    Changes,
    ComponentChange,
    PartChange,
    PartKind,
    SizeChange,
    TakeOffLine,
    Value,
)
from sheets.revisions.comparing.sizes import CONTENT, NOTE, PRECISION
from sheets.schedules.cells import joints_text, size_cell
from sheets.schedules.parts import material_text
from sheets.schedules.table import plain

_VERB: dict[PartKind, str] = {
    "added": "added",
    "removed": "removed",
    "resized": "resized",
    "moved": "moved",
    "material": "other material",
    "joints": "joints changed",
    "shape": "cut differently",
    "details": "details changed",
}
_WAYS: dict[Axis, tuple[str, str]] = {
    "x": ("to the right", "to the left"),
    "y": ("out", "back"),
    "z": ("up", "down"),
}


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """One line of the report: what happened, to what (mark and name), how; `count` alike parts together."""

    verb: str
    mark: str
    name: str
    how: str
    count: int
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChangeGroup:
    """What changed in one assembly (or a pair of mirrored ones); the heading is its name."""

    heading: str
    sizes: tuple[str, ...]
    measured: tuple[SizeChange, ...]  # the sizes that these tell, each once
    lines: tuple[ChangeLine, ...]


def groups(changes: Changes, before: Wall, after: Wall) -> tuple[ChangeGroup, ...]:
    """Return the changes by assembly, the room first, in the order of the keys."""
    components = {c.key: c for c in (*before.components, *after.components)}
    notation = after.notation
    hands: dict[str, set[str]] = {}
    for part in (*before.parts, *after.parts):
        hands.setdefault(part.mark, set()).add(part.hand)
    lines: dict[str, dict[tuple[object, ...], ChangeLine]] = {}
    for change in changes.parts:
        home = _original(change.part.assembly, components)
        line = _line(change, notation, handed=len(hands[change.part.mark]) == 1 or not change.part.mark)
        alike = lines.setdefault(home, {})
        key = (line.verb, line.mark, line.name, line.how)
        have = alike.get(key)
        alike[key] = (
            line
            if have is None
            else ChangeLine(
                line.verb, line.mark, line.name, line.how, have.count + 1, (*have.keys, *line.keys)
            )
        )
    sizes: dict[str, list[str]] = {}
    measured: dict[str, list[SizeChange]] = {}
    for size in changes.sizes:
        home, says = _original(size.owner, components), size_line(size, before, after)
        if says not in sizes.setdefault(home, []):
            sizes[home].append(says)
            measured.setdefault(home, []).append(size)
    for component in changes.components:
        home = _original(component.key, components)
        sizes.setdefault(home, []).append(_component_line(component))
    homes = sorted(lines.keys() | sizes.keys(), key=lambda key: key_order(key or "0"))
    return tuple(
        ChangeGroup(
            _heading(home, components),
            tuple(sizes.get(home, ())),
            tuple(measured.get(home, ())),
            tuple(lines.get(home, {}).values()),
        )
        for home in homes
    )


def to_text(
    changes: Changes,
    before: Wall,
    after: Wall,
    names: tuple[str, str] = ("before", "after"),
    retired: Iterable[str] = (),
    sheets: Sequence[str] = (),
) -> str:
    """Return the report for a terminal or a paper. names: what the two sides are called; sheets: a line for
    each that did not stay as it was."""
    out = [f"From {names[0]}", f"to   {names[1]}", ""]
    told = ["SHEETS", *(f"  {line}" for line in sheets), ""] if sheets else []
    if not changes:
        return "\n".join([*out, "Nothing that is built has changed.", *([""] if told else []), *told]) + "\n"
    for group in groups(changes, before, after):
        out.append(group.heading.upper())
        out += [f"  {says}" for says in group.sizes]
        out += [f"  {line_text(line)}" for line in group.lines]
        out.append("")
    if changes.words:
        out += ["ON THE SHEETS", *(f"  {size_line(word, before, after)}" for word in changes.words), ""]
    if changes.slack:
        out += ["THE PRECISION IS ANOTHER: WHAT DIFFERS BY ITS ROUNDING ALONE IS NOT LISTED", ""]
    if changes.take_off:
        out += ["TAKE-OFF, WITHOUT WASTE", *(f"  {take_off_text(line)}" for line in changes.take_off), ""]
    for heading, found in (("FINDINGS GAINED", changes.gained), ("FINDINGS LOST", changes.lost)):
        if found:
            out += [heading, *(f"  {one.severity} ({one.rule}): {one.message}" for one in found), ""]
    if changes.restated:
        out += [
            "FINDINGS WITH OTHER NUMBERS OR PIECES",
            *(f"  {one.after.severity} ({one.after.rule}): {one.after.message}" for one in changes.restated),
            "",
        ]
    gone = tuple(retired)
    if gone:
        out += ["MARKS RETIRED, NOT TO BE USED AGAIN", "  " + ", ".join(gone), ""]
    return "\n".join([*out, *told])


def line_text(line: ChangeLine) -> str:
    """Return one line on a part: `resized: C2 Shelf (4), 3/4" × 12" × 34" to 3/4" × 12" × 36"`."""
    count = f" ({line.count})" if line.count > 1 else ""
    named = f"{line.mark} {line.name}".strip()
    return f"{line.verb}: {named}{count}" + (f", {line.how}" if line.how else "")


def take_off_text(line: TakeOffLine) -> str:
    """Return one line of the take-off before and after; what is the same on both sides is said once."""
    stock = f"{line.material}, {line.stock}" if line.stock else line.material
    places = 4 if line.unit == "M³" else 2 if line.unit == "M²" else 1
    amounts = _to(f"{float(line.before):.{places}f}", f"{float(line.after):.{places}f}")
    pieces = _to(str(line.pieces_before), str(line.pieces_after))
    return f"{stock}: {amounts} {line.unit}, {pieces} piece{'' if pieces == '1' else 's'}"


def _to(was: str, now: str) -> str:
    return now if was == now else f"{was} to {now}"


def value_text(value: Value, notation: Notation) -> str:
    """Return a size, a count, a word or a list of them as it is printed; `none` where there is nothing."""
    if isinstance(value, tuple):
        return ", ".join(value_text(one, notation) for one in value) or "none"
    if value is None:
        return "none"
    return format_length(value, notation).plain if isinstance(value, Fraction) else str(value) or "none"


def size_line(size: SizeChange, before: Wall, after: Wall) -> str:
    """Return one size as a line: `height 7'-0" to 6'-8"`; a note that was corrected from what to what."""
    name = size_name(size, after)
    if name.startswith(CONTENT):
        return f"{name} changed"
    if name == NOTE:
        if size.before is None or size.after is None:
            how = "added" if size.before is None else "removed"
            return f"note {how}: {size.before or size.after}"
        return f"note corrected from “{size.before}” to “{size.after}”"
    # A precision is said as it is written: of another unit it is no size in this one.
    was = value_text(size.before, before.notation if name == PRECISION else after.notation)
    return f"{name} {was} to {value_text(size.after, after.notation)}"


def size_name(size: SizeChange, after: Wall) -> str:
    """Return what a size is called, the length in its name written out."""
    at = "" if size.at is None else format_length(size.at, after.notation).plain
    return size.name.replace("{at}", at)


def _line(change: PartChange, notation: Notation, *, handed: bool) -> ChangeLine:
    part = change.part
    verb = ", ".join(_verb(kind, change) for kind in change.kinds)
    how = "; ".join(says for kind in change.kinds if (says := _how(kind, change, notation)))
    # A mark that both hands share says that they are one piece.
    name = f"{part.name}, {part.hand} hand" if part.hand and handed else part.name
    return ChangeLine(verb, part.mark, name, how, 1, (change.key,))


def _how(kind: PartKind, change: PartChange, notation: Notation) -> str:
    before, after = change.before, change.after
    if before is None or after is None:
        return f"{_size(change.part, notation)}, {material_text(change.part.material)}"
    if kind == "resized":
        return f"{_size(before, notation)} to {_size(after, notation)}"
    if kind == "moved":
        return _shift(before, after, notation)
    if kind == "material":
        return _material_words(before.material, after.material)
    if kind == "joints":
        was, now = (joints_text(side.joints, notation) or "none" for side in (before, after))
        return f"{was} to {now}"
    if kind == "shape" and before.curve != after.curve:
        rises = [value_text(side.curve.rise if side.curve else None, notation) for side in (before, after)]
        return f"rise of its curve {rises[0]} to {rises[1]}" if rises[0] != rises[1] else "its curve changed"
    return ""


def _verb(kind: PartKind, change: PartChange) -> str:
    if kind == "material" and change.before is not None and change.after is not None:
        odd = _material_odds(change.before.material, change.after.material)
        return f"other {odd[0]}" if len(odd) == 1 and odd[0] != "name" else _VERB[kind]
    return _VERB[kind]


def _material_odds(before: Material, after: Material) -> list[str]:
    return [
        name for name in ("name", "face", "cut", "finish") if getattr(before, name) != getattr(after, name)
    ]


def _material_words(before: Material, after: Material) -> str:
    # Only what is another: `finish clear to oil`; of another wood all that it is.
    odd = _material_odds(before, after)
    if "name" in odd or not odd:
        return f"{material_text(before)} to {material_text(after)}"
    said = ((name, getattr(before, name), getattr(after, name)) for name in odd)
    return ", ".join(f"{name} {was or 'none'} to {now or 'none'}" for name, was, now in said)


def _size(part: Part, notation: Notation) -> str:
    return plain(size_cell((part.thickness, part.width, part.length), notation))


def _shift(before: Part, after: Part, notation: Notation) -> str:
    says: list[str] = []
    for axis in AXES:
        (a0, a1), (b0, b1) = before.extent.span(axis), after.extent.span(axis)
        low, high = b0 - a0, b1 - a1
        if low == high and low:
            forth, back = _WAYS[axis]
            says.append(f"{format_length(abs(low), notation).plain} {forth if low > 0 else back}")
    return ", ".join(says)


def _component_line(change: ComponentChange) -> str:
    before, after = change.before, change.after
    if before is None or after is None:
        whole = after or before
        assert whole is not None
        return f"{whole.name} {'added' if before is None else 'removed'}"
    if before.name != after.name:
        return f"{before.name} is called {after.name} now"
    return f"{after.name} {'is no longer' if before.twin else 'is now'} the mirror image of the other side"


def _original(key: str, components: Mapping[str, Component]) -> str:
    component = components.get(key)
    return component.twin if component is not None and component.twin else key


def _heading(key: str, components: Mapping[str, Component]) -> str:
    if not key:
        return "Room and opening"
    own = components.get(key)
    twins = [components[k].name for k in sorted(components) if components[k].twin == key]
    name = own.name if own else key.replace("/", ", ")
    # FLANKING CASE, LEFT and FLANKING CASE, RIGHT are said as FLANKING CASE, LEFT AND RIGHT.
    stem, comma, _ = name.rpartition(", ")
    if len(twins) == 1 and comma and twins[0].startswith(f"{stem}, "):
        return f"{name} AND {twins[0][len(stem) + 2 :]}"
    return " AND ".join([name, *twins])
