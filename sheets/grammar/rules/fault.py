"""The shape of a broken rule."""

from collections.abc import Iterator

from sheets.base.diagnostics import Diagnostic, SpecPath
from sheets.base.source import Source

Findings = Iterator[Diagnostic]


def error(source: Source, path: SpecPath, code: str, message: str, help_text: str = "") -> Diagnostic:
    """Return an error at the place of a path."""
    return Diagnostic(code, "error", message, source.place_of(path), help_text, path)


def warning(source: Source, path: SpecPath, code: str, message: str, help_text: str = "") -> Diagnostic:
    """Return a warning at the place of a path."""
    return Diagnostic(code, "warning", message, source.place_of(path), help_text, path)
