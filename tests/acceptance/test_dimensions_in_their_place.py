"""A dimension stands where it measures, in both files: its lines at the points it measures, its points on
lines of the view, and the same words at the same place of the PDF.

The DXF is read with ezdxf through its viewports, the PDF with pdfplumber.
"""

from __future__ import annotations

import math
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from io import StringIO
from itertools import pairwise
from pathlib import Path

import ezdxf
import pdfplumber
from ezdxf.document import Drawing
from ezdxf.entities import DXFEntity

from sheets.base.notation import Run
from sheets.drawing.items import Dimension, DrawingSet, Item, Viewport
from sheets.geometry.path import shifted
from sheets.writers.dxf import dxf
from sheets.writers.pdf import pdf
from tests.acceptance.stages import staged
from tests.acceptance.test_dimensions_tell_the_truth import unstacked

Point = tuple[float, float]
APPLICATION = "SHOPSET"
PAPER_MM = 0.05  # what a plotter can show
JOINT_MM = 1.0  # a joint is measured to its middle: so far from the two edges it lies between
SIZE_ALONE = re.compile(r"R?\d+|R?(\d+'-)?\d+( \d+/\d+)?\"|R?(\d+'-)?\d+/\d+\"")


@dataclass(frozen=True)
class Window:
    """A viewport: a box of model space and how it lies on its sheet."""

    sheet: str
    box: tuple[float, float, float, float]  # model units
    centre: Point  # paper units
    scale: float  # paper units to a model unit
    mm: float  # mm to a unit, of paper as of the model

    def holds(self, p: Point) -> bool:
        return self.box[0] <= p[0] <= self.box[2] and self.box[1] <= p[1] <= self.box[3]

    def on_paper_mm(self, p: Point) -> Point:
        x = self.centre[0] + (p[0] - (self.box[0] + self.box[2]) / 2) * self.scale
        y = self.centre[1] + (p[1] - (self.box[1] + self.box[3]) / 2) * self.scale
        return x * self.mm, y * self.mm

    @property
    def tolerance(self) -> float:
        """PAPER_MM in model units."""
        return PAPER_MM / self.mm / self.scale


def windows(document: Drawing) -> list[Window]:
    mm = {1: 25.4, 4: 1.0}[document.header["$INSUNITS"]]
    found = []
    for name in document.layout_names_in_taborder():
        if name == "Model":
            continue
        for port in document.layouts.get(name).query("VIEWPORT"):
            if port.dxf.id == 1:
                continue
            x, y, _ = port.dxf.view_center_point
            high = port.dxf.view_height
            wide = high * port.dxf.width / port.dxf.height
            box = (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
            centre = (port.dxf.center.x, port.dxf.center.y)
            found.append(Window(name, box, centre, port.dxf.height / high, mm))
    return found


def pieces(entity: DXFEntity) -> Iterator[tuple[Point, Point]]:
    """The straight pieces of an entity; of an arc the chords of its quarters, ends and extremes included."""
    kind = entity.dxftype()
    if kind == "LINE":
        yield tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]
    elif kind == "LWPOLYLINE":
        points = [(x, y) for x, y in entity.get_points("xy")]
        yield from zip(points, [*points[1:], points[0]] if entity.closed else points[1:], strict=False)
        for part in entity.virtual_entities():
            if part.dxftype() == "ARC":
                yield from pieces(part)
    elif kind in ("ARC", "CIRCLE"):
        first, last = (entity.dxf.start_angle, entity.dxf.end_angle) if kind == "ARC" else (0.0, 360.0)
        last += 360.0 if last <= first else 0.0
        turns = [first, *(q for q in range(0, 721, 90) if first < q < last), last]
        c, r = entity.dxf.center, entity.dxf.radius
        at = [(c.x + r * math.cos(math.radians(a)), c.y + r * math.sin(math.radians(a))) for a in turns]
        yield from pairwise(at)


def linear(document: Drawing) -> list[tuple[DXFEntity, int, float, float]]:
    """Each linear dimension with the axis it runs along (0 across, 1 up) and where it starts and ends."""
    found = []
    for entity in document.modelspace().query("DIMENSION"):
        if entity.dimtype == 0:
            i = 1 if abs(entity.dxf.angle - 90.0) < 1e-9 else 0
            found.append((entity, i, *sorted((entity.dxf.defpoint2[i], entity.dxf.defpoint3[i]))))
    return found


def window_of(entity: DXFEntity, ports: list[Window]) -> Window:
    middle = tuple(entity.dxf.text_midpoint)[:2]
    holding = [port for port in ports if port.holds(middle)]
    assert len(holding) == 1, middle
    return holding[0]


