"""Reports as JUnit XML: one suite, a case a rule, for servers that show test results."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree

from sheets.checks.finding import Checked, Finding, RuleReport


def as_junit(specs: Sequence[Checked]) -> str:
    """Return what was found as JUnit XML, a suite for each spec.

    A rule with an error that nobody waived fails; one with nothing to judge is skipped; warnings and notes
    are its output. No times: the same reports give the same bytes.
    """
    suites = ElementTree.Element("testsuites")
    for spec in specs:
        _suite(suites, spec)
    ElementTree.indent(suites)
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(suites, encoding="unicode") + "\n"
    )


def _suite(suites: ElementTree.Element, spec: Checked) -> None:
    failing = [report for report in spec.reports if _errors(report)]
    idle = [report for report in spec.reports if not report.looked_at and not report.findings]
    counted = {
        "tests": str(len(spec.reports)),
        "failures": str(len(failing)),
        "errors": "0",
        "skipped": str(len(idle)),
    }
    suite = ElementTree.SubElement(suites, "testsuite", {"name": spec.file, **counted})
    for report in spec.reports:
        _case(suite, report, spec.file)


def _case(suite: ElementTree.Element, report: RuleReport, file: str) -> None:
    case = ElementTree.SubElement(
        suite, "testcase", {"classname": "checks", "name": report.rule, "file": file}
    )
    errors = _errors(report)
    if errors:
        failure = ElementTree.SubElement(
            case, "failure", {"type": report.rule, "message": _clean(errors[0].message)}
        )
        failure.text = _clean("\n".join(_line(found, file) for found in errors))
    elif not report.looked_at and not report.findings:
        ElementTree.SubElement(case, "skipped", {"message": "nothing to judge"})
    others = [found for found in report.findings if found not in errors]
    said = [_line(found, file) for found in others] + [f"caution: {caution}" for caution in report.cautions]
    if said:
        ElementTree.SubElement(case, "system-out").text = _clean("\n".join(said))


def _errors(report: RuleReport) -> list[Finding]:
    return [found for found in report.findings if found.severity == "error" and found.waived is None]


def _line(found: Finding, file: str) -> str:
    place = f"{file}:{found.made_from.line}:{found.made_from.column}" if found.made_from.line else file
    waived = f" (waived: {found.waived.text})" if found.waived else ""
    return f"{place}: {found.severity}: {found.message}{waived}\n  {found.cure}\n  source: {found.cited.text}"


def _clean(text: str) -> str:
    # XML 1.0 knows no other control characters.
    return "".join(c for c in text if c in "\t\n" or (c >= " " and c not in "\ufffe\uffff"))
