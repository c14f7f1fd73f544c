"""Reports as SARIF 2.1.0 (OASIS), for code reviews that show findings beside the lines of the spec."""

from __future__ import annotations

import hashlib
import json
import re
from collections import Counter
from collections.abc import Sequence
from urllib.parse import quote

from sheets.base.diagnostics import spec_path
from sheets.checks.finding import Checked, Finding
from sheets.checks.run import RULES

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

_FINGERPRINT = "finding/v1"  # a hierarchical string: what it is of, and the version of how it is made (3.5.4)
_QUOTED = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'")
_KEY = re.compile(r"[A-Za-z0-9_-]+(?=\s*:(?:\s|$))")
_IN_FLOW = re.compile(r"[^,\]}#]+")
_IN_BLOCK = re.compile(r"(?:[^#]|(?<=\S)#)+")


def as_sarif(specs: Sequence[Checked], *, version: str) -> str:
    """Return the findings of some specs as a SARIF log with one run. version: of this program.

    A waived finding is kept, as suppressed.
    """
    rules = [_rule(rule.name, rule.title, rule.explain, rule.cautions) for rule in RULES]
    rules.append(_rule("waivers", "Waivers", "A waiver in the spec answers no finding.", ()))
    index = {str(rule["id"]): number for number, rule in enumerate(rules)}
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": {"name": "shopset", "version": version, "rules": rules}},
                "columnKind": "unicodeCodePoints",
                "results": [result for spec in specs for result in _results(spec, index)],
            }
        ],
    }
    return json.dumps(log, indent=2, ensure_ascii=False) + "\n"


def _results(spec: Checked, index: dict[str, int]) -> list[dict[str, object]]:
    # A fingerprint is of what a finding is about, not of its numbers or its line, so that it stays when they
    # change; of several about the same, each bears its number among them (3.27.17).
    seen: Counter[str] = Counter()
    results = []
    for found in (found for report in spec.reports for found in report.findings):
        about = "\n".join((found.rule, spec_path(found.made_from.path), *found.subjects))
        seen[about] += 1
        mark = hashlib.sha256(f"{about}\n{seen[about]}".encode()).hexdigest()
        result = _result(found, spec, index[found.rule])
        results.append({**result, "partialFingerprints": {_FINGERPRINT: mark}})
    return results


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


def _rule(name: str, title: str, text: str, cautions: tuple[str, ...]) -> dict[str, object]:
    said = " ".join(line.strip() for line in text.splitlines() if line.strip())
    return {
        "id": name,
        "shortDescription": {"text": title},
        "fullDescription": {"text": text},
        "help": {"text": " ".join((said, *cautions))},
    }


def _region(found: Finding, lines: Sequence[str]) -> dict[str, int]:
    line, column = found.made_from.line, max(found.made_from.column, 1)
    region = {"startLine": line, "startColumn": column}
    if line <= len(lines):
        region |= {"endLine": line, "endColumn": end_of(lines[line - 1], column)}
    return region


def end_of(line: str, column: int) -> int:
    """Return the column after the last character of the key or value that begins at a column, both from 1."""
    rest = line[column - 1 :]
    inside = line[: column - 1]
    in_flow = sum(map(inside.count, "{[")) > sum(map(inside.count, "}]"))
    for form in (_QUOTED, _KEY, _IN_FLOW if in_flow else _IN_BLOCK):
        if found := form.match(rest):
            return column + len(found[0].rstrip())
    return column + len(rest.rstrip())


def _result(found: Finding, spec: Checked, index: int) -> dict[str, object]:
    location: dict[str, object] = {"artifactLocation": {"uri": uri_of(spec.file)}}
    if found.made_from.line:
        location["region"] = _region(found, spec.lines)
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
