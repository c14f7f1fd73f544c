"""The issue record: one folder an issue, `issues/<spec>/<number>/` beside the spec. Never written over,
verifiable.

An issue is written aside and moved into place with one rename: it is there whole, or it is not there.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext, suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from sheets.base.diagnostics import Diagnostic
from sheets.base.durable import (
    alone_in,
    aside_prefix,
    flush_folder,
    left_beside,
    read_plain,
    sweep_beside,
    write_through,
)
from sheets.base.text_file import MOST_BYTES
from sheets.model.wall import Revision
from sheets.revisions.keeping.record import NAME, Record, RecordError, from_json
from sheets.revisions.keeping.spec_row import RowError, rows_of

FOLDER = "issues"
HASHES = "hashes.json"
_ODD = re.compile(r"[^A-Za-z0-9._-]+")
_MARK = aside_prefix("")[1:]  # in the name of what is written aside


class IssueError(Exception):
    """An issue cannot be written or read; the message says why and that nothing was changed."""


@dataclass(frozen=True, slots=True)
class Issue:
    """An issue that stands. problem: why its record cannot be read, or empty."""

    folder: Path
    number: str
    record: Record | None
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Altered:
    """A file of an issue that is not what was issued."""

    name: str
    how: str  # "altered", "missing", "added"


def issues_folder(spec: Path) -> Path:
    """Return the folder that holds the issues of a spec.

    It is called as the spec is. Those of a spec that was renamed are found by its last row: the folder that
    holds that issue and whose own spec is gone; the issues to come go there as well.
    """
    home = spec.resolve().parent / FOLDER / spec.stem
    if home.is_dir() or not home.parent.is_dir():
        return home
    try:
        rows = rows_of(read_plain(spec, MOST_BYTES).decode("utf-8"))
    except (OSError, UnicodeDecodeError, RowError):
        return home
    if not rows:
        return home
    found = [other for other in home.parent.iterdir() if _left_alone(other) and _holds(other, rows)]
    return found[0] if len(found) == 1 and not _copied(spec, rows) else home


def _copied(spec: Path, rows: Sequence[Revision]) -> bool:
    # Whether another spec beside says that it was issued so: then neither can be told to be the one.
    digest = rows[-1].digest.encode("ascii", "replace")
    others = (one for one in spec.resolve().parent.glob("*.y*ml") if one.name != spec.name)
    return bool(digest) and any(_has(one, digest) for one in others)


def _has(spec: Path, digest: bytes) -> bool:
    with suppress(OSError):
        return digest in read_plain(spec, MOST_BYTES)
    return False


def _left_alone(home: Path) -> bool:
    # Not the issues of another spec that is there: a copy of that would take them for its own.
    beside = home.parent.parent
    return home.is_dir() and not any((beside / f"{home.name}{end}").exists() for end in (".yaml", ".yml"))


def _holds(home: Path, rows: Sequence[Revision]) -> bool:
    for row in reversed(rows):
        record = _issue(_folder_in(home, row.number)).record
        if record is not None:
            return (record.date, record.by, record.reason) == (row.date, row.by, row.reason)
    return False


def issue_folder(spec: Path, number: str) -> Path:
    """Return the folder of one issue. A number that is no plain name is written in one."""
    return _folder_in(issues_folder(spec), number)


def _folder_in(home: Path, number: str) -> Path:
    plain = _ODD.sub("-", number).strip(".-")[:40] or "issue"
    if plain != number:
        plain += "-" + hashlib.sha256(number.encode("utf-8")).hexdigest()[:8]
    return home / plain


def issues_of(spec: Path) -> tuple[Issue, ...]:
    """Return the issues of a spec, the earliest first: an issue follows the one it was compared with."""
    home = issues_folder(spec)
    folders = (
        sorted(p for p in home.iterdir() if p.is_dir() and not p.name.startswith("."))
        if home.is_dir()
        else []
    )
    found = [_issue(folder) for folder in folders]
    ordered: list[Issue] = []
    left = sorted(found, key=lambda one: (one.record.date if one.record else "9999", _natural(one.number)))
    while left:
        done = {one.number for one in ordered}
        waiting = {one.number for one in left}
        first = next(
            (
                one
                for one in left
                if one.record is None
                or one.record.earlier in done
                or one.record.earlier not in waiting
                or one.record.earlier == one.number
            ),
            left[0],
        )
        left.remove(first)
        ordered.append(first)
    return tuple(ordered)


def record_for(spec: Path, number: str) -> tuple[Record | None, tuple[Diagnostic, ...]]:
    """Return the record of an issue of a spec; None if it was not issued. A record that cannot be read is
    an error."""
    try:
        return records_of(spec)(number), ()
    except IssueError as error:
        return None, (unreadable(error),)


def records_of(spec: Path) -> Callable[[str], Record | None]:
    """Return what reads the record of an issue of a spec by its number: None for one that is not there.

    It raises IssueError for a record that cannot be read.
    """

    home = issues_folder(spec)

    def record_of(number: str) -> Record | None:
        folder = _folder_in(home, number)
        if not folder.is_dir():
            return None
        issue = _issue(folder)
        if issue.record is None:
            raise IssueError(f"issue {number} in {folder.name} cannot be read: {issue.problem}")
        return issue.record

    return cache(record_of)


def unreadable(error: IssueError) -> Diagnostic:
    """Return the error of an issue whose record cannot be read."""
    return Diagnostic("issue-unreadable", "error", str(error), help="Restore the folder from a copy.")


def publish(
    folder: Path,
    files: Mapping[str, bytes],
    *,
    tag: str = "x",
    around: AbstractContextManager[None] | None = None,
) -> None:
    """Write an issue's folder: aside, flushed, then moved into place by one rename. files: by plain name.

    around: entered when all is written and only the rename is left. tag: what the name aside ends with, by
    which `put_right` knows what the issue goes with. Raises IssueError if the folder is there already, or if
    the outside world refuses; then nothing was changed.
    """
    if os.path.lexists(folder):
        raise IssueError(f"{folder}: is there already; an issue is never written over")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with alone_in(folder.parent):
            for left in _asides(folder.parent):
                _drop(left)
            aside = folder.parent / f"{aside_prefix(folder.name)}{tag}"
            try:
                aside.mkdir()
                for name in sorted(files):
                    write_through(aside / name, files[name])
                write_through(aside / HASHES, hashes(files))
                flush_folder(aside)
                if os.path.lexists(folder):
                    raise IssueError(f"{folder}: was issued by another run meanwhile; nothing was changed")
                with around or nullcontext():
                    os.rename(aside, folder)
            finally:
                _drop(aside)
            with suppress(OSError):
                flush_folder(folder.parent)
    except OSError as error:
        raise IssueError(f"{folder}: {error.strerror or error}; nothing was issued") from error


def put_right(spec: Path) -> tuple[str, ...]:
    """Put right what a run of `revise` that died has left of a spec's issue, and return what to tell of it.

    An issue that was whole, with its row in the spec as it stands, is moved into place; all else that lies
    aside is deleted: then it is as before the run. Where nothing can be written, nothing is done.
    """
    target = Path(os.path.realpath(spec))
    home = issues_folder(spec)
    told: list[str] = []
    with suppress(OSError):
        if not left_beside(target) and not _asides(home):
            return ()
        with alone_in(target.parent):
            text = target.read_bytes() if target.is_file() else b""
            if sweep_beside(target):
                told.append(f"{spec}: an earlier run was ended while it wrote; the spec is whole")
            with alone_in(home) if home.is_dir() else nullcontext():
                told += [_put_right(spec, aside, tag_of(text)) for aside in _asides(home)]
    return tuple(told)


def tag_of(text: bytes) -> str:
    """Return what the name of an issue aside ends with, whose row is in the spec of that text."""
    return hashlib.sha256(text).hexdigest()[:16]


def _put_right(spec: Path, aside: Path, tag: str) -> str:
    name, _, found = aside.name[1:].rpartition(_MARK)
    folder = aside.parent / name
    with suppress(IssueError):
        if found == tag and not os.path.lexists(folder) and not verify(aside):
            os.rename(aside, folder)
            return f"{spec}: an earlier run was ended when revision {name} was written; it is issued now"
    _drop(aside)
    return f"{spec}: an earlier run was ended before revision {name} was issued; what it left is cleared away"


def _asides(home: Path) -> list[Path]:
    if not home.is_dir():
        return []
    return sorted(p for p in home.iterdir() if p.name.startswith(".") and _MARK in p.name and p.is_dir())


def _drop(aside: Path) -> None:
    # The list of hashes first: without it, what is left can never be taken for a whole issue.
    with suppress(OSError):
        (aside / HASHES).unlink(missing_ok=True)
        shutil.rmtree(aside, ignore_errors=True)


def hashes(files: Mapping[str, bytes]) -> bytes:
    """Return the list of the files of an issue with their SHA-256, as JSON."""
    content = {name: hashlib.sha256(files[name]).hexdigest() for name in sorted(files)}
    return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def verify(folder: Path) -> tuple[Altered, ...]:
    """Return what in an issue's folder is not what was issued. Raises IssueError if that cannot be told."""
    try:
        listed = json.loads((folder / HASHES).read_text("utf-8"))
        present = {path.name for path in folder.iterdir()}
    except (OSError, ValueError) as error:
        raise IssueError(f"{folder}: its {HASHES} cannot be read ({error})") from error
    if not isinstance(listed, dict):
        raise IssueError(f"{folder}: its {HASHES} is not a list of files")
    found: list[Altered] = []
    for name in sorted(listed):
        if name not in present:
            found.append(Altered(name, "missing"))
        elif hashlib.sha256((folder / name).read_bytes()).hexdigest() != listed[name]:
            found.append(Altered(name, "altered"))
    found += [Altered(name, "added") for name in sorted(present - listed.keys() - {HASHES})]
    return tuple(found)


def _issue(folder: Path) -> Issue:
    try:
        record = from_json(read_plain(folder / NAME))
    except (OSError, RecordError) as error:
        return Issue(folder, folder.name, None, str(error))
    return Issue(folder, record.number, record)


def _natural(number: str) -> tuple[tuple[int, int | str], ...]:
    return tuple((0, int(w)) if w.isdigit() else (1, w) for w in re.findall(r"\d+|\D+", number))
