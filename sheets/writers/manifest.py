"""What a set consists of: each file and each sheet with its SHA-256, the spec it came from, the program."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence

from sheets import __version__
from sheets.drawing.dump import sheet_hash
from sheets.drawing.items import DrawingSet

NAME = "manifest.json"
PROGRAM = "shopset"


def manifest(
    drawing: DrawingSet, files: Mapping[str, bytes], spec_name: str, spec: bytes,
    verdict: Mapping[str, object] | None = None, sheet_hashes: Sequence[str] = (),
) -> bytes:
    """Return the manifest as JSON.

    files: all files of the set by name, without the manifest. spec_name: the spec's file name, no folder.
    verdict: what was found in the wall and on the sheets, under names of its own.
    A sheet's hash is of what it shows, not of the bytes of one format; sheet_hashes: those of the set's
    sheets, if they are known already.
    """
    hashes = sheet_hashes or [sheet_hash(sheet) for sheet in drawing.sheets]
    content = {
        **_head(drawing.title, drawing.number, drawing.date, files, spec_name, spec),
        "sheets": [
            {"number": s.number, "title": s.title, "revision": s.revision, "sha256": sha256}
            for s, sha256 in zip(drawing.sheets, hashes, strict=True)
        ],
        **(verdict or {}),
    }
    return _written(content)


def list_of_files(
    title: str, number: str, date: str, files: Mapping[str, bytes], spec_name: str, spec: bytes
) -> bytes:
    """Return the manifest of files that stand beside a set: schedules, patterns, labels. It has no sheets."""
    return _written(_head(title, number, date, files, spec_name, spec))


def carried_on(earlier: bytes, later: bytes) -> bytes:
    """Return a later manifest that also lists the files of an earlier one which it does not list itself.

    Each of those says which spec it was made from (its SHA-256), since that may be another.
    """
    try:
        before = json.loads(earlier)
        entries = [entry for entry in before["files"] if isinstance(entry.get("name"), str)]
        spec = before["spec"]["sha256"]
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return later
    content = json.loads(later)
    listed = {entry["name"] for entry in content["files"]}
    more = [{"spec": spec, **entry} for entry in entries if entry["name"] not in listed]
    content["files"] = sorted([*content["files"], *more], key=lambda entry: str(entry["name"]))
    return _written(content)


def _head(
    title: str, number: str, date: str, files: Mapping[str, bytes], spec_name: str, spec: bytes
) -> dict[str, object]:
    return {
        "program": PROGRAM,
        "version": __version__,
        "title": title,
        "number": number,
        "date": date,
        "spec": {"name": spec_name, "sha256": _sha256(spec)},
        "files": [
            {"name": name, "bytes": len(data), "sha256": _sha256(data)}
            for name, data in sorted(files.items())
        ],
    }


def _written(content: Mapping[str, object]) -> bytes:
    return (json.dumps(content, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def _sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
