"""Folders that cannot be written: each command says so, with its status, and leaves all as it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.ordinary import possible, read_only, run
from tests.commands.shelf import SPEC, digests

pytestmark = pytest.mark.skipif(not possible, reason="modes of files do not hold here")


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A spec with its set, and its first issue."""
    folder = tmp_path_factory.mktemp("kept")
    (folder / "hall.yaml").write_text(SPEC, "utf-8")
    assert run("draw", "hall.yaml", at=folder).returncode == 0
    assert run("revise", "hall.yaml", "--number", "1", at=folder).returncode == 0
    # The set is drawn again: it carries the revision now.
    assert run("draw", "hall.yaml", at=folder).returncode == 0
    return folder


def refused(home: Path, *words: str | Path) -> str:
    before = digests(home)
    done = run(*words, at=home)
    assert done.returncode == 2, (words, done.stdout, done.stderr)
    assert "Traceback" not in done.stderr
    assert digests(home) == before
    return done.stderr


def test_a_set_is_not_drawn_into_a_folder_that_is_read_only(home: Path) -> None:
    with read_only(home / "shut"):
        assert "nothing was changed" in refused(home, "draw", "hall.yaml", "-o", "shut")
    with read_only(home / "out"):
        assert "nothing was changed" in refused(home, "draw", "hall.yaml", "--svg")
        assert run("draw", "hall.yaml", at=home).returncode == 0, "a set that stands need not be written"


def test_a_check_needs_no_right_to_write(home: Path) -> None:
    with read_only(home / "out" / "hall", home / "out", home):
        done = run("draw", "hall.yaml", "--check", at=home)
    assert done.returncode == 0, done.stderr
    assert "is what the spec gives" in done.stdout


def test_a_store_that_is_read_only_only_costs_time(home: Path, tmp_path: Path) -> None:
    with read_only(home / "store"):
        done = run("draw", "hall.yaml", "-o", tmp_path, "--cache", "store", at=home)
    assert done.returncode == 0, done.stderr
    assert not list((home / "store").iterdir())


def test_no_issue_goes_into_a_folder_that_is_read_only_and_the_spec_keeps_its_text(home: Path) -> None:
    for shut in (home / "issues" / "hall", home):
        with read_only(shut):
            said = refused(home, "revise", "hall.yaml", "--number", "2")
        assert "nothing was issued" in said or "cannot be changed" in said
        done = run("issues", "hall.yaml", "--verify", at=home)
        assert done.returncode == 0, done.stdout


def test_an_issue_in_folders_that_are_read_only_is_listed_and_verified(home: Path) -> None:
    with read_only(home / "issues" / "hall" / "1", home / "issues" / "hall", home):
        done = run("issues", "hall.yaml", "--verify", at=home)
    assert done.returncode == 0, done.stderr
    assert "as issued" in done.stdout


def test_a_comparison_says_what_it_could_not_write(home: Path) -> None:
    with read_only(home / "shut"):
        said = refused(home, "compare", "hall.yaml", "issues/hall/1", "--pdf", "shut/changes.pdf")
    assert "cannot be written" in said
