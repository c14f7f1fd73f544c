"""What a user may name as an old or a new set: a spec, an issued PDF, a folder of a set, or `REV:path` in
git."""

from __future__ import annotations

import io
import logging
import os
import posixpath
import subprocess
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from sheets.base.diagnostics import Diagnostic
from sheets.base.durable import MOST_BYTES, read_plain
from sheets.base.source import Source
from sheets.base.stopwatch import Stopwatch
from sheets.base.text_file import decoded, stem_of
from sheets.commands.one_set import standing_of
from sheets.grammar.reader import read_spec_text
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.pipeline import Solved, solve, solve_reading
from sheets.resolve.own_codes import as_given
from sheets.revisions.keeping import attached
from sheets.revisions.keeping import record as records
from sheets.revisions.keeping.issues import FOLDER, IssueError, issue_folder, records_of
from sheets.revisions.keeping.record import Record, RecordError, from_json
from sheets.revisions.keeping.standing import Standing

_LONGEST_NAME = 255  # bytes; what a file system has
_MOST_STEPS = 20  # folders in the path of a title block
_MOST_ATTACHED = 20  # a set carries four files


class GivenError(Exception):
    """What was named cannot be had; the message says why."""


@dataclass(frozen=True, slots=True)
class Given:
    """A set as named. folder: where its title block is looked for; record: of its latest issue, if it was
    issued.

    version: of the program that made it, None for a spec. as_written: the text of its spec as its author
    wrote it; empty where a set carries only what every default fills in.
    """

    label: str
    stem: str
    solved: Solved
    folder: Path
    record: Record | None
    version: str | None = None
    as_written: bytes = b""

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        return self.solved.diagnostics

    def record_of(self, number: str) -> Record | None:
        """Return the record of an issue, where it is the one that the set carries."""
        return self.record if self.record is not None and self.record.number == number else None

    @property
    def wall(self) -> Wall:
        """The wall with the marks of its issue. Only when it could be solved."""
        wall = self.solved.wall
        assert wall is not None
        return marked(wall, self.record.kept) if self.record is not None else wall


def given(named: str) -> Given:
    """Return the set that a user named. Raises GivenError; what is wrong in a spec is among the
    diagnostics."""
    path = Path(named)
    if path.is_dir():
        return _from_folder(named, path)
    if path.exists():
        if is_pdf(path):
            return _from_pdf(named, _bytes(path))
        return _from_spec(named, path)
    if ":" in named:
        rev, _, inside = named.partition(":")
        if rev and inside and not _is_drive(rev, inside):
            return _from_git(named, rev, inside)
    raise GivenError(f"there is no spec, PDF or folder {named}")


def _is_drive(rev: str, inside: str) -> bool:
    # C:\specs\wall.yaml: a path of Windows that leads to nothing.
    return len(rev) == 1 and rev.isalpha() and inside[0] in "\\/"


def _from_spec(named: str, path: Path) -> Given:
    solved, folder = solve(path), path.resolve().parent
    try:
        stands = standing_of(solved, folder, records_of(path)) if solved.wall is not None else Standing(())
    except IssueError as error:
        raise GivenError(f"{named}: {error}") from error
    return Given(named, stem_of(path), solved, folder, stands.record)


def _from_folder(named: str, path: Path) -> Given:
    from sheets.writers.manifest import NAME

    if not (path / NAME).is_file():
        raise GivenError(f"{named}: is a folder without a {NAME}, so it is not a set's")
    pdfs = sorted(p for p in path.glob("*.pdf") if p.stem != "transmittal")
    holding = [pdf for pdf in pdfs if attached.NAME in _attachments(_bytes(pdf), str(pdf))]
    if len(holding) != 1:
        raise GivenError(f"{named}: holds {len(holding)} PDFs with a spec attached, where one is wanted")
    return _from_pdf(named, _bytes(holding[0]))


def _from_pdf(named: str, data: bytes) -> Given:
    files = _attachments(data, named)
    note = attached.read_note(files.get(attached.NAME, b""))
    name = note.get("spec", "")
    if name not in files or not _plain(name):
        raise GivenError(f"{named}: carries no spec; it is not a set that this program made")
    record = _record(files.get(records.NAME), named)
    folder = _unpacked(note.get("titleblock", ""), files, named)
    table = files.get(posixpath.basename(note.get("codes", "").replace("\\", "/")))
    solved = _solved(files[name], name, lambda _: table)
    as_written = files.get(attached.AS_WRITTEN, b"")
    if solved.spec is None and as_written:
        # A later program may have retired a word that was filled in: its author may never have said it.
        said = _solved(as_written, name, lambda _: table)
        solved = said if said.spec is not None else solved
    return Given(named, Path(name).stem, solved, folder, record, note.get("version", ""), as_written)


def spec_of(pdf: Path) -> tuple[bytes, bool]:
    """Return the spec that the PDF of a set carries, and whether it is as its author wrote it.

    Else it is the spec with every default filled in. Raises GivenError.
    """
    if not is_pdf(pdf):
        raise GivenError(f"{pdf}: is no PDF of a set")
    files = _attachments(_bytes(pdf), str(pdf))
    written = files.get(attached.AS_WRITTEN)
    if written is not None and attached.NAME in files:
        return written, True
    name = attached.read_note(files.get(attached.NAME, b"")).get("spec", "")
    if name not in files:
        raise GivenError(f"{pdf}: carries no spec; it is not a set that this program made")
    return files[name], False


