"""A case is the same case whatever it is called: known by where it stands and how it is built.

Two small cases on a wall without a fireplace; what is expected is said in the comments, by hand.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sheets.commands.comparison import Compared, as_called_by, compared
from sheets.commands.given import given
from sheets.revisions.comparing.reason import summary
from sheets.revisions.comparing.same_built import new_keys
from sheets.revisions.keeping.record import Record, SheetRecord, TriangleMark

HEAD = """\
project: {title: Two cases, date: 2026-01-19}
room: {width: 100, ceiling: {height: 96}}
"""
LOW = "  - {name: NAME, at: left, width: 30, height: 60, depth: 10, shelves: {count: 2}}\n"
TALL = (
    "  - {name: NAME, at: right, width: 34, height: 80, depth: 12, shelves: {count: 3}, "
    "plinth: {height: 4}}\n"
)


def written(home: Path, *cases: str) -> str:
    path = home / f"{len(list(home.iterdir()))}.yaml"
    path.write_text(HEAD + "cases:\n" + "".join(cases), "utf-8")
    return str(path)


def case(text: str, name: str, **words: str) -> str:
    text = text.replace("NAME", name)
    for key, value in words.items():
        before, _, after = text.partition(f"{key}: ")
        text = f"{before}{key}: {value}{after[after.index(',') :]}"
    return text


def turned(home: Path, one: tuple[str, ...], other: tuple[str, ...]) -> Compared:
    before, after = (given(written(home, *cases)) for cases in (one, other))
    return compared(as_called_by(after, before), after)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path


def test_a_renamed_case_is_the_same_case_with_the_same_marks(home: Path) -> None:
    found = turned(home, (case(LOW, "low"), case(TALL, "tall")), (case(LOW, "nook"), case(TALL, "tall")))
    assert found.changes.parts == ()
    assert found.retired == ()
    assert [c.key for c in found.changes.components] == ["cases/nook"]
    assert summary(found.changes, found.before, found.after) == "Nook case: LOW CASE is called NOOK CASE now"
    was, now = ({p.key: p.mark for p in wall.parts} for wall in (found.before, found.after))
    assert was == now


def test_one_that_is_renamed_and_changed_keeps_the_marks_of_what_did_not_change(home: Path) -> None:
    # A shelf more in the case: the two that were are moved, a third is added, the sides have a dado more.
    more = case(LOW, "nook").replace("count: 2", "count: 3")
    found = turned(home, (case(LOW, "low"),), (more,))
    kinds = {c.key.rpartition("/")[2]: c.kinds for c in found.changes.parts if c.part.maker == "shop"}
    assert kinds["shelf-3"] == ("added",)
    assert kinds["shelf-1"] == kinds["shelf-2"] == ("moved",)
    assert not any("removed" in some for some in kinds.values())
    shelf = {p.mark for p in found.after.parts if p.role == "shelf"}
    assert shelf == {p.mark for p in found.before.parts if p.role == "shelf"}


def test_names_that_change_places_are_only_names(home: Path) -> None:
    found = turned(home, (case(LOW, "a"), case(TALL, "b")), (case(LOW, "b"), case(TALL, "a")))
    assert found.changes.parts == ()
    assert {c.before.name for c in found.changes.components} == {"A CASE", "B CASE"}


def test_a_case_with_its_own_name_that_grew_is_that_case(home: Path) -> None:
    grown = case(LOW, "low", width="40", height="84")
    before, after = (given(written(home, one)).wall for one in (case(LOW, "low"), grown))
    assert new_keys(before, after) == {}


def test_another_case_in_another_place_is_another_case(home: Path) -> None:
    found = turned(home, (case(LOW, "low"),), (case(TALL, "tall"),))
    assert {(c.key, c.after is None) for c in found.changes.components} == {
        ("cases/low", True), ("cases/tall", False)
    }  # fmt: skip


def test_a_mirrored_case_that_is_written_out_for_each_side_is_built_as_it_was(home: Path) -> None:
    words = "width: 30, height: 60, shelves: {count: 2}, backer: {face: 4}"
    both = f"  - {{name: book, mirrored: true, {words}}}\n"
    apart = [
        f"  - {{name: {name}, at: {side}, {words}}}\n"
        for name, side in (("book", "left"), ("plate", "right"))
    ]
    found = turned(home, (both,), tuple(apart))
    assert found.changes.parts == ()
    assert found.retired == ()
    assert {(c.before.name, c.after.name) for c in found.changes.components} == {
        ("BOOK CASE, LEFT", "BOOK CASE"), ("BOOK CASE, RIGHT", "PLATE CASE")
    }  # fmt: skip


def test_the_marks_on_paper_follow_the_name() -> None:
    marks = (
        TriangleMark("section/cases/low", "2", (0.0, 0.0), 0.1, "part cases/low/shelf-1"),
        TriangleMark("section/cases/low-one", "2", (0.0, 0.0), 0.1, "words cases/low"),
    )
    sheet = SheetRecord("Z-301", "SECTIONS", "2", "", (), marks)
    record = Record("2", "", "", "", sheets=(sheet,), marks={"cases/low/shelf-1": "C1"})
    found = record.called({"cases/low": "cases/nook", "cases/low/shelf-1": "cases/nook/shelf-1"})
    one, other = found.sheets[0].triangles
    assert (one.view, one.about) == ("section/cases/nook", "part cases/nook/shelf-1")
    assert (other.view, other.about) == ("section/cases/low-one", "words cases/nook")
    assert found.marks == {"cases/nook/shelf-1": "C1"}
