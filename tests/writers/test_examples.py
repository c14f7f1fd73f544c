"""What the examples' files say, read back by libraries that did not write them."""

import re
from collections import Counter

import pyogrio.raw
import pytest
from read_back import dxf_dimensions, dxf_document, length_mm, pdf_texts

from sheets.drawing.items import Text
from sheets.drawing.lettering import missing
from sheets.drawing.walk import dimensions, leaves, links
from tests.drawn import EXAMPLES, drawn

_BESIDES = re.compile(r"^.*(@|×).*=|[±≈()R]|V\.I\.F\.|EQ")  # of a size that comes again, what all come to


def test_there_are_examples():
    assert len(EXAMPLES) >= 4


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def example(request):
    found = drawn(request.param)
    files = dict(found.files)
    stem = request.param.stem
    return found.drawing, files[f"{stem}.pdf"], files[f"{stem}.dxf"]


def test_every_dimension_measures_what_it_prints(example):
    drawing, _, data = example
    unit = 25.4 if drawing.units == "inch" else 1.0
    found = dxf_dimensions(dxf_document(data))
    assert len(found) > 20
    for entity, printed in found:
        said = length_mm(_BESIDES.sub("", printed).strip(), drawing.units)
        # A size that no fraction to 1/64 in says is printed with the mark of an approximation; a radius is
        # printed on the drawing's grid.
        rounded = "≈" in printed or entity.dimtype == 4
        allowed = (25.4 / 32 if drawing.units == "inch" else 0.5) if rounded else 1e-6
        assert entity.get_measurement() * unit == pytest.approx(said, abs=allowed), printed


def test_a_dimension_measures_between_points_of_the_view(example):
    drawing, _, _ = example
    for sheet in drawing.sheets:
        for item in dimensions(sheet.items):
            if item.kind == "linear":
                along = 0 if item.angle == 0 else 1
                span = abs(item.b[along] - item.a[along])
                assert span == pytest.approx(float(item.value), abs=1e-6), item.id


def test_pdf_and_dxf_print_the_same_dimensions(example):
    drawing, pdf, dxf = example
    in_dxf = Counter(text for _, text in dxf_dimensions(dxf_document(dxf)))
    composed = Counter(d.text.plain for sheet in drawing.sheets for d in dimensions(sheet.items))
    assert in_dxf == composed
    assert in_dxf - Counter(pdf_texts(pdf)) == Counter()


def test_no_audit_finding(example):
    audit = dxf_document(example[2]).audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_gdal_finds_every_dimension_text(example, tmp_path):
    drawing, _, data = example
    path = tmp_path / "set.dxf"
    path.write_bytes(data)
    meta, _, _, columns = pyogrio.raw.read(path)
    texts = dict(zip(meta["fields"], columns, strict=True))["Text"]
    # GDAL leaves out a stack's bar, and takes UTF-8 for Latin 1.
    read = Counter(t.encode("latin-1", "ignore").decode("utf-8", "ignore") for t in texts if t)
    for sheet in drawing.sheets:
        for item in dimensions(sheet.items):
            printed = item.text.plain.replace("/", "")
            assert read[printed] > 0, printed


def test_every_letter_can_be_set_and_every_link_leads_somewhere(example):
    drawing, _, _ = example
    numbers = {sheet.number for sheet in drawing.sheets}
    marks = 0
    for sheet in drawing.sheets:
        for _, leaf in leaves(sheet.items):
            if isinstance(leaf, Text):
                assert missing(leaf.plain) == ()
        for link in links(sheet.items):
            marks += 1
            assert link.sheet in numbers
    assert marks > 0
