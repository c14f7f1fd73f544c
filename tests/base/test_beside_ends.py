"""A run that is ended waits for no process beside it, and leaves none."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ENDED = 7
# The run has a handler that swallows: what it raises may fall into a callback that lets nothing out.
HEAD = f"""
import signal, sys, time
from sheets.base.beside import beside

def ended(number, frame):
    sys.exit({ENDED})

signal.signal(signal.SIGTERM, lambda number, frame: None)
signal.signal(signal.SIGALRM, ended)
signal.setitimer(signal.ITIMER_REAL, 1.0)
"""


two_cores = pytest.mark.skipif(
    sys.platform != "linux" or len(os.sched_getaffinity(0)) < 2, reason="nothing is done beside a run here"
)


@two_cores
@pytest.mark.parametrize(
    "body",
    ["beside(lambda: time.sleep(90))()", "take = beside(lambda: bytes(10_000_000)); time.sleep(90)"],
    ids=["at work, and waited for", "with a result that nobody takes"],
)
def test_an_ended_run_waits_for_nothing_beside_it(body: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", f"{HEAD}{body}\n"],
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    assert done.returncode == ENDED, done.stderr
    assert "Traceback" not in done.stderr


@two_cores
def test_a_killed_run_leaves_no_process() -> None:
    body = """
import os, time
from sheets.base.beside import beside

takes = [beside(lambda: (os.write(1, b"%d\\n" % os.getpid()), bytes(10_000_000))) for _ in range(3)]
time.sleep(90)
"""
    run = subprocess.Popen(
        [sys.executable, "-c", body], env={**os.environ, "PYTHONPATH": str(ROOT)}, stdout=subprocess.PIPE,
        text=True,
    )  # fmt: skip
    assert run.stdout is not None
    with run.stdout:
        others = [int(run.stdout.readline()) for _ in range(3)]
        run.send_signal(signal.SIGKILL)
        run.wait()
    until = time.monotonic() + 30
    while any(map(at_work, others)) and time.monotonic() < until:
        time.sleep(0.05)
    left = [number for number in others if at_work(number)]
    for number in left:
        os.kill(number, signal.SIGKILL)
    assert not left, "what was beside it waits for ever"


def at_work(number: int) -> bool:
    """Whether a process is there, and not only its name until somebody asks for its end."""
    try:
        state = Path(f"/proc/{number}/stat").read_text("utf-8").rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"
