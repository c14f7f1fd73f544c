"""The least that could write files as large as a set's: nothing is read, worked out or placed.

    python floor.py COUNTS OUT

COUNTS: a JSON file of `draw.py`. Each library's own calls write that many entities of each kind, to OUT.dxf
with as many blocks, layouts and viewports, and to OUT.pdf with as many pages and the set's own embedded font.
"""

import json
import sys
from pathlib import Path

import ezdxf
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

WORDS = "5'-2 1/2\""


def write_dxf(counts: dict, out: str) -> None:
    document = ezdxf.new("R2010")
    for k in range(counts["layers"]):
        document.layers.add(f"LAYER-{k}")
    blocks = [document.blocks.new(f"BLOCK-{k}") for k in range(counts["blocks"])]
    pictures = [document.blocks.new_anonymous_block("D") for _ in range(counts["dimension_blocks"])]
    layouts = [document.layouts.new(f"SHEET-{k}") for k in range(counts["pages"])]
    document.layouts.delete("Layout1")
    for layout in layouts:
        layout.page_setup(size=(36, 24), margins=(0, 0, 0, 0), units="inch")
    places = {
        "in_model": [document.modelspace()],
        "in_layouts": layouts,
        "in_blocks": blocks,
        "in_pictures": pictures,
    }
    for where, spaces in places.items():
        for kind, number in counts[where].items():
            for k in range(number):
                add(spaces[k % len(spaces)], kind, k, counts)
    document.saveas(out)


def add(space, kind: str, k: int, counts: dict) -> None:
    at, look = (k % 97, k % 89), {"layer": f"LAYER-{k % counts['layers']}"}
    match kind:
        case "LINE":
            space.add_line(at, (k % 83, k % 79), look)
        case "ARC":
            space.add_arc(at, 5, 0, 90, dxfattribs=look)
        case "CIRCLE":
            space.add_circle(at, 5, look)
        case "LWPOLYLINE":
            space.add_lwpolyline(corners(at, counts["polyline_corners"]), dxfattribs=look)
        case "SOLID":
            space.add_solid(corners(at, 4), look)
        case "HATCH":
            hatch = space.add_hatch(dxfattribs=look)
            if k < counts["patterned"]:
                hatch.set_pattern_fill("LINES", definition=[[45, (0, 0), (0, 0.125), []]])
            hatch.paths.add_polyline_path(corners(at, counts["hatch_corners"]))
        case "TEXT":
            space.add_text(WORDS, height=0.1, dxfattribs=look).set_placement(at)
        case "ATTDEF":
            space.add_attdef(f"TAG-{k}", at, WORDS, dxfattribs=look)
        case "MTEXT":
            space.add_mtext(WORDS, {"insert": at, **look})
        case "INSERT":
            block = space.add_blockref(f"BLOCK-{k % counts['blocks']}", at, look)
            for n in range(counts["attributes"]):
                block.add_attrib(f"TAG-{n}", WORDS, at, look)
        case "DIMENSION":
            geometry = f"*D{k % counts['dimension_blocks'] + 1}"
            points = {"defpoint": at, "defpoint2": at, "defpoint3": (k % 83, k % 79)}
            space.new_entity("DIMENSION", {"geometry": geometry, "dimtype": 32, **points, **look})
        case "VIEWPORT":
            space.add_viewport(at, (5, 5), (0, 0), 60)
        case _:
            raise ValueError(f"the floor draws no {kind}")


def corners(at: tuple[int, int], number: int) -> list[tuple[int, int]]:
    return [(at[0] + k * k, at[1] + 7 * k) for k in range(number)]


def write_pdf(counts: dict, out: str) -> None:
    pdfmetrics.registerFont(TTFont("Lettering", counts["font"]))
    canvas = Canvas(out, pagesize=(2592, 1728), pageCompression=1)
    for page in range(counts["pages"]):
        for _, number in shared(counts["lines"], counts["strokes"], page, counts["pages"]):
            canvas.lines([(k % 97, k % 89, k % 83, k % 79) for k in range(number)])
        for k, _ in shared(counts["fills"], counts["fills"], page, counts["pages"]):
            path = canvas.beginPath()
            path.moveTo(k % 97, k % 89)
            for x, y in corners((k % 97, k % 89), counts["fill_corners"] - 1):
                path.lineTo(x, y)
            canvas.drawPath(path, stroke=0, fill=1)
        canvas.setFont("Lettering", 9)
        for k, _ in shared(counts["shown"], counts["shown"], page, counts["pages"]):
            canvas.drawString(k % 97, k % 89, WORDS)
        canvas.showPage()
    canvas.save()


def shared(whole: int, groups: int, page: int, pages: int) -> list[tuple[int, int]]:
    """The groups that fall to a page, each with its number and its share of the whole."""
    return [(k, whole * (k + 1) // groups - whole * k // groups) for k in range(page, groups, pages)]


if __name__ == "__main__":
    counts = json.loads(Path(sys.argv[1]).read_text("utf-8"))
    write_dxf(counts, sys.argv[2] + ".dxf")
    write_pdf(counts, sys.argv[2] + ".pdf")
