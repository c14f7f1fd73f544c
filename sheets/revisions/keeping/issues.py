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
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sheets.base.diagnostics import Diagnostic
from sheets.base.durable import flush_folder, write_through
from sheets.revisions.keeping.record import NAME, Record, RecordError, from_json

FOLDER = "issues"
HASHES = "hashes.json"
_ODD = re.compile(r"[^A-Za-z0-9._-]+")
_ASIDE = ".unfinished-"


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
    """Return the folder that holds the issues of a spec."""
    return spec.resolve().parent / FOLDER / spec.stem


def issue_folder(spec: Path, number: str) -> Path:
    """Return the folder of one issue. A number that is no plain name is written in one."""
    plain = _ODD.sub("-", number).strip(".-")[:40] or "issue"
    if plain != number:
        plain += "-" + hashlib.sha256(number.encode("utf-8")).hexdigest()[:8]
    return issues_folder(spec) / plain


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
    folder = issue_folder(spec, number)
    if not folder.is_dir():
        return None, ()
    issue = _issue(folder)
    if issue.record is None:
        message = f"issue {number} in {folder.name} cannot be read: {issue.problem}"
        return None, (
            Diagnostic("issue-unreadable", "error", message, help="Restore the folder from a copy."),
        )
    return issue.record, ()


def publish(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write an issue's folder: aside, flushed, then moved into place by one rename. files: by plain name.

    Raises IssueError if the folder is there already, or if the outside world refuses; then nothing was
    changed.
    """
    if os.path.lexists(folder):
        raise IssueError(f"{folder}: is there already; an issue is never written over")
    aside: Path | None = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        aside = _new_aside(folder)
        for name in sorted(files):
            write_through(aside / name, files[name])
        write_through(aside / HASHES, hashes(files))
        flush_folder(aside)
        # On every system a rename onto a folder that holds files fails: of two runs at once the first wins.
        os.rename(aside, folder)
        with suppress(OSError):
            flush_folder(folder.parent)
    except OSError as error:
        if os.path.lexists(folder) and aside is not None and aside.exists():
            raise IssueError(f"{folder}: was issued by another run meanwhile; nothing was changed") from error
        raise IssueError(f"{folder}: {error.strerror or error}; nothing was issued") from error
    finally:
        if aside is not None:
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
        record = from_json((folder / NAME).read_bytes())
    except (OSError, RecordError) as error:
        return Issue(folder, folder.name, None, str(error))
    return Issue(folder, record.number, record)


def _natural(number: str) -> tuple[tuple[int, int | str], ...]:
    return tuple((0, int(w)) if w.isdigit() else (1, w) for w in re.findall(r"\d+|\D+", number))


def _new_aside(folder: Path) -> Path:
    _sweep(folder.parent)
    for k in range(100):
        aside = folder.parent / f"{_ASIDE}{folder.name}-{os.getpid()}-{k}"
        with suppress(FileExistsError):
            aside.mkdir()
            return aside
    raise IssueError(f"{folder.parent}: is full of unfinished issues ({_ASIDE}*); delete them")


def _sweep(home: Path) -> None:
    # What runs that were killed have left; those of runs that still go on are let be.
    for path in sorted(home.glob(f"{_ASIDE}*")):
        words = path.name.rsplit("-", 2)
        if len(words) == 3 and words[1].isdigit() and not _runs(int(words[1])):
            shutil.rmtree(path, ignore_errors=True)


def _runs(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
