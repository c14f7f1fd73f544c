"""Reports: every rule runs, says where and why, and reads back in each format."""

from __future__ import annotations

import json
from dataclasses import fields, replace
from fractions import Fraction
from pathlib import Path
from typing import get_args
from xml.etree import ElementTree

import pytest

from sheets.base.diagnostics import spec_path
from sheets.checks import rules
from sheets.checks.finding import Checked, Finding
from sheets.checks.reports.document import as_json
from sheets.checks.reports.formats import Format, formatted
from sheets.checks.reports.in_brief import in_brief
from sheets.checks.reports.junit import as_junit
from sheets.checks.reports.sarif import as_sarif
from sheets.checks.reports.sheet_tables import check_tables, figures
from sheets.checks.reports.text import as_text, counts, summary
from sheets.checks.run import RULES, explain, has_errors, nearest_rule, rule_named, run_checks
from sheets.model.settings import Codes, Waiver
from tests.made_settings import settings

FILE = "specs/wall.yaml"


@pytest.fixture
def wall(kit):  # type: ignore[no-untyped-def]
    """A mantel too near a masonry opening, without a hearth, and two shelves that sag alike."""
    parts = [kit.part("cap", (-25, 25), (0, 8), (33, 35), axes="zyx", assembly="mantel", line=12)]
    for n in (1, 2):
        parts.append(
            kit.part(
                "shelf",
                (40, 84),
                (0, 11),
                (20 * n, 20 * n + Fraction(3, 4)),
                axes="zyx",
                assembly="cases/book",
                key=f"cases/book/shelf-{n}",
                line=20,
            )
        )
    components = (
        kit.component("mantel", (-25, 25), (0, 8), (33, 35), key="mantel"),
        kit.component("case", (40, 84), (0, 11), (0, 60), key="cases/book"),
    )
    return kit.wall(*parts, components=components, opening=kit.opening(36, 30))


def waive(wall, *waivers):  # type: ignore[no-untyped-def]
    return replace(wall, settings=settings(checks={"waivers": waivers}))


def test_nine_families_in_the_order_of_the_sheet() -> None:
    families = list(dict.fromkeys(rule.family for rule in RULES))
    assert families == ["clearance", "sag", "movement", "stock", "fit", "order", "use", "stability", "curves"]
    assert len({rule.name for rule in RULES}) == len(RULES)
    assert len({(rule.family, rule.rank) for rule in RULES}) == len(RULES), "two of one rank"


def test_every_file_of_the_folder_is_a_rule_that_is_run() -> None:
    files = {path.stem for path in Path(rules.__path__[0]).glob("*.py")} - {"__init__"}
    assert {rule.judge.__module__.rpartition(".")[2] for rule in RULES} == files
    assert len(files) == len(RULES) >= 32


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_each_rule_explains_itself(rule) -> None:  # type: ignore[no-untyped-def]
    text = explain(rule.name)
    assert text is not None
    assert text.startswith(f"{rule.name}: {rule.title}")
    assert "Source" in text
    assert "Reads" in text


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_an_empty_wall_gives_no_rule_anything_to_judge(kit, rule) -> None:  # type: ignore[no-untyped-def]
    report = rule.check(kit.wall())
    assert (report.looked_at, report.findings, report.cautions) == (0, (), ())


def test_names_are_found_and_near_names_proposed() -> None:
    assert rule_named("shelf-sag") is not None
    assert explain("shelf-sagg") is None
    assert nearest_rule("shelf-sagg") == "shelf-sag"


def test_findings_carry_what_is_needed_to_act(wall) -> None:  # type: ignore[no-untyped-def]
    found = [each for report in run_checks(wall) for each in report.findings]
    assert len(found) > 3
    for each in found:
        assert each.message
        assert each.cure
        assert each.cited.source
        assert each.made_from.line > 0
        assert each.message[0] != " "