def drawn_out_of_place(document: Drawing) -> list[str]:
    """Dimensions whose dimension line, or whose string's extension lines, are not where they measure."""
    ports = windows(document)
    across: dict[tuple[str, str, int], list[float]] = defaultdict(list)
    lines: list[tuple[str, float, float, tuple[str, str, int], list[tuple[float, float]], float]] = []
    for entity, i, low, high in linear(document):
        port = window_of(entity, ports)
        # Neighbours in a string share the extension line between them.
        string = (f"{port.box}", entity.get_xdata(APPLICATION)[0].value, i)
        along: list[tuple[float, float]] = []
        for part in document.blocks.get(entity.dxf.geometry):
            for a, b in pieces(part):
                if abs(a[i] - b[i]) < 1e-6:
                    across[string].append(a[i])
                elif abs(a[1 - i] - b[1 - i]) < 1e-6:
                    along.append((min(a[i], b[i]), max(a[i], b[i])))
        lines.append((string[1], low, high, string, along, port.tolerance))
    return [
        f"{name} {low:.3f} {high:.3f}"
        for name, low, high, string, along, near in lines
        for at in (low, high)
        if min((abs(x - at) for x in across[string]), default=9e9) > near
        or not any(a - near <= at <= b + near for a, b in along)
    ]


def measuring_nothing(document: Drawing) -> list[str]:
    """Dimensions that start or end where the view has no line and no corner."""
    ports = windows(document)
    seen: dict[tuple[float, ...], tuple[list[float], list[float]]] = defaultdict(lambda: ([], []))
    for entity in document.modelspace():
        if entity.dxftype() in ("LINE", "LWPOLYLINE", "ARC", "CIRCLE"):
            for a, b in pieces(entity):
                for port in (port for port in ports if port.holds(a)):
                    for i in (0, 1):
                        seen[port.box][i].extend((a[i], b[i]))
    found = []
    for entity, i, low, high in linear(document):
        port = window_of(entity, ports)
        for at in (low, high):
            off = min((abs(x - at) for x in seen[port.box][i]), default=9e9)
            if off > max(port.tolerance, JOINT_MM / port.mm):
                name = entity.get_xdata(APPLICATION)[0].value
                found.append(f"{port.sheet} {name} {low:.3f} {high:.3f}: {at:.3f} is {off:.3f} off")
    return found


def shown(document: Drawing, entity: DXFEntity) -> str:
    texts = [
        unstacked(part.text if part.dxftype() == "MTEXT" else part.dxf.text)
        for part in document.blocks.get(entity.dxf.geometry)
        if part.dxftype() in ("MTEXT", "TEXT")
    ]
    assert len(texts) == 1
    return texts[0]


def lettering(pdf: Path) -> dict[str, list[tuple[str, Point]]]:
    """By sheet every line of lettering with the middle of its box, mm from the sheet's lower left corner."""
    mm = 25.4 / 72
    found: dict[str, list[tuple[str, Point]]] = {}
    with pdfplumber.open(pdf) as opened:
        labels = [str(label) for label in _labels(pdf)]
        for page, label in zip(opened.pages, labels, strict=True):
            lines: list[list[dict]] = []
            before = None
            for c in page.chars:
                a, b, _, _, x, y = c["matrix"]
                size = math.hypot(a, b)
                along, off = (a * x + b * y) / size, (a * y - b * x) / size
                # Within a line every letter starts where the one before ends; 0.5 pt is a fifth of a space.
                if before is None or max(abs(off - before[1]), abs(along - before[0])) > 0.5:
                    lines.append([])
                lines[-1].append(c)
                before = (along + c["adv"], off)
            high = float(page.height)
            found[label] = [
                (
                    "".join(c["text"] for c in line).strip(),
                    (
                        (min(c["x0"] for c in line) + max(c["x1"] for c in line)) / 2 * mm,
                        (high - (min(c["top"] for c in line) + max(c["bottom"] for c in line)) / 2) * mm,
                    ),
                )
                for line in lines
            ]
    return found


def _labels(pdf: Path) -> list[str]:
    from pypdf import PdfReader

    return PdfReader(pdf).page_labels


def lettered(document: Drawing, layout: Iterable[DXFEntity]) -> Iterator[str]:
    """All words of a layout or a block that are no dimension's."""
    for entity in layout:
        kind = entity.dxftype()
        if kind in ("TEXT", "MTEXT"):
            yield unstacked(entity.text if kind == "MTEXT" else entity.dxf.text)
        elif kind == "INSERT":
            yield from (attribute.dxf.text for attribute in entity.attribs)
            yield from lettered(document, document.blocks.get(entity.dxf.name))


