"""The checks as a set of their own, which goes beside the drawing set."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from sheets.checks.finding import RuleReport
from sheets.compose.draft import Draft
from sheets.compose.on_sheets import as_set, on_sheets, paper_of
from sheets.compose.pages.check_pages import check_pages
from sheets.compose.pages.watermark import watermarked
from sheets.drawing.items import DrawingSet
from sheets.model.wall import Wall


def checks_set(
    wall: Wall, reports: Sequence[RuleReport], *, folder: Path | None = None, draft: Draft | None = None
) -> DrawingSet:
    """Return the sheets of the checks: pictures, findings, every number with its limit, sources.

    folder: where a title block given by a relative path is looked for. draft: how a set that is not as it was
    issued stands to that issue: these sheets then say so too. What is wrong with paper or title block is
    told of the drawing set, which is on the same.
    """
    paper, _ = paper_of(wall, folder)
    if paper is None:
        return as_set(wall, ())
    pages = check_pages(reports, paper.space, inch=wall.units == "inch")
    carried = None if draft is None else {page.number: draft.number for page in pages}
    sheets, _ = on_sheets(pages, wall, paper, carried, draft)
    return watermarked(as_set(wall, sheets), wall.project.status, draft)
