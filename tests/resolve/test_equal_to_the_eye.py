"""What is seen of a case between its stiles and mullions is equal, and the uprights hide what is behind."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.grammar.reader import read_spec_text
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve

SPEC = """
project: {{title: openings}}
units: inch
precision: 1/16
materials:
  oak: {{species: white oak}}
  ply: {{panel: veneer-core plywood, face: white oak, thickness: {board}}}
room: {{width: {room}, ceiling: {{height: 100}}}}
cases:
  - {{name: books, at: left, width: {width}, height: 80, depth: 12, bays: {bays}, scribe: {scribe},
     frame: {{stile: {stile}, material: oak}}, shelves: {{count: 2, material: oak}}, material: ply}}
"""
GRID = Fraction(127, 80)  # 1/16 in, mm


def built(**given: object) -> Wall:
    said = {"room": "150", "width": "96", "bays": 3, "scribe": "3/4", "stile": "3", "board": "23/32"} | given
    reading = read_spec_text(SPEC.format(**said), "openings.yaml")
    assert reading[0] is not None, reading[2]
    wall, found = resolve(reading[0], reading[1])
    assert wall is not None, found
    return wall


def uprights(wall: Wall) -> list[Part]:
    return sorted(
        (part for part in wall.parts if part.role in ("stile", "mullion")), key=lambda part: part.extent.x0
    )


@given(
    st.integers(60 * 16, 120 * 16), st.integers(1, 6), st.integers(16, 56),
    st.sampled_from(["0", "3/4", "1"]), st.sampled_from(["23/32", "3/4", "11/16"]),
)  # fmt: skip
def test_openings_are_equal_to_the_last_step(
    width: int, bays: int, stile: int, scribe: str, board: str
) -> None:
    wall = built(
        width=f"{Fraction(width, 16)}", bays=bays, stile=f"{Fraction(stile, 16)}",
        scribe=scribe, board=board,
    )  # fmt: skip
    frame = uprights(wall)
    seen = [right.extent.x0 - left.extent.x1 for left, right in pairwise(frame)]
    assert len(seen) == bays
    if bays > 1:
        assert len(set(seen)) == 1
        assert seen[0] % GRID == 0
    # Stiles, openings and mullions make up the case, scribe and all.
    gap = Fraction(0) if scribe == "0" else Fraction(scribe) * Fraction(127, 5)
    whole = Fraction(width, 16) * Fraction(127, 5)
    assert frame[-1].extent.x1 - frame[0].extent.x0 == whole + gap
    widths = [part.extent.size("x") for part in frame]
    if scribe == "0":
        assert widths[0] == widths[-1], "both stiles are alike"
        assert widths[1:-1] == widths[1:-1][::-1], "the row is symmetric"
    else:
        assert set(widths[1:]) <= {Fraction(stile, 16) * Fraction(127, 5)}, "the rest is in the scribe"
    for divider, mullion in zip(dividers(wall), frame[1:-1], strict=True):
        # As near behind its middle as the grid has it.
        assert abs(divider.extent.middle("x") - mullion.extent.middle("x")) <= 2 * GRID


def dividers(wall: Wall) -> list[Part]:
    return sorted((part for part in wall.parts if part.role == "divider"), key=lambda part: part.extent.x0)


@pytest.mark.parametrize(
    ("width", "each"),
    [
        # 72 in less four of 3 in are 60: a third is 20. 72 1/16 less them leave 1/16 over, for the scribe.
        ("72", "20"),
        ("1153/16", "20"),
        # 72 3/8: 60 3/8 is three times 20 1/8.
        ("579/8", "161/8"),
    ],
)
def test_three_bays_by_hand(width: str, each: str) -> None:
    frame = uprights(built(width=width))
    seen = [right.extent.x0 - left.extent.x1 for left, right in pairwise(frame)]
    assert seen == [Fraction(each) * Fraction(127, 5)] * 3
