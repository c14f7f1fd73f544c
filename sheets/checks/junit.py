"""Reports as JUnit XML: one suite, a case a rule, for servers that show test results."""

from __future__ import annotations

from xml.etree import ElementTree

from sheets.checks.finding import Finding, RuleReport


def as_junit(reports: tuple[RuleReport, ...], file: str) -> str:
    """Return the reports as JUnit XML. A rule with an error that nobody waived fails; one with nothing to
    judge is
    skipped; warnings and notes are its output. No times: the same reports give the same bytes."""
    failing = [report for report in reports if _errors(report)]
    idle = [report for report in reports if not report.looked_at and not report.findings]
    suites = ElementTree.Element("testsuites")
    suite = ElementTree.SubElement(
        suites,
        "testsuite",
        {
            "name": file,
            "tests": str(len(reports)),
            "failures": str(len(failing)),
            "errors": "0",
            "skipped": str(len(idle)),
        },
    )
    for report in reports:
        _case(suite, report, file)
    ElementTree.indent(suites)
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(suites, encoding="unicode") + "\n"
    )


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
    waived = (
        f" (waived: {found.waived.reason}{', ' + found.waived.by if found.waived.by else ''})"
        if found.waived
        else ""
    )
    return f"{place}: {found.severity}: {found.message}{waived}\n  {found.cure}\n  source: {found.cited.text}"


def _clean(text: str) -> str:
    # XML 1.0 knows no other control characters.
    return "".join(c for c in text if c in "\t\n" or (c >= " " and c not in "\ufffe\uffff"))
