"""Drawing the set of one spec, with the marks of its latest issue, or taking it out of the store."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.durable import read_plain
from sheets.base.stopwatch import Stopwatch, Timing
from sheets.base.text_file import MOST_BYTES, stem_of
from sheets.compose.draft import Draft
from sheets.drawing.items import DrawingSet
from sheets.grammar.schema import Spec
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.pipeline import Shown, Solved, Written, place, sent, show, solve, write
from sheets.revisions.keeping.attached import AS_WRITTEN
from sheets.revisions.keeping.record import Record
from sheets.revisions.keeping.standing import RecordOf, Standing, digest_of, standing
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
    from sheets.revisions.keeping.issues import IssueError, records_of, unreadable

    folder = path.resolve().parent
    try:
        stands = standing_of(solved, folder, records_of(path))
    except IssueError as error:
        return Drawn(None, (), (*solved.diagnostics, unreadable(error)), tuple(watch.timings))
    drawn = draw_standing(
        solved, stands, stem=stem_of(path), folder=folder, pictures=pictures, watch=watch, store=store
    )
    if store is not None and text is not None and drawn.files and not drawn.diagnostics:
        from sheets.commands.recall import remember

        files, read = dict(drawn.files), _read_beside(solved.spec, solved.wall)
        remember(store, path, text, pictures, key=drawn.key, files=files, read=read)
    return drawn


def standing_of(solved: Solved, folder: Path, record_of: RecordOf) -> Standing:
    """Return how a spec that could be solved stands to its issues. folder: where its title block lies."""
    assert solved.wall is not None
    return standing(solved.wall.revisions, digest(solved, folder), record_of)


def digest(solved: Solved, folder: Path) -> str:
    """Return the digest of what a spec that could be solved draws: with its title block and its codes."""
    assert solved.spec is not None
    assert solved.wall is not None
    block = _own_block(solved.spec, folder)
    own = (b"" if block is None else block[1], solved.wall.settings.codes.text.encode("utf-8"))
    return digest_of(solved.spec, *own)


def draw_standing(
    solved: Solved, stands: Standing, *, stem: str, folder: Path, pictures: Pictures, watch: Stopwatch,
    store: Path | None = None, as_written: bytes = b"",
) -> Drawn:  # fmt: skip
    """Draw the set of a spec that is solved, as it stands to its issues."""
    assert solved.wall is not None
    solved = replace(solved, wall=replace(solved.wall, revisions=stands.rows))
    return draw_solved(
        solved, stem=stem, folder=folder, record=stands.record, pictures=pictures, watch=watch, store=store,
        draft=stands.draft, as_written=as_written,
    )  # fmt: skip


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
    store: Path | None = None, shown: Shown | None = None, draft: Draft | None = None,
    as_written: bytes = b"",
) -> Drawn:  # fmt: skip
    """Draw the set of a spec that is solved.

    record: the issue whose part marks and revision marks it carries; draft: what of the set is not that
    issue. shown: what the set says, when it is known already. as_written: the spec's text, for a set that
    carries it.
    """
    from sheets.grammar.defaults import canonical

    spec, wall = solved.spec, solved.wall
    assert spec is not None
    assert wall is not None
    # The spec goes in with every default filled in: two files that say the same give the same set.
    name = f"{stem}.yaml"
    includes = includes_of(spec, wall, name, folder, record)
    if as_written:
        includes = (*includes, (AS_WRITTEN, as_written))
    written = Written(stem, name, canonical(spec).encode("utf-8"), includes)
    key = ""
    if store is not None:
        from sheets.commands.cache import fetch, key_of

        wanted = tuple((picture.kind, b"%d" % picture.dots_per_inch) for picture in pictures)
        stands = f"{draft.number} {draft.says}" if draft is not None else ""
        key = key_of(
            ((name, written.text), *written.includes, ("stands", stands.encode("utf-8")), *wanted)
        )
        held = fetch(store, key, stem, sha256(written.text).hexdigest())
        if held is not None:
            return Drawn(None, held, solved.diagnostics, tuple(watch.timings), key)
    if record is not None:
        wall = marked(wall, record.kept)
    if shown is None:
        shown = show(wall, watch, record.retired if record else ())
    drawing, more = place(shown, folder, watch, record, draft)
    found = (*solved.diagnostics, *solved.source.placed(more))
    if has_errors(found):
        return Drawn(None, (), found, tuple(watch.timings))
    only = record.only if record is not None and draft is None else ()
    files = write(drawing, written, shown, pictures, watch, folder, draft=draft, only=only)
    if store is not None and not more:  # what was found is not in the store, and must be said each time
        from sheets.commands.cache import keep

        keep(store, key, files)
    return Drawn(sent(drawing, only), files, found, tuple(watch.timings), key)


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
    block = _own_block(spec, folder)
    if block is not None:
        found.append(block)
    if record is not None:
        found.append((records.NAME, records.to_json(record)))
    return tuple(found)


def _own_block(spec: Spec, folder: Path) -> tuple[str, bytes] | None:
    # The name and the bytes of a title block of the user's own; of one that cannot be read compose tells.
    block = folder / spec.sheet.titleblock
    if block.suffix in (".yaml", ".yml"):
        with suppress(OSError, ValueError):
            return block.name, read_plain(block, MOST_BYTES)
    return None
