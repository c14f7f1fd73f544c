"""The history of a wall, issued: each revision with what was asked and the set before it."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from sheets.base.stopwatch import Stopwatch
from sheets.commands.comparison import Compared
from sheets.commands.given import Given
from sheets.commands.history import latest_issue
from sheets.commands.revising import Revised, Wanted, revise
from sheets.drawing.items import DrawingSet
from tests.revisions.history import SPEC, STEPS, Step, edited


@dataclass(frozen=True)
class Turn:
    """One revision: what was asked, the set before, the set as issued."""

    number: str
    step: Step
    old: Given
    made: Revised
    found: Compared
    earlier_drawing: DrawingSet


def issued(home: Path) -> tuple[Turn, ...]:
    """Issue the wall and its twelve revisions in a folder."""
    spec = home / "plover house.yaml"
    shutil.copy(SPEC, spec)
    first = revise(spec, None, Wanted("1", "RV", "First issue"), Stopwatch())
    assert isinstance(first, Revised), first
    drawing, found = first.drawing, []
    for number, step in enumerate(STEPS, 2):
        spec.write_text(edited(spec.read_text("utf-8"), step), "utf-8")
        old = latest_issue(spec)
        assert old is not None
        made = revise(spec, old, Wanted(str(number), "RV", step.name, unchanged=True), Stopwatch())
        assert isinstance(made, Revised), made
        assert made.comparison is not None
        found.append(Turn(str(number), step, old, made, made.comparison, drawing))
        drawing = made.drawing
    assert len(found) == 12
    return tuple(found)
