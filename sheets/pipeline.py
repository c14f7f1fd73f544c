"""From a spec's file to the files of its set: the stages in order, each given what the one before made.

Nothing here decides anything; a stage that finds an error ends the run, and what it found is returned.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.notation import Notation
from sheets.drawing.items import DrawingSet
from sheets.model.wall import Wall
from sheets.schedules.parts import PartsSchedule, parts_schedule, parts_table
from sheets.schedules.table import plain
from sheets.spec.reader import read_spec
from sheets.spec.schema import Spec
from sheets.spec.source import Source

Pictures = tuple[str, ...]
"""Kinds of picture wanted beside the files of every set: "png", "svg"."""


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
    """A set with its files by name; both empty when something is wrong."""

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
        spec, source, found = read_spec(path)
    if spec is None:
        return Solved(source, None, None, found)
    with watch.stage("resolve"):
        from sheets.resolve.wall import resolve

        wall, more = resolve(spec, source)
    found = (*found, *source.placed(more))
    return Solved(source, spec, None if has_errors(found) else wall, found)


def draw(
    path: Path, *, pictures: Pictures = (), starting: Callable[[str], None] = lambda stage: None
) -> Drawn:
    """Draw the set of a spec: its PDF, DXF, parts and manifest, and the pictures asked for."""
    watch = Stopwatch(starting)
    solved = solve(path, watch)
    found, wall, spec = solved.diagnostics, solved.wall, solved.spec
    if spec is None or wall is None:
        return Drawn(None, (), found, tuple(watch.timings))
    with watch.stage("views"):
        from sheets.views.make import make_views

        views = make_views(wall)
    with watch.stage("annotate"):
        from sheets.annotate.annotate import annotate

        annotated = annotate(wall, views)
    with watch.stage("schedule"):
        parts = parts_schedule(wall)
        tables = (parts_table(parts, wall.notation),)
    with watch.stage("compose"):
        from sheets.compose.compose import compose

        drawing, more = compose(annotated, tables, wall, folder=path.resolve().parent)
    found = (*found, *solved.source.placed(more))
    if has_errors(found):
        return Drawn(None, (), found, tuple(watch.timings))
    # The spec goes in with every default filled in: two files that say the same give the same set.
    from sheets.spec.defaults import canonical

    written = Written(path.stem, path.name, canonical(spec).encode("utf-8"))
    files = write(drawing, written, parts_rows(parts, wall.notation), pictures, watch)
    return Drawn(drawing, files, found, tuple(watch.timings))


def parts_rows(parts: PartsSchedule, notation: Notation) -> tuple[tuple[str, ...], ...]:
    """Return headings and rows of parts.csv: the schedule with the name of its group on each row."""
    rows: list[tuple[str, ...]] = []
    for group in parts.groups:
        table = parts_table(PartsSchedule((group,), parts.of_group(group[0])), notation)
        rows = rows or [("ASSEMBLY", *(column.header for column in table.columns))]
        # The first row of a group is its heading.
        rows += [(group[1].upper(), *(plain(cell) for cell in row)) for row in table.rows[1:]]
    return tuple(rows)


def write(
    drawing: DrawingSet, spec: Written, parts: Sequence[Sequence[str]], pictures: Pictures, watch: Stopwatch
) -> tuple[tuple[str, bytes], ...]:
    """Return the files of a set, by name. parts: headings and rows of parts.csv."""
    stem = spec.stem
    files: dict[str, bytes] = {}
    with watch.stage("write PDF"):
        from sheets.writers.pdf import pdf

        files[f"{stem}.pdf"] = pdf(drawing, ((f"{stem}.yaml", spec.text),))
    with watch.stage("write DXF"):
        from sheets.writers.dxf import dxf

        files[f"{stem}.dxf"] = dxf(drawing)
    for kind in pictures:
        with watch.stage(f"write {kind.upper()}"):
            from sheets.writers import raster

            picture = {"png": raster.png, "svg": raster.svg}[kind]
            files |= {f"{stem}-{sheet.number}.{kind}": picture(sheet) for sheet in drawing.sheets}
    with watch.stage("write parts and manifest"):
        from sheets.writers.manifest import NAME, manifest
        from sheets.writers.spreadsheet import csv_bytes

        files["parts.csv"] = csv_bytes(parts)
        files[NAME] = manifest(drawing, files, spec.name, spec.text)
    return tuple(files.items())
