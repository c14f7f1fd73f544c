"""The PDF read back by pypdf and pdfplumber."""

import io
from collections import Counter
from math import hypot

import pdfplumber
import pypdf
import pytest
from hand_made_set import sample
from read_back import pdf_texts

from sheets.drawing.pens import style
from sheets.drawing.walk import dimensions
from sheets.writers.pdf import pdf

SOURCE = b"wall: {width: 62 1/2}\n"


@pytest.fixture(scope="module", params=["inch", "mm"])
def both(request):
    drawing = sample(request.param)
    return drawing, pdf(drawing, (("alcove.yaml", SOURCE),))


def test_pages_have_the_size_of_their_standard(both):
    drawing, data = both
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        size = tuple(float(v) * 25.4 / 72 for v in page.mediabox[2:])
        # ISO 216: A2 is 420 x 594 mm. Architectural C is 18 x 24 in (common practice).
        expected = (594.0, 420.0) if drawing.units == "mm" else (24 * 25.4, 18 * 25.4)
        assert size == pytest.approx(expected, abs=0.01)


def test_every_dimension_text_is_found_as_one_string(both):
    drawing, data = both
    found = Counter(pdf_texts(data))
    printed = Counter(d.text.plain for sheet in drawing.sheets for d in dimensions(sheet.items))
    assert printed
    assert printed - found == Counter()


def test_a_stacked_fraction_is_searchable_in_pypdf():
    text = "\n".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(pdf(sample("inch")))).pages)
    for words in ("2'-7 1/4\"", "(5'-2 1/2\") V.I.F.", '3 3/16"', 'R15/16"', "OAK CAP, Ø 1/4 PEG"):
        assert words in text


def test_fonts_are_embedded_subsets(both):
    reader = pypdf.PdfReader(io.BytesIO(both[1]))
    fonts = {}
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            font = font.get_object()
            fonts[font["/BaseFont"]] = font
    assert fonts
    for name, font in fonts.items():
        assert name[7] == "+"  # ISO 32000-1, 9.6.4: six letters and a plus sign before a subset's name
        assert "SourceSansPro" in name
        assert len(font["/FontDescriptor"]["/FontFile2"].get_data()) > 1000


def test_lines_have_the_widths_and_dashes_of_their_pens(both):
    _, data = both
    mm = 25.4 / 72
    with pdfplumber.open(io.BytesIO(data)) as opened:
        elevation = opened.pages[1]
        drawn = elevation.lines + elevation.curves + elevation.rects
        widths = {round(item["linewidth"] * mm, 2) for item in drawn if item["stroke"]}
        dashed = [item for item in drawn if item.get("dash") and item["dash"][0]]
        detail = opened.pages[2]
        wide = {round(i["linewidth"] * mm, 2) for i in detail.lines + detail.curves + detail.rects}
    expected = {style(p, "elevation").width for p in ("outline", "step", "edge", "dimension", "frame")}
    assert expected <= widths
    dashes = {tuple(round(v * mm, 1) for v in item["dash"][0]) for item in dashed}
    assert dashes == {style(p, "elevation").dash for p in ("hidden", "centre")}
    assert style("cut", "detail").width in wide


def test_an_arc_is_round():
    # The arch of the sample is a half circle of 12 in at 1/16; each point of the path lies on it.
    with pdfplumber.open(io.BytesIO(pdf(sample("inch")))) as opened:
        page = opened.pages[1]
        arch = next(c for c in page.curves if abs(c["linewidth"] * 25.4 / 72 - 0.25) < 0.01 and not c["fill"])
        x0, x1 = arch["x0"] * 25.4 / 72, arch["x1"] * 25.4 / 72
    assert x1 - x0 == pytest.approx(24 * 25.4 / 16, abs=0.01)
    ends = [p[-1] for p in arch["path"]]
    centre = ((ends[0][0] + ends[-1][0]) / 2, ends[0][1])
    for x, y in ends:
        off = hypot(x - centre[0], y - centre[1]) * 25.4 / 72
        assert off == pytest.approx(12 * 25.4 / 16, abs=0.01)


def test_outline_labels_and_links_name_the_sheets(both):
    drawing, data = both
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert reader.page_labels == [s.number for s in drawing.sheets]
    titles = [o.title for o in reader.outline if not isinstance(o, list)]
    assert titles == [f"{s.number} {s.title}" for s in drawing.sheets]
    goals = {}
    for index, page in enumerate(reader.pages):
        for annotation in page.get("/Annots", ()):
            page_reached = annotation.get_object()["/Dest"][0].get_object()
            goals[index] = next(k for k, p in enumerate(reader.pages) if p == page_reached)
    assert goals == {0: 1, 1: 2}  # the note to the elevation, the detail mark to the details


def test_says_of_itself_what_the_set_says(both):
    drawing, data = both
    meta = pypdf.PdfReader(io.BytesIO(data)).metadata
    assert meta.title == "26-014 Alcove wall"
    assert meta.author == drawing.author
    assert meta["/CreationDate"] == "D:20260314000000Z"


def test_carries_its_source(both):
    assert pypdf.PdfReader(io.BytesIO(both[1])).attachments == {"alcove.yaml": [SOURCE]}


def test_a_gap_in_a_hatch_is_clipped_out():
    # Read from the operators: the hatch's strokes come after a clip that takes the gap's box out.
    reader = pypdf.PdfReader(io.BytesIO(pdf(sample("inch"))))
    code = reader.pages[1].get_contents().get_data().decode("latin-1")
    clip = code.index("re W* n")
    assert "0 0 1728 1296 re" in code[clip - 80 : clip]
