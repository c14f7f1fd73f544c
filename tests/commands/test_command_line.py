"""The commands of revisions as a user gives them: what they print, what they write, their status."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sheets.revisions.keeping.issues import verify
from tests.commands.shelf import SPEC, elevation_sheet

ROOT = Path(__file__).resolve().parents[2]


def command(*words: str | Path) -> list[str]:
    return [sys.executable, "-m", "sheets", *map(str, words)]


def run(*words: str | Path, at: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command(*words),
        cwd=at,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A spec with two issues: the second has a shelf more and no face frame rail as before."""
    folder = tmp_path_factory.mktemp("two issues")
    spec = folder / "hall.yaml"
    spec.write_text(SPEC, "utf-8")
    first = run("revise", spec, "--number", "A", "--by", "RV", "--to", "the shop", at=folder)
    assert first.returncode == 0, first.stderr
    spec.write_text(spec.read_text("utf-8").replace("count: 1", "count: 2"), "utf-8")
    second = run(
        "revise",
        spec,
        "--number",
        "B",
        "--by",
        "RV",
        "--date",
        "2026-02-01",
        "--reason",
        "Atlases",
        at=folder,
    )
    assert second.returncode == 0, second.stderr
    return folder


def test_issues_are_listed_and_verified(home: Path) -> None:
    done = run("issues", "hall.yaml", "--verify", at=home)
    assert done.returncode == 0
    *listed, stands = (line for line in done.stdout.splitlines() if not line.startswith(" "))
    assert [line.split(":")[0] for line in listed] == ["A", "B"]
    assert stands == "hall.yaml: as issued in B"
    assert "to the shop" in done.stdout
    assert "Atlases" in done.stdout
    assert done.stdout.count("   as issued\n") == 2
    target = home / "issues" / "hall" / "A" / "parts.csv"
    kept = target.read_bytes()
    target.write_bytes(kept + b"x")
    done = run("issues", "hall.yaml", "--verify", at=home)
    target.write_bytes(kept)
    assert done.returncode == 1
    assert "parts.csv: altered" in done.stdout


def test_an_issue_holds_the_set_the_manifest_and_the_transmittal(home: Path) -> None:
    import pypdf

    folder = home / "issues" / "hall" / "B"
    assert {p.name for p in folder.iterdir()} >= {"hall.pdf", "hall.dxf", "manifest.json", "transmittal.pdf"}
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(folder / "transmittal.pdf").pages)
    for words in (
        elevation_sheet(folder),
        "ELEVATION",
        "released",
        "Atlases",
        "2026-02-01",
        "listing",
        "added",
        "RECORD OF REVISIONS",
        "First issue",
    ):
        assert words in text, words


def test_the_row_is_in_the_spec_and_the_number_in_the_block(home: Path) -> None:
    text = (home / "hall.yaml").read_text("utf-8")
    assert 'number: "B", date: 2026-02-01, by: RV, reason: Atlases' in text
    assert text.startswith(SPEC.replace("count: 1", "count: 2"))
    folder = home / "issues" / "hall" / "B"
    sheets = json.loads((folder / "manifest.json").read_text("utf-8"))["sheets"]
    assert {s["number"]: s["revision"] for s in sheets}[elevation_sheet(folder)] == "B"


def test_a_number_is_issued_once(home: Path) -> None:
    before = (home / "hall.yaml").read_bytes()
    done = run("revise", "hall.yaml", "--number", "A", at=home)
    assert done.returncode == 2
    assert "never written over" in done.stderr
    assert "Traceback" not in done.stderr
    assert (home / "hall.yaml").read_bytes() == before


def test_compare_in_words_in_json_and_in_pictures(home: Path, tmp_path: Path) -> None:
    old, new = home / "issues" / "hall" / "A", home / "issues" / "hall" / "B" / "hall.pdf"
    done = run(
        "compare", old, new, "--pdf", tmp_path / "c" / "changes.pdf", "--pictures", tmp_path / "c", at=home
    )
    assert done.returncode == 0, done.stderr
    assert "added" in done.stdout
    assert "Shelf" in done.stdout
    names = {p.name for p in (tmp_path / "c").iterdir()}
    assert "changes.pdf" in names
    assert f"hall-{elevation_sheet(home / 'issues' / 'hall' / 'B')}.png" in names
    report = json.loads(run("compare", old, new, "--format", "json", at=home).stdout)
    assert {kind for part in report["parts"] for kind in part["kinds"]} >= {"added", "moved"}
    same = run("compare", new, new, at=home)
    assert "Nothing that is built has changed." in same.stdout


