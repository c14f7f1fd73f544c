"""What a set consists of: each file and each sheet with its SHA-256, the spec it came from, the program."""

from __future__ import annotations

import hashlib
import json
import zlib
from collections.abc import Iterable, Mapping, Sequence

from sheets import __version__
from sheets.drawing.dump import sheet_hash
from sheets.drawing.items import DrawingSet
from sheets.writers.pictures import LEAST_DPI, MOST_DPI, Picture, Pictures

NAME = "manifest.json"
FORMAT, VERSION = "shopset manifest", 1
PROGRAM = "shopset"
PICTURES = "pictures"
DRAWN_WITH = "drawn_with"
_SETS = ("ezdxf", "numpy", "reportlab", "scipy", "shapely")
_FORMATS = {"png": ("matplotlib", "pillow"), "svg": ("matplotlib",), "xlsx": ("openpyxl",)}
"""The libraries on whose version bytes may depend: of every set, and of files that end so. Python is none of
them: the versions that the program runs on give the same bytes."""


def manifest(
    drawing: DrawingSet, files: Mapping[str, bytes], spec_name: str, spec: bytes,
    verdict: Mapping[str, object] | None = None, sheet_hashes: Sequence[str] = (), pictures: Pictures = (),
) -> bytes:
    """Return the manifest as JSON.

    files: all files of the set by name, without the manifest. spec_name: the spec's file name, no folder.
    verdict: what was found in the wall and on the sheets, under names of its own.
    A sheet's hash is of what it shows, not of the bytes of one format; sheet_hashes: those of the set's
    sheets, if they are known already. pictures: what was asked for beside the set.
    """
    hashes = sheet_hashes or [sheet_hash(sheet) for sheet in drawing.sheets]
    content = {
        **_head(drawing.title, drawing.number, drawing.date, files, spec_name, spec),
        PICTURES: [
            {"kind": picture.kind, "dots_per_inch": picture.dots_per_inch}
            if picture.kind == "png"
            else {"kind": picture.kind}
            for picture in pictures
        ],
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


def versions(names: Iterable[str]) -> dict[str, str]:
    """Return the version of each library that the bytes of files of those names may depend on.

    `deflate` is what packs them: all versions of zlib pack alike, its successor zlib-ng does not.
    """
    from importlib.metadata import version  # a tenth of the time that a small command takes

    kinds = {name.rpartition(".")[2] for name in names}
    libraries = {*_SETS, *(library for kind in kinds for library in _FORMATS.get(kind, ()))}
    packing = zlib.ZLIB_RUNTIME_VERSION
    return {
        "deflate": packing if "ng" in packing else "zlib",
        **{library: version(library) for library in sorted(libraries)},
    }


def drawn_apart(before: Mapping[str, object], after: Mapping[str, object]) -> str:
    """Return which versions two manifests differ in ("numpy 2.4.6, here 2.5.0"); empty if in none."""
    there, here = (_words(content.get(DRAWN_WITH)) for content in (before, after))
    return "; ".join(
        f"{name} {there.get(name, 'not named')}, here {here.get(name, 'none')}"
        for name in sorted(there.keys() | here.keys())
        if there.get(name) != here.get(name)
    )


def _words(named: object) -> dict[str, str]:
    return {str(k): str(v) for k, v in named.items()} if isinstance(named, dict) else {}


def pictures_in(content: Mapping[str, object]) -> Pictures:
    """Return the pictures that a manifest says were asked for. What none can ask for is left out."""
    listed = content.get(PICTURES)
    entries = [entry for entry in listed if isinstance(entry, dict)] if isinstance(listed, list) else []
    found: list[Picture] = []
    for entry in entries:
        dpi = entry.get("dots_per_inch")
        if entry.get("kind") == "svg":
            found.append(Picture("svg"))
        elif entry.get("kind") == "png" and isinstance(dpi, int) and LEAST_DPI <= dpi <= MOST_DPI:
            found.append(Picture("png", dpi))
    return tuple({picture.kind: picture for picture in found}.values())


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
        "format": FORMAT,
        "version": VERSION,
        "program": PROGRAM,
        "title": title,
        "number": number,
        "date": date,
        DRAWN_WITH: {PROGRAM: __version__, **versions(files)},
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
