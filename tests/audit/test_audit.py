"""Each kind of fault is planted in a clean set, and found, and nothing else with it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F  # noqa: N817

import pytest

from sheets.audit import defects as audit_rules
from sheets.audit.audit import KINDS, audit, counts
from sheets.base.notation import Run
from sheets.compose.ink import disc, frame, line, words
from sheets.drawing import pens
from sheets.drawing.items import Area, Dimension, DrawingSet, Sheet, Symbol, Text, Viewport
from sheets.geometry.box import Box
from sheets.geometry.region import rectangle

SCALE = F(1, 10)


def dimension(a=0.0, b=1000.0, *, y=30.0, text_y=31.0, leader=False, name="d"):
    xa, xb = 50 + a / 10, 50 + b / 10
    strokes = [line((xa, y), (xb, y), "dimension"), line((xa, y - 2), (xa, y + 2), "dimension")]
    if leader:
        strokes.append(line(((xa + xb) / 2, y), ((xa + xb) / 2, text_y - 0.5), "leader"))
    text = Text((Run(str(int(b - a))),), ((xa + xb) / 2, text_y), 2.5, "centre")
    return Dimension("linear", (a, 0.0), (b, 0.0), F(int(b - a)), text, "", "", 0.0, ((xa + xb) / 2, y),
    tuple(strokes), (), name, ("p",), str(int(b - a)))  # fmt: skip


def mark(kind="section mark", target="section/a", number="1", sheet="Z-301", at=(30.0, 150.0)):
    return Symbol(kind, at, (), (), (), {"number": number, "sheet": sheet}, sheet, target)


WHOLE, DRAWN = Box(40.0, 20.0, 260.0, 180.0), Box(50.0, 45.0, 250.0, 170.0)


def view(
    *items, name="elevation", number="1", box=WHOLE, drawn=DRAWN, scale=SCALE, scale_text="1:10"
):
    return Viewport(name, number, name, scale, scale_text, (50.0, 45.0), box, drawn, items)


def sheet(*items, number="Z-201"):
    return Sheet(number, "T", 297.0, 210.0, Box(20.0, 10.0, 287.0, 200.0), items)


def drawing(*sheets):
    return DrawingSet("T", "1", "", "", "mm", sheets)


def section_sheet():
    return sheet(view(name="section/a"), number="Z-301")


def found(*items, viewports=()):
    return counts(audit(drawing(sheet(view(dimension(), mark(), *items), *viewports), section_sheet())))


def test_the_set_that_faults_are_planted_in_is_clean():
    assert found() == {}


def test_text_over_text():
    assert found(words("ONE", (100, 100)), words("TWO", (102, 101))) == {"text over text": 1}


def test_text_beside_text_is_none():
    assert found(words("ONE", (100, 100)), words("TWO", (100, 104))) == {}


def test_text_over_a_line():
    assert found(words("NOTE", (100, 100)), line((101, 90), (101, 110), "edge")) == {"text over line": 1}


def test_text_on_a_ground_of_its_own_hides_the_lines_under_it_and_none_over_it():
    ground = Area((rectangle(95, 97, 125, 107),), fill=1.0)
    sign = Symbol("view title", (100, 100), (), (ground,), (words("NOTE", (100, 100)),), {})
    through = line((101, 90), (101, 110), "edge")
    assert found(through, sign) == {}
    assert found(sign, through) == {"text over line": 1}


def test_text_over_its_own_line_is_its_own_affair():
    ring = Symbol(
        "part balloon",
        (100, 100),
        (line((90, 101), (120, 101), "leader"),),
        (),
        (words("M1", (100, 100)),),
        {},
    )
    assert found(ring) == {}


def test_text_over_a_hatch():
    hatch = Area((rectangle(90, 90, 120, 120),), hatch="masonry")
    assert found(words("NOTE", (100, 100)), hatch) == {"text over hatch": 1}
    assert found(words("NOTE", (100, 100)), replace(hatch, gaps=(Box(99, 97, 112, 104),))) == {}


def test_text_over_the_head_of_a_leader():
    assert found(words("NOTE", (100, 100)), disc((107, 101), 0.55)) == {"text over hatch": 1}


def test_a_dimension_whose_text_is_astray():
    assert found(dimension(0, 500, text_y=36.0, name="e")) == {"dimension text astray": 1}
    assert found(dimension(0, 500, text_y=36.0, name="e", leader=True)) == {}


def test_leaders_that_cross():
    assert found(line((60, 60), (90, 90), "leader"), line((60, 90), (90, 60), "leader")) == {
        "leaders cross": 1
    }


def test_a_mark_without_a_view():
    assert found(mark(target="section/b", number="2")) == {"mark without target": 1}


def test_a_mark_that_names_the_wrong_sheet():
    assert found(mark(sheet="Z-302")) == {"mark without target": 1}


def test_a_section_that_nothing_leads_to():
    defects = audit(drawing(sheet(view(dimension())), section_sheet()))
    assert counts(defects) == {"target without mark": 1}
    assert defects[0].sheet == "Z-301"


def test_a_view_over_the_frame():
    beyond = view(name="plan", box=Box(262.0, 20.0, 290.0, 60.0), drawn=Box(265.0, 25.0, 280.0, 50.0))
    assert found(viewports=(beyond,)) == {"view outside frame": 1}


@pytest.mark.parametrize(("right", "faults"), [(286.5, {"view outside frame": 1}), (285.0, {})])
def test_a_view_that_all_but_touches_the_frame(right, faults):
    close = view(name="plan", box=Box(262.0, 20.0, right, 60.0), drawn=Box(265.0, 25.0, 275.0, 50.0))
    assert found(viewports=(close,)) == faults


def test_a_view_over_a_view():
    over = view(name="plan", box=Box(255.0, 20.0, 285.0, 60.0), drawn=Box(262.0, 25.0, 280.0, 50.0))
    assert found(viewports=(over,)) == {"view over view": 1}


def test_words_of_a_view_beyond_the_frame():
    assert found(words("NOTE", (280, 100))) == {"text outside frame": 1}


def test_text_too_small():
    assert found(words("NOTE", (100, 100), 2.0)) == {"text too small": 1}
    assert found(words("NOTE", (100, 100), squeeze=0.6)) == {"text too small": 1}


def test_a_hatch_too_dense():
    assert found(Area((rectangle(90, 90, 120, 120),), hatch="masonry", pitch=0.2)) == {"hatch too dense": 1}


def test_a_scale_that_is_not_standard():
    odd = view(
        name="plan",
        box=Box(262.0, 20.0, 285.0, 60.0),
        drawn=Box(265.0, 25.0, 280.0, 50.0),
        scale=F(1, 7),
        scale_text="1:7",
    )
    assert found(viewports=(odd,)) == {"scale not standard": 1}


def test_a_scale_that_says_another():
    odd = view(
        name="plan", box=Box(262.0, 20.0, 285.0, 60.0), drawn=Box(265.0, 25.0, 280.0, 50.0), scale_text="1:20"
    )
    assert found(viewports=(odd,)) == {"scale not standard": 1}


def test_a_dimension_twice_in_a_view():
    assert found(dimension(y=24.0, text_y=25.0, name="again")) == {"dimension twice": 1}


def test_a_string_over_a_view():
    assert found(dimension(0, 400, y=100.0, text_y=101.0, name="e")) == {"string crosses view": 1}


def test_a_sheet_nearly_empty_beside_one_with_room():
    one = sheet(view(dimension(), mark(), box=Box(21.0, 20.0, 200.0, 180.0)), number="Z-501")
    small = view(mark(), name="plan", box=Box(30.0, 20.0, 60.0, 60.0), drawn=Box(35.0, 25.0, 55.0, 50.0))
    assert counts(audit(drawing(section_sheet(), one, sheet(small, number="Z-502")))) == {
        "sheet nearly empty": 1
    }
    full = sheet(view(dimension(), mark(), box=Box(21.0, 11.0, 286.0, 199.0)), number="Z-501")
    assert counts(audit(drawing(section_sheet(), full, sheet(small, number="Z-502")))) == {}


def test_a_line_width_that_is_not_of_the_series(monkeypatch):
    def odd(pen, kind="sheet", units="inch"):
        return replace(pens.style(pen, kind, units), width=0.3 if pen == "edge" else 0.25)

    monkeypatch.setattr(audit_rules, "style", odd)
    assert found(line((60, 60), (90, 60), "edge")) == {"line width not standard": 1}


def test_every_kind_has_its_planted_case():
    # Whoever adds a kind adds its case: the kinds are named in the expectations above.
    from pathlib import Path

    text = Path(__file__).read_text("utf-8")
    assert [kind for kind in KINDS if f'"{kind}": 1' not in text] == []


def test_places_are_on_the_sheet_and_order_is_that_of_reading():
    items = (words("A", (100, 50)), words("B", (100, 50)), words("C", (100, 150)), words("D", (100, 150)))
    defects = audit(drawing(sheet(view(dimension(), mark(), *items)), section_sheet()))
    assert [d.place[1] > 100 for d in defects] == [True, False]


@pytest.mark.parametrize("frame_pen", ["frame"])
def test_a_frame_is_no_fault(frame_pen):
    assert found(frame(Box(45.0, 22.0, 255.0, 178.0), frame_pen)) == {}


@pytest.mark.parametrize(("rise", "faults"), [(0.0, 1), (2.0, 1), (8.0, 0)])
def test_a_leader_along_a_line(rise, faults):
    # 2 in 60 is 1.9 degrees, 8 in 60 is 7.6: the house's limit is 5 over 3 mm.
    planted = (line((80, 100), (140, 100), "edge"), line((80, 100.2), (140, 100.2 + rise), "leader"))
    assert found(*planted) == ({"leader along line": 1} if faults else {})


def test_a_leader_that_ends_on_a_line_does_not_run_along_it():
    assert found(line((80, 100), (140, 100), "edge"), line((110, 130), (120, 100), "leader")) == {}


def test_a_cloud_beside_a_leader_is_no_line_of_the_view():
    beside = (line((80, 100.2), (140, 100.2), "leader"),)
    assert found(line((80, 100), (140, 100), "edge"), *beside) == {"leader along line": 1}
    assert found(line((80, 100), (140, 100), "revision"), *beside) == {}
