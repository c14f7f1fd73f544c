"""A set's folder, all or nothing: written aside in full, then moved into place whole.

A failure at any step leaves the earlier set as it was.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path

from sheets.base.durable import flush_folder, write_through
from sheets.writers.manifest import NAME, PROGRAM

_LONGEST = 200  # bytes of a name that is written out in that of the folder aside


class FolderError(Exception):
    """The folder cannot be written; the message says why and what was left."""


def write_folder(target: Path, files: Mapping[str, bytes]) -> None:
    """Put files, by name, into the folder `target`, in place of the set that was there.

    What the user has added to that folder is kept. Raises FolderError if the folder is not a set's, or if
    the outside world refuses; then all is as before.
    """
    target = Path(os.path.abspath(target))
    if target.is_symlink():
        target = target.resolve()
    earlier = _earlier_files(target)
    aside: Path | None = None
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        aside = _new_folder(target)
        _write_all(aside, files)
        flush_folder(aside)
        _swap(aside, target, earlier)
    except OSError as error:
        raise FolderError(f"{target}: {error.strerror or error}; nothing was changed") from error
    finally:
        if aside is not None:
            shutil.rmtree(aside, ignore_errors=True)


def _earlier_files(target: Path) -> frozenset[str] | None:
    # The files of the set that stands there; None if nothing does.
    if not os.path.lexists(target):
        return None
    if not target.is_dir():
        raise FolderError(f"{target}: is a file, where the set's folder should be; nothing was changed")
    try:
        present = sorted(os.listdir(target))
        if not present:
            return frozenset()
        content = json.loads((target / NAME).read_text(encoding="utf-8")) if NAME in present else {}
    except (OSError, ValueError) as error:
        raise FolderError(f"{target}: its {NAME} cannot be read ({error}); nothing was changed") from error
    if not isinstance(content, dict) or content.get("program") != PROGRAM:
        raise FolderError(
            f"{target}: holds files that are not a drawing set's; nothing was changed. "
            "Choose another folder with -o, or move them."
        )
    listed = content.get("files")
    entries = listed if isinstance(listed, list) else []
    return frozenset({str(entry.get("name")) for entry in entries if isinstance(entry, dict)} | {NAME})


def _write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    # Side by side: most of the time is spent waiting for the disk, which takes several files as soon as one.
    with ThreadPoolExecutor() as pool:
        for _ in pool.map(lambda name: write_through(folder / name, files[name]), sorted(files)):
            pass


def _new_folder(target: Path) -> Path:
    # Beside the target, so that moving it is one rename on one file system.
    stem = target.name if len(os.fsencode(target.name)) <= _LONGEST else _shortened(target.name)
    for k in range(100):
        aside = target.parent / f".{stem}.new-{os.getpid()}-{k}"
        with suppress(FileExistsError):
            aside.mkdir()
            return aside
    raise FolderError(f"{target.parent}: is full of unfinished sets (.{target.name}.new-*); delete them")


def _shortened(name: str) -> str:
    # A name may be as long as the file system allows, and has to have room for more.
    return hashlib.sha256(os.fsencode(name)).hexdigest()[:16]


def _swap(aside: Path, target: Path, earlier: frozenset[str] | None) -> None:
    if earlier is None:
        os.rename(aside, target)
        with suppress(OSError):
            flush_folder(target.parent)
        return
    before, _, after = aside.name.rpartition(".new-")
    old = target.parent / f"{before}.old-{after}"
    kept = [name for name in sorted(os.listdir(target)) if name not in earlier]
    # What is kept goes into the new folder first: if that fails, it goes back and nothing has happened.
    moved: list[str] = []
    try:
        for name in kept:
            if not os.path.lexists(aside / name):
                os.rename(target / name, aside / name)
                moved.append(name)
        os.rename(target, old)
    except OSError:
        _move_back(moved, aside, target)
        raise
    try:
        os.rename(aside, target)
    except OSError:
        os.rename(old, target)
        _move_back(moved, aside, target)
        raise
    with suppress(OSError):  # the new set stands; only its safety against a power cut is in doubt
        flush_folder(target.parent)
    shutil.rmtree(old, ignore_errors=True)


def _move_back(names: list[str], aside: Path, target: Path) -> None:
    for name in names:
        os.rename(aside / name, target / name)
