"""Part labels: one for each piece, with what tells it apart, in the order of the schedule, on a grid of
labels.
"""

from __future__ import annotations

from dataclasses import dataclass

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


def label_size(settings: Labels, paper: tuple[float, float]) -> tuple[float, float]:
    """Return width and height of a label, mm; not above 0 when the grid leaves no room for one."""
    width = paper[0] - 2 * float(settings.side_margin) - (settings.columns - 1) * float(settings.gap)
    height = paper[1] - 2 * float(settings.top_margin) - (settings.rows - 1) * float(settings.row_gap)
    return width / settings.columns, height / settings.rows


def place_labels(
    labels: tuple[Label, ...], settings: Labels, paper: tuple[float, float]
) -> tuple[LabelPlace, ...]:
    """Return the labels on their grid, row by row from the top. paper: width and height of an upright page,
    mm.
    """
    height = paper[1]
    side, top = float(settings.side_margin), float(settings.top_margin)
    gap, row_gap = float(settings.gap), float(settings.row_gap)
    wide, tall = label_size(settings, paper)
    places = []
    for number, label in enumerate(labels):
        page, on_page = divmod(number, settings.columns * settings.rows)
        row, column = divmod(on_page, settings.columns)
        x = side + column * (wide + gap)
        y = height - top - (row + 1) * tall - row * row_gap
        places.append(LabelPlace(page + 1, x, y, wide, tall, label))
    return tuple(places)
