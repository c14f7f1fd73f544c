"""The rows of pieces by which a component is screwed to the wall, and what each row surely holds."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from sheets.checks.mechanics.assemblies import parts_of
from sheets.checks.mechanics.screws import Screw, screw_of
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.schedules.wall_screws import WallScrews, wall_screws
from sheets.tables.figures import figure


@dataclass(frozen=True, slots=True)
class Row:
    """Pieces at the wall at one height, with the screws that are sure to reach a stud through them."""

    pieces: tuple[Part, ...]
    middle: Fraction  # z
    screws: WallScrews
    screw: Screw  # through the thickest of them


def passed(piece: Part) -> Fraction:
    """Return how much of the work a wall screw goes through, mm: the piece and what covers it."""
    return piece.extent.size("y") + piece.does.covered


def anchor_rows(wall: Wall, component: Component) -> tuple[Row, ...]:
    """Return the rows by which a component is held, from the bottom up."""
    levels: dict[Fraction, list[Part]] = {}
    for part in parts_of(wall, component):
        if part.does.anchors and part.extent.y0 <= 0:
            levels.setdefault(part.extent.middle("z"), []).append(part)
    return tuple(
        Row(
            tuple(pieces),
            level,
            wall_screws(wall, pieces),
            screw_of(wall, max(pieces, key=passed)),
        )
        for level, pieces in sorted(levels.items())
    )


def rows_high_up(wall: Wall, component: Component) -> tuple[Row, ...]:
    """Return the rows whose middle is in the upper third of a component."""
    box = component.extent
    third = box.z0 + box.size("z") * figure("stability", "anchors above").value
    return tuple(row for row in anchor_rows(wall, component) if row.middle >= third)
