"""A small set made by hand, with every kind of item; and a larger one for measuring."""

from fractions import Fraction
from math import pi

from sheets.base.notation import Run
from sheets.drawing.items import Area, Dimension, DrawingSet, Sheet, Stroke, Symbol, Text, Viewport
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line, circle
from sheets.geometry.region import polygon, rectangle, region

INCH = Fraction(127, 5)


def words(text, at, height=2.5, **more):
    return Text((Run(text),), at, height, **more)


def line(pen, *points, key=""):
    return Stroke(tuple(Line(a, b) for a, b in zip(points, points[1:])), pen, key)  # noqa: B905, RUF007


def loop(pen, x0, y0, x1, y1):
    return Stroke(rectangle(x0, y0, x1, y1).outer.segments, pen, closed=True)


def inches(value):
    """Runs and plain text of a size in feet and inches, value in exact mm."""
    total = value / INCH
    feet, rest = divmod(total, 12)
    whole, part = divmod(rest, 1)
    head = (f"{feet}'-" if feet else "") + (f"{whole}" if feet or whole or not part else "")
    if not part:
        return (Run(head + '"'),)
    fraction = Run("", part.numerator, part.denominator)
    return ((Run(head),) if head else ()) + (fraction, Run('"'))


def dimension(name, a, b, *, origin, scale, line_at, angle=0.0, units="inch", prefix="", suffix=""):
    """A linear dimension between two points of the view, its line through a paper coordinate."""
    exact = Fraction(b[0] - a[0] if angle == 0 else b[1] - a[1])
    runs = inches(exact) if units == "inch" else (Run(f"{exact}"),)
    size = Text(runs, (0.0, 0.0), 2.5).plain
    s = float(scale)
    pa, pb = [(origin[0] + s * float(p[0]), origin[1] + s * float(p[1])) for p in (a, b)]
    if angle == 0:
        ends = ((pa[0], line_at), (pb[0], line_at))
        at = ((pa[0] + pb[0]) / 2, line_at + 0.8)
    else:
        ends = ((line_at, pa[1]), (line_at, pb[1]))
        at = (line_at - 0.8, (pa[1] + pb[1]) / 2)
    all_runs = ((Run(prefix),) if prefix else ()) + runs + ((Run(suffix),) if suffix else ())
    text = Text(all_runs, at, 2.5, h="centre", angle=angle, pen="dimension")
    ticks = [line("dimension", (x - 0.9, y - 0.9), (x + 0.9, y + 0.9)) for x, y in ends]
    strokes = (
        line("dimension", *ends),
        line("dimension", pa, ends[0]),
        line("dimension", pb, ends[1]),
        *ticks,
    )
    return Dimension(
        "linear", (float(a[0]), float(a[1])), (float(b[0]), float(b[1])), exact, text, prefix, suffix, angle,
        ends[0], strokes, id=name, value_text=size,
    )  # fmt: skip


def title_block(number, title, width):
    x = width - 195
    return Symbol(
        "title block", (x, 15.0),
        (loop("frame", x, 15, width - 15, 45), line("block rule", (x, 30), (width - 15, 30))),
        texts=(
            words(title, (x + 3, 34), 5.0, weight="bold"),
            words(number, (x + 3, 19), 5.0, weight="bold"),
            words("ALCOVE WALL", (x + 60, 19), 2.5, squeeze=0.8),
        ),
        fields={"NUMBER": number, "TITLE": title, "PROJECT": "ALCOVE WALL"},
    )  # fmt: skip


def elevation(units):
    scale, origin = Fraction(1, 16), (80.0, 90.0)
    size = INCH if units == "inch" else 25
    wide, high = 62 * INCH + INCH / 2 if units == "inch" else Fraction(1588), 90 * size

    def at(u, v):
        return (origin[0] + float(scale * u), origin[1] + float(scale * v))

    x0, y0 = at(0, 0)
    x1, y1 = at(wide, high)
    arch = Arc(at(wide / 2, 10 * size), float(scale * 12 * size), 0.0, pi)
    chain = [Fraction(0), wide / 2, wide]
    items = (
        Area((polygon(((x0, y0), (x1, y0), (x1, y0 + 12), (x0, y0 + 12))),), hatch="masonry",
             gaps=(Box(x0 + 10, y0 + 3, x0 + 25, y0 + 8),)),
        loop("outline", x0, y0, x1, y1),
        line("edge", (x0, y0 + 20), (x1, y0 + 20), key="shelf"),
        Stroke((arch,), "step", "arch"),
        line("hidden", (x0, y0 + 30), (x1, y0 + 30)),
        line("centre", ((x0 + x1) / 2, y0 - 5), ((x0 + x1) / 2, y1 + 5)),
        *(dimension(f"d{k}", (a, 0), (b, 0), origin=origin, scale=scale, line_at=75.0, units=units)
          for k, (a, b) in enumerate(zip(chain, chain[1:]))),  # noqa: B905, RUF007
        dimension("overall", (0, 0), (wide, 0), origin=origin, scale=scale, line_at=65.0, units=units,
                  prefix="(", suffix=") V.I.F."),
        dimension("height", (0, 0), (0, high), origin=origin, scale=scale, line_at=70.0, angle=90.0,
                  units=units),
        Symbol("detail mark", (x1 + 15, y1 - 20), (Stroke(circle((x1 + 15, y1 - 20), 5).segments, "symbol"),),
               (Area((region(circle((x1 + 15, y1 - 20), 5)),), fill=1.0),),
               (words("1", (x1 + 15, y1 - 18.5), 2.5, h="centre"),
                words("Z-501", (x1 + 15, y1 - 23), h="centre")),
               {"NUMBER": "1", "SHEET": "Z-501"}, link="Z-501", target="detail/cap"),
        words("OAK CAP, ⌀ 1/4 PEG", (x1 + 10, y1 - 40), pen="leader"),
    )  # fmt: skip
    box = Box(50.0, 50.0, x1 + 60, y1 + 10)
    drawn = Box(x0, y0, x1, y1)
    return Viewport("elevation", "1", "ELEVATION", scale, '3/4" = 1\'-0"', origin, box, drawn, items)


