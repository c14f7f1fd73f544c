"""What a spec draws, and what its next issue says, once it was issued: changed, renamed, void, in part."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pypdf
import pytest

from sheets.base.stopwatch import Stopwatch
from sheets.commands.drawing import Done, Job, draw_one
from sheets.commands.given import GivenError, given, spec_of
from sheets.commands.history import (
    ReviseError,
    issue_named,
    latest_issue,
    rows_issued,
    stands_to_issues,
    void_issue,
)
from sheets.commands.revising import CHANGES, NothingChangedError, Revised, Wanted, revise
from sheets.drawing.items import Stroke
from sheets.drawing.walk import leaves
from sheets.revisions.keeping.issues import issue_folder, issues_of
from tests.commands.shelf import SPEC

WRITTEN = SPEC.replace("project:", "# as its owner wrote it\nproject:")
NOTE = "\nnotes:\n  - The hall is painted first.\n"


def issue(spec: Path, number: str, **wanted: Any) -> Revised:
    made = revise(spec, latest_issue(spec), Wanted(number, "RV", **wanted), Stopwatch())
    assert isinstance(made, Revised), made
    return made


def drawn(spec: Path, out: Path) -> tuple[Done, dict[str, dict[str, str]], list[str]]:
    """What came of a draw: the sheets as the manifest lists them, and the words of each page."""
    done = draw_one(Job(spec, out))
    assert not done.trouble
    listed = json.loads((done.job.folder / "manifest.json").read_text("utf-8"))["sheets"]
    pages = [page.extract_text() for page in pypdf.PdfReader(done.job.folder / f"{spec.stem}.pdf").pages]
    return done, {sheet["number"]: sheet for sheet in listed}, pages


def moved(home: Path, to: Path) -> Path:
    """A copy of a folder of specs, as a checkout elsewhere has it."""
    shutil.copytree(home, to)
    return to / "hall.yaml"


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a spec that was issued once."""
    home = tmp_path_factory.mktemp("one issue") / "specs"
    home.mkdir()
    (home / "hall.yaml").write_text(WRITTEN, "utf-8")
    issue(home / "hall.yaml", "A")
    return home


