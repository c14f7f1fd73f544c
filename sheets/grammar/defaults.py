"""A spec written out with every default filled in, in the user's own units, so that it reads back to an
equal Spec.
"""

import re
from fractions import Fraction

from pydantic import BaseModel

from sheets.base.notation import exact_length, exact_number
from sheets.base.source import Source
from sheets.grammar.schema import Spec

_ONE_LINE = 96
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 _./-]*[A-Za-z0-9]|[A-Za-z]")
_READ_AS_NOTHING = frozenset(("null", "Null", "NULL"))
_COUNTS_AS_NUMBER = frozenset(("ratio",))


def filled(spec: Spec, source: Source) -> str:
    """Return the spec as YAML with each default and inherited material written in.

    Lengths are exact and in the spec's units: as the fractions that a rule has, else as a decimal, else (in
    inches) as millimetres, else as a plain fraction. Sections that are not built stay left out. source: names
    the file in the first line.
    """
    name = source.file.replace("\\", "/").rsplit("/", 1)[-1]
    head = f"# {name} with every default filled in. A section that is not here is not built."
    return head + "\n" + _written(spec)


def canonical(spec: Spec) -> str:
    """Return the spec as YAML with every default, and nothing of the file it came from.

    Two files that say the same give the same text, so its hash names what is drawn: materials stand in the
    order of their names.
    """
    materials = {name: spec.materials[name] for name in sorted(spec.materials)}
    return _written(spec.model_copy(update={"materials": materials}))


def _written(spec: Spec) -> str:
    lines: list[str] = []
    for key in type(spec).model_fields:
        value = getattr(spec, key)
        if value is None:
            continue
        block = _block(key, value, spec, 0)
        if isinstance(value, (BaseModel, dict, tuple)) and len(block) > 1:
            lines.append("")
        lines += block
    return "\n".join(lines) + "\n"


def _block(key: str, value: object, spec: Spec, indent: int) -> list[str]:
    pad = "  " * indent
    flow = _flow(value, spec, key)
    if not isinstance(value, (BaseModel, dict, tuple)) or (indent > 0 and len(pad + key + flow) <= _ONE_LINE):
        return [f"{pad}{key}: {flow}"]
    if not _entries(value):
        return [f"{pad}{key}: {flow}"]
    lines = [f"{pad}{key}:"]
    if isinstance(value, tuple):
        for item in value:
            lines += _item(item, spec, indent + 1)
        return lines
    for name, inner in _entries(value):
        lines += _block(str(name), inner, spec, indent + 1)
    return lines


def _item(item: object, spec: Spec, indent: int) -> list[str]:
    pad = "  " * indent
    flow = _flow(item, spec, "")
    if not isinstance(item, BaseModel) or len(pad + flow) <= _ONE_LINE:
        return [f"{pad}- {flow}"]
    lines: list[str] = []
    for name, inner in _entries(item):
        lines += _block(str(name), inner, spec, indent + 1)
    return [f"{pad}- {lines[0].lstrip()}", *lines[1:]]


def _entries(value: object) -> list[tuple[object, object]]:
    if isinstance(value, BaseModel):
        pairs = ((name, getattr(value, name)) for name in type(value).model_fields)
        return [(name, inner) for name, inner in pairs if inner is not None]
    if isinstance(value, dict):
        return list(value.items())
    return list(enumerate(value)) if isinstance(value, tuple) else []


def _flow(value: object, spec: Spec, key: str) -> str:
    if isinstance(value, (BaseModel, dict)):
        return (
            "{" + ", ".join(f"{_quoted(str(n))}: {_flow(v, spec, str(n))}" for n, v in _entries(value)) + "}"
        )
    if isinstance(value, tuple):
        return "[" + ", ".join(_flow(item, spec, "") for item in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Fraction):
        if key in _COUNTS_AS_NUMBER:
            return exact_number(value)
        return exact_length(value, spec.units, spec.precision)
    return str(value) if isinstance(value, int) else _quoted(str(value))


def _quoted(text: str) -> str:
    if _PLAIN.fullmatch(text) and text not in _READ_AS_NOTHING:
        return text
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'
