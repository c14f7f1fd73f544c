"""Patterns read back from the PDF's own coordinates with an independent reader: true to 0.1 mm, tiles
included.
"""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise

import pdfplumber
import pytest

from sheets.base.length import inch
from sheets.compose.pages.pattern_sheets import long_patterns, tiled_patterns
from sheets.drawing.items import DrawingSet, Viewport
from sheets.geometry.box import Box
from sheets.geometry.clip import clip_path
from sheets.geometry.path import Arc, Line, arc_through
from sheets.model.wall import Wall
from sheets.schedules.patterns import patterns
from sheets.writers.pdf import pdf
from tests.schedules.conftest import make_wall
from tests.schedules.test_patterns import arched_rail

MM = 25.4 / 72
TRUE = 0.1  # mm


@pytest.fixture(scope="module")
def wall() -> Wall:
    return make_wall(arched_rail(inch(60), inch(3), inch(8)))


Span = tuple[float, float, float, float]


def strokes(drawing: DrawingSet) -> list[list[Span]]:
    """Page by page, every straight stroke and the box of every curve, mm from the lower left corner."""
    pages = []
    with pdfplumber.open(BytesIO(pdf(drawing))) as document:
        for page in document.pages:
            spans: list[Span] = []
            for path in (*page.lines, *page.curves, *page.rects):
                points = [(x * MM, (float(page.height) - y) * MM) for x, y in path["pts"]]
                closed = any(step[0] == "h" for step in path.get("path") or ())
                spans += [(*a, *b) for a, b in pairwise([*points, points[0]] if closed else points)]
            pages.append(spans)
    return pages


def length(span: Span) -> float:
    return ((span[2] - span[0]) ** 2 + (span[3] - span[1]) ** 2) ** 0.5


def test_the_square_is_four_inches(wall: Wall) -> None:
    for drawing in (tiled_patterns(wall)[0], long_patterns(wall)):
        sides = [span for span in strokes(drawing)[0] if abs(length(span) - 101.6) < TRUE]
        assert len(sides) >= 4
        assert sum(abs(s[0] - s[2]) < 1e-3 for s in sides) >= 2
        assert sum(abs(s[1] - s[3]) < 1e-3 for s in sides) >= 2


def test_the_long_sheet_is_true_to_size(wall: Wall) -> None:
    spans = strokes(long_patterns(wall))[0]
    # The rail is 60 in long and 8 in high: its top edge and its ends are drawn as long as they are.
    assert any(abs(length(s) - 60 * 25.4) < TRUE and abs(s[1] - s[3]) < 1e-3 for s in spans)
    assert any(abs(length(s) - 8 * 25.4) < TRUE and abs(s[0] - s[2]) < 1e-3 for s in spans)


def test_tiles_put_together_are_true_to_size(wall: Wall) -> None:
    drawing, problems = tiled_patterns(wall)
    assert not problems
    pages = strokes(drawing)
    tops: list[tuple[float, float]] = []
    for sheet, spans in zip(drawing.sheets, pages, strict=True):
        for view in (item for item in sheet.items if isinstance(item, Viewport)):
            assert view.scale == 1
            dx, dy = view.origin
            # Page back to pattern: the top edge of the rail is at 8 in.
            tops += [
                (min(s[0], s[2]) - dx, max(s[0], s[2]) - dx)
                for s in spans
                if abs(s[1] - s[3]) < 1e-3 and abs(s[1] - dy - 8 * 25.4) < TRUE and length(s) > 10
            ]
    assert min(a for a, _ in tops) == pytest.approx(0.0, abs=TRUE)
    assert max(b for _, b in tops) == pytest.approx(60 * 25.4, abs=TRUE)
    reached = 0.0
    for low, high in sorted(tops):
        assert low <= reached + TRUE, "the tiles leave a gap"
        reached = max(reached, high)


