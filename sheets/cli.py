"""The commands. Exit status: 0 good, 1 findings, 2 the input is wrong.

What was drawn goes to standard output, what was found and how far it is to standard error. Only a fault of
the program itself shows a traceback.
"""

from __future__ import annotations

import atexit
import gc
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated, Any, Literal

import typer

from sheets import __version__
from sheets.base.diagnostics import WAIVED_ABOUT_FIRE, Diagnostic, has_errors, in_order, print_text
from sheets.base.text_file import checks_file, shown_name, stem_of
from sheets.commands.command_line import register
from sheets.commands.drawing import Done, Job, Tally
from sheets.commands.progress import Progress
from sheets.writers.pictures import LEAST_DPI, MOST_DPI, Picture

GOOD, FINDINGS, WRONG = 0, 1, 2
FIRE_WAIVED = 3
"""All is good but for an error about fire that someone waived and answers for."""
CheckFormat = Literal["text", "json", "junit", "sarif"]
ScheduleFormat = Literal["csv", "xlsx", "json"]
Stage = Literal["spec", "wall", "views", "annotated", "composed"]
Made = tuple[tuple[tuple[str, bytes], ...], tuple[Diagnostic, ...]]
"""Files by name, and what was found in making them."""

app = typer.Typer(
    add_completion=False, no_args_is_help=True, pretty_exceptions_enable=False, rich_markup_mode=None,
    help="Draw the shop drawings of a built-in wall from its spec.",
)  # fmt: skip

Specs = Annotated[list[Path], typer.Argument(metavar="SPEC", help="Spec files (YAML).", show_default=False)]
Out = Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder the sets go into.")]


register(app)


def run() -> int:
    """Run the command that the process was called with and return its exit status."""
    # A run lives for seconds and leaves few cycles behind; looking for them costs a tenth of it, and at its
    # end as much as an import of a library.
    gc.disable()
    atexit.register(gc.freeze)
    try:
        app()
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else WRONG
    return GOOD


def _print_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"shopset {__version__}")
        raise typer.Exit(GOOD)


