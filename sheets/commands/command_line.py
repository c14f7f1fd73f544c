"""The commands of revisions as the command line has them: compare, changes, revise, issues. Each imports what
it needs.

Exit status as everywhere: 0 good, 1 findings, 2 the input is wrong.
"""

from __future__ import annotations

import os
import sys
import unicodedata
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from sheets.base.diagnostics import Diagnostic, has_errors, in_order, print_text
from sheets.base.durable import write_over
from sheets.base.text_file import shown_name

_GOOD, _FINDINGS, _WRONG = 0, 1, 2
_NAMED = "A spec, an issued PDF, a folder of a set, or REV:path in git."


def register(app: typer.Typer) -> None:
    """Add the commands to the program's."""
    app.command("compare")(compare_command)
    app.command("changes")(changes_command)
    app.command("revise")(revise_command)
    app.command("issues")(issues_command)


def compare_command(
    old: Annotated[str, typer.Argument(metavar="OLD", help=_NAMED, show_default=False)],
    new: Annotated[str, typer.Argument(metavar="NEW", help=_NAMED, show_default=False)],
    form: Annotated[str, typer.Option("--format", metavar="text|json", help="How to report.")] = "text",
    pdf: Annotated[
        Path | None,
        typer.Option("--pdf", metavar="FILE", help="Write before and after laid over each other."),
    ] = None,
    pictures: Annotated[
        Path | None, typer.Option("--pictures", metavar="DIR", help="A PNG of each sheet that changed.")
    ] = None,
    of: Annotated[
        Path | None,
        typer.Option("--of", metavar="SPEC", help="OLD and NEW may be numbers of this spec's issues."),
    ] = None,
) -> None:
    """Say what changed from OLD to NEW, in the trade's words, by assembly."""
    from sheets.base.stopwatch import Stopwatch
    from sheets.commands import comparison
    from sheets.commands.given import GivenError, given
    from sheets.commands.history import issue_named

    if form not in ("text", "json"):
        raise _wrong(f"--format is text or json, not {form}")
    try:
        if of is not None:
            old, new = issue_named(of, old), issue_named(of, new)
        before, after = given(old), given(new)
    except GivenError as error:
        raise _wrong(str(error)) from None
    _say(tuple(d for side in (before, after) for d in side.diagnostics if d.severity == "error"))
    if before.solved.wall is None or after.solved.wall is None:
        raise typer.Exit(_WRONG)
    _note(comparison.version_notes(before, after))
    if pdf is not None:
        _refuse_other_files(pdf, (old, new))
    before = comparison.as_called_by(after, before)
    draws = pdf is not None or pictures is not None
    found = comparison.compared(before, after, Stopwatch() if draws else None)
    sets = None
    if draws:
        earlier, later, said = comparison.bare_sets(found, before, after, Stopwatch())
        _say(said)
        if has_errors(said):
            raise typer.Exit(_WRONG)
        sets = earlier, later
    lines = comparison.sheet_lines_of(before, after, sets)
    report = comparison.text if form == "text" else comparison.as_json
    typer.echo(report(found, before, after, lines), nl=False)
    if sets is None:
        return
    words = comparison.text(found, before, after, lines)
    for name, data in comparison.laid_over(
        sets, words, after.stem, pdf=pdf is not None, pictures=pictures is not None
    ):
        target = pdf if pdf is not None and name == comparison.PDF_NAME else (pictures or Path()) / name
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            write_over(target, data)
        except OSError as error:
            raise _wrong(f"{target}: cannot be written: {error.strerror or error}") from None
        typer.echo(f"{target}: written", err=True)


