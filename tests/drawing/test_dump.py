"""The canonical text of a sheet: every visible difference shows, noise below 0.01 mm does not."""

from dataclasses import replace
from fractions import Fraction

import pytest

from sheets.base.notation import Run
from sheets.drawing.dump import dump, sheet_hash
from sheets.drawing.items import Area, Dimension, Sheet, Stroke, Symbol, Text, Viewport
from sheets.drawing.walk import group
from sheets.geometry.box import Box
from sheets.geometry.path import Arc, Line
from sheets.geometry.region import rectangle

BEND = Arc((10.0, 5.0), 5.0, -1.5707963267948966, 1.0)
STROKE = Stroke((Line((0.0, 0.0), (10.0, 0.0)), BEND), "cut", "cap")
TEXT = Text((Run("5'-2"), Run("", 1, 2), Run('"')), (5.0, 6.0), 2.5)
AREA = Area((rectangle(0, 0, 10, 5),), hatch="masonry", gaps=(Box(1.0, 1.0, 2.0, 2.0),))
SIZE = Dimension(
    "linear", (0.0, 0.0), (100.0, 0.0), Fraction(100), TEXT, "", "", 0.0, (0.0, -5.0), (STROKE,), id="d"
)
MARK = Symbol("detail mark", (3.0, 4.0), (STROKE,), fields={"SHEET": "Z-501", "NUMBER": "1"}, link="Z-501")


def sheet(*items):
    view = Viewport(
        "elevation",
        "1",
        "ELEVATION",
        Fraction(1, 16),
        "1:16",
        (10.0, 10.0),
        Box(*(0.0,) * 4),
        Box(*(0.0,) * 4),
        items,
    )
    return Sheet("Z-201", "ELEVATION", 594.0, 420.0, Box(20.0, 10.0, 584.0, 410.0), (view,))


def test_reads_as_it_is_drawn():
    text = dump(sheet(STROKE, AREA, SIZE, MARK))
    assert text.splitlines()[:4] == [
        "sheet Z-201 | ELEVATION | 594,420",
        "frame 20,10,584,410",
        "view elevation | 1 | ELEVATION | 1:16 (1/16) | origin 10,10 | box 0,0,0,0",
        "  stroke cut | 0,0 > 10,0 arc 10,5 r5 -90 57.3 | of cap",
    ]
    assert "'5'-2[1/2]\"'" in text
    assert "NUMBER=1; SHEET=Z-501 | to Z-501" in text  # fields by name, not as they came


@pytest.mark.parametrize(
    "changed",
    [
        replace(STROKE, pen="edge"),
        replace(STROKE, path=STROKE.path[:1]),
        replace(STROKE, path=(Line((0.0, 0.0), (10.02, 0.0)), *STROKE.path[1:])),
        replace(STROKE, closed=True),
    ],
)
def test_a_visible_change_changes_the_hash(changed):
    assert sheet_hash(sheet(changed)) != sheet_hash(sheet(STROKE))


def test_each_property_of_text_and_area_counts():
    looks = [{"height": 3.5}, {"weight": "bold"}, {"angle": 90.0}, {"squeeze": 0.8}, {"grey": 0.5},
             {"link": "Z-001"}, {"runs": (Run("5'-2 1/2\""),)}, {"h": "right"}, {"v": "middle"}]  # fmt: skip
    texts = [TEXT, *(replace(TEXT, **look) for look in looks)]
    areas = [AREA, replace(AREA, fill=0.5), replace(AREA, hatch="stone"), replace(AREA, angle=30.0),
             replace(AREA, pitch=2.0), replace(AREA, gaps=()), replace(AREA, origin=(1.0, 0.0))]  # fmt: skip
    hashes = [sheet_hash(sheet(item)) for item in (*texts, *areas)]
    assert len(set(hashes)) == len(hashes)


def test_noise_and_a_negative_zero_do_not_count():
    noisy = replace(STROKE, path=(Line((-1e-9, -0.0), (10.0000001, 0.0)), *STROKE.path[1:]))
    assert dump(sheet(noisy)) == dump(sheet(STROKE))


def test_order_of_drawing_counts():
    assert dump(sheet(STROKE, AREA)) != dump(sheet(AREA, STROKE))


def test_groups_draw_nothing_themselves():
    inside = group("note", "1.", "5'-2 1/2\"", (STROKE, group("row", "", "", (TEXT,)), SIZE))
    assert dump(sheet(AREA, inside, MARK)) == dump(sheet(AREA, STROKE, TEXT, SIZE, MARK))
    assert sheet_hash(sheet(inside)) == sheet_hash(sheet(STROKE, TEXT, SIZE))