@app.callback()
def _common(
    version: Annotated[
        bool, typer.Option("--version", callback=_print_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    pass


@app.command("draw")
def draw_command(
    specs: Specs,
    out: Out = Path("out"),
    png: Annotated[bool, typer.Option("--png", help="A PNG of each sheet as well.")] = False,
    dpi: Annotated[
        int | None,
        typer.Option("--dpi", metavar="N", min=LEAST_DPI, max=MOST_DPI, help="Dots per inch of PNGs (150)."),
    ] = None,
    svg: Annotated[bool, typer.Option("--svg", help="An SVG of each sheet as well.")] = False,
    times: Annotated[bool, typer.Option("--times", help="Say how long each stage took.")] = False,
    check: Annotated[
        bool, typer.Option("--check", help="Write nothing; name the sheets in DIR that differ (status 1).")
    ] = False,
    jobs: Annotated[
        int, typer.Option("-j", "--jobs", metavar="N", min=1, help="Draw N specs at a time.")
    ] = 1,
    cache: Annotated[
        Path | None,
        typer.Option("--cache", metavar="DIR", help="Keep drawn sets in DIR; skip what is unchanged."),
    ] = None,
    strict: Annotated[
        bool, typer.Option("--strict", help="Status 1 for any defect that the audit sees on a sheet.")
    ] = False,
    shard: Annotated[
        str, typer.Option("--shard", metavar="K/N", help="Only the K-th of N shares of the specs.")
    ] = "1/1",
) -> None:
    """Draw the set of each spec: PDF, DXF, parts, manifest.

    Each goes into a folder of its own in DIR, named as the spec is. A folder stands for the specs in it, an
    issued PDF for its spec. --check holds pictures as they were drawn, and names a set that has no spec.
    Status 1, with the set written: a rule found an error that nobody waived. Status 3: none but errors about
    fire that are waived.
    """
    from sheets.commands.drawing import draw_all
    from sheets.commands.holding import orphans
    from sheets.commands.named_specs import share_from, share_of

    every = _named(specs)
    with _told_as_wrong():
        share = share_from(shard)
    if dpi is not None and not png:
        raise _wrong("--dpi is for the PNGs of --png")
    pngs = (Picture("png", dpi) if dpi else Picture("png"),) if png else ()
    pictures = (*pngs, *((Picture("svg"),) if svg else ()))
    todo = [Job(spec, out, pictures, cache, check) for spec in share_of(every, share)]
    progress, tally = Progress(), Tally()
    worst = GOOD
    for done in draw_all(todo, jobs, progress.show):
        progress.clear()
        tally.count(done)
        worst = _worse(worst, _tell(done, times, strict))
    lost = orphans(out, every) if check and share.number == 1 else ()
    for line in lost:
        typer.echo(line)
    if len(every) != 1 or lost:
        typer.echo(tally.line(len(lost)))
    raise typer.Exit(_worse(worst, FINDINGS if lost else GOOD))


@app.command("check")
def check_command(
    specs: Annotated[
        list[Path] | None, typer.Argument(metavar="SPEC...", help="Spec files (YAML).", show_default=False)
    ] = None,
    form: Annotated[CheckFormat, typer.Option("--format", help="How the findings are written.")] = "text",
    numbers: Annotated[bool, typer.Option("--numbers", help="With what each rule measured.")] = False,
    explain: Annotated[
        str, typer.Option("--explain", metavar="RULE", help="Tell a rule's reasoning and source.")
    ] = "",
) -> None:
    """Read and solve each spec without drawing it, and hold it against every rule.

    Status 1: a rule found an error that nobody waived. Status 3: none but errors about fire that are waived.
    """
    from sheets.commands.checking import checked, explained, rule_names

    if explain:
        text, near = explained(explain)
        if text is None:
            meant = f"; did you mean '{near}'?" if near else ""
            raise _wrong(f"there is no rule '{explain}'{meant}\nrules: {', '.join(rule_names())}")
        typer.echo(text, nl=False)
        raise typer.Exit(GOOD)
    if not specs:
        raise _wrong("check wants a spec, or --explain RULE")
    said, failed, fire_waived, diagnostics = checked(_named(specs), form, numbers=numbers)
    status = _report(diagnostics)
    typer.echo(said, nl=False)
    if fire_waived:
        typer.echo(_fire_waived(fire_waived), err=True)
    raise typer.Exit(_worse(status, FINDINGS if failed else FIRE_WAIVED if fire_waived else GOOD))


@app.command("defaults")
def defaults_command(
    spec: Annotated[Path, typer.Argument(metavar="SPEC", help="Spec file (YAML).", show_default=False)],
) -> None:
    """Print the spec with every default filled in. It draws to the same bytes. The PDF of a set can stand
    for its spec."""
    from sheets.commands.checking import spec_as_read
    from sheets.grammar.defaults import filled

    read, source, found = spec_as_read(spec)
    status = _report(found)
    if read is not None:
        typer.echo(filled(read, source), nl=False)
    raise typer.Exit(status)


@app.command("spec")
def spec_command(
    pdf: Annotated[Path, typer.Argument(metavar="FILE.pdf", help="PDF of a set.", show_default=False)],
    out: Annotated[
        Path | None, typer.Option("-o", "--out", metavar="FILE", help="File to write; else it is printed.")
    ] = None,
) -> None:
    """Give back the spec that the PDF of a set carries: of an issue as its author wrote it, comments and all;
    of another set with every default filled in. A file that is there is left alone."""
    from sheets.commands.given import GivenError, spec_of

    try:
        text, as_written = spec_of(pdf)
    except GivenError as error:
        raise _wrong(str(error)) from None
    if not as_written:
        typer.echo(f"note: {pdf}: carries the filled spec; issues carry it as it was written", err=True)
    if out is None:
        typer.echo(text, nl=False)
        return
    _write_new(out, text)
    typer.echo(f"{out}: written")


@app.command("dump")
def dump_command(
    stage: Annotated[Stage, typer.Argument(metavar="STAGE", help="spec, wall, views, annotated, composed.")],
    spec: Annotated[Path, typer.Argument(metavar="SPEC", help="Spec file (YAML).", show_default=False)],
) -> None:
    """Print what a stage made of the spec, as text: exact lengths, the same for the same spec."""
    from sheets.commands.stages import stage_text

    said, found = stage_text(spec, stage)
    status = _report(found)
    typer.echo(said, nl=False)
    raise typer.Exit(status)


@app.command("new")
def new_command(
    path: Annotated[Path, typer.Argument(metavar="PATH", help="File to write.", show_default=False)],
) -> None:
    """Write a commented starter spec, ready to draw. An existing file is left alone."""
    from sheets.grammar.starter import starter_spec

    _write_new(path, starter_spec().encode("utf-8"))
    typer.echo(f"{path}: written. Draw it with: shopset draw {path}")


@app.command("schema")
def schema_command(
    document: Annotated[
        Literal["check", "compare", "manifest", "schedules"],
        typer.Argument(metavar="DOCUMENT", help="check, compare, manifest, schedules.", show_default=False),
    ],
) -> None:
    """Print the JSON schema of a document that the program writes."""
    from sheets.commands.checking import schema_text

    typer.echo(schema_text(document), nl=False)


@app.command("schedule")
def schedule_command(
    specs: Annotated[
        list[Path] | None, typer.Argument(metavar="SPEC...", help="Spec files (YAML).", show_default=False)
    ] = None,
    form: Annotated[ScheduleFormat, typer.Option("--format", help="How the tables are written.")] = "csv",
    out: Out = Path("out"),
    columns: Annotated[
        bool, typer.Option("--columns", help="Tell what every column of every schedule says.")
    ] = False,
) -> None:
    """Write the schedules: parts, lumber, panels, cutting plans, offcuts, backers, hardware, ordinates.

    Those of each spec go into DIR/<spec>-schedules. JSON comes with the schema that describes it.
    """
    if columns:
        from sheets.schedules.export import columns_document

        typer.echo(columns_document(), nl=False)
        raise typer.Exit(GOOD)
    if not specs:
        raise _wrong("schedule wants a spec, or --columns")
    from sheets.commands.shop_files import schedules_of

    _write_each(specs, out, "schedules", lambda shop_set: schedules_of(shop_set, form))


@app.command("patterns")
def patterns_command(specs: Specs, out: Out = Path("out")) -> None:
    """Write the full-size patterns: long sheets as PDF and DXF, and tiles for the spec's paper.

    Those of each spec go into DIR/<spec>-patterns.
    """
    from sheets.commands.shop_files import pattern_files

    _write_each(specs, out, "patterns", lambda shop_set: pattern_files(shop_set.wall, shop_set.stem))


@app.command("labels")
def labels_command(specs: Specs, out: Out = Path("out")) -> None:
    """Write the part labels as a PDF on their grid, into DIR/<spec>-labels."""
    from sheets.commands.shop_files import label_files

    _write_each(specs, out, "labels", lambda shop_set: label_files(shop_set.wall, shop_set.stem))


def _write_each(specs: Sequence[Path], out: Path, kind: str, make: Callable[[Any], Made]) -> None:
    # Each goes into a folder of its own, so that the drawn set beside it stays whole. make: of what
    # `named_set` gives, whose type would load all stages for every command.
    from sheets.commands.shop_files import named_set, with_manifest
    from sheets.writers.folder import FolderError, write_folder

    _refuse_same_names(specs)
    worst = GOOD
    for spec in specs:
        shop_set, found = named_set(spec)
        files: tuple[tuple[str, bytes], ...] = ()
        if shop_set is not None:
            files, more = make(shop_set)
            found = (*found, *shop_set.solved.source.placed(more))
        worst = _worse(worst, _report(found))
        target = out / f"{spec.stem}-{kind}"
        if files:
            assert shop_set is not None
            try:
                told = write_folder(
                    target, dict(with_manifest(shop_set, files)), beside=kind == "schedules"
                )
            except FolderError as error:
                raise _wrong(str(error)) from None
            for line in told:
                typer.echo(f"note: {line}", err=True)
            for name, _ in files:
                typer.echo(str(target / name))
        elif shop_set is not None and not has_errors(found):
            typer.echo(f"{spec}: no {kind} to write")
    raise typer.Exit(worst)


def _tell(done: Done, times: bool, strict: bool) -> int:
    for line in done.told:
        typer.echo(f"note: {line}", err=True)
    status = _report(done.diagnostics)
    if times:
        for stage, seconds in done.timings:
            typer.echo(f"{seconds * 1000:8.0f} ms  {stage}", err=True)
    if not done.sheets:
        return WRONG
    if done.trouble:
        typer.echo(f"error: {done.trouble}", err=True)
        return WRONG
    if done.differs:
        typer.echo("\n".join(f"{done.job.spec}: {line}" for line in done.differs))
        return _worse(status, FINDINGS)
    if done.job.check:
        typer.echo(f"{done.job.spec}: {done.job.folder} is what the spec gives")
    elif done.unchanged:
        typer.echo(f"{done.job.folder}: {len(done.sheets)} sheets, unchanged")
    else:
        typer.echo(_table(done.sheets, done.job.folder, stem_of(done.job.spec)))
    if done.draft:
        typer.echo(f"{done.job.spec}: {done.draft}")
    for defect in done.defects:
        typer.echo(f"{done.job.spec}: {defect}", err=True)
    found = ", ".join(
        f"{count} {word}{'s' * (count != 1 and not word.startswith('waived'))}" for word, count in done.checks
    )
    typer.echo(f"checks: {found}; audit: {len(done.defects) or 'no'} defect{'s' * (len(done.defects) != 1)}")
    wrong = dict(done.checks).get("error", 0)
    if wrong:
        typer.echo(f"{done.job.spec}: the sheets are written; `shopset check` tells what is wrong", err=True)
    fire = dict(done.checks).get(WAIVED_ABOUT_FIRE, 0)
    if fire:
        typer.echo(f"{done.job.spec}: {_fire_waived(fire)}", err=True)
    found_here = FINDINGS if wrong or (strict and done.defects) else FIRE_WAIVED if fire else GOOD
    return _worse(status, found_here)


def _table(sheets: Sequence[tuple[str, str]], target: Path, stem: str) -> str:
    wide = max((len(number) for number, _ in sheets), default=0)
    lines = [f"{target / stem}.pdf"]
    for page, (number, title) in enumerate(sheets, 1):
        lines.append(f"  page {page:>2}  {number:<{wide}}  {title}")
    others = (checks_file(stem), f"{stem}.dxf", "parts.csv", "manifest.json")
    lines += [str(target / name) for name in others]
    return "\n".join(lines)


def _named(paths: Sequence[Path]) -> tuple[Path, ...]:
    # The specs that are meant. A title block among them is skipped with a word.
    from sheets.commands.named_specs import named

    with _told_as_wrong():
        found = named(paths)
    for block in found.blocks:
        typer.echo(f"note: {shown_name(block)}: is a title block, no spec; it is skipped", err=True)
    _refuse_same_names(found.specs)
    return found.specs


@contextmanager
def _told_as_wrong() -> Iterator[None]:
    from sheets.commands.named_specs import NamedError

    try:
        yield
    except NamedError as error:
        raise _wrong(str(error)) from None


def _refuse_same_names(specs: Iterable[Path]) -> None:
    # Folded, because on many disks Wall and wall are one folder.
    seen: dict[str, Path] = {}
    for spec in specs:
        name = spec.stem.casefold()
        if name in seen:
            raise _wrong(
                f"{seen[name]} and {spec} would both be drawn into the folder '{spec.stem}'; "
                "rename one, or draw them one at a time with different -o"
            )
        seen[name] = spec


def _write_new(path: Path, data: bytes) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with open(path, "xb") as file:
            file.write(data)
    except FileExistsError:
        raise _wrong(f"{path}: exists already; nothing was written") from None
    except OSError as error:
        raise _wrong(f"{path}: cannot be written: {error.strerror or error}") from None


def _worse(*statuses: int) -> int:
    return max(statuses, key=(GOOD, FIRE_WAIVED, FINDINGS, WRONG).index)


def _fire_waived(count: int) -> str:
    return f"fire-waived: {count} error{'s' * (count != 1)} about fire {'are' if count != 1 else 'is'} waived"


def _report(found: tuple[Diagnostic, ...]) -> int:
    if found:
        typer.echo(print_text(in_order(found)), err=True, nl=False)
    if has_errors(found):
        return WRONG
    return FINDINGS if any(d.severity == "warning" for d in found) else GOOD


def _counted(found: tuple[Diagnostic, ...]) -> str:
    warnings = sum(d.severity == "warning" for d in found)
    return {0: "no warnings", 1: "1 warning"}.get(warnings, f"{warnings} warnings")


def _wrong(message: str) -> typer.Exit:
    typer.echo(f"error: {message}", err=True)
    return typer.Exit(WRONG)