def unlike_on_paper(document: Drawing, pdf: Path) -> list[str]:
    """Dimensions whose words are not at their place of the PDF, and sizes that the PDF alone has."""
    ports = windows(document)
    printed = lettering(pdf)
    taken: set[tuple[str, int]] = set()
    found = []
    for entity in document.modelspace().query("DIMENSION"):
        port = window_of(entity, ports)
        text, at = shown(document, entity), port.on_paper_mm(tuple(entity.dxf.text_midpoint)[:2])
        near = [
            k
            for k, (words, place) in enumerate(printed[port.sheet])
            if math.dist(place, at) < 1.5 and words == text and (port.sheet, k) not in taken
        ]
        if near:
            taken.add((port.sheet, near[0]))
        else:
            found.append(f"{port.sheet}: {text} is not at {at[0]:.1f}, {at[1]:.1f}")
    others = Counter(words for layout in document.layouts for words in lettered(document, layout))
    for sheet, lines in printed.items():
        for k, (words, place) in enumerate(lines):
            if (sheet, k) in taken or not SIZE_ALONE.fullmatch(words):
                continue
            others[words] -= 1
            if others[words] < 0:
                found.append(f"{sheet}: {words} at {place[0]:.1f}, {place[1]:.1f} is in the PDF alone")
    return found


def test_each_dimension_is_drawn_where_it_measures(drawn: Path, spec: Path) -> None:
    document = ezdxf.readfile(drawn / spec.stem / f"{spec.stem}.dxf")
    assert len(linear(document)) > 40
    assert drawn_out_of_place(document) == []


def test_each_dimension_measures_between_lines_of_its_view(drawn: Path, spec: Path) -> None:
    assert measuring_nothing(ezdxf.readfile(drawn / spec.stem / f"{spec.stem}.dxf")) == []


def test_the_pdf_prints_each_dimension_at_its_place_and_no_other(drawn: Path, spec: Path) -> None:
    folder = drawn / spec.stem
    assert unlike_on_paper(ezdxf.readfile(folder / f"{spec.stem}.dxf"), folder / f"{spec.stem}.pdf") == []


# Drawings broken on purpose: each is seen.

WALL = Path(__file__).resolve().parents[2] / "specs" / "narrow-wall.yaml"


def broken(change: Callable[[Dimension], Dimension]) -> DrawingSet:
    """The narrow wall's set with one dimension of its elevation changed."""
    _, _, drawing = staged(WALL)
    done: list[Dimension] = []

    def of(item: Item) -> Item:
        if isinstance(item, Dimension) and item.kind == "linear" and item.angle == 0 and not done:
            done.append(item)
            return change(item)
        return item

    sheets = tuple(
        replace(
            sheet,
            items=tuple(
                replace(item, items=tuple(of(inner) for inner in item.items))
                if isinstance(item, Viewport) and item.id == "elevation"
                else item
                for item in sheet.items
            ),
        )
        for sheet in drawing.sheets
    )
    assert len(done) == 1
    return replace(drawing, sheets=sheets)


def read(drawing: DrawingSet) -> Drawing:
    return ezdxf.read(StringIO(dxf(drawing).decode("utf-8")))


def test_lines_beside_what_they_measure_are_seen() -> None:
    def shifted_lines(item: Dimension) -> Dimension:
        by = shifted(4.0, 0.0)
        strokes = tuple(replace(s, path=tuple(p.transformed(by) for p in s.path)) for s in item.strokes)
        return replace(item, strokes=strokes)

    document = read(broken(shifted_lines))
    assert drawn_out_of_place(document)
    assert not measuring_nothing(document)


def test_a_dimension_from_nowhere_to_nowhere_is_seen() -> None:
    def elsewhere(item: Dimension) -> Dimension:
        return replace(item, a=(item.a[0] + 37.0, item.a[1]), b=(item.b[0] + 37.0, item.b[1]))

    assert measuring_nothing(read(broken(elsewhere)))


def test_another_size_on_paper_than_in_the_dxf_is_seen(tmp_path: Path) -> None:
    """The wrong size stands elsewhere on the sheets too, so that a count of words alone would not do."""

    def another(item: Dimension) -> Dimension:
        return replace(item, text=replace(item.text, runs=(Run('38" ±'),)))

    _, _, drawing = staged(WALL)
    assert any('38" ±' in text for text, _, _ in _texts(drawing))
    (tmp_path / "wall.pdf").write_bytes(pdf(broken(another)))
    assert len(unlike_on_paper(read(drawing), tmp_path / "wall.pdf")) == 1
    (tmp_path / "wall.pdf").write_bytes(pdf(drawing))
    assert unlike_on_paper(read(drawing), tmp_path / "wall.pdf") == []


def _texts(drawing: DrawingSet) -> list[tuple[str, float, float]]:
    return [
        (item.text.plain, *item.line_at)
        for sheet in drawing.sheets
        for viewport in sheet.items
        if isinstance(viewport, Viewport)
        for item in viewport.items
        if isinstance(item, Dimension)
    ]
