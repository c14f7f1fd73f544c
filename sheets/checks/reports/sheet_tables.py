"""The tables of the file of the checks: the findings, the numbers with their limits, the sources of both."""

from __future__ import annotations

from collections.abc import Sequence

from sheets.base.diagnostics import spec_path
from sheets.checks.finding import Figure, Finding, RuleReport
from sheets.checks.reports.text import SEVERITIES, summary
from sheets.schedules.table import Cell, Column, TableData
from sheets.tables.read import Cited

PREFACE = (
    "CHECKS WARN AND CERTIFY NOTHING. WHAT IS MARKED (FROM MEMORY) WAS NOT SEEN IN A COPY OF ITS SOURCE.",
)

FINDINGS = (
    Column("FINDING"),
    Column("SAYS"),
    Column("CURE"),
    Column("SOURCE", "right"),
)
NUMBERS = (
    Column("OF"),
    Column("NUMBER"),
    Column("LIMIT"),
    Column("RESULT"),
    Column("SOURCE", "right"),
)
SOURCES = (
    Column("NO.", "right"),
    Column("SOURCE"),
)




class Sources:
    """The sources of the tables of one file, numbered as they are first named."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def number(self, cited: Cited) -> str:
        """Return the number that a source has in the list of them."""
        return str(self._numbers.setdefault(cited.text, len(self._numbers) + 1))

    def table(self) -> TableData:
        """Return the list of the sources that were named."""
        rows = tuple((str(number), text) for text, number in self._numbers.items())
        return TableData("sources", "SOURCES", SOURCES, rows)


def check_tables(reports: tuple[RuleReport, ...]) -> tuple[TableData, ...]:
    """Return the findings, every number that was weighed, and the sources that both name by number."""
    named = Sources()
    return (_findings_table(reports, named), _measures_table(reports, named), named.table())


def _findings_table(reports: tuple[RuleReport, ...], named: Sources) -> TableData:
    # Worst first within a rule; waived ones with reason and name.
    rows = tuple(
        _finding(found, named)
        for report in reports
        for found in sorted(report.findings, key=lambda found: SEVERITIES.index(found.severity))
    )
    clear = tuple(report.title for report in reports if report.looked_at and not report.findings)
    idle = tuple(report.title for report in reports if not report.looked_at and not report.findings)
    notes = [*PREFACE, summary(reports) + "."]
    if clear:
        notes.append("Nothing found by: " + "; ".join(clear) + ".")
    if idle:
        notes.append("Nothing to judge for: " + "; ".join(idle) + ".")
    return TableData("findings", "FINDINGS OF THE CHECKS", FINDINGS, rows, (*notes, *cautions(reports)))


def _measures_table(reports: tuple[RuleReport, ...], named: Sources) -> TableData:
    # Under the name of each rule the numbers that it weighed, in its order.
    rows: list[tuple[Cell, ...]] = []
    for report in reports:
        if report.measures:
            rows.append((report.title, *[""] * (len(NUMBERS) - 1)))
        rows += [
            (row.subject, row.value, row.limit, row.verdict.upper(), named.number(row.cited))
            for row in report.measures
        ]
    weighed = tuple(report for report in reports if report.measures)
    return TableData(
        "checks", "NUMBERS OF THE CHECKS", NUMBERS, tuple(rows), (*PREFACE, *cautions(weighed))
    )


def cautions(reports: Sequence[RuleReport]) -> tuple[str, ...]:
    """Return what the rules tell to be cautious of, each once."""
    return tuple(dict.fromkeys(caution for report in reports for caution in report.cautions))


def figures(reports: tuple[RuleReport, ...]) -> tuple[Figure, ...]:
    """Return the small pictures of all rules, in their order."""
    return tuple(figure for report in reports for figure in report.figures)


def _finding(found: Finding, named: Sources) -> tuple[Cell, ...]:
    mark = found.severity.upper() if found.waived is None else f"{found.severity.upper()}, WAIVED"
    cure = found.cure
    if found.waived:
        cure = f"Waived: {found.waived.text}"
    # Not the line: a comment added above it must not change the sheet.
    at = f" ({spec_path(found.made_from.path)})" if found.made_from.path else ""
    return (f"{mark}: {found.rule}{at}", found.message, cure, named.number(found.cited))
