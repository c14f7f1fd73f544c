"""The tables of the checks sheet: the findings, then the numbers with their limits and sources."""

from __future__ import annotations

from sheets.base.diagnostics import spec_path
from sheets.checks.finding import Figure, Finding, RuleReport
from sheets.checks.reports.text import summary
from sheets.schedules.table import Cell, Column, TableData

PREFACE = (
    "CHECKS WARN AND CERTIFY NOTHING. WHAT IS MARKED (FROM MEMORY) WAS NOT SEEN IN A COPY OF ITS SOURCE.",
)

FINDINGS = (
    Column("FINDING"),
    Column("SAYS"),
    Column("CURE"),
    Column("SOURCE"),
)
NUMBERS = (
    Column("CHECK"),
    Column("OF"),
    Column("NUMBER"),
    Column("LIMIT"),
    Column("RESULT"),
    Column("SOURCE"),
)


def checks_table(reports: tuple[RuleReport, ...]) -> TableData:
    """Return every finding, worst first within a rule, with cure and source; waived ones with reason and
    name.
    """
    rows = tuple(_finding(found) for report in reports for found in sorted(report.findings, key=_worst_first))
    clear = tuple(report.title for report in reports if report.looked_at and not report.findings)
    idle = tuple(report.title for report in reports if not report.looked_at and not report.findings)
    notes = [*PREFACE, summary(reports) + "."]
    if clear:
        notes.append("Nothing found by: " + "; ".join(clear) + ".")
    if idle:
        notes.append("Nothing to judge for: " + "; ".join(idle) + ".")
    cautions = dict.fromkeys(caution for report in reports for caution in report.cautions)
    return TableData("findings", "FINDINGS OF THE CHECKS", FINDINGS, rows, (*notes, *cautions))


def measures_table(reports: tuple[RuleReport, ...]) -> TableData:
    """Return every number that the rules weighed, with limit, result and source; under them what to be
    cautious of.
    """
    rows = tuple(
        (report.title, row.subject, row.value, row.limit, row.verdict.upper(), row.cited.text)
        for report in reports
        for row in report.measures
    )
    cautions = dict.fromkeys(caution for report in reports if report.measures for caution in report.cautions)
    return TableData("checks", "NUMBERS OF THE CHECKS", NUMBERS, rows, (*PREFACE, *cautions))


def figures(reports: tuple[RuleReport, ...]) -> tuple[Figure, ...]:
    """Return the small pictures of all rules, in their order."""
    return tuple(figure for report in reports for figure in report.figures)


def _worst_first(found: Finding) -> int:
    return {"error": 0, "warning": 1, "note": 2}[found.severity]


def _finding(found: Finding) -> tuple[Cell, ...]:
    mark = found.severity.upper() if found.waived is None else f"{found.severity.upper()}, WAIVED"
    cure = found.cure
    if found.waived:
        cure = f"Waived: {found.waived.text}"
    # Not the line: a comment added above it must not change the sheet.
    at = f" ({spec_path(found.made_from.path)})" if found.made_from.path else ""
    return (f"{mark}: {found.rule}{at}", found.message, cure, found.cited.text)
