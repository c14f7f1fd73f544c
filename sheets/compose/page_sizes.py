"""The manner of the drawing on pages: sizes of tables, borders, lists and what else stands beside views.

Paper mm unless said, as in `view_sizes`.
"""

from __future__ import annotations

from dataclasses import dataclass

LEAST_ROOM = 50.0
"""No sheet has less for its views, across or down: the smallest detail with its title wants more."""


@dataclass(frozen=True, slots=True)
class LegendSizes:
    """Samples of hatches and marks, left middle at (0, 0)."""

    sample: float = 20.0  # width kept for a sample
    thin_grey: tuple[float, float] = (0.3, 0.9)  # fills between these stand for a hatch too fine to draw
    grey: float = 0.62
    # 16 x 7: two thirds of a text's line each.
    swatch: tuple[float, float, float, float] = (0.0, -3.5, 16.0, 3.5)
    swatch_tall: float = 8.0
    face_pitch: float = 1.6  # as faces are textured in views
    cut_at: tuple[float, float] = (13.0, 0.0)  # the ring and its pointer at the left, the line at the right
    cut_tall: float = 19.0
    ring_at: tuple[float, float] = (6.0, 0.0)  # a ring that touches the left side
    ring_tall: float = 14.0
    detail: tuple[float, float, float, float] = (14.0, -3.0, 19.0, 3.0)
    detail_foot: tuple[float, float] = (14.0, 0.0)
    balloon_at: tuple[float, float] = (3.9, 0.0)  # touches the left side
    leader_from: tuple[float, float] = (7.8, 0.0)  # at the balloon's right
    leader_to: tuple[float, float] = (16.0, 0.0)
    balloon_tall: float = 9.0
    axis: tuple[tuple[float, float], tuple[float, float]] = ((0.0, -2.0), (15.0, -2.0))
    axis_letters: tuple[float, float] = (17.6, -2.0)
    axis_tall: float = 7.0
    line_to: tuple[float, float] = (16.0, 0.0)
    line_tall: float = 5.0
    zigzag: tuple[tuple[float, float], ...] = (
        (0.0, 0.0), (6.0, 0.0), (7.2, 1.4), (8.8, -1.4), (10.0, 0.0), (16.0, 0.0)
    )  # fmt: skip
    verify_at: tuple[float, float] = (7.0, 0.0)
    verify_high: float = 3.5


@dataclass(frozen=True, slots=True)
class TableSizes:
    """Tables: schedules, lists, revisions."""

    pad: float = 1.5  # from a rule to the lettering
    title: float = 3.5  # height of a table's title
    title_tall: float = 7.5  # room that it takes
    widest_cell: float = 62.0  # words wider than this are broken first
    narrowest: float = 9.0  # no column is narrower
    row: float = 3.9  # baseline to baseline
    fraction_row: float = 4.9  # with stacked fractions
    head_row: float = 3.7
    raised_head_row: float = 4.2  # with raised figures
    group_row: float = 5.2  # a heading within a table
    above_notes: float = 1.5
    notes_leading: float = 1.55  # of the letters' height
    title_drop: float = 0.6  # from a table's top to its title
    least_rule: float = 0.1  # a shorter rule is left out
    least_title: float = 0.75  # titles are pressed to this, not further
    least_squeeze: float = 0.6  # cells are pressed to this, not further
    cell_slack: float = 0.3  # so that rounding breaks no word


@dataclass(frozen=True, slots=True)
class BlockSizes:
    """The border and the title block."""

    white: float = 8.0  # white inside the frame on large sheets; the centring marks of ISO sheets end in it
    white_small: float = 5.0  # the same on small sheets
    inset: float = 1.5  # from a cell's rule to its lettering
    label_drop: float = 1.1  # from a cell's upper rule to its label
    floor: float = 0.7  # from a cell's lower rule to its lettering
    zone: float = 50.0  # ISO 5457: fields of 50 mm from the centring marks
    band: float = 5.0  # width of the reference border
    # A reason with this much room stands beside number, date and name, else below.
    reason_beside: float = 45.0
    # Tried in turn: pressed below 0.75 letters of one family no longer look alike.
    squeezes: tuple[float, ...] = (1.0, 0.92, 0.84, 0.75)
    leading: float = 1.55  # of the letters' height, baseline to baseline
    over_record: float = 6.0  # white between the record and what stands over it
    zone_letters: float = 3.0  # of the reference border: ISO 5457 asks for no less than 2.5
    under_label: float = 0.6  # from a cell's label to its text
    over_text: float = 0.3
    # That a text is set down through; ISO 3098 and between.
    heights: tuple[float, ...] = (7.0, 5.0, 4.5, 4.0, 3.5, 3.0)


