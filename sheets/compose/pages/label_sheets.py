"""Part labels as a set of their own, on the grid of labels that the spec names. Paper mm."""

from __future__ import annotations

from sheets.base.diagnostics import Diagnostic
from sheets.compose.border.fit import fitted
from sheets.compose.border.paper import sheet_size
from sheets.compose.ink import LEAST_TEXT, width, words
from sheets.compose.page_sizes import BLOCK, LABEL
from sheets.drawing.items import DrawingSet, Item, Run, Sheet, Text
from sheets.geometry.box import Box
from sheets.model.wall import Wall
from sheets.schedules.labels import LabelPlace, label_size, place_labels
from sheets.schedules.settings import shop_settings
from sheets.schedules.shop import ShopSchedules
from sheets.schedules.table import Cell


def label_sheets(wall: Wall, shop: ShopSchedules) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Return a label for every piece, sheet after sheet; what a label has no room for is left out."""
    settings = shop_settings(wall).labels
    size, problems = sheet_size(settings.paper, "portrait")
    project = wall.project
    title = f"{project.title}, part labels"
    if size is None:
        return DrawingSet(title, project.number, project.drawn, project.date, wall.units, ()), problems
    room = label_size(settings, (size.width, size.height))
    if room[0] < LABEL.least[0] or room[1] < LABEL.least[1]:
        return DrawingSet(title, project.number, project.drawn, project.date, wall.units, ()), (
            _no_room(room),
        )
    places = place_labels(shop.labels, settings, (size.width, size.height))
    pages: dict[int, list[Item]] = {}
    for place in places:
        pages.setdefault(place.page, []).extend(_label(place))
    whole = Box(0.0, 0.0, size.width, size.height)
    sheets = tuple(
        Sheet(f"L{page}", "PART LABELS", size.width, size.height, whole, tuple(items))
        for page, items in pages.items()
    )
    return DrawingSet(title, project.number, project.drawn, project.date, wall.units, sheets), problems


def _no_room(room: tuple[float, float]) -> Diagnostic:
    size = " by ".join(f"{max(0.0, side):.1f}" for side in room)
    return Diagnostic(
        "label-too-small",
        "error",
        f"columns, rows, margins and gaps leave {size} mm for a label",
        help=f"A label wants at least {LABEL.least[0]:.0f} by {LABEL.least[1]:.0f} mm.",
        path=("labels",),
    )


def _label(place: LabelPlace) -> list[Item]:
    label = place.label
    left, right = place.x + LABEL.pad, place.x + place.width - LABEL.pad
    top = place.y + place.height - LABEL.pad
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
        if row and y >= place.y + 0.5:
            items += _line(row, left, right, y, label.key)
    return items


def _line(cell: Cell, left: float, right: float, y: float, key: str) -> list[Text]:
    """One line squeezed into its room; words that still do not fit end with the last that does."""
    room = right - left
    if not isinstance(cell, str):
        runs = tuple(Run(run.text, run.numerator, run.denominator) for run in cell)
        squeeze = next((s for s in BLOCK.squeezes if width(runs) * s <= room), BLOCK.squeezes[-1])
        return [words(runs, (left, y), squeeze=squeeze, key=key)]
    text = cell
    while text:
        result = fitted(text, room, LEAST_TEXT, height=LEAST_TEXT)
        if result is not None:
            return [words(text, (left, y), result.height, squeeze=result.squeeze, key=key)]
        text = text.rpartition(" ")[0]
    return []