def test_what_is_wrong_has_status_2_and_no_traceback(home: Path, tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("room: {width: -1}\n", "utf-8")
    for words in (
        ("compare", "none.yaml", "hall.yaml"),
        ("compare", "hall.yaml", tmp_path / "bad.yaml"),
        ("compare", "hall.yaml", "hall.yaml", "--format", "xml"),
        ("revise", tmp_path / "bad.yaml", "--number", "1"),
        ("revise", tmp_path / "none.yaml", "--number", "1"),
        ("revise", "hall.yaml", "--number", "C", "--from", "none.pdf"),
    ):
        done = run(*words, at=home)
        assert done.returncode == 2, words
        assert "Traceback" not in done.stderr, words
        assert done.stderr.strip(), words


def test_of_two_runs_at_once_one_issues(tmp_path: Path) -> None:
    spec = tmp_path / "hall.yaml"
    spec.write_text(SPEC, "utf-8")
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    runs = [
        subprocess.Popen(command("revise", spec, "--number", "1"), cwd=tmp_path, env=environment, text=True,
                         stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        for _ in range(2)
    ]  # fmt: skip
    said = [run.communicate()[1] for run in runs]
    assert sorted(run.returncode for run in runs) == [0, 2], said
    assert not any("Traceback" in text for text in said)
    assert spec.read_text("utf-8").count("number:") == 2, "the project's, and one row"
    assert verify(tmp_path / "issues" / "hall" / "1") == ()


def killed(folder: Path, times: int) -> int:
    """Kill `revise` at moments spread over its run, and try again until it is issued; return how many were
    killed."""
    spec = folder / "hall.yaml"
    spec.write_text(SPEC, "utf-8")
    begun = time.perf_counter()
    assert run("revise", spec, "--number", "1", at=folder).returncode == 0
    length, cut = time.perf_counter() - begun, 0
    for k in range(times):
        number = str(k + 2)
        spec.write_text(
            spec.read_text("utf-8").replace(f"count: {k % 2 + 1}", f"count: {(k + 1) % 2 + 1}"), "utf-8"
        )
        with subprocess.Popen(
            command("revise", spec, "--number", number),
            cwd=folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        ) as one:
            time.sleep(length * (0.55 + 0.9 * ((k * 0.618034) % 1.0)))
            one.send_signal(signal.SIGKILL)
            cut += one.wait() == -signal.SIGKILL
        home = folder / "issues" / "hall"
        assert verify(home / str(k + 1)) == (), "the earlier issue stands, whole"
        if (home / number).exists():
            assert verify(home / number) == ()
        else:
            done = run("revise", spec, "--number", number, at=folder)
            assert done.returncode == 0, done.stderr
        assert spec.read_text("utf-8").count("number:") == 2 + k + 1, (
            "the project's number, and a row an issue"
        )
    return cut


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kill -9 is of Unix")
def test_a_revision_killed_in_the_middle_can_be_issued_again(tmp_path: Path) -> None:
    killed(tmp_path, 2)


@pytest.mark.nightly
@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="kill -9 is of Unix")
def test_many_revisions_killed(tmp_path: Path) -> None:
    assert killed(tmp_path, 40) > 10


def test_a_row_that_stands_in_the_spec_is_issued_as_written_and_no_option_is_dropped(tmp_path: Path) -> None:
    spec = tmp_path / "hall.yaml"
    text = SPEC + 'revisions:\n  - {number: "1", date: 2026-01-19, by: JB, reason: width}\n'
    spec.write_text(text, "utf-8")
    for option, words in (("--by", "XX"), ("--reason", "other"), ("--date", "2026-05-05")):
        done = run("revise", spec, "--number", "1", option, words, at=tmp_path)
        assert done.returncode == 2
        assert f"not '{words}'; nothing was issued" in done.stderr
    odd = (("--by", "\x1b"), ("--to", "\x1b]0;x\x07"), ("--reason", "\u202e"), ("--number", "\n"))
    for option, words in odd:
        done = run("revise", spec, *(("--number", "1") * (option != "--number")), option, words, at=tmp_path)
        assert done.returncode == 2
        assert f"{option} holds a character that is no text: U+" in done.stderr
    assert spec.read_text("utf-8") == text
    assert not (tmp_path / "issues").exists()
    assert run("revise", spec, "--number", "1", "--by", "JB", at=tmp_path).returncode == 0
    assert re.sub(r', digest: "[0-9a-f]{12}"', "", spec.read_text("utf-8")) == text
    assert spec.read_text("utf-8") != text
