"""Parts longer, wider or thicker than the stock, from the spec to the plan: each is found and named with what
would do, and the schedule and the cutting plan hold its lengths, strips and layers.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.checks.finding import Finding
from sheets.checks.run import rule_named
from sheets.grammar.reader import read_spec_text
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve
from sheets.schedules.cutting_boards import BoardPiece, cut_boards
from sheets.schedules.fields import Told
from sheets.schedules.parts import PartRow, parts_schedule, parts_table
from sheets.schedules.table import plain

MANTEL = """\
project: {title: A long mantel}
materials: {oak: {species: white oak}, slate: {masonry: slate, thickness: 3/4}}
room: {width: 20', ceiling: {height: 8'}}
fireplace: {opening: {width: 48, height: 15}, sill: 18}
surround: {material: slate, width: 76}
mantel:
  top: 52
  breast: 11
  width: 100
  layers:
    cap: {thickness: 1, overhang: 1}
    fascia: {height: 6}
  posts: {width: 6}
  corbels: {width: 6, height: 9, projection: 2-1/2, curve: {rise: 1/2}}
  material: oak
"""
"""Nothing of it is longer than a board: 12 ft less 2 in at each end is 140 in."""


def wall_of(text: str) -> Wall:
    spec, source, _ = read_spec_text(text, "mantel.yaml")
    assert spec is not None
    wall, _ = resolve(spec, source)
    assert wall is not None
    return wall


def seen(wall: Wall, role: str) -> tuple[Part, PartRow, tuple[Finding, ...], list[BoardPiece]]:
    """A part of a role with its row, what is found about it, and its pieces in the boards."""
    part = next(part for part in wall.parts if part.role == role and part.maker == "shop")
    row = next(row for row in parts_schedule(wall).rows if part.key in row.keys)
    found = rule_named("stock-sizes").check(wall).findings
    plans = cut_boards(wall)
    assert plans.too_long == ()
    pieces = [
        piece
        for plan in plans.plans
        for board in plan.boards
        for piece in board.pieces
        if piece.key == part.key
    ]
    return part, row, tuple(f for f in found if part.key in f.subjects), pieces


def test_a_part_longer_than_the_longest_board_is_joined_of_lengths() -> None:
    part, row, (found,), pieces = seen(wall_of(MANTEL.replace("width: 100", "width: 150")), "fascia")
    assert part.length > inch(140)
    assert found.severity == "warning"
    assert part.mark in found.message
    assert "long; the longest board gives 11'-8\"" in found.message
    assert "would do in one; else join it of 2 lengths" in found.cure
    assert row.rough is not None
    assert (row.rough.lengths, len(pieces)) == (2, 2)
    assert "join 2 lengths by scarfs, 1 in 8" in row.notes
    # The lengths less one scarf, eight times as long as the board is thick, give the part and the allowances.
    scarf, allowance = 8 * part.thickness, inch(1)
    assert sum(p.length for p in pieces) - scarf - 2 * allowance >= part.length
    assert max(p.length for p in pieces) <= inch(140)


def test_a_part_wider_than_any_board_is_glued_up_of_strips() -> None:
    wall = wall_of(MANTEL)
    part, row, found, pieces = seen(wall, "cap board")
    wide = next(f for f in found if "wide" in f.message)
    assert part.width > inch(8)
    assert wide.severity == "note"
    assert 'a single board gives 7 3/4"' in wide.message
    assert row.rough is not None
    assert f"glue it up of {row.rough.strips} strips" in wide.cure
    assert len(pieces) == row.rough.strips > 1
    assert f"glue up of {row.rough.strips} strips" in row.notes
    # A quarter of an inch of each strip is jointed away.
    assert sum(p.width - inch("1/4") for p in pieces) >= part.width
    assert all(p.width <= inch(8) for p in pieces)
    cells = next(
        [plain(cell) for cell in cells]
        for cells in parts_table(parts_schedule(wall), Told(wall.notation)).rows
        if plain(cells[0]) == part.mark
    )
    assert cells[5].startswith(f"{row.rough.strips} of 5/4 × ")


def test_a_part_thicker_than_the_stock_is_laminated_of_layers() -> None:
    part, row, found, pieces = seen(wall_of(MANTEL), "corbel")
    thick = next(f for f in found if "thick" in f.message)
    # 8/4 surfaced on two sides is 1 3/4 in (NHLA): 2 1/2 in are two layers.
    assert part.thickness == inch("5/2")
    assert 'a single board dresses to 1 3/4"' in thick.message
    assert 'build it up of 2 layers, each 1 1/4" thick' in thick.cure
    assert row.rough is not None
    assert (row.rough.layers, len(pieces)) == (2, 2)
    assert row.rough.layers * row.rough.blank[0] == part.thickness
    assert "laminate of 2 layers" in row.notes


@pytest.mark.parametrize(
    ("said", "role", "word"),
    [
        ("stock: {board_lengths: [16']}", "fascia", "long"),
        ("stock: {board_widths: [24]}", "cap board", "wide"),
        ("stock: {thickest: 3}", "corbel", "thick"),
    ],
)
def test_stock_that_is_large_enough_ends_the_finding(said: str, role: str, word: str) -> None:
    text = MANTEL.replace("width: 100", "width: 150")
    before, after = seen(wall_of(text), role), seen(wall_of(text + said + "\n"), role)
    assert any(f" {word}; " in found.message for found in before[2])
    assert not any(f" {word}; " in found.message for found in after[2])
    assert len(after[3]) < len(before[3])


def test_metric_stock_is_judged_alike() -> None:
    wall = wall_of("""\
project: {title: A long mantel}
units: mm
materials: {oak: {species: white oak}, slate: {masonry: slate, thickness: 20}}
room: {width: 6 m, ceiling: {height: 2400}}
fireplace: {opening: {width: 1200, height: 380}, sill: 450}
surround: {material: slate, width: 1900}
mantel:
  top: 1320
  breast: 300
  width: 3700
  layers: {cap: {thickness: 25}, fascia: {height: 150, thickness: 19}}
  material: oak
""")
    part, row, (found,), pieces = seen(wall, "fascia")
    # 3600 less 50 at each end.
    assert "the longest board gives 3500 mm" in found.message
    assert len(pieces) == 2
    assert sum(p.length for p in pieces) >= part.length + 8 * part.thickness
    assert all(p.length <= Fraction(3500) for p in pieces)
    # 19 and 3 to plane are 22, and oak is sawn 27 (EN 1313-2); 150 and twice 3 are 156, out of 175.
    assert row.rough is not None
    assert row.rough.label == "27 × 175"
