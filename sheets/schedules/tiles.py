"""Full-size patterns cut up for the user's paper: tiles with overlap, crop and register marks, and a square
to measure.

All lengths are mm. A window is in the pattern's own coordinates; a tile's `shift` takes them to the page.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from sheets.geometry.box import Box
from sheets.geometry.path import Point

MARGIN = 10.0
"""What printers leave unprinted is at most 6 mm or so (common practice)."""
STRIP = 12.0
"""Under each tile: which pattern, which tile."""
BORDER = 15.0
"""Paper left around a pattern within its tiles, so that the outline can be cut out."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page. row from the bottom and column from the left, from 1. marks: register crosses, pattern
    coordinates.
    """

    row: int
    column: int
    window: Box
    shift: Point  # page = pattern + shift
    marks: tuple[Point, ...]
    crops: tuple[Point, ...]  # corners of the window

    @property
    def name(self) -> str:
        """Letter for the column, number for the row: A1 at the lower left."""
        return f"{_letters(self.column)}{self.row}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """The pages of one pattern, row by row from the bottom. Sizes of the page in mm as it lies."""

    page: tuple[float, float]
    rows: int
    columns: int
    tiles: tuple[Tile, ...]


def most_overlap(paper: tuple[float, float]) -> float:
    """Return the widest overlap of tiles that still leaves half of each tile to itself, mm, whichever way the
    paper lies.
    """
    return (min(paper) - 2 * MARGIN - STRIP) / 2


def tile(size: tuple[float, float], paper: tuple[float, float], overlap: float) -> Tiling:
    """Return the pages that a pattern of this size takes, the paper turned the way that needs fewer.

    Raises ValueError when the overlap leaves nothing of the paper.
    """
    turned = (_tiling(size, paper, overlap), _tiling(size, (paper[1], paper[0]), overlap))
    return min(turned, key=lambda tiling: len(tiling.tiles))


def _tiling(size: tuple[float, float], paper: tuple[float, float], overlap: float) -> Tiling:
    room = (paper[0] - 2 * MARGIN, paper[1] - 2 * MARGIN - STRIP)
    step = (room[0] - overlap, room[1] - overlap)
    if min(step) <= 0:
        raise ValueError("the overlap leaves nothing of the paper")
    whole = (size[0] + 2 * BORDER, size[1] + 2 * BORDER)
    columns = max(1, ceil((whole[0] - overlap) / step[0] - 1e-9))
    rows = max(1, ceil((whole[1] - overlap) / step[1] - 1e-9))
    # The pattern stands in the middle of what the tiles cover.
    covered = (columns * step[0] + overlap, rows * step[1] + overlap)
    low = (-(covered[0] - size[0]) / 2, -(covered[1] - size[1]) / 2)
    tiles = []
    for row in range(rows):
        for column in range(columns):
            x, y = low[0] + column * step[0], low[1] + row * step[1]
            window = Box(x, y, x + room[0], y + room[1])
            tiles.append(
                Tile(
                    row + 1,
                    column + 1,
                    window,
                    (MARGIN - x, MARGIN + STRIP - y),
                    _register(window, overlap, (column > 0, row > 0, column < columns - 1, row < rows - 1)),
                    ((x, y), (x + room[0], y), (x + room[0], y + room[1]), (x, y + room[1])),
                )
            )
    return Tiling(paper, rows, columns, tuple(tiles))


def _register(window: Box, overlap: float, shared: tuple[bool, bool, bool, bool]) -> tuple[Point, ...]:
    """Crosses in the middle of each shared strip, two along it: both tiles print them at the same place."""
    x0, y0, x1, y1 = window
    half = overlap / 2
    left, below, right, above = shared
    across = [x for x, there in ((x0 + half, left), (x1 - half, right)) if there]
    up = [y for y, there in ((y0 + half, below), (y1 - half, above)) if there]
    inner_y = (y0 + overlap + (y1 - y0 - 2 * overlap) / 4, y1 - overlap - (y1 - y0 - 2 * overlap) / 4)
    inner_x = (x0 + overlap + (x1 - x0 - 2 * overlap) / 4, x1 - overlap - (x1 - x0 - 2 * overlap) / 4)
    return tuple([(x, y) for x in across for y in inner_y] + [(x, y) for x in inner_x for y in up])


def _letters(number: int) -> str:
    text = ""
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text
