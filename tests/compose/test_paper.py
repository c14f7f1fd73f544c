"""Sheet sizes against published ones."""

from __future__ import annotations

import pytest

from sheets.compose.border import titleblock_file
from sheets.compose.border.border import border
from sheets.compose.border.paper import next_larger, sheet_size, size_names
from sheets.drawing.items import Text


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ISO 216 trimmed sizes, mm (common knowledge; second-hand).
        ("iso-a4", 297, 210),
        ("iso-a3", 420, 297),
        ("iso-a2", 594, 420),
        ("iso-a1", 841, 594),
        ("iso-a0", 1189, 841),
        # ASME Y14.1 and architectural sizes, inches times 25.4.
        ("ansi-b", 17 * 25.4, 11 * 25.4),
        ("ansi-d", 34 * 25.4, 22 * 25.4),
        ("arch-c", 24 * 25.4, 18 * 25.4),
        ("arch-d", 36 * 25.4, 24 * 25.4),
        ("arch-e", 48 * 25.4, 36 * 25.4),
    ],
)
def test_sizes_are_the_published_ones(name, width, height):
    size, found = sheet_size(name)
    assert not found
    assert (size.width, size.height) == pytest.approx((width, height), abs=0.01)


@pytest.mark.parametrize(
    ("name", "long", "short"),
    # Drawing spaces of ISO 5457:1999, mm (from memory; they follow from margins of 20 and 10 mm). A4 is
    # used upright.
    [("iso-a3", 390, 277), ("iso-a2", 564, 400), ("iso-a1", 811, 574), ("iso-a0", 1159, 821)],
)
def test_the_frame_of_an_iso_sheet_leaves_the_standard_drawing_space(name, long, short):
    size, _ = sheet_size(name)
    x0, y0, x1, y1 = size.frame
    assert (x1 - x0, y1 - y0) == pytest.approx((long, short))
    assert x0 == pytest.approx(20)


@pytest.mark.parametrize(
    ("name", "across", "down"),
    # Number of fields of ISO 5457:1999, long by short side (from memory).
    [("iso-a0", 24, 16), ("iso-a1", 16, 12), ("iso-a2", 12, 8), ("iso-a3", 8, 6), ("iso-a4", 6, 4)],
)
def test_iso_sheets_have_the_standard_number_of_fields(name, across, down):
    size, _ = sheet_size(name)
    block, _ = titleblock_file.load("iso-7200")
    texts = [i.plain for i in border(size, block.layouts[-1]) if isinstance(i, Text)]
    assert max(int(t) for t in texts if t.isdigit()) == across
    assert len({t for t in texts if t.isalpha()}) == down
    assert not {"I", "O"} & set(texts)


def test_a4_upright_has_the_filing_margin_at_its_left():
    size, _ = sheet_size("iso-a4", "portrait")
    x0, y0, x1, y1 = size.frame
    assert (size.width, size.height) == (210, 297)
    assert (x1 - x0, y1 - y0) == pytest.approx((180, 277))  # ISO 5457, A4 (from memory)


def test_an_unknown_size_is_answered_with_the_nearest():
    size, found = sheet_size("arch-cc")
    assert size is None
    assert found[0].severity == "error"
    assert "arch-c" in found[0].help


def test_larger_sizes_stay_in_the_family_and_grow():
    assert next_larger("arch-c") == ("arch-d", "arch-e1", "arch-e")
    assert "iso-a4" in size_names()
