"""The manner of the drawing: the sizes on paper that sheets are set out with, by what they are of.

Paper mm unless said; costs are in mm of distance, which is what a place further off costs. Heights of letters
are in `letter_heights`, pens in `drawing.pens`. Where no source is named the size is common practice, or was
found by looking at sheets printed at full size.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class MarkSizes:
    """Marks drawn from rings and lines, and the title under a view."""

    pointer_wing: float = 0.72  # of the ring's radius: the pointer's wings touch the ring at 45 degrees
    pointer_tip: float = 1.42  # of the ring's radius: where tangents at 45 degrees meet
    cut_arrow_long: float = 2.8  # longer than a leader's, as the end has no ring
    cut_arrow_wide: float = 1.5
    detail_corner: float = 3.0  # round, so that the outline is not taken for a part
    balloon_words: float = 6.4  # widest mark in a balloon before it is pressed
    ring_words: float = 8.8  # widest sheet number under the ring's middle before it is pressed
    least_squeeze: float = 0.75  # letters pressed more than this are not read with ease
    title_beside_ring: float = 2.0
    bar_below: float = 4.3  # from the title's line to the foot of the scale bar
    bar_tall: float = 1.3
    bar_to_text: float = 1.2
    scale_to_bar: float = 5.0
    name_above: float = 1.4  # from the title's line to the name's foot
    scale_below: float = 1.6  # from the title's line to the top of the scale
    notes_beside: float = 8.0  # from a title's end to notes beside it
    notes_below: float = 1.5  # from a title to notes under it
    notes_foot: float = 0.6  # by which notes beside a title may pass the foot of its ring
    notes_least: float = 90.0  # narrower than this a note under a title is not broken
    notes_most: float = 120.0  # lines longer than this lose the eye
    notes_leading: float = 1.55  # of the letters' height, baseline to baseline
    note_indent: float = 2.0
    note_label: float = 1.5  # from the widest label to the words
    between_notes: float = 0.6  # more than between lines of one note
    centre_c: tuple[float, float] = (-1.0, 0.2)  # C of the mark of a centre line, off its middle
    centre_l: tuple[float, float] = (0.9, -0.9)  # L, set low into the C
    number_above: float = 0.8  # from the ring's middle line to the number over it
    sheet_below: float = 0.9  # from the ring's middle line to the sheet under it
    head_long: float = 2.2  # arrow at the end of a leader
    head_wide: float = 0.75
    arrow_long: float = 2.5  # of a dimension, ISO 129-1: about the height of its letters
    arrow_wide: float = 0.8
    dot: float = 0.55  # radius at the end of a leader on a face


@dataclass(frozen=True, slots=True)
class LeaderSizes:
    """Notes and balloons with leaders, radius dimensions and detail rings: what is tried, and what it costs."""

    balloon_clear: float = 0.7  # white round a balloon in the view
    note_clear: float = 0.8  # white over and under a note in the view
    ring_clear: float = 0.8  # white round the ring of a detail
    round_place: float = 0.8  # from the place a detail was taken to the outline round it
    most_fine: int = 40  # more fine lines under a note than this are all alike bad
    radius_reaches: tuple[float, ...] = (
        7.0,
        10.0,
        14.0,
        19.0,
        25.0,
        32.0,
        42.0,
        54.0,
        70.0,
        90.0,
    )  # grow by a third
    radius_to_text: float = 3.5  # from a radius' elbow to its size: past the shoulder
    radius_back: float = 4.0  # cost of a shoulder that turns back on its leader
    radius_steep: float = 0.1  # cosine: a leader as upright as this turns back on neither side
    radius_clear: float = 0.6  # white round a radius' size
    taken: float = 60.0  # cost of standing on words or on another leader
    inked: float = 40.0  # cost of standing on lines at all
    most_ink: float = 20.0  # of the cost for each line more
    crossing: float = 40.0  # cost of a leader that crosses one
    off_shared: float = 2.5  # cost of an angle other than the shared ones: leaders of one view run alike
    fine: float = 0.25  # cost of each fine line under a balloon
    most_fine_cost: float = 12.0  # of all of them
    corner: float = 0.9  # a detail's leader meets the round corner this far in
    later_foot: float = 0.3  # cost of each place on the outline that reads less well
    ring_ink: float = 4.0  # cost of each line under a detail's ring
    ring_fine: float = 0.1  # cost of each fine line under it
    ring_taken: float = 500.0  # cost of a ring on words, or beyond the view's room
    on_ink: float = 0.3  # an end of a leader with ink as near as this lies on an edge


@dataclass(frozen=True, slots=True)
class StringSizes:
    """Dimension strings and the lanes they lie in."""

    line_inset: float = 0.8  # how far a text may stand over the end of its line
    past_ends: float = 1.2  # a string takes this much beyond its ends: a tick
    tick_clear: float = 0.2  # a tick takes this much to each side
    blocker: float = 0.05  # a line nearer than this to a gap's end is that end
    beside_end: float = 0.8  # from the tick at a string's end to a text set beside it
    beside_clear: float = 0.4  # white round that text
    raised_clear: float = 0.6  # over a raised text to the next string
    least_inward: float = 1.7  # half a text and its white
    gap_clear: float = 0.35  # white on each side of a text that a line would cross
    least_piece: float = 0.3  # a shorter piece of a broken line is left out
    dot: float = 0.45  # radius at the end of a string too short for arrows
    landing: float = 0.3  # from a raised text's foot to its leader
    beyond: float = 1e9  # further than any string lies
    inch_pitch: float = 7.0  # from string to string beyond the letters' height: stacked fractions
    mm_pitch: float = 5.5
    first: float = 5.0  # from the object to the first string, with twice the letters' height


@dataclass(frozen=True, slots=True)
class ViewSizes:
    """Round a drawn view: cutting lines, axes, title, and where notes stand."""

    levels_past: float = 3.5  # levels may stand this far over or under the drawn view
    title_under: float = 4.0  # from all that is drawn to the title
    title_inset: float = 12.0  # strings may stand this far left of the title, not more
    title_least: float = 50.0  # room that a title has at least
    reach: float = 45.0  # how far round the strings notes are looked for
    large: float = 90_000.0  # mm2: beyond it the room is looked at in coarser squares
    column_off: float = 9.0  # from the drawn view to a column of notes
    column_clear: float = 4.0  # from strings to a column of notes
    knee: float = 3.0  # from the drawn view to where leaders bend
    column_past: float = 2.5  # a column of notes may stand this far over or under the view
    knee_slack: float = 0.1  # rounding allowed to a knee at a column's end
    text_band: float = 0.7  # white over and under a string's text that a leader passes
    line_band: float = 0.8  # white beside a string's extension line
    axis_letters: tuple[float, float, float, float] = (
        -2.1,
        -2.0,
        2.1,
        3.2,
    )  # box of a C and L off its middle
    axis_on: float = 6.9  # from the view to a C and L on its line, past the line's end
    axis_beside: float = 3.6  # from the line to one beside it
    axis_low: float = 2.4  # of that one, from the view
    axis_high: float = 6.2  # the second place over a view
    axis_side: tuple[float, float] = (2.6, 3.2)  # beside a level line
    cut_past: float = 2.0  # from the last string to the mark of a cutting line
    cut_least: float = 7.0  # from the view to it
    cut_ends: tuple[float, float] = (2.5, 3.5)  # an end without a ring has room before the first string
    cut_step: float = 3.0  # marks that would meet stand one behind the other
    match_past: float = 4.0  # a match line beyond the view and its strings
    ring_gap: float = 0.5  # white where a line passes a ring
    level: float = 0.01  # titles nearer than this stand level


@dataclass(frozen=True, slots=True)
class FaceSizes:
    """Hatches, textures and break lines."""

    stone_grey: float = 0.75  # thin masonry reads darker than wood
    touching: float = 0.2  # hatched faces as near as this lean unlike ways
    angles: tuple[float, ...] = (0.0, 90.0, 30.0, 60.0)  # that a hatch is turned by until no neighbour has it
    lines_least: float = 2.2  # pitches that must fit into a thin face, else the hatch is closer
    face_pitch: float = 1.6  # a face seen is textured wider than a cut face
    on_edge: float = 0.02  # a line as near as this to a window's side lies on it
    break_join: float = 4.0  # breaks nearer than this are one
    break_least: float = 0.4  # shorter breaks are not drawn
    break_past: float = 1.5  # a break line runs past what it breaks
    zigzag: float = 1.6  # half height of a break line's zigzag


@dataclass(frozen=True, slots=True)
class ColumnSizes:
    """Notes in columns, and how fine a view's room is looked at."""

    above_letters: float = 0.4  # white over a note's first line
    below_letters: float = 0.9  # white under its last line: descenders of stacked fractions
    step_off: float = 0.01  # just beyond what blocks a place
    level_slope: float = 1e-12  # a line flatter than this is level
    chord: float = 0.2  # an arc's ink may stand off its chords by this
    samples: float = 1.5  # looks at each square along a leader


