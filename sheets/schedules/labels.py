"""Part labels: one for each piece, with what tells it apart, in the order of the schedule, on a grid of
labels.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.notation import Notation, NotationKind, format_length
from sheets.model.settings import Labels
from sheets.model.wall import Wall
from sheets.schedules.cells import size_cell
from sheets.schedules.parts import PartsSchedule
from sheets.schedules.table import Cell


@dataclass(frozen=True, slots=True)
class Label:
    """What one label says. `piece`: which of those alike, as 2 of 8."""

    key: str
    mark: str
    name: str
    piece: str
    size: Cell
    material: str
    assembly: str
    shows: str


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """Where a label is printed: page from 1, box in paper mm from the page's lower left corner."""

    page: int
    x: float
    y: float
    width: float
    height: float
    label: Label


def part_labels(schedule: PartsSchedule, wall: Wall) -> tuple[Label, ...]:
    """Return a label for every piece of the schedule, each with the assembly that it goes into."""
    names = {component.key: component.name for component in wall.components}
    parts = {part.key: part for part in wall.parts}
    return tuple(
        Label(
            key,
            row.mark,
            row.title,
            f"{number} of {row.quantity}" if row.quantity > 1 else "",
            size_cell((row.thickness, row.width, row.length), wall.notation),
            row.material_text,
            names.get(parts[key].assembly, parts[key].assembly),
            "shows: " + ", ".join(parts[key].shows) if parts[key].shows else "",
        )
        for row in schedule.rows
        for number, key in enumerate(row.keys, 1)
    )


def grid_name(settings: Labels, notation: Notation) -> str:
    """Return what the labels are called by: size and count, as 70x37-3x8 or 2-5/8x1-3x10."""
    kind: NotationKind = "mm" if notation.kind == "mm" else "inches"
    shown = Notation(kind, notation.grid)
    sides = (format_length(side, shown).plain for side in (settings.grid.width, settings.grid.height))
    size = "x".join(side.rstrip('"').replace(" ", "-") for side in sides)
    return f"{size}-{settings.grid.columns}x{settings.grid.rows}"


def label_margins(settings: Labels, paper: tuple[float, float]) -> tuple[float, float, float, float]:
    """Return what is left of the paper round the labels, mm: left, top, right, bottom; below 0 where they
    pass it. paper: width and height, mm.
    """
    across = settings.grid.columns * settings.grid.width + (settings.grid.columns - 1) * settings.gap
    down = settings.grid.rows * settings.grid.height + (settings.grid.rows - 1) * settings.row_gap
    left, right = _shares(paper[0] - float(across), settings.side_margin)
    top, bottom = _shares(paper[1] - float(down), settings.top_margin)
    return left, top, right, bottom


def _shares(rest: float, margin: Fraction | None) -> tuple[float, float]:
    first = rest / 2 if margin is None else float(margin)
    return first, rest - first


def place_labels(
    labels: tuple[Label, ...], settings: Labels, paper: tuple[float, float]
) -> tuple[LabelPlace, ...]:
    """Return the labels on their grid, row by row from the top. paper: width and height of an upright page,
    mm.
    """
    left, top, _, _ = label_margins(settings, paper)
    wide, tall = float(settings.grid.width), float(settings.grid.height)
    gap, row_gap = float(settings.gap), float(settings.row_gap)
    places = []
    for number, label in enumerate(labels):
        page, on_page = divmod(number, settings.grid.columns * settings.grid.rows)
        row, column = divmod(on_page, settings.grid.columns)
        x = left + column * (wide + gap)
        y = paper[1] - top - (row + 1) * tall - row * row_gap
        places.append(LabelPlace(page + 1, x, y, wide, tall, label))
    return tuple(places)
