"""The shape of the code: modules small enough to hold in the head, each stage with its door."""

from __future__ import annotations

import ast
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MOST_LINES = 450
DRAWERS = {"utils", "util", "helpers", "misc", "common", "manager", "tools"}
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "LICENSE",
    "pyproject.toml",
    "sheets",
    "titleblocks",
    "tests",
    "specs",
}
LEFT_BY_TOOLS = {"out", "build", "dist", "shopset.egg-info", "__pycache__"}


def test_modules_are_small() -> None:
    sizes = {path: len(path.read_text("utf-8").splitlines()) for path in (ROOT / "sheets").rglob("*.py")}
    assert len(sizes) > 30
    long = {str(path.relative_to(ROOT)): size for path, size in sizes.items() if size > MOST_LINES}
    assert not long, long


def test_no_drawer_of_odds_and_ends() -> None:
    assert not [str(path) for path in (ROOT / "sheets").rglob("*.py") if path.stem in DRAWERS]


def test_each_module_says_what_it_is_for() -> None:
    silent = [
        str(path.relative_to(ROOT))
        for path in sorted((ROOT / "sheets").rglob("*.py"))
        if not ast.get_docstring(ast.parse(path.read_text("utf-8")))
    ]
    assert not silent, silent


def test_top_level_is_as_agreed() -> None:
    extra = [
        path.name
        for path in ROOT.iterdir()
        if not path.name.startswith(".") and path.name not in TOP_LEVEL | LEFT_BY_TOOLS
    ]
    assert not extra, extra
