"""What the drawing set itself says of the checks: what is open and what is waived. The rest is in the file of
the checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sheets.checks.finding import Finding, RuleReport
from sheets.checks.reports.sheet_tables import cautions
from sheets.checks.reports.text import SEVERITIES

NONE_OPEN = "No finding is open and none is waived."
ELSEWHERE = (
    "The checks warn and certify nothing. What was weighed, with limits, sources and notes, is in the file "
    "of the checks that goes with this set."
)


@dataclass(frozen=True, slots=True)
class Brief:
    """Sentences for the first sheets. findings: those that somebody has to answer for, worst first."""

    findings: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


NOT_JUDGED = Brief()
"""Of a wall that no rule was run on."""


def in_brief(reports: Sequence[RuleReport]) -> Brief:
    """Return the open errors and warnings, then all that is waived, each in its own words; nothing where no
    rule was run.
    """
    if not reports:
        return NOT_JUDGED
    every = [found for report in reports for found in report.findings]
    found = [each for each in every if each.waived or each.severity != "note"]
    found.sort(key=lambda each: (each.waived is not None, SEVERITIES.index(each.severity)))
    return Brief(tuple(map(_said, found)) or (NONE_OPEN,), (*cautions(reports), ELSEWHERE))


def _said(found: Finding) -> str:
    # Quotes about a word of the spec are for a screen: on paper they stand higher than capitals.
    message = _closed(found.message.replace("`", ""))
    if found.waived is None:
        return f"{found.severity}, {found.rule}: {message} {_closed(found.cure.replace('`', ''))}".strip()
    return f"{found.severity} waived, {found.rule}: {message} Waived: {_closed(found.waived.text)}"


def _closed(sentence: str) -> str:
    return sentence if not sentence or sentence.endswith(".") else f"{sentence}."

