"""What is said of a view that no scale gets on its sheet: what it needs, and which sheet would do.
Paper mm."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from sheets.annotate.intent import Annotated
from sheets.base.diagnostics import Diagnostic
from sheets.compose.border.border import view_space
from sheets.compose.border.paper import SheetSize, next_larger, sheet_size
from sheets.compose.border.titleblock import TitleBlock
from sheets.compose.pages.page import size_of
from sheets.compose.placing.fitting import Fitter
from sheets.compose.placing.manner import manner
from sheets.compose.placing.sayings import CROWDINGS
from sheets.model.wall import Paper

Way = Literal["landscape", "portrait"]


def too_large(
    annotated: Annotated, fitter: Fitter, paper: Paper, block: TitleBlock, space: tuple[float, float]
) -> Diagnostic:
    """What to say of a view that fits no sheet of this size. space: width and height that its sheet has for
    views."""
    view = annotated.view
    smallest = fitter.scales(annotated)[-1]
    width, height = fitter.at(annotated, smallest, CROWDINGS[-1]).size
    return Diagnostic(
        "view-too-large",
        "error",
        f"{view.title.lower()} does not fit a sheet of size {paper.size} even at {smallest.text}: it needs "
        f"{width:.0f} x {height:.0f} mm and the sheet has {space[0]:.0f} x {space[1]:.0f} mm",
        help=_would_do(annotated, fitter, paper, block),
        path=("sheet", "size"),
    )


def _would_do(annotated: Annotated, fitter: Fitter, paper: Paper, block: TitleBlock) -> str:
    # Tried out, with the lettering of those sheets: nothing is promised that the next run would refuse.
    turned: Way = "landscape" if paper.orientation == "portrait" else "portrait"
    found: list[str] = []
    if any(_holds(annotated, fitter, size, block) for size in _sizes([paper.size], turned)):
        found.append(f"orientation {turned}")
    for size in _sizes(next_larger(paper.size), paper.orientation):
        if _holds(annotated, fitter, size, block):
            found.append(f"sheet size {size.name}")
            break
    if not found:
        return "no standard sheet is large enough; draw the wall in parts"
    return " or ".join(found) + " would do"


def _sizes(names: tuple[str, ...] | list[str], way: Way) -> Iterator[SheetSize]:
    for name in names:
        size, _ = sheet_size(name, way)
        if size is not None:
            yield size


def _holds(annotated: Annotated, fitter: Fitter, size: SheetSize, block: TitleBlock) -> bool:
    layout = block.layout_for(size.frame[2] - size.frame[0], size.frame[3] - size.frame[1])
    if layout is None:
        return False
    how = manner(fitter.manner.units, fitter.manner.notation, max(size.width, size.height))
    return Fitter(how, fitter.elsewhere).largest(annotated, *size_of(view_space(size, layout))) is not None
