"""Annotated views and tables in, the finished set out: scales, sheets, numbers, title blocks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from pathlib import Path

from sheets.annotate.intent import Annotated
from sheets.base.beside import beside
from sheets.base.diagnostics import Diagnostic, SpecPath, has_errors
from sheets.checks.finding import RuleReport
from sheets.compose.border import border
from sheets.compose.border.paper import SheetSize, sheet_size
from sheets.compose.border.titleblock import BlockLayout, TitleBlock
from sheets.compose.border.titleblock_file import load
from sheets.compose.draft import Draft
from sheets.compose.page_sizes import LEAST_ROOM
from sheets.compose.pages.arrange import orthographic
from sheets.compose.pages.check_pages import check_pages
from sheets.compose.pages.cutting_pages import cutting_pages
from sheets.compose.pages.details import detail_pages
from sheets.compose.pages.general import general_pages
from sheets.compose.pages.page import Page, in_sequence, size_of
from sheets.compose.pages.pattern_pages import pattern_pages
from sheets.compose.pages.references import Where, marks_on, numbered, resolved, sources
from sheets.compose.pages.tables import table_pages
from sheets.compose.pages.too_large import too_large
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.manner import Manner, manner
from sheets.compose.placing.placed import viewport
from sheets.drawing.items import DrawingSet, Group, Item, Sheet, Symbol, Text, Viewport
from sheets.drawing.lettering import missing
from sheets.drawing.walk import said
from sheets.geometry.box import Box
from sheets.model.wall import Revision, Wall
from sheets.schedules.diagrams import Diagram
from sheets.schedules.patterns import Pattern
from sheets.schedules.table import TableData

Tables = Callable[[Mapping[str, str]], Sequence[TableData]]
"""Tables as they stand once the sheet of each mark is known."""
_Lead = Callable[[Wall, Mapping[str, str] | None], tuple[Page, ...]]
_Sheets = tuple[tuple[Sheet, ...], tuple[Diagnostic, ...]]


@dataclass(frozen=True, slots=True)
class Content:
    """What goes on the sheets of a set, in their order."""

    annotated: tuple[Annotated, ...]
    tables: Tables
    diagrams: tuple[Diagram, ...]
    patterns: tuple[Pattern, ...]
    reports: tuple[RuleReport, ...]


def compose(
    annotated: Sequence[Annotated],
    wall: Wall,
    *,
    tables: Tables = lambda _: (),
    diagrams: Sequence[Diagram] = (),
    patterns: Sequence[Pattern] = (),
    reports: Sequence[RuleReport] = (),
    folder: Path | None = None,
    revision_of: Mapping[str, str] | None = None,
    draft: Draft | None = None,
) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Return the drawing set and what was found in making it.

    diagrams: of the cutting plans. patterns: of the shaped pieces. reports: of the checks. Each has sheets of
    its own after the schedules. folder: where a title block given by a relative path is looked for.
    revision_of: the revision each sheet carries, by its number; None: all carry the latest. draft: what of
    the set was not issued so. With an error among the diagnostics the set has no sheets.
    """
    size, problems = sheet_size(wall.paper.size, wall.paper.orientation)
    block, more = load(wall.paper.titleblock, folder)
    problems = (*_said_of("size", problems), *_said_of("titleblock", more))
    if size is None or block is None:
        return _empty(wall), problems
    layout = block.layout_for(size.frame[2] - size.frame[0], size.frame[3] - size.frame[1])
    if layout is None:
        message = f"title block '{block.name}' has no layout for a sheet of size {size.name}"
        return _empty(wall), (
            *problems,
            Diagnostic("titleblock-too-large", "error", message, path=("sheet", "titleblock")),
        )
    drawing = border.drawing_space(size, layout)
    space = border.view_space(size, layout)
    if min(size_of(space)) < LEAST_ROOM:
        return _empty(wall), (*problems, _too_deep(block, layout, size))
    content = Content(tuple(annotated), tables, tuple(diagrams), tuple(patterns), tuple(reports))
    drawn = manner(wall.units, wall.notation, max(size.width, size.height))
    pages, lead, found = _pages(content, wall, space, block, drawn)
    if has_errors(found):
        # A view that fits no sheet: what else its absence leaves open is no news.
        return _empty(wall), (*problems, *found)

    def sheets_of(carried: Mapping[str, str] | None, draft: Draft | None = None) -> _Sheets:
        said = wall if draft is None else draft.on_the_first(wall, (carried or {}).values())
        return _sheets((*lead(said, carried), *pages), wall, size, layout, drawing, carried, draft)

    sheets, blocks = sheets_of(revision_of if draft is None else {})
    if draft is not None:
        carried = _carried(sheets, wall, revision_of, draft)
        sheets, blocks = sheets_of(carried, draft)
    problems = (*problems, *found, *blocks, *unlettered(wall))
    return (_empty(wall) if has_errors(problems) else _set(wall, sheets)), problems


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


