"""A set's folder, all or nothing: written aside in full, then the two folders change places in one step.

A folder may hold more than the set: photographs, a marked-up print, notes. They are the user's. Each is
linked into the new folder before it takes the old one's place, so that at every instant, whatever ends the
run, the folder has all of them. Of the set's own files those go that the manifest lists with the bytes they
have; one that someone has altered is kept under a name of its own.

What a run that died has left aside is put right by the next one, which holds the lock and so knows that
nobody else is at work. Aside is a folder named after the number (inode) that the system gave it: while it has
that number it is a new set on its way in, to be dropped; after the exchange the name stands for the old
set.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import stat
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from sheets.base.durable import alone_in, aside_prefix, exchange, flush_folder, read_plain, write_through
from sheets.writers.manifest import NAME, PROGRAM, carried_on

_OLD = "old"  # the name aside of a set that waits for the new one, where folders cannot change places


class FolderError(Exception):
    """The folder cannot be written; the message says why and what was left."""


@dataclass(frozen=True, slots=True)
class _Standing:
    """What stands in a set's folder. listed: SHA-256 of each file of ours by its name, from its manifest."""

    manifest: bytes = b""
    listed: Mapping[str, str] = field(default_factory=dict)

    def ours(self, path: Path) -> bool:
        """Return whether a file is as the manifest lists it, so that nothing is lost with it."""
        if path.name == NAME and self.manifest:
            return True
        wanted = self.listed.get(path.name)
        return wanted is not None and _sha256(path) == wanted


