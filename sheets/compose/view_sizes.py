"""The manner of the drawing in and round views: sizes on paper, by what they are of.

The rest is in `page_sizes`, heights of letters in `letter_heights`, pens in `drawing.pens`. Paper mm unless
said; costs are in mm of distance, which is what a place further off costs. Where no source is named the size
is common practice (from memory), or was chosen by eye on sheets as they come out.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi


@dataclass(frozen=True, slots=True)
class MarkSizes:
    """Marks drawn from rings and lines, and the title under a view."""

    ring: float = 6.0  # radius of the ring of a cut, detail or view mark: a sheet's number fits
    cut_end: float = 4.0  # length of the heavy end of a cutting line without a ring
    cut_arrow: float = 5.0  # how far the arrow there reaches to the side
    heavy: float = 0.5  # width of that heavy end
    titles: tuple[float, ...] = (5.0, 4.5, 4.0, 3.5)  # heights of a view's title, tried in turn
    title_room: float = 95.0  # that a title takes beside its view if it must
    least_beside: float = 40.0  # narrower notes beside a title are better under it
    balloon: float = 3.9  # radius of a part's balloon
    pointer_wing: float = 0.72  # of the ring's radius: the pointer's wings touch the ring at 45 degrees
    pointer_tip: float = 1.42  # of the ring's radius: where tangents at 45 degrees meet
    cut_arrow_long: float = 2.8  # longer than a leader's, as the end has no ring
    cut_arrow_wide: float = 1.5
    detail_corner: float = 2.4  # most that is cut off, so that the outline is not taken for a part
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
    """Notes and balloons with leaders, radius dimensions and detail rings: what is tried, what it costs."""

    shoulder: float = 3.0  # the level piece of a leader beside its words
    on_face: float = 1.5  # white round a note on a face
    to_text: float = 1.0  # from a leader's end to its words
    # From a part to its balloon in the view, tried in turn: each a quarter further.
    radii: tuple[float, ...] = (7.5, 9.5, 12.0, 15.0, 19.0, 24.0, 30.0, 38.0, 48.0)
    # From a place to the ring of its detail, tried in turn.
    reaches: tuple[float, ...] = (8.0, 10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0, 60.0, 76.0, 95.0, 118.0)
    in_the_way: float = 200.0  # cost of crossing a leader or a note
    # Radians: of a radius' leader off square.
    slants: tuple[float, ...] = (0.0, pi / 9, -pi / 9, pi / 4.5, -pi / 4.5, pi / 3, -pi / 3)
    # Radians: of a detail's leader off square.
    turns: tuple[float, ...] = (0.0, pi / 8, -pi / 8, pi / 4, -pi / 4)
    balloon_clear: float = 0.7  # white round a balloon in the view
    note_clear: float = 0.8  # white over and under a note in the view
    ring_clear: float = 0.8  # white round the ring of a detail
    round_place: float = 0.8  # from the place a detail was taken to the outline round it
    most_fine: int = 40  # more fine lines under a note than this are all alike bad
    # Of a radius' leader, tried in turn: each about a third longer.
    radius_reaches: tuple[float, ...] = (7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 42.0, 54.0, 70.0, 90.0)
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
    later_foot: float = 0.3  # cost of each place on the outline that reads less well
    ring_ink: float = 4.0  # cost of each line under a detail's ring
    ring_fine: float = 0.1  # cost of each fine line under it
    ring_taken: float = 500.0  # cost of a ring on words, or beyond the view's room
    on_ink: float = 0.3  # an end of a leader with ink as near as this lies on an edge


@dataclass(frozen=True, slots=True)
class StringSizes:
    """Dimension strings and the lanes they lie in."""

    clear: float = 0.8  # from a text to the tick or line beside it
    above: float = 1.0  # from a dimension line to the ink over it
    raised: float = 3.9  # from a dimension line to a raised text: past the ends of extension lines
    slant: float = 3.0  # height in which a leader leans over to its text, over texts on the line
    off: float = 1.1  # from a text to a line of another string that crosses its own
    between: float = 1.2  # between raised texts
    tick: float = 1.1  # half the length of a tick, along each axis
    arrows_need: float = 7.0  # narrower than this two arrows do not fit: dots instead (ISO 129-1)
    broken: float = 0.5  # left clear round a text that breaks a line
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

    into_view: float = 6.0  # how far a cutting line reaches over the drawn view
    axis_past: float = 4.0  # how far a centre line runs past it
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
    # Box of a C and L off its middle.
    axis_letters: tuple[float, float, float, float] = (-2.1, -2.0, 2.1, 3.2)
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

    thin_grey: float = 0.62  # of a cut face too thin to hatch
    under_hatch: float = 0.95  # a grey that sets a cut face off from white paper
    thickest_panel: float = 50.0  # full size: a panel's cut face thicker than this is cut along the sheet
    closest: float = 0.75  # factor on a hatch's pitch in small faces
    face_least: float = 7.0  # a face smaller than this on paper is left without texture
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

    along: float = 3.0  # a leader that runs along a line for longer than this is read as part of it
    near: float = 0.5  # a leader as near as this to a line runs along it
    head: float = 1.2  # half of the room that a leader's dot or arrow takes
    # A note is moved up or down by, tried in turn.
    lifts: tuple[float, ...] = (4.0, -4.0, 8.0, -8.0, 13.0, -13.0, 19.0, -19.0)
    wide: float = 160.0  # a view wider than this has its notes on both sides
    crossing: float = 10.0  # cost of a leader that crosses; an entry beyond the view's height costs 1
    later: float = 0.1  # cost of being a later plan
    note_width: float = 52.0  # widest line of a note beside a view
    ring_to_lines: float = 1.4  # from a ring to the words beside it
    note_leading: float = 1.62  # of the letters' height: a cloud's edge passes between two lines
    between: float = 2.2  # white between two notes
    most_rise: float = 22.0  # a note moved further than this from its part is no longer seen with it
    narrow: float = 34.0  # widest line of a note in a narrow column
    above_letters: float = 0.4  # white over a note's first line
    below_letters: float = 0.9  # white under its last line: descenders of stacked fractions
    step_off: float = 0.01  # just beyond what blocks a place
    level_slope: float = 1e-12  # a line flatter than this is level
    chord: float = 0.2  # an arc's ink may stand off its chords by this
    samples: float = 1.5  # looks at each square along a leader


MARK = MarkSizes()
LEADER = LeaderSizes()
STRING = StringSizes()
VIEW = ViewSizes()
FACE = FaceSizes()
COLUMN = ColumnSizes()
