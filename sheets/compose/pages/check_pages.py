"""The checks on sheets: small pictures first, then the findings, then every number with its limit. Paper
mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from sheets.checks.finding import Figure, RuleReport
from sheets.checks.reports.sheet_tables import check_tables, figures
from sheets.compose.ink import LEAST_TEXT, bounds, boxes_of, moved, picture, polyline, width, words
from sheets.compose.page_sizes import CUTTING, PAGE
from sheets.compose.pages.page import Page, sheet_number, size_of
from sheets.compose.pages.tables import lettered, table_pages
from sheets.drawing.items import Group, Item
from sheets.drawing.walk import group
from sheets.geometry.box import Box

_KIND = 7  # a type that the US National CAD Standard leaves to the user


def check_pages(reports: Sequence[RuleReport], space: Box, *, inch: bool) -> tuple[Page, ...]:
    """Return the sheets of the checks; none when no rule was run."""
    if not reports:
        return ()
    drawn = figures(tuple(reports))
    pictures = _pictures(drawn, space)
    tables = check_tables(tuple(reports))
    above = pictures[-1] if pictures else ()
    taken = (bounds(above),) if above else ()
    set_on = partial(table_pages, tables, space, inch=inch, kind=_KIND, title="CHECKS", in_order=True)
    pages = set_on(first_taken=taken)
    if len(pictures) == 1 and not pages[0].items:
        # No table begins under the pictures: they go beside the first one if there is room.
        without = set_on()
        beside = _beside(drawn, without[0].items, space)
        above, pages = (beside, without) if beside else (above, pages)
    pages = (replace(pages[0], items=(*above, *pages[0].items)), *pages[1:])
    alone = [Page("", "CHECKS", (), items) for items in pictures[:-1]]
    return tuple(replace(page, number=sheet_number(_KIND, k)) for k, page in enumerate((*alone, *pages), 1))


def _beside(pictures: Sequence[Figure], others: Sequence[Item], space: Box) -> tuple[Item, ...]:
    # The pictures one under the other at the right of a sheet; none if what is there is in the way.
    wide = max(max(p.width, width(p.title.upper(), PAGE.picture_title, "bold")) for p in pictures)
    columns = _pictures(pictures, space._replace(x0=space.x1 - wide))
    taken = [box for item in others for box in boxes_of(item)]
    free = len(columns) == 1 and not any(bounds(columns[0]).meets(box, PAGE.picture_gap) for box in taken)
    return columns[0] if free else ()


def _pictures(pictures: Sequence[Figure], space: Box) -> tuple[tuple[Item, ...], ...]:
    # Sheet by sheet in rows from the upper left, each row as tall as its tallest.
    sheets: list[list[Item]] = []
    x, top, foot = space[0], space[3], space[3]
    for nominal in pictures:
        figure = _fitted(nominal, size_of(space))
        title = figure.title.upper()
        wide = max(figure.width, width(title, PAGE.picture_title, "bold"))
        tall = figure.height + PAGE.picture_title + PAGE.picture_under
        if x > space[0] and x + wide > space[2]:
            x, top = space[0], foot
        if not sheets or top - tall < space[1] - CUTTING.slack:
            sheets.append([])
            x, top, foot = space[0], space[3], space[3]
        heading = words(title, (x, top - PAGE.picture_title), height=PAGE.picture_title, weight="bold")
        sheets[-1].append(group("heading", title, title, (heading,)))
        sheets[-1].append(moved(_drawn(figure), x, top - tall))
        x += wide + PAGE.picture_gap
        foot = min(foot, top - tall - PAGE.picture_gap)
    return tuple(tuple(items) for items in sheets)


def _fitted(picture: Figure, room: tuple[float, float]) -> Figure:
    # Smaller where the sheet is; the lettering keeps its size.
    by = min(
        1.0, room[0] / picture.width, (room[1] - PAGE.picture_title - PAGE.picture_under) / picture.height
    )
    if by == 1.0:
        return picture
    lines = tuple(
        replace(line, points=tuple((x * by, y * by) for x, y in line.points)) for line in picture.lines
    )
    texts = tuple(replace(text, at=(text.at[0] * by, text.at[1] * by)) for text in picture.texts)
    return Figure(picture.title, picture.width * by, picture.height * by, lines, texts)


def _drawn(figure: Figure) -> Group:
    lines = (polyline(line.points, line.pen) for line in figure.lines)
    said = (words(lettered(text.text), text.at, height=LEAST_TEXT, h="centre") for text in figure.texts)
    return picture(figure.title, (*lines, *said))
