"""Findings that say the same of several alike pieces, made into one."""

from __future__ import annotations

from dataclasses import replace

from sheets.checks.finding import Finding, RuleReport
from sheets.checks.wording import called
from sheets.model.wall import Wall


def merged(report: RuleReport, wall: Wall) -> RuleReport:
    """Return the report with findings that differ only in which piece they are about joined: 8 shelves, one
    finding.

    The first stays and names how many more there are; its subjects are those of all.
    """
    names = {part.key: called(part) for part in wall.parts}
    names.update({component.key: component.name.lower() for component in wall.components})
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in report.findings:
        groups.setdefault(_likeness(finding, names), []).append(finding)
    return replace(report, findings=tuple(_one(group) for group in groups.values()))


def _likeness(finding: Finding, names: dict[str, str]) -> tuple[object, ...]:
    message = finding.message
    for key in sorted(finding.subjects, key=lambda each: -len(names.get(each, ""))):
        if names.get(key):
            message = message.replace(names[key], "")
    return (
        finding.rule,
        finding.severity,
        message,
        finding.cure,
        finding.made_from,
        len(finding.subjects),
        finding.waived,
    )


def _one(group: list[Finding]) -> Finding:
    first = group[0]
    if len(group) == 1:
        return first
    subjects = tuple(dict.fromkeys(key for finding in group for key in finding.subjects))
    return replace(first, message=f"{first.message}; {len(group) - 1} more alike", subjects=subjects)
