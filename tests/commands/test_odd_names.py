"""Files named as people name them: every command takes them, and what it writes is named after them."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.ordinary import run
from tests.commands.shelf import SPEC

# The longest name that common file systems take is 255 bytes: NAME_MAX of Linux (limits.h).
NAMES = [
    "two words.yaml", "Wände – 2ª.yaml", "-wall.yaml", "it's \"q\" $HOME;`x`.yaml", "wall.v2.yaml", "wall",
    "x" * 250 + ".yaml", "ж" * 125 + ".yaml", "new line\n.yaml", os.fsdecode(b"no \xff text.yaml"),
]  # fmt: skip


@pytest.mark.skipif(sys.platform == "win32", reason="names that Windows does not take")
@pytest.mark.parametrize("name", NAMES, ids=lambda name: ascii(name)[:20])
def test_a_spec_of_any_name_is_drawn_checked_issued_and_compared(tmp_path: Path, name: str) -> None:
    spec = tmp_path / name
    spec.write_text(SPEC, "utf-8")
    stem = Path(name).stem
    printed = stem.encode("utf-8", "replace").decode().replace("?", "\ufffd") if "\udcff" in stem else stem
    for words in (
        ("draw", "--", name),
        ("draw", "--check", "--", name),
        ("revise", "--number", "1", "--", name),
        ("issues", "--verify", "--", name),
    ):
        done = run(*words, at=tmp_path)
        assert done.returncode == 0, (words, done.stderr[-300:])
    assert (tmp_path / "out" / stem / f"{printed}.pdf").is_file()
    issued = tmp_path / "issues" / stem / "1" / f"{printed}.pdf"
    assert issued.is_file()
    done = run("compare", "--", f"issues/{stem}/1", name, at=tmp_path)
    assert "Nothing that is built has changed." in done.stdout, done.stderr[-300:]
    hidden = [p.name for p in tmp_path.rglob(".*")]
    assert hidden == [], "nothing is left beside what was written"


def git(*words: str, at: Path) -> None:
    who = ["-c", "user.name=RV", "-c", "user.email=rv@example.invalid"]
    subprocess.run(["git", *who, *words], cwd=at, check=True, capture_output=True)


def test_in_a_work_tree_beside_the_repository_revisions_are_found(tmp_path: Path) -> None:
    home, beside = tmp_path / "home", tmp_path / "work tree, beside"
    (home / "our specs").mkdir(parents=True)
    spec = home / "our specs" / "hall, old.yaml"
    spec.write_text(SPEC, "utf-8")
    git("init", "-q", at=home)
    git("add", ".", at=home)
    git("commit", "-q", "-m", "first", at=home)
    git("tag", "bid-set", at=home)
    git("worktree", "add", "-q", str(beside), "-b", "change", at=home)
    there = beside / "our specs" / "hall, old.yaml"
    there.write_text(SPEC.replace("count: 1", "count: 2"), "utf-8")
    for named in ("bid-set:our specs/hall, old.yaml", "HEAD:our specs/hall, old.yaml"):
        done = run("compare", named, "our specs/hall, old.yaml", at=beside)
        assert done.returncode == 0, done.stderr
        assert "added" in done.stdout, named
    assert run("revise", "our specs/hall, old.yaml", "--from", "HEAD:our specs/hall, old.yaml",
               "--number", "2", at=beside).returncode == 0  # fmt: skip
    assert not (home / "our specs" / "issues").exists()