def _from_git(named: str, rev: str, inside: str) -> Given:
    if rev.startswith("-"):
        raise GivenError(f"{rev} is not a revision in git")
    # As git reads it: from the top of the repository, or from here when it begins with a dot; else as seen
    # from here.
    tries = (inside,) if inside.startswith(("./", "../")) else (f"./{inside}", inside)
    data, where, complaint = None, inside, ""
    for where in tries:
        data, complaint = _blob(rev, where)
        if data is not None:
            break
    if data is None:
        raise GivenError(f"{named}: {complaint}")
    if data.startswith(b"%PDF"):
        return _from_pdf(named, data)
    name = posixpath.basename(inside)
    home = posixpath.dirname(where)
    solved = _solved(data, name, lambda table: _blob(rev, posixpath.join(home, table))[0])
    record, folder = None, Path.cwd()
    if solved.wall is not None:
        block = solved.wall.paper.titleblock
        if block.endswith((".yaml", ".yml")):
            content, _ = _blob(rev, posixpath.join(home, block))
            blocks = {} if content is None else {posixpath.basename(block): content}
            folder = _unpacked(block, blocks, named)
        issues = posixpath.join(home, FOLDER, Path(name).stem)

        @cache
        def record_of(number: str) -> Record | None:
            there = posixpath.join(issues, issue_folder(Path(name), number).name, records.NAME)
            return _record(_blob(rev, there)[0], named)

        record = standing_of(solved, folder, record_of).record
    return Given(named, Path(name).stem, solved, folder, record)


def _blob(rev: str, path: str) -> tuple[bytes | None, str]:
    command = ["git", "cat-file", "blob", f"{rev}:{path}"]
    try:
        done = subprocess.run(command, capture_output=True, check=False)
    except OSError:
        return None, "git is not installed, so a revision in git cannot be read"
    if done.returncode != 0:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()
        return None, said[0] if said else "git does not know it"
    return done.stdout, ""


def _solved(data: bytes, name: str, table_of: Callable[[str], bytes | None]) -> Solved:
    text, complaint = decoded(data, name, "a spec")
    if text is None:
        assert complaint is not None
        return Solved(Source(name), None, None, (complaint,))
    return solve_reading(read_spec_text(text, name), Stopwatch(), as_given(table_of))


def _record(data: bytes | None, named: str) -> Record | None:
    if data is None:
        return None
    try:
        return from_json(data)
    except RecordError as error:
        raise GivenError(f"{named}: its record of issue cannot be read: {error}") from error


def _plain(name: str) -> bool:
    # A name that a file can have in any folder, and that leads nowhere else.
    odd = any(sign in "/\0" for sign in name)
    return name not in ("", ".", "..") and not odd and len(os.fsencode(name)) <= _LONGEST_NAME


def _unpacked(titleblock: str, files: Mapping[str, bytes], named: str) -> Path:
    # A title block of the user's own is put where its path says, seen from a folder deep enough for each
    # `..`.
    name = posixpath.basename(titleblock.replace("\\", "/"))
    if not titleblock.endswith((".yaml", ".yml")) or name not in files or os.path.isabs(titleblock):
        return Path.cwd()
    steps = titleblock.replace("\\", "/").split("/")
    if len(steps) > _MOST_STEPS or not all(step in ("", ".", "..") or _plain(step) for step in steps):
        raise GivenError(f"{named}: names a title block by a path that no file can have")
    top = Path(_keep(tempfile.TemporaryDirectory(prefix="shopset-")).name)
    folder = top.joinpath(*(["spec"] * (titleblock.count("..") + 1)))
    target = Path(os.path.normpath(folder / titleblock))
    target.parent.mkdir(parents=True, exist_ok=True)
    folder.mkdir(parents=True, exist_ok=True)
    target.write_bytes(files[name])
    return folder


_kept: list[tempfile.TemporaryDirectory[str]] = []


def _keep(folder: tempfile.TemporaryDirectory[str]) -> tempfile.TemporaryDirectory[str]:
    # Until the program ends: the set is composed later.
    _kept.append(folder)
    return folder


def _attachments(data: bytes, named: str) -> dict[str, bytes]:
    from pypdf import PdfReader

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # what is wrong is said once, here
    try:
        found = PdfReader(io.BytesIO(data)).attachments
        files: dict[str, bytes] = {}
        for name in list(found)[:_MOST_ATTACHED]:
            if contents := found[name]:
                files[name] = contents[0]
            if sum(map(len, files.values())) > MOST_BYTES:
                raise GivenError(f"{named}: carries more than a set does")
        return files
    except GivenError:
        raise
    except Exception as error:  # of a crafted file the library may raise anything
        raise GivenError(f"{named}: is not a PDF that can be read ({error})") from error


def is_pdf(path: Path) -> bool:
    """Return whether a file is a PDF. Raises GivenError if it cannot be read; waits for no pipe."""
    return _bytes(path).startswith(b"%PDF-")


def _bytes(path: Path) -> bytes:
    try:
        return read_plain(path)
    except (OSError, ValueError) as error:
        raise GivenError(f"{path}: cannot be read: {getattr(error, 'strerror', None) or error}") from error
