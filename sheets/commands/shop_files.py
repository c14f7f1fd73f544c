"""The files of `schedule`, `patterns`, `labels`: a set as named in, names and bytes out. They write nothing.

Marks are those of the set as it was issued, and the sheets named are those it is drawn on, so that no file
disagrees with the paper.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.stopwatch import Stopwatch
from sheets.base.text_file import stem_of
from sheets.commands.given import Given, GivenError, given
from sheets.commands.one_set import standing_of
from sheets.model.wall import Wall
from sheets.pipeline import place, show, solve
from sheets.revisions.keeping.issues import IssueError, records_of, unreadable
from sheets.schedules.all_schedules import ShopSchedules, plan_findings, shop_schedules
from sheets.schedules.export import Format, export

Files = tuple[tuple[str, bytes], ...]
Made = tuple[Files, tuple[Diagnostic, ...]]


def named_set(path: Path) -> tuple[Given | None, tuple[Diagnostic, ...]]:
    """Return the set that a spec, or the PDF of a set, stands for, and what was found. None when there is an
    error.
    """
    if path.suffix.lower() == ".pdf":
        try:
            issued = given(str(path))
        except GivenError as error:
            return None, (Diagnostic("no-spec-attached", "error", str(error)),)
        return (issued if issued.solved.wall is not None else None), issued.diagnostics
    solved, folder = solve(path), path.resolve().parent
    if solved.wall is None:
        return None, solved.diagnostics
    try:
        record = standing_of(solved, folder, records_of(path)).record
    except IssueError as error:
        return None, (*solved.diagnostics, unreadable(error))
    return Given(str(path), stem_of(path), solved, folder, record), solved.diagnostics


def schedules_of(shop_set: Given, format: Format) -> Made:
    """Return the schedules of a set as files, each part with the sheet where it is detailed, and what the
    cutting plans could not do.
    """
    from sheets.compose.pages.references import marks_in

    watch = Stopwatch()
    shown = show(shop_set.wall, watch)
    drawing, found = place(shown, shop_set.folder, watch, shop_set.record)
    if has_errors(found):
        return (), found
    return schedule_files(shown.wall, shown.shop, format, marks_in(drawing))


def schedule_files(
    wall: Wall, shop: ShopSchedules, format: Format, sheet_of: Mapping[str, str] | None = None
) -> Made:
    """Return the schedules as files. sheet_of: the sheet where each mark is detailed."""
    return export(wall, shop, format, sheet_of), plan_findings(shop)


def pattern_files(wall: Wall, stem: str) -> Made:
    """Return the full-size patterns: a PDF of tiles, a PDF and a DXF of long sheets; none without a curve."""
    from sheets.compose.pages.pattern_sheets import long_patterns, tiled_patterns
    from sheets.writers.dxf import dxf
    from sheets.writers.pdf import pdf

    tiled, problems = tiled_patterns(wall)
    if has_errors(problems) or not tiled.sheets:
        return (), problems
    long = long_patterns(wall)
    return (
        (f"{stem}-patterns-tiled.pdf", pdf(tiled)),
        (f"{stem}-patterns.pdf", pdf(long)),
        (f"{stem}-patterns.dxf", dxf(long)),
    ), problems


def label_files(wall: Wall, stem: str) -> Made:
    """Return the part labels as a PDF on their grid."""
    from sheets.compose.pages.label_sheets import label_sheets
    from sheets.writers.pdf import pdf

    drawing, problems = label_sheets(wall, shop_schedules(wall))
    return () if has_errors(problems) else ((f"{stem}-labels.pdf", pdf(drawing)),), problems


def with_manifest(shop_set: Given, files: Files) -> Files:
    """Return the files with a list of them, by which the folder is known as ours when it is written again."""
    from sheets.grammar.defaults import canonical
    from sheets.writers.manifest import NAME, list_of_files

    spec = shop_set.solved.spec
    assert spec is not None
    said, name = shop_set.wall.project, f"{shop_set.stem}.yaml"
    text = canonical(spec).encode("utf-8")
    return (*files, (NAME, list_of_files(said.title, said.number, said.date, dict(files), name, text)))