def test_the_arc_of_the_tiles_is_the_arc_of_the_part(wall: Wall) -> None:
    (pattern,) = patterns(wall)
    (curve,) = pattern.curves
    arcs = []
    for sheet in tiled_patterns(wall)[0].sheets:
        for view in (item for item in sheet.items if isinstance(item, Viewport)):
            for item in view.items:
                arcs += [
                    (segment, view.origin)
                    for segment in getattr(item, "path", ())
                    if isinstance(segment, Arc)
                ]
    assert len(arcs) > 3
    assert sum(abs(arc.sweep) for arc, _ in arcs) * curve.radius > 60 * 25.4
    for arc, (dx, dy) in arcs:
        assert arc.radius == pytest.approx(curve.radius)
        assert (arc.centre[0] - dx, arc.centre[1] - dy) == pytest.approx(curve.centre, abs=1e-6)


def bends(drawing: DrawingSet) -> list[list[tuple[float, float]]]:
    """Page by page, points along every curve of the PDF but rings of marks, mm from the lower left corner."""
    pages = []
    with pdfplumber.open(BytesIO(pdf(drawing))) as document:
        for page in document.pages:
            points: list[tuple[float, float]] = []
            for path in page.curves:
                if (path["x1"] - path["x0"]) * MM < 5.0:
                    continue  # the ring of a register mark
                at = (0.0, 0.0)
                for op, *ends in path["path"]:
                    if op == "c":
                        points += [_bezier(at, *ends, n / 64) for n in range(65)]
                    at = ends[-1] if ends else at
            pages.append([(x * MM, (float(page.height) - y) * MM) for x, y in points])
    return pages


Spot = tuple[float, float]


def _bezier(a: Spot, b: Spot, c: Spot, d: Spot, t: float) -> Spot:
    w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
    return (
        sum(k * p[0] for k, p in zip(w, (a, b, c, d), strict=True)),
        sum(k * p[1] for k, p in zip(w, (a, b, c, d), strict=True)),
    )


@pytest.mark.parametrize("overlap", ["1/2", "3/2"])
def test_the_curve_of_the_pdf_is_the_published_arc_on_tiles_and_on_the_long_sheet(overlap: str) -> None:
    # Chord 60 in, rise 3: R = 151.5 in, its centre 148.5 in under the chord's middle; the chord lies on the
    # foot of the rail, so that its ends are the pattern's lower corners.
    wall = make_wall(arched_rail(inch(60), inch(3), inch(8)), patterns={"overlap": inch(overlap)})
    tiled, _ = tiled_patterns(wall)
    for drawing in (tiled, long_patterns(wall)):
        reached: list[float] = []
        for sheet, points in zip(drawing.sheets, bends(drawing), strict=True):
            for view in (item for item in sheet.items if isinstance(item, Viewport)):
                inside = [(x - view.origin[0], y - view.origin[1]) for x, y in points]
                for x, y in inside:
                    off = ((x - 30 * 25.4) ** 2 + (y + 148.5 * 25.4) ** 2) ** 0.5 - 151.5 * 25.4
                    assert abs(off) < TRUE
                    reached.append(x)
        reached.sort()
        assert reached[0] == pytest.approx(0.0, abs=TRUE)
        assert reached[-1] == pytest.approx(60 * 25.4, abs=TRUE)
        assert max(b - a for a, b in pairwise(reached)) < 60.0, "the tiles leave a gap in the curve"


def test_ordinates_of_the_pdf_are_as_long_as_published(wall: Wall) -> None:
    # c = 60, h = 3 at 10 and 20 in from the middle: 2.6696 and 1.6741 in (computed for the published arcs).
    spans = strokes(long_patterns(wall))[0]
    for inches, height in ((10, 2.6696), (20, 1.6741)):
        tall = [s for s in spans if abs(s[0] - s[2]) < 1e-3 and abs(length(s) - height * 25.4) < TRUE]
        assert len(tall) == 2, inches
        assert abs(tall[0][0] - tall[1][0]) == pytest.approx(2 * inches * 25.4, abs=TRUE)


