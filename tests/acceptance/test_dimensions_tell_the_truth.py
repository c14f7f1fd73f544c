"""A dimension tells the truth: what is printed, read back as a length, is what is measured.

The DXF is read with ezdxf and with GDAL, the PDF with pdfplumber; neither wrote the other.
"""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from pathlib import Path

import ezdxf
import pdfplumber
import pytest

INCH = Fraction(127, 5)
# prefix R, suffixes EQ and ± belong to the dimension's text but not to its size
SIZE = re.compile(r"^(?:R ?)?(?P<size>.*?)(?: EQ)?(?: ?±)?$")
FEET = re.compile(r"^(?:(?P<feet>\d+)'-)?(?:(?P<inches>\d+)(?=[ \"]|$))?(?: ?(?P<num>\d+)/(?P<den>\d+))?\"?$")


# So many at so much, and what they come to: 21 × 100 (= 2100), or 21 @ 4" = 7'-0".
REPEATED = re.compile(r"^(?P<count>\d+) (?:×|@) (?P<each>[^=(]+?) (?:\(= (?P<sum_mm>[^)]+)\)|= (?P<sum>.+))$")


def size_of(text: str, unit_mm: Fraction) -> Fraction:
    """A size as a shop reads it, in mm: an own reader, not the program's. Of several alike, their sum."""
    several = REPEATED.match(text.strip())
    if several:
        total = size_of(several["sum_mm"] or several["sum"], unit_mm)
        assert int(several["count"]) * size_of(several["each"], unit_mm) == total, text
        return total
    body = SIZE.match(text.strip())
    assert body, text
    plain = body["size"].strip().removeprefix("≈")
    if unit_mm == 1:
        return Fraction(plain)
    found = FEET.match(plain)
    assert found, text
    inches = Fraction(12 * int(found["feet"] or 0) + int(found["inches"] or 0))
    if found["num"]:
        inches += Fraction(int(found["num"]), int(found["den"]))
    return inches * INCH


def unstacked(content: str) -> str:
    """The words of an MTEXT: a stacked fraction \\S1/2; becomes 1/2."""
    content = re.sub(r"\\S(\d+)[/#^](\d+);", r" \1/\2", content)
    content = re.sub(r"\\[A-Za-z][^;\\{}]*;|[{}]", "", content)
    return re.sub(r"\s+", " ", content).strip()


def dimension_texts(dxf: Path) -> list[tuple[str, float, float]]:
    """(text as shown, measured size in mm, mm per drawing unit) of every DIMENSION."""
    document = ezdxf.readfile(dxf)
    unit = {1: 25.4, 4: 1.0}[document.header["$INSUNITS"]]
    found = []
    for layout in document.layouts:
        for dimension in layout.query("DIMENSION"):
            shown = [
                unstacked(entity.text if entity.dxftype() == "MTEXT" else entity.dxf.text)
                for entity in document.blocks.get(dimension.dxf.geometry)
                if entity.dxftype() in ("MTEXT", "TEXT")
            ]
            measured = dimension.get_measurement()
            found.append((" ".join(shown), float(measured) * unit, unit))
    return found


def test_every_dimension_in_the_dxf_says_what_it_measures(drawn: Path, spec: Path) -> None:
    found = dimension_texts(drawn / spec.stem / f"{spec.stem}.dxf")
    assert len(found) > 40
    for text, measured, unit in found:
        unit_mm = INCH if unit == 25.4 else Fraction(1)
        rounded = "≈" in text  # said on the sheet: to 1/8 in or 1 mm; all others are exact
        allowed = (0.5 if unit_mm == 1 else 25.4 / 16) if rounded else 0.01
        assert float(size_of(text, unit_mm)) == pytest.approx(measured, abs=allowed), text


def test_pdf_and_dxf_print_the_same_dimensions(drawn: Path, spec: Path) -> None:
    """Each dimension text of the DXF stands in the PDF at least as often."""
    dxf = Counter(
        re.sub(r"\s+", "", text) for text, _, _ in dimension_texts(drawn / spec.stem / f"{spec.stem}.dxf")
    )
    with pdfplumber.open(drawn / spec.stem / f"{spec.stem}.pdf") as pdf:
        printed = "".join(
            re.sub(r"\s+", "", "".join(char["text"] for char in page.chars)) for page in pdf.pages
        )
    missing = {text: count for text, count in dxf.items() if printed.count(text) < count}
    assert not missing


def test_gdal_reads_the_same_dimension_texts(drawn: Path) -> None:
    """GDAL gives the model space: the dimensions' own geometry, text included.

    It drops the bar of a stacked fraction and reads the file as an old code page, so digits are held.
    """
    pyogrio = pytest.importorskip("pyogrio")
    path = drawn / "ferry-landing" / "ferry-landing.dxf"
    frame = pyogrio.raw.read(path, columns=["Text"])
    seen = Counter(re.sub(r"[^0-9'\"R-]", "", str(text)) for text in frame[3][0] if text)
    ours = Counter(re.sub(r"[^0-9'\"R-]", "", text) for text, _, _ in dimension_texts(path))
    assert sum(ours.values()) > 100
    assert not {text: count for text, count in ours.items() if seen[text] < count}


def test_the_dxf_has_no_audit_finding(drawn: Path, spec: Path) -> None:
    document = ezdxf.readfile(drawn / spec.stem / f"{spec.stem}.dxf")
    auditor = document.audit()
    assert not auditor.errors
    assert not auditor.fixes
    kinds = Counter(entity.dxftype() for layout in document.layouts for entity in layout)
    assert kinds["DIMENSION"]
    assert kinds["HATCH"]
    assert kinds["INSERT"]
    assert kinds["VIEWPORT"] >= 2
