"""The few kinds of item a sheet holds, and the groups that they say something in.

Paper frame: mm, x right and y up from the sheet's lower left corner. Items inside a `Viewport` are in
paper mm too, already placed; the viewport's scale and origin let a writer put them back to full size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from sheets.base.notation import Run, plain_text
from sheets.geometry.box import Box
from sheets.geometry.path import Point, Segment
from sheets.geometry.region import Region

# Pens by meaning: the table in pens.py gives each its width, dash, grey and layers.
Pen = Literal[
    "cut", "outline", "step", "edge", "fine", "beyond", "hidden", "overhead", "centre", "cutting plane",
    "detail place", "hatch", "texture", "break", "dimension", "leader", "text", "symbol", "match line",
    "frame", "block rule", "table rule", "table border", "revision", "strike", "pattern",
]
Weight = Literal["regular", "bold"]
GroupKind = Literal["table", "heading", "row", "note", "picture", "field"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A connected line of one pen."""

    path: tuple[Segment, ...]
    pen: Pen
    key: str = ""  # the part or view it belongs to
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Area:
    """A filled or hatched region. `hatch` names a pattern of hatches.py."""

    regions: tuple[Region, ...]
    fill: float | None = None  # grey, 0 black to 1 white; None: not filled
    hatch: str = ""
    angle: float = 0.0  # degrees, added to the pattern's own
    pitch: float = 1.0  # paper mm between the pattern's lines, factor on the pattern's own
    origin: Point = (0.0, 0.0)
    gaps: tuple[Box, ...] = ()  # boxes (x0, y0, x1, y1) left clear for text
    key: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering. `at` is the anchor on the baseline, or at mid height for v='middle'."""

    runs: tuple[Run, ...]
    at: Point
    height: float  # of capitals, paper mm
    h: Literal["left", "centre", "right"] = "left"
    v: Literal["baseline", "middle"] = "baseline"
    angle: float = 0.0  # degrees, ccw: 0 or 90
    weight: Weight = "regular"
    squeeze: float = 1.0  # horizontal factor, 0.75 to 1, when fitted in a box
    pen: Pen = "text"
    grey: float = 0.0
    link: str = ""  # number of the sheet it leads to
    key: str = ""

    @property
    def plain(self) -> str:
        return plain_text(self.runs)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension with its placed lines; a writer keeps it a real dimension.

    Linear ones measure |b - a| along `angle` in full-size view coordinates; radial ones the radius at a
    from the centre b.
    """

    kind: Literal["linear", "radius"]
    a: Point  # measured points, full size, view coordinates
    b: Point
    value: Fraction | float  # full size mm; exact when linear
    text: Text  # placed; text.plain is what is printed, prefix and suffix included
    prefix: str
    suffix: str
    angle: float  # degrees of the measured direction: 0 or 90
    line_at: Point  # a point of the dimension line, paper
    strokes: tuple[Stroke, ...]  # dimension line, extension lines, ticks, leader
    heads: tuple[Area, ...] = ()  # filled arrows
    id: str = ""
    parts: tuple[str, ...] = ()
    value_text: str = ""  # the size alone, as written: read back, it equals `value`
    times: int = 1  # so many equal sizes one after the other, which the prefix tells


@dataclass(frozen=True, slots=True)
class Symbol:
    """A mark or a block with named fields: a section mark, a balloon, a view title, a title block.

    A writer that has blocks inserts one `kind` block with `fields` as its attributes.
    """

    kind: str  # "section mark", "detail mark", "part balloon", "view title", "title block", ...
    at: Point
    strokes: tuple[Stroke, ...]
    areas: tuple[Area, ...] = ()
    texts: tuple[Text, ...] = ()
    fields: Mapping[str, str] = field(default_factory=dict)
    link: str = ""  # number of the sheet it leads to
    target: str = ""  # id of the view it leads to
    key: str = ""


@dataclass(frozen=True, slots=True)
class Viewport:
    """A view placed to scale: its items, in paper mm, with the way back to full size.

    paper = origin + scale * view, scale being paper mm over full-size mm.
    """

    id: str  # view id
    number: str  # as printed in its title
    title: str
    scale: Fraction
    scale_text: str
    origin: Point  # paper position of view (0, 0)
    box: Box  # paper x0, y0, x1, y1 with all that belongs to it, title included
    drawn: Box  # paper box of the drawn view alone
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Items that say one thing together: a row of a table, a note, a picture, a field of the title block.

    Who reads a sheet asks its groups what it says; to draw it, what they hold is drawn in its order. Groups
    may hold groups, as a table its rows. (Dimensions, symbols and viewports say what they are themselves.)
    """

    kind: GroupKind
    key: str  # what it is called where it stands: a row's mark, a note's number, a part's key, a table's name
    words: str  # all that it says, on one line, however it was broken; "" for a table, whose rows say it
    items: tuple[Item, ...]
    box: Box  # paper mm, all of it; of a row from side to side of its table


Item = Stroke | Area | Text | Dimension | Symbol | Viewport | Group


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of paper, finished."""

    number: str  # "Z-201"
    title: str
    width: float  # mm
    height: float
    frame: Box  # drawing space inside the border and clear of the title block
    items: tuple[Item, ...]  # border, title block, tables, notes and viewports
    revision: str = ""


@dataclass(frozen=True, slots=True)
class DrawingSet:
    """All sheets, in order, and what a file says about itself."""

    title: str
    number: str
    author: str
    date: str  # as the spec gives it
    units: Literal["inch", "mm"]
    sheets: tuple[Sheet, ...]
