"""The panelling above the mantel: its frame holds its panels, and it stands under the ceiling."""

from fractions import Fraction

from sheets.base.source import Source
from sheets.grammar.measure import is_under_ceiling, mantel_width, written
from sheets.grammar.rules.fault import Findings, error
from sheets.grammar.schema import Overmantel, Spec

_PATH = ("overmantel",)
_LEAST = Fraction(25)
"""mm: a panel that shows less is none."""


def check(spec: Spec, source: Source) -> Findings:
    """Yield what does not fit about the panelling."""
    panelling = spec.overmantel
    if panelling is None:
        return
    if spec.mantel is None:
        yield error(source, _PATH, "missing-key", "there is no mantel that the panelling could stand on")
        return
    width = panelling.width if isinstance(panelling.width, Fraction) else mantel_width(spec)
    if width is None:
        return  # told of the mantel
    if width > spec.room.width:
        yield error(
            source,
            (*_PATH, "width"),
            "too-wide",
            f"the panelling is {written(width, spec)} wide, the wall {written(spec.room.width, spec)}",
        )
    elif not is_under_ceiling(
        spec.room.ceiling, spec.room.width, width / 2, spec.mantel.top + panelling.height
    ):
        yield error(
            source,
            (*_PATH, "height"),
            "too-high",
            f"the top of the panelling, {written(spec.mantel.top + panelling.height, spec)} above the floor, "
            "is not under the ceiling",
        )
    yield from _frame(spec, panelling, width, source)


def _frame(spec: Spec, panelling: Overmantel, width: Fraction, source: Source) -> Findings:
    shows = width - 2 * panelling.stile - (panelling.panels - 1) * panelling.mullion
    if shows < panelling.panels * _LEAST:
        yield error(
            source,
            (*_PATH, "panels"),
            "panelling",
            f"stiles and mullions leave {written(max(shows, Fraction(0)), spec)} for the panels",
        )
    if panelling.height - 2 * panelling.rail < _LEAST:
        yield error(
            source, (*_PATH, "rail"), "panelling", "two rails leave nothing of the height of the panelling"
        )
    panel = panelling.panel
    if panel.thickness >= panelling.thickness:
        yield error(
            source, (*_PATH, "panel", "thickness"), "panelling", "the panels are as thick as their frame"
        )
    deep = panel.let_in + panel.gap
    narrow = min(panelling.stile, panelling.rail, panelling.mullion / 2 if panelling.panels > 1 else deep * 2)
    if deep >= narrow:
        yield error(
            source,
            (*_PATH, "panel", "let_in"),
            "panelling",
            f"grooves {written(deep, spec)} deep leave nothing of a frame {written(narrow, spec)} wide there",
        )
