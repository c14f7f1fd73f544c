"""Whatever is in a file, reading it ends soon, with one diagnostic that has a place."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.base.diagnostics import Diagnostic
from sheets.grammar.reader import read_spec, read_spec_text


def only(path: Path) -> Diagnostic:
    spec, _, found = read_spec(path)
    assert spec is None
    assert len(found) == 1, found
    assert found[0].place is not None
    assert found[0].place.file == str(path)
    return found[0]


def only_of(text: str) -> tuple[str, int, int]:
    spec, _, found = read_spec_text(text, "w.yaml")
    assert spec is None
    assert len(found) == 1, found
    assert found[0].place is not None
    return found[0].code, found[0].place.line, found[0].place.column


def test_a_missing_file_a_folder_and_an_empty_file(tmp_path: Path) -> None:
    assert only(tmp_path / "none.yaml").code == "no-file"
    assert only(tmp_path).code == "not-a-file"
    (tmp_path / "e.yaml").write_bytes(b"")
    assert only(tmp_path / "e.yaml").code == "empty-file"
    (tmp_path / "c.yaml").write_bytes(b"# only a comment\n\n")
    assert only(tmp_path / "c.yaml").code == "empty-file"


def test_a_named_pipe_does_not_hang(tmp_path: Path) -> None:
    if not hasattr(os, "mkfifo"):
        pytest.skip("this system has no named pipes")
    os.mkfifo(tmp_path / "pipe.yaml")
    assert only(tmp_path / "pipe.yaml").code == "not-a-file"


def test_what_is_too_large_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "big.yaml"
    with open(path, "wb") as file:
        file.truncate(1 << 40)  # a terabyte that takes no room on the disk, and could not be read
    assert only(path).code == "too-large"


def test_binary_files(tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 50)
    assert only(path).code == "not-text"
    path.write_bytes(b"project:\n  title: caf\xe9\n")
    found = only(path)
    assert found.code == "not-utf-8"
    assert found.place is not None
    assert (found.place.line, found.place.column) == (2, 13)
    path.write_bytes("project: {title: x}".encode("utf-16"))
    assert only(path).code == "not-utf-8"
    path.write_bytes(b"project:\n  title: a\x00b\n")
    found = only(path)
    assert found.place is not None
    assert (found.code, found.place.line, found.place.column) == ("not-text", 2, 11)


def test_a_byte_order_mark_and_windows_line_ends_do_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "w.yaml"
    path.write_bytes(
        b"\xef\xbb\xbfproject: {title: x}\r\nroom:\r\n  width: no\r\nmantel: {top: 50, width: 60}\r\n"
    )
    found = only(path)
    assert found.place is not None
    assert (found.code, found.place.line, found.place.column) == ("not-a-length", 3, 10)
    assert found.place.text_of_line == "  width: no"


def test_an_alias_bomb(tmp_path: Path) -> None:
    lines = ["a0: &a0 [x, x]"] + [f"a{i}: &a{i} [*a{i - 1}, *a{i - 1}]" for i in range(1, 40)]
    path = tmp_path / "bomb.yaml"
    path.write_text("\n".join(lines), encoding="utf-8")
    assert only(path).code == "anchor"


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("a: &x 1", "anchor", 1, 4),
        ("a: *x", "alias", 1, 4),
        ("a: 1\n*x : 2", "complex-key", 2, 1),
        ("a: !!int 1", "tag", 1, 4),
        ("a: !mine {b: 1}", "tag", 1, 4),
        ("a: 1\nb: 2\na: 3", "duplicate-key", 3, 1),
        ("r:\n  a: 1\n  a: {b: 1}", "duplicate-key", 3, 3),
        ("a: 1\n---\nb: 2", "second-document", 2, 1),
        ("? [a]\n: b", "complex-key", 1, 3),
        ("a: ~", "empty-value", 1, 4),
        ("a: null", "empty-value", 1, 4),
        ("- a\n- b", "not-a-spec", 1, 1),
        ("just words", "not-a-spec", 1, 1),
        ("a:\n\tb: 1", "not-yaml", 2, 1),
        ("a: b: c", "not-yaml", 1, 5),
        ("a: [" + "[" * 50, "too-deep", 1, 15),
        # The root, the list and 19 998 items are let in; item 19 999 starts at column 5 + 3 * 19 998.
        ("a: [" + "1, " * 50_000 + "]", "too-large", 1, 59_999),
        ("k" * 100 + ": 1", "bad-key", 1, 1),
        ('"": 1', "bad-key", 1, 1),
        ("a: @b", "not-yaml", 1, 4),
    ],
)
def test_yaml_that_is_no_spec(text: str, code: str, line: int, column: int) -> None:
    assert only_of(text) == (code, line, column)


def test_a_colon_key_in_flow_deep_nesting_in_blocks_and_long_keys_end_soon() -> None:
    for text in (
        "{" * 100_000,
        "- " * 100_000 + "x",
        "a: " * 100_000,
        '"' * 100_001,
        "a: |\n" + " x\n" * 100_000,
    ):
        assert read_spec_text(text)[0] is None


@given(st.binary(max_size=200))
def test_any_bytes_give_a_spec_or_errors_with_a_place(
    tmp_path_factory: pytest.TempPathFactory, data: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(data)
    spec, _, found = read_spec(path)
    assert spec is None
    assert found
    assert all(d.place is not None for d in found)


WORDS = st.sampled_from(
    [
        "project",
        "title",
        "units",
        "inch",
        "mm",
        "room",
        "width",
        "materials",
        "oak",
        "species",
        "mantel",
        "top",
        "layers",
        "cap",
        "fascia",
        "arch",
        "rise",
        "cases",
        "name",
        "at",
        "left",
        "fill",
        "shelves",
        "count",
        "spacing",
        "even",
        "12",
        "5'-2",
        "0",
        "-1",
        "1/0",
        "{}",
        "[]",
        "true",
        "~",
        "height",
        "ceiling",
        "vault",
        "spring",
    ]
)
TREES = st.recursive(
    WORDS,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(WORDS, inner, max_size=4)),
    max_leaves=12,
)


def as_flow(tree: object) -> str:
    if isinstance(tree, dict):
        return "{" + ", ".join(f"'{k.replace(chr(39), '')}': {as_flow(v)}" for k, v in tree.items()) + "}"
    if isinstance(tree, list):
        return "[" + ", ".join(as_flow(v) for v in tree) + "]"
    return str(tree)


@given(st.dictionaries(WORDS, TREES, max_size=6))
def test_any_tree_of_the_languages_own_words_never_raises(tree: dict[str, object]) -> None:
    spec, _, found = read_spec_text(as_flow(tree))
    assert spec is not None or found
    assert all(d.place is not None for d in found)
