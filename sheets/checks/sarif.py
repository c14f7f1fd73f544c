"""Reports as SARIF 2.1.0 (OASIS), for code reviews that show findings beside the lines of the spec."""

from __future__ import annotations

import json

from sheets.checks.finding import Finding, RuleReport
from sheets.checks.rules import RULES

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def as_sarif(reports: tuple[RuleReport, ...], file: str, *, version: str) -> str:
    """Return the findings of one spec as a SARIF log with one run. version: of this program.

    file: a path with forward slashes, relative where it can be. A waived finding is kept, as suppressed.
    """
    rules = [_rule(rule.name, rule.title, rule.explain) for rule in RULES]
    if any(report.rule == "waivers" for report in reports):
        rules.append(_rule("waivers", "Waivers", "A waiver in the spec answers no finding."))
    index = {str(rule["id"]): number for number, rule in enumerate(rules)}
    results = [_result(found, file, index[found.rule]) for report in reports for found in report.findings]
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": {"name": "shopset", "version": version, "rules": rules}},
                "columnKind": "unicodeCodePoints",
                "results": results,
            }
        ],
    }
    return json.dumps(log, indent=2, ensure_ascii=False) + "\n"


def _rule(name: str, title: str, text: str) -> dict[str, object]:
    return {"id": name, "shortDescription": {"text": title}, "fullDescription": {"text": text}}


def _result(found: Finding, file: str, index: int) -> dict[str, object]:
    location: dict[str, object] = {"artifactLocation": {"uri": file}}
    if found.made_from.line:
        location["region"] = {
            "startLine": found.made_from.line,
            "startColumn": max(found.made_from.column, 1),
        }
    result: dict[str, object] = {
        "ruleId": found.rule,
        "ruleIndex": index,
        "level": found.severity,
        "message": {"text": f"{found.message}. {found.cure}. Source: {found.cited.text}."},
        "locations": [
            {
                "physicalLocation": location,
                "logicalLocations": [{"fullyQualifiedName": key} for key in found.subjects],
            }
        ],
    }
    if not found.subjects:
        result["locations"] = [{"physicalLocation": location}]
    if found.waived:
        by = f" ({found.waived.by})" if found.waived.by else ""
        result["suppressions"] = [{"kind": "inSource", "justification": f"{found.waived.reason}{by}"}]
    return result
