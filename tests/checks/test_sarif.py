"""SARIF, held against the clauses of the standard, each written out: no reader of it is a dependency.

Source: OASIS, Static Analysis Results Interchange Format (SARIF) Version 2.1.0 Plus Errata 01, 2023-08-28.
"""

from __future__ import annotations

import json
import re
from fractions import Fraction
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from sheets.checks.finding import Checked
from sheets.checks.reports.sarif import as_sarif, end_of, uri_of
from sheets.checks.run import RULES, run_checks
from sheets.pipeline import solve
from tests.acceptance.edits import base, changed

LEVELS = {"none", "note", "warning", "error"}
# RFC 3986: unreserved, sub-delims, ":", "@", "/" and percent-encoded octets; query and fragment are not used.
URI_REFERENCE = re.compile(r"(?:[A-Za-z0-9\-._~!$&'()*+,;=:@/]|%[0-9A-F]{2})+")


def positive(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 1


def broken_clauses(log: dict) -> list[str]:  # type: ignore[type-arg]
    """The clauses that a log breaks, of those that bind what we write."""
    broken: list[str] = []

    def hold(clause: str, kept: object) -> None:
        if not kept:
            broken.append(clause)

    hold("3.13.2 version is 2.1.0", log.get("version") == "2.1.0")
    hold("3.13.3 $schema is an absolute URI", urlsplit(str(log.get("$schema"))).scheme in ("http", "https"))
    hold("3.13.4 runs is an array", isinstance(log.get("runs"), list))
    for run in log.get("runs") or []:
        driver = run.get("tool", {}).get("driver", {})
        hold("3.14.6 tool, 3.18.2 driver", bool(driver))
        hold("3.19.8 name", isinstance(driver.get("name"), str) and driver["name"])
        rules = driver.get("rules", [])
        hold("3.49.3 id", all(isinstance(rule.get("id"), str) and rule["id"] for rule in rules))
        hold("3.19.23 rules are unique", len({rule.get("id") for rule in rules}) == len(rules))
        for rule in rules:
            for key in ("shortDescription", "fullDescription", "help"):
                hold("3.12.3 text", key not in rule or isinstance(rule[key].get("text"), str))
        kinds = (None, "utf16CodeUnits", "unicodeCodePoints")
        hold("3.14.27 columnKind", run.get("columnKind") in kinds)
        hold("3.14.23 results is an array", isinstance(run.get("results"), list))
        for result in run.get("results") or []:
            broken += broken_by_result(result, rules)
    return broken


def broken_by_result(result: dict, rules: list) -> list[str]:  # type: ignore[type-arg]
    broken: list[str] = []

    def hold(clause: str, kept: object) -> None:
        if not kept:
            broken.append(clause)

    text = result.get("message", {}).get("text")
    hold("3.27.11 message, 3.11.8 text", isinstance(text, str) and text.strip())
    bare = re.sub(r"\{\{|\}\}|\\.", "", text or "")
    hold("3.11.5 no placeholder without its argument", "{" not in bare and "}" not in bare)
    hold("3.11.6 no link that is not meant", "[" not in bare and "]" not in bare)
    hold("3.27.5 ruleId", isinstance(result.get("ruleId"), str))
    index = result.get("ruleIndex", -1)
    hold(
        "3.27.6 ruleIndex",
        index == -1 or [result.get("ruleId")] == [r["id"] for r in rules[index : index + 1]],
    )
    hold("3.27.10 level", result.get("level", "warning") in LEVELS)
    hold("3.27.9 kind is fail where there is a level", result.get("kind", "fail") == "fail")
    for location in result.get("locations", []):
        physical = location.get("physicalLocation", {})
        uri = physical.get("artifactLocation", {}).get("uri", "")
        hold("3.4.3 uri is a URI reference", URI_REFERENCE.fullmatch(uri))
        hold("3.10.1 no backslash", "\\" not in unquote(uri))
        region = physical.get("region")
        if region is not None:
            hold("3.30.5 startLine", positive(region.get("startLine")))
            hold("3.30.6 startColumn", positive(region.get("startColumn", 1)))
            start, end = region.get("startLine", 1), region.get("endLine", region.get("startLine", 1))
            hold("3.30.7 endLine", positive(end) and end >= start)
            columns = region.get("startColumn", 1), region.get("endColumn", region.get("startColumn", 1))
            hold("3.30.8 endColumn", positive(columns[1]) and (end > start or columns[1] >= columns[0]))
        for logical in location.get("logicalLocations", []):
            hold("3.33.5 fullyQualifiedName", isinstance(logical.get("fullyQualifiedName"), str))
    prints = result.get("partialFingerprints", {})
    hold("3.27.17 partialFingerprints", all(isinstance(mark, str) and mark for mark in prints.values()))
    steps = re.compile(r"[^/]+(/[^/]+)*/v[1-9][0-9]*")
    hold("3.5.4 a name ends in its version", all(steps.fullmatch(name) for name in prints))
    for suppression in result.get("suppressions", []):
        hold("3.35.2 kind", suppression.get("kind") in ("inSource", "external"))
        hold("3.35.6 justification", isinstance(suppression.get("justification", ""), str))
    return broken


@pytest.fixture(scope="module")
def log(tmp_path_factory: pytest.TempPathFactory) -> dict:  # type: ignore[type-arg]
    """What a spec with errors, warnings, notes and a waiver gives, in a folder to be encoded."""
    folder = tmp_path_factory.mktemp("set")
    path = folder / "wall.yaml"
    heavy = {"cases.0.width": "38", "cases.0.name": '"books [a] {0}"'}
    text = changed(base("masonry"), {"mantel.arch.rail": "7-1/2", **heavy})
    text += "checks: {waivers: [{rule: mitres, reason: splined, by: RV}]}\n"
    path.write_text(text, encoding="utf-8")
    solved = solve(path)
    assert solved.wall is not None, [each.message for each in solved.diagnostics]
    reports = run_checks(solved.wall, solved.source.place_of)
    checked = Checked("sets/lot 14/wände #2.yaml", reports, solved.source.lines)
    return json.loads(as_sarif((checked,), version="1.0"))  # type: ignore[no-any-return]


def test_every_clause_is_kept(log) -> None:  # type: ignore[no-untyped-def]
    results = log["runs"][0]["results"]
    assert {result["level"] for result in results} == {"error", "warning", "note"}
    assert any(result.get("suppressions") for result in results)
    assert any("books \\[a\\] {{0}}" in result["message"]["text"] for result in results)
    assert broken_clauses(log) == []


def test_every_rule_is_described(log) -> None:  # type: ignore[no-untyped-def]
    described = [rule["id"] for rule in log["runs"][0]["tool"]["driver"]["rules"]]
    assert described == [*(rule.name for rule in RULES), "waivers"]


def test_the_uri_is_relative_and_percent_encoded(log) -> None:  # type: ignore[no-untyped-def]
    (uri,) = {
        location["physicalLocation"]["artifactLocation"]["uri"]
        for result in log["runs"][0]["results"]
        for location in result["locations"]
    }
    assert uri == "sets/lot%2014/w%C3%A4nde%20%232.yaml"
    assert urlsplit(uri).scheme == ""
    assert unquote(uri) == "sets/lot 14/wände #2.yaml"


@pytest.mark.parametrize(
    ("file", "uri"),
    [
        ("wall.yaml", "wall.yaml"),
        ("a:b.yaml", "a%3Ab.yaml"),  # a colon in the first step would be a scheme (RFC 3986, 4.2)
        ("/home/sets/wall 1.yaml", "file:///home/sets/wall%201.yaml"),
        ("C:/sets/wall.yaml", "file:///C:/sets/wall.yaml"),
    ],
)
def test_names_of_files_as_uris(file: str, uri: str) -> None:
    assert uri_of(file) == uri
    assert URI_REFERENCE.fullmatch(uri)


def test_regions_point_into_the_text(log) -> None:  # type: ignore[no-untyped-def]
    for result in log["runs"][0]["results"]:
        for location in result["locations"]:
            region = location["physicalLocation"]["region"]
            assert set(region) == {"startLine", "startColumn", "endLine", "endColumn"}
            assert region["endColumn"] > region["startColumn"]


@pytest.mark.parametrize(
    ("line", "column", "said"),
    [
        ("    width: 5'-2 1/2\"  # as measured", 12, "5'-2 1/2\""),
        ("  posts: {width: 6, depth: 5}", 18, "6"),
        ("  posts: {width: 6}", 3, "posts"),
        ("  - name: 'books, low'", 11, "'books, low'"),
        ("  reason: splined, by hand", 11, "splined, by hand"),
        ("  sizes: [1, 2-1/2]", 14, "2-1/2"),
    ],
)
def test_a_place_ends_after_the_last_character_of_its_value(line: str, column: int, said: str) -> None:
    """3.30.8: the column of the character that follows the region."""
    assert line[column - 1 : end_of(line, column) - 1] == said


def fingerprints(log: dict) -> list[str]:  # type: ignore[type-arg]
    return [result["partialFingerprints"]["finding/v1"] for result in log["runs"][0]["results"]]


def test_fingerprints_tell_findings_apart_and_stay_when_lines_and_numbers_move(tmp_path: Path) -> None:
    def log_of(text: str) -> dict:  # type: ignore[type-arg]
        path = tmp_path / "wall.yaml"
        path.write_text(text, encoding="utf-8")
        solved = solve(path)
        assert solved.wall is not None
        reports = run_checks(solved.wall, solved.source.place_of)
        return json.loads(as_sarif((Checked("wall.yaml", reports),), version="1"))  # type: ignore[no-any-return]

    before = log_of(changed(base("masonry"), {"mantel.arch.rail": "7-1/2"}))
    after = log_of("# moved\n\n" + changed(base("masonry"), {"mantel.arch.rail": "7-5/8"}))
    assert len(set(fingerprints(before))) == len(fingerprints(before))
    assert fingerprints(after) == fingerprints(before)
    first = [log["runs"][0]["results"][0] for log in (before, after)]
    assert where_of(first[0])["region"] != where_of(first[1])["region"]


def where_of(result: dict) -> dict:  # type: ignore[type-arg]
    return result["locations"][0]["physicalLocation"]  # type: ignore[no-any-return]


def test_every_rule_has_help_with_its_source(log) -> None:  # type: ignore[no-untyped-def]
    rules = {rule["id"]: rule for rule in log["runs"][0]["tool"]["driver"]["rules"]}
    for rule in RULES:
        assert all(caution in rules[rule.name]["help"]["text"] for caution in rule.cautions)
        assert len(rules[rule.name]["help"]["text"]) >= 80


@pytest.mark.parametrize(
    ("clause", "damage"),
    [
        ("3.13.2", lambda log: log.update(version="2.0.0")),
        ("3.18.2", lambda log: log["runs"][0]["tool"].pop("driver")),
        ("3.19.8", lambda log: log["runs"][0]["tool"]["driver"].update(name="")),
        ("3.27.11", lambda log: log["runs"][0]["results"][0]["message"].pop("text")),
        ("3.27.10", lambda log: log["runs"][0]["results"][0].update(level="fatal")),
        ("3.27.6", lambda log: log["runs"][0]["results"][0].update(ruleIndex=7)),
        ("3.4.3", lambda log: where(log)["artifactLocation"].update(uri="lot 14/wall.yaml")),
        ("3.30.5", lambda log: where(log)["region"].update(startLine=0)),
        ("3.30.7", lambda log: where(log)["region"].update(endLine=1)),
        ("3.30.8", lambda log: where(log)["region"].update(endColumn=0)),
        ("3.27.17", lambda log: log["runs"][0]["results"][0].update(partialFingerprints={"a/v1": 7})),
        ("3.5.4", lambda log: log["runs"][0]["results"][0].update(partialFingerprints={"a": "7"})),
        ("3.30.6", lambda log: where(log)["region"].update(startColumn=0)),
        ("3.11.5", lambda log: log["runs"][0]["results"][0]["message"].update(text="case {0} is high")),
    ],
)
def test_a_clause_that_is_broken_is_found(log, clause, damage) -> None:  # type: ignore[no-untyped-def]
    copied = json.loads(json.dumps(log))
    damage(copied)
    assert any(clause in each for each in broken_clauses(copied))


def where(log: dict) -> dict:  # type: ignore[type-arg]
    return log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]  # type: ignore[no-any-return]


def test_the_program_writes_the_same(tmp_path: Path) -> None:
    from tests.acceptance.conftest import run

    path = tmp_path / "my wall.yaml"
    path.write_text(base("masonry"), encoding="utf-8")
    done = run("check", "my wall.yaml", "--format", "sarif", cwd=tmp_path)
    log = json.loads(done.stdout)
    assert broken_clauses(log) == []
    assert where(log)["artifactLocation"]["uri"] == "my%20wall.yaml"
    assert Fraction(where(log)["region"]["startLine"]) > 1
