"""The DXF read back by ezdxf and by GDAL."""

from collections import Counter

import pyogrio.raw
import pytest
from fontTools.ttLib import TTFont
from hand_made_set import sample
from read_back import dxf_dimensions, dxf_document, length_mm, pdf_texts

from sheets.drawing.lettering import font_path
from sheets.drawing.pens import style
from sheets.drawing.walk import dimensions, viewports
from sheets.writers.dxf import dxf
from sheets.writers.pdf import pdf

ALWAYS = {"BYLAYER", "BYBLOCK", "CONTINUOUS"}
"""Linetypes that every DXF has."""


@pytest.fixture(scope="module", params=["inch", "mm"])
def both(request):
    drawing = sample(request.param)
    data = dxf(drawing)
    return drawing, data, dxf_document(data)


def _size(printed):
    for word in ("(", ")", "V.I.F.", "EQ", "R"):
        printed = printed.replace(word, "")
    return printed.strip()


def test_no_audit_finding(both):
    audit = both[2].audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_a_dimension_measures_what_it_says(both):
    drawing, _, doc = both
    unit = 25.4 if drawing.units == "inch" else 1.0
    found = dxf_dimensions(doc)
    assert len(found) == 7
    for entity, printed in found:
        if entity.dimtype == 4:
            continue  # the sample's radius is printed to the nearest 1/16
        said = length_mm(_size(printed), drawing.units)
        assert entity.get_measurement() * unit == pytest.approx(said, abs=1e-9)
        assert entity.dxf.actual_measurement * unit == pytest.approx(said, abs=1e-9)
        assert "<>" in entity.dxf.text


def test_dimension_texts_are_the_same_as_in_the_pdf(both):
    drawing, _, doc = both
    in_dxf = Counter(text for _, text in dxf_dimensions(doc))
    printed = Counter(d.text.plain for sheet in drawing.sheets for d in dimensions(sheet.items))
    assert in_dxf == printed
    assert in_dxf - Counter(pdf_texts(pdf(drawing))) == Counter()


def test_units_are_declared(both):
    drawing, _, doc = both
    # Autodesk's DXF reference, $INSUNITS: 1 inches, 4 millimetres (from memory).
    assert doc.header["$INSUNITS"] == (1 if drawing.units == "inch" else 4)


def test_each_sheet_is_a_layout_of_its_size_with_viewports_to_scale(both):
    drawing, _, doc = both
    assert doc.layout_names_in_taborder() == ["Model", *(s.number for s in drawing.sheets)]
    for sheet in drawing.sheets:
        layout = doc.layouts.get(sheet.number)
        assert layout.dxf_layout.dxf.paper_width == pytest.approx(sheet.width)
        assert layout.dxf_layout.dxf.paper_height == pytest.approx(sheet.height)
        windows = [v for v in layout.query("VIEWPORT") if v.dxf.id != 1]
        for window, view in zip(windows, viewports(sheet), strict=True):
            assert window.dxf.height / window.dxf.view_height == pytest.approx(float(view.scale))
            assert window.dxf.flags & 16384  # zoom locked


def test_views_do_not_overlap_in_model_space(both):
    drawing, _, doc = both
    windows = sorted(
        (v.dxf.view_center_point.x - v.dxf.view_height * v.dxf.width / v.dxf.height / 2,
         v.dxf.view_center_point.x + v.dxf.view_height * v.dxf.width / v.dxf.height / 2)
        for s in drawing.sheets for v in doc.layouts.get(s.number).query("VIEWPORT") if v.dxf.id != 1
    )  # fmt: skip
    assert len(windows) == 2
    assert windows[0][1] < windows[1][0]


def test_arcs_are_arcs_and_circles_are_circles(both):
    drawing, _, doc = both
    size = 1.0 if drawing.units == "inch" else 25.0
    arc = doc.modelspace().query("ARC").first
    assert arc.dxf.radius == pytest.approx(12 * size)
    assert (arc.dxf.end_angle - arc.dxf.start_angle) % 360 == pytest.approx(180)
    circle = doc.modelspace().query("CIRCLE").first
    assert circle.dxf.radius * (25.4 if drawing.units == "inch" else 1) == pytest.approx(24.0)


