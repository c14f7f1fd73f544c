"""What a stage made, as text to read and to compare: one printer for all frozen dataclasses.

Each stands on one line where that is short enough, else has a line a field, further in. A field that says no
more than its default is left out. The same value gives the same text.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from fractions import Fraction
from typing import Any

from sheets.base.tolerance import settled

_ONE_LINE = 118
_DIGITS = 3  # of a float, mm or radians


def printed(value: object, length: Callable[[Fraction], str]) -> str:
    """Return a value as text that ends in a newline. length: how an exact length, mm, is written."""
    return "\n".join(_block("", value, length, 0)) + "\n"


def _block(head: str, value: object, length: Callable[[Fraction], str], indent: int) -> list[str]:
    pad = "  " * indent
    flow = _flow(value, length)
    held = _held(value)
    if not held or len(pad + head + flow) <= _ONE_LINE:
        return [pad + head + flow]
    lines = [(pad + head + _kind(value)).rstrip()] if head or _kind(value) else []
    for name, inner in held:
        lines += _block(f"{name}: " if name else "- ", inner, length, indent + bool(lines))
    return lines


def _flow(value: object, length: Callable[[Fraction], str]) -> str:
    if isinstance(value, Fraction):
        return length(value)
    if isinstance(value, float):
        return f"{settled(value, _DIGITS):.{_DIGITS}f}".rstrip("0").rstrip(".")
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
    if value is None or isinstance(value, (bool, int)):
        return str(value)
    if not is_dataclass(value) and not isinstance(value, (Mapping, tuple)):
        raise TypeError(f"{type(value).__name__} does not cross a stage")
    inside = ", ".join((f"{name}: " if name else "") + _flow(inner, length) for name, inner in _held(value))
    return f"{_kind(value)}({inside})"


def _held(value: object) -> list[tuple[str, object]]:
    # What a value is made of, by name; without names where they are in a row.
    if is_dataclass(value):
        pairs = ((field, getattr(value, field.name)) for field in fields(value))
        return [(field.name, inner) for field, inner in pairs if inner != _default(field)]
    if isinstance(value, Mapping):
        return [(str(key), value[key]) for key in sorted(value, key=str)]
    return [("", inner) for inner in value] if isinstance(value, tuple) else []


def _default(field: Field[Any]) -> object:
    return field.default_factory() if field.default_factory is not MISSING else field.default


def _kind(value: object) -> str:
    return type(value).__name__ if is_dataclass(value) else ""
