"""The README's commands are the ones that CI runs, and its pictures are there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def test_ci_runs_the_readmes_commands_as_they_stand() -> None:
    commands = [line for line in README.splitlines() if line.startswith("python3 -m venv")]
    assert len(commands) == 2
    script = (ROOT / ".ci" / "run").read_text("utf-8").splitlines()
    assert [command for command in commands if command not in script] == []
    assert any("pytest" in command for command in commands)
    assert any("shopset draw specs/*.yaml" in command for command in commands)


def test_pictures_of_real_sheets_are_in_the_repository() -> None:
    pictures = re.findall(r"!\[[^\]]*\]\(([^)]+)\)", README)
    assert len(pictures) >= 4
    assert not [picture for picture in pictures if not (ROOT / picture).is_file()]
