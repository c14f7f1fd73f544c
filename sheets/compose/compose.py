"""Annotated views and tables in, the finished set out: scales, sheets, numbers, title blocks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from pathlib import Path

from sheets.annotate.intent import Annotated
from sheets.base.beside import beside
from sheets.base.diagnostics import Diagnostic, SpecPath, has_errors
from sheets.checks.finding import RuleReport
from sheets.checks.reports.in_brief import in_brief
from sheets.compose.draft import Draft
from sheets.compose.on_sheets import Paper, Sheets, as_set, on_sheets, paper_of
from sheets.compose.pages.arrange import orthographic
from sheets.compose.pages.cutting_pages import cutting_pages
from sheets.compose.pages.details import detail_pages
from sheets.compose.pages.general import general_pages
from sheets.compose.pages.page import Page, in_sequence, size_of
from sheets.compose.pages.pattern_pages import pattern_pages
from sheets.compose.pages.references import marks_on
from sheets.compose.pages.tables import table_pages
from sheets.compose.pages.too_large import too_large
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.manner import manner
from sheets.drawing.items import DrawingSet, Sheet
from sheets.drawing.lettering import missing
from sheets.drawing.walk import said
from sheets.model.wall import Wall
from sheets.schedules.diagrams import Diagram
from sheets.schedules.patterns import Pattern
from sheets.schedules.table import TableData

Tables = Callable[[Mapping[str, str]], Sequence[TableData]]
"""Tables as they stand once the sheet of each mark is known."""
_Lead = Callable[[Wall, Mapping[str, str] | None], tuple[Page, ...]]


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

    diagrams: of the cutting plans. patterns: of the shaped pieces. Each has sheets of its own after the
    schedules. reports: of the checks, of which the set says in brief what is open. folder: where a title
    block given by a relative path is looked for. revision_of: the revision each sheet carries, by its number;
    None: all carry the latest. draft: what of the set was not issued so. With an error among the diagnostics
    the set has no sheets.
    """
    paper, problems = paper_of(wall, folder)
    if paper is None:
        return as_set(wall, ()), problems
    content = Content(tuple(annotated), tables, tuple(diagrams), tuple(patterns), tuple(reports))
    pages, lead, found = _pages(content, wall, paper)
    if has_errors(found):
        # A view that fits no sheet: what else its absence leaves open is no news.
        return as_set(wall, ()), (*problems, *found)

    def sheets_of(carried: Mapping[str, str] | None, draft: Draft | None = None) -> Sheets:
        said = wall if draft is None else draft.on_the_first(wall, (carried or {}).values())
        return on_sheets((*lead(said, carried), *pages), wall, paper, carried, draft)

    sheets, blocks = sheets_of(revision_of if draft is None else {})
    if draft is not None:
        carried = _carried(sheets, wall, revision_of, draft)
        sheets, blocks = sheets_of(carried, draft)
    problems = (*problems, *found, *blocks, *unlettered(wall))
    return as_set(wall, () if has_errors(problems) else sheets), problems


def _carried(
    sheets: Sequence[Sheet], wall: Wall, revision_of: Mapping[str, str] | None, draft: Draft
) -> dict[str, str]:
    latest = wall.revisions[-1].number if wall.revisions else ""
    issued = {sheet.number: latest for sheet in sheets} if revision_of is None else revision_of
    return {**issued, **dict.fromkeys(draft.unlike(sheets), draft.number)}


def _pages(
    content: Content, wall: Wall, paper: Paper
) -> tuple[tuple[Page, ...], _Lead, tuple[Diagnostic, ...]]:
    # The pages, and those that lead them: their index says which revision each sheet carries.
    annotated, space = content.annotated, paper.space
    how = manner(wall.units, wall.notation, max(paper.size.width, paper.size.height))
    elsewhere = {b.mark for v in annotated if v.view.kind in ("section", "detail") for b in v.balloons}
    fitter = Fitter(how, frozenset(elsewhere))
    inch = wall.units == "inch"
    # Details take as long as all else, and neither needs to know of the other.
    detailed = beside(lambda: detail_pages([v for v in annotated if v.view.kind == "detail"], fitter, space))
    drawn, unplaced = orthographic(annotated, fitter, space)
    cutting = cutting_pages(content.diagrams, space, wall.units)
    shaped = pattern_pages(content.patterns, wall.notation, space, wall.units)
    details, more = detailed()
    found = [too_large(v, fitter, wall.paper, paper.block, size_of(space)) for v in (*unplaced, *more)]
    pages = (*drawn, *details)
    schedules = table_pages(content.tables(marks_on(pages)), space, inch=inch)
    pages = (*pages, *in_sequence(6, (*schedules, *cutting, *shaped)))
    picture = next((v for v in annotated if v.view.kind == "axonometric"), None)
    words = _said(pages)
    judged = in_brief(content.reports)

    def lead(wall: Wall, carried: Mapping[str, str] | None) -> tuple[Page, ...]:
        return general_pages(wall, picture, pages, fitter, space, words, carried, judged)

    return pages, lead, tuple(found)


def _said(pages: Sequence[Page]) -> str:
    # A mark is a name and says no word.
    views = [placed for page in pages for placed, _ in page.views]
    items = (*(i for page in pages for i in page.items), *(i for v in views for i in (*v.items, *v.title)))
    return " ".join(words for words, item in said(items) if getattr(item, "kind", "") != "part balloon")


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
