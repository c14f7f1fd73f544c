"""Pages put on paper: border, title block with what the sheet carries, references filled in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sheets.base.diagnostics import Diagnostic
from sheets.compose.border import border
from sheets.compose.border.paper import SheetSize, sheet_size
from sheets.compose.border.titleblock import BlockLayout, TitleBlock
from sheets.compose.border.titleblock_file import load
from sheets.compose.draft import Draft
from sheets.compose.page_sizes import LEAST_ROOM
from sheets.compose.pages.page import Page, size_of
from sheets.compose.pages.references import Where, numbered, resolved, sources
from sheets.compose.placing.placed import viewport
from sheets.drawing.items import DrawingSet, Group, Item, Sheet, Symbol, Text, Viewport
from sheets.geometry.box import Box
from sheets.model.wall import Revision, Wall

Sheets = tuple[tuple[Sheet, ...], tuple[Diagnostic, ...]]


@dataclass(frozen=True, slots=True)
class Paper:
    """The paper of a set: its size, and the layout that its title block has on it."""

    size: SheetSize
    block: TitleBlock
    layout: BlockLayout

    @property
    def drawing(self) -> Box:
        """What is inside the frame, beside the title block; paper mm."""
        return border.drawing_space(self.size, self.layout)

    @property
    def space(self) -> Box:
        """Where views and tables may stand; paper mm."""
        return border.view_space(self.size, self.layout)


def paper_of(wall: Wall, folder: Path | None) -> tuple[Paper | None, tuple[Diagnostic, ...]]:
    """Return the paper that a wall asks for, None when there is none such, and what was found.

    folder: where a title block given by a relative path is looked for.
    """
    size, problems = sheet_size(wall.paper.size, wall.paper.orientation)
    block, more = load(wall.paper.titleblock, folder)
    problems = (*_said_of("size", problems), *_said_of("titleblock", more))
    if size is None or block is None:
        return None, problems
    layout = block.layout_for(size.frame[2] - size.frame[0], size.frame[3] - size.frame[1])
    if layout is None:
        message = f"title block '{block.name}' has no layout for a sheet of size {size.name}"
        unfit = Diagnostic("titleblock-too-large", "error", message, path=("sheet", "titleblock"))
        return None, (*problems, unfit)
    paper = Paper(size, block, layout)
    if min(size_of(paper.space)) < LEAST_ROOM:
        return None, (*problems, _too_deep(block, layout, size))
    return paper, problems


def _said_of(word: str, found: Sequence[Diagnostic]) -> tuple[Diagnostic, ...]:
    return tuple(replace(d, path=("sheet", word)) for d in found)


def _too_deep(block: TitleBlock, layout: BlockLayout, size: SheetSize) -> Diagnostic:
    across = size.frame[2] - size.frame[0] if layout.edge == "right" else size.frame[3] - size.frame[1]
    return Diagnostic(
        "titleblock-too-large",
        "error",
        f"title block '{block.name}' is {layout.depth:g} mm deep at the {layout.edge}: of the "
        f"{across:.0f} mm that a sheet of size {size.name} has there, that leaves no room for drawings",
        help="Lessen the `depth` of its layout, or choose a larger sheet.",
        path=("sheet", "titleblock"),
    )



def as_set(wall: Wall, sheets: tuple[Sheet, ...]) -> DrawingSet:
    """Return sheets as the set of a wall; none, where it cannot be drawn."""
    p = wall.project
    return DrawingSet(p.title, p.number, p.drawn, p.date, wall.units, sheets)


def on_sheets(
    pages: Sequence[Page],
    wall: Wall,
    paper: Paper,
    revision_of: Mapping[str, str] | None = None,
    draft: Draft | None = None,
) -> Sheets:
    """Return pages as finished sheets, and what did not fit in their title blocks.

    revision_of: the revision each sheet carries, by its number; None: all carry the latest. draft: what of
    the set was not issued so.
    """
    size, layout = paper.size, paper.layout
    places, back = numbered(pages), sources(pages)
    sheets: list[Sheet] = []
    found: list[Diagnostic] = []
    numbers = frozenset(page.number for page in pages)
    latest = wall.revisions[-1].number if wall.revisions else ""
    for page in pages:
        revision = latest if revision_of is None else revision_of.get(page.number, "")
        views, problems = _views(page, places, back)
        values = _values(wall, page, views, size, revision)
        if draft is not None and revision == draft.number:
            block, unfitting = draft_block(size, layout, values, wall.revisions, draft)
        else:
            block, unfitting = border.title_block(size, layout, values, _rows_to(wall, revision))
        found += [*problems, *(d for d in unfitting if d not in found)]
        written = (_leading(item, numbers - {page.number}) for item in page.items)
        items: tuple[Item, ...] = (*border.border(size, layout), block, *written, *views)
        sheets.append(Sheet(page.number, page.title, size.width, size.height, paper.drawing, items, revision))
    return tuple(sheets), tuple(found)


def draft_block(
    size: SheetSize,
    layout: BlockLayout,
    values: Mapping[str, str],
    revisions: Sequence[Revision],
    draft: Draft,
) -> tuple[Symbol, tuple[Diagnostic, ...]]:
    """Return the title block of a sheet that is not as it was issued, in the fullest words that it holds."""
    rows = (*revisions, draft.row)
    *fuller, shortest = (border.title_block(size, layout, {**values, **said}, rows) for said in draft.fields)
    return next((made for made in fuller if not made[1]), shortest)


def _leading(item: Item, numbers: frozenset[str]) -> Item:
    # The number of another sheet, in the index or in a schedule, leads there.
    if isinstance(item, Group):
        return replace(item, items=tuple(_leading(held, numbers) for held in item.items))
    return replace(item, link=item.plain) if isinstance(item, Text) and item.plain in numbers else item


def _views(
    page: Page, places: dict[str, Where], back: dict[str, str]
) -> tuple[tuple[Viewport, ...], tuple[Diagnostic, ...]]:
    views: list[Viewport] = []
    found: list[Diagnostic] = []
    for placed, at in page.views:
        view, problems = resolved(viewport(placed, at, places[placed.annotated.view.id].number), places, back)
        views.append(view)
        found += problems
    return tuple(views), tuple(found)


def _rows_to(wall: Wall, revision: str) -> tuple[Revision, ...]:
    # A sheet that later revisions left alone keeps its block as it was: it tells of no later void either.
    numbers = [row.number for row in wall.revisions]
    if revision not in numbers:
        return ()
    later = numbers[numbers.index(revision) :]
    return tuple(
        replace(row, void=None) if row.void is not None and row.void.after in later else row
        for row in wall.revisions[: numbers.index(revision) + 1]
    )


def _values(
    wall: Wall, page: Page, views: Sequence[Viewport], size: SheetSize, revision: str
) -> dict[str, str]:
    p = wall.project
    measured = [v.scale_text for v in views if not v.id.startswith("axonometric")]
    scale = "" if not measured else measured[0] if len(set(measured)) == 1 else "AS NOTED"
    return {
        "project.title": p.title.upper(),
        "project.number": p.number,
        "project.site": p.site.upper(),
        "project.client": p.client.upper(),
        "project.owner": (p.owner or p.firm).upper(),
        "project.firm": p.firm.upper(),
        "project.drawn": p.drawn,
        "project.checked": p.checked,
        "project.approved": p.approved,
        "project.date": p.date,
        "project.status": p.status.upper(),
        "sheet.number": page.number,
        "sheet.title": page.title,
        "sheet.scale": scale,
        "sheet.size": size.name.upper(),
        "sheet.revision": revision,
        "set.units": wall.units,
        "set.language": "EN",
    }
