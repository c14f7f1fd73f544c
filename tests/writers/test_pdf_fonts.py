"""Codes of letters: a page says the same bytes whatever stands on the other pages, and can be searched."""

from __future__ import annotations

import io
from dataclasses import replace

import pypdf
import pytest

from sheets.base.notation import Run
from sheets.drawing.items import DrawingSet, Sheet, Text, Weight
from sheets.drawing.lettering import settable
from sheets.geometry.box import Box
from sheets.writers.pdf import pdf
from tests.writers.hand_made_set import sample

# Letters outside ASCII in the order in which nobody would give them codes; some far from the usual ones.
_ODD = "Ω≤½Žěйλ→″×Ø"


def says(words: str, weight: Weight = "regular") -> Text:
    return Text((Run(words),), (30.0, 40.0), 2.5, weight=weight)


def with_text(sheet: Sheet, *texts: Text) -> Sheet:
    return replace(sheet, items=(*sheet.items, *texts))


def streams(drawing: DrawingSet) -> list[tuple[bytes, bytes]]:
    """The content of each page, as stored and as decoded."""
    found = []
    for page in pypdf.PdfReader(io.BytesIO(pdf(drawing))).pages:
        stored = page["/Contents"].get_object()
        assert isinstance(stored, pypdf.generic.StreamObject)
        found.append((stored._data, page.get_contents().get_data()))  # type: ignore[union-attr]
    return found


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_a_page_keeps_its_bytes_when_another_gets_other_letters(weight: Weight) -> None:
    first, *others = sample("inch").sheets
    last = with_text(others[-1], says("7 × Ø 1/4 – 90° é", weight))
    before = replace(sample("inch"), sheets=(first, *others[:-1], last))
    odd = [says(_ODD[::-1], weight), says(_ODD, "bold"), says(_ODD)]
    after = replace(before, sheets=(with_text(first, *odd), *others[:-1], last))
    was, now = streams(before), streams(after)
    assert was[0] != now[0]
    assert was[1:] == now[1:]


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_every_letter_is_found_whatever_subset_it_is_in(weight: Weight) -> None:
    words = f"oak {_ODD} cap"
    assert settable(words) == words
    sheet = with_text(sample("inch").sheets[0], says(words, weight))
    reader = pypdf.PdfReader(io.BytesIO(pdf(replace(sample("inch"), sheets=(sheet,)))))
    assert words in reader.pages[0].extract_text()


def test_only_the_letters_that_are_used_are_embedded() -> None:
    def embedded(*texts: Text) -> int:
        sheet = Sheet("Z-101", "PLAN", 200.0, 100.0, Box(10.0, 10.0, 190.0, 90.0), texts)
        drawing = DrawingSet("T", "1", "", "", "mm", (sheet,))
        fonts = pypdf.PdfReader(io.BytesIO(pdf(drawing))).pages[0]["/Resources"]["/Font"].values()  # type: ignore[index]
        return sum(len(f.get_object()["/FontDescriptor"]["/FontFile2"].get_data()) for f in fonts)

    few, many = embedded(says("a")), embedded(says("abcdefghijklmnopqrstuvwxyz"))
    assert few < many
    assert embedded(says("a" + _ODD)) > few
