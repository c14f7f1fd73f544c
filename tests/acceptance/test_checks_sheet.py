"""The file of the checks, read off its PDF: each finding and each number with its limit, source and mark; and
what the drawing set itself says of them."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path

import pdfplumber
import pytest

from sheets.base.diagnostics import spec_path
from sheets.checks.finding import RuleReport
from sheets.checks.mechanics.fireside import CAUTIONS
from sheets.checks.run import run_checks
from sheets.pipeline import solve
from sheets.tables.read import Cited
from tests.acceptance.conftest import run
from tests.acceptance.edits import base, changed

Row = tuple[str, ...]
FINDINGS = ("FINDING", "SAYS", "CURE", "SOURCE")
NUMBERS = ("OF", "NUMBER", "LIMIT", "RESULT", "SOURCE")
SOURCES = ("NO.", "SOURCE")
WAIVER = "checks: {waivers: [{rule: mitres, reason: splined and glued at the toe, by: RV}]}\n"
WALLS = {
    # A rail too near the masonry opening, and a waived mitre; a mantel too low over a listed appliance.
    "masonry": changed(base("masonry"), {"mantel.arch.rail": "7-1/2"}) + WAIVER,
    "listed": changed(base("listed"), {"fireplace.listing.mantel.0.above": "13-9/16"}),
}


def plain(text: str | None) -> str:
    """Capitals, one space between words, without the mark of the status that lies over the sheet."""
    return " ".join((text or "").replace("FOR REVIEW", " ").split()).upper()


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[tuple[RuleReport, ...], Path]]:
    """By wall: what its rules say, and the PDF of its checks."""
    folder = tmp_path_factory.mktemp("checks")
    found = {}
    for name, text in WALLS.items():
        path = folder / f"{name}.yaml"
        path.write_text(text, encoding="utf-8")
        wall = solve(path).wall
        assert wall is not None
        found[name] = (run_checks(wall), folder / "out" / name / f"{name}-checks.pdf")
    done = run("draw", *(folder / f"{name}.yaml" for name in WALLS), "-o", folder / "out")
    # Both walls have an error of the checks: the sheets are drawn, and the status tells of it.
    assert done.returncode == 1, done.stdout + done.stderr
    return found


WATERMARK = 40  # points: what is taller lies across the sheet, behind its words


@cache
def checks_pages(pdf: Path) -> tuple[tuple[str, tuple[tuple[Row, ...], ...]], ...]:
    """The text and the tables of each page of the checks."""
    with pdfplumber.open(pdf) as pages:
        under = [page.filter(lambda ink: ink.get("size", 0) < WATERMARK) for page in pages.pages]
        said = [(page, plain(page.extract_text())) for page in under]
        return tuple(
            (text, tuple(tuple(tuple(plain(c) for c in row) for row in t) for t in page.extract_tables()))
            for page, text in said
        )


def tables(pdf: Path, head: Row) -> Counter[Row]:
    """The rows of every table that starts with these headings, over all pages, the sources in full."""
    rows = [row for _, found in checks_pages(pdf) for table in found if table[0] == head for row in table[1:]]
    if head == SOURCES:
        return Counter(rows)
    said = {number: source for number, source in tables(pdf, SOURCES)}
    return Counter((*row[:-1], said[row[-1]]) for row in rows if row[-1])


def rules_named(pdf: Path) -> list[str]:
    """The names over the numbers of each rule, in their order."""
    numbers = [table for _, found in checks_pages(pdf) for table in found if table[0] == NUMBERS]
    return [row[0] for table in numbers for row in table[1:] if not row[-1]]


def marked(cited: Cited) -> str:
    """A source as it is to be printed: with the mark of what could not be confirmed."""
    return plain(cited.source if cited.confidence == "confirmed" else f"{cited.source} ({cited.confidence})")


@pytest.mark.parametrize("name", sorted(WALLS))
def test_every_finding_with_cure_source_and_mark(sheets, name) -> None:  # type: ignore[no-untyped-def]
    reports, pdf = sheets[name]
    wanted: Counter[Row] = Counter()
    for report in reports:
        for found in report.findings:
            mark = f"{found.severity}{', waived' if found.waived else ''}: {found.rule}"
            cure = f"Waived: {found.waived.reason}, {found.waived.by}" if found.waived else found.cure
            at = f" ({spec_path(found.made_from.path)})"
            wanted[tuple(plain(each) for each in (mark + at, found.message, cure, marked(found.cited)))] += 1
    assert sum(wanted.values()) >= 8
    assert tables(pdf, FINDINGS) == wanted


@pytest.mark.parametrize("name", sorted(WALLS))
def test_every_number_with_limit_source_and_mark(sheets, name) -> None:  # type: ignore[no-untyped-def]
    reports, pdf = sheets[name]
    wanted = Counter(
        tuple(
            plain(each)
            for each in (row.subject, row.value, row.limit, row.verdict, marked(row.cited))
        )
        for report in reports
        for row in report.measures
    )
    assert sum(wanted.values()) >= 30
    assert tables(pdf, NUMBERS) == wanted
    assert rules_named(pdf) == [plain(report.title) for report in reports if report.measures]


@pytest.mark.parametrize("name", sorted(WALLS))
def test_a_source_is_printed_once(sheets, name) -> None:  # type: ignore[no-untyped-def]
    _, pdf = sheets[name]
    numbers = [int(number) for number, _ in tables(pdf, SOURCES)]
    assert numbers == list(range(1, len(numbers) + 1))
    assert len({source for _, source in tables(pdf, SOURCES)}) == len(numbers)


@pytest.mark.parametrize("name", sorted(WALLS))
def test_the_set_says_what_is_open_and_what_is_waived_and_no_more(sheets, name) -> None:  # type: ignore[no-untyped-def]
    reports, pdf = sheets[name]
    with pdfplumber.open(pdf.with_name(f"{name}.pdf")) as pages:
        said = [lettering(page) for page in pages.pages]
    assert not any("NUMBERSOFTHECHECKS" in page for page in said)
    for found in (found for report in reports for found in report.findings):
        answered = found.waived is not None or found.severity != "note"
        printed = any(squeezed(found.message) in page for page in said)
        assert printed == answered, found.message
        assert found.waived is None or any(squeezed(found.waived.text) in page for page in said)


def lettering(page: pdfplumber.page.Page) -> str:
    """All letters of a page in the order they are set in, line by line of one note and then the next."""
    return squeezed("".join(letter["text"] for letter in page.chars if letter["size"] < WATERMARK))


def squeezed(text: str) -> str:
    return "".join(text.replace("`", "").split()).upper()


def test_what_is_not_confirmed_is_marked_and_what_is_confirmed_is_not(sheets) -> None:  # type: ignore[no-untyped-def]
    _, pdf = sheets["masonry"]
    sources = {row[-1] for row in tables(pdf, NUMBERS)}
    # ../reference of the tables: the code's clearances were seen in a copy, how near lines are read was not.
    assert any(s.startswith("IRC R1001.11 EXCEPTION 4") and s.endswith("READ IN A COPY") for s in sources)
    assert any(
        source.startswith("COMMON PRACTICE") and source.endswith("(FROM MEMORY)") for source in sources
    )


def test_a_waiver_is_printed_with_its_reason_and_name(sheets) -> None:  # type: ignore[no-untyped-def]
    _, pdf = sheets["masonry"]
    waived = [row for row in tables(pdf, FINDINGS) if row[0].startswith("WARNING, WAIVED: MITRES")]
    assert waived
    assert all(row[2] == "WAIVED: SPLINED AND GLUED AT THE TOE, RV" for row in waived)


@pytest.mark.parametrize("name", sorted(WALLS))
def test_cautions_stand_under_findings_and_numbers(sheets, name) -> None:  # type: ignore[no-untyped-def]
    _, pdf = sheets[name]
    with pdfplumber.open(pdf) as pages:
        said = "".join(lettering(page) for page in pages.pages)
    assert any("MASONRY OPENING" in rule or "LISTED" in rule for rule in rules_named(pdf))
    for caution in CAUTIONS:
        assert said.count(squeezed(caution)) == 2


@pytest.mark.parametrize(
    ("name", "titles"),
    [
        ("masonry", ("CLEARANCE ABOVE THE OPENING", "SAG OF THE WORST SHELF", "ALIGNMENTS")),
        ("listed", ("CLEARANCE ABOVE THE OPENING", "SAG OF THE WORST SHELF", "ALIGNMENTS")),
    ],
)
def test_pictures_are_drawn(sheets, name, titles) -> None:  # type: ignore[no-untyped-def]
    _, pdf = sheets[name]
    first, _ = checks_pages(pdf)[0]
    assert all(title in first for title in titles)