def test_alike_findings_are_one(wall) -> None:  # type: ignore[no-untyped-def]
    (sag,) = [each for report in run_checks(wall) for each in report.findings if each.rule == "shelf-sag"]
    assert sag.subjects == ("cases/book/shelf-1", "cases/book/shelf-2")
    assert sag.message.endswith("; 1 more alike")


def test_text_gives_file_line_and_column(wall) -> None:  # type: ignore[no-untyped-def]
    text = as_text(Checked(FILE, run_checks(wall)))
    assert f"{FILE}:12:3: error: cap (mantel) is combustible" in text
    assert "source: IRC R1001.11 exception 4" in text
    assert "(from memory)" in text
    assert text.rstrip().endswith(summary(run_checks(wall)))


def test_numbers_are_shown_when_asked_for(wall) -> None:  # type: ignore[no-untyped-def]
    reports = run_checks(wall)
    assert len(as_text(Checked(FILE, reports), numbers=True)) > len(as_text(Checked(FILE, reports)))


def test_reports_are_the_same_each_time(wall) -> None:  # type: ignore[no-untyped-def]
    one, two = run_checks(wall), run_checks(wall)
    assert one == two
    assert as_sarif((Checked(FILE, one),), version="1") == as_sarif((Checked(FILE, two),), version="1")
    assert as_junit((Checked(FILE, one),)) == as_junit((Checked(FILE, two),))


def test_json_reads_back(wall) -> None:  # type: ignore[no-untyped-def]
    reports = run_checks(wall)
    (said,) = json.loads(as_json((Checked(FILE, reports),)))["specs"]
    assert said["file"] == FILE
    assert said["counts"] == counts(reports)
    assert [rule["rule"] for rule in said["rules"]] == [rule.name for rule in RULES]
    first = said["rules"][0]["findings"][0]
    assert (first["severity"], first["line"], first["column"]) == ("error", 12, 3)
    assert first["path"] == spec_path(("work", "cap"))
    assert first["confidence"] == "confirmed"


def test_junit_reads_back(wall) -> None:  # type: ignore[no-untyped-def]
    reports = run_checks(wall)
    root = ElementTree.fromstring(as_junit((Checked(FILE, reports),)))
    suite = root.find("testsuite")
    assert suite is not None
    cases = suite.findall("testcase")
    assert suite.get("tests") == str(len(cases)) == str(len(RULES))
    failed = {case.get("name") for case in cases if case.find("failure") is not None}
    assert failed == {each.rule for report in reports for each in report.findings if each.severity == "error"}
    assert int(suite.get("failures") or 0) == len(failed) > 0
    assert int(suite.get("skipped") or 0) == sum(case.find("skipped") is not None for case in cases)


def test_a_waiver_keeps_the_finding_and_prints_reason_and_name(wall) -> None:  # type: ignore[no-untyped-def]
    waiver = Waiver(
        "masonry-clearance", "mantel is cast stone, shown as wood", "RV", "mantel", "mason's offer 12"
    )
    reports = run_checks(waive(wall, waiver))
    (found,) = [each for report in reports for each in report.findings if each.rule == "masonry-clearance"]
    assert found.waived is not None
    assert (found.waived.by, found.severity) == ("RV", "error")
    for text in (
        as_text(Checked(FILE, reports)),
        as_junit((Checked(FILE, reports),)),
        as_sarif((Checked(FILE, reports),), version="1"),
        as_json((Checked(FILE, reports),)),
        str(check_tables(reports)),
        " ".join(in_brief(reports).findings),
    ):
        assert "mantel is cast stone, shown as wood" in text
        assert "RV" in text
        assert "mason's offer 12" in text or "mason&apos;s offer 12" in text


