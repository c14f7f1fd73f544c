"""A revision row in the text of a spec: one place changes, the rest keeps every byte."""

from __future__ import annotations

import difflib
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from sheets.grammar.reader import read_spec_text
from sheets.model.wall import Revision, Void
from sheets.revisions.keeping.spec_row import RowError, rows_of, with_more, with_row

ROW = Revision("2", "2026-04-01", "RV", "Opening 4\" wider: the owner's choice")
SPECS = sorted((Path(__file__).parents[2] / "specs").glob("*.yaml"))

LAYOUTS = {
    "no key": "a: 1  # one\nb: [1, 2]\n",
    "no last line end": "a: 1\nb: 2",
    "empty list": "a: 1\nrevisions: []   # filled at issue\nb: 2\n",
    "empty list last": "a: 1\nrevisions: []",
    "block of flow rows": 'revisions:\n  - {number: "1", date: 2026-01-01, reason: first}  # issued\n\n'
    "# tail\nb: 2\n",
    "block rows": "revisions:\n- number: '1'\n  date: 2026-01-01\n  reason: first   # so it was\n"
    "# about b\nb: 2\n",
    "folded reason": "revisions:\n  - number: '1'\n    date: 2026-01-01\n    reason: >-\n"
    "      first\n      of all\n\nb: 2\n",
    "flow list": "revisions: [{number: '1', date: 2026-01-01, reason: first}]  # all\nb: 2\n",
    "flow list on lines": "revisions: [\n  {number: '1', date: 2026-01-01, reason: first}\n]\nb: 2\n",
    "windows line ends": "a: 1\r\nrevisions: []\r\nb: 2\r\n",
    "whole file in braces": "{a: 1, b: 2}\n",
}


@pytest.mark.parametrize("text", LAYOUTS.values(), ids=LAYOUTS.keys())
def test_only_one_place_of_the_text_changes(text: str) -> None:
    found = with_row(text, ROW)
    before, after = (yaml.load(t, Loader=yaml.BaseLoader) for t in (text, found))
    row = {"number": "2", "date": "2026-04-01", "by": "RV", "reason": ROW.reason}
    assert after == {**before, "revisions": [*before.get("revisions", []), row]}
    blocks = [
        b for b in difflib.SequenceMatcher(None, text, found, autojunk=False).get_opcodes() if b[0] != "equal"
    ]
    removed = "".join(text[b[1] : b[2]] for b in blocks)
    assert removed.strip() in ("", "[]"), "nothing but an empty list is taken away"
    assert ("\r\n" in text) == ("\r\n" in found)
    assert "\n" not in found.replace("\r\n", "") or "\r\n" not in text
    for comment in (line[line.index("#") :] for line in text.splitlines() if "#" in line):
        assert comment in found


def test_rows_follow_the_layout_of_those_before() -> None:
    block = with_row(LAYOUTS["block rows"], ROW)
    assert '\n- number: "2"\n  date: 2026-04-01\n  by: RV\n  reason:' in block
    flow = with_row(LAYOUTS["block of flow rows"], ROW)
    assert '# issued\n  - {number: "2", date: 2026-04-01, by: RV, reason: ' in flow
    assert "\n\n# tail" in flow
    lines = with_row(LAYOUTS["flow list on lines"], ROW)
    assert "first},\n  {number" in lines


@pytest.mark.parametrize("spec", SPECS, ids=lambda p: p.stem)
def test_example_specs_read_as_before_with_one_row_more(spec: Path) -> None:
    text = spec.read_text("utf-8")
    found = with_row(text, ROW)
    before, _, _ = read_spec_text(text)
    after, _, said = read_spec_text(found)
    assert before is not None
    assert after is not None, said
    assert after.model_copy(update={"revisions": before.revisions}) == before
    assert after.revisions[-1].reason == ROW.reason
    assert all(line in found.splitlines() for line in text.splitlines() if not line.startswith("revisions"))


@given(st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=40))
def test_any_reason_is_read_back_as_written(reason: str) -> None:
    found = with_row("a: 1\n", Revision("B", "2026-04-01", "", reason))
    assert yaml.load(found, Loader=yaml.BaseLoader)["revisions"][0]["reason"] == reason


def test_a_number_is_not_used_twice() -> None:
    with pytest.raises(RowError, match="revision 2 already"):
        with_row(with_row("a: 1\n", ROW), ROW)


MORE = replace(ROW, digest="0123456789ab", void=Void("wrong: opening", ("Z-101", "Z-301"), "3"))


@pytest.mark.parametrize("text", LAYOUTS.values(), ids=LAYOUTS.keys())
def test_a_row_is_told_more_and_the_rest_keeps_every_byte(text: str) -> None:
    before = with_row(text, ROW)
    found = with_more(before, MORE)
    said = yaml.load(found, Loader=yaml.BaseLoader)["revisions"][-1]
    assert said["digest"] == "0123456789ab"
    assert said["void"] == {"reason": "wrong: opening", "sheets": ["Z-101", "Z-301"], "after": "3"}
    blocks = difflib.SequenceMatcher(None, before, found, autojunk=False).get_opcodes()
    assert {kind for kind, *_ in blocks} == {"equal", "insert"}
    assert with_more(found, MORE) == found
    assert rows_of(found)[-1].number == "2"
    with pytest.raises(RowError, match="no revision 9"):
        with_more(found, replace(ROW, number="9"))
