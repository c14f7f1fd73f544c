"""Title blocks: what one is, the ones that are shipped, and which layout of one suits a sheet.

A block is split `down` or `across` into cells; every length is mm on paper. See `titleblocks/*.yaml`;
`titleblock_file.py` reads them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

FIELDS: tuple[str, ...] = (
    "project.title",
    "project.number",
    "project.site",
    "project.client",
    "project.owner",
    "project.firm",
    "project.drawn",
    "project.checked",
    "project.approved",
    "project.date",
    "project.status",
    "sheet.number",
    "sheet.title",
    "sheet.scale",
    "sheet.size",
    "sheet.revision",
    "set.units",
    "set.language",
)
"""What a cell may print, as {project.title}. How many sheets there are is said on the index alone, so that
one more changes no other."""

OF_THE_ISSUE = "{sheet.revision}"
"""What is printed from this, and every row of revisions, is said of the issue and not of what is built."""

SHIPPED: tuple[str, ...] = ("architect-strip", "iso-7200", "shop-small")
_NAMED = re.compile(r"\{([^{}]*)\}")


def named_fields(template: str) -> tuple[str, ...]:
    """Return what stands between braces in the text of a cell, in its order."""
    return tuple(_NAMED.findall(template))


def filled(template: str, values: Mapping[str, str]) -> str:
    """Return the text of a cell with each {name} replaced by its value, which is not read again."""
    return _NAMED.sub(lambda found: values.get(found[1], found[0]), template)


@dataclass(frozen=True, slots=True)
class BlockCell:
    """One box of a title block. field: what it prints, with {names}; height: of capitals, mm; least: the
    smallest it may shrink to; lines: how many it may break into."""

    size: float | None  # None: shares what is left
    kind: str = "text"
    label: str = ""
    field: str = ""  # its text, or {names} of FIELDS
    height: float = 2.5
    least: float = 2.5
    lines: int = 1
    weight: Literal["regular", "bold"] = "regular"
    align: str = "left"


@dataclass(frozen=True, slots=True)
class Split:
    """A box divided down (top to bottom) or across (left to right)."""

    size: float | None
    way: Literal["down", "across"]
    parts: tuple[BlockCell | Split, ...]


@dataclass(frozen=True, slots=True)
class BlockLayout:
    """How a block lies on sheets whose frame is at least this wide and high, mm."""

    needs_width: float
    needs_height: float
    edge: Literal["right", "bottom"]
    depth: float
    body: BlockCell | Split


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """A title block with its layouts, the first that suits a sheet being used."""

    name: str
    layouts: tuple[BlockLayout, ...]

    def layout_for(self, width: float, height: float) -> BlockLayout | None:
        """The layout for a frame of this size, mm; None if the block is too large for it."""
        return next((b for b in self.layouts if width >= b.needs_width and height >= b.needs_height), None)
