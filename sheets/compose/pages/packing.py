"""Boxes packed on sheets from the upper left: where one fits whole, and how far down a place reaches.
Paper mm."""

from __future__ import annotations

from dataclasses import dataclass, field

from sheets.compose.page_sizes import PAGE
from sheets.geometry.box import Box
from sheets.geometry.path import Point


@dataclass(slots=True)
class Shelf:
    """One sheet's space and the boxes set in it."""

    space: Box
    boxes: list[Box] = field(default_factory=list)

    def spot(self, wide: float, tall: float) -> Point | None:
        """The upper left corner of the first place for a box: highest, then leftmost; None if there is
        none."""
        for x, y in self._corners():
            box = Box(x, y - tall, x + wide, y)
            inside = box[2] <= self.space[2] + PAGE.slack and box[1] >= self.space[1] - PAGE.slack
            if inside and not any(box.meets(b, PAGE.between - PAGE.slack) for b in self.boxes):
                return x, y
        return None

    def deepest(self, wide: float) -> tuple[Point, float] | None:
        """The place for a box of this width that reaches furthest down, and how far; None if there is
        none."""
        best: tuple[Point, float] | None = None
        for x, y in self._corners():
            if x + wide > self.space[2] + PAGE.slack:
                continue
            if self._covers(x, y, wide):
                continue
            clear = PAGE.between - PAGE.slack
            under = [
                b[3] + PAGE.between for b in self.boxes
                if b[3] < y and b[0] < x + wide + clear and b[2] + clear > x
            ]  # fmt: skip
            tall = y - max([self.space[1], *under])
            if tall > 0 and (best is None or tall > best[1] + PAGE.slack):
                best = ((x, y), tall)
        return best

    def take(self, at: Point, wide: float, tall: float) -> None:
        self.boxes.append(Box(at[0], at[1] - tall, at[0] + wide, at[1]))

    def _covers(self, x: float, y: float, wide: float) -> bool:
        line = Box(x, y - 0.5, x + wide, y)
        return any(line.meets(b, PAGE.between - PAGE.slack) for b in self.boxes)

    def _corners(self) -> list[Point]:
        xs = sorted({self.space[0], *(b[2] + PAGE.between for b in self.boxes)})
        ys = sorted({self.space[3], *(b[1] - PAGE.between for b in self.boxes)}, reverse=True)
        return [(x, y) for y in ys for x in xs]
