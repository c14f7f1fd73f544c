"""What was found, as one JSON document; its schema is made from the same types."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, Literal

from typing_extensions import TypedDict  # that of 3.11's own library makes no schema

from sheets.base.diagnostics import Severity, spec_path
from sheets.base.documents import schema_of
from sheets.checks.finding import Checked, Finding, RuleReport, Verdict
from sheets.checks.reports.text import counts

FORMAT: Literal["shopset check"] = "shopset check"
VERSION: Literal[1] = 1


class SaidWaiver(TypedDict):
    """Who answers for a finding, why, and by what document."""

    reason: str
    by: str
    relied_on: str


class SaidFinding(TypedDict):
    """One thing to change or to know. path: the words of the spec that would be changed; line and column:
    where they stand, from 1, null where the spec leaves them out. subjects: keys of parts and components.
    """

    severity: Severity
    message: str
    cure: str
    source: str
    confidence: str
    path: str
    line: int | None
    column: int | None
    subjects: list[str]
    waived: SaidWaiver | None


class SaidMeasure(TypedDict):
    """One number that a rule worked out, the limit it is held against, and the outcome."""

    subject: str
    value: str
    limit: str
    verdict: Verdict
    source: str
    confidence: str


class SaidRule(TypedDict):
    """What one rule found. looked_at: how many things it judged."""

    rule: str
    title: str
    looked_at: int
    findings: list[SaidFinding]
    measures: list[SaidMeasure]
    cautions: list[str]


class SaidSpec(TypedDict):
    """What was found in one spec. counts: of errors, warnings, notes and waived findings."""

    file: str
    counts: dict[str, int]
    rules: list[SaidRule]


class Document(TypedDict):
    """Everything that was found in some specs."""

    format: Literal["shopset check"]
    version: Literal[1]
    specs: list[SaidSpec]


def as_json(specs: Sequence[Checked]) -> str:
    """Return everything that was found in some specs as one JSON document."""
    said: Document = {
        "format": FORMAT,
        "version": VERSION,
        "specs": [
            {
                "file": spec.file,
                "counts": counts(spec.reports),
                "rules": [_rule(report) for report in spec.reports],
            }
            for spec in specs
        ],
    }
    return json.dumps(said, indent=2, ensure_ascii=False) + "\n"


def schema() -> dict[str, Any]:
    """Return the JSON schema of the document."""
    return schema_of(Document, "What shopset check found")


def _rule(report: RuleReport) -> SaidRule:
    return {
        "rule": report.rule,
        "title": report.title,
        "looked_at": report.looked_at,
        "findings": [_finding(found) for found in report.findings],
        "measures": [
            {
                "subject": row.subject,
                "value": row.value,
                "limit": row.limit,
                "verdict": row.verdict,
                "source": row.cited.source,
                "confidence": row.cited.confidence,
            }
            for row in report.measures
        ],
        "cautions": list(report.cautions),
    }


def _finding(found: Finding) -> SaidFinding:
    waived = found.waived
    return {
        "severity": found.severity,
        "message": found.message,
        "cure": found.cure,
        "source": found.cited.source,
        "confidence": found.cited.confidence,
        "path": spec_path(found.made_from.path),
        "line": found.made_from.line or None,
        "column": found.made_from.column or None,
        "subjects": list(found.subjects),
        "waived": None
        if waived is None
        else {"reason": waived.reason, "by": waived.by, "relied_on": waived.relied_on},
    }
