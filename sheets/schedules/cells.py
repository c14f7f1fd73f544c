"""Lengths, sizes and joints as cells of a table: fractions as runs, so that a sheet can stack them."""

from __future__ import annotations

from fractions import Fraction

from sheets.base.notation import Notation, Run, format_length
from sheets.model.part import Joint
from sheets.schedules.table import Cell, plain

TIMES = " × "


def length_cell(value: Fraction, notation: Notation, *, rounded: bool = False) -> Cell:
    """Return a length, exact mm, as a cell."""
    runs = format_length(value, notation, rounded=rounded).runs
    return runs[0].text if len(runs) == 1 and not runs[0].denominator else runs


def joined(*cells: Cell, by: str = "") -> Cell:
    """Return several cells as one, with words between them."""
    runs: list[Run] = []
    for number, cell in enumerate(cells):
        if number and by:
            _add(runs, Run(by))
        for run in (Run(cell),) if isinstance(cell, str) else cell:
            _add(runs, run)
    if all(not run.denominator for run in runs):
        return "".join(run.text for run in runs)
    return tuple(runs)


def size_cell(sizes: tuple[Fraction, ...], notation: Notation) -> Cell:
    """Return thickness × width × length as one cell."""
    return joined(*(length_cell(size, notation) for size in sizes), by=TIMES)


def joints_cell(joints: tuple[Joint, ...], notation: Notation) -> Cell:
    """Return the joints cut in a part, alike ones counted: `2 dado 3/4" × 1/4" deep, screw`."""
    cells = [_joint_cell(joint, count, notation) for joint, count in counted(joints)]
    return joined(*cells, by="; ") if cells else ""


def joints_text(joints: tuple[Joint, ...], notation: Notation) -> str:
    """Return the same on one line of plain text."""
    return plain(joints_cell(joints, notation))


def counted(joints: tuple[Joint, ...]) -> tuple[tuple[Joint, int], ...]:
    """Return each distinct joint (by kind, size and fastening) with how many there are, in the order met."""
    found: dict[tuple[object, ...], tuple[Joint, int]] = {}
    for joint in joints:
        key = (joint.kind, joint.width, joint.depth, joint.held, joint.glued)
        first, count = found.get(key, (joint, 0))
        found[key] = (first, count + joint.count)
    return tuple(found.values())


_COUNTS = ("", "one", "two", "three", "four")


def _notch_cell(joint: Joint, count: int, notation: Notation) -> Cell:
    """A notch is always out of a corner: `notch 2" × 4", two corners`, seldom held by itself."""
    assert joint.width is not None and joint.depth is not None
    how_many = _COUNTS[count] if count < len(_COUNTS) else str(count)
    where = f", {how_many} corner{'s' if count > 1 else ''}"
    sizes = length_cell(joint.width, notation), length_cell(joint.depth, notation)
    return joined("notch ", sizes[0], TIMES, sizes[1], where)


def _joint_cell(joint: Joint, count: int, notation: Notation) -> Cell:
    if joint.kind == "notch":
        return _notch_cell(joint, count, notation)
    cells: list[Cell] = [f"{count} {joint.kind}" if count > 1 else joint.kind]
    if joint.width is not None:
        cells += [" ", length_cell(joint.width, notation)]
    if joint.depth is not None:
        cells += [TIMES if joint.width is not None else " ", length_cell(joint.depth, notation), " deep"]
    if joint.fastening:
        cells.append(f", {joint.held}")
    if joint.glued is not None:
        cells += [" ", length_cell(joint.glued, notation), " of it"]
    return joined(*cells)


def _add(runs: list[Run], run: Run) -> None:
    # Neighbouring words become one run: fewer pieces to set, and equal cells compare equal.
    if runs and not runs[-1].denominator and not run.denominator:
        runs[-1] = Run(runs[-1].text + run.text)
    else:
        runs.append(run)
