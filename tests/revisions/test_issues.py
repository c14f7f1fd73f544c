"""The record of issues: whole or not there, never written over, and telling when it was altered."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sheets.revisions.keeping.issues import (
    HASHES,
    IssueError,
    issue_folder,
    issues_folder,
    issues_of,
    publish,
    record_for,
    verify,
)
from sheets.revisions.keeping.record import NAME, Record, RecordError, from_json, to_json
from tests.revisions.issuing import files

ROOT = Path(__file__).resolve().parents[2]
SIZE = 40_000


def test_what_is_published_is_there_and_as_issued(tmp_path: Path) -> None:
    publish(tmp_path / "1", files("1", 10))
    assert {p.name for p in (tmp_path / "1").iterdir()} == {*files("1", 10), HASHES}
    assert verify(tmp_path / "1") == ()
    assert [p.name for p in tmp_path.iterdir()] == ["1"], "nothing is left beside it"


def test_an_issue_is_never_written_over(tmp_path: Path) -> None:
    publish(tmp_path / "1", files("1", 10))
    with pytest.raises(IssueError, match="never written over"):
        publish(tmp_path / "1", files("2", 10))
    assert (tmp_path / "1" / "sheet 0.pdf").read_bytes() == files("1", 10)["sheet 0.pdf"]


@pytest.mark.parametrize(
    ("do", "how"),
    [
        (lambda folder: (folder / "sheet 2.pdf").write_bytes(b"x"), ("sheet 2.pdf", "altered")),
        (lambda folder: (folder / "sheet 2.pdf").unlink(), ("sheet 2.pdf", "missing")),
        (lambda folder: (folder / "extra.txt").write_text("x"), ("extra.txt", "added")),
    ],
)
def test_verifying_tells_what_was_altered(tmp_path: Path, do, how) -> None:
    publish(tmp_path / "1", files("1", 10))
    do(tmp_path / "1")
    assert [(one.name, one.how) for one in verify(tmp_path / "1")] == [how]


def test_a_file_changed_by_one_bit_is_told(tmp_path: Path) -> None:
    publish(tmp_path / "1", files("1", 10))
    target = tmp_path / "1" / "sheet 5.pdf"
    data = bytearray(target.read_bytes())
    data[3] ^= 1
    target.write_bytes(bytes(data))
    assert [one.name for one in verify(tmp_path / "1")] == ["sheet 5.pdf"]


def whole(folder: Path, number: str) -> bool:
    return verify(folder) == () and all(
        (folder / n).read_bytes() == c for n, c in files(number, SIZE).items()
    )


def killed_at_random(tmp_path: Path, times: int) -> tuple[int, int]:
    """Kill an issuing run at moments spread over its length; return how many ended with and without the
    issue."""
    publish(tmp_path / "1", files("1", SIZE))
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    begun = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "tests.revisions.issuing", str(tmp_path), "trial", str(SIZE)],
        cwd=ROOT,
        env=environment,
        check=True,
        capture_output=True,
    )
    length = time.perf_counter() - begun
    there = 0
    for k in range(times):
        number = str(k + 2)
        with subprocess.Popen(
            [sys.executable, "-m", "tests.revisions.issuing", str(tmp_path), number, str(SIZE)],
            cwd=ROOT,
            env=environment,
            stdout=subprocess.PIPE,
        ) as run:
            assert run.stdout is not None
            run.stdout.readline()
            # Denser where the writing happens than a spread over the whole length would be.
            time.sleep(length * 0.5 * ((k * 0.618034) % 1.0) ** 2)
            run.send_signal(signal.SIGKILL)
        assert whole(tmp_path / "1", "1"), "the earlier issue stands"
        if (tmp_path / number).exists():
            there += 1
            assert whole(tmp_path / number, number), "an issue that is there is whole"
        else:
            publish(
                tmp_path / number, files(number, SIZE)
            )  # what the killed run left does not stand in the way
    left = [p.name for p in tmp_path.iterdir() if p.name.startswith(".")]
    publish(tmp_path / "last", files("last", SIZE))
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == [], left
    return there, times - there


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kill -9 is of Unix")
def test_a_run_killed_at_any_moment_leaves_the_issue_whole_or_absent(tmp_path: Path) -> None:
    killed_at_random(tmp_path, 8)


@pytest.mark.nightly
@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kill -9 is of Unix")
def test_two_hundred_runs_killed(tmp_path: Path) -> None:
    there, absent = killed_at_random(tmp_path, 200)
    assert there > 5, "some were killed too late to matter"
    assert absent > 5, "some were killed in time"


def test_of_two_runs_at_once_one_issues_and_the_other_says_so(tmp_path: Path) -> None:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "tests.revisions.issuing", str(tmp_path), "1", str(SIZE)]
    runs = [
        subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        for _ in range(3)
    ]
    ends = [run.communicate() for run in runs]
    assert sorted(run.returncode for run in runs) == [0, 1, 1]
    assert all(b"IssueError" in said for run, (_, said) in zip(runs, ends, strict=True) if run.returncode)
    assert whole(tmp_path / "1", "1")


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "issues").write_text("a file")
    with pytest.raises(IssueError):
        publish(tmp_path / "issues" / "1", files("1", 10))


@pytest.mark.parametrize("number", ["1", "B", "2.1", "1/2", "..", "a b", "Ä", ".hidden", "x" * 300, "CON:"])
def test_any_number_has_a_folder_of_its_own_inside(tmp_path: Path, number: str) -> None:
    spec = tmp_path / "odd name, really.yaml"
    folder = issue_folder(spec, number)
    assert folder.parent == issues_folder(spec)
    assert not folder.name.startswith(".")
    assert len(folder.name) < 200
    publish(folder, {NAME: to_json(Record(number, "2026-01-02", "RV", "x"))})
    assert record_for(spec, number)[0] == Record(number, "2026-01-02", "RV", "x")
    assert len({issue_folder(spec, n) for n in ("1/2", "1-2", "1:2", "1 2")}) == 4


def test_issues_are_listed_the_earliest_first(tmp_path: Path) -> None:
    spec = tmp_path / "wall.yaml"
    for number, earlier in (("10", "9"), ("9", "1"), ("1", ""), ("11", "10")):
        record = Record(number, "2026-01-02", "RV", "x", earlier=earlier)
        publish(issue_folder(spec, number), {NAME: to_json(record)})
    assert [issue.number for issue in issues_of(spec)] == ["1", "9", "10", "11"]


def test_a_record_that_cannot_be_read_is_an_error_with_its_reason(tmp_path: Path) -> None:
    spec = tmp_path / "wall.yaml"
    publish(issue_folder(spec, "1"), {NAME: b"{}"})
    record, found = record_for(spec, "1")
    assert record is None
    assert [d.code for d in found] == ["issue-unreadable"]
    for data in (b"", b"[]", b"null", b'{"program": "shopset"}', b"\xff"):
        with pytest.raises(RecordError):
            from_json(data)
