"""A store of drawn sets, keyed by what they are drawn from: the spec's meaning, its includes, the program
itself.

A set whose spec only got another comment is found; one drawn by a program that has changed is not. Each
entry is one
file, written aside and moved into place; one that cannot be read counts as missing.
"""

from __future__ import annotations

import hashlib
import io
import os
import tempfile
import zipfile
from collections.abc import Iterable
from contextlib import suppress
from functools import cache
from pathlib import Path

_STAMP = (1980, 1, 1, 0, 0, 0)  # the earliest a zip can say: no clock goes in


def key_of(parts: Iterable[tuple[str, bytes]]) -> str:
    """Return the key of named contents together with the program's own files."""
    found = hashlib.sha256(_program().encode("ascii"))
    for name, content in parts:
        for piece in (name.encode("utf-8"), content):
            found.update(len(piece).to_bytes(8, "big") + piece)
    return found.hexdigest()


def fetch(store: Path, key: str) -> tuple[tuple[str, bytes], ...] | None:
    """Return the files of a set by name; None if they are not in the store."""
    try:
        with zipfile.ZipFile(store / f"{key}.zip") as held:
            if held.testzip() is not None:
                return None
            return tuple((name, held.read(name)) for name in held.namelist())
    except (OSError, zipfile.BadZipFile, RuntimeError, EOFError):
        return None


def keep(store: Path, key: str, files: Iterable[tuple[str, bytes]]) -> None:
    """Put the files of a set into the store. A store that cannot be written is let be: it only saves time."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as held:
        for name, content in files:
            held.writestr(zipfile.ZipInfo(name, _STAMP), content, zipfile.ZIP_DEFLATED)
    with suppress(OSError):
        store.mkdir(parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(dir=store, prefix=".new-")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data.getvalue())
            os.replace(aside, store / f"{key}.zip")
        except OSError:
            with suppress(OSError):
                os.unlink(aside)


@cache
def _program() -> str:
    # Every file of ours that a sheet may depend on, wherever it is installed.
    import sheets
    import titleblocks

    found = hashlib.sha256(sheets.__version__.encode("utf-8"))
    for package in (sheets, titleblocks):
        top = Path(package.__path__[0])
        for path in sorted(p for p in top.rglob("*") if p.suffix in (".py", ".csv", ".yaml", ".json")):
            found.update(path.relative_to(top).as_posix().encode("utf-8") + b"\0" + path.read_bytes())
    return found.hexdigest()