@dataclass(frozen=True, slots=True)
class LegendSizes:
    """Samples of hatches and marks, left middle at (0, 0)."""

    thin_grey: tuple[float, float] = (0.3, 0.9)  # fills between these stand for a hatch too fine to draw
    grey: float = 0.62
    swatch: tuple[float, float, float, float] = (
        0.0,
        -3.5,
        16.0,
        3.5,
    )  # 16 x 7: two thirds of a text's line each
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

    zone_letters: float = 3.0  # of the reference border: ISO 5457 asks for no less than 2.5
    under_label: float = 0.6  # from a cell's label to its text
    over_text: float = 0.3
    heights: tuple[float, ...] = (
        7.0,
        5.0,
        4.5,
        4.0,
        3.5,
        3.0,
    )  # that a text is set down through; ISO 3098 and between


@dataclass(frozen=True, slots=True)
class GeneralSizes:
    """The first sheets: lists, notes, key."""

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
    label_gap: float = 3.0  # on labels, between a mark and what stands beside it
    watermark: float = 1.3  # of its height: the room that a watermark takes
    key_clear: float = 0.8  # on the key elevation, from a leader to its words
    slack: float = 0.01


MARK = MarkSizes()
LEADER = LeaderSizes()
STRING = StringSizes()
VIEW = ViewSizes()
FACE = FaceSizes()
COLUMN = ColumnSizes()
LEGEND = LegendSizes()
TABLE = TableSizes()
BLOCK = BlockSizes()
GENERAL = GeneralSizes()
CUTTING = CuttingSizes()
PATTERN = PatternSizes()
TEXT_PAGE = TextPageSizes()
