"""Full-size patterns as sets of their own: tiled on the user's paper, or each on one long sheet.

Every sheet is 1:1; a view's scale is 1, so a DXF of the long sheets holds the patterns at full size.
"""

from __future__ import annotations

from fractions import Fraction

from sheets.base.diagnostics import Diagnostic
from sheets.base.notation import Notation
from sheets.compose.border.paper import SheetSize, sheet_size
from sheets.compose.ink import LEAST_TEXT, boxes_of, frame, line, moved, ring, words
from sheets.compose.page_sizes import PATTERN
from sheets.compose.pages.pattern_drawing import (
    extent_of,
    measuring_square,
    pattern_items,
    pattern_name,
    shifted_item,
)
from sheets.compose.pages.tables import draw_whole, set_table, table_pages
from sheets.drawing.items import DrawingSet, Item, Sheet, Stroke, Viewport
from sheets.geometry.box import Box, around
from sheets.geometry.clip import clip_path
from sheets.geometry.path import Point
from sheets.model.wall import Wall
from sheets.schedules.cells import length_cell
from sheets.schedules.patterns import Pattern, ordinate_table, patterns
from sheets.schedules.table import plain
from sheets.schedules.tiles import MARGIN, STRIP, Tile, Tiling, most_overlap, tile


def tiled_patterns(wall: Wall) -> tuple[DrawingSet, tuple[Diagnostic, ...]]:
    """Return every pattern on tiles of the paper the spec names: first what it is, a square and the
    ordinates.
    """
    settings = wall.settings.patterns
    size, problems = sheet_size(settings.paper, "portrait")
    if size is None:
        return _set(wall, ()), problems
    overlap = float(settings.overlap)
    if overlap > most_overlap((size.width, size.height)):
        return _set(wall, ()), (_too_wide(settings.overlap, size, wall),)
    sheets: list[Sheet] = []
    for pattern in patterns(wall):
        drawn = pattern_items(pattern, wall.notation)
        tiling = tile((pattern.width, pattern.height), (size.width, size.height), overlap)
        sheets += _first_sheets(pattern, tiling, wall)
        sheets += [_tile_sheet(pattern, tiling, each, drawn, wall) for each in tiling.tiles]
    return _set(wall, tuple(sheets)), problems


def _too_wide(overlap: Fraction, size: SheetSize, wall: Wall) -> Diagnostic:
    most = Fraction(int(most_overlap((size.width, size.height))))
    return Diagnostic(
        "overlap-too-wide",
        "error",
        f"an overlap of {plain(length_cell(overlap, wall.notation))} leaves too little of {size.name} paper",
        help=f"Most on this paper: {plain(length_cell(most, Notation('mm', Fraction(1))))} mm.",
        path=("patterns", "overlap"),
    )


def long_patterns(wall: Wall) -> DrawingSet:
    """Return every pattern whole, each on one sheet as long as it needs, with a square and its ordinates."""
    return _set(wall, tuple(_long_sheet(pattern, wall) for pattern in patterns(wall)))


def square_of(wall: Wall) -> tuple[float, str]:
    """Return the side of the measuring square, mm, and how it is called: 4 in, or 100 mm."""
    return PATTERN.inch_square if wall.units == "inch" else PATTERN.mm_square


def _tile_sheet(pattern: Pattern, tiling: Tiling, each: Tile, drawn: tuple[Item, ...], wall: Wall) -> Sheet:
    width, height = tiling.page
    window = each.window
    inside: list[Item] = []
    for item in drawn:
        if isinstance(item, Stroke):
            inside += [Stroke(piece, item.pen, item.key) for piece in clip_path(item.path, window)]
        elif window.holds(around(boxes_of(item))):
            inside.append(item)
    view = tuple(shifted_item(item, each.shift) for item in inside)
    on_page = Box(
        window[0] + each.shift[0],
        window[1] + each.shift[1],
        window[2] + each.shift[0],
        window[3] + each.shift[1],
    )
    number = f"{pattern_name(pattern)}-{each.name}"
    marks: list[Item] = []
    for corner in each.crops:
        marks += _crop(_moved(corner, each.shift), on_page)
    for place in each.marks:
        marks += _register(_moved(place, each.shift))
    said = (
        f"{pattern_name(pattern)} {pattern.name.upper()}  "
        f"TILE {each.name} OF {tiling.columns} × {tiling.rows}  {wall.project.title.upper()}  FULL SIZE"
    )
    marks.append(words(said, (MARGIN + PATTERN.tile_words[0], MARGIN + PATTERN.tile_words[1]), LEAST_TEXT))
    viewport = Viewport(
        f"pattern/{number}", "", "", Fraction(1), "FULL SIZE", each.shift, on_page, on_page, view
    )
    return Sheet(
        number, f"{pattern.name.upper()}, TILE {each.name}", width, height, on_page, (*marks, viewport)
    )


