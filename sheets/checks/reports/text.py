"""Reports as text for a terminal; the same bytes for the same reports."""

from __future__ import annotations

import textwrap
from collections import Counter

from sheets.base.diagnostics import WAIVED_ABOUT_FIRE, Severity
from sheets.checks.finding import Checked, Finding, RuleReport
from sheets.checks.waivers import waived_about_fire

_WIDTH = 110
SEVERITIES: tuple[Severity, ...] = ("error", "warning", "note")


def as_text(checked: Checked, *, numbers: bool = False) -> str:
    """Return the findings for a terminal, rule by rule; with `numbers`, what each rule measured as well.

    Each finding starts with file, line and column.
    """
    reports, file = checked.reports, checked.file
    blocks = [_rule_text(report, file, numbers) for report in reports]
    cautions = dict.fromkeys(caution for report in reports for caution in report.cautions)
    if cautions:
        blocks.append("Cautions\n" + "".join(wrapped(caution, "  ") for caution in cautions) + "\n")
    return "".join(block for block in blocks if block) + summary(reports) + "\n"


def wrapped(text: str, indent: str) -> str:
    """Return a sentence as lines of a terminal's width, each indented."""
    return textwrap.fill(text, width=_WIDTH, initial_indent=indent, subsequent_indent=indent + "  ") + "\n"


def counts(reports: tuple[RuleReport, ...]) -> dict[str, int]:
    """Return how many errors, warnings, notes and waived findings there are; and, when there are any, how
    many of the waived are errors about fire.
    """
    found = Counter(
        "waived" if each.waived else each.severity for report in reports for each in report.findings
    )
    said = {word: found[word] for word in (*SEVERITIES, "waived")}
    fire = waived_about_fire(reports)
    return {**said, WAIVED_ABOUT_FIRE: fire} if fire else said


def summary(reports: tuple[RuleReport, ...]) -> str:
    """Return one line: how many rules looked at how many things and what they found."""
    number = counts(reports)
    said = ", ".join(
        f"{count} {word}{'s' if count != 1 and word in SEVERITIES else ''}" for word, count in number.items()
    )
    idle = sum(report.looked_at == 0 for report in reports)
    return f"{len(reports)} rules, {idle} with nothing to judge: {said}"


def _rule_text(report: RuleReport, file: str, numbers: bool) -> str:
    lines = []
    for found in report.findings:
        lines += _finding_text(found, file)
    if numbers:
        lines += [f"  {row.subject}: {row.value}; {row.limit}: {row.verdict}" for row in report.measures]
    if not lines:
        return ""
    return "\n".join([f"{report.title} ({report.rule})", *lines, ""]) + "\n"


def _finding_text(found: Finding, file: str) -> list[str]:
    place = (
        f"{file}:{found.made_from.line}:{found.made_from.column}: " if found.made_from.line else f"{file}: "
    )
    word = f"waived {found.severity}" if found.waived else found.severity
    lines = [f"{place}{word}: {found.message}"]
    if found.cure:
        lines.append(f"    {found.cure}")
    lines.append(f"    source: {found.cited.text}")
    if found.waived:
        lines.append(f"    waived: {found.waived.text}")
    return lines
