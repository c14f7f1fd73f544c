"""Sizes that come again and again in a string: said once, with what they come to, where each has no room."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction as F  # noqa: N817

import pytest
from made_views import INCH_MANNER, MM_MANNER, as_sheet, box_view, chain

from sheets.audit.defects import dimension_twice, text_over_line, text_over_text
from sheets.audit.sheet_ink import ink_of
from sheets.base.length import inch
from sheets.compose.placing.placed import place
from sheets.compose.scales import INCH, METRIC
from sheets.drawing.items import Dimension

TENTH, FIFTIETH = METRIC[3], METRIC[5]
BOARDS = [0, 96, *range(196, 1497, 100), 1592]  # 14 boards of 100 between two ripped ones


def _said(cuts, scale, how, *more):
    placed = place(box_view(cuts[-1], 900, strings=(chain("above", cuts), *more)), scale, how)
    ink = ink_of(as_sheet(placed))
    assert not [*text_over_text(ink), *text_over_line(ink), *dimension_twice(ink)]
    return [i for i in placed.items if isinstance(i, Dimension)]


def test_sizes_alike_with_room_for_each_are_each_said():
    assert [d.text.plain for d in _said(BOARDS, TENTH, MM_MANNER)] == ["96", *["100"] * 14, "96"]


def test_sizes_alike_without_room_are_said_once():
    found = _said(BOARDS, FIFTIETH, MM_MANNER)
    assert [d.text.plain for d in found] == ["96", "14 × 100 (= 1400)", "96"]
    (boards,) = [d for d in found if d.times > 1]
    assert (boards.times, boards.value, boards.value_text) == (14, 1400, "1400")
    assert (boards.a[0], boards.b[0]) == (96.0, 1496.0)
    assert boards.prefix + boards.value_text + boards.suffix == boards.text.plain


def test_in_inches_they_are_said_as_on_a_shop_drawing():
    cuts = [k * inch("55/16") for k in range(22)]
    (boards,) = _said(cuts, INCH[8], INCH_MANNER)
    assert boards.text.plain.replace("\u2009", " ") == '21 @ 3 7/16" = 6\'-0 3/16"'
    assert boards.value == 21 * inch("55/16")


def test_what_another_dimension_measures_is_not_measured_again():
    cuts = [k * 100 for k in range(15)]
    overall = chain("above", [0, 1400], rank=1, name="overall")
    said = [d.text.plain for d in _said(cuts, FIFTIETH, MM_MANNER, overall)]
    assert said == [*["100"] * 14, "1400"]


@pytest.mark.parametrize(
    "cuts", [[0, 100, 200, 300, 400], [0, 100, 201, 302, 400], [0, 100, 250, 350, 500, 600]]
)
def test_few_alike_and_those_apart_are_each_said(cuts):
    said = [d.text.plain for d in _said(cuts, FIFTIETH, MM_MANNER)]
    assert len(said) == len(cuts) - 1
    assert not any(re.search("[@×]", one) for one in said)


def test_sizes_to_verify_say_so_once():
    string = chain("above", [F(k * 100) for k in range(15)])
    string = replace(string, gaps=tuple(replace(g, verify=True) for g in string.gaps))
    placed = place(box_view(1400, 900, strings=(string,)), FIFTIETH, MM_MANNER)
    assert [i.text.plain for i in placed.items if isinstance(i, Dimension)] == ["14 × 100 (= 1400) ±"]
