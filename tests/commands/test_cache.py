"""A store of drawn sets that anyone may have put anything into: what is not a whole set counts as missing."""

from __future__ import annotations

import hashlib
import json
import os
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from sheets.base import durable
from sheets.commands import cache

KEY, STEM, SPEC = "0" * 64, "hall", b"a: 1\n"
Files = dict[str, bytes]


def manifest(files: Files, spec: bytes = SPEC) -> bytes:
    listed = [{"name": n, "sha256": hashlib.sha256(data).hexdigest()} for n, data in files.items()]
    sheets = [{"number": "Z-001", "title": "INDEX", "sha256": "x"}]
    head = {"program": "shopset", "spec": {"sha256": hashlib.sha256(spec).hexdigest()}}
    return json.dumps({**head, "files": listed, "sheets": sheets}).encode()


def a_set() -> Files:
    files = {"hall.pdf": b"%PDF" + b"x" * 4000, "hall.dxf": b"0" * 4000, "parts.csv": b"a,b"}
    files |= {"hall-checks.pdf": b"%PDF" + b"y" * 400, "hall-Z-001.png": b"p"}
    return {**files, "manifest.json": manifest(files)}


def found(store: Path) -> tuple[tuple[str, bytes], ...] | None:
    return cache.fetch(store, KEY, STEM, hashlib.sha256(SPEC).hexdigest())


def test_what_was_kept_is_found(tmp_path: Path) -> None:
    assert found(tmp_path) is None
    cache.keep(tmp_path / "store", KEY, a_set().items())
    assert dict(found(tmp_path / "store") or ()) == a_set()
    assert os.listdir(tmp_path / "store") == [f"{KEY}.zip"]


def test_what_is_kept_can_be_read_by_whom_the_umask_lets(tmp_path: Path) -> None:
    held = os.umask(0o022)
    try:
        cache.keep(tmp_path, KEY, a_set().items())
    finally:
        os.umask(held)
    assert stat.S_IMODE((tmp_path / f"{KEY}.zip").stat().st_mode) == 0o644


def test_what_a_dead_run_left_in_the_store_is_swept(tmp_path: Path) -> None:
    left = tmp_path / f"{durable.aside_prefix(KEY + '.zip')}abc"
    left.write_bytes(b"half")
    cache.keep(tmp_path, KEY, a_set().items())
    assert os.listdir(tmp_path) == [f"{KEY}.zip"]


def with_file(name: str, data: bytes = b"x", *, listed: bool = True) -> Callable[[], Files]:
    def make() -> Files:
        files = {**a_set(), name: data}
        del files["manifest.json"]
        return {**files, "manifest.json": manifest(files) if listed else a_set()["manifest.json"]}

    return make


def without(name: str) -> Callable[[], Files]:
    return lambda: {n: data for n, data in a_set().items() if n != name}


def with_manifest(data: bytes) -> Callable[[], Files]:
    return lambda: {**a_set(), "manifest.json": data}


def saying(**more: object) -> Callable[[], Files]:
    return lambda: {
        **a_set(), "manifest.json": json.dumps({**json.loads(a_set()["manifest.json"]), **more}).encode()
    }  # fmt: skip


HOSTILE: dict[str, Callable[[], Files]] = {
    "a path up": with_file("../up.txt"),
    "a path from the root": with_file("/files-of-others.txt"),
    "a path with backslashes": with_file("..\\up.txt"),
    "a folder": with_file("inner/"),
    "a file of another kind": with_file("run.sh"),
    "a picture of another set": with_file("other-Z-001.png"),
    "a file that is not listed": with_file("hall-Z-002.png", listed=False),
    "no manifest": without("manifest.json"),
    "no PDF": without("hall.pdf"),
    "nothing": dict,
    "a PDF cut short": lambda: {**a_set(), "hall.pdf": b"%PDF"},
    "another spec": lambda: {**a_set(), "manifest.json": manifest(without("manifest.json")(), b"a: 2\n")},
    "a manifest that is a list": with_manifest(b"[]"),
    "a manifest that is no JSON": with_manifest(b"\xff{"),
    "a deep manifest": with_manifest(b"[" * 100_000),
    "a manifest without sheets": with_manifest(b'{"program": "shopset", "files": []}'),
    "counts that are none": saying(checks={"error": "many"}),
    "a draft of no words": saying(draft=7),
    "a draft for a terminal": saying(draft={"says": "\x1b]0;x\x07", "sheets": []}),
    "a defect for a terminal": saying(audit=["\x1b[2J"]),
    "a title for a terminal": saying(sheets=[{"number": "Z-001", "title": "\x1b[2J", "sha256": "x"}]),
    "a manifest of odd types": with_manifest(b'{"program": "shopset", "spec": 3, "files": 7, "sheets": {}}'),
}


def test_what_is_said_of_a_draft_is_kept(tmp_path: Path) -> None:
    files = saying(checks={"error": 0}, draft={"says": "after A, not issued", "sheets": ["Z-001"]})()
    cache.keep(tmp_path, KEY, files.items())
    assert dict(found(tmp_path) or ()) == files


@pytest.mark.parametrize("mode", HOSTILE)
def test_an_entry_that_is_not_a_whole_set_counts_as_missing(tmp_path: Path, mode: str) -> None:
    cache.keep(tmp_path, KEY, HOSTILE[mode]().items())
    assert (tmp_path / f"{KEY}.zip").exists()
    assert found(tmp_path) is None


def test_damaged_bytes_anywhere_count_as_missing(tmp_path: Path) -> None:
    cache.keep(tmp_path, KEY, a_set().items())
    target = tmp_path / f"{KEY}.zip"
    whole = target.read_bytes()
    for at in range(0, len(whole), 7):
        target.write_bytes(whole[:at] + bytes(~byte & 0xFF for byte in whole[at : at + 4]) + whole[at + 4 :])
        held = found(tmp_path)
        assert held is None or dict(held) == a_set(), at  # a date or a mode of an entry may be anything
        target.write_bytes(whole[:at])
        assert found(tmp_path) is None, at


def test_an_entry_that_swells_is_not_unpacked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cache, "MOST_BYTES", 100_000)
    cache.keep(tmp_path, KEY, with_file("hall-Z-002.png", bytes(200_000))().items())
    assert found(tmp_path) is None
    many = {f"hall-Z-{k}.png": b"" for k in range(1100)}
    cache.keep(tmp_path, KEY, {**a_set(), **many}.items())
    assert found(tmp_path) is None


def test_two_entries_of_one_name_count_as_missing(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / f"{KEY}.zip", "w") as held:
        for name, data in a_set().items():
            held.writestr(name, data)
        with pytest.warns(UserWarning, match="Duplicate"):
            held.writestr("parts.csv", b"=1+1")
    assert found(tmp_path) is None


def test_a_pipe_in_the_store_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / f"{KEY}.zip")
    assert found(tmp_path) is None