def detail(units):
    scale, origin = Fraction(1, 4), (250.0, 150.0)
    size = INCH if units == "inch" else 25

    def at(u, v):
        return (origin[0] + float(scale * u * size), origin[1] + float(scale * v * size))

    outer = rectangle(*at(0, 0), *at(10, 4))
    cut = region(outer.outer, (circle(at(7, 2), 6.0),))
    centre = (float(7 * size), float(2 * size))
    r_text = Text((Run("R"), *(inches(INCH * Fraction(15, 16)) if units == "inch" else (Run("24"),))),
                  at(9, 5), 2.5, pen="dimension")  # fmt: skip
    true_radius = float(6.0 / scale)
    items = (
        Area((cut,), fill=0.95),
        Area((cut,), hatch="wood end", angle=0.0),
        Stroke(outer.outer.segments, "cut", "cap", closed=True),
        Stroke(circle(at(7, 2), 6.0).segments, "cut", "cap", closed=True),
        dimension("cap", (0, 0), (10 * size, 0), origin=origin, scale=scale, line_at=140.0, units=units,
                  suffix=" EQ"),
        dimension("cap half", (0, 0), (INCH * Fraction(51, 16) if units == "inch" else Fraction(81), 0),
                  origin=origin, scale=scale, line_at=132.0, units=units),
    )  # fmt: skip
    arrow = polygon((at(8, 3), at(8.2, 3.3), at(8.3, 3.1)))
    reach = Dimension(
        "radius", (centre[0] + true_radius, centre[1]), centre, true_radius, r_text, "R", "", 0.0, at(8, 3),
        (line("dimension", at(8, 3), at(9, 5)),), (Area((arrow,), fill=0.0),), "r", (), r_text.plain[1:],
    )  # fmt: skip
    drawn = outer.bounds
    x0, x1, y1 = drawn[0], drawn[2], drawn[3]
    box = Box(x0 - 10, 120.0, x1 + 20, y1 + 20)
    return Viewport("detail/cap", "1", "CAP", scale, '3" = 1\'-0"', origin, box, drawn, (*items, reach))


def sheet(number, title, width, height, *items):
    border = loop("frame", 20, 10, width - 10, height - 10)
    frame = Box(20.0, 50.0, width - 10, height - 10)
    return Sheet(number, title, width, height, frame, (border, title_block(number, title, width), *items))


def sample(units="inch", times=1):
    """A set of 3 * times sheets. Inch: 24 x 18 in sheets; mm: A2."""
    width, height = (609.6, 457.2) if units == "inch" else (594.0, 420.0)
    sheets = []
    for k in range(times):
        tail = "" if k == 0 else f"{k + 1}"
        index = (
            words("GENERAL NOTES", (40, 380), 5.0, weight="bold"),
            words("SEE ELEVATION ON Z-201", (40, 370), link="Z-201"),
            words("Ø ± × ° ½ É", (40, 360)),
            Text((Run("GAP "), Run("", 1, 16), Run('"')), (40.0, 350.0), 2.5, angle=90.0),
            loop("table border", 40, 200, 240, 320),
            line("table rule", (40, 300), (240, 300)),
        )
        sheets += [
            sheet("Z-001" + tail, "INDEX", width, height, *index),
            sheet("Z-201" + tail, "ELEVATION", width, height, elevation(units)),
            sheet("Z-501" + tail, "DETAILS", width, height, detail(units)),
        ]
    return DrawingSet("Alcove wall", "26-014", "A. Drafter", "2026-03-14", units, tuple(sheets))
