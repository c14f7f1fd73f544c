"""How a run ends, whatever ends it: one line, the right status, no control characters to a terminal."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sheets.grammar.starter import starter_spec

ROOT = Path(__file__).resolve().parents[1]
PROGRAM = [sys.executable, "-m", "sheets"]
WITH = {**os.environ, "PYTHONPATH": str(ROOT)}
SHELL = " ".join(PROGRAM)


def heeding_signals() -> None:
    """As a terminal starts a program: a test run that ignores hangups (`nohup`, CI) would hand that on."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        signal.signal(getattr(signal, name), signal.SIG_DFL)


def shell(words: str, at: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(words, shell=True, cwd=at, env=WITH, capture_output=True, text=True, check=False)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    (tmp_path / "alcove.yaml").write_text(starter_spec())
    return tmp_path


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux")
def test_output_on_a_full_disk_is_told_with_status_2(home: Path) -> None:
    done = shell(f"{SHELL} new other.yaml > /dev/full", home)
    assert done.returncode == 2
    assert done.stderr == "error: what was to be said cannot be written: No space left on device\n"
    done = shell(f"{SHELL} check alcove.yaml > /dev/full 2> /dev/full", home)
    assert done.returncode == 2


def test_closed_streams_are_no_fault(home: Path) -> None:
    assert shell(f"{SHELL} new first.yaml >&- 2>&- <&-", home).returncode == 0
    assert shell(f"{SHELL} new second.yaml >&-", home).returncode == 0
    assert shell(f"{SHELL} new second.yaml >&- 2>&- <&-", home).returncode == 2
    assert (home / "first.yaml").exists()
    assert (home / "second.yaml").exists()


def test_when_nobody_reads_on_it_ends_quietly(home: Path) -> None:
    done = shell(f"({SHELL} schedule --columns; echo $? >&3) 3>status | true", home)
    assert "Traceback" not in done.stderr
    assert (home / "status").read_text().strip() in ("0", "141")  # 0 if all was said before the reader went


def wait_until_it_heeds_signals(process: int) -> None:
    """Before that the interpreter itself is being loaded, and none of the program has run."""
    while True:
        status = Path(f"/proc/{process}/status").read_text()
        caught = int(next(line for line in status.splitlines() if line.startswith("SigCgt")).split()[1], 16)
        if caught >> (signal.SIGTERM - 1) & 1:
            return
        assert "State:\tZ" not in status, "it ended before it began"
        time.sleep(0.005)


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="as Linux tells what a process catches")
@pytest.mark.parametrize(
    ("name", "says"),
    [("SIGINT", "interrupted"), ("SIGTERM", "ended from outside"), ("SIGHUP", "ended from outside")],
)
def test_a_signal_ends_the_run_with_one_line(home: Path, name: str, says: str) -> None:
    number = getattr(signal, name)
    for after in (0, 0.1, 1.5):  # while it loads, and while it draws
        with subprocess.Popen(
            [*PROGRAM, "draw", "alcove.yaml"], cwd=home, env=WITH, stderr=subprocess.PIPE,
            stdout=subprocess.DEVNULL, text=True, preexec_fn=heeding_signals,
        ) as run:  # fmt: skip
            wait_until_it_heeds_signals(run.pid)
            time.sleep(after)
            run.send_signal(number)
            said = run.communicate(timeout=60)[1]
        assert run.returncode == 128 + number, said
        assert said == f"error: {says}\n"
    assert [p.name for p in home.rglob(".*")] == []


@pytest.mark.skipif(sys.platform == "win32", reason="signals of Unix")
def test_workers_end_without_a_word_of_their_own(home: Path) -> None:
    (home / "other.yaml").write_text(starter_spec())
    with subprocess.Popen(
        [*PROGRAM, "draw", "-j", "2", "alcove.yaml", "other.yaml"], cwd=home, env=WITH, text=True,
        stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, start_new_session=True, preexec_fn=heeding_signals,
    ) as run:  # fmt: skip
        time.sleep(2)
        os.killpg(run.pid, signal.SIGINT)  # as a terminal does: to all of them
        said = run.communicate(timeout=60)[1]
    assert run.returncode == 130, said
    assert said == "error: interrupted\n"


def test_control_characters_do_not_reach_the_terminal(home: Path) -> None:
    name = "a\x1b]0;title\x07\u202eb.yaml"
    done = subprocess.run(
        [*PROGRAM, "compare", name, "alcove.yaml"],
        cwd=home, env=WITH, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 2
    assert "\\u001b]0;title\\u0007\\u202eb.yaml" in done.stderr
    assert "\x1b" not in done.stderr
