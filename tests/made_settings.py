"""Settings for walls made by hand: those of a spec that sets nothing, with what a test sets put over them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from sheets.grammar.reader import read_spec_text
from sheets.model.settings import Settings
from sheets.resolve.settings import settings_of

SILENT = """
project: {{title: T}}
units: {}
room: {{width: 4 m}}
cases: [{{name: a, width: 1 m, height: 2 m}}]
"""
"""A spec that sets nothing; its units are to be filled in."""


def settings(units: str = "inch", **sections: Mapping[str, object]) -> Settings:
    """The program's own defaults; each section's mapping, which may hold further ones, goes before them."""
    return _over(_silent(units), sections)  # type: ignore[no-any-return]


@cache
def _silent(units: str) -> Settings:
    spec, _, _ = read_spec_text(SILENT.format(units))
    assert spec is not None
    return settings_of(spec)


def _over(value: Any, said: object) -> Any:
    if not isinstance(said, Mapping):
        return said
    return replace(value, **{name: _over(getattr(value, name), more) for name, more in said.items()})