def write_folder(target: Path, files: Mapping[str, bytes], *, beside: bool = False) -> tuple[str, ...]:
    """Put files, by name, into the folder `target`, in place of the set that was there.

    beside: leave the other files of ours that stand there, and list them on. Returns what the user should
    know: what a dead run had left, what had been altered and is kept. Raises FolderError if the folder is not
    a set's, or if the outside world refuses; then all is as before.
    """
    target = Path(os.path.realpath(target))
    for above in target.parents:
        if os.path.lexists(above) and not above.is_dir():
            raise FolderError(f"{above}: is no folder to put {target.name} in; nothing was changed")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with alone_in(target.parent):
            told = _put_right(target)
            standing = _standing(target)
            if beside and standing is not None:
                files = {**files, NAME: carried_on(standing.manifest, files[NAME])}
            try:
                return (*told, *_replaced(target, files, standing, beside))
            finally:
                _clear_up(target)
    except (OSError, RecursionError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise FolderError(f"{target}: {reason}; nothing was changed") from error


def as_it_stands(target: Path, manifest: str) -> Mapping[str, object] | None:
    """Return what a folder's manifest says, if it has that SHA-256 and each file listed is as listed."""
    try:
        data = read_plain(target / NAME)
        if hashlib.sha256(data).hexdigest() != manifest:
            return None
        content: dict[str, object] = json.loads(data)
        files: list[dict[str, str]] = content["files"]  # type: ignore[assignment]
        return content if all(_sha256(target / file["name"]) == file["sha256"] for file in files) else None
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None


def cleared(target: Path) -> tuple[str, ...]:
    """Put right what dead runs left beside a folder that need not be written, and return what to tell of it.

    Raises FolderError if the outside world refuses.
    """
    target = Path(os.path.realpath(target))
    prefix = aside_prefix(target.name)
    try:
        if not any(path.name.startswith(prefix) for path in target.parent.iterdir()):
            return ()
        with alone_in(target.parent):
            return _put_right(target)
    except (OSError, RecursionError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise FolderError(f"{target}: {reason}; nothing was changed") from error


def _standing(target: Path) -> _Standing | None:
    # None where there is no folder.
    if not os.path.lexists(target):
        return None
    if not target.is_dir():
        raise FolderError(f"{target}: is a file, where the set's folder should be; nothing was changed")
    present = os.listdir(target)
    if not present:
        return _Standing()
    try:
        data = read_plain(target / NAME) if NAME in present else b"{}"
        content = json.loads(data)
    except (OSError, ValueError, RecursionError) as error:
        raise FolderError(f"{target}: its {NAME} cannot be read ({error}); nothing was changed") from error
    if not isinstance(content, dict) or content.get("program") != PROGRAM:
        raise FolderError(
            f"{target}: holds files that are not a drawing set's; nothing was changed. "
            "Choose another folder with -o, or move them."
        )
    entries = content.get("files")
    listed = [entry for entry in entries if isinstance(entry, dict)] if isinstance(entries, list) else []
    return _Standing(data, {str(entry.get("name")): str(entry.get("sha256")) for entry in listed})


def _replaced(
    target: Path, files: Mapping[str, bytes], standing: _Standing | None, beside: bool
) -> tuple[str, ...]:
    aside = _new_folder(target)
    _write_all(aside, files)
    told = () if standing is None else _carry(target, aside, files, standing, beside)
    flush_folder(aside)
    if standing is None:
        os.rename(aside, target)
    elif not exchange(aside, target):
        _change_places(aside, target)
    with suppress(OSError):  # the new set stands; only its safety against a power cut is in doubt
        flush_folder(target.parent)
    return told


def _clear_up(target: Path) -> None:
    # What cannot be cleared away now, the next run finds. An interrupt here is heeded when it is done.
    try:
        with suppress(OSError):
            _put_right(target)
    except BaseException:
        with suppress(OSError):
            _put_right(target)
        raise


def _carry(
    target: Path, aside: Path, files: Mapping[str, bytes], standing: _Standing, beside: bool
) -> tuple[str, ...]:
    # Link what is not ours to drop into the new folder, and return what is to be told of it.
    told: list[str] = []
    for path in sorted(target.iterdir()):
        if path.name not in files:
            if beside or not standing.ours(path):
                _link(path, aside / path.name)
        elif not standing.ours(path) and not _holds(path, files[path.name]):
            kept = _free_name(path, (target, aside))
            if kept is not None:
                _link(path, aside / kept)
                told.append(f"{target / path.name}: was not as it had been drawn; it is kept as {kept}")
    return tuple(told)


def _link(path: Path, to: Path) -> None:
    # One file under two names: whichever folder goes, it is there, and whoever writes in it writes in both.
    if path.is_dir() and not path.is_symlink():
        to.mkdir()
        for inner in sorted(path.iterdir()):
            _link(inner, to / inner.name)
        shutil.copystat(path, to)
        return
    try:
        os.link(path, to, follow_symlinks=False)
    except OSError:
        if not path.is_symlink() and not path.is_file():
            raise
        shutil.copy2(path, to, follow_symlinks=False)  # a disk without links


def _free_name(path: Path, taken: tuple[Path, ...]) -> str | None:
    # "parts.kept-1.csv"; None if a file kept earlier holds the same.
    for k in range(1, 1000):
        name = f"{path.stem}.kept-{k}{path.suffix}"
        there = [folder / name for folder in taken if os.path.lexists(folder / name)]
        if not there:
            return name
        if any(_same(path, one) for one in there):
            return None
    raise FolderError(f"{path}: was altered, and there is no name left to keep it under; nothing was changed")


def _put_right(target: Path) -> tuple[str, ...]:
    # What dead runs have left. The lock is held: none of it belongs to a run that still goes on.
    prefix = aside_prefix(target.name)
    left = sorted(p for p in target.parent.iterdir() if p.name.startswith(prefix))
    told: list[str] = []
    for path in left:
        if path.name == prefix + _OLD and not os.path.lexists(target):
            os.rename(path, target)
            told.append(f"{target}: an earlier run was ended while it wrote; the set is put back")
    for path in left:
        if path.is_dir():
            moved = _emptied(path, target)
            done = [f"{name} is back" for name in moved] or ["what it left is cleared away"]
            told += [f"{target}: an earlier run was ended while it wrote; {what}" for what in done]
    return tuple(told)


def _emptied(aside: Path, target: Path) -> tuple[str, ...]:
    # Delete a folder aside, and move back into the set's folder what is nowhere else. Returns those names.
    if not os.path.lexists(aside):
        return ()
    moved: list[str] = []
    if not aside.name.endswith(f"-{aside.stat().st_ino}"):
        # An old set; what arrived in it late is the user's.
        standing = _standing_or_nothing(aside)
        if standing is None:
            return ()
        for path in sorted(aside.iterdir()):
            if not standing.ours(path) and not _is_in(path, target / path.name):
                name = path.name if not os.path.lexists(target / path.name) else _free_name(path, (target,))
                if name is not None and not _kept_already(path, target):
                    os.rename(path, target / name)
                    moved.append(name)
    for path in sorted(aside.iterdir(), key=lambda path: path.name == NAME):
        # Its manifest last: as long as a file is there, it can be told whose it is.
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink()
    shutil.rmtree(aside, ignore_errors=True)
    return tuple(moved)


def _standing_or_nothing(folder: Path) -> _Standing | None:
    # None where its manifest cannot be read now: whose the files are, a later run can tell.
    try:
        return _standing(folder) or _Standing()
    except FolderError as error:
        return None if isinstance(error.__cause__, OSError) else _Standing()


def _is_in(path: Path, other: Path) -> bool:
    # Whether all that a file or a folder holds is under another name too.
    if path.is_dir() and not path.is_symlink():
        return other.is_dir() and all(_is_in(inner, other / inner.name) for inner in path.iterdir())
    return os.path.lexists(other) and _same(path, other)


def _kept_already(path: Path, target: Path) -> bool:
    return any(_same(path, kept) for kept in target.glob(f"{_escaped(path.stem)}.kept-*"))


def _escaped(name: str) -> str:
    return "".join(f"[{sign}]" if sign in "*?[" else sign for sign in name)


def _same(one: Path, other: Path) -> bool:
    first, second = os.lstat(one), os.lstat(other)
    if (first.st_dev, first.st_ino) == (second.st_dev, second.st_ino):
        return True
    if stat.S_ISLNK(first.st_mode) and stat.S_ISLNK(second.st_mode):
        return os.readlink(one) == os.readlink(other)
    return stat.S_ISREG(first.st_mode) and first.st_size == second.st_size and _sha256(one) == _sha256(other)


def _holds(path: Path, data: bytes) -> bool:
    with suppress(OSError):
        return path.is_file() and path.stat().st_size == len(data) and read_plain(path) == data
    return False


def _sha256(path: Path) -> str | None:
    # None of what is no plain file that can be read.
    try:
        status = os.lstat(path)
        if not stat.S_ISREG(status.st_mode):
            return None
        with open(path, "rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return None


def _write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    # Side by side: most of the time is spent waiting for the disk, which takes several files as soon as one.
    with ThreadPoolExecutor() as pool:
        for _ in pool.map(lambda name: write_through(folder / name, files[name]), sorted(files)):
            pass


def _new_folder(target: Path) -> Path:
    # Beside the target, so that they can change places.
    first = target.parent / f"{aside_prefix(target.name)}new"
    first.mkdir()
    aside = target.parent / f"{aside_prefix(target.name)}{first.stat().st_ino}"
    os.rename(first, aside)
    if standing := (target.stat() if target.is_dir() else None):
        with suppress(OSError):
            os.chmod(aside, stat.S_IMODE(standing.st_mode))
    return aside


def _change_places(aside: Path, target: Path) -> None:
    # In two steps, where the system knows no other way; between them the next run finds the old set.
    old = target.parent / (aside_prefix(target.name) + _OLD)
    os.rename(target, old)
    try:
        os.rename(aside, target)
    except BaseException:
        os.rename(old, target)
        raise
