"""A set's folder is replaced whole or not at all, and what the user keeps in it is never at risk."""

import errno
import hashlib
import json
import os
import signal
import sys
import threading
from pathlib import Path

import pytest

from sheets.base import durable
from sheets.writers import folder
from sheets.writers.folder import FolderError, write_folder

FIRST = {"a.pdf": b"one", "a.dxf": b"two"}
SECOND = {"a.pdf": b"three", "b.pdf": b"new", "c.pdf": b"newer"}
CHANGES = frozenset(
    ["open", "os.rename", "os.link", "os.mkdir", "os.remove", "os.rmdir"]
    + ["os.chmod", "os.utime", "os.scandir", "os.listdir"]
)


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch):
    monkeypatch.setattr(os, "fsync", lambda handle: None)  # no power cut is tried here


def _set(files):
    listed = [{"name": n, "sha256": hashlib.sha256(data).hexdigest()} for n, data in files.items()]
    content = {"program": "shopset", "spec": {"sha256": "x"}, "files": listed}
    return {**files, "manifest.json": (json.dumps(content, indent=2, ensure_ascii=False) + "\n").encode()}


def _tree(path: Path) -> dict[str, bytes]:
    """Every file under a folder by its path in it; a link by where it leads, a pipe by its kind."""
    found = {}
    for p in sorted(path.rglob("*")):
        name = str(p.relative_to(path))
        if p.is_symlink():
            found[name] = b"-> " + os.fsencode(os.readlink(p))
        elif p.is_file():
            found[name] = p.read_bytes()
        elif not p.is_dir():
            found[name] = b"pipe"
    return found


def _with_the_users_things(target: Path) -> dict[str, bytes]:
    """Put what a user may keep into a set's folder; return it as `_tree` sees it."""
    before = _tree(target)
    (target / "site notes.txt").write_text("damp at the left")
    (target / "photos" / "day 1").mkdir(parents=True)
    (target / "photos" / "day 1" / "left.jpg").write_bytes(b"\xff\xd8")
    (target / "photos" / "right.jpg").write_bytes(b"\xff\xd8\xff")
    os.symlink("../elsewhere", target / "link")
    os.mkfifo(target / "pipe")
    return {name: data for name, data in _tree(target).items() if name not in before}


def test_writes_a_new_folder_and_replaces_an_earlier_set(tmp_path):
    target = tmp_path / "out" / "alcove"
    assert write_folder(target, _set(FIRST)) == ()
    assert _tree(target) == _set(FIRST)
    assert write_folder(target, _set(SECOND)) == ()
    assert _tree(target) == _set(SECOND)  # the DXF of the earlier set is gone
    assert os.listdir(target.parent) == ["alcove"]  # nothing is left lying beside it


def test_keeps_what_the_user_added(tmp_path):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    theirs = _with_the_users_things(target)
    number = (target / "site notes.txt").stat().st_ino
    assert write_folder(target, _set(SECOND)) == ()
    assert _tree(target) == {**_set(SECOND), **theirs}
    assert (target / "site notes.txt").stat().st_ino == number  # the file itself, not a copy


def test_what_was_altered_by_hand_is_kept_under_another_name(tmp_path):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    (target / "a.pdf").write_bytes(b"one, marked up in red")
    (target / "a.dxf").write_bytes(b"two, with a line more")  # the next set has none
    told = write_folder(target, _set(SECOND))
    assert len(told) == 1
    assert "a.kept-1.pdf" in told[0]
    kept = {"a.kept-1.pdf": b"one, marked up in red", "a.dxf": b"two, with a line more"}
    assert _tree(target) == {**_set(SECOND), **kept}
    (target / "a.pdf").write_bytes(b"one, marked up in red")  # the same again: one copy will do
    write_folder(target, _set(SECOND))
    assert _tree(target) == {**_set(SECOND), **kept}
    (target / "a.pdf").write_bytes(b"in blue")
    write_folder(target, _set(SECOND))
    assert _tree(target) == {**_set(SECOND), **kept, "a.kept-2.pdf": b"in blue"}


def test_a_file_of_the_users_that_the_set_comes_to_have_is_kept(tmp_path):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    (target / "b.pdf").write_bytes(b"mine")
    write_folder(target, _set(SECOND))
    assert _tree(target) == {**_set(SECOND), "b.kept-1.pdf": b"mine"}


