"""Findings that the spec waives, with the reason and the name that are printed beside them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sheets.checks.finding import Finding, RuleReport, Waived
from sheets.model.part import Provenance
from sheets.model.settings import Waiver
from sheets.tables.read import Cited

LEAST_WORDS = 5
"""A reason in fewer different words gives no grounds for building what a rule of fire refuses."""


def waived(report: RuleReport, waivers: tuple[Waiver, ...]) -> RuleReport:
    """Return the report with each finding that a waiver answers marked by it; nothing is left out.

    An error about fire is waived only for grounds: a reason of substance, a name, and a document.
    """
    if not waivers:
        return report
    return replace(
        report,
        findings=tuple(_marked(finding, waivers, report.about_fire) for finding in report.findings),
    )


def waivers_report(reports: tuple[RuleReport, ...], waivers: tuple[Waiver, ...]) -> RuleReport | None:
    """Return a note for each waiver that answers nothing and an error for each that lacks the grounds that
    fire wants, or None when all do.
    """
    idle: list[Finding] = []
    for number, waiver in enumerate(waivers):
        answered = [
            (report, finding) for report in reports for finding in report.findings if answers(waiver, finding)
        ]
        refused = any(report.about_fire and each.severity == "error" for report, each in answered)
        lacking = lacks(waiver)
        if not answered:
            idle.append(
                _said(
                    number, "note", waiver, "answers no finding", "take it out, or correct its rule or part"
                )
            )
        elif refused and lacking:
            idle.append(
                _said(
                    number,
                    "error",
                    waiver,
                    f"is not taken: it waives an error about fire without {lacking}",
                    f"give a reason in {LEAST_WORDS} words or more, `by` with a name, and `relied_on` with "
                    "the document that it rests on",
                )
            )
    return RuleReport("waivers", "Waivers", len(waivers), tuple(idle)) if idle else None


def answers(waiver: Waiver, finding: Finding) -> bool:
    """Return whether a waiver is meant for a finding: same rule, and the part it names is among the
    subjects.
    """
    if waiver.rule != finding.rule:
        return False
    return not waiver.part or any(
        key == waiver.part or key.startswith(waiver.part + "/") for key in finding.subjects
    )


def lacks(waiver: Waiver) -> str:
    """Return what a waiver lacks for an error about fire, "" when it has all."""
    words = {word for word in waiver.reason.lower().split() if any(letter.isalpha() for letter in word)}
    missing = (
        ("a reason of substance", len(words) >= LEAST_WORDS),
        ("a name", _has_letters(waiver.by, 2)),
        ("the document that it relies on", _has_letters(waiver.relied_on, 4)),
    )
    return ", ".join(what for what, there in missing if not there)


def waived_about_fire(reports: Iterable[RuleReport]) -> int:
    """Return how many errors about fire are waived."""
    return sum(
        each.waived is not None and each.severity == "error"
        for report in reports
        if report.about_fire
        for each in report.findings
    )


def _has_letters(text: str, least: int) -> bool:
    return sum(letter.isalnum() for letter in text) >= least


def _said(number: int, severity: str, waiver: Waiver, what: str, cure: str) -> Finding:
    whose = f"the waiver of {waiver.rule}{f' for {waiver.part}' if waiver.part else ''}"
    return Finding(
        "waivers",
        severity,  # type: ignore[arg-type]
        f"{whose} {what}",
        cure,
        Cited("the spec", "confirmed"),
        Provenance(("checks", "waivers", number)),
    )


def _marked(finding: Finding, waivers: tuple[Waiver, ...], about_fire: bool) -> Finding:
    for waiver in waivers:
        if not answers(waiver, finding):
            continue
        if about_fire and finding.severity == "error" and lacks(waiver):
            continue
        return replace(finding, waived=Waived(waiver.reason, waiver.by, waiver.relied_on))
    return finding
