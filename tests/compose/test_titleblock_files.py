"""A title block of one's own: each slip is told at its place, and no file can hang or break the program."""

from __future__ import annotations

import os

import pytest

from sheets.compose.border.titleblock import FIELDS, SHIPPED, filled
from sheets.compose.border.titleblock_file import load, parse

GOOD = "layouts:\n- edge: bottom\n  depth: 20\n  body: {field: '{project.title}', label: JOB, height: 4}\n"


def test_a_block_of_ones_own_works_by_path(tmp_path):
    (tmp_path / "mine.yaml").write_text(GOOD)
    block, found = load("mine.yaml", tmp_path)
    assert not found
    assert block.name == "mine"
    assert block.layouts[0].depth == 20


@pytest.mark.parametrize("name", SHIPPED)
def test_a_shipped_block_can_be_copied_and_started_from(name, tmp_path):
    from importlib.resources import files

    text = files("titleblocks").joinpath(f"{name}.yaml").read_text("utf-8")
    (tmp_path / "mine.yaml").write_text(text)
    block, found = load("mine.yaml", tmp_path)
    assert not found
    assert block == load(name)[0]


# What is written instead of what is meant, where in the text the caret stands, and a word of the help.
SLIPS = [
    ("edge: buttom", "edge: bottom", "buttom", "bottom"),
    ("'{project.titel}'", "'{project.title}'", "'{project.titel}'", "project.title"),
    ("lable: JOB", "label: JOB", "lable", "label"),
    ("depth: 0", "depth: 20", "0", ""),
    ("depth: -3", "depth: 20", "-3", ""),
    ("depth: .inf", "depth: 20", ".inf", ""),
    ("depth: .nan", "depth: 20", ".nan", ""),
    ("depth: 1e9", "depth: 20", "1e9", ""),
    ("depth: 99999", "depth: 20", "99999", ""),
    ("height: 1", "height: 4", "1}", ""),
    ("height: 4, align: middle", "height: 4", "middle", "left"),
    ("height: 4, lines: 1000000000", "height: 4", "1000000000", ""),
    ("height: 4, lines: 1.5", "height: 4", "1.5", ""),
    ("height: 4, least: 9", "height: 4", "9}", ""),
    ("height: 4, size: wide", "height: 4", "wide", ""),
    ("'{project.title.__class__}'", "'{project.title}'", "'{project.t", "project.title"),
    ("'{project.title:>99999999}'", "'{project.title}'", "'{project.t", "project.title"),
    ("'{project.title!r}'", "'{project.title}'", "'{project.t", "project.title"),
    ("'{project.title'", "'{project.title}'", "'{project.t", ""),
    ("depth: 20\n  depth: 30", "depth: 20", "depth: 30", ""),
    ("body: &a {field", "body: {field", "&a", ""),
    ("body: !x {field", "body: {field", "!x", ""),
    ("body: {down: 3, size: 1}\n#", "body:", "down", ""),
]


@pytest.mark.parametrize(("slip", "meant", "caret", "help_word"), SLIPS)
def test_a_slip_is_told_at_its_place(slip, meant, caret, help_word):
    text = GOOD.replace(meant, slip)
    assert text != GOOD
    before = text[: text.index(caret, text.index(slip))]
    block, found = parse(text, "mine.yaml")
    assert block is None
    place = found[0].place
    assert place.file == "mine.yaml"
    assert (place.line, place.column) == (before.count("\n") + 1, len(before) - before.rfind("\n")), found
    assert all(d.severity == "error" for d in found)
    assert help_word in found[0].help


def test_every_slip_of_a_file_is_told_at_once():
    text = GOOD.replace("bottom", "buttom").replace("label", "lable").replace("titel", "titel")
    assert len(parse(text, "mine.yaml")[1]) == 2


@pytest.mark.parametrize(
    "text",
    [
        "",
        "layouts: []",
        "layouts: 3",
        "- a",
        "a: [",
        "layouts:\n- 3\n",
        "layouts:\n- {edge: bottom, depth: 9, body: 7}",
        "layouts:\n- {edge: right, depth: 9, body: {down: []}}",
        "layouts:\n- {edge: right, depth: 9, body: {down: 3}}",
        "layouts:\n- {edge: right, depth: 9, needs: 3, body: {}}",
        "layouts:\n- {edge: right, depth: 9, body: {label: [a]}}",
        "layouts:\n- {edge: right, depth: 9, body: {label: {a: b}}}",
        "layouts:\n- {edge: right, depth: 9}",
        "layouts: " + "[" * 20_000,
        "layouts:\n- edge: bottom\n  depth: 20\n  body: " + "{down: [" * 3000 + "{label: a}" + "]}" * 3000,
        "a: &a [x, x]\nb: &b [*a, *a]\nlayouts: *b\n",
        'layouts: !!python/object/apply:os.system ["true"]\n',
    ],
)
def test_a_broken_block_is_an_error_with_a_place_and_never_a_crash(text):
    block, found = parse(text, "mine.yaml")
    assert block is None
    assert found
    assert all(d.severity == "error" and d.place is not None for d in found)


@pytest.mark.parametrize("text", ["root:x:0:0\n", "token: abc\n", "- secret\n", "a: [b\n", "\tkey\n"])
def test_no_line_is_shown_of_a_file_that_is_no_title_block(tmp_path, text):
    (tmp_path / "mine.yaml").write_text(text)
    block, found = load("mine.yaml", tmp_path)
    assert block is None
    assert found
    assert all(d.place is None or d.place.text_of_line == "" for d in found)
    assert "secret" not in " ".join(d.message for d in found)


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("binary", bytes(range(256)) * 8),
        ("utf-16", GOOD.encode("utf-16")),
        ("six megabytes", b"# " + b"x" * 6_000_000),
    ],
)
def test_a_file_that_is_no_text_is_refused(tmp_path, name, content):
    (tmp_path / "mine.yaml").write_bytes(content)
    block, found = load("mine.yaml", tmp_path)
    assert block is None
    assert len(found) == 1


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_a_device_and_a_folder_are_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    (tmp_path / "zero.yaml").symlink_to("/dev/zero")
    (tmp_path / "folder.yaml").mkdir()
    for name in ("pipe.yaml", "zero.yaml", "folder.yaml", "none.yaml"):
        block, found = load(name, tmp_path)
        assert block is None
        assert found[0].code == "titleblock-unreadable"
        assert "architect-strip" in found[0].help


def test_what_a_value_says_is_not_read_as_a_field():
    values = dict.fromkeys(FIELDS, "-") | {"project.title": "{project.number}", "project.number": "26"}
    assert filled("{project.title} {project.number}", values) == "{project.number} 26"
