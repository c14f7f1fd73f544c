"""Whatever a field holds, it stays in its box: fitted, or an error that names it. Never over a line."""

from __future__ import annotations

from dataclasses import fields as fields_of

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sheets.audit.sheet_ink import ink_of
from sheets.compose.border import border
from sheets.compose.border.paper import sheet_size, size_names
from sheets.compose.border.titleblock import FIELDS, SHIPPED
from sheets.compose.border.titleblock_file import load, parse
from sheets.compose.ink import LEAST_TEXT
from sheets.compose.page_sizes import BLOCK
from sheets.drawing.items import Sheet
from sheets.model.wall import Project, Revision

SETTINGS = settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
# Words of a job and words that no one would write: wide letters, one endless word, lines, fractions.
WORDS = st.lists(
    st.text(alphabet="WMilgq.,-1/2\"' \nß&@", min_size=1, max_size=30), min_size=0, max_size=8
).map(" ".join)
STEP = LEAST_TEXT * 1.5  # of the rows of revisions
LONG = "A FIELD THAT IS MUCH LONGER THAN ANY BOX OF ANY TITLE BLOCK " * 40


def faults_of(size, layout, symbol):
    """The texts of a title block, and what of them stands over a rule, over another or out of the block."""
    items = (*border.border(size, layout), symbol)
    ink = ink_of(Sheet("Z-101", "T", size.width, size.height, size.frame, items, ""))
    texts = {id(text) for text in symbol.texts}
    block = [one for one in ink.letters if id(one.text) in texts]
    rules = [p for p in ink.pieces if p.pen in ("block rule", "frame")]
    x0, y0, x1, y1 = border.block_box(size, layout)
    faults = []
    for k, one in enumerate(block):
        a = one.box
        if a[0] < x0 or a[1] < y0 or a[2] > x1 or a[3] > y1:
            faults.append((one.text.plain, "out of the block"))
        if any(p in rules for p in ink.crossing(a, -1)):
            faults.append((one.text.plain, "over a rule"))
        others = (o for o in block[k + 1 :] if a.meets(o.box, -0.05) and not next_lines(one.text, o.text))
        faults += [(one.text.plain, other.text.plain) for other in others]
    return block, faults


def next_lines(one, other):
    """True of two lines of one text: the boxes of an accent and a descender may share height, not ink."""
    leading = BLOCK.leading * one.height
    return (one.height, one.weight) == (other.height, other.weight) and (
        abs(abs(one.at[1] - other.at[1]) - leading) < 1e-6 or abs(abs(one.at[1] - other.at[1]) - STEP) < 1e-6
    )


def set_with(size, layout, values, revisions=()):
    symbol, problems = border.title_block(size, layout, values, revisions)
    block, faults = faults_of(size, layout, symbol)
    return block, faults, problems


def cases():
    for name in SHIPPED:
        block, _ = load(name)
        for size_name in size_names():
            size, _ = sheet_size(size_name)
            x0, y0, x1, y1 = size.frame
            yield name, size_name, size, block.layout_for(x1 - x0, y1 - y0)


CASES = list(cases())


@SETTINGS
@given(
    st.sampled_from(CASES),
    st.fixed_dictionaries({name: WORDS for name in FIELDS}),
    st.lists(st.builds(Revision, *(WORDS for _ in range(4))), max_size=6),
)
def test_no_text_leaves_its_box_on_any_block_and_sheet(case, values, revisions):
    _, _, size, layout = case
    _, faults, _ = set_with(size, layout, values, tuple(revisions))
    assert faults == []


@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]} {case[1]}")
def test_a_field_far_too_long_is_an_error_that_names_it(case, field):
    _, _, size, layout = case
    values = dict.fromkeys(FIELDS, "A") | {field: LONG}
    block, faults, problems = set_with(size, layout, values)
    assert len(block) > 10
    assert faults == []
    if f"{{{field}}}" not in repr(layout):
        assert problems == ()  # this layout does not print it
        return
    assert problems
    assert all(d.code == "title-field-too-long" and len(d.message) < 250 for d in problems)
    if field.startswith("project."):
        assert {d.path for d in problems} == {tuple(field.split("."))}


@pytest.mark.parametrize(
    "cell",
    [
        "{size: 20, label: a label that is far too long for a box of twenty millimetres}",
        "{size: 20, text: a text that is far too long for a box of twenty millimetres}",
        "{size: 2, label: A}",
        "{size: 2, text: A}",
    ],
)
def test_words_of_a_block_of_ones_own_stay_in_its_boxes_too(cell):
    size, _ = sheet_size("arch-c")
    text = f"layouts:\n- {{edge: bottom, depth: 20, body: {{across: [{cell}, {{label: B}}]}}}}\n"
    block, found = parse(text, "mine.yaml")
    assert not found
    _, faults, problems = set_with(size, block.layouts[0], dict.fromkeys(FIELDS, "A"))
    assert faults == []
    assert [d.path for d in problems] == [("sheet", "titleblock")]


def test_a_box_that_is_not_high_enough_is_an_error():
    size, _ = sheet_size("arch-c")
    block, _ = parse("layouts:\n- {edge: bottom, depth: 3, body: {label: A, text: B}}\n", "mine.yaml")
    _, faults, problems = set_with(size, block.layouts[0], dict.fromkeys(FIELDS, "A"))
    assert faults == []
    assert problems


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]} {case[1]}")
def test_accents_and_descenders_stay_off_the_rules(case):
    _, _, size, layout = case
    block, faults, _ = set_with(size, layout, dict.fromkeys(FIELDS, "ÅÉgq"))
    assert sum("Å" in one.text.plain for one in block) >= 8
    assert [fault for fault in faults if fault[1] in ("over a rule", "out of the block")] == []


def test_all_that_a_project_says_can_be_printed():
    assert {f"project.{field.name}" for field in fields_of(Project)} <= set(FIELDS)


def test_the_check_can_fail():
    """A text set over the rule beside its box is seen."""
    from dataclasses import replace

    size, _ = sheet_size("arch-c")
    block, _ = load("architect-strip")
    layout = block.layouts[0]
    symbol, _ = border.title_block(size, layout, dict.fromkeys(FIELDS, "A"), ())
    moved = replace(symbol, texts=tuple(replace(t, at=(t.at[0], t.at[1] + 1.5)) for t in symbol.texts))
    assert faults_of(size, layout, symbol)[1] == []
    assert faults_of(size, layout, moved)[1]
