"""What a spec is refused for, by the reader or by resolving it."""

from __future__ import annotations

from sheets.base.diagnostics import SpecPath
from sheets.grammar.reader import read_spec_text
from sheets.resolve.solve import resolve


def refused_at(text: str) -> list[SpecPath | None]:
    """The paths of what is found in a spec that makes no wall; each has a place in the text."""
    spec, source, found = read_spec_text(text, "made-up.yaml")
    if spec is not None:
        wall, found = resolve(spec, source)
        assert wall is None
    assert all(each.place is not None and each.place.line > 1 for each in found)
    return [each.path for each in found]
