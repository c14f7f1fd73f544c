"""What the spec says in letters that the sheets' font lacks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from sheets.base.diagnostics import Diagnostic, SpecPath
from sheets.drawing.lettering import missing
from sheets.model.wall import Wall


def unlettered(wall: Wall) -> tuple[Diagnostic, ...]:
    """Return a warning for each text of a wall that cannot be set as it is written."""
    return tuple(
        Diagnostic(
            "letter-missing",
            "warning",
            f"the lettering has no {', '.join(repr(letter) for letter in lost)}: printed as '?'",
            help="Say it in letters that the font has: Latin, Greek and Cyrillic.",
            path=path,
        )
        for path, text in _said(wall)
        if (lost := missing(text))
    )


def _said(wall: Wall) -> Iterator[tuple[SpecPath, str]]:
    for one in fields(wall.project):
        yield ("project", one.name), getattr(wall.project, one.name)
    for k, note in enumerate(wall.notes):
        yield ("notes", k), note
    for k, revision in enumerate(wall.revisions):
        yield ("revisions", k, "reason"), revision.reason
