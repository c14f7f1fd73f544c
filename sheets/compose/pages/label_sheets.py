"""Part labels as a set of their own, on the grid of labels that the spec names. Paper mm."""

from __future__ import annotations

from dataclasses import replace

from sheets.base.diagnostics import Diagnostic
from sheets.compose.border.fit import fitted
from sheets.compose.border.paper import sheet_size
from sheets.compose.ink import LEAST_TEXT, width, words
from sheets.compose.page_sizes import BLOCK, LABEL
from sheets.drawing.items import DrawingSet, Item, Sheet, Text
from sheets.geometry.box import Box
from sheets.model.settings import Labels
from sheets.model.wall import Wall
from sheets.schedules.all_schedules import ShopSchedules
from sheets.schedules.labels import LabelPlace, grid_name, label_margins, place_labels
from sheets.schedules.table import Cell


def label_sheets(wall: Wall, shop: ShopSchedules) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Return a label for every piece, sheet after sheet; what a label has no room for is left out."""
    settings = wall.settings.labels
    size, problems = sheet_size(settings.paper, "portrait")
    project = wall.project
    name = grid_name(settings, wall.notation)
    empty = DrawingSet(
        f"{project.title}, part labels {name}", project.number, project.drawn, project.date, wall.units, ()
    )
    if size is None:
        return empty, problems
    paper = (size.width, size.height)
    if settings.grid.width < LABEL.least[0] or settings.grid.height < LABEL.least[1]:
        return empty, (_no_room(settings),)
    if min(label_margins(settings, paper)) < -LABEL.slack:
        return empty, (_off_paper(name, settings, paper),)
    pages: dict[int, list[Item]] = {}
    for place in place_labels(shop.labels, settings, paper):
        pages.setdefault(place.page, []).extend(_label(place, _printable(place, paper)))
    whole = Box(0.0, 0.0, *paper)
    sheets = tuple(
        Sheet(f"L{page}", f"PART LABELS {name}", *paper, whole, tuple(items)) for page, items in pages.items()
    )
    return replace(empty, sheets=sheets), problems


def _no_room(settings: Labels) -> Diagnostic:
    size = " by ".join(f"{float(side):.1f}" for side in (settings.grid.width, settings.grid.height))
    return Diagnostic(
        "label-too-small",
        "error",
        f"a label of {size} mm does not hold a mark and a size",
        help=f"A label wants at least {LABEL.least[0]:.0f} by {LABEL.least[1]:.0f} mm.",
        path=("labels", "grid"),
    )


def _off_paper(name: str, settings: Labels, paper: tuple[float, float]) -> Diagnostic:
    over = -min(label_margins(settings, paper))
    return Diagnostic(
        "labels-off-paper",
        "error",
        f"labels of {name} pass the edge of {settings.paper} by {over:.1f} mm",
        help=f"The paper is {paper[0]:.1f} by {paper[1]:.1f} mm, gaps and margins counted.",
        path=("labels", "grid"),
    )


def _printable(place: LabelPlace, paper: tuple[float, float]) -> Box:
    """The box of a label that is written in: clear of its edges, and of what no printer reaches."""
    return Box(
        max(place.x + LABEL.pad, LABEL.printer),
        max(place.y + LABEL.floor, LABEL.printer),
        min(place.x + place.width - LABEL.pad, paper[0] - LABEL.printer),
        min(place.y + place.height - LABEL.pad, paper[1] - LABEL.printer),
    )


def _label(place: LabelPlace, room: Box) -> list[Item]:
    label = place.label
    left, bottom, right, top = room
    items: list[Item] = [
        words(label.mark, (left, top - LABEL.mark), LABEL.mark, weight="bold", key=label.key)
    ]
    beside = left + width(label.mark, LABEL.mark, "bold") + LABEL.beside
    if label.piece:
        items.append(words(label.piece.upper(), (right, top - LABEL.mark), h="right", key=label.key))
    end = right - (width(label.piece.upper()) + LABEL.beside if label.piece else 0.0)
    items += _line(label.name.upper(), beside, end, top - LABEL.mark, label.key)
    y, under = top - LABEL.mark, 0.0
    rows: list[Cell] = [label.size, label.assembly.upper(), label.material.upper(), label.shows.upper()]
    for row in rows:
        more = 0.0 if isinstance(row, str) else 1.0  # stacked fractions stand out above and below
        y, under = y - LABEL.leading - under - more, more
        if row and y >= bottom:
            items += _line(row, left, right, y, label.key)
    return items


def _line(cell: Cell, left: float, right: float, y: float, key: str) -> list[Text]:
    """One line squeezed into its room; words that still do not fit end with the last that does."""
    room = right - left
    if not isinstance(cell, str):
        squeeze = next((s for s in BLOCK.squeezes if width(cell) * s <= room), BLOCK.squeezes[-1])
        return [words(cell, (left, y), squeeze=squeeze, key=key)]
    text = cell
    while text:
        result = fitted(text, room, LEAST_TEXT, height=LEAST_TEXT)
        if result is not None:
            return [words(text, (left, y), result.height, squeeze=result.squeeze, key=key)]
        text = text.rpartition(" ")[0]
    return []
