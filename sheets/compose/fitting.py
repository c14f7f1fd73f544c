"""The largest standard scale at which a view fits a space, found by trying; a finite search, from the
largest down."""

from __future__ import annotations

from fractions import Fraction

from sheets.annotate.intent import Annotated
from sheets.base.diagnostics import Diagnostic
from sheets.compose.manner import Manner
from sheets.compose.paper import next_larger, sheet_size
from sheets.compose.placing import Placed, least_size, place
from sheets.compose.scales import Scale, sensible


class Fitter:
    """Places views at scales and remembers what it placed, since several arrangements ask for the same."""

    def __init__(self, manner: Manner) -> None:
        self.manner = manner
        self._placed: dict[tuple[str, Fraction], Placed] = {}
        self._least: dict[tuple[str, Fraction], tuple[float, float]] = {}

    def at(self, annotated: Annotated, scale: Scale) -> Placed:
        """The view at a scale."""
        key = (annotated.view.id, scale.ratio)
        if key not in self._placed:
            self._placed[key] = place(annotated, scale, self.manner)
        return self._placed[key]

    def scales(self, annotated: Annotated) -> tuple[Scale, ...]:
        return sensible(annotated.view.kind, self.manner.units)

    def least(self, annotated: Annotated, scale: Scale) -> tuple[float, float]:
        """A lower bound of the paper a view needs, mm: found without placing it."""
        key = (annotated.view.id, scale.ratio)
        if key in self._placed:
            return self._placed[key].size
        if key not in self._least:
            self._least[key] = least_size(annotated, scale.ratio, self.manner)
        return self._least[key]

    def may_fit(self, annotated: Annotated, scale: Scale, width: float, height: float) -> bool:
        """False if the view is surely too large at a scale."""
        least_w, least_h = self.least(annotated, scale)
        return least_w <= width and least_h <= height

    def largest(self, annotated: Annotated, width: float, height: float) -> Placed | None:
        """The view at the largest of its scales that fits, or None."""
        for scale in self.scales(annotated):
            if not self.may_fit(annotated, scale, width, height):
                continue
            placed = self.at(annotated, scale)
            if placed.size[0] <= width and placed.size[1] <= height:
                return placed
        return None


def too_large(
    annotated: Annotated, fitter: Fitter, size: str, orientation: str, space: tuple[float, float]
) -> Diagnostic:
    """What to say of a view that fits no sheet of this size: which size would do."""
    view = annotated.view
    smallest = fitter.scales(annotated)[-1]
    width, height = fitter.at(annotated, smallest).size
    here, _ = sheet_size(size, "portrait" if orientation == "portrait" else "landscape")
    would = ""
    if here is not None:
        lost_w = here.width - space[0]
        lost_h = here.height - space[1]
        for name in next_larger(size):
            bigger, _ = sheet_size(name, "portrait" if orientation == "portrait" else "landscape")
            if bigger and bigger.width - lost_w >= width and bigger.height - lost_h >= height:
                would = name
                break
    return Diagnostic(
        "view-too-large",
        "error",
        f"{view.title.lower()} does not fit a sheet of size {size} even at {smallest.text}: it needs "
        f"{width:.0f} x {height:.0f} mm and the sheet has {space[0]:.0f} x {space[1]:.0f} mm",
        help=f"sheet size {would} would do"
        if would
        else "no standard sheet is large enough; draw the wall in parts",
        path=("sheet", "size"),
    )