@dataclass(frozen=True, slots=True)
class GeneralSizes:
    """The first sheets: lists, notes, key."""

    gap: float = 9.0  # between blocks and columns
    # Of the sheet's height, tried in turn for the axonometric.
    picture_parts: tuple[float, ...] = (0.95, 0.72, 0.55, 0.4)
    column: float = 135.0  # a column is about this wide
    narrow: float = 105.0  # as narrow as this two columns are read better than one twice as wide
    head: float = 3.5  # height of headings
    list_drop: float = 4.5  # from a heading to the first row of a list of sheets
    head_drop: float = 0.3  # from a block's top to its heading
    first_line: float = 2.6  # from a heading to the first line of text
    samples_drop: float = 4.0  # from a heading to the first sample
    name_gap: float = 4.0  # from the widest name to what it means
    note_indent: float = 7.0  # room for a note's number
    note_room: float = 8.0  # what number and right side take of a column
    between_notes: float = 0.8  # more than between lines of one note


@dataclass(frozen=True, slots=True)
class CuttingSizes:
    """Cutting diagrams."""

    between: float = 10.0  # between columns
    under: float = 4.0  # between diagrams
    head: float = 7.5  # room that a heading takes
    leading: float = 4.0  # baseline to baseline of captions
    clear: float = 0.7  # from lettering to the ends of its piece
    tight: float = 0.3  # over and under it
    waste: float = 0.86  # grey of what is neither part nor kerf
    most_stretch: float = 3.0  # factor on the width of boards too narrow for marks
    title: float = 3.5  # height of a title
    title_leading: float = 5.6  # baseline to baseline of titles
    after_title: float = 3.0
    caption_least: float = 90.0  # captions are not broken narrower than this
    caption_up: float = 1.2  # from a diagram to its caption
    list_least: float = 60.0  # nor lists of small pieces narrower than this
    list_up: float = 0.6
    mark_slack: float = 0.2  # so that rounding turns no mark
    two_lines: float = 1.9  # of the letters' height: a mark over a size
    slack: float = 0.01  # so that rounding moves no column


@dataclass(frozen=True, slots=True)
class PatternSizes:
    """Full-size patterns."""

    nearest: float = 5.0  # between the lettering of two ordinates
    from_edge: float = 0.3  # white between lettering and an edge of the piece
    title: float = 3.5  # height of a pattern's title
    widest: float = 0.62  # of the sheet's width: a drawing leaves its table room
    tallest: float = 0.55  # of the sheet's height, so that two stand on one
    leading: float = 4.0  # baseline to baseline of the words over them
    crop: float = 4.0  # length of a crop mark
    cross: float = 3.0  # half of a register cross
    pad: float = 10.0  # white inside a printer's margin
    map: float = 60.0  # widest drawing of which tile goes where
    arc_chord: float = 0.1  # an arc's ink may stand off its chords by this
    first_try: float = 3.0  # from an edge to an ordinate's lettering
    clear: float = 1.5  # from an edge to lettering across it
    title_up: float = 6.0  # from the piece to the words over it
    title_step: float = 5.0  # and to its title over those
    grain_off: float = 8.0  # from the piece to the arrow along the grain
    grain_drop: float = 2.0
    grain_long: float = 22.0
    grain_label: float = 2.5  # from a level arrow to its word
    grain_beside: float = 3.0  # from an upright one
    grain_middle: float = 11.0
    square_up: float = 3.0  # words in the square that proves the print
    square_down: float = 3.0
    square_lower: float = 8.0
    table_most: float = 190.0  # a table of ordinates is no wider than a page
    inch_square: tuple[float, str] = (
        101.6,
        "4 IN",
    )  # the square that proves the print: large enough to measure
    mm_square: tuple[float, str] = (100.0, "100 MM")
    tile_words: tuple[float, float] = (2.0, 3.0)  # of a tile's words, from its corner
    head: float = 4.0  # letters of the first page, and their drop
    note_drop: float = 10.0
    square_drop: float = 16.0
    map_least: float = 10.0
    tile_least: float = 8.0  # tiles smaller than this on the map are not named
    map_words: float = 5.0
    sheet_table: float = 150.0
    cross_ring: float = 0.6  # of a register cross: its ring


