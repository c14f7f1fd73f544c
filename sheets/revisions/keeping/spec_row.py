"""Writing a revision row into the text of a spec as a careful editor would: comments and layout stay as
they are.

The text is changed at one place only; read back, it says what it said before, and one row more.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import yaml

from sheets.model.wall import Revision, Void

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 ._/+-]*[A-Za-z0-9.]|[A-Za-z]")
_PLAIN_DATE = re.compile(r"\d{4}-\d\d-\d\d")
_UNSAFE_WORDS = frozenset(("null", "true", "false", "yes", "no", "on", "off", "y", "n"))
_FIELDS = ("number", "date", "by", "reason", "digest", "void")


class RowError(ValueError):
    """The row cannot be written; the message says why. The text is as it was."""


@dataclass(frozen=True, slots=True)
class _Edit:
    start: int  # offsets into the text
    end: int
    insert: str


def rows_of(text: str) -> tuple[Revision, ...]:
    """Return the rows that the text of a spec has, as they are written. Raises RowError if it is no spec."""
    rows = next((v for k, v in _composed(text).value if k.value == "revisions"), None)
    items = rows.value if isinstance(rows, yaml.SequenceNode) else []
    return tuple(_row_of(item) for item in items if isinstance(item, yaml.MappingNode))


def _row_of(item: yaml.MappingNode) -> Revision:
    # The spec may not have been read yet: nothing is followed deeper than a row goes.
    said = _scalars(item)
    void = next((v for k, v in item.value if k.value == "void" and isinstance(v, yaml.MappingNode)), None)
    number, date, by, reason, digest = (
        said.get(name, "") for name in ("number", "date", "by", "reason", "digest")
    )
    return Revision(
        number, date, by, reason, digest, None if void is None else Void(_scalars(void).get("reason", ""))
    )


def _scalars(node: yaml.MappingNode) -> dict[str, str]:
    return {key.value: value.value for key, value in node.value if isinstance(value, yaml.ScalarNode)}


def with_row(text: str, row: Revision) -> str:
    """Return the text of a spec with the row added after the last of `revisions`.

    Raises RowError if a row of that number is there, or if the text is laid out in a way that this cannot
    follow.
    """
    newline = "\r\n" if "\r\n" in text else "\n"
    root = _composed(text)
    entry = next(((k, v) for k, v in root.value if k.value == "revisions"), None)
    if entry is None:
        edit = _at_the_end(text, root, row, newline)
    else:
        key, value = entry
        if not isinstance(value, yaml.SequenceNode):
            raise RowError("`revisions` in the spec is not a list")
        if row.number in _numbers(value):
            raise RowError(f"the spec has a revision {row.number} already")
        edit = _into(text, key, value, row, newline)
    found = text[: edit.start] + edit.insert + text[edit.end :]
    if _plain(_composed(found)) != _with_plain_row(_plain(root), row):
        raise RowError("the row cannot be added to `revisions` without touching the rest; add it by hand")
    return found


def with_more(text: str, row: Revision) -> str:
    """Return the text of a spec with what a row has to say that the row of its number does not: a digest,
    that it is void. Raises RowError if there is no such row, or as `with_row` does."""
    newline = "\r\n" if "\r\n" in text else "\n"
    root = _composed(text)
    rows = next((v for k, v in root.value if k.value == "revisions"), None)
    items = rows.value if isinstance(rows, yaml.SequenceNode) else []
    at = next((k for k, item in enumerate(items) if row.number in _numbers_of(item)), None)
    if at is None:
        raise RowError(f"the spec has no revision {row.number}")
    item = items[at]
    assert isinstance(item, yaml.MappingNode)
    written = {key.value for key, _ in item.value}
    more = [(name, words) for name, words in _fields(row) if name not in written]
    if not more:
        return text
    said = [f"{name}: {words}" for name, words in more]
    if item.flow_style:
        end = item.value[-1][1].end_mark.index
        edit = _Edit(end, end, "".join(f", {each}" for each in said))
    else:
        end = _end_of_line(text, _last_leaf_end(text, item))
        lead = newline + " " * item.start_mark.column
        edit = _Edit(end, end, "".join(lead + each for each in said))
    found = text[: edit.start] + edit.insert + text[edit.end :]
    wanted = _plain(root)
    assert isinstance(wanted, dict)
    wanted["revisions"][at] |= {name: _plain_field(row, name) for name, _ in more}
    if _plain(_composed(found)) != wanted:
        raise RowError(f"revision {row.number} cannot be changed without touching the rest; do it by hand")
    return found


def _composed(text: str) -> yaml.MappingNode:
    try:
        root = yaml.compose(text, Loader=yaml.BaseLoader)
    except (yaml.YAMLError, RecursionError) as error:
        raise RowError(f"the spec is not YAML: {error}") from error
    if not isinstance(root, yaml.MappingNode):
        raise RowError("the spec is not a mapping of keys")
    return root


def _plain(node: yaml.Node) -> object:
    if isinstance(node, yaml.MappingNode):
        return {key.value: _plain(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_plain(item) for item in node.value]
    return node.value


def _with_plain_row(tree: object, row: Revision) -> object:
    assert isinstance(tree, dict)
    given = {name: _plain_field(row, name) for name in _FIELDS if getattr(row, name)}
    return {**tree, "revisions": [*tree.get("revisions", []), given]}


def _plain_field(row: Revision, name: str) -> object:
    value = getattr(row, name)
    if not isinstance(value, Void):
        return value
    said = {"reason": value.reason, "sheets": list(value.sheets), "after": value.after}
    return {name: words for name, words in said.items() if words}


def _numbers(value: yaml.SequenceNode) -> set[str]:
    return {number for item in value.value for number in _numbers_of(item)}


def _numbers_of(item: yaml.Node) -> set[str]:
    if not isinstance(item, yaml.MappingNode):
        return set()
    return {inner.value for key, inner in item.value if key.value == "number"}


def _into(text: str, key: yaml.Node, value: yaml.SequenceNode, row: Revision, newline: str) -> _Edit:
    if not value.value:
        return _in_place_of_nothing(text, key, value, row, newline)
    last = value.value[-1]
    if value.flow_style:
        # Between the items of a list in brackets: after a comma, and on a line of its own if the last one is.
        first_on_line = text.rfind("\n", 0, last.start_mark.index) + 1
        lead = text[first_on_line : last.start_mark.index]
        between = f",{newline}{lead}" if not lead.strip() and first_on_line else ", "
        at = last.end_mark.index
        return _Edit(at, at, between + _flow(row))
    dash = _dash_indent(text, last)
    at = _end_of_line(text, _last_leaf_end(text, last))
    lines = _block(row, dash) if not last.flow_style else [f"{dash}- {_flow(row)}"]
    return _Edit(at, at, newline + newline.join(lines))


def _in_place_of_nothing(
    text: str, key: yaml.Node, value: yaml.SequenceNode, row: Revision, newline: str
) -> _Edit:
    # `revisions: []   # comment` becomes `revisions:   # comment` and the row under it.
    start, end = value.start_mark.index, value.end_mark.index
    while text[start - 1] in " \t":
        start -= 1
    rest_end = _end_of_line(text, end)
    indent = " " * key.start_mark.column + "  "
    return _Edit(start, rest_end, text[end:rest_end] + f"{newline}{indent}- {_flow(row)}")


def _at_the_end(text: str, root: yaml.MappingNode, row: Revision, newline: str) -> _Edit:
    if root.flow_style:
        at = root.value[-1][1].end_mark.index if root.value else root.start_mark.index + 1
        comma = ", " if root.value else ""
        return _Edit(at, at, f"{comma}revisions: [{_flow(row)}]")
    body = text.rstrip()
    if body.endswith(("\n...", "\n---")):
        raise RowError("the spec ends with a document mark; write `revisions: []` into it first")
    gap = newline if text.endswith("\n") else newline * 2
    return _Edit(len(text), len(text), f"{gap}revisions:{newline}  - {_flow(row)}{newline}")


def _dash_indent(text: str, item: yaml.Node) -> str:
    start = text.rfind("\n", 0, item.start_mark.index) + 1
    lead = text[start : item.start_mark.index]
    return lead[: len(lead) - len(lead.lstrip(" "))]


def _last_leaf_end(text: str, node: yaml.Node) -> int:
    # A block's own end mark lies behind the comments that follow it; that of its last scalar does not.
    if isinstance(node, yaml.MappingNode) and node.value and not node.flow_style:
        return _last_leaf_end(text, node.value[-1][1])
    if isinstance(node, yaml.SequenceNode) and node.value and not node.flow_style:
        return _last_leaf_end(text, node.value[-1])
    end = int(node.end_mark.index)
    return len(text[:end].rstrip()) if text[:end].endswith("\n") else end


def _end_of_line(text: str, at: int) -> int:
    found = text.find("\n", at)
    if found < 0:
        return len(text)
    return found - 1 if text[found - 1] == "\r" else found


def _flow(row: Revision) -> str:
    return "{" + ", ".join(f"{name}: {words}" for name, words in _fields(row)) + "}"


def _block(row: Revision, dash: str) -> list[str]:
    first, *others = [f"{name}: {words}" for name, words in _fields(row)]
    return [f"{dash}- {first}", *(f"{dash}  {line}" for line in others)]


def _fields(row: Revision) -> list[tuple[str, str]]:
    return [(name, _written(name, getattr(row, name))) for name in _FIELDS if getattr(row, name)]


def _written(name: str, value: str | Void) -> str:
    if isinstance(value, str):
        return _words(name, value)
    sheets = f", sheets: [{', '.join(value.sheets)}]" if value.sheets else ""
    after = f", after: {_words('number', value.after)}" if value.after else ""
    return f"{{reason: {_words('reason', value.reason)}{sheets}{after}}}"


def _words(name: str, value: str) -> str:
    if name == "date" and _PLAIN_DATE.fullmatch(value):
        return value
    if name not in ("number", "digest") and _PLAIN.fullmatch(value) and value.lower() not in _UNSAFE_WORDS:
        return value
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    for sign, written in (("\n", "\\n"), ("\t", "\\t"), ("\r", "\\r")):
        escaped = escaped.replace(sign, written)
    return f'"{escaped}"'
