"""Whatever ends `revise`: the row and the issue are there, or neither; the next run puts right and tells."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from sheets.commands import revising
from sheets.commands.history import ReviseError, void_issue
from sheets.revisions.keeping.issues import issue_folder, issues_folder, put_right, verify
from sheets.revisions.keeping.record import NAME, Record, to_json

BEFORE = "a: 1\n"
AFTER = "a: 1\nrevisions:\n  - {number: B}\n"
FILES = {"sheet 1.pdf": b"one", "sheet 2.pdf": b"two", NAME: to_json(Record("B", "2026-01-02", "RV", "x"))}
CHANGES = frozenset(["open", "os.rename", "os.mkdir", "os.remove", "os.rmdir", "os.chmod", "os.listdir"])


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda handle: None)  # no power cut is tried here


def _stopped(home: Path, at: int, how: str, do: Callable[[Path], object]) -> int | None:
    """Do it to the spec in a process stopped just before its `at`-th look at the disk; its status, None if it
    looks less often."""
    child = os.fork()
    if child:
        code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        return None if code == 77 else code
    count = 0

    def hook(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal count
        if event in CHANGES and any(str(home) in str(one) for one in arguments):
            count += 1
            if count == at and how == "kill":
                os.kill(os.getpid(), signal.SIGKILL)
            elif count == at:
                raise KeyboardInterrupt if how == "interrupt" else OSError(28, "No space left on device")

    status = 99
    try:
        sys.addaudithook(hook)
        do(home / "wall.yaml")
        status = 77 if count < at else 0
    except KeyboardInterrupt:
        status = 130
    except ReviseError:
        status = 2
    finally:
        os._exit(status)


def _issue(spec: Path) -> None:
    revising._issue(spec, spec.read_text(), AFTER, issue_folder(spec, "B"), FILES)


def _hidden(home: Path) -> list[str]:
    return [p.name for p in home.rglob(".*")]


@pytest.mark.parametrize("how", ["kill", "interrupt", "full"])
@pytest.mark.parametrize("row", ["new row", "row of the author's"])
def test_stopped_anywhere_the_row_and_the_issue_are_there_or_neither(
    tmp_path: Path, how: str, row: str
) -> None:
    """Every look at and change of the disk in turn, by the interpreter's own audit events."""
    seen = set()
    for at in range(1, 200):
        home = tmp_path / str(at)
        home.mkdir()
        spec = home / "wall.yaml"
        before = BEFORE if row == "new row" else AFTER
        spec.write_text(before)
        status = _stopped(home, at, how, _issue)
        if status is None:
            assert seen == {True, False}, "some were stopped before the issue stood, some after"
            assert at > 10
            return
        told = put_right(spec) if how == "kill" else ()
        folder = issue_folder(spec, "B")
        seen.add(folder.is_dir())
        if folder.is_dir():
            assert verify(folder) == ()
            assert spec.read_text() == AFTER
        else:
            assert spec.read_text() == before
        assert _hidden(home) == [] or how == "interrupt", (at, told)
        put_right(spec)  # an interrupt of the clearing away itself leaves that to the next run
        assert _hidden(home) == [], at
        assert folder.is_dir() == (spec.read_text() == AFTER) or row != "new row"
        if not folder.is_dir():
            revising._issue(spec, before, AFTER, folder, FILES)
        assert verify(folder) == ()
        assert spec.read_text() == AFTER
    pytest.fail("it never came to an end")


def test_what_is_put_right_is_told_in_one_line(tmp_path: Path) -> None:
    spec = tmp_path / "wall.yaml"
    spec.write_text(BEFORE)
    home = issues_folder(spec)
    assert put_right(spec) == ()
    (home / ".B.aside-0123456789abcdef").mkdir(parents=True)
    (tmp_path / ".wall.yaml.aside-x1").write_text("half")
    first, second = put_right(spec)
    assert "the spec is whole" in first
    assert "before revision B was issued" in second
    assert _hidden(tmp_path) == []
    assert put_right(spec) == ()


@pytest.mark.parametrize("how", ["kill", "interrupt", "full"])
def test_stopped_anywhere_an_issue_is_void_or_is_not(tmp_path: Path, how: str) -> None:
    issued = AFTER.replace("B}", 'B, digest: "0123456789ab"}')
    seen = set()
    for at in range(1, 100):
        home = tmp_path / str(at)
        home.mkdir()
        spec = home / "wall.yaml"
        spec.write_text(issued)
        status = _stopped(home, at, how, lambda spec: void_issue(spec, "B", "wrong"))
        if status is None:
            assert seen == {True, False}
            return
        text = spec.read_text()
        seen.add("void: {reason: wrong" in text)
        assert text == issued or "void: {reason: wrong" in text
        put_right(spec)
        assert _hidden(home) == []
    pytest.fail("it never came to an end")
