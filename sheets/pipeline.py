"""From a spec's file to the files of its set: the stages in order, each given what the one before made.

Nothing here decides anything; a stage that finds an error ends the run, and what it found is returned.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from sheets.annotate.intent import Annotated
from sheets.base.beside import beside
from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.source import Source
from sheets.base.text_file import stem_of
from sheets.checks.finding import RuleReport
from sheets.commands.dxf_beside import DxfOf, dxf_beside
from sheets.commands.pictures import Picture, Pictures
from sheets.drawing.items import DrawingSet, Sheet
from sheets.grammar.reader import Reading, read_spec
from sheets.grammar.schema import Spec
from sheets.model.marks import marked
from sheets.model.wall import Wall
from sheets.revisions.keeping.record import Record
from sheets.schedules.shop import ShopSchedules
from sheets.schedules.table import TableData


@dataclass(frozen=True, slots=True)
class Timing:
    """How long a stage took, seconds of wall time."""

    stage: str
    seconds: float


@dataclass(frozen=True, slots=True)
class Solved:
    """A spec read and solved. spec is None when it has errors; wall as well when it cannot be solved."""

    source: Source
    spec: Spec | None
    wall: Wall | None
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A set with its files by name. No files when something is wrong; drawing is None, too, for a set out
    of store."""

    drawing: DrawingSet | None
    files: tuple[tuple[str, bytes], ...]
    diagnostics: tuple[Diagnostic, ...]
    timings: tuple[Timing, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """The spec as it goes into the set: the stem that names the files, its file's name, its text."""

    stem: str
    name: str
    text: bytes
    includes: tuple[tuple[str, bytes], ...] = ()  # by name: what else the set was drawn from


class Stopwatch:
    """Times stages, and tells `starting` as each begins."""

    def __init__(self, starting: Callable[[str], None] = lambda stage: None) -> None:
        self.timings: list[Timing] = []
        self._starting = starting

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        """Time what is done inside."""
        self._starting(name)
        start = time.perf_counter()
        try:
            yield
        finally:
            self.timings.append(Timing(name, time.perf_counter() - start))


def solve(path: Path, watch: Stopwatch | None = None) -> Solved:
    """Read a spec and solve it: every size known, every part in its place."""
    watch = watch or Stopwatch()
    with watch.stage("read"):
        reading = read_spec(path)
    return solve_reading(reading, watch)


def solve_reading(reading: Reading, watch: Stopwatch) -> Solved:
    """Solve a spec that has been read."""
    spec, source, found = reading
    if spec is None:
        return Solved(source, None, None, found)
    with watch.stage("resolve"):
        from sheets.resolve.solve import resolve

        wall, more = resolve(spec, source)
    found = (*found, *source.placed(more))
    return Solved(source, spec, None if has_errors(found) else wall, found)


@dataclass(frozen=True, slots=True)
class Shown:
    """All that a set says, before it has a place on paper."""

    wall: Wall
    annotated: tuple[Annotated, ...]
    shop: ShopSchedules
    retired: tuple[str, ...]  # marks of earlier issues
    reports: tuple[RuleReport, ...]


def show(wall: Wall, watch: Stopwatch, retired: Sequence[str] = ()) -> Shown:
    """Look at a wall from every side and say what is to be said. retired: marks of earlier issues, listed."""
    listing = beside(lambda: _listed(wall))
    with watch.stage("views"):
        from sheets.views.make import make_views

        views = make_views(wall)
    with watch.stage("annotate"):
        from sheets.annotate.annotate import annotate

        annotated = annotate(wall, views)
    with watch.stage("schedule and check"):
        shop, reports = listing()
    return Shown(wall, tuple(annotated), shop, tuple(retired), reports)


def _tables(shown: Shown, sheet_of: Mapping[str, str]) -> tuple[TableData, ...]:
    from sheets.schedules.shop import all_tables

    tables = all_tables(shown.shop, sheet_of)
    if shown.retired:
        gone = "MARKS OF EARLIER ISSUES THAT ARE NOT USED AGAIN: " + ", ".join(shown.retired) + "."
        tables = (replace(tables[0], notes=(*tables[0].notes, gone)), *tables[1:])
    return tables


def _listed(wall: Wall) -> tuple[ShopSchedules, tuple[RuleReport, ...]]:
    from sheets.checks.run import run_checks
    from sheets.schedules.shop import shop_schedules

    return shop_schedules(wall), run_checks(wall)


def place(
    shown: Shown, folder: Path, watch: Stopwatch, record: Record | None = None
) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Place what is shown on sheets, with the revision marks of its record and the mark of its status."""
    from sheets.compose.pages.watermark import watermarked

    if record is None:
        drawing, found = _composed(shown, folder, watch, None)
    else:
        from sheets.revisions.marking.decorate import decorated, revision_of

        drawing, found = _composed(shown, folder, watch, revision_of(record))
        drawing = decorated(drawing, record)
    return watermarked(drawing, shown.wall.project.status), found


def place_bare(shown: Shown, folder: Path, watch: Stopwatch) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Place what is shown on sheets that carry no revision yet: what two issues are compared by."""
    return _composed(shown, folder, watch, {})


def _composed(
    shown: Shown, folder: Path, watch: Stopwatch, revision_of: Mapping[str, str] | None
) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    with watch.stage("compose"):
        from sheets.compose.compose import compose
        from sheets.drawing.lettering import read_fonts
        from sheets.schedules.shop import all_diagrams

        read_fonts()  # once, for this process and those beside it
        return compose(
            shown.annotated, shown.wall, tables=lambda sheet_of: _tables(shown, sheet_of),
            diagrams=all_diagrams(shown.shop), patterns=shown.shop.patterns,
            reports=shown.reports, folder=folder, revision_of=revision_of,
        )  # fmt: skip


def draw(
    path: Path, *, pictures: Pictures = (), starting: Callable[[str], None] = lambda stage: None,
    store: Path | None = None, dxf_of: DxfOf = dxf_beside,
) -> Drawn:  # fmt: skip
    """Draw the set of a spec: its PDF, DXF, parts and manifest, and the pictures asked for.

    If the spec's latest revision has been issued, the set carries the marks of that issue. store: a folder of
    drawn sets that one drawn from the same is taken from, and put into. dxf_of: what writes the DXF.
    """
    watch = Stopwatch(starting)
    solved = solve(path, watch)
    if solved.spec is None or solved.wall is None:
        return Drawn(None, (), solved.diagnostics, tuple(watch.timings))
    from sheets.revisions.keeping.issues import record_for

    latest = solved.wall.revisions[-1].number if solved.wall.revisions else ""
    record, found = record_for(path, latest) if latest else (None, ())
    if has_errors(found):
        return Drawn(None, (), (*solved.diagnostics, *found), tuple(watch.timings))
    return draw_solved(
        solved, stem=stem_of(path), folder=path.resolve().parent, record=record, pictures=pictures,
        watch=watch, store=store, dxf_of=dxf_of,
    )  # fmt: skip


def draw_solved(
    solved: Solved, *, stem: str, folder: Path, record: Record | None, pictures: Pictures, watch: Stopwatch,
    store: Path | None = None, shown: Shown | None = None, dxf_of: DxfOf = dxf_beside,
) -> Drawn:  # fmt: skip
    """Draw the set of a spec that is solved. record: the issue whose part marks and revision marks it
    carries. shown: what the set says, when it is known already."""
    from sheets.grammar.defaults import canonical

    spec, wall = solved.spec, solved.wall
    assert spec is not None
    assert wall is not None
    # The spec goes in with every default filled in: two files that say the same give the same set.
    name = f"{stem}.yaml"
    written = Written(stem, name, canonical(spec).encode("utf-8"), _includes(spec, name, folder, record))
    key = ""
    if store is not None:
        from sheets.commands.cache import fetch, key_of

        wanted = tuple((picture.kind, b"%d" % picture.dots_per_inch) for picture in pictures)
        key = key_of(((name, written.text), *written.includes, *wanted))
        held = fetch(store, key, stem, written.text)
        if held is not None:
            return Drawn(None, held, solved.diagnostics, tuple(watch.timings))
    if record is not None:
        wall = marked(wall, record.kept)
    if shown is None:
        shown = show(wall, watch, record.retired if record else ())
    drawing, more = place(shown, folder, watch, record)
    found = (*solved.diagnostics, *solved.source.placed(more))
    if has_errors(found):
        return Drawn(None, (), found, tuple(watch.timings))
    files = write(drawing, written, shown, pictures, watch, dxf_of)
    if store is not None and not more:  # what was found is not in the store, and must be said each time
        from sheets.commands.cache import keep

        keep(store, key, files)
    return Drawn(drawing, files, found, tuple(watch.timings))


def _includes(
    spec: Spec, name: str, folder: Path, record: Record | None
) -> tuple[tuple[str, bytes], ...]:
    # What else the set was drawn from, so that it can be drawn again from its PDF alone.
    from sheets.revisions.keeping import attached
    from sheets.revisions.keeping import record as records

    found = [(attached.NAME, attached.made_by(name, spec.sheet.titleblock))]
    block = folder / spec.sheet.titleblock
    if spec.sheet.titleblock.endswith((".yaml", ".yml")) and os.path.isfile(block):
        found.append((block.name, block.read_bytes()))
    if record is not None:
        found.append((records.NAME, records.to_json(record)))
    return tuple(found)


def _drawn(sheet: Sheet, picture: Picture) -> bytes:
    if picture.kind == "svg":
        from sheets.writers.svg import svg

        return svg(sheet)
    from sheets.writers.raster import png

    return png(sheet, picture.dots_per_inch)


def write(
    drawing: DrawingSet, spec: Written, shown: Shown, pictures: Pictures, watch: Stopwatch,
    dxf_of: DxfOf,
) -> tuple[tuple[str, bytes], ...]:  # fmt: skip
    """Return the files of a set, by name."""
    stem = spec.stem
    files: dict[str, bytes] = {}
    dxf = dxf_of(drawing)
    with watch.stage("write PDF"):
        from sheets.writers.pdf import pdf

        files[f"{stem}.pdf"] = pdf(drawing, ((f"{stem}.yaml", spec.text), *spec.includes))
    for picture in pictures:
        with watch.stage(f"write {picture.kind.upper()}"):
            for sheet in drawing.sheets:
                files[f"{stem}-{sheet.number}.{picture.kind}"] = _drawn(sheet, picture)
    with watch.stage("audit"):
        from sheets.audit.audit import audit

        defects = audit(drawing)
    with watch.stage("list parts and sheets"):
        from sheets.compose.pages.references import marks_in
        from sheets.drawing.dump import sheet_hash
        from sheets.schedules.export import parts_csv

        files["parts.csv"] = parts_csv(shown.shop, marks_in(drawing))
        hashes = [sheet_hash(sheet) for sheet in drawing.sheets]
    with watch.stage("write DXF"):
        files[f"{stem}.dxf"] = dxf()
    with watch.stage("write manifest"):
        from sheets.checks.reports.text import counts
        from sheets.writers.manifest import NAME, manifest

        verdict = {"checks": counts(shown.reports), "audit": [str(defect) for defect in defects]}
        files[NAME] = manifest(drawing, files, spec.name, spec.text, verdict, hashes)
    return tuple(files.items())
