"""Comparing two sets that a user named: what changed, as text, as JSON, as a PDF of one laid over the
other."""

from __future__ import annotations

import json
from dataclasses import dataclass

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.stopwatch import Stopwatch
from sheets.checks.finding import Finding, RuleReport
from sheets.commands.given import Given
from sheets.drawing.items import DrawingSet
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.pipeline import Shown, place_bare, show
from sheets.revisions.comparing.change_words import to_json, to_text
from sheets.revisions.comparing.changes import Changes
from sheets.revisions.comparing.compare import compare
from sheets.revisions.keeping.attached import older_version_says

PDF_NAME = "changes.pdf"


@dataclass(frozen=True, slots=True)
class Compared:
    """Two walls with the marks of one history, and what changed between them.

    shown: what each set says, when it is to be drawn as well.
    """

    before: Wall
    after: Wall
    changes: Changes
    retired: tuple[str, ...]  # marks that the earlier had, or had retired, and the later has not
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


def compared(old: Given, new: Given, watch: Stopwatch | None = None) -> Compared:
    """Compare two sets that could be solved. The later keeps the marks of the earlier.

    watch: given when both are to be drawn as well; then what they say is made here, once.
    """
    before = old.wall
    after = new.wall if new.record is not None else marked(new.wall, kept_marks(old))
    retired = retired_marks(old, before, after)
    if watch is None:
        changes = compare(before, after, _findings(_reports(before)), _findings(_reports(after)))
        return Compared(before, after, changes, retired)
    gone = old.record.retired if old.record is not None else ()
    shown = show(before, watch, gone), show(after, watch, retired)
    changes = compare(before, after, *(_findings(one.reports) for one in shown))
    return Compared(before, after, changes, retired, shown)


def _reports(wall: Wall) -> tuple[RuleReport, ...]:
    from sheets.checks.run import run_checks

    return run_checks(wall)


def _findings(reports: tuple[RuleReport, ...]) -> tuple[Finding, ...]:
    return tuple(finding for report in reports for finding in report.findings)


def text(found: Compared, old: Given, new: Given) -> str:
    """Return the report for a terminal."""
    return to_text(found.changes, found.before, found.after, (old.label, new.label), found.retired)


def as_json(found: Compared, old: Given, new: Given) -> str:
    """Return the report as JSON."""
    content = {
        "format": "shopset compare",
        "version": 1,
        "from": {"name": old.label, "version": old.version},
        "to": {"name": new.label, "version": new.version},
        **to_json(found.changes, found.before, found.after),
        "marks_retired": list(found.retired),
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


def laid_over(
    found: Compared, old: Given, new: Given, *, pdf: bool, pictures: bool
) -> tuple[tuple[tuple[str, bytes], ...], tuple[Diagnostic, ...]]:
    """Return files by name: the PDF of before and after laid over each other, a PNG of each sheet that
    changed.

    Those sheets carry clouds round what changed. With an error among what was found there are no files.
    """
    before, after, complaints = bare_sets(found, old, new, Stopwatch())
    if has_errors(complaints):
        return (), complaints
    files: list[tuple[str, bytes]] = []
    if pdf:
        from sheets.revisions.marking.before_after import overlaid
        from sheets.writers.pdf import pdf as as_pdf

        files.append((PDF_NAME, as_pdf(overlaid(before, after, text(found, old, new)))))
    if pictures:
        from sheets.revisions.marking.decorate import with_changes_marked
        from sheets.writers.raster import png

        files += [
            (f"{new.stem}-{sheet.number}.png", png(sheet)) for sheet in with_changes_marked(before, after)
        ]
    return tuple(files), complaints


def version_notes(*sets: Given) -> tuple[str, ...]:
    """Return what is to be said of sets that another version of the program made."""
    return tuple(
        f"{one.label}: {says}"
        for one in sets
        if one.version is not None and (says := older_version_says(one.version))
    )
