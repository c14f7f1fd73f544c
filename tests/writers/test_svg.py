"""SVG of a sheet, read back with the standard library: size, groups, words; nothing of the clock."""

import re
from collections import Counter
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont
from hand_made_set import sample

from sheets.base.notation import Run
from sheets.drawing.items import Text, Viewport
from sheets.drawing.lettering import font_path
from sheets.drawing.walk import dimensions, group, leaves
from sheets.writers.svg import svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module", params=["inch", "mm"])
def drawing(request):
    return sample(request.param)


@pytest.fixture(scope="module")
def sheet():
    return sample("inch").sheets[1]


def read(sheet, *items):
    return ElementTree.fromstring(svg(replace(sheet, items=items) if items else sheet))


def said(element):
    return "".join(element.itertext())


def test_it_has_the_size_of_the_sheet_and_no_date(sheet):
    data = svg(sheet)
    root = ElementTree.fromstring(data)
    assert root.get("width") == f"{sheet.width:g}mm"
    assert root.get("viewBox") == f"0 0 {sheet.width:g} {sheet.height:g}"
    assert not re.search(rb"\d{4}-\d\d-\d\d", data)
    assert svg(sample("inch").sheets[1]) == data


def test_every_text_is_one_string_as_it_is_read(drawing):
    for sheet in drawing.sheets:
        expected = Counter(leaf.plain for _, leaf in leaves(sheet.items) if isinstance(leaf, Text))
        # What the font lacks is set by its usual substitute.
        found = Counter(said(text) for text in read(sheet).iter(f"{SVG}text"))
        assert found == Counter({words.replace("\u2300", "\u00d8"): n for words, n in expected.items()})


def test_views_and_dimensions_are_groups_with_their_keys(drawing):
    for sheet in drawing.sheets:
        groups = Counter((g.get("class"), g.get("data-key")) for g in read(sheet).iter(f"{SVG}g"))
        for view in (item for item in sheet.items if isinstance(item, Viewport)):
            assert groups["view", view.id] == 1
        for dimension in dimensions(sheet.items):
            assert groups["dimension", dimension.id] >= 1


def test_a_mark_says_where_it_leads_and_a_row_what_it_is(sheet):
    row = group("row", 'C2 & "D"', "C2 | SHELF", (Text((Run("C2"),), (20.0, 20.0), 2.5, link="Z-501"),))
    (found,) = read(sheet, row, row).findall(f"{SVG}g[@class='row']")[:1]
    assert found.get("data-key") == 'C2 & "D"'
    assert found.find(f"{SVG}text").get("data-sheet") == "Z-501"
    mark = next(g for g in read(sheet).iter(f"{SVG}g") if g.get("class") == "detail-mark")
    assert (mark.get("data-sheet"), mark.get("data-view")) == ("Z-501", "detail/cap")


def test_no_two_elements_have_one_identifier_whatever_they_are_called(sheet):
    text = Text((Run("X"),), (20.0, 20.0), 2.5)
    keys = ("a", "a", "a/b", "a-b", "a_2", "a.2", "ä", "")
    root = read(sheet, *(group("note", key, "X", (text,)) for key in keys))
    names = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(names) == len(keys)
    assert len(set(names)) == len(names)
    every = [e.get("id") for s in sample("inch").sheets for e in read(s).iter() if e.get("id")]
    assert len(set(every)) == len(every)


def test_lettering_is_as_wide_as_the_font_says(sheet):
    # The advances are read from the font itself; capitals are 0.654 of its size (from the outline of H).
    font = TTFont(font_path("bold"))
    names, widths = font.getBestCmap(), font["hmtx"]
    expected = sum(widths[names[ord(c)]][0] for c in "SHELF") / font["head"].unitsPerEm * 5.0 / 0.654
    (text,) = read(sheet, Text((Run("SHELF"),), (20.0, 20.0), 5.0, weight="bold")).iter(f"{SVG}text")
    assert float(text.get("textLength")) == pytest.approx(expected, abs=0.006)
    assert float(text.get("font-size")) == pytest.approx(5.0 / 0.654, abs=0.006)
    assert text.get("class") == "bold"


def test_lettering_stands_where_it_does_on_paper(sheet):
    low, turned = (
        Text((Run("A"),), (30.0, 40.0), 2.5),
        Text((Run("A"),), (30.0, 40.0), 2.5, "centre", "middle", 90.0, squeeze=0.8),
    )
    plain, moved = read(sheet, low, turned).iter(f"{SVG}text")
    assert (float(plain.get("x")), float(plain.get("y"))) == (30.0, pytest.approx(sheet.height - 40.0))
    place = f"translate(30 {sheet.height - 40:g})"
    assert moved.get("transform") == f"{place} rotate(-90) scale(0.8 1)"
    # Half of the capitals' height under the anchor, which is the middle of the line.
    assert (moved.get("text-anchor"), float(moved.get("y"))) == ("middle", 1.25)


def test_a_stacked_fraction_is_found_as_it_is_written(sheet):
    runs = (Run("5'-2"), Run("", 1, 2), Run('"'))
    (text,) = read(sheet, Text(runs, (30.0, 40.0), 2.5)).iter(f"{SVG}text")
    assert said(text) == "5'-2 1/2\""
    upper, lower = (t for t in text if said(t) in ("1", "2") and t.get("font-size"))
    assert float(upper.get("y")) < float(lower.get("y")) - 1.8  # the least height of digits, mm


def test_nothing_said_breaks_the_file(sheet):
    said_by_a_user = 'A < B & "C" ]]> \x0b\x1b[31m \ufffe'
    root = read(sheet, Text((Run(said_by_a_user),), (30.0, 40.0), 2.5, key=said_by_a_user))
    (text,) = root.iter(f"{SVG}text")
    assert said(text).startswith('A < B & "C" ]]>')
    assert text.get("data-key").startswith('A < B & "C" ]]>')
