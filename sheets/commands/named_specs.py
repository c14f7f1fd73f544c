"""The specs that a user named for one run: files, and folders that stand for the specs in them; the share of
them that is one machine's when several draw."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from sheets.base.durable import read_plain
from sheets.base.text_file import MOST_BYTES, shown_name

ENDINGS = (".yaml", ".yml")
_LAYOUTS = re.compile(rb"^layouts[ \t]*:", re.MULTILINE)
_OF_A_SPEC = re.compile(rb"^(project|units|sheet|materials|room|cases|mantel|fireplace)[ \t]*:", re.MULTILINE)
_SHARE = re.compile(r"([0-9]{1,4})/([0-9]{1,4})", re.ASCII)


class NamedError(Exception):
    """What was named cannot be had; the message says why."""


@dataclass(frozen=True, slots=True)
class Named:
    """The specs in order, and the title blocks that stood among them."""

    specs: tuple[Path, ...]
    blocks: tuple[Path, ...] = ()


@dataclass(frozen=True, slots=True)
class Share:
    """One machine's share of the specs: the `number`-th (from 1) of `of`."""

    number: int = 1
    of: int = 1


def named(paths: Iterable[Path]) -> Named:
    """Return the specs that files and folders stand for. Raises NamedError for a folder without any.

    A title block lies beside the specs that name it: it is told apart and left out.
    """
    found: dict[Path, None] = {}
    for path in paths:
        inside = _in_folder(path) if path.is_dir() else (path,)
        if not inside:
            raise NamedError(f"{shown_name(path)}: is a folder that holds no spec (*.yaml)")
        found |= dict.fromkeys(inside)
    blocks = tuple(path for path in found if is_titleblock(path))
    return Named(tuple(path for path in found if path not in blocks), blocks)


def _in_folder(folder: Path) -> tuple[Path, ...]:
    try:
        inside = sorted(folder.iterdir())
    except OSError as error:
        raise NamedError(f"{shown_name(folder)}: cannot be read: {error.strerror or error}") from None
    return tuple(p for p in inside if p.suffix.lower() in ENDINGS and not p.name.startswith("."))


def is_titleblock(path: Path) -> bool:
    """Return whether a file has what a title block has and nothing that a spec has."""
    if path.suffix.lower() not in ENDINGS:
        return False
    try:
        data = read_plain(path, MOST_BYTES)
    except (OSError, ValueError):
        return False
    return bool(_LAYOUTS.search(data)) and not _OF_A_SPEC.search(data)


def share_from(text: str) -> Share:
    """Return the share that "K/N" names, the K-th of N. Raises NamedError."""
    found = _SHARE.fullmatch(text)
    share = Share(int(found[1]), int(found[2])) if found else Share(0, 0)
    if not 1 <= share.number <= share.of:
        raise NamedError(f"--shard is K/N, the K-th of N shares, as in 2/5; not {text}")
    return share


def share_of(specs: Sequence[Path], share: Share) -> tuple[Path, ...]:
    """Return those of some specs that fall to a share, in their order.

    By name: every spec falls to one share, no two shares differ by more than one, and a spec more or less
    moves few others, so that what each machine has kept is still of use.
    """
    if share.of == 1:
        return tuple(specs)
    least, more = divmod(len(specs), share.of)
    held = [0] * share.of
    taken: set[Path] = set()
    for spec in sorted(specs, key=lambda path: path.stem):
        for k in sorted(range(share.of), key=lambda k, name=spec.stem: _lot(k, name)):  # type: ignore[misc]
            if held[k] < least or (held[k] == least and more):
                more -= held[k] == least
                held[k] += 1
                if k == share.number - 1:
                    taken.add(spec)
                break
    return tuple(spec for spec in specs if spec in taken)


def _lot(share: int, name: str) -> bytes:
    return hashlib.sha256(f"{share} {name}".encode("utf-8", "surrogateescape")).digest()
