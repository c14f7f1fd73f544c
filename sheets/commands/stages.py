"""What each stage made of a spec, as text: for goldens, for comparing two, and for telling of a fault."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Literal

from sheets.base.diagnostics import Diagnostic, has_errors
from sheets.base.notation import exact_length
from sheets.base.printed import printed
from sheets.base.stopwatch import Stopwatch
from sheets.model.wall import Wall
from sheets.pipeline import place, show, solve

Stage = Literal["spec", "wall", "views", "annotated", "composed"]


def stage_text(path: Path, stage: Stage) -> tuple[str, tuple[Diagnostic, ...]]:
    """Return what a stage made of a spec's file, and what was found on the way; no text if that is an error.

    Lengths are exact, as the spec would have them; what is drawn is in mm.
    """
    solved = solve(path)
    if solved.spec is None or solved.wall is None:
        return "", solved.diagnostics
    if stage == "spec":
        from sheets.grammar.defaults import canonical

        return canonical(solved.spec), solved.diagnostics
    if stage == "composed":
        from sheets.drawing.dump import dump

        drawing, found = place(show(solved.wall, Stopwatch()), path.resolve().parent, Stopwatch())
        found = (*solved.diagnostics, *solved.source.placed(found))
        return "" if has_errors(found) else "\n".join(dump(sheet) for sheet in drawing.sheets), found
    return printed(_made(solved.wall, stage), _written_for(solved.wall)), solved.diagnostics


def _made(wall: Wall, stage: Stage) -> object:
    from sheets.annotate.annotate import annotate
    from sheets.views.make import make_views

    if stage == "wall":
        return wall
    views = make_views(wall)
    return views if stage == "views" else tuple(annotate(wall, views))


def _written_for(wall: Wall) -> Callable[[Fraction], str]:
    return lambda value: exact_length(value, wall.units, wall.grid)
