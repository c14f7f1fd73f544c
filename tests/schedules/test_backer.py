"""Backer layout read off the boards: faces add up, ends alike and not under half a board."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.geometry.solid import box, mirrored_x
from sheets.model.part import Extent, Joint, Part
from sheets.model.purpose import Purpose
from sheets.resolve.boards import lay_boards
from sheets.schedules.backer_boards import backer_diagram, backer_layouts, backer_table
from sheets.schedules.fields import Told
from sheets.schedules.table import plain
from tests.schedules.conftest import FIR, PLY, block, make_wall

GAP, TONGUE, HOUSED = inch("1/16"), inch("1/4"), inch("3/16")
HOME = "cases/flanking/left"


def at(part: Part, x0: Fraction, x1: Fraction) -> Part:
    extent = Extent(x0, x1, part.extent.y0, part.extent.y1, part.extent.z0, part.extent.z1)
    solid = box(*(float(v) for v in (extent.x0, extent.x1, extent.y0, extent.y1, extent.z0, extent.z1)))
    return replace(part, extent=extent, solid=solid)


def boards(clear: Fraction, face: Fraction) -> list[Part]:
    """Boards as a joiner lays them over a clear width: half the gap off each joint, tongues to the right,
    ends let in.
    """
    faces = lay_boards(clear, face, inch("1/16")).faces
    tongue = Joint("tongue", width=inch("1/4"), depth=TONGUE, fastening="nail")
    groove = Joint("groove", width=inch("1/4"), depth=TONGUE)
    made, line = [], Fraction(0)
    for k, size in enumerate(faces):
        first, last = k == 0, k == len(faces) - 1
        low = line - HOUSED if first else line + GAP / 2
        line += size
        high = line + HOUSED if last else line - GAP / 2 + TONGUE
        joints = tuple(j for j, there in ((groove, not first), (tongue, not last)) if there)
        plain_board = block(
            f"{HOME}/board-{k + 1}",
            size=("11/16", 1, 70),
            material=FIR,
            mark=f"C{k}",
            name="Backer board",
            role="backer board",
            does=Purpose(member="board"),
            joints=joints,
        )
        made.append(at(plain_board, low, high))
    end = Purpose(bounds=("end",))
    left = block(f"{HOME}/side-left", size=("3/4", 12, 72), material=PLY, name="Side", does=end)
    right = replace(left, key=f"{HOME}/side-right")
    return [at(left, -inch("3/4"), Fraction(0)), at(right, clear, clear + inch("3/4")), *made]


@pytest.mark.parametrize(
    ("clear", "face", "full", "end"),
    [
        # n = floor(W/f), r = W - nf; n - 1 full boards and two ends of (f + r)/2 (derived; values computed by
        # hand).
        (60, "41/8", 10, Fraction(35, 8)),  # 10 x 5.125 + 2 x 4.375 = 60
        (36, "25/8", 10, Fraction(19, 8)),  # 10 x 3.125 + 2 x 2.375 = 36
        (41, "41/8", 8, None),  # 8 x 5.125 = 41: none ripped
    ],
)
def test_half_board_rule(clear: int, face: str, full: int, end: Fraction | None) -> None:
    (layout,) = backer_layouts(make_wall(*boards(inch(clear), inch(face))))
    assert layout.clear == inch(clear)
    assert sum(board.face for board in layout.boards) == inch(clear)
    assert sum(board.face == inch(face) for board in layout.boards) == full
    assert layout.ends == ((inch(end), inch(end)) if end is not None else ())
    assert all(e >= inch(face) / 2 for e in layout.ends)
    assert (layout.gap, layout.tongue) == (GAP, TONGUE)


def test_a_mirrored_case_reads_the_same() -> None:
    made = boards(inch(36), inch("25/8"))
    turned = [
        replace(
            part,
            solid=mirrored_x(part.solid),
            extent=replace(part.extent, x0=-part.extent.x1, x1=-part.extent.x0),
        )
        for part in made
    ]
    (one,) = backer_layouts(make_wall(*made))
    (other,) = backer_layouts(make_wall(*turned))
    assert [b.face for b in other.boards] == [b.face for b in one.boards]
    assert (other.gap, other.clear) == (one.gap, one.clear)


def test_take_off_of_a_backer() -> None:
    (layout,) = backer_layouts(make_wall(*boards(inch(41), inch("41/8"))))
    # Blanks 71 in long. The first board is 5 1/8 + 3/16 let in - 1/32 + 1/4 tongue = 5 17/32 wide: more than
    # the 5 3/8 of a 1 x 6 (WWPA), so it comes out of a 1 x 8; the other seven are 1 x 6: (8 + 7 x 6) x 71 /
    # 144 = 24.65.
    assert layout.boards[0].cut == inch("177/32")
    assert layout.net == Fraction((8 + 7 * 6) * 71, 144)
    assert layout.with_waste == layout.net * Fraction(12, 10)


def test_table_and_diagram_say_the_faces() -> None:
    wall = make_wall(*boards(inch(60), inch("41/8")))
    layouts = backer_layouts(wall)
    row = [plain(cell) for cell in backer_table(layouts, Told(wall.notation)).rows[0]]
    assert row[2] == '4 3/8", 10 of 5 1/8", 4 3/8"'
    assert row[3] == '4 3/8" and 4 3/8"'
    diagram = backer_diagram(layouts[0], wall.notation)
    assert sum(piece.width for piece in diagram.pieces) == diagram.width == inch(60)
