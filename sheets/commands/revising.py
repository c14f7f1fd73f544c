"""Issuing a revision: the row into the spec, the marks on the sheets, the folder of the issue."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from sheets import __version__
from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.durable import alone_in, read_plain, write_over
from sheets.base.stopwatch import Stopwatch
from sheets.base.text_file import MOST_BYTES
from sheets.commands.comparison import Compared, as_called_by, bare_sets, compared, text
from sheets.commands.given import Given, given
from sheets.commands.history import ReviseError, hold_in_order
from sheets.commands.one_set import digest, draw_solved
from sheets.drawing.items import DrawingSet
from sheets.grammar.reader import read_spec_text
from sheets.model.wall import Revision, Wall
from sheets.pipeline import Solved, place_bare, show, solve_reading
from sheets.resolve.own_codes import in_folder
from sheets.revisions.comparing.reason import summary
from sheets.revisions.keeping import record as records
from sheets.revisions.keeping.issues import IssueError, issue_folder, publish, tag_of
from sheets.revisions.keeping.record import Record, SheetRecord
from sheets.revisions.keeping.spec_row import RowError, with_more, with_row
from sheets.revisions.keeping.transmittal import transmittal
from sheets.revisions.marking.decorate import first_sheets, revised_sheets
from sheets.revisions.marking.said_blocks import holds_record

CHANGES = "changes.pdf"
"""The file of an issue with the transmittal and the sheets that changed alone."""


class NothingChangedError(ReviseError):
    """A revision would say nothing new, and was not asked for all the same."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a user asks for. reason: empty for an automatic one; date: empty for the project's.

    sheets: those to send, all if empty. unchanged: issue it even if nothing has changed. first: the rows that
    are there are of no issue that is kept.
    """

    number: str
    by: str = ""
    reason: str = ""
    date: str = ""
    sent_to: str = ""
    sheets: tuple[str, ...] = ()
    unchanged: bool = False
    first: bool = False


@dataclass(frozen=True, slots=True)
class Revised:
    """An issue that was made: its folder, its sheets with what they carry, and what was said on the way."""

    folder: Path
    record: Record
    drawing: DrawingSet
    diagnostics: tuple[Diagnostic, ...]
    comparison: Compared | None = None  # None for a first issue


@dataclass(frozen=True, slots=True)
class _Made:
    record: Record
    files: dict[str, bytes]
    drawing: DrawingSet
    diagnostics: tuple[Diagnostic, ...]


def revise(
    spec: Path, old: Given | None, wanted: Wanted, watch: Stopwatch
) -> Revised | tuple[Diagnostic, ...]:
    """Issue the next revision of a spec. old: the issue it follows; None for the first.

    Returns the issue, or the diagnostics of a spec that has errors. Raises ReviseError. The spec's text
    is changed by its new row alone, and put back as it was if the issue cannot be written.
    """
    folder = issue_folder(spec, wanted.number)
    if os.path.lexists(folder):
        raise ReviseError(
            f"revision {wanted.number} of {spec.name} was issued; an issue is never written over"
        )
    before_text = _text(spec)
    new = given(str(spec))
    if new.solved.wall is None or new.solved.spec is None:
        return new.diagnostics
    new = replace(new, record=None)
    history = old is not None or wanted.first
    earlier = hold_in_order(spec, new.wall.revisions, wanted.number, history=history)
    _hold_date(wanted, new.wall, earlier)
    old = as_called_by(new, old) if old is not None else None
    comparison = compared(old, new, watch) if old is not None else None
    row, has_row = _row(new.wall, wanted, comparison, old)
    row = replace(row, digest=digest(new.solved, new.folder))
    after_text = _with_row(before_text, row, more=has_row)
    solved = solve_reading(read_spec_text(after_text, spec.name), watch, in_folder(spec.resolve().parent))
    if solved.spec is None or solved.wall is None:
        return solved.diagnostics
    new = replace(new, solved=solved, as_written=after_text.encode("utf-8"))
    made = _made(new, old, comparison, row, wanted, watch)
    if not isinstance(made, _Made):
        return made
    _issue(spec, before_text, after_text, folder, made.files)
    return Revised(folder, made.record, made.drawing, made.diagnostics, comparison)


def _issue(spec: Path, before: str, after: str, folder: Path, files: Mapping[str, bytes]) -> None:
    # The issue aside, whole; then the row; then the issue's name. Whatever ends the run, the row and the
    # issue are there or neither is: here if it can still be seen to, else by `put_right` of the next run.
    try:
        with alone_in(spec.resolve().parent):
            row = _row_written(spec, before, after, folder)
            publish(folder, files, tag=tag_of(after.encode("utf-8")), around=row)
    except IssueError as error:
        raise ReviseError(str(error)) from error
    except OSError as error:
        raise ReviseError(f"{spec}: cannot be changed: {error.strerror or error}") from error


@contextmanager
def _row_written(spec: Path, before: str, after: str, folder: Path) -> Iterator[None]:
    if _text(spec) != before:
        raise ReviseError(f"{spec} was changed meanwhile; nothing was issued")
    try:
        if after != before:
            try:
                write_over(spec, after.encode("utf-8"))
            except OSError as error:
                raise ReviseError(f"{spec}: cannot be changed: {error.strerror or error}") from error
        yield
    except BaseException:
        if after != before and not folder.is_dir() and _text(spec) == after:
            write_over(spec, before.encode("utf-8"))
        raise


def _hold_date(wanted: Wanted, wall: Wall, earlier: Sequence[Revision]) -> None:
    written = next((row.date for row in wall.revisions if row.number == wanted.number), "")
    date = written or wanted.date or wall.project.date
    if not date:
        raise ReviseError("the spec has no date; give the date of the revision with --date")
    if earlier and date < earlier[-1].date:
        whose = "" if written or wanted.date else ", the project's"
        raise ReviseError(
            f"its date {date}{whose} is before that of revision {earlier[-1].number}, {earlier[-1].date}; "
            "give a later one with --date. Nothing was issued"
        )


def _row(
    wall: Wall, wanted: Wanted, comparison: Compared | None, old: Given | None
) -> tuple[Revision, bool]:
    # A row of that number that stands last in the spec, not yet issued, is taken as its author wrote it.
    rows = {row.number: row for row in wall.revisions}
    if wanted.number in rows:
        _agree(rows[wanted.number], wanted)
        return rows[wanted.number], True
    date = wanted.date or wall.project.date
    return Revision(wanted.number, date, wanted.by, wanted.reason or _reason(comparison, old)), False


def _reason(comparison: Compared | None, old: Given | None) -> str:
    if comparison is None:
        return "First issue"
    earlier = old.record if old is not None else None
    if earlier is not None and earlier.only and not comparison.changes:
        return f"Sheets held back in {earlier.number}"
    return summary(comparison.changes, comparison.before, comparison.after)


def _agree(row: Revision, wanted: Wanted) -> None:
    said = (("by", row.by, wanted.by), ("reason", row.reason, wanted.reason), ("date", row.date, wanted.date))
    for name, written, asked in said:
        if asked and asked != written:
            raise ReviseError(
                f"the row of revision {row.number} stands in the spec with {name} '{written}', "
                f"not '{asked}'; nothing was issued. Change it there, or leave --{name} out"
            )


def _made(
    new: Given,
    old: Given | None,
    comparison: Compared | None,
    row: Revision,
    wanted: Wanted,
    watch: Stopwatch,
) -> _Made | tuple[Diagnostic, ...]:
    base = Record(
        row.number, row.date, row.by, row.reason, new.wall.project.status, wanted.sent_to,
        version=__version__,
    )  # fmt: skip
    if old is None or comparison is None or comparison.shown is None:
        shown = show(new.wall, watch)
        bare, found = place_bare(shown, new.folder, watch)
        sheets, lines = first_sheets(bare, row.number)
        record = replace(base, sheets=sheets, lines=lines, marks=_marks(new.wall))
    else:
        shown = comparison.shown[1]
        shown = replace(shown, wall=replace(shown.wall, revisions=new.wall.revisions))
        comparison = replace(comparison, after=shown.wall, shown=(comparison.shown[0], shown))
        before, after, found = bare_sets(comparison, old, new, watch)
        if not has_errors(found):
            sheets, lines = revised_sheets(before, after, old.record, row.number)
            record = replace(
                base,
                earlier=old.record.number if old.record else "",
                sheets=sheets,
                lines=lines,
                marks=_marks(comparison.after),
                retired=comparison.retired,
                changes=tuple(text(comparison, _named(old), _named(new)).splitlines()),
            )
            if not (wanted.unchanged or wanted.sheets or comparison.changes or _anew(record, old, after)):
                raise NothingChangedError(
                    f"nothing has changed since {record.earlier or 'the issue that it follows'}; "
                    "nothing was issued. Say --unchanged to issue it all the same"
                )
    if has_errors(found):
        return (*new.diagnostics, *found)
    record = _only(record, old.record if old is not None else None, wanted.sheets)
    drawn = draw_solved(
        new.solved, stem=new.stem, folder=new.folder, record=record, pictures=(), watch=watch, shown=shown,
        as_written=new.as_written,
    )  # fmt: skip
    if drawn.drawing is None:
        return drawn.diagnostics
    files = _files(new.solved, record, drawn.drawing, dict(drawn.files))
    return _Made(record, files, drawn.drawing, drawn.diagnostics)


def _anew(record: Record, old: Given, after: DrawingSet) -> bool:
    # Whether a sheet beyond those that grow with every issue is issued anew, or one fell out of the set.
    growing = {after.sheets[0].number, *(sheet.number for sheet in after.sheets if holds_record(sheet))}
    fresh = {sheet.number for sheet in record.sheets if sheet.revision == record.number}
    gone = [was for was in (old.record.sheets if old.record else ()) if record.sheet(was.number) is None]
    return bool(gone or fresh - growing)


def _only(record: Record, earlier: Record | None, chosen: Sequence[str]) -> Record:
    # The index goes with every issue. A sheet that changed and does not go stays as it went before.
    if not chosen:
        return record
    known = [sheet.number for sheet in record.sheets]
    if odd := next((number for number in chosen if number not in known), None):
        raise ReviseError(f"there is no sheet {odd} in the set; its sheets are {', '.join(known)}")
    goes = {known[0], *chosen}
    before = {line.number: line.was or line.number for line in record.lines if line.state != "new"}
    sheets: list[SheetRecord] = []
    held_back: dict[str, str] = {}  # and the revision that it stays at
    for sheet in record.sheets:
        was = earlier.sheet(before.get(sheet.number, "")) if earlier is not None else None
        if sheet.number in goes or sheet.revision != record.number:
            sheets.append(sheet)
            continue
        held_back[sheet.number] = was.revision if was is not None else ""
        if was is not None:
            sheets.append(replace(was, number=sheet.number, bare=""))
    lines = [
        replace(one, state="held back", revision=held_back[one.number]) if one.number in held_back else one
        for one in record.lines
    ]
    only = tuple(number for number in known if number in goes)
    return replace(
        record, sheets=tuple(sheets), lines=tuple(lines), only=only if len(only) < len(known) else ()
    )


def _files(solved: Solved, record: Record, drawing: DrawingSet, files: dict[str, bytes]) -> dict[str, bytes]:
    from sheets.writers.pdf import pdf

    assert solved.wall is not None
    page = transmittal(solved.wall.project, drawing, record, solved.wall.revisions)
    found = {**files, "transmittal.pdf": pdf(page), records.NAME: records.to_json(record)}
    if record.earlier:
        changed = [sheet for sheet in drawing.sheets if sheet.revision == record.number]
        found[CHANGES] = pdf(replace(page, sheets=(*page.sheets, *changed)))
    return found


def _marks(wall: Wall) -> dict[str, str]:
    return {part.key: part.mark for part in wall.parts if part.mark}


def _named(one: Given) -> Given:
    # In the record a set is called by what it is, not by where someone kept it.
    if one.record is not None:
        return replace(one, label=f"{one.stem}, revision {one.record.number}")
    rows = one.solved.wall.revisions if one.solved.wall else ()
    return replace(one, label=f"{one.stem}, revision {rows[-1].number}" if rows else one.stem)


def _text(spec: Path) -> str:
    try:
        return read_plain(spec, MOST_BYTES).decode("utf-8")
    except OSError as error:
        raise ReviseError(f"{spec}: cannot be read: {error.strerror or error}") from error
    except UnicodeDecodeError as error:
        raise ReviseError(f"{spec}: is not UTF-8 text") from error


def _with_row(before: str, row: Revision, *, more: bool) -> str:
    try:
        return with_more(before, row) if more else with_row(before, row)
    except RowError as error:
        raise ReviseError(str(error)) from error
