"""Numbers of views and sheets, and the marks that name them, both ways: to the view, and back to where it
was cut.

Found once, after the views have their sheets. Marks have one size whatever they say, so nothing moves.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from sheets.base.diagnostics import Diagnostic
from sheets.compose.pages.page import Page
from sheets.compose.placing.mark_symbols import named
from sheets.drawing.items import DrawingSet, Item, Symbol, Viewport
from sheets.drawing.walk import ungrouped


@dataclass(frozen=True, slots=True)
class Where:
    """A view's number and the sheet it is on."""

    number: str
    sheet: str


def numbered(pages: Sequence[Page]) -> dict[str, Where]:
    """Each view's number, counted on its sheet in order of reading, and its sheet."""
    found: dict[str, Where] = {}
    for page in pages:
        for k, (placed, _) in enumerate(page.views, 1):
            found[placed.annotated.view.id] = Where(str(k), page.number)
    return found


def sources(pages: Sequence[Page]) -> dict[str, str]:
    """For each view, the first sheet that carries a mark leading to it."""
    found: dict[str, str] = {}
    for page in pages:
        for placed, _ in page.views:
            # Where a view goes on is told at its match line; it was not cut from there.
            for target in targets(i for i in placed.items if getattr(i, "kind", "") != "match mark"):
                found.setdefault(target, page.number)
    return found


def marks_on(pages: Sequence[Page]) -> dict[str, str]:
    """For each part's mark, the sheet to look at: that of its own drawing, else the first
    that details it, else the first that shows it."""
    return _sheet_of_mark(
        (page.number, placed.annotated.view.id, placed.items) for page in pages for placed, _ in page.views
    )


def marks_in(drawing: DrawingSet) -> dict[str, str]:
    """The same of a finished set."""
    return _sheet_of_mark(
        (sheet.number, view.id, view.items)
        for sheet in drawing.sheets
        for view in sheet.items
        if isinstance(view, Viewport)
    )


def _sheet_of_mark(views: Iterable[tuple[str, str, Sequence[Item]]]) -> dict[str, str]:
    pieces: dict[str, str] = {}
    details: dict[str, str] = {}
    others: dict[str, str] = {}
    for sheet, view, items in views:
        found = pieces if view.startswith("part/") else details if view.startswith("detail/") else others
        for item in ungrouped(items):
            if isinstance(item, Symbol) and item.kind == "part balloon":
                found.setdefault(item.fields["mark"], sheet)
    return others | details | pieces


def targets(items: Iterable[Item]) -> list[str]:
    """Ids of the views that the marks among some items lead to, in order."""
    return [i.target for i in items if isinstance(i, Symbol) and i.target]


def resolved(
    view: Viewport, places: Mapping[str, Where], back: Mapping[str, str]
) -> tuple[Viewport, tuple[Diagnostic, ...]]:
    """The view with number and sheet written in its title and its marks; a mark that leads nowhere is
    left out."""
    items: list[Item] = []
    found: list[Diagnostic] = []
    lost = {i.target for i in view.items if isinstance(i, Symbol) and i.target and i.target not in places}
    for item in view.items:
        if isinstance(item, Symbol) and item.kind == "view title":
            source = back.get(view.id, "")
            items.append(named(item, view.number, source if source != places[view.id].sheet else ""))
        elif isinstance(item, Symbol) and item.target:
            if item.target in places:
                items.append(named(item, places[item.target].number, places[item.target].sheet))
        elif getattr(item, "key", "") not in lost:
            items.append(item)
    for target in sorted(lost):
        found.append(
            Diagnostic(
                "mark-without-view", "warning", f"{view.title.lower()} marks {target}, which is not drawn"
            )
        )
    return replace(view, items=tuple(items)), tuple(found)