def changes_command(
    base: Annotated[str, typer.Argument(metavar="BASE", help="A revision in git.", show_default=False)],
    specs: Annotated[
        list[Path],
        typer.Argument(metavar="SPEC...", help="Specs, or folders of them.", show_default=False),
    ],
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="DIR", help="Pictures of changed sheets and a PDF of each spec."),
    ] = None,
    jobs: Annotated[
        int, typer.Option("-j", "--jobs", metavar="N", min=1, help="Compare N specs at a time.")
    ] = 1,
    cache: Annotated[
        Path | None, typer.Option("--cache", metavar="DIR", help="Keep what was compared in DIR.")
    ] = None,
    shard: Annotated[
        str, typer.Option("--shard", metavar="K/N", help="Only the K-th of N shares of the specs.")
    ] = "1/1",
) -> None:
    """List as Markdown what changed in each spec since BASE: new, changed, renamed, removed.

    A spec that is wrong is told in its place, and is no reason for another status than 0.
    """
    from sheets.commands.changes import listed
    from sheets.commands.named_specs import NamedError, named, share_from, share_of
    from sheets.commands.since import asked, pairs

    try:
        share, given = share_from(shard), named(specs)
        found = pairs(base, given, asked(base, Path()), out=out, store=cache)
    except NamedError as error:
        raise _wrong(str(error)) from None
    mine = set(share_of([pair.spec for pair in found], share))
    for text in listed([pair for pair in found if pair.spec in mine], jobs):
        typer.echo(text, nl=False)


def revise_command(
    spec: Annotated[Path, typer.Argument(metavar="SPEC", help="Spec file (YAML).", show_default=False)],
    number: Annotated[
        str, typer.Option("--number", metavar="N", help="Number or letter of the revision.")
    ] = "",
    old: Annotated[
        str | None,
        typer.Option("--from", metavar="OLD", help=f"The issue it follows; the latest if left out. {_NAMED}"),
    ] = None,
    by: Annotated[str, typer.Option("--by", metavar="INITIALS", help="Who issues it.")] = "",
    reason: Annotated[str, typer.Option("--reason", help="Why; what changed if left out.")] = "",
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="The project's date if left out.")
    ] = "",
    to: Annotated[str, typer.Option("--to", help="To whom it is sent, for the transmittal page.")] = "",
    sheets: Annotated[
        str, typer.Option("--sheets", metavar="Z-101,...", help="Send these sheets only, with the index.")
    ] = "",
    unchanged: Annotated[
        bool, typer.Option("--unchanged", help="Issue it even if nothing has changed.")
    ] = False,
    first: Annotated[
        bool, typer.Option("--first", help="The rows in the spec are of no issue that is kept.")
    ] = False,
    void: Annotated[
        str,
        typer.Option("--void", metavar="N", help="Issue nothing: mark issue N as not to be used (--reason)."),
    ] = "",
) -> None:
    """Issue a revision: a row in the spec, marks on what changed, and a folder of its own in issues/."""
    from sheets.base.stopwatch import Stopwatch
    from sheets.commands.comparison import version_notes
    from sheets.commands.given import GivenError, given
    from sheets.commands.history import ReviseError, latest_issue
    from sheets.commands.revising import NothingChangedError, Wanted, revise
    from sheets.revisions.keeping.issues import IssueError, put_right

    for option, words in (("number", number), ("by", by), ("reason", reason), ("date", date), ("to", to)):
        _refuse_odd_signs(option, words)
    if bool(number) == bool(void):
        raise _wrong("revise wants --number N for a new revision, or --void N for one that is not to be used")
    _note(put_right(spec))
    if void:
        if old is not None or unchanged or first or any((by, date, to, sheets)):
            raise _wrong("--void goes with --reason and with nothing else")
        _void(spec, void, reason)
        return
    chosen = tuple(word for word in (each.strip() for each in sheets.split(",")) if word)
    wanted = Wanted(number, by, reason, date, to, chosen, unchanged, first)
    try:
        earlier = given(old) if old is not None else latest_issue(spec)
        if earlier is not None:
            _note(version_notes(earlier))
            if earlier.solved.wall is None:
                _say(earlier.diagnostics)
                raise typer.Exit(_WRONG)
        try:
            made = revise(spec, earlier, wanted, Stopwatch())
        except NothingChangedError as error:
            if not (sys.stdin.isatty() and sys.stderr.isatty()):
                raise
            if not typer.confirm(f"{error}. Issue it all the same?", err=True):
                raise typer.Exit(_WRONG) from None
            made = revise(spec, earlier, replace(wanted, unchanged=True), Stopwatch())
    except (GivenError, IssueError, ReviseError) as error:
        raise _wrong(str(error)) from None
    if isinstance(made, tuple):
        _say(made)
        raise typer.Exit(_WRONG)
    _say(made.diagnostics)
    typer.echo(f"{made.folder}: revision {made.record.number}, {made.record.reason}")
    for line in made.record.lines:
        typer.echo(f"  {line.number}  {line.revision:>3}  {line.says:<9}  {line.title}")
    if made.comparison is not None and made.comparison.retired_now:
        typer.echo(f"marks retired: {', '.join(made.comparison.retired_now)}")
    raise typer.Exit(_FINDINGS if any(d.severity == "warning" for d in made.diagnostics) else _GOOD)


