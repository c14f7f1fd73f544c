"""Workflows and hooks: what they run is what the program has."""

from __future__ import annotations

import re
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
WORKFLOWS = sorted((ROOT / ".github" / "workflows").glob("*.yml"))


def scripts() -> list[str]:
    found = []
    for path in WORKFLOWS:
        for job in yaml.safe_load(path.read_text("utf-8"))["jobs"].values():
            found += [step["run"] for step in job["steps"] if "run" in step]
    return found


def options_of(name: str) -> set[str]:
    from typer.main import get_command

    from sheets.cli import app

    commands = get_command(app).commands  # type: ignore[attr-defined]
    assert name in commands, name
    return {
        option
        for parameter in commands[name].params
        for option in (*parameter.opts, *parameter.secondary_opts)
    }


def called(text: str) -> list[tuple[str, set[str]]]:
    """The program's commands in a script, each with its options."""
    joined = text.replace("\\\n", " ")
    found = []
    for line in re.findall(r"shopset (\w+)([^|\n]*)", joined):
        found.append((line[0], set(re.findall(r"(?<!\S)(--?[a-z]+)", line[1]))))
    return found


def test_workflows_use_commands_and_options_that_there_are() -> None:
    seen = [call for script in scripts() for call in called(script)]
    assert {name for name, _ in seen} >= {"draw", "changes"}
    assert any({"--check", "--cache", "-j"} <= options for _, options in seen)
    for name, options in seen:
        assert options <= options_of(name), name


def test_hooks_use_commands_and_options_that_there_are() -> None:
    hooks = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
    assert len(hooks) >= 2
    for hook in hooks:
        assert {"id", "name", "entry", "language"} <= hook.keys()
        assert "types" in hook or (hook["always_run"] and not hook["pass_filenames"])
        ((name, options),) = called(hook["entry"])
        assert options <= options_of(name)
