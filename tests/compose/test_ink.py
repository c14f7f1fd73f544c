"""Words broken into lines."""

from __future__ import annotations

import pytest

from sheets.compose.ink import width, wrapped

OFFCUTS = 'OFFCUTS 1\'-2 7/8" × 2\'-1 3/8", 1\'-2 7/8" × 2\'-6 19/32" AT 1/2" = 1\'-0", 344 × 2440'
GROOVE = "SIDE, GROOVE 18 mm x 6 mm, 2 M LONG X 3 DEEP"
SIZES = ("1'-2 7/8\" × 2'-1 3/8\",", "1'-2 7/8\" × 2'-6 19/32\"", '1/2" = 1\'-0",', "344 × 2440")


@pytest.mark.parametrize("room", [0.0, 20.0, 45.0, 60.0, 90.0])
def test_no_line_ends_within_a_size(room: float) -> None:
    lines = wrapped(OFFCUTS, room)
    assert " ".join(lines) == OFFCUTS
    assert all(any(size in line for line in lines) for size in SIZES)
    assert all(width(line) <= room or line in (*SIZES, "OFFCUTS", "AT") for line in lines)


def test_a_number_stays_with_its_unit() -> None:
    assert wrapped(GROOVE, 1.0) == ("SIDE,", "GROOVE", "18 mm x 6 mm,", "2 M", "LONG X 3", "DEEP")


def test_a_sign_without_a_number_after_it_is_a_word() -> None:
    assert wrapped("BRAND X OR = AS NOTED", 1.0) == ("BRAND", "X", "OR", "=", "AS", "NOTED")


def test_a_fraction_after_a_word_is_a_word_of_its_own() -> None:
    assert wrapped('AT 1/16"', 1.0) == ("AT", '1/16"')
