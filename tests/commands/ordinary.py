"""The program run as an ordinary user has it, who cannot write where that is forbidden: root or not."""

from __future__ import annotations

import ctypes
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
_DROP = 24  # PR_CAPBSET_DROP (prctl(2), linux/prctl.h)
_OVERRIDES = (1, 2)  # CAP_DAC_OVERRIDE and CAP_DAC_READ_SEARCH (capabilities(7)): root's passing of modes

possible = os.name == "posix" and (os.geteuid() != 0 or sys.platform == "linux")
"""Whether modes of files hold for a run here, or can be made to."""


def _give_up_overrides() -> None:
    if os.geteuid() == 0:
        system = ctypes.CDLL(None, use_errno=True)
        for capability in _OVERRIDES:
            if system.prctl(_DROP, capability, 0, 0, 0) != 0:
                raise OSError(ctypes.get_errno(), "root's rights cannot be given up")


def run(*words: str | Path, at: Path) -> subprocess.CompletedProcess[str]:
    """Run the program in a folder."""
    return subprocess.run(
        [sys.executable, "-m", "sheets", *map(str, words)], cwd=at, capture_output=True, text=True,
        check=False, env={**os.environ, "PYTHONPATH": str(ROOT)}, preexec_fn=_give_up_overrides,
    )  # fmt: skip


@contextmanager
def read_only(*folders: Path) -> Iterator[None]:
    """Forbid writing in folders for a while."""
    for folder in folders:
        folder.mkdir(parents=True, exist_ok=True)
        folder.chmod(0o500)
    try:
        yield
    finally:
        for folder in folders:
            folder.chmod(0o700)
