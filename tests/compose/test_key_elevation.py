"""The key on the first sheet leads to every plan, section and detail of the set, and points at its place."""

from __future__ import annotations

import re

import pytest
from shapely import LineString

from sheets.drawing.items import Symbol, Text, Viewport
from sheets.drawing.walk import ungrouped
from tests import drawn as sets

_SAYS = re.compile(r"\d+/Z-\d\d\d")


@pytest.fixture(scope="module")
def library():
    return sets.drawn(sets.ROOT / "specs" / "cider-house.yaml").drawing


@pytest.fixture(scope="module", params=["small", "library"])
def shown(request, drawn):
    """A set with one section, and one with three."""
    return drawn[0] if request.param == "small" else request.getfixturevalue("library")


def callouts(drawing):
    """The callouts of the key by what they say: the text, and its leader from text to target."""
    items = tuple(ungrouped(drawing.sheets[0].items))
    return {
        item.plain: (item, [items[k - 2].path[0].first, *(s.last for s in items[k - 2].path)])
        for k, item in enumerate(items)
        if isinstance(item, Text) and _SAYS.fullmatch(item.plain)
    }


def titles(drawing):
    return {
        item.id: f"{item.number}/{sheet.number}"
        for sheet in drawing.sheets
        for item in sheet.items
        if isinstance(item, Viewport)
    }


def test_every_view_but_the_pictures_is_led_to_once(shown):
    pictures = ("elevation", "axonometric", "part")  # a part by itself is taken from nowhere
    expected = sorted(says for view, says in titles(shown).items() if view.split("/")[0] not in pictures)
    assert sorted(callouts(shown)) == expected


def test_each_callout_links_to_the_sheet_that_it_names(shown):
    assert all(text.link == says.split("/")[1] for says, (text, _) in callouts(shown).items())


def test_sections_stand_in_the_key_as_their_marks_do_on_the_elevation(library):
    where, key = titles(library), callouts(library)
    (elevation,) = (
        item
        for sheet in library.sheets
        for item in sheet.items
        if isinstance(item, Viewport) and item.id == "elevation"
    )
    marks = [i for i in elevation.items if isinstance(i, Symbol) and i.target.startswith("section/")]
    places = sorted((mark.at[0], key[where[mark.target]][1][-1][0]) for mark in marks)
    (a, p), (b, q), (c, r) = places
    assert (q - p) / (b - a) == pytest.approx((r - q) / (c - b))
    assert 0 < (q - p) / (b - a) < 1


def test_leaders_of_the_key_do_not_cross(shown):
    leaders = [LineString(leader) for _, leader in callouts(shown).values()]
    assert len(leaders) > 2
    assert not any(a.crosses(b) for n, a in enumerate(leaders) for b in leaders[:n])
