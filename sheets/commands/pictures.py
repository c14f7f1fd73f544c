"""Which pictures of each sheet are wanted beside the files of a set."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Picture:
    """A kind of picture. dots_per_inch: of a PNG; an SVG has none."""

    kind: Literal["png", "svg"]
    dots_per_inch: int = 150


Pictures = tuple[Picture, ...]
