"""Comparing two sets that a user named: what changed, as text, as JSON, as a PDF of one laid over the
other."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from hashlib import sha256

from sheets.base.diagnostics import Diagnostic
from sheets.base.stopwatch import Stopwatch
from sheets.checks.finding import Finding, RuleReport
from sheets.commands.given import Given
from sheets.compose.border.titleblock_file import load
from sheets.drawing.items import DrawingSet
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.pipeline import Shown, place_bare, show
from sheets.revisions.comparing.change_json import to_json
from sheets.revisions.comparing.change_words import to_text
from sheets.revisions.comparing.changes import Changes
from sheets.revisions.comparing.compare import compare
from sheets.revisions.comparing.same_built import called, new_keys
from sheets.revisions.comparing.sheet_lines import SheetLine, line_json, told
from sheets.revisions.keeping.attached import older_version_says

PDF_NAME = "changes.pdf"
_Sets = tuple[DrawingSet, DrawingSet]


@dataclass(frozen=True, slots=True)
class Compared:
    """Two walls with the marks of one history, and what changed between them.

    shown: what each set says, when it is to be drawn as well.
    """

    before: Wall
    after: Wall
    changes: Changes
    retired: tuple[str, ...]  # marks that the earlier had, or had retired, and the later has not
    retired_now: tuple[str, ...]  # of these what the earlier had still in use
    shown: tuple[Shown, Shown] | None = None


def kept_marks(old: Given) -> dict[str, str]:
    """Return the marks that a set that follows must keep: in use by part key, and retired."""
    if old.record is not None:
        return old.record.kept
    return {part.key: part.mark for part in old.wall.parts if part.mark}


def retired_marks(old: Given, before: Wall, after: Wall) -> tuple[str, ...]:
    """Return all marks that are not used and never to be used again, in order."""
    earlier = {part.mark for part in before.parts if part.mark}
    if old.record is not None:
        earlier |= set(old.record.retired)
    gone = earlier - {part.mark for part in after.parts}
    return tuple(sorted(gone, key=lambda mark: (mark[:1], len(mark), mark)))


def as_called_by(new: Given, old: Given) -> Given:
    """Return the earlier set with its assemblies called what the later one calls them: they are known by
    place and build. Both could be solved."""
    before, after = old.solved.wall, new.solved.wall
    assert before is not None
    assert after is not None
    names = new_keys(before, after)
    if not names:
        return old
    record = old.record.called(names) if old.record is not None else None
    return replace(old, solved=replace(old.solved, wall=called(before, names)), record=record)


def compared(old: Given, new: Given, watch: Stopwatch | None = None) -> Compared:
    """Compare two sets that could be solved, the earlier `as_called_by` the later, which keeps its marks.

    watch: given when both are to be drawn as well; then what they say is made here, once.
    """
    before = old.wall
    after = new.wall if new.record is not None else marked(new.wall, kept_marks(old))
    retired = retired_marks(old, before, after)
    gone = old.record.retired if old.record is not None else ()
    fresh = tuple(mark for mark in retired if mark not in gone)
    if watch is None:
        found = _findings(_reports(before)), _findings(_reports(after))
        changes = compare(before, after, *found, blocks=_blocks(old, new))
        return Compared(before, after, changes, retired, fresh)
    shown = show(before, watch, gone), show(after, watch, retired)
    found = _findings(shown[0].reports), _findings(shown[1].reports)
    changes = compare(before, after, *found, blocks=_blocks(old, new))
    return Compared(before, after, changes, retired, fresh, shown)


def _blocks(old: Given, new: Given) -> tuple[str, str]:
    # What each side's title block holds; one that cannot be read is told when it is drawn.
    def held(one: Given) -> str:
        block, _ = load(one.wall.paper.titleblock, one.folder)
        return "" if block is None else sha256(repr(block.layouts).encode("utf-8")).hexdigest()

    return held(old), held(new)


def _reports(wall: Wall) -> tuple[RuleReport, ...]:
    from sheets.checks.run import run_checks

    return run_checks(wall)


def _findings(reports: tuple[RuleReport, ...]) -> tuple[Finding, ...]:
    return tuple(finding for report in reports for finding in report.findings)


def text(found: Compared, old: Given, new: Given, lines: Sequence[SheetLine] = ()) -> str:
    """Return the report for a terminal. lines: what became of the sheets, where that is known."""
    names = (old.label, new.label)
    return to_text(found.changes, found.before, found.after, names, found.retired_now, told(lines))


def as_json(found: Compared, old: Given, new: Given, lines: Sequence[SheetLine] = ()) -> str:
    """Return the report as JSON. lines: what became of the sheets, where that is known."""
    content = {
        "format": "shopset compare",
        "version": 1,
        "from": {"name": old.label, "version": old.version},
        "to": {"name": new.label, "version": new.version},
        **to_json(found.changes, found.before, found.after),
        "marks_retired": list(found.retired_now),
        "sheets": [line_json(line) for line in lines],
    }
    return json.dumps(content, indent=2, ensure_ascii=False) + "\n"


def bare_sets(
    found: Compared, old: Given, new: Given, watch: Stopwatch
) -> tuple[DrawingSet, DrawingSet, tuple[Diagnostic, ...]]:
    """Draw both without numbers of revisions. Returns the earlier, the later, what was found."""
    assert found.shown is not None
    before, complaints = place_bare(found.shown[0], old.folder, watch)
    after, more = place_bare(found.shown[1], new.folder, watch)
    return before, after, (*complaints, *more)


def sheet_lines_of(old: Given, new: Given, sets: _Sets | None) -> tuple[SheetLine, ...]:
    """Return what became of each sheet: of an issue and the one that it follows as it is recorded; else of
    sets that are drawn; else nothing, as it is not known."""
    if new.record is not None and old.record is not None and new.record.earlier == old.record.number:
        return new.record.lines
    if sets is None:
        return ()
    from sheets.revisions.marking.decorate import sheet_lines

    return sheet_lines(*sets, old.record)


def laid_over(
    sets: _Sets, report: str, stem: str, *, pdf: bool, pictures: bool
) -> tuple[tuple[str, bytes], ...]:
    """Return files by name: the PDF of before and after laid over each other, a PNG of each sheet that
    changed.

    Those sheets carry clouds round what changed. report: as text; stem: of the later set's files.
    """
    files: list[tuple[str, bytes]] = []
    if pdf:
        from sheets.revisions.marking.before_after import overlaid
        from sheets.writers.pdf import pdf as as_pdf

        files.append((PDF_NAME, as_pdf(overlaid(*sets, report))))
    if pictures:
        from sheets.revisions.marking.decorate import with_changes_marked
        from sheets.writers.raster import png

        files += [(f"{stem}-{sheet.number}.png", png(sheet)) for sheet in with_changes_marked(*sets)]
    return tuple(files)


def version_notes(*sets: Given) -> tuple[str, ...]:
    """Return what is to be said of sets that another version of the program made."""
    return tuple(
        f"{one.label}: {says}"
        for one in sets
        if one.version is not None and (says := older_version_says(one.version))
    )
