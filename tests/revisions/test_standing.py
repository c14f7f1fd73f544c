"""How a spec stands to its issues: by their records, and without them by what its rows hold."""

from __future__ import annotations

from dataclasses import replace

from sheets.drawing.items import Sheet
from sheets.geometry.box import Box
from sheets.grammar.reader import read_spec_text
from sheets.model.wall import Revision, Void
from sheets.revisions.keeping.record import Record, SheetRecord
from sheets.revisions.keeping.standing import digest_of, less_void, standing
from sheets.revisions.marking.difference import bare_hash
from tests.commands.shelf import SPEC

NOW, THEN = "0123456789ab", "ba9876543210"


def sheet(number: str, title: str = "PLAN") -> Sheet:
    return Sheet(number, title, 420.0, 297.0, Box(20.0, 10.0, 350.0, 287.0), ())


def row(number: str, digest: str = "", void: Void | None = None) -> Revision:
    return Revision(number, "2026-01-02", "RV", "x", digest, void)


def record(number: str, *sheets: Sheet, revision: str = "", **more: object) -> Record:
    found = tuple(SheetRecord(s.number, s.title, revision or number, bare_hash(s)) for s in sheets)
    return Record(number, "2026-01-02", "RV", "x", sheets=found, **more)  # type: ignore[arg-type]


def none(number: str) -> None:
    return None


SET = (sheet("Z-001", "INDEX"), sheet("Z-101"), sheet("Z-301", "SECTION"))


def test_rows_kept_by_hand_are_their_authors_own() -> None:
    found = standing((row("1"), row("2")), NOW, none)
    assert (found.rows, found.record, found.draft) == ((row("1"), row("2")), None, None)
    assert standing((), NOW, none).draft is None


def test_without_its_record_the_row_tells_that_the_spec_was_changed() -> None:
    assert standing((row("1", NOW),), NOW, none).draft is None, "a first issue says all that there is"
    changed = standing((row("1", THEN),), NOW, none).draft
    assert changed is not None
    assert (changed.number, changed.says) == ("1+", "after 1, not issued")
    assert changed.unlike(SET) == {"Z-001", "Z-101", "Z-301"}
    later = standing((row("1", THEN), row("2", NOW)), NOW, none).draft
    assert later is not None
    assert later.says == "as 2, without its record", "marks and revisions of its sheets are in the record"


def test_with_its_record_the_sheets_tell_each_for_itself() -> None:
    issued = record("E", *SET)
    found = standing((row("E", NOW),), NOW, {"E": issued}.get)
    assert found.record == issued
    assert found.draft is not None
    assert found.draft.unlike(SET) == frozenset(), "as it was issued"
    other = (SET[0], sheet("Z-101", "PLANS"), SET[2])
    assert found.draft.unlike(other) == {"Z-001", "Z-101"}, "the index goes with it"
    assert found.draft.unlike(SET[:2]) == {"Z-001"}, "a sheet that fell out is told by the index"
    assert found.draft.says == "as E, drawn anew", "where a sheet is not as it was, the spec is"
    changed = standing((row("E", THEN),), NOW, {"E": issued}.get).draft
    assert changed is not None
    assert changed.says == "after E, not issued"
    part = standing((row("E", NOW),), NOW, {"E": replace(issued, only=("Z-001",))}.get).draft
    assert part is not None
    assert part.says == "after E, not issued", "what was held back is not issued"
    assert standing((row("E"),), NOW, {"E": issued}.get).draft is not None, "a row of before the digests"


def test_a_row_that_waits_to_be_issued_is_no_issue() -> None:
    found = standing((row("A", NOW), row("B")), NOW, {"A": record("A", *SET)}.get)
    assert [one.number for one in found.rows] == ["A"]
    assert found.draft is not None
    assert (found.draft.number, found.draft.says) == ("A+", "for B, not issued")


def test_a_void_issue_is_followed_by_none() -> None:
    records = {
        "A": record("A", *SET, marks={"a": "C1"}),
        "B": record("B", *SET, marks={"a": "C1", "b": "C2"}, retired=("C9",)),
    }
    void = row("B", NOW, Void("wrong", ("Z-101",), "B"))
    found = standing((row("A", THEN), void), NOW, records.get)
    assert found.record is not None
    assert found.record.number == "A"
    assert found.record.retired == ("C2", "C9"), "marks of void prints name nothing else"
    assert found.rows[-1] == void, "the row stays"
    alone = standing((row("A", NOW, Void("wrong")),), NOW, records.get).draft
    assert alone is not None
    assert alone.unlike(SET) == {"Z-001", "Z-101", "Z-301"}
    carried = less_void(record("C", *SET, revision="B"), (void,), records.get)
    assert {one.bare for one in carried.sheets} == {""}, "a sheet that carries a void number is not issued"


def test_the_digest_follows_what_is_drawn_and_not_how_it_is_written() -> None:
    def of(text: str) -> str:
        spec, _, found = read_spec_text(text)
        assert spec is not None, found
        return digest_of(spec)

    same = SPEC.replace("height: 60", "height: 1524 mm  # five feet")
    issued = SPEC + f'revisions:\n  - {{number: "1", date: 2026-01-19, reason: x, digest: "{NOW}"}}\n'
    assert of(SPEC) == of(same) == of(issued)
    assert of(SPEC) != of(SPEC.replace("height: 60", "height: 61"))
    spec, _, _ = read_spec_text(SPEC)
    assert spec is not None
    assert digest_of(spec, b"block") != digest_of(spec, b"other block") != digest_of(spec)
