"""Findings that the spec waives, with the reason and the name that are printed beside them."""

from __future__ import annotations

from dataclasses import replace

from sheets.checks.finding import Finding, RuleReport, Waived
from sheets.model.part import Provenance
from sheets.model.settings import Waiver
from sheets.tables.read import Cited


def waived(report: RuleReport, waivers: tuple[Waiver, ...]) -> RuleReport:
    """Return the report with each finding that a waiver answers marked by it; nothing is left out."""
    if not waivers:
        return report
    return replace(report, findings=tuple(_marked(finding, waivers) for finding in report.findings))


def waivers_report(reports: tuple[RuleReport, ...], waivers: tuple[Waiver, ...]) -> RuleReport | None:
    """Return a note for each waiver that answers nothing, or None when all do."""
    found = [finding for report in reports for finding in report.findings]
    idle = [waiver for waiver in waivers if not any(answers(waiver, finding) for finding in found)]
    if not idle:
        return None
    findings = tuple(
        Finding(
            "waivers",
            "note",
            f"the waiver of {waiver.rule}{f' for {waiver.part}' if waiver.part else ''} answers no finding",
            "take it out, or correct its rule or part",
            Cited("the spec", "confirmed"),
            Provenance(("checks", "waivers")),
        )
        for waiver in idle
    )
    return RuleReport("waivers", "Waivers", len(waivers), findings)


def answers(waiver: Waiver, finding: Finding) -> bool:
    """Return whether a waiver is meant for a finding: same rule, and the part it names is among the
    subjects.
    """
    if waiver.rule != finding.rule:
        return False
    return not waiver.part or any(
        key == waiver.part or key.startswith(waiver.part + "/") for key in finding.subjects
    )


def _marked(finding: Finding, waivers: tuple[Waiver, ...]) -> Finding:
    for waiver in waivers:
        if answers(waiver, finding):
            return replace(finding, waived=Waived(waiver.reason, waiver.by))
    return finding
