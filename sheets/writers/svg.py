"""A sheet as an SVG for the web: text stays text, and what says one thing together stays a group.

The same items in the same order as in the PDF, one unit to a millimetre. A `<g>` is a view, a dimension, a
mark, a row, a note, a picture: its class says which, `data-key` what it is called, and `data-sheet` and
`data-view` where it leads. Lettering is set in the PDF's font or, where a viewer has not got it, in another
that is pressed to its width.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import groupby
from math import pi
from xml.sax.saxutils import escape

from sheets.base.tolerance import settled
from sheets.drawing.hatches import HATCHES, clear_of_gaps, lines_over
from sheets.drawing.items import Area, Dimension, Group, Item, Pen, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import FAMILY, Glyphs, font_size, glyph_runs
from sheets.drawing.pens import Style, Where, style, where
from sheets.drawing.walk import held
from sheets.geometry.path import Arc, Point, Segment
from sheets.geometry.region import Region

_ANCHORS = {"left": "start", "centre": "middle", "right": "end"}
_MOST_OF_A_TURN = pi * 0.99  # a longer arc is drawn in two, as its ends alone would hardly tell its centre
_UNFIT = re.compile(r"[^A-Za-z0-9.-]+")  # for an identifier
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\ufffe\uffff]")  # no XML may hold them (XML 1.0, 2.2)


def svg(sheet: Sheet) -> bytes:
    """Return a sheet as the bytes of an SVG, at its true size."""
    writer = _Writer(sheet)
    writer.items(sheet.items, "sheet")
    size = f'width="{_n(sheet.width)}mm" height="{_n(sheet.height)}mm"'
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {_n(sheet.width)} {_n(sheet.height)}"'
        ' fill="none" stroke-linecap="round" stroke-linejoin="round">',
        f"<title>{_clean(f'{sheet.number} {sheet.title}')}</title>",
        f"<style>\n{writer.styles()}</style>",
        f'<path d="M0 0H{_n(sheet.width)}V{_n(sheet.height)}H0Z" fill="#fff"/>',
        *writer.lines,
        "</svg>\n",
    ]
    return "\n".join(lines).encode("utf-8")


class _Writer:
    """The elements of one sheet so far, the pens they use and the identifiers they have."""

    def __init__(self, sheet: Sheet) -> None:
        self.lines: list[str] = []
        self._sheet = sheet
        self._looks: dict[str, Style] = {}
        self._names: Counter[str] = Counter()
        # Paper has its zero at the lower left, an SVG at the upper left.
        self._top = sheet.height

    def items(self, items: Iterable[Item], kind: Where) -> None:
        """Write items in their order; strokes of one pen and part that follow each other are one path."""
        for pen, some in groupby(items, _pen_and_key):
            if pen is not None:
                self._strokes([item for item in some if isinstance(item, Stroke)], kind)
                continue
            for item in some:
                match item:
                    case Area():
                        self._area(item, kind)
                    case Text():
                        self._text(item)
                    case Dimension() | Symbol() | Group() | Viewport():
                        self._group(item, kind)

    def styles(self) -> str:
        """Return the rules for the lettering and the pens in use."""
        rules = [
            f"text{{font-family:'{FAMILY}',sans-serif;font-kerning:none;font-variant-ligatures:none;"
            "white-space:pre;fill:#000}",
            ".bold{font-weight:600}",
            ".unseen{fill:none}",
        ]
        for name, look in sorted(self._looks.items()):
            dash = f";stroke-dasharray:{' '.join(map(_n, look.dash))}" if look.dash else ""
            # Of paths alone: what holds them may be of the same name.
            rules.append(f"path.{name}{{stroke:{_grey(look.grey)};stroke-width:{_n(look.width)}{dash}}}")
        return "".join(f"{rule}\n" for rule in rules)

    def _group(self, item: Dimension | Symbol | Group | Viewport, kind: Where) -> None:
        match item:
            case Viewport():
                name, key = "view", item.id
                more = _attributes(scale=str(item.scale), origin=self._p(item.origin))
                kind = where(item.id)
            case Dimension():
                name, key, more = "dimension", item.id, _attributes(parts=" ".join(item.parts))
            case Symbol():
                name, key = item.kind.replace(" ", "-"), item.key or item.fields.get("mark", "")
                more = _attributes(sheet=item.link, view=item.target)
            case Group():
                name, key, more = item.kind, item.key, ""
        self.lines.append(f'<g id="{self._name(name, key)}" class="{name}"{_attributes(key=key)}{more}>')
        self.items(held(item), kind)
        self.lines.append("</g>")

    def _name(self, kind: str, key: str) -> str:
        # Of its own on all sheets, so that a page can hold several of them.
        name = _UNFIT.sub("-", ".".join(word for word in (self._sheet.number, kind, key) if word))
        self._names[name] += 1
        return name if self._names[name] == 1 else f"{name}_{self._names[name]}"

    def _strokes(self, strokes: Sequence[Stroke], kind: Where) -> None:
        paths = "".join(self._path(stroke.path, stroke.closed) for stroke in strokes if stroke.path)
        if paths:
            pen, key = self._pen(strokes[0].pen, kind), _attributes(key=strokes[0].key)
            self.lines.append(f'<path class="{pen}"{key} d="{paths}"/>')

    def _area(self, area: Area, kind: Where) -> None:
        regions = clear_of_gaps(area)
        if not regions:
            return
        outline = "".join(map(self._region, regions))
        key = _attributes(key=area.key)
        if area.fill is not None:
            self.lines.append(f'<path fill="{_grey(area.fill)}" fill-rule="evenodd"{key} d="{outline}"/>')
        if area.hatch:
            name = self._name("hatch", "")
            drawn = "".join(
                f"M{self._p(a)}L{self._p(b)}"
                for region in regions
                for a, b in lines_over(
                    area.hatch, region.bounds, angle=area.angle, pitch=area.pitch, origin=area.origin
                )
            )
            pen = self._pen(HATCHES[area.hatch].pen, kind)
            self.lines += [
                f'<clipPath id="{name}"><path clip-rule="evenodd" d="{outline}"/></clipPath>',
                f'<path class="{pen}" clip-path="url(#{name})"{key} d="{drawn}"/>',
            ]

    def _text(self, text: Text) -> None:
        # Laid out flat from its anchor, then moved there, or turned and pressed as well.
        flat = glyph_runs(replace(text, at=(0.0, 0.0), angle=0.0, squeeze=1.0))
        x, y = text.at
        dx, dy = x, self._top - y
        turned = ""
        if text.angle or text.squeeze != 1.0:
            press = f" scale({_n(text.squeeze)} 1)" if text.squeeze != 1.0 else ""
            turn = f" rotate({_n(-text.angle)})" if text.angle else ""
            turned = f' transform="translate({_n(x)} {self._y(text.at)}){turn}{press}"'
            dx, dy = 0.0, 0.0
        look = ' class="bold"' if text.weight == "bold" else ""
        look += f' style="fill:{_grey(text.grey)}"' if text.grey else ""
        look += _attributes(key=text.key, sheet=text.link)
        size = f' font-size="{_n(font_size(text.height))}"'
        if len(flat.glyphs) == 1:
            (run,) = flat.glyphs
            anchor = f' text-anchor="{_ANCHORS[text.h]}"' if text.h != "left" else ""
            at = f' x="{_n(dx)}" y="{_n(dy - run.at[1])}"'
            self.lines.append(f"<text{at}{size}{anchor}{turned}{look}{_spread(run)}>{_clean(run.text)}</text>")
        elif flat.glyphs:
            pieces = "".join(_pieces(flat.glyphs, dx, dy))
            self.lines.append(f"<text{size}{turned}{look}>{pieces}</text>")
        for bar in flat.bars:
            x0, x1, y0, tall = dx + bar.a[0], dx + bar.b[0], dy - bar.a[1] - bar.width / 2, _n(bar.width)
            d = f"M{_n(x0)} {_n(y0)}H{_n(x1)}v{tall}H{_n(x0)}Z"
            self.lines.append(f'<path fill="{_grey(text.grey)}"{turned} d="{d}"/>')

    def _pen(self, pen: Pen, kind: Where) -> str:
        look, plain = style(pen, kind), style(pen)
        name = pen.replace(" ", "-")
        if (look.width, look.dash, look.grey) != (plain.width, plain.dash, plain.grey):
            name = f"{name}-{kind}"
        self._looks[name] = look
        return name

    def _region(self, region: Region) -> str:
        return "".join(self._path(loop.segments, True) for loop in region.loops)

    def _path(self, path: Sequence[Segment], closed: bool) -> str:
        words = [f"M{self._p(path[0].first)}"]
        for segment in path:
            if isinstance(segment, Arc):
                words += map(self._arc, _halves(segment))
            else:
                words.append(f"L{self._p(segment.last)}")
        return "".join(words) + ("Z" if closed else "")

    def _arc(self, arc: Arc) -> str:
        # Counter-clockwise on paper is against the sense of an SVG's angles.
        r = _n(arc.radius)
        return f"A{r} {r} 0 0 {int(arc.sweep < 0)} {self._p(arc.last)}"

    def _p(self, point: Point) -> str:
        return f"{_n(point[0])} {self._y(point)}"

    def _y(self, point: Point) -> str:
        return _n(self._top - point[1])


def _pen_and_key(item: Item) -> tuple[Pen, str] | None:
    return (item.pen, item.key) if isinstance(item, Stroke) else None


def _halves(arc: Arc) -> tuple[Arc, ...]:
    if abs(arc.sweep) <= _MOST_OF_A_TURN:
        return (arc,)
    half = arc.sweep / 2
    return (replace(arc, sweep=half), replace(arc, start=arc.start + half, sweep=half))


def _pieces(glyphs: Sequence[Glyphs], dx: float, dy: float) -> Iterator[str]:
    # Each run where it stands. What is unseen keeps 5'-2 1/2" one string for who searches or copies it.
    before = ""
    for run in glyphs:
        x, y = dx + run.at[0], dy - run.at[1]
        if run.part == "numerator" and before[-1:].isdigit():
            yield '<tspan class="unseen"> </tspan>'
        if run.part == "denominator":
            yield '<tspan class="unseen">/</tspan>'
        size = "" if run.part == "text" else f' font-size="{_n(run.size)}"'
        yield f'<tspan x="{_n(x)}" y="{_n(y)}"{size}{_spread(run)}>{_clean(run.text)}</tspan>'
        before = run.text


def _spread(run: Glyphs) -> str:
    # As wide as in the PDF, whatever font the viewer sets it in.
    return f' textLength="{_n(run.width)}" lengthAdjust="spacingAndGlyphs"' if run.width else ""


def _attributes(**data: str) -> str:
    return "".join(f' data-{name}="{_clean(value)}"' for name, value in data.items() if value)


def _clean(text: str) -> str:
    # As it may stand in an element or between quotes.
    return escape(_CONTROL.sub("", text), {'"': "&quot;"})


def _grey(level: float) -> str:
    return "#" + 3 * f"{round(255 * level):02x}"


@lru_cache(maxsize=65536)
def _n(value: float) -> str:
    # A hundredth of a millimetre is as fine as two sheets are held against each other.
    text = f"{settled(value, 2):.2f}".rstrip("0").rstrip(".")
    return text or "0"
