"""Changes in the trade's words: grouped by assembly, alike parts counted together. As text, as JSON, as one
line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.notation import Notation, format_length
from sheets.model.part import AXES, Axis, Part
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
_LONGEST_SUMMARY = 240
_VERBS_FIRST = ("added", "removed", "other material")


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
    for size in changes.sizes:
        home, says = _original(size.owner, components), _size_line(size, notation)
        if says not in sizes.setdefault(home, []):
            sizes[home].append(says)
    for component in changes.components:
        home = _original(component.key, components)
        sizes.setdefault(home, []).append(_component_line(component))
    homes = sorted(lines.keys() | sizes.keys(), key=lambda key: key_order(key or "0"))
    return tuple(
        ChangeGroup(
            _heading(home, components), tuple(sizes.get(home, ())), tuple(lines.get(home, {}).values())
        )
        for home in homes
    )


def to_text(
    changes: Changes,
    before: Wall,
    after: Wall,
    names: tuple[str, str] = ("before", "after"),
    retired: Iterable[str] = (),
) -> str:
    """Return the report for a terminal or a paper. names: what the two sides are called."""
    out = [f"From {names[0]}", f"to   {names[1]}", ""]
    if not changes:
        return "\n".join([*out, "Nothing that is built has changed."]) + "\n"
    for group in groups(changes, before, after):
        out.append(group.heading.upper())
        out += [f"  {says}" for says in group.sizes]
        out += [f"  {line_text(line)}" for line in group.lines]
        out.append("")
    if changes.words:
        out += ["ON THE SHEETS", *(f"  {_size_line(word, after.notation)}" for word in changes.words), ""]
    if changes.take_off:
        out += ["TAKE-OFF, WITHOUT WASTE", *(f"  {take_off_text(line)}" for line in changes.take_off), ""]
    for heading, found in (("FINDINGS GAINED", changes.gained), ("FINDINGS LOST", changes.lost)):
        if found:
            out += [heading, *(f"  {one.severity} ({one.rule}): {one.message}" for one in found), ""]
    if changes.restated:
        out += [
            "FINDINGS WITH OTHER NUMBERS",
            *(f"  {one.after.severity} ({one.after.rule}): {one.after.message}" for one in changes.restated),
            "",
        ]
    gone = tuple(retired)
    if gone:
        out += ["MARKS RETIRED, NOT TO BE USED AGAIN", "  " + ", ".join(gone), ""]
    return "\n".join(out)


def line_text(line: ChangeLine) -> str:
    """Return one line on a part: `resized: C2 Shelf (4), 3/4" × 12" × 34" to 3/4" × 12" × 36"`."""
    count = f" ({line.count})" if line.count > 1 else ""
    named = f"{line.mark} {line.name}".strip()
    return f"{line.verb}: {named}{count}" + (f", {line.how}" if line.how else "")


def take_off_text(line: TakeOffLine) -> str:
    """Return one line of the take-off before and after."""
    stock = f"{line.material}, {line.stock}" if line.stock else line.material
    places = 4 if line.unit == "M³" else 2 if line.unit == "M²" else 1
    amounts = f"{float(line.before):.{places}f} to {float(line.after):.{places}f} {line.unit}"
    return f"{stock}: {amounts}, {line.pieces_before} to {line.pieces_after} pieces"


def summary(changes: Changes, before: Wall, after: Wall) -> str:
    """Return the changes as one line, for a revision row: by assembly its sizes, else what was done to its
    parts.

    Only what the shop makes, and the sizes that the spec gives: what others make follows from these.
    """
    shop = {change.key for change in changes.parts if change.part.maker == "shop"}
    says: list[str] = []
    for group in groups(changes, before, after):
        lines = [line for line in group.lines if shop & set(line.keys)]
        first = [line for line in lines if line.verb.split(",")[0] in _VERBS_FIRST]
        parts = [f"{_some(line)} {line.verb}" for line in (first if group.sizes else first or lines[:2])]
        told = [*group.sizes, *dict.fromkeys(parts)]
        if told:
            says.append(f"{_title_case(group.heading)}: {', '.join(told)}")
    says = (
        says or [_size_line(word, after.notation) for word in changes.words] or ["No change to what is built"]
    )
    whole = "; ".join(says)
    if len(whole) <= _LONGEST_SUMMARY:
        return whole
    return whole[: _LONGEST_SUMMARY - 2].rsplit(" ", 1)[0].rstrip(",;:") + " …"


def _some(line: ChangeLine) -> str:
    name = f"{line.name.lower()} {line.mark}".strip()
    return name if line.count == 1 else f"{line.count} {name}"


def _title_case(heading: str) -> str:
    return heading[:1].upper() + heading[1:].lower()


def to_json(changes: Changes, before: Wall, after: Wall) -> dict[str, object]:
    """Return the changes as plain values for JSON: lengths in mm as exact fractions and as decimals."""
    return {
        "groups": [
            {
                "assembly": group.heading,
                "sizes": list(group.sizes),
                "parts": [
                    {
                        "change": line.verb,
                        "mark": line.mark,
                        "name": line.name,
                        "how": line.how,
                        "count": line.count,
                        "keys": list(line.keys),
                    }
                    for line in group.lines
                ],
            }
            for group in groups(changes, before, after)
        ],
        "parts": [
            {
                "key": c.key,
                "kinds": list(c.kinds),
                "before": _part_json(c.before),
                "after": _part_json(c.after),
            }
            for c in changes.parts
        ],
        "sizes": [_size_json(size) for size in changes.sizes],
        "words": [_size_json(word) for word in changes.words],
        "findings": {
            name: [
                {"rule": f.rule, "severity": f.severity, "message": f.message, "subjects": list(f.subjects)}
                for f in found
            ]
            for name, found in (
                ("gained", changes.gained),
                ("lost", changes.lost),
                ("with_other_numbers", tuple(r.after for r in changes.restated)),
            )
        },
        "take_off": [
            {
                "material": t.material,
                "stock": t.stock,
                "unit": t.unit,
                "before": {"pieces": t.pieces_before, "amount": round(float(t.before), 4)},
                "after": {"pieces": t.pieces_after, "amount": round(float(t.after), 4)},
            }
            for t in changes.take_off
        ],
    }


def value_text(value: Value, notation: Notation) -> str:
    """Return a size, a count or a word as it is printed; `none` where there is nothing."""
    if value is None:
        return "none"
    return format_length(value, notation).plain if isinstance(value, Fraction) else str(value) or "none"


def _line(change: PartChange, notation: Notation, *, handed: bool) -> ChangeLine:
    part = change.part
    verb = ", ".join(_VERB[kind] for kind in change.kinds)
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
        return f"{material_text(before.material)} to {material_text(after.material)}"
    if kind == "joints":
        was, now = (joints_text(side.joints, notation) or "none" for side in (before, after))
        return f"{was} to {now}"
    if kind == "shape" and before.curve != after.curve:
        rises = [value_text(side.curve.rise if side.curve else None, notation) for side in (before, after)]
        return f"rise of its curve {rises[0]} to {rises[1]}" if rises[0] != rises[1] else "its curve changed"
    return ""


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


def _size_line(size: SizeChange, notation: Notation) -> str:
    if size.name.startswith("note: "):
        return f"{size.name} ({'added' if size.before is None else 'removed'})"
    return f"{size.name} {value_text(size.before, notation)} to {value_text(size.after, notation)}"


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


def _part_json(part: Part | None) -> dict[str, object] | None:
    if part is None:
        return None
    sizes = {"thickness": part.thickness, "width": part.width, "length": part.length}
    box = {f"{axis}{end}": part.extent.span(axis)[end] for axis in AXES for end in (0, 1)}
    return {
        "name": part.name,
        "mark": part.mark,
        "assembly": part.assembly,
        "hand": part.hand,
        "material": material_text(part.material),
        "size_mm": {name: _exact(value) for name, value in sizes.items()},
        "box_mm": {name: _exact(value) for name, value in box.items()},
        "joints": [
            {
                "kind": j.kind,
                "mate": j.mate,
                "width_mm": _exact(j.width),
                "depth_mm": _exact(j.depth),
                "count": j.count,
                "fastening": j.fastening,
            }
            for j in part.joints
        ],
    }


def _size_json(size: SizeChange) -> dict[str, object]:
    return {
        "owner": size.owner,
        "name": size.name,
        "before": _exact(size.before),
        "after": _exact(size.after),
    }


def _exact(value: Value) -> object:
    # A whole or a decimal length as a number; one that no decimal says as the text of its fraction.
    if not isinstance(value, Fraction):
        return value
    decimal = float(value)
    return decimal if Fraction(repr(decimal)) == value else f"{value.numerator}/{value.denominator}"
