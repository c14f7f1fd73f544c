"""Lettering: widths against an independent reader of the font, the layout of fractions, boxes."""

from itertools import pairwise

import pytest
from fontTools.ttLib import TTFont

from sheets.base.notation import Run
from sheets.drawing import lettering
from sheets.drawing.items import Text

HALF = (Run("5'-2"), Run("", 1, 2), Run('"'))


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_width_is_the_sum_of_the_advances_in_the_file(weight):
    font = TTFont(lettering.font_path(weight))
    cmap, advances = font.getBestCmap(), font["hmtx"]
    text = "MANTEL CAP, 5'-2 ½\" ± Ø × °"
    units = sum(advances[cmap[ord(c)]][0] for c in text)
    expected = units / font["head"].unitsPerEm * lettering.font_size(2.5)
    assert lettering.width(text, 2.5, weight) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_capitals_are_at_least_as_high_as_was_asked(weight):
    # From the outline of a flat capital: the height that the file's own table states is 1 % more.
    font = TTFont(lettering.font_path(weight))
    outline = font["glyf"][font.getBestCmap()[ord("H")]].yMax / font["head"].unitsPerEm
    assert 2.5 <= outline * lettering.font_size(2.5) < 2.52


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_every_character_a_drawing_needs_can_be_set(weight):
    cmap = TTFont(lettering.font_path(weight)).getBestCmap()
    for needed in "⌀±×°′″½¼⅛≈–—'\"№ÉÜß":
        assert lettering.missing(needed) == ()
        assert all(ord(c) in cmap for c in lettering.settable(needed))


def test_a_character_without_glyph_is_named_and_set_as_a_question_mark():
    assert lettering.missing("OAK 漢 ⌀") == ("漢",)
    assert lettering.settable("OAK 漢 ⌀6") == "OAK ? Ø6"


def test_fraction_stands_clear_of_its_bar_and_is_centred_on_the_capitals():
    for height in (1.8, 2.5, 3.5, 5.0):
        layout = lettering.fraction_layout(Run("", 15, 16), height)
        x0, x1, y = layout.bar
        assert y == pytest.approx(height / 2)
        assert layout.numerator[1] > y + layout.bar_width / 2
        assert layout.denominator[1] + layout.digit < y - layout.bar_width / 2
        assert layout.top - y == pytest.approx(y - layout.bottom)
        assert 0 < x0 < x1 < layout.width
        # ISO 3098-1: the smallest nominal height of lettering is 1.8 mm.
        assert layout.digit >= 1.8


def test_glyphs_follow_each_other_and_end_at_the_width():
    text = Text(HALF, (10.0, 20.0), 2.5)
    placed = lettering.glyph_runs(text)
    ordinary = [g for g in placed.glyphs if g.part == "text"]
    assert [g.text for g in placed.glyphs] == ["5'-2", "1", "2", '"']
    last = ordinary[-1]
    assert last.at[0] + last.width - 10.0 == pytest.approx(lettering.width(HALF, 2.5))
    for a, b in pairwise(ordinary):
        assert a.at[0] + a.width <= b.at[0]


def test_box_of_upright_text_is_the_box_of_level_text_turned():
    level = lettering.box(Text(HALF, (0.0, 0.0), 2.5, h="centre", v="middle"))
    upright = lettering.box(Text(HALF, (0.0, 0.0), 2.5, h="centre", v="middle", angle=90.0))
    assert upright == pytest.approx((-level[3], level[0], -level[1], level[2]))
    assert level[0] == pytest.approx(-level[2])


def test_box_holds_every_outline():
    font = TTFont(lettering.font_path())
    cmap, outlines, capital = font.getBestCmap(), font["glyf"], font["OS/2"].sCapHeight
    for c in "AÉÅgjQ(),;\"'/|½0×":
        _x0, y0, _x1, y1 = lettering.box(Text((Run(c),), (0.0, 0.0), 10.0))
        glyph = outlines[cmap[ord(c)]]
        assert y0 <= glyph.yMin * 10 / capital + 0.3, c  # 0.3 mm: round letters overshoot the line
        assert y1 >= glyph.yMax * 10 / capital - 0.3, c


def test_squeeze_narrows_all_of_a_text():
    for runs in (HALF, (Run("SCHEDULE"),)):
        assert lettering.width(runs, 2.5, "regular", 0.8) == pytest.approx(0.8 * lettering.width(runs, 2.5))