def _void(spec: Path, number: str, reason: str) -> None:
    from sheets.commands.history import ReviseError, void_issue

    if not reason.strip():
        raise _wrong("--void wants the reason, --reason: it stands on the sheets")
    try:
        carried = void_issue(spec, number, reason)
    except ReviseError as error:
        raise _wrong(str(error)) from None
    typer.echo(f"{spec}: revision {number} is void: {reason}")
    typer.echo(f"  not to be used: {', '.join(carried) or 'all its sheets'}")
    typer.echo("  the sheets and the transmittal of the next issue say so; tell those who have prints now")


def issues_command(
    spec: Annotated[Path, typer.Argument(metavar="SPEC", help="Spec file (YAML).", show_default=False)],
    verify: Annotated[
        bool, typer.Option("--verify", help="Say whether a file of an issue was altered.")
    ] = False,
) -> None:
    """List the issues of a spec, the earliest first."""
    from sheets.commands.history import rows_issued, stands_to_issues, void_issues
    from sheets.revisions.keeping.issues import IssueError, issues_folder, issues_of, put_right
    from sheets.revisions.keeping.issues import verify as altered

    _note(put_right(spec))
    issues = issues_of(spec)
    if not issues:
        gone = rows_issued(spec)
        though = f", though its row of {gone} says that it was issued; was it moved?" if gone else ""
        typer.echo(f"{spec}: no issue in {issues_folder(spec)}{though}")
        raise typer.Exit(_FINDINGS if gone else _GOOD)
    worst = _GOOD
    void = void_issues(spec)
    for issue in issues:
        record = issue.record
        if record is None:
            typer.echo(shown_name(f"{issue.number}: cannot be read: {issue.problem}"))
            worst = _FINDINGS
        else:
            said = [
                record.date,
                record.by,
                record.status,
                f"to {record.sent_to}" if record.sent_to else "",
                record.reason,
                f"void: {void[record.number]}" if record.number in void else "",
            ]
            changed = sum(sheet.revision == record.number for sheet in record.sheets)
            typer.echo(shown_name(f"{record.number}: {', '.join(word for word in said if word)}"))
            typer.echo(f"   {issue.folder}, {changed} of {len(record.sheets)} sheets carry {record.number}")
        if verify:
            try:
                found = altered(issue.folder)
            except IssueError as error:
                typer.echo(f"   {error}")
                worst = _FINDINGS
                continue
            for one in found:
                typer.echo(f"   {one.name}: {one.how}")
                worst = _FINDINGS
            if not found:
                typer.echo("   as issued")
    typer.echo(f"{spec}: {stands_to_issues(spec)}")
    raise typer.Exit(worst)


def _refuse_other_files(pdf: Path, inputs: tuple[str, ...]) -> None:
    # What is written may take the place of an earlier comparison, and of nothing else.
    from sheets.commands.given import GivenError, is_pdf

    if any(Path(one).exists() and pdf.exists() and pdf.samefile(one) for one in inputs):
        raise _wrong(f"{pdf}: is one of the two that are compared; nothing was written")
    if not os.path.lexists(pdf):
        return
    try:
        other = not is_pdf(pdf)
    except GivenError as error:
        raise _wrong(str(error)) from None
    if other:
        raise _wrong(f"{pdf}: is there, and is no PDF; nothing was written")


def _refuse_odd_signs(option: str, words: str) -> None:
    # Of the signs that print nothing: in a spec, on a sheet or to a terminal they only do harm.
    odd = next((sign for sign in words if unicodedata.category(sign) in ("Cc", "Cf", "Cs")), None)
    if odd is not None:
        raise _wrong(f"--{option} holds a character that is no text: U+{ord(odd):04X}")


def _note(lines: Iterable[str]) -> None:
    for line in lines:
        typer.echo(f"note: {line}", err=True)


def _say(found: tuple[Diagnostic, ...]) -> None:
    if found:
        typer.echo(print_text(in_order(found)), err=True, nl=False)


def _wrong(message: str) -> typer.Exit:
    typer.echo(f"error: {message}", err=True)
    return typer.Exit(_WRONG)
