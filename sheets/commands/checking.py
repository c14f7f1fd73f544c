"""`check`: the findings of every rule on solved walls, as text or in the forms that CI reads."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from sheets import __version__
from sheets.base.diagnostics import Diagnostic
from sheets.base.source import Source
from sheets.grammar.reader import Reading, read_spec
from sheets.pipeline import Solved, solve

CheckFormat = Literal["text", "json", "junit", "sarif"]


def checked(
    specs: Sequence[Path], form: CheckFormat, *, numbers: bool = False
) -> tuple[str, bool, int, tuple[Diagnostic, ...]]:
    """Return the report, whether a rule found an error that nobody waived, how many errors about fire are
    waived, and what is wrong with the input.

    A spec that cannot be solved has no report. numbers: with what each rule measured, in the text.
    """
    from sheets.checks import run as rules
    from sheets.checks.finding import Checked
    from sheets.checks.reports.formats import formatted
    from sheets.checks.waivers import waived_about_fire

    found: list[Checked] = []
    text: list[str] = []
    wrong: list[Diagnostic] = []
    for spec in specs:
        solved = _solved(spec)
        wrong += solved.diagnostics
        if solved.wall is None:
            continue
        reports = rules.run_checks(solved.wall, solved.source.place_of)
        found.append(Checked(spec.as_posix(), reports, solved.source.lines))
        made = sum(part.maker == "shop" for part in solved.wall.parts)
        said = formatted(found[-1:], "text", version=__version__, numbers=numbers)
        text.append(f"{spec}: {made} parts\n{said}")
    failed = any(rules.has_errors(spec.reports) for spec in found)
    said = "\n".join(text) if form == "text" else formatted(found, form, version=__version__)
    return said, failed, sum(waived_about_fire(spec.reports) for spec in found), tuple(wrong)


def spec_as_read(path: Path) -> Reading:
    """Return the spec of a file, or that which the PDF of a set carries, as it is read."""
    if path.suffix.lower() != ".pdf":
        return read_spec(path)
    carried = _carried(path)
    return carried.spec, carried.source, carried.diagnostics


def _solved(spec: Path) -> Solved:
    return solve(spec) if spec.suffix.lower() != ".pdf" else _carried(spec)


def _carried(pdf: Path) -> Solved:
    # The PDF of a set stands for the spec that it carries.
    from sheets.commands.given import GivenError, given

    try:
        return given(str(pdf)).solved
    except GivenError as error:
        return Solved(Source(str(pdf)), None, None, (Diagnostic("no-spec-attached", "error", str(error)),))


Document = Literal["check", "compare", "manifest", "schedules"]


def schema_text(document: Document) -> str:
    """Return the JSON schema of a document that the program writes."""
    from sheets.base.documents import written

    if document == "check":
        from sheets.checks.reports.document import schema
    elif document == "compare":
        from sheets.revisions.comparing.change_document import schema
    elif document == "manifest":
        from sheets.writers.manifest_document import schema
    else:
        from sheets.schedules.export import schema
    return written(schema)


def explained(rule: str) -> tuple[str | None, str | None]:
    """Return the reasoning and source of a rule, or None and the nearest rule's name."""
    from sheets.checks import run as rules

    return rules.explain(rule), rules.nearest_rule(rule)


def rule_names() -> tuple[str, ...]:
    """Return the names of all rules, in the order of the checks sheet."""
    from sheets.checks.run import RULES

    return tuple(rule.name for rule in RULES)