def _carried(
    sheets: Sequence[Sheet], wall: Wall, revision_of: Mapping[str, str] | None, draft: Draft
) -> dict[str, str]:
    latest = wall.revisions[-1].number if wall.revisions else ""
    issued = {sheet.number: latest for sheet in sheets} if revision_of is None else revision_of
    return {**issued, **dict.fromkeys(draft.unlike(sheets), draft.number)}


def _said_of(word: str, found: Sequence[Diagnostic]) -> tuple[Diagnostic, ...]:
    return tuple(replace(d, path=("sheet", word)) for d in found)


def _pages(
    content: Content,
    wall: Wall,
    space: Box,
    block: TitleBlock,
    how: Manner,
) -> tuple[tuple[Page, ...], _Lead, tuple[Diagnostic, ...]]:
    # The pages, and those that lead them: their index says which revision each sheet carries.
    annotated = content.annotated
    elsewhere = {b.mark for v in annotated if v.view.kind in ("section", "detail") for b in v.balloons}
    fitter = Fitter(how, frozenset(elsewhere))
    inch = wall.units == "inch"
    # Details take as long as all else, and neither needs to know of the other.
    detailed = beside(lambda: detail_pages([v for v in annotated if v.view.kind == "detail"], fitter, space))
    drawn, unplaced = orthographic(annotated, fitter, space)
    cutting = cutting_pages(content.diagrams, space, wall.units)
    shaped = pattern_pages(content.patterns, wall.notation, space, wall.units)
    checked = check_pages(content.reports, space, inch=inch)
    details, more = detailed()
    found = [too_large(v, fitter, wall.paper, block, size_of(space)) for v in (*unplaced, *more)]
    pages = (*drawn, *details)
    schedules = table_pages(content.tables(marks_on(pages)), space, inch=inch)
    pages = (*pages, *in_sequence(6, (*schedules, *cutting, *shaped)), *checked)
    picture = next((v for v in annotated if v.view.kind == "axonometric"), None)
    words = _said(pages)

    def lead(wall: Wall, carried: Mapping[str, str] | None) -> tuple[Page, ...]:
        return general_pages(wall, picture, pages, fitter, space, words, carried)

    return pages, lead, tuple(found)


def _sheets(
    pages: Sequence[Page],
    wall: Wall,
    size: SheetSize,
    layout: BlockLayout,
    drawing: Box,
    revision_of: Mapping[str, str] | None,
    draft: Draft | None,
) -> _Sheets:
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
        sheets.append(Sheet(page.number, page.title, size.width, size.height, drawing, items, revision))
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


def _said(pages: Sequence[Page]) -> str:
    # A mark is a name and says no word.
    views = [placed for page in pages for placed, _ in page.views]
    items = (*(i for page in pages for i in page.items), *(i for v in views for i in (*v.items, *v.title)))
    return " ".join(words for words, item in said(items) if getattr(item, "kind", "") != "part balloon")


def _empty(wall: Wall) -> DrawingSet:
    return _set(wall, ())


def _set(wall: Wall, sheets: tuple[Sheet, ...]) -> DrawingSet:
    p = wall.project
    return DrawingSet(p.title, p.number, p.drawn, p.date, wall.units, sheets)


def unlettered(wall: Wall) -> tuple[Diagnostic, ...]:
    """Return a warning for each text of a wall that cannot be set as it is written."""
    return tuple(
        Diagnostic(
            "letter-missing",
            "warning",
            f"the lettering has no {', '.join(repr(letter) for letter in lost)}: printed as '?'",
            help="Say it in letters that the font has: Latin, Greek and Cyrillic.",
            path=path,
        )
        for path, text in _spec_texts(wall)
        if (lost := missing(text))
    )


def _spec_texts(wall: Wall) -> Iterator[tuple[SpecPath, str]]:
    for one in fields(wall.project):
        yield ("project", one.name), getattr(wall.project, one.name)
    for k, note in enumerate(wall.notes):
        yield ("notes", k), note
    for k, revision in enumerate(wall.revisions):
        yield ("revisions", k, "reason"), revision.reason