def test_beside_leaves_other_files_of_the_set_and_lists_them_on(tmp_path):
    target = tmp_path / "alcove-schedules"
    write_folder(target, _set({"parts.csv": b"a,b", "lumber.csv": b"c"}), beside=True)
    write_folder(target, _set({"parts.json": b"{}"}), beside=True)
    assert set(_tree(target)) == {"parts.csv", "lumber.csv", "parts.json", "manifest.json"}
    listed = json.loads((target / "manifest.json").read_bytes())["files"]
    assert [entry["name"] for entry in listed] == ["lumber.csv", "parts.csv", "parts.json"]
    write_folder(target, _set({"parts.json": b"[]"}))  # and a later run that is not beside drops them
    assert set(_tree(target)) == {"parts.json", "manifest.json"}


def test_refuses_a_folder_that_is_not_a_sets(tmp_path):
    target = tmp_path / "letters"
    target.mkdir()
    (target / "will.txt").write_text("mine")
    with pytest.raises(FolderError, match="not a drawing set's"):
        write_folder(target, _set(FIRST))
    assert _tree(target) == {"will.txt": b"mine"}
    assert os.listdir(tmp_path) == ["letters"]


@pytest.mark.parametrize("content", [b"[]", b"null", b"\xff", b"[" * 200_000, b'{"program": "other"}'])
def test_refuses_a_manifest_that_is_none(tmp_path, content):
    target = tmp_path / "alcove"
    target.mkdir()
    (target / "manifest.json").write_bytes(content)
    with pytest.raises(FolderError, match="nothing was changed"):
        write_folder(target, _set(FIRST))
    assert _tree(tmp_path) == {"alcove/manifest.json": content}


def test_a_pipe_for_a_manifest_is_not_waited_for(tmp_path):
    target = tmp_path / "alcove"
    target.mkdir()
    os.mkfifo(target / "manifest.json")
    with pytest.raises(FolderError, match="not a plain file"):
        write_folder(target, _set(FIRST))


def test_names_in_a_manifest_lead_nowhere(tmp_path):
    target = tmp_path / "out" / "alcove"
    write_folder(target, _set(FIRST))
    outside = tmp_path / "out" / "mine.txt"
    outside.write_bytes(b"mine")
    listed = [{"name": name, "sha256": hashlib.sha256(b"mine").hexdigest()}
              for name in ("../mine.txt", str(outside), "..", "", 7, None)]
    (target / "manifest.json").write_text(json.dumps({"program": "shopset", "files": [*listed, 3, []]}))
    write_folder(target, _set(SECOND))
    assert outside.read_bytes() == b"mine"


def test_refuses_a_file_in_the_way(tmp_path):
    (tmp_path / "alcove").write_text("x")
    with pytest.raises(FolderError, match="is a file"):
        write_folder(tmp_path / "alcove", _set(FIRST))


def test_a_link_to_a_folder_is_followed(tmp_path):
    (tmp_path / "far").mkdir()
    os.symlink(tmp_path / "far", tmp_path / "alcove")
    write_folder(tmp_path / "alcove", _set(FIRST))
    assert (tmp_path / "alcove").is_symlink()
    assert _tree(tmp_path / "far") == _set(FIRST)
    os.symlink("turning", tmp_path / "turning")
    with pytest.raises(FolderError):
        write_folder(tmp_path / "turning", _set(FIRST))


