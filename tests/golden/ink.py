"""Two pictures of one sheet held against each other by their ink."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import maximum_filter

from sheets.geometry.box import Box
from tests.golden.pictures import MM

INKED = 245  # darker than this is ink: a quarter of a dot of the lightest line is
SURE = 215  # what is missing in the other picture counts from here on: not the paling edge of a wide line
TILE = 5.0  # mm



@dataclass(frozen=True)
class Unlike:
    """How far two pictures differ. only_first, only_second: the share of one's ink with none of the other's
    near by; worst: such a share of a tile's pixels; place: the tile's lower left corner, paper mm."""

    only_first: float
    only_second: float
    worst: float
    place: tuple[float, float]

    def __str__(self) -> str:
        return (
            f"{self.only_first:.2%} and {self.only_second:.2%} of the ink, "
            f"{self.worst:.0%} of the tile at {self.place[0]:.0f}, {self.place[1]:.0f} mm"
        )


def unlike(
    first: np.ndarray, second: np.ndarray, *, dots: int, near: float, but: Iterable[Box] = ()
) -> Unlike:
    """Compare ink. near: mm, up and across, within which ink is the same; but: boxes left out, paper mm."""
    first, second = _same_size(first, second)
    counted = ~boxes_mask(first.shape, but, dots)
    a, b = first < INKED, second < INKED
    reach = 1 + 2 * round(near / MM * dots)
    lone_a = (first < SURE) & counted & ~maximum_filter(b, size=reach)
    lone_b = (second < SURE) & counted & ~maximum_filter(a, size=reach)
    tile = round(TILE / MM * dots)
    shares = _tiles(lone_a | lone_b, tile)
    row, column = np.unravel_index(int(shares.argmax()), shares.shape)
    place = (column * tile * MM / dots, (first.shape[0] - (row + 1) * tile) * MM / dots)
    return Unlike(_share(lone_a, a & counted), _share(lone_b, b & counted), float(shares.max()), place)


def inked(picture: np.ndarray, box: Box, dots: int) -> float:
    """The share of a box, paper mm, that is ink."""
    rows, columns = _slices(picture.shape, box, dots)
    part = picture[rows, columns]
    return float((part < INKED).mean()) if part.size else 0.0


def boxes_mask(shape: tuple[int, ...], boxes: Iterable[Box], dots: int) -> np.ndarray:
    """True where a box is."""
    mask = np.zeros(shape, dtype=bool)
    for box in boxes:
        mask[_slices(shape, box, dots)] = True
    return mask


def _slices(shape: tuple[int, ...], box: Box, dots: int) -> tuple[slice, slice]:
    x0, y0, x1, y1 = (v / MM * dots for v in box)
    high = shape[0]
    return (
        slice(max(0, int(high - y1)), max(0, int(np.ceil(high - y0)))),
        slice(max(0, int(x0)), max(0, int(np.ceil(x1)))),
    )


def _same_size(first: np.ndarray, second: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    # A renderer rounds the paper to whole pixels up or down; more than that is another paper.
    gap = max(abs(first.shape[k] - second.shape[k]) for k in (0, 1))
    if gap > 1:
        raise ValueError(f"pictures of different papers: {first.shape} and {second.shape}")
    rows, columns = (min(first.shape[k], second.shape[k]) for k in (0, 1))
    # The paper's corner at zero is the lower left one.
    return first[-rows:, :columns], second[-rows:, :columns]


def _tiles(mask: np.ndarray, size: int) -> np.ndarray:
    rows, columns = (-(-n // size) for n in mask.shape)
    # What is short at the lower edge and the right is filled up with no ink.
    full = np.zeros((rows * size, columns * size), dtype=bool)
    full[: mask.shape[0], : mask.shape[1]] = mask
    return full.reshape(rows, size, columns, size).mean(axis=(1, 3))


def _share(part: np.ndarray, whole: np.ndarray) -> float:
    return float(part.sum() / max(1, whole.sum()))
