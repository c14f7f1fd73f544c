"""Holding drawn sets against their specs: which sheets and files differ, and which sets have no spec."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sheets.base.durable import read_plain
from sheets.base.text_file import shown_name, stem_of
from sheets.commands.named_specs import ENDINGS
from sheets.writers.manifest import DRAWN_WITH, NAME, PROGRAM, drawn_apart

_MANIFEST_DIFFERS = f"{NAME}: is not what the spec gives"


@dataclass(frozen=True, slots=True)
class Held:
    """What holding a set showed. differs: what is not as the spec gives it. told: what to know besides."""

    differs: tuple[str, ...]
    told: tuple[str, ...] = ()


def held(folder: Path, files: Mapping[str, bytes]) -> Held:
    """Hold a set's folder against the files that its spec gives. Writes nothing.

    Where only the versions differ that the set was drawn by, it is as the spec gives it, and that is told.
    """
    differs = differences(folder, files)
    before, after = manifest_in(folder), as_manifest(files.get(NAME))
    apart = drawn_apart(before, after)
    if not apart or not before:
        return Held(differs)
    told = f"{folder}: was drawn by other versions: {apart}"
    rest = [{k: v for k, v in content.items() if k != DRAWN_WITH} for content in (before, after)]
    if differs == (_MANIFEST_DIFFERS,) and rest[0] == rest[1]:
        return Held((), (f"{told}; every file is what the spec gives",))
    return Held((*differs, told))


def differences(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Return what in a set's folder is not as the files say, sheets by number and title. Writes nothing."""
    there: dict[str, bytes | None] = {name: _read(folder / name) for name in files}
    if all(content is None for content in there.values()):
        return (f"{folder}: there is no set here",)
    found: list[str] = []
    before, after = as_manifest(there.get(NAME)), as_manifest(files.get(NAME))
    old, new = _sheets(before), _sheets(after)
    for number in sorted(old.keys() | new.keys()):
        if number not in new:
            found.append(f"sheet {number} {old[number][0]}: is no longer in the set")
        elif number not in old:
            found.append(f"sheet {number} {new[number][0]}: is missing")
        elif old[number] != new[number]:
            found.append(f"sheet {number} {new[number][0]}: is not what the spec gives")
    as_listed = not found  # a PDF altered while its manifest was not: the pages tell which
    for name in sorted(files):
        if there[name] is None:
            found.append(f"{name}: is missing")
        elif there[name] != files[name] and name != NAME:
            pages = (
                _pages_that_differ(there[name], files[name], new)
                if as_listed and name.endswith(".pdf")
                else ()
            )
            found += pages or (f"{name}: is not what the spec gives",)
    if not found and there[NAME] != files[NAME]:
        found.append(_MANIFEST_DIFFERS)
    return tuple(found)


def orphans(out: Path, specs: Iterable[Path]) -> tuple[str, ...]:
    """Return a line for each set in the folder `out` whose spec is neither among those given nor beside
    them."""
    given = [spec for spec in specs if spec.suffix.lower() in ENDINGS]
    homes = {spec.parent for spec in given}
    beside = (path for home in homes for path in _inside(home))
    known = {stem_of(path).casefold() for path in (*given, *beside) if path.suffix.lower() in ENDINGS}
    if not given:
        return ()
    found: list[str] = []
    for folder in _inside(out):
        content = manifest_in(folder)
        spec = content.get("spec")
        name = spec.get("name") if isinstance(spec, dict) else None
        if content.get("program") != PROGRAM or not isinstance(name, str):
            continue
        if Path(name).stem.casefold() not in known:
            where = " or ".join(sorted(shown_name(home) for home in homes))
            found.append(f"{folder}: was drawn from {shown_name(name)}, and there is no such spec in {where}")
    return tuple(found)


def _inside(folder: Path) -> tuple[Path, ...]:
    try:
        return tuple(sorted(path for path in folder.iterdir() if not path.name.startswith(".")))
    except OSError:
        return ()


def manifest_in(folder: Path) -> dict[str, Any]:
    """Return what the manifest of a folder says; empty if it cannot be read."""
    return as_manifest(_read(folder / NAME))


def as_manifest(data: bytes | None) -> dict[str, Any]:
    """Return what a manifest says; empty if it is none."""
    try:
        content = json.loads((data or b"{}").decode("utf-8"))
    except (ValueError, RecursionError):
        return {}
    return content if isinstance(content, dict) else {}


def _read(path: Path) -> bytes | None:
    try:
        return read_plain(path)
    except OSError:
        return None


def _sheets(manifest: dict[str, Any]) -> dict[str, tuple[str, str]]:
    found: dict[str, tuple[str, str]] = {}
    listed = manifest.get("sheets")
    for entry in listed if isinstance(listed, list) else ():
        if isinstance(entry, dict):
            found[str(entry.get("number"))] = (str(entry.get("title")), str(entry.get("sha256")))
    return found


def _pages_that_differ(
    before: bytes | None, after: bytes, sheets: dict[str, tuple[str, str]]
) -> tuple[str, ...]:
    # The committed PDF may have been altered although its manifest was not.
    import io

    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        readers = [PdfReader(io.BytesIO(data)) for data in (before or b"", after)]
        old, new = ([page.get_contents() for page in reader.pages] for reader in readers)
    except (PyPdfError, ValueError, KeyError, TypeError):
        return ()
    codes = [[page.get_data() if page is not None else b"" for page in pages] for pages in (old, new)]
    names = list(sheets)
    return tuple(
        f"sheet {names[k]} {sheets[names[k]][0]}: is not what the spec gives"
        for k in range(min(len(codes[1]), len(names)))
        if k >= len(codes[0]) or codes[0][k] != codes[1][k]
    )
