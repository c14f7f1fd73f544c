"""The layout of each case's backer: board by board widths, the two ripped ends, the gaps, the lumber for it.

Read off the boards as resolved, so that it is the wall that is built. Faces are what shows; a cut width is
the board as it leaves the saw, tongue included.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from fractions import Fraction

from sheets.base.keys import key_order
from sheets.base.length import MM_PER_FOOT
from sheets.base.notation import Notation
from sheets.model.part import Axis, Material, Part
from sheets.model.wall import Wall
from sheets.schedules.amounts import board_feet, cubic_metres
from sheets.schedules.cells import joined, length_cell
from sheets.schedules.diagrams import Diagram, DiagramPiece
from sheets.schedules.fields import Field, Schedule, Told
from sheets.schedules.parts import material_text, shop_parts
from sheets.schedules.stock import rough_of
from sheets.schedules.table import Cell, TableData


@dataclass(frozen=True, slots=True)
class BackerBoard:
    """One board, in order from the left or from the bottom. mm."""

    key: str
    mark: str
    face: Fraction  # what shows, up to the middle of the gap
    cut: Fraction  # tongue and what is let into the case included
    ripped: bool


@dataclass(frozen=True, slots=True)
class BackerLayout:
    """The boards of one opening. faces add up to `clear` exactly. volume: board feet or cubic metres, with
    waste.
    """

    owner: str
    name: str
    material: Material
    upright: bool
    clear: Fraction
    length: Fraction  # of each board
    gap: Fraction
    tongue: Fraction
    boards: tuple[BackerBoard, ...]
    run: Fraction  # of all boards end to end
    net: Fraction
    with_waste: Fraction
    metric: bool

    @property
    def ends(self) -> tuple[Fraction, ...]:
        """Faces of the two ripped end boards; none when the full boards come out even."""
        return tuple(board.face for board in self.boards if board.ripped)


def backer_layouts(wall: Wall) -> tuple[BackerLayout, ...]:
    """Return the layout of every backer of the wall, in the order of its components."""
    found = []
    for component in wall.components:
        boards = [
            part
            for part in shop_parts(wall)
            if part.assembly == component.key and part.does.member == "board"
        ]
        if boards:
            boards.sort(key=lambda part: key_order(part.key))
            found.append(_layout(component.key, component.name, boards, wall))
    return tuple(found)


def backer_table(layouts: tuple[BackerLayout, ...], told: Told) -> TableData:
    """Return the layouts as a table, one row a case; the boards from the left, or from the bottom."""
    notes = (
        "FACES ADD UP TO THE CLEAR SIZE. BOTH ENDS ARE ALIKE AND NOT UNDER HALF A BOARD.",
        "NAIL EACH IN ITS MIDDLE, FROM BEHIND. EACH IS DRAWN BOARD BY BOARD AMONG THE CUTTING DIAGRAMS.",
    )
    return BACKER_CASES.table(layouts, told, notes)


def backer_rows(layouts: tuple[BackerLayout, ...]) -> list[BackerRow]:
    """Return every board of every layout."""
    return [(layout, n, board) for layout in layouts for n, board in enumerate(layout.boards, 1)]


BackerRow = tuple[BackerLayout, int, BackerBoard]
_VOLUME = (1, 3)  # digits of board feet, and of cubic metres

BACKER_CASES: Schedule[BackerLayout] = Schedule(
    "backer",
    (
        Field("case", "text", lambda r, _: r.name.upper(), "CASE"),
        Field("boards", "count", lambda r, _: len(r.boards), "BOARDS"),
        Field("faces", "text", lambda r, t: _faces(r, t.notation), "FACES THAT SHOW"),
        Field("ends", "text", lambda r, t: joined(*map(t.length, r.ends), by=" and ") if r.ends else "none",
              "RIPPED ENDS"),
        Field("clear", "length", lambda r, _: r.clear, "CLEAR"),
        Field("length", "length", lambda r, _: r.length, "BOARD LENGTH"),
        Field("gap", "length", lambda r, _: r.gap, "GAP A JOINT"),
        Field("tongue", "length", lambda r, _: r.tongue, "TONGUE"),
        Field("run", "number", lambda r, t: r.run / (1000 if t.metric else MM_PER_FOOT), "RUN, {run}"),
        Field("net", "number", lambda r, _: r.net, "NET, {volume}", digits=_VOLUME),
        Field("with_waste", "number", lambda r, _: r.with_waste, "WITH WASTE", digits=_VOLUME),
    ),
    title="BACKER LAYOUT",
)  # fmt: skip
BACKER: Schedule[BackerRow] = Schedule(
    "backer",
    (
        Field("assembly", "text", lambda r, _: r[0].name, says="the case"),
        Field("board", "count", lambda r, _: r[1], says="from the left, or from the bottom"),
        Field("mark", "text", lambda r, _: r[2].mark, says="mark of the board"),
        Field("face", "length", lambda r, _: r[2].face, says="what shows"),
        Field("cut", "length", lambda r, _: r[2].cut, says="width as cut, tongue included"),
        Field("ripped", "text", lambda r, _: "yes" if r[2].ripped else "no",
              says="yes for an end board that is ripped"),
        Field("gap", "length", lambda r, _: r[0].gap, says="left at each joint"),
    ),
    "backer layout, board by board",
)  # fmt: skip


def backer_diagram(layout: BackerLayout, notation: Notation) -> Diagram:
    """Return the boards as they stand or lie, faces only, each with its size."""
    at, pieces = Fraction(0), []
    for board in layout.boards:
        place = (
            (at, Fraction(0), board.face, layout.length)
            if layout.upright
            else (Fraction(0), at, layout.length, board.face)
        )
        pieces.append(DiagramPiece(*place, board.mark, length_cell(board.face, notation)))
        at += board.face
    size = (layout.clear, layout.length) if layout.upright else (layout.length, layout.clear)
    return Diagram(
        f"backer/{layout.owner}",
        f"BACKER, {layout.name.upper()}",
        *size,
        tuple(pieces),
        (material_text(layout.material),),
    )


def _layout(owner: str, name: str, boards: list[Part], wall: Wall) -> BackerLayout:
    first = boards[0]
    across = first.width_axis
    boards.sort(key=lambda part: part.extent.span(across))
    tongue = max(
        (j.depth or Fraction(0) for part in boards for j in part.joints if j.kind == "tongue"),
        default=Fraction(0),
    )
    lines, gap = _joint_lines(boards, across, tongue)
    low, high = _clear(boards, across, wall)
    edges = [low, *lines, high]
    faces = [b - a for a, b in itertools.pairwise(edges)]
    full = max(faces)
    laid = tuple(
        BackerBoard(
            part.key, part.mark, face, part.width, ripped=number in (0, len(boards) - 1) and face < full
        )
        for number, (part, face) in enumerate(zip(boards, faces, strict=True))
    )
    stock, metric = wall.settings.stock, wall.units == "mm"
    net = Fraction(0)
    for part in boards:
        rough = rough_of(part, stock, wall.units)
        if rough is not None:
            measure = cubic_metres if metric else board_feet
            net += rough.pieces * measure(rough.thickness, rough.counted_width, rough.blank[2])
    return BackerLayout(
        owner,
        name,
        first.material,
        across == "x",
        high - low,
        first.length,
        gap,
        tongue,
        laid,
        sum((part.length for part in boards), Fraction(0)),
        net,
        net * (100 + stock.waste) / 100,
        metric,
    )


def _joint_lines(boards: list[Part], across: Axis, tongue: Fraction) -> tuple[list[Fraction], Fraction]:
    """Where faces meet: the middle of the gap between one board's shoulder and the next board's edge."""
    lines, gap = [], Fraction(0)
    # Tongues point to the greater coordinate unless the first board has the groove, as in a mirrored case.
    backward = any(joint.kind == "groove" for joint in boards[0].joints)
    for part, after in itertools.pairwise(boards):
        shoulder, edge = part.extent.span(across)[1], after.extent.span(across)[0]
        if backward:
            edge += tongue
        else:
            shoulder -= tongue
        lines.append((shoulder + edge) / 2)
        gap = edge - shoulder
    return lines, gap


def _clear(boards: list[Part], across: Axis, wall: Wall) -> tuple[Fraction, Fraction]:
    """The opening that shows: between the pieces that the end boards are let into, or stand against."""
    low, high = boards[0].extent.span(across)[0], boards[-1].extent.span(across)[1]
    bounds = {"end", "partition"} if across == "x" else {"floor", "ceiling"}
    for part in wall.parts:
        if part.assembly != boards[0].assembly or bounds.isdisjoint(part.does.bounds):
            continue
        a, b = part.extent.span(across)
        if a <= low < b:
            low = b
        if a < high <= b:
            high = a
    return low, high


def _faces(layout: BackerLayout, notation: Notation) -> Cell:
    cells: list[Cell] = []
    runs: list[tuple[Fraction, int]] = []
    for board in layout.boards:
        if runs and runs[-1][0] == board.face:
            runs[-1] = (board.face, runs[-1][1] + 1)
        else:
            runs.append((board.face, 1))
    for face, count in runs:
        size = length_cell(face, notation)
        cells.append(joined(f"{count} of ", size) if count > 1 else size)
    return joined(*cells, by=", ")