def test_the_metric_square_is_a_hundred_millimetres() -> None:
    wall = make_wall(arched_rail(inch(60), inch(3), inch(8)), units="mm")
    for drawing in (tiled_patterns(wall)[0], long_patterns(wall)):
        sides = [span for span in strokes(drawing)[0] if abs(length(span) - 100.0) < TRUE]
        assert len(sides) >= 4


def test_neighbouring_tiles_print_their_register_marks_at_the_same_place() -> None:
    # Read from the PDF: the rings' middles, taken back to the pattern, come in pairs on two pages.
    wall = make_wall(arched_rail(inch(40), inch(2), inch(20)))
    drawing, _ = tiled_patterns(wall)
    seen: list[Spot] = []
    with pdfplumber.open(BytesIO(pdf(drawing))) as document:
        for sheet, page in zip(drawing.sheets, document.pages, strict=True):
            for view in (item for item in sheet.items if isinstance(item, Viewport)):
                for ring in page.curves:
                    wide, tall = (ring["x1"] - ring["x0"]) * MM, (ring["bottom"] - ring["top"]) * MM
                    if abs(wide - 3.6) < 0.05 and abs(tall - 3.6) < 0.05:
                        x = (ring["x0"] + ring["x1"]) / 2 * MM - view.origin[0]
                        y = (float(page.height) - (ring["top"] + ring["bottom"]) / 2) * MM - view.origin[1]
                        seen.append((x, y))
    assert len(seen) >= 8
    for x, y in seen:
        assert sum(abs(x - a) < TRUE and abs(y - b) < TRUE for a, b in seen) in (2, 4)


def test_paper_that_is_not_known_is_said() -> None:
    drawing, problems = tiled_patterns(
        make_wall(arched_rail(inch(60), inch(3), inch(8)), patterns={"paper": "a-4"})
    )
    assert not drawing.sheets
    assert problems[0].severity == "error"


def test_an_overlap_wider_than_the_paper_bears_is_said() -> None:
    for overlap in (3, 20):
        drawing, problems = tiled_patterns(
            make_wall(arched_rail(inch(60), inch(3), inch(8)), patterns={"overlap": inch(overlap)})
        )
        # Letter paper, 215.9 mm, less margins and the strip for lettering, halved: 91.95 mm.
        assert bool(drawing.sheets) == (overlap == 3)
        assert [(p.severity, p.path) for p in problems] == [("error", ("patterns", "overlap"))] * (
            overlap == 20
        )


def test_a_path_is_cut_off_at_a_box() -> None:
    assert clip_path((Line((-5.0, 1.0), (25.0, 1.0)),), Box(0.0, 0.0, 10.0, 10.0)) == (
        (Line((0.0, 1.0), (10.0, 1.0)),),
    )
    arc = arc_through((0.0, 0.0), (20.0, 0.0), 6.0)
    pieces = clip_path((arc,), Box(0.0, 0.0, 20.0, 4.0))
    # Over 4 the crown is cut off: two pieces that end there.
    assert len(pieces) == 2
    assert pieces[0][-1].last[1] == pytest.approx(4.0)
    assert pieces[1][0].first[1] == pytest.approx(4.0)
    assert clip_path((Line((0.0, 20.0), (10.0, 20.0)),), Box(0.0, 0.0, 10.0, 10.0)) == ()


def test_the_dxf_holds_the_arc_at_full_size(wall: Wall) -> None:
    from io import StringIO

    import ezdxf

    from sheets.writers.dxf import dxf

    document = ezdxf.read(StringIO(dxf(long_patterns(wall)).decode("utf-8")))
    found = []
    for line in document.modelspace().query("LWPOLYLINE"):
        points = list(line.get_points("xyb"))
        for (x0, y0, bulge), (x1, y1, _) in pairwise([*points, points[0]]):
            if bulge:
                chord = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
                found.append((chord, chord * (1 + bulge**2) / (4 * abs(bulge))))
    # R = (60^2/4 + 3^2) / (2 x 3) = 151.5 in over a chord of 60 in.
    assert found == [(pytest.approx(60.0), pytest.approx(151.5))]
