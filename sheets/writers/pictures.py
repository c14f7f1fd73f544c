"""The pictures of sheets that are asked for beside the files of a set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sheets.drawing.items import DrawingSet, Sheet

LEAST_DPI, MOST_DPI = 20, 1200
"""Of a PNG: fewer dots show nothing, more fill the memory."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A kind of picture. dots_per_inch: of a PNG; an SVG has none."""

    kind: Literal["png", "svg"]
    dots_per_inch: int = 150


Pictures = tuple[Picture, ...]


def picture_files(drawing: DrawingSet, stem: str, picture: Picture) -> Iterator[tuple[str, bytes]]:
    """Yield a picture of each sheet of a set: the name of its file, and what is in it."""
    for sheet in drawing.sheets:
        yield f"{stem}-{sheet.number}.{picture.kind}", _drawn(sheet, picture)


def _drawn(sheet: Sheet, picture: Picture) -> bytes:
    if picture.kind == "svg":
        from sheets.writers.svg import svg

        return svg(sheet)
    from sheets.writers.raster import png

    return png(sheet, picture.dots_per_inch)