@dataclass(frozen=True, slots=True)
class TextPageSizes:
    """Pages of plain text: transmittals, reports."""

    left: float = 20.0  # room for the holes of a binder
    edge: float = 12.0
    letter: float = 2.5  # height of the text: least of ISO 3098
    step: float = 4.4  # baseline to baseline
    head: float = 3.5  # height of headings
    gap: float = 3.0  # between blocks
    indent: float = 6.0
    per_space: float = 2.0
    title: float = 5.0
    under_head: float = 1.6
    between: float = 0.6  # taken off a line between paragraphs
    least_squeeze: float = 0.6
    column_gap: float = 5.0
    last_least: float = 30.0  # the last column is no narrower
    under_row: float = 1.2
    foot_gap: float = 5.0


@dataclass(frozen=True, slots=True)
class KeySizes:
    """The key elevation: where each view was taken."""

    tallest: float = 60.0  # of the drawn wall
    knee: float = 5.0  # from the wall to where leaders bend
    to_text: float = 3.5  # from there to the lettering
    past: float = 2.0  # how far a cutting line runs past the wall
    clear: float = 0.8  # from a leader to its words


@dataclass(frozen=True, slots=True)
class LabelSizes:
    """Labels of parts."""

    pad: float = 1.5  # white inside a label's edge
    mark: float = 4.5  # height of the mark: read across a bench
    leading: float = 3.7  # baseline to baseline
    # A smaller label does not hold a mark and a size that can be read.
    least: tuple[float, float] = (25.0, 10.0)
    floor: float = 0.5  # from a label's lower edge to its lettering
    printer: float = 6.0  # what a printer leaves blank along the edges of the paper (common practice: 4 to 6)
    slack: float = 0.01  # that a label may pass the paper by: sizes in inches on a sheet in millimetres
    beside: float = 3.0  # between a mark and what stands beside it


@dataclass(frozen=True, slots=True)
class WatermarkSizes:
    """The words across sheets that are not for the shop."""

    grey: float = 0.92  # nearly white: the lightest lines (grey 0.6) stay clear over it on any print
    # Of capitals; the tallest that finds room.
    heights: tuple[float, ...] = (24.0, 18.0, 14.0, 10.0, 7.0, 5.0)
    cell: float = 4.0  # squares in which room is looked for
    room: float = 1.3  # of its height: the room that it takes


@dataclass(frozen=True, slots=True)
class PageSizes:
    """Setting views, details and pictures out on sheets."""

    under: float = 5.0  # least white between views one under the other
    between: float = 8.0  # white between boxes
    slack: float = 0.01  # so that rounding makes no box too large
    gap: float = 10.0  # least white between views side by side
    detail_narrowest: float = 30.0  # a detail's cell is no narrower
    detail_rows: float = 8.0  # white between rows of details
    picture_gap: float = 12.0  # between pictures of checks
    picture_title: float = 3.5  # height of their titles
    picture_under: float = 4.0  # from a title to its picture


LEGEND = LegendSizes()
TABLE = TableSizes()
BLOCK = BlockSizes()
GENERAL = GeneralSizes()
CUTTING = CuttingSizes()
PATTERN = PatternSizes()
TEXT_PAGE = TextPageSizes()
KEY = KeySizes()
LABEL = LabelSizes()
WATERMARK = WatermarkSizes()
PAGE = PageSizes()
