"""From a spec's file to the files of its set: the stages in order, each given what the one before made.

Nothing here decides anything. A stage that takes as long as others, and waits for none of them, runs beside.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sheets.annotate.intent import Annotated
from sheets.audit.audit import Defect
from sheets.base.beside import beside
from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.source import Source
from sheets.base.stopwatch import Stopwatch
from sheets.base.text_file import checks_file
from sheets.checks.finding import RuleReport
from sheets.compose.draft import Draft
from sheets.drawing.items import DrawingSet
from sheets.grammar.reader import Reading, read_spec
from sheets.grammar.schema import Spec
from sheets.model.wall import Wall
from sheets.resolve.own_codes import TextOf, in_folder, with_own_codes
from sheets.revisions.keeping.record import Record
from sheets.schedules.all_schedules import ShopSchedules
from sheets.schedules.table import TableData
from sheets.writers.pictures import Pictures, picture_files


@dataclass(frozen=True, slots=True)
class Solved:
    """A spec read and solved. spec is None when it has errors; wall as well when it cannot be solved."""

    source: Source
    spec: Spec | None
    wall: Wall | None
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """The spec as it goes into the set: the stem that names the files, its file's name, its text."""

    stem: str
    name: str
    text: bytes
    includes: tuple[tuple[str, bytes], ...] = ()  # by name: what else the set was drawn from


def solve(path: Path, watch: Stopwatch | None = None) -> Solved:
    """Read a spec and solve it: every size known, every part in its place."""
    watch = watch or Stopwatch()
    with watch.stage("read"):
        reading = read_spec(path)
    return solve_reading(reading, watch, in_folder(path.resolve().parent))


def solve_reading(reading: Reading, watch: Stopwatch, table_of: TextOf) -> Solved:
    """Solve a spec that has been read. table_of: reads a table of clearances that it names."""
    spec, source, found = reading
    if spec is None:
        return Solved(source, None, None, found)
    with watch.stage("resolve"):
        from sheets.resolve.solve import resolve

        wall, more = resolve(spec, source)
        if wall is not None:
            wall, unread = with_own_codes(wall, table_of)
            more = (*more, *unread)
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
    from sheets.schedules.all_schedules import all_tables

    tables = all_tables(shown.shop, sheet_of)
    if shown.retired:
        gone = "MARKS OF EARLIER ISSUES THAT ARE NOT USED AGAIN: " + ", ".join(shown.retired) + "."
        tables = (replace(tables[0], notes=(*tables[0].notes, gone)), *tables[1:])
    return tables


def _listed(wall: Wall) -> tuple[ShopSchedules, tuple[RuleReport, ...]]:
    from sheets.checks.run import run_checks
    from sheets.schedules.all_schedules import shop_schedules

    return shop_schedules(wall), run_checks(wall)


def place(
    shown: Shown, folder: Path, watch: Stopwatch, record: Record | None = None, draft: Draft | None = None
) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Place what is shown on sheets, with the revision marks of its record and the mark of its status.

    draft: what of it is not that issue.
    """
    from sheets.compose.pages.watermark import watermarked

    if record is None:
        drawing, found = _composed(shown, folder, watch, None, draft)
    else:
        from sheets.revisions.marking.decorate import decorated, revision_of

        drawing, found = _composed(shown, folder, watch, revision_of(record), draft)
        drawing = decorated(drawing, record)
    return watermarked(drawing, shown.wall.project.status, draft), found


def place_bare(shown: Shown, folder: Path, watch: Stopwatch) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Place what is shown on sheets that carry no revision yet: what two issues are compared by."""
    return _composed(shown, folder, watch, {})


def _composed(
    shown: Shown,
    folder: Path,
    watch: Stopwatch,
    revision_of: Mapping[str, str] | None,
    draft: Draft | None = None,
) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    with watch.stage("compose"):
        from sheets.compose.compose import compose
        from sheets.drawing.lettering import read_fonts
        from sheets.schedules.all_schedules import all_diagrams

        read_fonts()  # once, for this process and those beside it
        return compose(
            shown.annotated, shown.wall, tables=lambda sheet_of: _tables(shown, sheet_of),
            diagrams=all_diagrams(shown.shop), patterns=shown.shop.patterns,
            reports=shown.reports, folder=folder, revision_of=revision_of, draft=draft,
        )  # fmt: skip


def sent(drawing: DrawingSet, only: Sequence[str]) -> DrawingSet:
    """Return the set with these of its sheets; with all if none are named."""
    return replace(drawing, sheets=tuple(s for s in drawing.sheets if s.number in only or not only))


def write(
    drawing: DrawingSet, spec: Written, shown: Shown, pictures: Pictures, watch: Stopwatch, folder: Path,
    *, draft: Draft | None = None, only: Sequence[str] = (),
) -> tuple[tuple[str, bytes], ...]:  # fmt: skip
    """Return the files of a set, by name.

    folder: where its title block lies. draft: what of it, if anything, is not as it was issued. only: the
    sheets that are sent, where not all are.
    """
    whole, drawing = drawing, sent(drawing, only)
    stem = spec.stem
    files: dict[str, bytes] = {}
    unlike = [s.number for s in drawing.sheets if draft is not None and s.revision == draft.number]
    dxf = beside(lambda: _dxf(drawing))
    checks = beside(lambda: _checks(shown, folder, draft if unlike else None))
    with watch.stage("write PDF"):
        from sheets.writers.pdf import pdf

        files[f"{stem}.pdf"] = pdf(drawing, ((f"{stem}.yaml", spec.text), *spec.includes))
    for picture in pictures:
        with watch.stage(f"write {picture.kind.upper()}"):
            files.update(picture_files(drawing, stem, picture))
    with watch.stage("audit"):
        from sheets.audit.audit import audit

        defects = audit(whole)
    with watch.stage("list parts and sheets"):
        from sheets.compose.pages.references import marks_in
        from sheets.drawing.dump import sheet_hash
        from sheets.schedules.export import parts_csv

        files["parts.csv"] = parts_csv(shown.shop, marks_in(whole))
        hashes = [sheet_hash(sheet) for sheet in drawing.sheets]
    with watch.stage("write DXF"):
        files[f"{stem}.dxf"] = dxf()
    with watch.stage("write checks"):
        files[checks_file(stem)], more = checks()
    with watch.stage("write manifest"):
        from sheets.checks.reports.text import counts
        from sheets.writers.manifest import NAME, manifest

        verdict: dict[str, object] = {
            "checks": counts(shown.reports), "audit": [str(defect) for defect in (*defects, *more)],
        }  # fmt: skip
        if draft is not None and unlike:
            verdict["draft"] = {"says": draft.says, "sheets": unlike}
        files[NAME] = manifest(drawing, files, spec.name, spec.text, verdict, hashes, pictures)
    return tuple(files.items())


def _dxf(drawing: DrawingSet) -> bytes:
    from sheets.writers.dxf import dxf

    return dxf(drawing)


def _checks(shown: Shown, folder: Path, draft: Draft | None) -> tuple[bytes, tuple[Defect, ...]]:
    from sheets.audit.audit import audit
    from sheets.compose.checks_set import checks_set
    from sheets.writers.pdf import pdf

    drawing = checks_set(shown.wall, shown.reports, folder=folder, draft=draft)
    return pdf(drawing), audit(drawing)
