"""What a sheet says outside its views, block by block: rows of tables, notes, headings, pictures, the fields
of its title block. Paper mm.

A block is known by its words, wherever it stands: that it moved down a column is no change to what it says.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256

from sheets.base.tolerance import settled
from sheets.compose.border.titleblock import OF_THE_ISSUE
from sheets.compose.pages.record_block import RECORD
from sheets.drawing.items import Group, GroupKind, Item, Sheet, Stroke, Symbol, Text
from sheets.drawing.walk import fields, groups
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Segment, shifted

ALONE: frozenset[GroupKind] = frozenset(("picture", "field"))
"""Kinds that stand by themselves; those of all others follow each other down a table or a column."""
_DIGITS = 12  # of the hash of a picture's lines


@dataclass(frozen=True, slots=True)
class Block:
    """One block. words: what it says, and of a picture what it draws; box: all of it."""

    kind: GroupKind
    words: str
    box: Box


def blocks(sheet: Sheet) -> tuple[Block, ...]:
    """Return the blocks of a sheet, down each table and column.

    The record of revisions and the revision in the title block are left out: that they grew is no change to
    what is built.
    """
    return tuple(_blocks(sheet.items))


def holds_record(sheet: Sheet) -> bool:
    """Return whether the record of revisions stands on a sheet, which then grows with every issue."""
    return any(group.kind == "table" and group.key == RECORD for group in groups(sheet.items))


def _blocks(items: Iterable[Item]) -> Iterator[Block]:
    for item in items:
        if isinstance(item, Symbol) and item.kind == "title block":
            said = (field for field in fields(item) if OF_THE_ISSUE not in field.key)
            yield from (Block("field", f"{field.key}: {field.words}", field.box) for field in said)
        elif isinstance(item, Group) and item.kind != "table":
            words = f"{item.words or 'PICTURE'} #{_drawn(item)}" if item.kind == "picture" else item.words
            yield Block(item.kind, words, item.box)
        elif isinstance(item, Group) and item.key != RECORD:
            yield from _blocks(item.items)


def _drawn(picture: Group) -> str:
    # Its lines and the places of its words, from its corner: wherever it stands it is the same picture.
    to_corner = shifted(-picture.box[0], -picture.box[1])
    lines = sorted(
        _rounded(_numbers(segment.transformed(to_corner))) + item.pen
        for item in picture.items
        if isinstance(item, Stroke)
        for segment in item.path
    )
    places = [_rounded(to_corner(item.at)) for item in picture.items if isinstance(item, Text)]
    return sha256(repr((lines, places)).encode("ascii")).hexdigest()[:_DIGITS]


def _numbers(segment: Segment) -> tuple[float, ...]:
    if isinstance(segment, Arc):
        return (*segment.centre, segment.radius, segment.start, segment.sweep)
    return (*segment.a, *segment.b)


def _rounded(values: Iterable[float]) -> str:
    return ":".join(f"{settled(value, 1):.1f}" for value in values)