def test_waived_errors_do_not_fail_the_run(wall) -> None:  # type: ignore[no-untyped-def]
    assert has_errors(run_checks(wall))
    errors = {
        each.rule for report in run_checks(wall) for each in report.findings if each.severity == "error"
    }
    reports = run_checks(
        waive(
            wall,
            *(
                Waiver(code, "judged by one who knows it well", "RV", "", "letter 7")
                for code in sorted(errors)
            ),
        )
    )
    assert not has_errors(reports)
    assert (
        ElementTree.fromstring(as_junit((Checked(FILE, reports),))).find("testsuite").get("failures") == "0"
    )  # type: ignore[union-attr]


def test_a_waiver_for_one_part_leaves_the_others(wall) -> None:  # type: ignore[no-untyped-def]
    reports = run_checks(waive(wall, Waiver("shelf-sag", "glass", "", "cases/book/shelf-1", "")))
    sag = [each for report in reports for each in report.findings if each.rule == "shelf-sag"]
    assert [each.waived is not None for each in sag] == [True, False]


def test_a_waiver_that_answers_nothing_is_said(wall) -> None:  # type: ignore[no-untyped-def]
    reports = run_checks(waive(wall, Waiver("bends", "steamed", "", "", "")))
    assert reports[-1].rule == "waivers"
    assert "bends" in reports[-1].findings[0].message
    assert as_sarif((Checked(FILE, reports),), version="1")


def test_tables_are_square_and_complete(wall) -> None:  # type: ignore[no-untyped-def]
    reports = run_checks(wall)
    findings, numbers, sources = check_tables(reports)
    for table in (findings, numbers, sources):
        assert table.rows
        assert all(len(row) == len(table.columns) for row in table.rows)
    assert len(findings.rows) == sum(len(report.findings) for report in reports)
    notes = " ".join(findings.notes)
    assert "CERTIFY NOTHING" in notes
    assert "authority having jurisdiction" in notes


def test_pictures_stay_within_their_size(wall) -> None:  # type: ignore[no-untyped-def]
    drawn = figures(run_checks(wall))
    assert {figure.title for figure in drawn} == {
        "Clearance above the opening, from the side",
        "Sag of the worst shelf",
        "Alignments",
    }
    for figure in drawn:
        points = [point for line in figure.lines for point in line.points] + [
            text.at for text in figure.texts
        ]
        assert all(
            -0.001 <= x <= figure.width + 0.001 and -0.001 <= y <= figure.height + 0.001 for x, y in points
        )
        assert figure.texts


def test_the_same_wall_in_millimetres_gives_the_same_findings(kit, wall) -> None:  # type: ignore[no-untyped-def]
    def said(reports):  # type: ignore[no-untyped-def]
        return [
            (each.rule, each.severity, each.subjects, each.cited)
            for report in reports
            for each in report.findings
            if report.rule != "stock-sizes"  # boards are bought in other sizes where millimetres are used
        ]

    chosen = replace(wall, settings=replace(wall.settings, codes=Codes("IRC")))
    inches, metric = run_checks(chosen), run_checks(kit.metric(chosen))
    assert said(inches) == said(metric)
    assert len(said(inches)) > 3
    texts = [each.message + each.cure for report in metric for each in report.findings]
    assert not [text for text in texts if '"' in text]
    assert any(" mm" in text for text in texts)


def test_a_finding_says_all_that_the_sheet_prints() -> None:
    assert {field.name for field in fields(Finding)} >= {
        "severity",
        "message",
        "cure",
        "cited",
        "made_from",
        "waived",
    }


def test_two_specs_make_one_file_of_each_form(wall) -> None:  # type: ignore[no-untyped-def]
    both = (Checked("a.yaml", run_checks(wall)), Checked("b.yaml", run_checks(wall)))
    said = {kind: formatted(both, kind, version="1") for kind in get_args(Format)}
    for text in said.values():
        assert "a.yaml" in text
        assert "b.yaml" in text
    assert len(ElementTree.fromstring(said["junit"]).findall("testsuite")) == 2
    (run,) = json.loads(said["sarif"])["runs"]
    assert len(run["results"]) == 2 * sum(len(report.findings) for report in both[0].reports)
    assert len(json.loads(said["json"])["specs"]) == 2