@pytest.fixture(scope="module")
def second(first: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with a second issue: a shelf more."""
    spec = moved(first, tmp_path_factory.mktemp("two issues") / "specs")
    spec.write_text(spec.read_text("utf-8").replace("count: 1", "count: 2"), "utf-8")
    issue(spec, "B", date="2026-02-01")
    return spec.parent


def test_what_is_as_issued_draws_the_issue(first: Path, tmp_path: Path) -> None:
    spec = first / "hall.yaml"
    done, sheets, _ = drawn(spec, tmp_path)
    folder = issue_folder(spec, "A")
    assert done.draft == ""
    for name in ("hall.dxf", "parts.csv"):
        assert (done.job.folder / name).read_bytes() == (folder / name).read_bytes()
    assert sheets == {
        s["number"]: s for s in json.loads((folder / "manifest.json").read_text("utf-8"))["sheets"]
    }
    assert stands_to_issues(spec) == "as issued in A"


def test_a_sheet_that_is_not_the_issue_says_so_and_no_other(first: Path, tmp_path: Path) -> None:
    spec = moved(first, tmp_path / "specs")
    _, issued, _ = drawn(spec, tmp_path / "as issued")
    spec.write_text(spec.read_text("utf-8") + NOTE, "utf-8")
    done, sheets, pages = drawn(spec, tmp_path / "out")
    unlike = {number for number, sheet in sheets.items() if sheet["revision"] == "A+"}
    assert unlike == {number for number in sheets if number.startswith("Z-0")}, "the general sheets alone"
    for (number, sheet), page in zip(sheets.items(), pages, strict=True):
        if number in unlike:
            assert "A+" in page
            assert page.count("AFTER A, NOT ISSUED") >= 3, "revisions, status, and across the sheet"
        else:
            assert sheet == issued[number], "as it went out"
            assert "NOT ISSUED" not in page
    assert done.draft == f"after A, not issued: {len(unlike)} of {len(sheets)} sheets are not what was " \
        "issued, and say so"  # fmt: skip
    assert stands_to_issues(spec) == "changed after A, not issued"


def test_ci_that_has_no_issues_beside_the_spec_says_so_too(first: Path, tmp_path: Path) -> None:
    spec = moved(first, tmp_path / "specs")
    shutil.rmtree(spec.parent / "issues")
    done, sheets, _ = drawn(spec, tmp_path / "first")
    assert done.draft == "", "a first issue says all that there is"
    spec.write_text(spec.read_text("utf-8") + NOTE, "utf-8")
    store = tmp_path / "store"
    for _ in range(2):  # drawn, then out of the store
        done = draw_one(Job(spec, tmp_path / "out", store=store))
        assert done.draft.startswith(f"after A, not issued: {len(sheets)} of {len(sheets)} sheets")
    again, listed, _ = drawn(tmp_path / "out" / "hall" / "hall.pdf", tmp_path / "from its PDF")
    assert again.draft == done.draft
    assert {sheet["revision"] for sheet in listed.values()} == {"A+"}
    assert rows_issued(spec) == "A", "`issues` asks where they are"


def test_a_row_of_the_authors_is_not_an_issue_yet(first: Path, tmp_path: Path) -> None:
    spec = moved(first, tmp_path / "specs")
    row = '  - {number: "B", date: 2026-02-01, by: RV, reason: painted}\n'
    spec.write_text(spec.read_text("utf-8").rstrip("\n") + "\n" + row + NOTE, "utf-8")
    done, sheets, _ = drawn(spec, tmp_path / "out")
    assert done.draft.startswith("for B, not issued")
    assert {sheet["revision"] for sheet in sheets.values()} == {"A", "A+"}
    made = issue(spec, "B")
    assert made.record.reason == "painted"
    assert draw_one(Job(spec, tmp_path / "issued")).draft == ""


def test_a_renamed_spec_keeps_its_history(second: Path, tmp_path: Path) -> None:
    spec = moved(second, tmp_path / "specs")
    new = spec.with_name("stair hall.yaml")
    spec.rename(new)
    assert stands_to_issues(new) == "as issued in B"
    new.write_text(new.read_text("utf-8") + NOTE, "utf-8")
    made = issue(new, "C", date="2026-02-02")
    assert made.record.earlier == "B"
    assert made.record.reason != "First issue"
    assert [one.number for one in issues_of(new)] == ["A", "B", "C"]
    assert made.folder.parent.name == "hall", "with those before it"


@pytest.mark.parametrize("how", ["copied beside", "moved without its issues"])
def test_a_spec_whose_history_cannot_be_found_is_not_issued(second: Path, tmp_path: Path, how: str) -> None:
    spec = moved(second, tmp_path / "specs")
    there = spec.with_name("copy.yaml") if how == "copied beside" else tmp_path / "elsewhere.yaml"
    shutil.copy(spec, there)
    before = there.read_bytes()
    with pytest.raises(ReviseError, match=r"rows A to B of earlier revisions.*--from.*--first"):
        issue(there, "C", date="2026-02-02")
    assert there.read_bytes() == before
    if how == "copied beside":
        spec.unlink()  # now it is a renamed one
        assert stands_to_issues(there) == "as issued in B"


def test_of_two_copies_neither_is_the_renamed_one(second: Path, tmp_path: Path) -> None:
    spec = moved(second, tmp_path / "specs")
    for name in ("one.yaml", "two.yaml"):
        shutil.copy(spec, spec.with_name(name))
    spec.unlink()
    assert latest_issue(tmp_path / "specs" / "one.yaml") is None


def test_the_first_that_is_kept_is_asked_for(second: Path, tmp_path: Path) -> None:
    spec = tmp_path / "hall.yaml"
    shutil.copy(second / "hall.yaml", spec)
    made = issue(spec, "C", date="2026-02-02", first=True)
    assert made.record.earlier == ""


@pytest.mark.parametrize(
    ("number", "wanted", "says"),
    [
        ("b", {}, "capitals alone"),
        ("../x", {}, "no number of a revision"),
        ("NUL", {}, "device on Windows"),
        ("C", {}, "2026-01-19, the project's is before that of revision B, 2026-02-01"),
        ("C", {"date": "2026-01-31"}, "2026-01-31 is before that of revision B"),
        ("C", {"date": "2026-02-01", "sheets": ("Z-9",)}, "there is no sheet Z-9 in the set; its sheets are"),
    ],
)  # fmt: skip
def test_numbers_dates_and_sheets_are_held(
    second: Path, number: str, wanted: dict[str, Any], says: str
) -> None:
    before = (second / "hall.yaml").read_bytes()
    with pytest.raises(ReviseError) as told:
        issue(second / "hall.yaml", number, **wanted)
    assert says in str(told.value)
    assert (second / "hall.yaml").read_bytes() == before


def test_nothing_changed_is_issued_only_when_it_is_asked_for(second: Path, tmp_path: Path) -> None:
    spec = moved(second, tmp_path / "specs")
    with pytest.raises(NothingChangedError, match=r"nothing has changed since B.*--unchanged"):
        issue(spec, "C", date="2026-02-02")
    made = issue(spec, "C", date="2026-02-02", unchanged=True)
    changed = [sheet.number for sheet in made.record.sheets if sheet.revision == "C"]
    assert changed
    assert all(number.startswith("Z-0") for number in changed)


def test_a_void_issue_is_struck_and_its_sheets_are_listed(second: Path, tmp_path: Path) -> None:
    spec = moved(second, tmp_path / "specs")
    with pytest.raises(ReviseError, match="was not issued"):
        void_issue(spec, "C", "x")
    carried = void_issue(spec, "B", "one shelf too many")
    assert "Z-101" in carried
    assert "one shelf too many" in spec.read_text("utf-8")
    assert issue_folder(spec, "B").is_dir(), "what went out stays"
    with pytest.raises(ReviseError, match="void already: one shelf"):
        void_issue(spec, "B", "x")
    done, sheets, pages = drawn(spec, tmp_path / "out")
    assert done.draft.startswith("after A, not issued")
    assert sheets["Z-101"]["revision"] == "A+"
    text = " ".join(pages[0].split())
    assert "VOID, NOT TO BE USED" in text
    assert "REV. B Z-001" in text
    made = issue(spec, "C", date="2026-02-03")
    assert made.record.earlier == "A"
    assert made.record.sheet("Z-101").revision == "C"  # type: ignore[union-attr]
    sent = " ".join(page.extract_text() for page in pypdf.PdfReader(made.folder / "transmittal.pdf").pages)
    assert "one shelf too many" in sent
    assert "VOID, NOT TO BE USED" in sent
    struck = {
        leaf.path[0].first[1]
        for sheet in made.drawing.sheets
        if sheet.number.startswith("Z-0")
        for _, leaf in leaves(sheet.items)
        if isinstance(leaf, Stroke) and leaf.pen == "strike"
    }
    assert struck, "its row is struck through"
    assert not draw_one(Job(spec, tmp_path / "again")).defects


def test_some_sheets_go_and_the_others_stand_as_they_were(first: Path, tmp_path: Path) -> None:
    spec = moved(first, tmp_path / "specs")
    spec.write_text(spec.read_text("utf-8").replace("count: 1", "count: 2"), "utf-8")
    made = issue(spec, "B", date="2026-02-01", sheets=("Z-101",))
    manifest = json.loads((made.folder / "manifest.json").read_text("utf-8"))
    assert [sheet["number"] for sheet in manifest["sheets"]] == ["Z-001", "Z-101"]
    assert manifest["audit"] == []
    assert {s.revision for s in made.record.sheets if s.number not in ("Z-001", "Z-101")} == {"A"}
    assert {line.says for line in made.record.lines} == {"changed", "held back"}
    assert stands_to_issues(spec).startswith("as issued in B, without Z-")
    done, sheets, _ = drawn(spec, tmp_path / "out")
    assert sheets["Z-101"]["revision"] == "B"
    assert sheets["Z-501"]["revision"] == "B+", "changed, and never sent"
    assert done.draft.startswith("after B, not issued")
    rest = issue(spec, "C", date="2026-02-02")
    assert rest.record.reason == "Sheets held back in B"
    assert rest.record.sheet("Z-101").revision == "B"  # type: ignore[union-attr]
    assert rest.record.sheet("Z-501").revision == "C"  # type: ignore[union-attr]


def test_an_issue_has_its_changed_sheets_alone_with_the_transmittal(second: Path) -> None:
    folder = issue_folder(second / "hall.yaml", "B")
    record = next(one.record for one in issues_of(second / "hall.yaml") if one.number == "B")
    assert record is not None
    changed = [sheet.number for sheet in record.sheets if sheet.revision == "B"]
    pages, sent = (pypdf.PdfReader(folder / name).pages for name in (CHANGES, "transmittal.pdf"))
    assert len(pages) == len(changed) + len(sent)
    assert "TRANSMITTAL" in pages[0].extract_text()
    assert changed[-1] in pages[-1].extract_text()
    assert not (issue_folder(second / "hall.yaml", "A") / CHANGES).exists(), "all of a first issue is new"


def test_a_set_gives_its_spec_back(second: Path, tmp_path: Path) -> None:
    spec = second / "hall.yaml"
    text, as_written = spec_of(issue_folder(spec, "B") / "hall.pdf")
    assert as_written
    assert text == spec.read_bytes(), "byte for byte, comments and all"
    done, _, _ = drawn(issue_folder(spec, "B") / "hall.pdf", tmp_path)
    assert spec_of(done.job.folder / "hall.pdf") == (text, True), "and so does one that is drawn from it"
    done, _, _ = drawn(spec, tmp_path / "drawn")
    filled, as_written = spec_of(done.job.folder / "hall.pdf")
    assert not as_written
    assert b"precision:" in filled
    with pytest.raises(GivenError, match="is no PDF"):
        spec_of(spec)
    with pytest.raises(GivenError, match="carries no spec"):
        spec_of(issue_folder(spec, "B") / "transmittal.pdf")


def test_issues_are_named_by_their_numbers(second: Path) -> None:
    spec = second / "hall.yaml"
    assert given(issue_named(spec, "A")).solved.wall is not None
    assert issue_named(spec, str(spec)) == str(spec)
    with pytest.raises(GivenError, match="has no issue Q; its issues are A, B"):
        issue_named(spec, "Q")
