"""Many specs since a revision in git: which are new, renamed, removed, and which git says are the same."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from sheets.base.durable import read_plain
from sheets.commands.named_specs import ENDINGS, Named, NamedError

NOTHING = "Nothing that is built has changed.\n"
What = Literal["new", "same", "compared", "removed"]


@dataclass(frozen=True, slots=True)
class Pair:
    """A spec and what it was at the base. before: its path there, or None when there was none; seen: the same
    from the current folder."""

    spec: Path
    what: What
    before: str | None = None
    seen: str = ""
    renamed: bool = False
    base: str = ""
    out: Path | None = None
    store: Path | None = None


@dataclass(frozen=True, slots=True)
class Git:
    """What a repository says of a base. All paths are seen from its top."""

    top: Path
    there: frozenset[str] = frozenset()  # files of the base
    touched: frozenset[str] = frozenset()  # files that are otherwise now
    came_from: Mapping[str, str] = field(default_factory=dict)  # by the new name
    gone: frozenset[str] = frozenset()


def asked(base: str, folder: Path) -> Git:
    """Ask the repository about a base; one that it does not know has no files. Raises NamedError where there
    is no repository."""
    if base.startswith("-"):
        raise NamedError(f"{base} is not a revision in git")
    top = _git(folder, "rev-parse", "--show-toplevel")
    if top is None:
        raise NamedError("what changed is asked of git, and here is no repository of its")
    home = Path(os.fsdecode(top).rstrip("\n"))
    there = _git(home, "ls-tree", "-r", "-z", "--name-only", base)
    moves = _git(home, "diff", "--name-status", "-z", "-M", base, "--")
    if there is None or moves is None:
        return Git(home)
    touched, came_from, gone = _moves(os.fsdecode(moves).split("\0"))
    return Git(home, frozenset(os.fsdecode(there).split("\0")), touched, came_from, gone)


def _moves(words: Sequence[str]) -> tuple[frozenset[str], dict[str, str], frozenset[str]]:
    # A letter, then one path, or two for what was renamed or copied (git diff, "raw output format").
    touched: set[str] = set()
    came_from: dict[str, str] = {}
    gone: set[str] = set()
    left = iter(words)
    for letter in left:
        if letter[:1] in ("R", "C"):
            before, after = next(left, ""), next(left, "")
            touched |= {before, after}
            came_from[after] = before
        elif letter:
            path = next(left, "")
            touched.add(path)
            if letter[:1] == "D":
                gone.add(path)
    return frozenset(touched), came_from, frozenset(gone)


def pairs(base: str, given: Named, git: Git, *, out: Path | None, store: Path | None) -> tuple[Pair, ...]:
    """Return each spec with what it was at the base, by name, those that are gone among them."""
    found: list[Pair] = []
    taken: set[str] = set()
    for spec in given.specs:
        inside = _inside(git.top, spec)
        before = git.came_from.get(inside, inside)
        if before not in git.there:
            found.append(Pair(spec, "new"))
            continue
        taken.add(before)
        same = inside not in git.touched and not _concerned(spec, inside, git.touched)
        what: What = "same" if same else "compared"
        seen = Path(os.path.relpath(git.top / before)).as_posix()
        found.append(Pair(spec, what, before, seen, before != inside, base, out, store))
    homes = {os.path.dirname(_inside(git.top, spec)) for spec in (*given.specs, *given.blocks)}
    for path in git.gone - taken:
        if path.endswith(ENDINGS) and os.path.dirname(path) in homes:
            found.append(Pair(Path(path), "removed", path))
    return tuple(sorted(found, key=lambda pair: (pair.spec.stem.casefold(), pair.spec.stem)))


def _inside(top: Path, path: Path) -> str:
    # Not resolved itself: a link is another file to git than what it leads to.
    return Path(os.path.relpath(path.parent.resolve() / path.name, top.resolve())).as_posix()


def _concerned(spec: Path, inside: str, touched: Iterable[str]) -> bool:
    # Whether a file that changed is one that the spec names, or a record of its issues.
    issues = f"{os.path.dirname(inside)}/issues/{spec.stem}/".lstrip("/")
    try:
        text = read_plain(spec)
    except OSError:
        return True
    return any(path.startswith(issues) or os.fsencode(os.path.basename(path)) in text for path in touched)


def _git(at: Path, *words: str) -> bytes | None:
    try:
        done = subprocess.run(["git", *words], cwd=at, capture_output=True, check=False)
    except OSError:
        raise NamedError("what changed is asked of git, and git is not installed") from None
    return done.stdout if done.returncode == 0 else None
