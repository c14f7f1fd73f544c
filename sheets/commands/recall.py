"""Recalling what a spec's file gave before, without reading it: an entry of the store says which set it gave,
and which other files were read for it, each with its SHA-256.

Of a spec with anything to be said about it there is no entry: that is said each time.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path

from sheets.base.durable import alone_in, read_plain, write_over
from sheets.base.text_file import stem_of
from sheets.commands.cache import key_of
from sheets.revisions.keeping.issues import issues_folder
from sheets.writers.manifest import NAME
from sheets.writers.pictures import Pictures

_MOST = 1_000_000  # bytes of an entry
_DIGEST = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Recalled:
    """What a spec gave. key: of the set in the store. spec, manifest: SHA-256 of the filled spec and of the
    set's manifest. read: SHA-256 of each other file that was read, by its path from the spec; empty where
    there was none. issues: of all that the records of its issues hold."""

    key: str
    spec: str
    manifest: str
    read: Mapping[str, str]
    issues: str


def recalled(store: Path, spec: Path, pictures: Pictures) -> Recalled | None:
    """Return what a spec's file gave, if nothing that was read for it has changed since."""
    try:
        name = _entry(spec, spec_bytes(spec), pictures)
        content = json.loads(read_plain(store / name, _MOST))
        found = Recalled(**content)
        if not all(_DIGEST.fullmatch(word) for word in (found.key, found.spec, found.manifest)):
            return None
        same = all(_sha256(spec.parent / other) == wanted for other, wanted in found.read.items())
        return found if same and found.issues == _issues(spec) else None
    except (OSError, ValueError, TypeError, AttributeError, RecursionError):
        return None


def remember(
    store: Path, spec: Path, text: bytes, pictures: Pictures, *, key: str, files: Mapping[str, bytes],
    read: Iterable[str],
) -> None:  # fmt: skip
    """Enter what a spec gave. text: what its file held before it was read; read: the paths of the other files
    that were. A store that cannot be written is let be."""
    with suppress(OSError):
        if spec_bytes(spec) != text:  # someone has written it meanwhile
            return
        manifest = files[NAME]
        found = Recalled(
            key, json.loads(manifest)["spec"]["sha256"], hashlib.sha256(manifest).hexdigest(),
            {name: _sha256(spec.parent / name) for name in sorted(read)}, _issues(spec),
        )  # fmt: skip
        store.mkdir(parents=True, exist_ok=True)
        with alone_in(store):
            write_over(store / _entry(spec, text, pictures), json.dumps(asdict(found)).encode("utf-8"))


def spec_bytes(spec: Path) -> bytes:
    """Return what a spec's file holds. Raises OSError."""
    return read_plain(spec)


def _entry(spec: Path, text: bytes, pictures: Pictures) -> str:
    wanted = ((picture.kind, b"%d" % picture.dots_per_inch) for picture in pictures)
    return key_of((("recall", text), ("stem", stem_of(spec).encode("utf-8")), *wanted)) + ".json"


def _sha256(path: Path) -> str:
    try:
        return hashlib.sha256(read_plain(path)).hexdigest()
    except FileNotFoundError:
        return ""


def _issues(spec: Path) -> str:
    found = hashlib.sha256()
    home = issues_folder(spec)
    for path in sorted(home.glob("*/*.json")) if home.is_dir() else ():
        for piece in (path.relative_to(home).as_posix().encode("utf-8", "surrogateescape"), read_plain(path)):
            found.update(len(piece).to_bytes(8, "big") + piece)
    return found.hexdigest()
