"""Part labels as a set of their own, on the grid of labels that the spec names. Paper mm."""

from __future__ import annotations

from dataclasses import replace

from sheets.base.diagnostics import Diagnostic
from sheets.compose.border.fit import SQUEEZES, fitted
from sheets.compose.border.paper import sheet_size
from sheets.compose.ink import LEAST_TEXT, width, words
from sheets.drawing.items import DrawingSet, Item, Run, Sheet, Text
from sheets.geometry.path import Box
from sheets.model.wall import Wall
from sheets.schedules.labels import LabelPlace, grid_name, label_margins, place_labels
from sheets.schedules.settings import LabelSettings, shop_settings
from sheets.schedules.shop import ShopSchedules
from sheets.schedules.table import Cell

_PAD = 1.5
_FLOOR = 0.5
_MARK = 4.5
_LEADING = 3.7
_LEAST = (25.0, 10.0)
"""A smaller label does not hold a mark and a size that can be read, mm."""
_EDGE = 6.0
"""What a printer leaves blank along the edges of the paper, mm (common practice: 4 to 6)."""
_SLACK = 0.01  # mm that a label may pass the paper by: sizes in inches on a sheet in millimetres


def label_sheets(wall: Wall, shop: ShopSchedules) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Return a label for every piece, sheet after sheet; what a label has no room for is left out."""
    settings = shop_settings(wall).labels
    size, problems = sheet_size(settings.paper, "portrait")
    project = wall.project
    name = grid_name(settings, wall.notation)
    empty = DrawingSet(
        f"{project.title}, part labels {name}", project.number, project.drawn, project.date, wall.units, ()
    )
    if size is None:
        return empty, problems
    paper = (size.width, size.height)
    if settings.width < _LEAST[0] or settings.height < _LEAST[1]:
        return empty, (_no_room(settings),)
    if min(label_margins(settings, paper)) < -_SLACK:
        return empty, (_off_paper(name, settings, paper),)
    pages: dict[int, list[Item]] = {}
    for place in place_labels(shop.labels, settings, paper):
        pages.setdefault(place.page, []).extend(_label(place, _printable(place, paper)))
    whole = (0.0, 0.0, *paper)
    sheets = tuple(
        Sheet(f"L{page}", f"PART LABELS {name}", *paper, whole, tuple(items)) for page, items in pages.items()
    )
    return replace(empty, sheets=sheets), problems


def _no_room(settings: LabelSettings) -> Diagnostic:
    size = " by ".join(f"{float(side):.1f}" for side in (settings.width, settings.height))
    return Diagnostic(
        "label-too-small",
        "error",
        f"a label of {size} mm does not hold a mark and a size",
        help=f"A label wants at least {_LEAST[0]:.0f} by {_LEAST[1]:.0f} mm.",
        path=("labels", "grid"),
    )


def _off_paper(name: str, settings: LabelSettings, paper: tuple[float, float]) -> Diagnostic:
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
    return (
        max(place.x + _PAD, _EDGE),
        max(place.y + _FLOOR, _EDGE),
        min(place.x + place.width - _PAD, paper[0] - _EDGE),
        min(place.y + place.height - _PAD, paper[1] - _EDGE),
    )


def _label(place: LabelPlace, room: Box) -> list[Item]:
    label = place.label
    left, bottom, right, top = room
    items: list[Item] = [words(label.mark, (left, top - _MARK), _MARK, weight="bold", key=label.key)]
    beside = left + width(label.mark, _MARK, "bold") + 3.0
    if label.piece:
        items.append(words(label.piece.upper(), (right, top - _MARK), h="right", key=label.key))
    end = right - (width(label.piece.upper()) + 3.0 if label.piece else 0.0)
    items += _line(label.name.upper(), beside, end, top - _MARK, label.key)
    y, under = top - _MARK, 0.0
    rows: list[Cell] = [label.size, label.assembly.upper(), label.material.upper(), label.shows.upper()]
    for row in rows:
        more = 0.0 if isinstance(row, str) else 1.0  # stacked fractions stand out above and below
        y, under = y - _LEADING - under - more, more
        if row and y >= bottom:
            items += _line(row, left, right, y, label.key)
    return items


def _line(cell: Cell, left: float, right: float, y: float, key: str) -> list[Text]:
    """One line squeezed into its room; words that still do not fit end with the last that does."""
    room = right - left
    if not isinstance(cell, str):
        runs = tuple(Run(run.text, run.numerator, run.denominator) for run in cell)
        squeeze = next((s for s in SQUEEZES if width(runs) * s <= room), SQUEEZES[-1])
        return [words(runs, (left, y), squeeze=squeeze, key=key)]
    text = cell
    while text:
        result = fitted(text, room, LEAST_TEXT, height=LEAST_TEXT)
        if result is not None:
            return [words(text, (left, y), result.height, squeeze=result.squeeze, key=key)]
        text = text.rpartition(" ")[0]
    return []
