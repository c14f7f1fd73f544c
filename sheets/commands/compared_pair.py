"""One spec of a list of changes: what it was held against what it is, out of the store if that is known."""

from __future__ import annotations

import hashlib
import os
from dataclasses import replace
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, has_errors, in_order, print_text
from sheets.base.durable import write_over
from sheets.base.stopwatch import Stopwatch
from sheets.commands import comparison
from sheets.commands.cache import REPORT, Files, fetch_changes, keep, key_of
from sheets.commands.given import Given, GivenError, given
from sheets.commands.one_set import includes_of
from sheets.commands.since import NOTHING, Pair
from sheets.grammar.defaults import canonical
from sheets.writers.manifest import NAME, list_of_files


def said_of(pair: Pair) -> str:
    """Return what is to be said of a spec that is new or has changed, and write what there is to see into the
    pair's folder. Of a new one only what is wrong with it."""
    try:
        after = given(str(pair.spec))
        if after.solved.wall is None or pair.before is None:
            return _errors(after.diagnostics)
        before = _before(pair)
        if before.solved.wall is None:
            return _errors(before.diagnostics)
        files, complaints = _compared(pair, before, after)
        if pair.out is not None:
            _put(pair.out / after.stem, files)
    except (GivenError, OSError) as error:
        return f"error: {error}\n"
    return _errors(complaints) + dict(files).get(REPORT, b"").decode("utf-8")


def _before(pair: Pair) -> Given:
    # Git takes a path that begins with a dot as one seen from here.
    assert pair.before is not None
    from_here = f"{pair.base}:./{pair.seen or pair.before}"
    return replace(given(from_here), label=f"{pair.base}:{pair.before}")


def _compared(pair: Pair, before: Given, after: Given) -> tuple[Files, tuple[Diagnostic, ...]]:
    sources = [_drawn_from(side) for side in (before, after)]
    if sources[0] == sources[1]:
        return ((REPORT, NOTHING.encode("utf-8")),), ()
    labels = f"{before.label}\n{after.label}\n{after.stem}\n{pair.out is not None}".encode("utf-8", "replace")
    key = key_of((("labels", labels), *sources[0], ("to", b""), *sources[1]))
    spec = hashlib.sha256(sources[1][0][1]).hexdigest()
    if pair.store is not None and (held := fetch_changes(pair.store, key, after.stem, spec)):
        return tuple((name, data) for name, data in held if name != NAME), ()
    before = comparison.as_called_by(after, before)
    found = comparison.compared(before, after, Stopwatch() if pair.out is not None else None)
    sets = None
    if pair.out is not None:
        earlier, later, complaints = comparison.bare_sets(found, before, after, Stopwatch())
        if has_errors(complaints):
            return (), complaints
        sets = earlier, later
    report = comparison.text(found, before, after, comparison.sheet_lines_of(before, after, sets))
    files: Files = ((REPORT, report.encode("utf-8")),)
    if sets is not None:
        files = (*files, *comparison.laid_over(sets, report, after.stem, pdf=True, pictures=True))
    if pair.store is not None:
        listed = list_of_files("", "", "", dict(files), f"{after.stem}.yaml", sources[1][0][1])
        keep(pair.store, key, (*files, (NAME, listed)))
    return files, ()


def _drawn_from(side: Given) -> Files:
    spec, wall = side.solved.spec, side.wall
    assert spec is not None
    text = canonical(spec).encode("utf-8")
    return ("spec", text), *includes_of(spec, wall, "spec.yaml", side.folder, side.record)


def _errors(found: tuple[Diagnostic, ...]) -> str:
    return print_text(in_order(tuple(one for one in found if one.severity == "error")))


def _put(folder: Path, files: Files) -> None:
    pictures = [(name, data) for name, data in files if name != REPORT]
    if pictures:
        os.makedirs(folder, exist_ok=True)
    for name, data in pictures:
        write_over(folder / name, data)
