"""The issues of a spec: which the next one follows, how the spec stands to it, and voiding one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from sheets.base.durable import alone_in, read_plain, write_over
from sheets.base.text_file import MOST_BYTES
from sheets.commands.given import Given, GivenError, given
from sheets.commands.one_set import digest
from sheets.model.wall import Revision, Void
from sheets.revisions.keeping.issues import IssueError, issues_folder, issues_of, records_of
from sheets.revisions.keeping.numbers import why_not
from sheets.revisions.keeping.spec_row import RowError, rows_of, with_more
from sheets.revisions.keeping.standing import less_void


class ReviseError(Exception):
    """A revision cannot be issued or voided; the message says why. Nothing was changed."""


def latest_issue(spec: Path) -> Given | None:
    """Return the latest issue of a spec that is in use and can be read; None if there is none.

    Where every issue is void it is the last of them.
    """
    readable = [issue for issue in issues_of(spec) if issue.record is not None]
    if not readable:
        return None
    rows = _rows(spec)
    void = {row.number for row in rows if row.void is not None}
    in_use = [issue for issue in readable if issue.number not in void]
    found = given(str((in_use or readable)[-1].folder))
    if found.record is None:
        return found
    return replace(found, record=less_void(found.record, rows, records_of(spec)))


def issue_named(spec: Path, name: str) -> str:
    """Return the folder of the issue of that number, or else what is named, if it is there at all.

    Raises GivenError.
    """
    issues = {issue.number: issue for issue in issues_of(spec)}
    if name in issues:
        return str(issues[name].folder)
    if ":" in name or Path(name).exists():
        return name
    raise GivenError(f"{spec} has no issue {name}; its issues are {', '.join(issues) or 'none'}")


def stands_to_issues(spec: Path) -> str:
    """Return in one line how a spec stands to its issues: as one was issued, changed since, or not readable.

    Nothing is drawn: it is told from what the spec says.
    """
    try:
        now, last = given(str(spec)), latest_issue(spec)
        if now.solved.wall is None:
            return "has errors; `shopset check` tells them"
        rows = [row for row in now.solved.wall.revisions if row.void is None]
        if last is None or last.record is None or last.record.number not in [row.number for row in rows]:
            return "follows no issue that is in use"
        number = last.record.number
        if rows[-1].number != number:
            return f"for {rows[-1].number}, not issued"
        if last.solved.wall is None:
            return f"cannot be held against {number}, whose spec has errors now"
        if digest(last.solved, last.folder) != digest(now.solved, now.folder):
            return f"changed after {number}, not issued"
        held_back = [sheet.number for sheet in last.record.sheets if not sheet.bare]
        return f"as issued in {number}" + (f", without {', '.join(held_back)}" if held_back else "")
    except (GivenError, IssueError) as error:
        return f"cannot be held against its issues: {error}"


def hold_in_order(
    spec: Path, rows: Sequence[Revision], number: str, *, history: bool
) -> tuple[Revision, ...]:
    """Return the rows before that of a new revision. Raises ReviseError if its number does not follow them.

    history: whether the issue that it follows is at hand, or the user says that there is none.
    """
    at = next((k for k, row in enumerate(rows) if row.number == number), len(rows))
    if at < len(rows) - 1:
        raise ReviseError(f"revision {number} is not the last row of `revisions` in the spec")
    earlier = tuple(rows[:at])
    if complaint := why_not(number, [row.number for row in earlier]):
        raise ReviseError(f"{complaint}; nothing was issued")
    if earlier and not history:
        first, last = earlier[0].number, earlier[-1].number
        named = f"row {first}" if first == last else f"rows {first} to {last}"
        raise ReviseError(
            f"{spec.name} has {named} of earlier revisions, and no issue of them is in "
            f"{issues_folder(spec)}. If the spec was renamed, copied or moved, put the folder of its issues "
            "there; or name what this one follows with --from; or say --first if it is the first that is "
            "kept. Nothing was issued"
        )
    return earlier


def void_issue(spec: Path, number: str, reason: str) -> tuple[str, ...]:
    """Write into the row of an issue that it is void, and return the numbers of its sheets.

    The row and the folder of the issue stay. Raises ReviseError.
    """
    try:
        with alone_in(spec.resolve().parent):
            text = read_plain(spec, MOST_BYTES).decode("utf-8")
            rows = rows_of(text)
            row = next((row for row in rows if row.number == number), None)
            record = records_of(spec)(number)
            if row is None or (record is None and not row.digest):
                raise ReviseError(f"revision {number} of {spec.name} was not issued: nothing is void")
            if row.void is not None:
                raise ReviseError(f"revision {number} is void already: {row.void.reason}")
            carry = record.sheets if record is not None else ()
            sheets = tuple(sheet.number for sheet in carry if sheet.revision == number)
            void = Void(reason, sheets, rows[-1].number)
            write_over(spec, with_more(text, replace(row, void=void)).encode("utf-8"))
            return sheets
    except OSError as error:
        raise ReviseError(f"{spec}: cannot be changed: {error.strerror or error}") from error
    except (UnicodeDecodeError, RowError, IssueError) as error:
        raise ReviseError(f"{spec}: {error}") from error


def void_issues(spec: Path) -> dict[str, str]:
    """Return why each issue of a spec that is void is so, by its number."""
    return {row.number: row.void.reason for row in _rows(spec) if row.void is not None}


def rows_issued(spec: Path) -> str:
    """Return the number of the last row of a spec that says that it was issued; empty if none does."""
    return next((row.number for row in reversed(_rows(spec)) if row.digest), "")


def _rows(spec: Path) -> tuple[Revision, ...]:
    try:
        return rows_of(read_plain(spec, MOST_BYTES).decode("utf-8"))
    except (OSError, UnicodeDecodeError, RowError):
        return ()