def _first_sheets(pattern: Pattern, tiling: Tiling, wall: Wall) -> list[Sheet]:
    """The square, which tile goes where, and the ordinates; the ordinates go on when they need more paper."""
    width, height = tiling.page
    space = Box(
        MARGIN + PATTERN.pad,
        MARGIN + PATTERN.pad,
        width - MARGIN - PATTERN.pad,
        height - MARGIN - PATTERN.pad,
    )
    side, called = square_of(wall)
    items: list[Item] = [
        words(
            f"{pattern_name(pattern)} {pattern.name.upper()}, FULL-SIZE PATTERN",
            (space[0], space[3] - PATTERN.head),
            PATTERN.head,
            weight="bold",
        ),
        words(
            "CUT ALONG THE CROP MARKS, LAY THE REGISTER MARKS OVER EACH OTHER.",
            (space[0], space[3] - PATTERN.note_drop),
        ),
        *measuring_square((space[0], space[3] - PATTERN.square_drop - side), side, called),
        *_map(pattern, tiling, (space[0] + side + PATTERN.pad, space[3] - PATTERN.square_drop)),
    ]
    name = pattern_name(pattern)
    table = ordinate_table(pattern, wall.notation)
    below = space[3] - PATTERN.square_drop - side - PATTERN.pad
    inch = wall.units == "inch"
    drawn, tall = draw_whole(set_table(table, space[2] - space[0], inch=inch))
    if tall <= below - space[1]:
        items.append(moved(drawn, space[0], below))
        return [Sheet(f"{name}-0", f"{pattern.name.upper()}, PATTERN", width, height, space, tuple(items))]
    first = Sheet(f"{name}-0", f"{pattern.name.upper()}, PATTERN", width, height, space, tuple(items))
    more = table_pages((table,), space, inch=inch)
    return [
        first,
        *(
            Sheet(f"{name}-0.{k}", f"{pattern.name.upper()}, ORDINATES", width, height, space, page.items)
            for k, page in enumerate(more, 1)
        ),
    ]


def _map(pattern: Pattern, tiling: Tiling, corner: Point) -> list[Item]:
    """Small: the tiles with their names, and the outline's box among them. The corner is the upper left."""
    low, high = tiling.tiles[0].window, tiling.tiles[-1].window
    whole = (high[2] - low[0], high[3] - low[1])
    room = max(PATTERN.map_least, min(PATTERN.map, tiling.page[0] - MARGIN - PATTERN.pad - corner[0]))
    scale = min(room / whole[0], PATTERN.map / whole[1])
    x, y = corner[0], corner[1] - whole[1] * scale

    def to_map(box: Box) -> Box:
        return Box(
            x + (box[0] - low[0]) * scale,
            y + (box[1] - low[1]) * scale,
            x + (box[2] - low[0]) * scale,
            y + (box[3] - low[1]) * scale,
        )

    items: list[Item] = [frame(to_map(Box(0.0, 0.0, pattern.width, pattern.height)), "table border")]
    fits = min(whole[0] / tiling.columns, whole[1] / tiling.rows) * scale > PATTERN.tile_least
    for each in tiling.tiles:
        box = to_map(each.window)
        items.append(frame(box, "table rule"))
        if fits:
            items.append(words(each.name, (box[0] + 2.0, box[1] + 2.0)))
    text = f"{len(tiling.tiles)} TILES, A1 AT THE LOWER LEFT"
    items.append(words(text, (x, y - PATTERN.map_words)))
    return items


def _long_sheet(pattern: Pattern, wall: Wall) -> Sheet:
    side, called = square_of(wall)
    drawn = pattern_items(pattern, wall.notation)
    box = extent_of(drawn)
    table, tall = draw_whole(
        set_table(ordinate_table(pattern, wall.notation), PATTERN.sheet_table, inch=wall.units == "inch")
    )
    edge = MARGIN + PATTERN.pad
    table_box = extent_of((table,))
    beside = max(side, tall)
    height = max(box[3] - box[1], beside) + 2 * edge + STRIP
    origin = (edge - box[0], edge + STRIP - box[1])
    view_box = Box(edge, edge + STRIP, edge + box[2] - box[0], edge + STRIP + box[3] - box[1])
    square_at = (view_box[2] + 2 * PATTERN.pad, edge + STRIP)
    table_at = (square_at[0] + side + PATTERN.pad, edge + STRIP + tall)
    width = table_at[0] + table_box[2] + edge
    number = f"{pattern_name(pattern)}-L"
    view = tuple(shifted_item(item, origin) for item in drawn)
    items: list[Item] = [
        frame(Box(MARGIN, MARGIN, width - MARGIN, height - MARGIN), "frame"),
        *measuring_square(square_at, side, called),
        moved(table, *table_at),
        words(
            f"{wall.project.title.upper()}  {wall.project.number}  {wall.project.date}",
            (edge, edge),
            LEAST_TEXT,
        ),
        Viewport(f"pattern/{number}", "", "", Fraction(1), "FULL SIZE", origin, view_box, view_box, view),
    ]
    space = Box(MARGIN, MARGIN, width - MARGIN, height - MARGIN)
    return Sheet(number, f"{pattern.name.upper()}, PATTERN", width, height, space, tuple(items))


def _crop(corner: Point, box: Box) -> list[Item]:
    x, y = corner
    out_x = -PATTERN.crop if x == box[0] else PATTERN.crop
    out_y = -PATTERN.crop if y == box[1] else PATTERN.crop
    return [
        line((x + out_x / 4, y), (x + out_x, y), "dimension"),
        line((x, y + out_y / 4), (x, y + out_y), "dimension"),
    ]


def _register(at: Point) -> list[Item]:
    x, y = at
    return [
        line((x - PATTERN.cross, y), (x + PATTERN.cross, y), "dimension"),
        line((x, y - PATTERN.cross), (x, y + PATTERN.cross), "dimension"),
        ring(at, PATTERN.cross * PATTERN.cross_ring, "dimension"),
    ]


def _moved(point: Point, shift: Point) -> Point:
    return (point[0] + shift[0], point[1] + shift[1])


def _set(wall: Wall, sheets: tuple[Sheet, ...]) -> DrawingSet:
    p = wall.project
    title = f"{p.title}, full-size patterns"
    return DrawingSet(title, p.number, p.drawn, p.date, wall.units, sheets)
