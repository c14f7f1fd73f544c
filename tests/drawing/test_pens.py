"""Pens: widths of the ISO 128-2 series, layer names in the form of their standards."""

import re
from typing import get_args

import pytest

from sheets.drawing import pens

# ISO 128-2: line widths 0.13 0.18 0.25 0.35 0.5 0.7 1 1.4 2 mm, successive ratio 1 to root 2.
SERIES = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0)
KINDS = get_args(pens.Where)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("pen", pens.PENS)
def test_every_pen_has_a_width_of_the_series(pen, kind):
    assert pens.style(pen, kind).width in SERIES


@pytest.mark.parametrize("group", [pens.SMALL_SCALE, pens.LARGE_SCALE])
def test_three_widths_go_one_to_two_to_four(group):
    # ISO 128-2, lines for construction: narrow, wide and extra wide lines as 1:2:4.
    fine, medium, wide = group["fine"], group["medium"], group["wide"]
    assert medium / fine == pytest.approx(2, rel=0.05)
    assert wide / fine == pytest.approx(4, rel=0.05)


def test_weights_fall_from_the_cut_to_the_hatch():
    for kind in ("elevation", "section", "detail"):
        order = [pens.style(p, kind).width for p in ("cut", "step", "edge")]
        assert order[0] > order[1] > order[2]
        assert pens.style("hatch", kind).width <= pens.style("edge", kind).width


def test_frame_is_as_wide_as_iso_5457_asks():
    assert pens.style("frame").width == 0.7  # ISO 5457:1999, 4.2: frame with a continuous line of 0.7 mm


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("pen", pens.PENS)
def test_layer_names_have_the_form_of_their_standard(pen, kind):
    # US National CAD Standard: discipline (1-2), major and minor of four characters, joined by hyphens.
    assert re.fullmatch(r"Z-[A-Z]{4}-[A-Z]{4}", pens.layer(pen, kind, "inch"))
    # ISO 13567-2: agent 2, element 6, presentation 2, one string, empty places filled with a hyphen.
    assert re.fullmatch(r"[A-Z]-[A-Z]{6}[ETHDJKGUB]-", pens.layer(pen, kind, "mm"))


def test_view_ids_name_their_kind():
    assert pens.where("section/mantel") == "section"
    assert pens.where("elevation") == "elevation"
    assert pens.where("schedule") == "sheet"


def test_the_place_of_a_detail_is_framed_by_the_line_that_iso_has_for_it():
    # ISO 128-2, line 05.1: long-dashed double-dotted narrow line, for the framing of particular fields or
    # areas (from memory). Narrow is the finest of the group.
    look = pens.style("detail place", "elevation", "mm")
    assert look.linetype == "LONG-DASHED-DOUBLE-DOTTED"
    assert look.width == pens.SMALL_SCALE["fine"]


def test_spaced_dashes_stand_as_iso_has_them():
    # ISO 128-2: dashed spaced is 12 d and a gap of 18 d; dashed is 12 d and a gap of 3 d (from memory).
    dash, gap = pens.linetypes("mm")["DASHED-SPACED"]
    assert gap / dash == pytest.approx(18 / 12, rel=0.05)
