"""Drawing the set of one spec, with the marks of its latest issue, or taking it out of the store."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.stopwatch import Stopwatch, Timing
from sheets.base.text_file import stem_of
from sheets.drawing.items import DrawingSet
from sheets.grammar.schema import Spec
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.pipeline import Shown, Solved, Written, place, show, solve, write
from sheets.revisions.keeping.record import Record
from sheets.writers.pictures import Pictures


@dataclass(frozen=True, slots=True)
class Drawn:
    """A set with its files by name. No files when something is wrong; drawing is None, too, for a set out
    of store. key: of the set in the store."""

    drawing: DrawingSet | None
    files: tuple[tuple[str, bytes], ...]
    diagnostics: tuple[Diagnostic, ...]
    timings: tuple[Timing, ...]
    key: str = ""


def draw(
    path: Path, *, pictures: Pictures = (), starting: Callable[[str], None] = lambda stage: None,
    store: Path | None = None,
) -> Drawn:  # fmt: skip
    """Draw the set of a spec: its PDF, DXF, parts and manifest, and the pictures asked for.

    If the spec's latest revision has been issued, the set carries the marks of that issue. store: a folder of
    drawn sets that one drawn from the same is taken from, and put into.
    """
    watch = Stopwatch(starting)
    text = _text_of(path) if store is not None else None
    solved = solve(path, watch)
    if solved.spec is None or solved.wall is None:
        return Drawn(None, (), solved.diagnostics, tuple(watch.timings))
    from sheets.revisions.keeping.issues import record_for

    latest = solved.wall.revisions[-1].number if solved.wall.revisions else ""
    record, found = record_for(path, latest) if latest else (None, ())
    if has_errors(found):
        return Drawn(None, (), (*solved.diagnostics, *found), tuple(watch.timings))
    drawn = draw_solved(
        solved, stem=stem_of(path), folder=path.resolve().parent, record=record, pictures=pictures,
        watch=watch, store=store,
    )  # fmt: skip
    if store is not None and text is not None and drawn.files and not drawn.diagnostics:
        from sheets.commands.recall import remember

        files, read = dict(drawn.files), _read_beside(solved.spec, solved.wall)
        remember(store, path, text, pictures, key=drawn.key, files=files, read=read)
    return drawn


def _text_of(path: Path) -> bytes | None:
    from sheets.commands.recall import spec_bytes

    try:
        return spec_bytes(path)
    except OSError:
        return None


def _read_beside(spec: Spec, wall: Wall) -> tuple[str, ...]:
    # Paths, seen from the spec, of what it names and what is read for it.
    block, codes = spec.sheet.titleblock, wall.settings.codes
    return (*((block,) if block.endswith((".yaml", ".yml")) else ()), *((codes.table,) if codes.text else ()))


def draw_solved(
    solved: Solved, *, stem: str, folder: Path, record: Record | None, pictures: Pictures, watch: Stopwatch,
    store: Path | None = None, shown: Shown | None = None,
) -> Drawn:  # fmt: skip
    """Draw the set of a spec that is solved. record: the issue whose part marks and revision marks it
    carries. shown: what the set says, when it is known already."""
    from sheets.grammar.defaults import canonical

    spec, wall = solved.spec, solved.wall
    assert spec is not None
    assert wall is not None
    # The spec goes in with every default filled in: two files that say the same give the same set.
    name = f"{stem}.yaml"
    includes = includes_of(spec, wall, name, folder, record)
    written = Written(stem, name, canonical(spec).encode("utf-8"), includes)
    key = ""
    if store is not None:
        from sheets.commands.cache import fetch, key_of

        wanted = tuple((picture.kind, b"%d" % picture.dots_per_inch) for picture in pictures)
        key = key_of(((name, written.text), *written.includes, *wanted))
        held = fetch(store, key, stem, sha256(written.text).hexdigest())
        if held is not None:
            return Drawn(None, held, solved.diagnostics, tuple(watch.timings), key)
    if record is not None:
        wall = marked(wall, record.kept)
    if shown is None:
        shown = show(wall, watch, record.retired if record else ())
    drawing, more = place(shown, folder, watch, record)
    found = (*solved.diagnostics, *solved.source.placed(more))
    if has_errors(found):
        return Drawn(None, (), found, tuple(watch.timings))
    files = write(drawing, written, shown, pictures, watch)
    if store is not None and not more:  # what was found is not in the store, and must be said each time
        from sheets.commands.cache import keep

        keep(store, key, files)
    return Drawn(drawing, files, found, tuple(watch.timings), key)


def includes_of(
    spec: Spec, wall: Wall, name: str, folder: Path, record: Record | None
) -> tuple[tuple[str, bytes], ...]:
    """Return what else a set is drawn from, by name, so that it can be drawn again from its PDF alone."""
    from sheets.revisions.keeping import attached
    from sheets.revisions.keeping import record as records

    codes = wall.settings.codes
    found = [(attached.NAME, attached.made_by(name, spec.sheet.titleblock, codes.table))]
    if codes.text:
        found.append((Path(codes.table).name, codes.text.encode("utf-8")))
    block = folder / spec.sheet.titleblock
    if spec.sheet.titleblock.endswith((".yaml", ".yml")) and os.path.isfile(block):
        found.append((block.name, block.read_bytes()))
    if record is not None:
        found.append((records.NAME, records.to_json(record)))
    return tuple(found)
