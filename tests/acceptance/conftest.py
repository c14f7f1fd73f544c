"""The example specs, drawn once by the program itself, for every promise that is tested here."""

from __future__ import annotations

import fcntl
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "specs").glob("*.yaml"))
HERE = Path(__file__).parent
SPECS = [*EXAMPLES, *sorted((HERE / "specs").glob("*.yaml"))]


def run(
    *args: str | Path, cwd: Path | None = None, env: dict[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """The program as a user starts it."""
    command = [sys.executable, "-m", "sheets", *map(str, args)]
    return subprocess.run(
        command, capture_output=True, text=True, cwd=cwd or ROOT, env=env, timeout=300, check=False
    )


@pytest.fixture(scope="session")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that holds one folder a spec."""
    if "PYTEST_XDIST_WORKER" not in os.environ:
        return _drawn_in(tmp_path_factory.mktemp("drawn"))
    # The workers of one run share a folder: the first that comes draws, the others wait for it.
    shared = tmp_path_factory.getbasetemp().parent
    with open(shared / "drawn.lock", "w", encoding="utf-8") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        out, ready = shared / "drawn", shared / "drawn.ready"
        if not ready.exists():
            _drawn_in(out)
            ready.touch()
        return out


def _drawn_in(out: Path) -> Path:
    done = run("draw", *SPECS, "-o", out)
    assert done.returncode == 0, done.stdout + done.stderr
    return out


@pytest.fixture(params=SPECS, ids=lambda path: path.stem)
def spec(request: pytest.FixtureRequest) -> Path:
    return request.param
