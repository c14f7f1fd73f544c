"""Changes as plain values for JSON: sizes as numbers, what was and what is."""

from __future__ import annotations

from fractions import Fraction

from sheets.model.part import AXES, Part
from sheets.model.wall import Wall
from sheets.revisions.comparing.change_words import groups, size_name
from sheets.revisions.comparing.changes import Changes, SizeChange, Value
from sheets.schedules.parts import material_text


def to_json(changes: Changes, before: Wall, after: Wall) -> dict[str, object]:
    """Return the changes as plain values for JSON: lengths in mm as exact fractions and as decimals."""
    return {
        "groups": [
            {
                "assembly": group.heading,
                "says": list(group.sizes),
                "sizes": [_size_json(size, after) for size in group.measured],
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
        "sizes": [_size_json(size, after) for size in changes.sizes],
        "words": [_size_json(word, after) for word in changes.words],
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
                "fastening": j.held,
                "glued_mm": _exact(j.glued),
            }
            for j in part.joints
        ],
    }


def _size_json(size: SizeChange, after: Wall) -> dict[str, object]:
    values = (size.before, size.after)
    length = any(isinstance(value, Fraction) for value in values)
    length = length or any(isinstance(one, Fraction) for v in values if isinstance(v, tuple) for one in v)
    return {
        "owner": size.owner,
        "what": size_name(size, after),
        "from": _exact(size.before),
        "to": _exact(size.after),
        "unit": "mm" if length else "",
    }


def _exact(value: Value) -> object:
    # A length as a number; one that no decimal says exactly as the text of its fraction.
    if isinstance(value, tuple):
        return [_exact(one) for one in value]
    if not isinstance(value, Fraction):
        return value
    decimal = float(value)
    return decimal if Fraction(repr(decimal)) == value else f"{value.numerator}/{value.denominator}"
