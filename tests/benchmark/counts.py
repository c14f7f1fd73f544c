"""What a set's files hold, by kind: what the floor of the benchmark has to write."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import ezdxf
from pypdf import PdfReader

from sheets.drawing.lettering import font_path

_WHOLE_SHEET = 1  # number of the viewport that every layout has of itself


def counted(dxf: Path, pdf: Path) -> dict:
    """Return the numbers that `floor.py` takes."""
    return _in_dxf(dxf) | _in_pdf(pdf) | {"font": str(font_path("regular"))}


def _in_dxf(path: Path) -> dict:
    document = ezdxf.readfile(path)
    blocks = [b for b in document.blocks if not b.is_any_layout]
    pictures = [b for b in blocks if b.name.startswith("*D")]
    others = [b for b in blocks if not b.name.startswith("*D")]
    layouts = [document.layouts.get(name) for name in document.layouts.names() if name != "Model"]
    every = list(document.entitydb.values())
    kinds = Counter(entity.dxftype() for entity in every)
    hatches = [entity for entity in every if entity.dxftype() == "HATCH"]
    polylines = [entity for entity in every if entity.dxftype() == "LWPOLYLINE"]
    sides = [len(path.vertices) for hatch in hatches for path in hatch.paths]
    return {
        "layers": kinds["LAYER"],
        "blocks": len(others),
        "dimension_blocks": len(pictures),
        "in_model": _kinds([document.modelspace()]),
        "in_layouts": _kinds(layouts),
        "in_blocks": _kinds(others),
        "in_pictures": _kinds(pictures),
        "attributes": round(kinds["ATTRIB"] / kinds["INSERT"]),
        "polyline_corners": round(sum(map(len, polylines)) / len(polylines)),
        "hatch_corners": round(sum(sides) / len(hatches)),
        "patterned": sum(not hatch.dxf.solid_fill for hatch in hatches),
    }


def _kinds(spaces: list) -> dict[str, int]:
    found = Counter(
        entity.dxftype()
        for space in spaces
        for entity in space
        if not (entity.dxftype() == "VIEWPORT" and entity.dxf.id == _WHOLE_SHEET)
    )
    return dict(sorted(found.items()))


def _in_pdf(path: Path) -> dict:
    # Figures of stacked fractions are set as shapes under a matrix (cm); here they are lettering.
    pages = PdfReader(path).pages
    found: Counter[str] = Counter()
    for page in pages:
        code = re.sub(rb"\((?:[^()\\]|\\.)*\)", b"", page.get_contents().get_data())
        pieces = corners = 0
        figure = False
        for word in code.split():
            match word:
                case b"m":
                    pieces, corners = pieces + 1, corners + 1
                case b"l" | b"c":
                    corners += 1
                case b"cm":
                    figure = True
                case b"BT":
                    found["shown"] += 1
                case b"S":
                    found["strokes"] += 1
                    found["lines"] += corners - pieces
                case b"f" | b"f*" if figure:
                    found["shown"] += 1
                case b"f" | b"f*":
                    found["fills"] += 1
                    found["corners of fills"] += corners
            if word in (b"S", b"f", b"f*", b"n"):
                pieces = corners = 0
                figure = False
    return {
        "pages": len(pages),
        "shown": found["shown"],
        "strokes": found["strokes"],
        "lines": found["lines"],
        "fills": found["fills"],
        "fill_corners": round(found["corners of fills"] / found["fills"]),
    }