def _takes_room(event: str, arguments: tuple[object, ...]) -> bool:
    if event == "open":
        return bool(int(arguments[2]) & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
    return event in ("os.mkdir", "os.link")


def _stopped(tmp_path: Path, at: int, how: str, swap: bool) -> tuple[bool, int]:
    """Write the second set in a process stopped just before its `at`-th look at or change of the disk.

    Returns whether there were so many, and the status it ended with.
    """
    child = os.fork()
    if child:
        _, status = os.waitpid(child, 0)
        return os.waitstatus_to_exitcode(status) != 77, os.waitstatus_to_exitcode(status)
    if not swap:
        folder.exchange = lambda one, other: False
    count = 0

    def hook(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal count
        if event in CHANGES and any(str(tmp_path) in str(one) for one in arguments):
            count += 1
            if count == at and how == "kill":
                os.kill(os.getpid(), signal.SIGKILL)
            elif count == at and how == "interrupt":
                raise KeyboardInterrupt
            elif count >= at and how == "full" and _takes_room(event, arguments):
                raise OSError(errno.ENOSPC, "No space left on device")

    status = 99
    try:
        sys.addaudithook(hook)
        write_folder(tmp_path / "alcove", _set(SECOND))
        status = 77 if count < at else 0
    except KeyboardInterrupt:
        status = 130
    except FolderError:
        status = 2
    finally:
        os._exit(status)


@pytest.mark.parametrize("swap", [True, False], ids=["in one step", "in two steps"])
@pytest.mark.parametrize("how", ["kill", "interrupt", "full"])
def test_stopped_anywhere_the_old_set_or_the_new_one_is_there_with_all_that_is_the_users(tmp_path, how, swap):
    """Every look at and change of the disk in turn, by the interpreter's own audit events."""
    wholes = (_set(FIRST), _set(SECOND))
    for at in range(1, 400):  # each a run of its own
        home = tmp_path / str(at)
        home.mkdir()
        target = home / "alcove"
        write_folder(target, _set(FIRST))
        theirs = _with_the_users_things(target)
        more, status = _stopped(home, at, how, swap)
        if not more:
            assert at > 30
            return
        if how == "kill" and not swap and not target.exists():  # between two steps: the next run mends it
            assert write_folder(target, _set(FIRST))
        found = _tree(target)
        assert {name: found.get(name) for name in theirs} == theirs, (at, status)
        set_there = {name: data for name, data in found.items() if name not in theirs}
        assert set_there in wholes, (at, status)
        if how != "kill":
            assert os.listdir(home) == ["alcove"], at  # nothing is left when it could clear up
            assert status in (0, 130, 2)
        if status == 2:
            assert set_there == wholes[0]
        write_folder(target, _set(SECOND))
        assert _tree(target) == {**_set(SECOND), **theirs}, at
        assert os.listdir(home) == ["alcove"], at
    pytest.fail("it never came to an end")


def test_runs_at_once_wait_for_each_other_and_lose_nothing(tmp_path):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    theirs = _with_the_users_things(target)
    children = []
    for number in range(4):
        child = os.fork()
        if not child:
            status = 1
            try:
                for turn in range(15):
                    write_folder(target, _set({f"{number}.pdf": b"%d" % turn}))
                status = 0
            finally:
                os._exit(status)
        children.append(child)
    assert [os.waitpid(child, 0)[1] for child in children] == [0] * 4
    found = _tree(target)
    assert {name: found[name] for name in theirs} == theirs
    assert set(found) - set(theirs) in [{f"{number}.pdf", "manifest.json"} for number in range(4)]
    assert os.listdir(tmp_path) == ["alcove"]


def test_a_file_that_arrives_while_the_set_is_written_is_kept(tmp_path):
    target = tmp_path / "alcove"
    write_folder(target, _set(FIRST))
    done = threading.Event()

    def arriving() -> None:
        for number in range(400):
            (target / f"photo-{number}.jpg").write_bytes(b"\xff")
            if done.is_set():
                return

    user = threading.Thread(target=arriving)
    user.start()
    try:
        for _ in range(8):
            write_folder(target, _set(SECOND))
    finally:
        done.set()
        user.join()
    photos = sorted(int(p.stem.split("-")[1]) for p in target.glob("photo-*.jpg"))
    assert photos == list(range(len(photos)))
    assert photos


def test_an_old_set_half_cleared_away_gives_nothing_back(tmp_path):
    """Its manifest goes last, whatever the order that the disk lists names in."""
    target = tmp_path / "alcove"
    write_folder(target, _set(SECOND))
    aside = tmp_path / f"{durable.aside_prefix('alcove')}1"
    removed = []
    for at in range(len(_set(FIRST)) + 1):
        write_folder(aside, _set(FIRST))
        child = os.fork()
        if not child:
            count = 0

            def hook(event, arguments, at=at):
                nonlocal count
                count += event == "os.remove"
                if event == "os.remove" and count > at:
                    os.kill(os.getpid(), signal.SIGKILL)

            sys.addaudithook(hook)
            write_folder(target, _set(SECOND))
            os._exit(0)
        os.waitpid(child, 0)
        removed.append(len(os.listdir(aside)) if aside.exists() else 0)
        write_folder(target, _set(SECOND))
        assert _tree(target) == _set(SECOND), at
        assert os.listdir(tmp_path) == ["alcove"]
    assert removed[0] == 3
    assert min(removed) <= 1
