"""What is said to the user about the spec and the drawing: values with a place, printed one way.

A stage returns its diagnostics beside its result. Exceptions are for our own bugs and the outside world.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "note"]
SpecPath = tuple[str | int, ...]
WAIVED_ABOUT_FIRE = "waived about fire"
"""What waived errors about fire are counted as, beside errors, warnings, notes and all that is waived."""

_WIDEST_LINE = 110
_SEVERITY_ORDER = {"error": 0, "warning": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class Place:
    """A position in a file: line and column count from 1; text_of_line is the line without its end."""

    file: str
    line: int
    column: int
    text_of_line: str


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One finding. code: a short kebab-case word; help: what to do, or empty; path: where in the spec, or
    None.
    """

    code: str
    severity: Severity
    message: str
    place: Place | None = None
    help: str = ""
    path: SpecPath | None = None


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    """Return whether any of them is an error."""
    return any(d.severity == "error" for d in diagnostics)


def in_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Return them by file, line and column, those without a place last; the same order on every run."""
    return tuple(sorted(diagnostics, key=_order))


def print_text(diagnostics: Iterable[Diagnostic]) -> str:
    """Return all of them as text for a terminal: place, severity, message, the line with a caret, help."""
    return "\n".join(_block(d) for d in diagnostics)


def to_json(diagnostic: Diagnostic) -> dict[str, object]:
    """Return the diagnostic as a dict of plain values, for JSON."""
    place = diagnostic.place
    return {
        "code": diagnostic.code,
        "severity": diagnostic.severity,
        "message": diagnostic.message,
        "help": diagnostic.help,
        "file": place.file if place else None,
        "line": place.line if place else None,
        "column": place.column if place else None,
        "path": list(diagnostic.path) if diagnostic.path is not None else None,
    }


def spec_path(path: SpecPath) -> str:
    """Return a spec path as words, items of a list counted from 1: "cases 1, shelves, count"."""
    words: list[str] = []
    for step in path:
        if isinstance(step, int) and words:
            words[-1] += f" {step + 1}"
        else:
            words.append(str(step))
    return ", ".join(words)


def nearest(word: str, allowed: Iterable[str]) -> str | None:
    """Return the allowed word that the given one was most likely meant to be, or None if none is near.

    Near means at most one slip (a letter wrong, missing, doubled or swapped) for each three letters; or one
    of the words that the allowed one is made of, if no other has it, as a4 of iso-a4.
    """
    written = _folded(word)
    scored = sorted((_slips(written, _folded(a)), a) for a in allowed)
    if not scored:
        return None
    slips, best = scored[0]
    holders = [a for _, a in scored if written in _folded(a).split("_")]
    if slips and len(holders) == 1:
        return holders[0]
    return best if slips <= max(1, (len(written) + 1) // 3) and slips < len(best) else None


def _order(diagnostic: Diagnostic) -> tuple[object, ...]:
    place = diagnostic.place
    where = (0, place.file, place.line, place.column) if place else (1, "", 0, 0)
    return (*where, _SEVERITY_ORDER[diagnostic.severity], diagnostic.code, diagnostic.message)


def _block(diagnostic: Diagnostic) -> str:
    place = diagnostic.place
    head = f"{place.file}:{place.line}:{place.column}: " if place else ""
    lines = [f"{head}{diagnostic.severity} ({diagnostic.code}): {diagnostic.message}"]
    if place and place.text_of_line.strip():
        shown, column = _window(place.text_of_line, place.column)
        lines += ["    " + shown, "    " + " " * (column - 1) + "^"]
    if diagnostic.help:
        lines.append("  " + diagnostic.help)
    return "\n".join(lines) + "\n"


def _window(line: str, column: int) -> tuple[str, int]:
    # A caret under a tab or a control character would not line up, and a very long line would wrap.
    clean = "".join(c if c.isprintable() else " " for c in line)
    if len(clean) <= _WIDEST_LINE:
        return clean, column
    start = max(0, min(column - 1 - _WIDEST_LINE // 2, len(clean) - _WIDEST_LINE))
    return clean[start : start + _WIDEST_LINE], column - start


def _folded(word: str) -> str:
    return word[:64].lower().replace("-", "_").replace(" ", "_")


def _slips(a: str, b: str) -> int:
    # Edit distance where swapping two neighbours is one slip.
    before: list[int] = []
    above = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        row = [i]
        for j, y in enumerate(b, 1):
            cost = min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (x != y))
            if i > 1 and j > 1 and x == b[j - 2] and a[i - 2] == y:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        before, above = above, row
    return above[-1]
