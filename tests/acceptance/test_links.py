"""A sheet's number on another sheet leads there: from marks, the index and the schedules.

Links are read with pypdf, the words under them with pdfplumber.
"""

from __future__ import annotations

import re
from pathlib import Path

import pdfplumber
import pypdf

NUMBER = re.compile(r"Z-\d{3}")
Box = tuple[float, float, float, float]


def links(reader: pypdf.PdfReader) -> list[tuple[int, Box, int]]:
    """Page, box in points from the lower left corner, and page led to, of every link."""
    numbers = {page.indirect_reference.idnum: k for k, page in enumerate(reader.pages)}
    found = []
    for k, page in enumerate(reader.pages):
        for annotation in page.get("/Annots", ()):
            entry = annotation.get_object()
            x0, y0, x1, y1 = (float(v) for v in entry["/Rect"])
            found.append((k, (x0, y0, x1, y1), numbers[entry["/Dest"][0].idnum]))
    return found


def test_every_number_of_another_sheet_leads_to_it(drawn: Path, spec: Path) -> None:
    path = drawn / spec.stem / f"{spec.stem}.pdf"
    reader = pypdf.PdfReader(path)
    labels = reader.page_labels
    led = links(reader)
    wrong, followed = [], 0
    with pdfplumber.open(path) as pages:
        for k, page in enumerate(pages.pages):
            high = float(page.height)
            for word in page.extract_words():
                found = NUMBER.fullmatch(word["text"])
                if not found or word["text"] == labels[k]:
                    continue
                x, y = (word["x0"] + word["x1"]) / 2, high - (word["top"] + word["bottom"]) / 2
                goals = {goal for at, b, goal in led if at == k and b[0] <= x <= b[2] and b[1] <= y <= b[3]}
                if not goals and labels[k].startswith("Z-0"):
                    continue  # a symbol in the legend is a picture of a mark
                followed += 1
                if {labels[goal] for goal in goals} != {word["text"]}:
                    wrong.append((labels[k], word["text"], sorted(labels[goal] for goal in goals)))
    assert followed > 30
    assert wrong == []


def test_the_index_leads_to_every_sheet(drawn: Path, spec: Path) -> None:
    reader = pypdf.PdfReader(drawn / spec.stem / f"{spec.stem}.pdf")
    first = {k for k, label in enumerate(reader.page_labels) if label.startswith("Z-0")}
    led = {goal for at, _, goal in links(reader) if at in first}
    assert led >= set(range(len(reader.pages))) - first
