"""Specs changed in one value, and where in their text a value stands: by PyYAML's marks, not our reader's."""

from __future__ import annotations

from pathlib import Path

import yaml

EDGES = Path(__file__).parent / "edges"


def base(name: str) -> str:
    """The text of a wall in `edges/`, one fact a line."""
    return (EDGES / f"{name}.yaml").read_text(encoding="utf-8")


def changed(text: str, changes: dict[str, str]) -> str:
    """The text with the value at each dotted path written anew; `-` leaves the key out with all under it."""
    for path, value in changes.items():
        key, node = _nodes(text, path)
        lines = text.splitlines(keepends=True)
        if value == "-":
            del lines[key.start_mark.line : max(node.end_mark.line, key.start_mark.line + 1)]
            text = "".join(lines)
        elif "\n" in value or isinstance(node, yaml.ScalarNode) or node.flow_style:
            text = text[: node.start_mark.index] + value + text[node.end_mark.index :]
        else:
            raise AssertionError(f"{path} is written over several lines: change what is under it")
    return text


def place(text: str, path: str) -> tuple[int, int]:
    """Line and column, from 1, of what a user changes at a dotted path: a value, or the key of what has
    keys of its own.
    """
    key, node = _nodes(text, path)
    mark = node.start_mark if isinstance(node, yaml.ScalarNode) else key.start_mark
    return mark.line + 1, mark.column + 1


def _nodes(text: str, path: str) -> tuple[yaml.Node, yaml.Node]:
    node = yaml.compose(text, Loader=yaml.SafeLoader)
    key = node
    for step in path.split("."):
        if isinstance(node, yaml.SequenceNode):
            key = node = node.value[int(step)]
            continue
        assert isinstance(node, yaml.MappingNode), path
        found = [(k, v) for k, v in node.value if k.value == step]
        assert found, f"{path}: there is no {step}"
        key, node = found[0]
    return key, node
