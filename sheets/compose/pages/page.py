"""A sheet being filled: which views stand where, and what else is on it. Paper mm."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from sheets.compose.placing.placed import Placed
from sheets.drawing.items import Item
from sheets.geometry.box import Box
from sheets.geometry.path import Point


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet's content. views: each with the paper position of its (0, 0)."""

    number: str
    title: str
    views: tuple[tuple[Placed, Point], ...] = ()
    items: tuple[Item, ...] = ()


def size_of(box: Box) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def sheet_number(kind: int, sequence: int) -> str:
    """Z-101 and the like. Source: US National CAD Standard, sheet identification; Z is shop drawings."""
    return f"Z-{kind}{sequence:02d}"


def in_sequence(kind: int, pages: Iterable[Page]) -> tuple[Page, ...]:
    """The pages numbered through, as those of a kind that come from several places are."""
    return tuple(replace(page, number=sheet_number(kind, k)) for k, page in enumerate(pages, 1))
