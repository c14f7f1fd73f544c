"""The hooks, run by the real `pre-commit` in a repository of their own. Skipped where it is not installed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest
import yaml

from sheets.commands.drawing import Job, draw_one
from tests.commands.shelf import SPEC
from tests.house.test_workflow_runs import git

ROOT = Path(__file__).resolve().parents[2]
FOUND = shutil.which("pre-commit") or ""
RUNNER = [sys.executable, "-m", "pre_commit"] if find_spec("pre_commit") else [FOUND]

pytestmark = pytest.mark.skipif(
    os.name != "posix" or not RUNNER[-1], reason="pre-commit is not installed, or no shell to run hooks in"
)


class Keeper:
    """A repository of two specs and a title block of its own, with their sheets committed.

    Its hooks are ours but for the language: installing the program from a network is not what is tested.
    """

    def __init__(self, home: Path) -> None:
        self.home = home
        tools = home.with_name("tools")
        tools.mkdir()
        program = tools / "shopset"
        program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m sheets "$@"\n', "utf-8")
        program.chmod(0o755)
        self.environment = {
            **os.environ, "PYTHONPATH": str(ROOT), "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}",
            "PRE_COMMIT_HOME": str(home.with_name("kept")),
        }  # fmt: skip
        hooks = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
        local = [{**hook, "language": "system"} for hook in hooks]
        config = {"repos": [{"repo": "local", "hooks": local}]}
        (home / ".pre-commit-config.yaml").write_text(yaml.safe_dump(config), "utf-8")
        (home / ".gitignore").write_text("/.drawn/\n", "utf-8")

    def hook(self, name: str) -> subprocess.CompletedProcess[str]:
        """What a hook says of what is staged."""
        git("add", ".", at=self.home)
        return subprocess.run(
            [*RUNNER, "run", name], cwd=self.home, env=self.environment, capture_output=True, text=True,
            check=False,
        )  # fmt: skip


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    home = tmp_path_factory.mktemp("keeper") / "repository"
    (home / "specs").mkdir(parents=True)
    found = Keeper(home)
    block = (ROOT / "titleblocks" / "shop-small.yaml").read_text("utf-8")
    (home / "specs" / "mine.yaml").write_text(block, "utf-8")
    for name in ("hall", "den"):
        spec = home / "specs" / f"{name}.yaml"
        spec.write_text(SPEC.replace("Hall", name).replace("shop-small", "mine.yaml"), "utf-8")
        assert draw_one(Job(spec, home / "sheets", store=home / ".drawn")).sheets
    git("init", "-q", at=home)
    git("add", ".", at=home)
    git("commit", "-q", "-m", "first", at=home)
    return found


def test_a_title_block_among_the_specs_passes_and_is_told(keeper: Keeper) -> None:
    done = keeper.hook("shopset-sheets")
    assert done.returncode == 0, done.stdout
    block = keeper.home / "specs" / "mine.yaml"
    kept = block.read_text("utf-8")
    block.write_text(kept + "# a word\n", "utf-8")
    done = keeper.hook("shopset-check")  # which is given the title block and nothing else
    assert done.returncode == 0, done.stdout
    block.write_text(kept.replace("label: DATE", "label: DAY"), "utf-8")
    done = keeper.hook("shopset-sheets")
    block.write_text(kept, "utf-8")
    assert done.returncode == 1
    assert "specs/mine.yaml: is a title block, no spec; it is skipped" in done.stdout
    assert "specs/hall.yaml: sheet Z-001" in done.stdout
    assert "2 specs: 2 differ, 0 as drawn, 0 failed" in done.stdout


def test_a_deleted_spec_leaves_a_set_that_is_named(keeper: Keeper) -> None:
    spec = keeper.home / "specs" / "den.yaml"
    kept = spec.read_bytes()
    spec.unlink()
    done = keeper.hook("shopset-sheets")
    spec.write_bytes(kept)
    assert done.returncode == 1
    assert "sheets/den: was drawn from den.yaml, and there is no such spec in specs" in done.stdout


def test_a_wrong_spec_is_told_with_its_place(keeper: Keeper) -> None:
    spec = keeper.home / "specs" / "den.yaml"
    kept = spec.read_text("utf-8")
    spec.write_text(kept.replace("height: 60", "heigth: 60"), "utf-8")
    done = keeper.hook("shopset-check")
    spec.write_text(kept, "utf-8")
    assert done.returncode == 1
    assert "specs/den.yaml:18:5: error" in done.stdout