def test_a_hatch_has_its_pattern_its_hole_and_its_gap(both):
    _, _, doc = both
    hatches = {h.dxf.pattern_name: h for h in doc.modelspace().query("HATCH")}
    grain = hatches["WOOD-END"]
    assert [p.path_type_flags & 1 for p in grain.paths] == [1, 0]
    assert len(grain.pattern.lines) == 2
    assert len(hatches["MASONRY"].paths) == 2  # the box left clear for text is a hole


def test_symbols_are_references_with_attributes(both):
    drawing, _, doc = both
    mark = doc.modelspace().query("INSERT").first
    assert {a.dxf.tag: a.dxf.text for a in mark.attribs} == {"NUMBER": "1", "SHEET": "Z-501"}
    names = set()
    for sheet in drawing.sheets:
        block = doc.layouts.get(sheet.number).query("INSERT").first
        names.add(block.dxf.name)
        assert block.get_attrib_text("NUMBER") == sheet.number
        assert block.get_attrib_text("TITLE") == sheet.title
    assert names == {"TITLE-BLOCK"}  # one block serves all sheets
    tags = {d.dxf.tag for d in doc.blocks.get("TITLE-BLOCK").query("ATTDEF")}
    assert tags == {"NUMBER", "TITLE", "PROJECT"}


def test_layers_have_line_weights_and_linetypes(both):
    drawing, _, doc = both
    used = {e.dxf.layer for e in doc.modelspace()}
    assert len(used) > 6
    for name in used:
        assert doc.layers.get(name).dxf.lineweight in (13, 18, 25, 35, 50, 70, 100)
    hidden = "Z-ELEV-HIDN" if drawing.units == "inch" else "X-ELHIDNE-"
    # Names of ASME Y14.2 in a US set, of ISO 128-2 in a metric one.
    dashed = "HIDDEN" if drawing.units == "inch" else "DASHED"
    assert doc.layers.get(hidden).dxf.linetype == dashed
    named = {name for name in (each.dxf.name for each in doc.linetypes) if name.upper() not in ALWAYS}
    assert named == (
        {"HIDDEN", "OVERHEAD", "CENTER", "PHANTOM"}
        if drawing.units == "inch"
        else {"DASHED", "DASHED-SPACED", "LONG-DASHED-DOTTED", "LONG-DASHED-DOUBLE-DOTTED"}
    )


def test_text_styles_name_the_face_that_the_pdf_embeds(both):
    _, _, doc = both
    for weight, name in (("regular", "LETTERING"), ("bold", "LETTERING-BOLD")):
        face = doc.styles.get(name)
        assert face.dxf.font == font_path(weight).name
        family, _, bold = face.get_extended_font_data()
        assert family == TTFont(font_path(weight))["name"].getDebugName(1)
        assert bold == (weight == "bold")
        # A machine without it takes any face of variable pitch (2) without serifs (32), by the LOGFONT of the
        # DXF Reference's text styles (from memory).
        assert face.get_xdata("ACAD")[1].value & 0xFF == 2 + 32
        assert face.dxf.width == 1.0


def test_dashes_have_their_length_on_paper(both):
    drawing, _, doc = both
    unit = 25.4 if drawing.units == "inch" else 1.0
    hidden = next(e for e in doc.modelspace() if e.dxf.layer.endswith(("ELEV-HIDN", "ELHIDNE-")))
    dash = doc.linetypes.get("HIDDEN" if unit != 1.0 else "DASHED").pattern_tags.tags
    first = next(tag.value for tag in dash if tag.code == 49)
    assert doc.header["$PSLTSCALE"] == 0
    # Full size in model space, 1 to 16 on paper.
    assert first * unit * hidden.dxf.ltscale / 16 == pytest.approx(style("hidden").dash[0])


def test_gdal_reads_the_same_geometry(both, tmp_path):
    drawing, data, _ = both
    path = tmp_path / "set.dxf"
    path.write_bytes(data)
    meta, _, shapes, columns = pyogrio.raw.read(path)
    values = dict(zip(meta["fields"], columns, strict=True))
    assert len(shapes) > 30
    texts = Counter(t for t in values["Text"] if t)
    # GDAL takes a stack's separator for a part of its code: 5'-2 12" for 5'-2 1/2".
    printed = Counter(
        d.text.plain.replace("/", "") for sheet in drawing.sheets for d in dimensions(sheet.items)
    )
    assert printed - texts == Counter()


def test_the_library_is_left_as_it_was():
    import ezdxf

    assert ezdxf.options.write_fixed_meta_data_for_testing is False
