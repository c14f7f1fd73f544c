"""A set's folder is replaced whole or not at all."""

import json
import os

import pytest

from sheets.writers import folder
from sheets.writers.folder import FolderError, write_folder

FIRST = {"a.pdf": b"one", "a.dxf": b"two"}


def _set(files):
    listed = [{"name": name} for name in files]
    return {**files, "manifest.json": json.dumps({"program": "shopset", "files": listed}).encode()}


def _read(path):
    return {p.name: p.read_bytes() for p in path.iterdir() if p.is_file()}


def test_writes_a_new_folder_and_replaces_an_earlier_set(tmp_path):
    target = tmp_path / "out" / "alcove"
    write_folder(target, _set(FIRST))
    assert _read(target) == _set(FIRST)
    second = _set({"a.pdf": b"three"})
    write_folder(target, second)
    assert _read(target) == second  # the DXF of the earlier set is gone
    assert os.listdir(target.parent) == ["alcove"]  # nothing is left lying beside it


def test_keeps_what_the_user_added(tmp_path):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    (target / "site notes.txt").write_text("damp at the left")
    (target / "photos").mkdir()
    write_folder(target, _set(FIRST))
    assert (target / "site notes.txt").read_text() == "damp at the left"
    assert (target / "photos").is_dir()


def test_refuses_a_folder_that_is_not_a_sets(tmp_path):
    target = tmp_path / "letters"
    target.mkdir()
    (target / "will.txt").write_text("mine")
    with pytest.raises(FolderError, match="not a drawing set's"):
        write_folder(target, _set(FIRST))
    assert _read(target) == {"will.txt": b"mine"}
    assert os.listdir(tmp_path) == ["letters"]


def test_refuses_a_file_in_the_way(tmp_path):
    (tmp_path / "alcove").write_text("x")
    with pytest.raises(FolderError, match="is a file"):
        write_folder(tmp_path / "alcove", _set(FIRST))


@pytest.mark.parametrize("step", ["write_through", "flush_folder", "rename"])
@pytest.mark.parametrize("after", range(3))
def test_a_failure_at_any_step_leaves_the_earlier_set(tmp_path, monkeypatch, step, after):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    (target / "site notes.txt").write_text("damp")
    calls = {"n": 0}
    place = os if step == "rename" else folder
    real = getattr(place, step)

    def failing(*args):
        calls["n"] += 1
        if calls["n"] == after + 1:
            raise OSError(28, "No space left on device")
        return real(*args)

    monkeypatch.setattr(place, step, failing)
    second = _set({"b.pdf": b"new", "c.pdf": b"newer"})
    message = ""
    try:
        write_folder(target, second)
    except FolderError as error:
        message = str(error)
    monkeypatch.undo()
    assert ("No space left" in message) == bool(message)
    assert (target / "site notes.txt").read_text() == "damp"
    (target / "site notes.txt").unlink()
    assert _read(target) == (_set(FIRST) if message else second)
    assert os.listdir(tmp_path) == ["alcove"]
    if after == 0:
        assert message
