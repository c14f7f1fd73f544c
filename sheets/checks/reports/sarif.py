"""Reports as SARIF 2.1.0 (OASIS), for code reviews that show findings beside the lines of the spec."""

from __future__ import annotations

import json
from collections.abc import Sequence
from urllib.parse import quote

from sheets.checks.finding import Checked, Finding
from sheets.checks.run import RULES

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def as_sarif(specs: Sequence[Checked], *, version: str) -> str:
    """Return the findings of some specs as a SARIF log with one run. version: of this program.

    A waived finding is kept, as suppressed.
    """
    rules = [_rule(rule.name, rule.title, rule.explain) for rule in RULES]
    rules.append(_rule("waivers", "Waivers", "A waiver in the spec answers no finding."))
    index = {str(rule["id"]): number for number, rule in enumerate(rules)}
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": {"name": "shopset", "version": version, "rules": rules}},
                "columnKind": "unicodeCodePoints",
                "results": [
                    _result(found, spec.file, index[found.rule])
                    for spec in specs
                    for report in spec.reports
                    for found in report.findings
                ],
            }
        ],
    }
    return json.dumps(log, indent=2, ensure_ascii=False) + "\n"


def uri_of(file: str) -> str:
    """Return a file's name, with forward slashes, as a URI reference: what it may not hold percent-encoded;
    relative as it was given, or of the file scheme when it is a whole path. Source: RFC 3986, 2.1 and 4.2.
    """
    drive = len(file) > 2 and file[0].isalpha() and file[1:3] == ":/"
    coded = quote(file, safe="/:" if drive else "/")
    if drive:
        return f"file:///{coded}"
    return f"file://{coded}" if file.startswith("/") else coded


def _message(found: Finding) -> str:
    said = [part for part in (found.message, found.cure, f"Source: {found.cited.text}") if part]
    text = ". ".join(said) + "."
    # Braces would be placeholders, brackets links (3.11.5, 3.11.6).
    text = text.replace("{", "{{").replace("}", "}}")
    return text.replace("\\", "\\\\").replace("[", "\\[").replace("]", "\\]")


def _rule(name: str, title: str, text: str) -> dict[str, object]:
    return {"id": name, "shortDescription": {"text": title}, "fullDescription": {"text": text}}


def _result(found: Finding, file: str, index: int) -> dict[str, object]:
    location: dict[str, object] = {"artifactLocation": {"uri": uri_of(file)}}
    if found.made_from.line:
        location["region"] = {
            "startLine": found.made_from.line,
            "startColumn": max(found.made_from.column, 1),
        }
    result: dict[str, object] = {
        "ruleId": found.rule,
        "ruleIndex": index,
        "level": found.severity,
        "message": {"text": _message(found)},
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
        result["suppressions"] = [{"kind": "inSource", "justification": found.waived.text}]
    return result
