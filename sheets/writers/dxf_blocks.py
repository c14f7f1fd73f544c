"""Symbols as block references with attributes. Alike symbols share one block, drawn at its size on paper."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from sheets.base.notation import Run
from sheets.drawing.dump import dump_item
from sheets.drawing.items import Area, Stroke, Symbol, Text
from sheets.drawing.lettering import settable
from sheets.drawing.pens import Where, style
from sheets.geometry.box import Box
from sheets.geometry.path import Similarity, scaled, shifted
from sheets.writers.dxf_handles import Handles, digest
from sheets.writers.dxf_items import ALIGNMENTS, Space, draw, single_line, text_look
from sheets.writers.dxf_tables import TEXT_STYLES, Tables

_MOST = 0x1000000  # names of blocks end in a number below this
_UNSEEN = 1  # flag of an attribute that is not drawn


@dataclass(slots=True)
class Blocks:
    """The blocks made so far: what each looks like, and its name."""

    tables: Tables
    handles: Handles
    _names: dict[str, str] = field(default_factory=dict)
    _used: set[str] = field(default_factory=set)
    _numbers: set[int] = field(default_factory=set)

    def number(self, what: str) -> int:
        """Return a number that no other thing has, the same for the same thing whatever else is drawn."""
        turn = 0
        while (found := digest(f"{what}\n{turn}", _MOST)) in self._numbers:
            turn += 1
        self._numbers.add(found)
        return found

    def insert(self, space: Space, symbol: Symbol) -> None:
        """Add a symbol to a space as a reference to its block, with its fields as attributes.

        Its dashed lines are left beside the block: programs do not grow dashes with a block.
        """
        dashed = tuple(s for s in symbol.strokes if style(s.pen, space.kind).dash)
        symbol = replace(symbol, strokes=tuple(s for s in symbol.strokes if s not in dashed))
        shape, tagged = _apart(symbol)
        looks = f"{space.kind}\n{dump_item(shape)}\n" + "\n".join(f"{t} {dump_item(x)}" for t, x in tagged)
        name = self._names.get(looks)
        if name is None:
            name = self._names[looks] = self._new(symbol, shape, tagged, space.kind, looks)
        grow = space.place.scale * self.tables.unit
        attributes = self.tables.attributes("symbol", space.kind)
        size = {"xscale": grow, "yscale": grow, "zscale": grow}
        reference = space.layout.add_blockref(name, space.place(symbol.at), dxfattribs=attributes | size)
        by_tag = dict(tagged)
        at_symbol = Space(reference, _after_shift(symbol, space), space.kind, self.tables)
        for tag, value in _tags(symbol).items():
            text = by_tag.get(tag)
            if text is None:
                unseen = {"height": space.length(2.5), "flags": _UNSEEN, "layer": attributes["layer"]}
                reference.add_attrib(tag, settable(value), insert=space.place(symbol.at), dxfattribs=unseen)
            else:
                _attribute(reference.add_attrib, tag, replace(text, runs=(Run(value),)), at_symbol)
        draw(space, dashed)

    def _new(
        self, symbol: Symbol, shape: Symbol, tagged: list[tuple[str, Text]], kind: Where, looks: str
    ) -> str:
        base = re.sub(r"[^A-Z0-9]+", "-", symbol.kind.upper()).strip("-") or "SYMBOL"
        # All but the first are named after their looks: numbered, one more would rename those after it.
        name, turn = base, 0
        while name in self._used:
            name, turn = f"{base}-{digest(f'{looks} {turn}', _MOST):06X}", turn + 1
        self._used.add(name)
        block = self.tables.doc.blocks.new(name)
        space = Space(block, scaled(1 / self.tables.unit), kind, self.tables)
        draw(space, (*shape.areas, *shape.strokes, *shape.texts))
        by_tag = dict(tagged)
        for tag in _tags(symbol):
            if tag in by_tag:
                _attribute(block.add_attdef, tag, replace(by_tag[tag], runs=(Run(tag),)), space)
            else:
                look = {"height": space.length(2.5), "flags": _UNSEEN}
                block.add_attdef(tag, insert=(0.0, 0.0), text="", dxfattribs=look)
        return name


def _apart(symbol: Symbol) -> tuple[Symbol, list[tuple[str, Text]]]:
    # The symbol about its own origin without the texts that show a field, and those texts by tag.
    back = shifted(-symbol.at[0], -symbol.at[1])
    open_fields = _tags(symbol)
    tagged: list[tuple[str, Text]] = []
    fixed: list[Text] = []
    for text in symbol.texts:
        moved = replace(text, at=back(text.at), key="", link="")
        tag = next((t for t, value in open_fields.items() if value and value == text.plain), "")
        if tag and not any(run.denominator for run in text.runs):
            del open_fields[tag]
            tagged.append((tag, replace(moved, runs=())))
        else:
            fixed.append(moved)
    shape = Symbol(
        symbol.kind, (0.0, 0.0), tuple(_moved_stroke(s, back) for s in symbol.strokes),
        tuple(_moved_area(a, back) for a in symbol.areas), tuple(fixed),
    )
    return shape, tagged


def _moved_stroke(stroke: Stroke, by: Similarity) -> Stroke:
    return replace(stroke, path=tuple(s.transformed(by) for s in stroke.path), key="")


def _moved_area(area: Area, by: Similarity) -> Area:
    gaps = tuple(Box(*by((x0, y0)), *by((x1, y1))) for x0, y0, x1, y1 in area.gaps)
    regions = tuple(region.transformed(by) for region in area.regions)
    return replace(area, regions=regions, origin=by(area.origin), gaps=gaps, key="")


def _after_shift(symbol: Symbol, space: Space) -> Similarity:
    return shifted(*symbol.at).then(space.place)


def _attribute(add: Any, tag: str, text: Text, space: Space) -> None:
    look = space.tables.attributes(text.pen, space.kind) | text_look(space, text)
    look["style"] = TEXT_STYLES[text.weight]
    at = space.place(text.at)
    entity = add(tag, text=single_line(text), insert=at, dxfattribs=look)
    entity.set_placement(at, align=ALIGNMENTS[text.h, text.v])


def _tags(symbol: Symbol) -> dict[str, str]:
    # A tag holds no space; fields in order of name.
    return {
        re.sub(r"[^A-Z0-9]+", "_", name.upper()).strip("_") or "FIELD": symbol.fields[name]
        for name in sorted(symbol.fields)
    }
