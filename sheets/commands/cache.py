"""A store of drawn sets, keyed by what they are drawn from: the spec's meaning, its includes, the program
itself and the libraries that draw.

A set whose spec only got another comment is found; one drawn by a program that has changed is not. Each
entry is one file, written aside and moved into place; one that is not what its key and hashes say counts as
missing.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import re
import zipfile
import zlib
from collections.abc import Iterable, Mapping
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any

from sheets.base.durable import MOST_BYTES, alone_in, read_plain, write_over
from sheets.base.text_file import checks_file
from sheets.writers.manifest import NAME, PROGRAM, versions

PARTS, REPORT = "parts.csv", "changes.txt"
_MOST_FILES = 1000  # a set has one picture a sheet and four files more
_NOT_FOR_A_TERMINAL = re.compile("[\x00-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]")
_STAMP = (1980, 1, 1, 0, 0, 0)  # the earliest a zip can say: no clock goes in


def key_of(parts: Iterable[tuple[str, bytes]]) -> str:
    """Return the key of named contents together with the program's own files."""
    found = hashlib.sha256(_program().encode("ascii"))
    for name, content in parts:
        for piece in (name.encode("utf-8"), content):
            found.update(len(piece).to_bytes(8, "big") + piece)
    return found.hexdigest()


Files = tuple[tuple[str, bytes], ...]


def fetch(store: Path, key: str, stem: str, spec: str) -> Files | None:
    """Return the files of a set by name; None if they are not in the store. spec: SHA-256 of its filled spec.

    What lies there may have been put there by anyone. An entry counts only if it is whole: the files that a
    set of that stem has, each with the SHA-256 that its manifest lists, and a manifest of that spec.
    """
    always = {f"{stem}.pdf", checks_file(stem), f"{stem}.dxf", PARTS, NAME}
    picture = re.compile(rf"{re.escape(stem)}-[A-Z0-9-]+\.(png|svg)")
    files = _whole(store / f"{key}.zip", spec, always, picture)
    return files if files is not None and _has_sheets(dict(files)[NAME]) else None


def fetch_changes(store: Path, key: str, stem: str, spec: str) -> Files | None:
    """Return what was kept of a comparison by name, its report and its pictures; None if it is not there."""
    return _whole(
        store / f"{key}.zip", spec, {REPORT, NAME},
        re.compile(rf"changes\.pdf|{re.escape(stem)}-[A-Z0-9-]+\.png"),
    )  # fmt: skip


def _whole(entry_file: Path, spec: str, always: set[str], other: re.Pattern[str]) -> Files | None:
    # The files of an entry, if it has those names and others like them alone, each as its manifest lists it.
    try:
        with zipfile.ZipFile(io.BytesIO(read_plain(entry_file))) as held:
            entries = held.infolist()
            if len(entries) > _MOST_FILES or sum(entry.file_size for entry in entries) > MOST_BYTES:
                return None
            files = tuple((entry.filename, _inflated(held, entry)) for entry in entries)
    except (OSError, zipfile.BadZipFile, zlib.error, RuntimeError, EOFError, ValueError, NotImplementedError):
        return None
    if not _as_listed(files, spec, always, other):
        return None
    with suppress(OSError):
        os.utime(entry_file)  # so that what nobody asks for can be told by its age
    return files


def _inflated(held: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    # The size that an entry gives is a claim; no more than that is read.
    with held.open(entry) as file:
        data = file.read(entry.file_size + 1)
    if len(data) != entry.file_size:
        raise zipfile.BadZipFile("an entry is not as long as it says")
    return data


def _as_listed(files: Files, spec: str, always: set[str], other: re.Pattern[str]) -> bool:
    held = dict(files)
    if len(held) != len(files) or not always <= held.keys():
        return False
    if not all(other.fullmatch(name) for name in held.keys() - always):
        return False
    try:
        content = json.loads(held.pop(NAME))
        listed = {entry["name"]: entry["sha256"] for entry in content["files"]}
        return (
            content["program"] == PROGRAM
            and content["spec"]["sha256"] == spec
            and listed == {name: _sha256(data) for name, data in held.items()}
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return False


def _has_sheets(manifest: bytes) -> bool:
    try:
        content = json.loads(manifest)
        sheets = [(sheet["number"], sheet["title"]) for sheet in content["sheets"]]
        return all(_can_be_said(word) for sheet in sheets for word in sheet) and _is_a_verdict(content)
    except (KeyError, TypeError, AttributeError, ValueError):
        return False


def _is_a_verdict(content: Mapping[str, Any]) -> bool:
    # What `draw` says of a set: counts of findings, defects, how it stands to the issue that it is not.
    counts, draft = content.get("checks", {}), content.get("draft", {"says": "", "sheets": []})
    words = (*counts, *content.get("audit", []), draft["says"], *draft["sheets"])
    return all(map(_can_be_said, words)) and all(type(count) is int for count in counts.values())


def _can_be_said(word: object) -> bool:
    return isinstance(word, str) and _NOT_FOR_A_TERMINAL.search(word) is None


def _sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def keep(store: Path, key: str, files: Iterable[tuple[str, bytes]]) -> None:
    """Put the files of a set into the store. A store that cannot be written is let be: it only saves time."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as held:
        for name, content in files:
            held.writestr(zipfile.ZipInfo(name, _STAMP), content, zipfile.ZIP_DEFLATED)
    with suppress(OSError):
        store.mkdir(parents=True, exist_ok=True)
        with alone_in(store):
            write_over(store / f"{key}.zip", data.getvalue())


@cache
def _program() -> str:
    # Every file of ours that a sheet may depend on, wherever it is installed.
    import sheets
    import titleblocks

    drawn_with = versions(("x.png", "x.xlsx"))
    found = hashlib.sha256(f"{sheets.__version__} {sorted(drawn_with.items())}".encode())
    for package in (sheets, titleblocks):
        top = Path(package.__path__[0])
        for path in sorted(p for p in top.rglob("*") if p.suffix in (".py", ".csv", ".yaml", ".json")):
            found.update(path.relative_to(top).as_posix().encode("utf-8") + b"\0" + path.read_bytes())
    return found.hexdigest()
