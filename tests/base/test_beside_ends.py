"""A run that is ended waits for no process beside it."""

from __future__ import annotations

import os
import subprocess
import sys
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


@pytest.mark.skipif(
    sys.platform != "linux" or len(os.sched_getaffinity(0)) < 2, reason="nothing is done beside a run here"
)
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
