"""A sheet as text: each item one line, in the order drawn, rounded to 0.01 mm. For goldens and for hashes.

Two sheets that look alike have one text; what makes a difference on paper makes one here. So groups are left
out, which draw nothing themselves.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from math import degrees

from sheets.base.tolerance import settled
from sheets.drawing.items import Area, Dimension, Group, Item, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.walk import ungrouped
from sheets.geometry.path import Line, Segment
from sheets.geometry.region import Region

_NOWHERE = (0.0, 0.0)


def dump(sheet: Sheet) -> str:
    """Return the whole sheet as text."""
    head = f"sheet {sheet.number} | {sheet.title} | {_numbers((sheet.width, sheet.height))}"
    lines = [head + (f" | revision {sheet.revision}" if sheet.revision else "")]
    lines.append(f"frame {_numbers(sheet.frame)}")
    lines.extend(_items(sheet.items, ""))
    return "\n".join(lines) + "\n"


def paper_dump(sheet: Sheet) -> str:
    """Return the sheet's text as far as paper shows it.

    Where at full size its views lie is left out: a detail of a mantel that was built lower is the same sheet.
    """
    return dump(replace(sheet, items=tuple(_on_paper(item) for item in sheet.items)))


def sheet_hash(sheet: Sheet) -> str:
    """Return the SHA-256 of what the sheet shows on paper, as hexadecimal digits."""
    return hashlib.sha256(paper_dump(sheet).encode("utf-8")).hexdigest()


def _on_paper(item: Item) -> Item:
    if isinstance(item, Viewport):
        return replace(item, origin=_NOWHERE, items=tuple(map(_on_paper, item.items)))
    if isinstance(item, Group):
        return replace(item, items=tuple(map(_on_paper, item.items)))
    return replace(item, a=_NOWHERE, b=_NOWHERE) if isinstance(item, Dimension) else item


def dump_item(item: Item) -> str:
    """Return one item, and what it holds, as text."""
    return "\n".join(_item(item))


def _items(items: Iterable[Item], indent: str) -> Iterator[str]:
    for item in ungrouped(items):
        yield from (indent + line for line in _item(item))


def _item(item: Item) -> Iterator[str]:
    match item:
        case Stroke():
            closed = "closed" if item.closed else ""
            yield _words(f"stroke {item.pen}", _path(item.path), closed, _key(item.key))
        case Area():
            yield _area(item)
        case Text():
            yield _text(item)
        case Dimension():
            size = f"= {_number(float(item.value))}" + (f" in {item.times}" if item.times > 1 else "")
            yield _words(
                f"dimension {item.kind}",
                _numbers(item.a),
                _numbers(item.b),
                size,
                f"at {_numbers(item.line_at)}",
                f"angle {_number(item.angle)}",
                item.id,
                " ".join(item.parts),
            )
            yield "  " + _text(item.text)
            yield from _items((*item.strokes, *item.heads), "  ")
        case Symbol():
            fields = "; ".join(f"{name}={item.fields[name]}" for name in sorted(item.fields))
            leads = f"to {item.link} {item.target}".rstrip() if item.link or item.target else ""
            yield _words(f"symbol {item.kind}", _numbers(item.at), fields, leads, _key(item.key))
            yield from _items((*item.areas, *item.strokes, *item.texts), "  ")
        case Viewport():
            yield _words(
                f"view {item.id}",
                item.number,
                item.title,
                f"{item.scale_text} ({item.scale})",
                f"origin {_numbers(item.origin)}",
                f"box {_numbers(item.box)}",
            )
            yield from _items(item.items, "  ")
        case Group():
            yield from _items(item.items, "")


def _area(area: Area) -> str:
    look = f"fill {_number(area.fill)}" if area.fill is not None else ""
    if area.hatch:
        turn = f"{_number(area.angle)} {_number(area.pitch)} {_numbers(area.origin)}"
        look = f"{look} hatch {area.hatch} {turn}".strip()
    gaps = "gaps " + " ".join(_numbers(gap) for gap in area.gaps) if area.gaps else ""
    return _words("area", look, "; ".join(_region(r) for r in area.regions), gaps, _key(area.key))


def _text(text: Text) -> str:
    look = f"{_number(text.height)} {text.weight} {text.h} {text.v}"
    if text.angle:
        look += f" angle {_number(text.angle)}"
    if text.squeeze != 1.0:
        look += f" squeeze {_number(text.squeeze)}"
    if text.grey:
        look += f" grey {_number(text.grey)}"
    stacked = "".join(f"[{r.numerator}/{r.denominator}]" if r.denominator else r.text for r in text.runs)
    leads = f"to {text.link}" if text.link else ""
    return _words(f"text {text.pen}", _numbers(text.at), look, f"'{stacked}'", leads, _key(text.key))


def _region(region: Region) -> str:
    return " less ".join(_path(loop.segments) for loop in region.loops)


def _path(path: tuple[Segment, ...]) -> str:
    if not path:
        return "(nothing)"
    words = [_numbers(path[0].first)]
    for segment in path:
        words.append(
            f"> {_numbers(segment.last)}"
            if isinstance(segment, Line)
            else f"arc {_numbers(segment.centre)} r{_number(segment.radius)} "
            f"{_number(degrees(segment.start))} {_number(degrees(segment.sweep))}"
        )
    return " ".join(words)


def _words(*words: str) -> str:
    return " | ".join(word for word in words if word)


def _key(key: str) -> str:
    return f"of {key}" if key else ""


def _numbers(values: Iterable[float]) -> str:
    return ",".join(_number(v) for v in values)


@lru_cache(maxsize=65536)
def _number(value: float) -> str:
    text = f"{settled(value, 2):.2f}".rstrip("0").rstrip(".")
    return text or "0"
