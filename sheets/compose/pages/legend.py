"""Samples of the hatches and marks that a set uses, each with what it means. Paper mm, left middle at (0,
0)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sheets.annotate.notes import material_words
from sheets.compose.ink import disc, frame, line, words
from sheets.compose.pages.page import Page
from sheets.compose.placing import mark_symbols as marks
from sheets.compose.placing.texture import hatch_of
from sheets.drawing.hatches import HATCHES
from sheets.drawing.items import Area, Dimension, Item, Stroke, Symbol
from sheets.geometry.region import rectangle
from sheets.model.wall import Wall

SAMPLE = 20.0
"""Width kept for a sample, mm."""


@dataclass(frozen=True, slots=True)
class LegendRow:
    """One sample and its meaning."""

    items: tuple[Item, ...]
    says: str
    tall: float


def materials(pages: Sequence[Page], wall: Wall) -> tuple[LegendRow, ...]:
    """A sample of each material as it is cut, with its name; then the faces, and the grey of thin parts."""
    areas = [i for page in pages for placed, _ in page.views for i in placed.items if isinstance(i, Area)]
    hatches = {a.hatch for a in areas if a.hatch}
    names: dict[str, list[str]] = {}
    parts = {part.key: part for part in wall.parts}
    cuts = [face for page in pages for placed, _ in page.views for face in placed.annotated.view.cuts]
    for face in sorted(cuts, key=lambda f: f.part):
        if face.part in parts and parts[face.part].maker != "room":
            said = names.setdefault(hatch_of(face.material, face.grain), [])
            text = material_words(parts[face.part])
            if text not in said:
                said.append(text)
    rows = [_sample(name, names.get(name, [])) for name in HATCHES if name in hatches]
    if any(a.fill is not None and 0.3 < a.fill < 0.9 and not a.hatch for a in areas):
        box = (0.0, -3.5, SAMPLE - 4, 3.5)
        fill = Area((rectangle(*box),), fill=0.62)
        rows.append(LegendRow((fill, frame(box, "table rule")), "CUT, TOO THIN ON PAPER TO HATCH", 8.0))
    return tuple(rows)


def _sample(name: str, materials: Sequence[str]) -> LegendRow:
    box = (0.0, -3.5, SAMPLE - 4, 3.5)
    area = Area(
        (rectangle(*box),), hatch=name, pitch=1.6 if name.endswith("face") else 1.0, origin=(0.0, -3.5)
    )
    says = HATCHES[name].says + (": " + "; ".join(materials) if materials else "")
    return LegendRow((area, frame(box, "table rule")), says, 8.0)


def symbols(pages: Sequence[Page]) -> tuple[LegendRow, ...]:
    """The marks and lines that occur, each with its meaning."""
    items = [i for page in pages for placed, _ in page.views for i in placed.items]
    kinds = {i.kind for i in items if isinstance(i, Symbol)}
    pens = {i.pen for i in items if isinstance(i, Stroke)}
    rows: list[LegendRow] = []
    if "section mark" in kinds:
        mark = marks.cut_mark((13.0, 0.0), (-1.0, 0.0), (0.0, 1.0), "")
        stroke = line((13.0, 0.0), (SAMPLE, 0.0), "cutting plane")
        rows.append(
            LegendRow(
                (_plain(marks.named(mark, "1", "Z-301")), stroke),
                "CUT HERE, SEEN AS THE POINTER LOOKS: VIEW OVER SHEET",
                19.0,
            )
        )
    if "detail mark" in kinds:
        outline = marks.detail_outline((14.0, -3.0, 19.0, 3.0), "")
        mark = marks.detail_mark((6.0, 0.0), (14.0, 0.0), "", outline)
        rows.append(
            LegendRow((_plain(marks.named(mark, "1", "Z-501")),), "ENLARGED: DETAIL OVER SHEET", 14.0)
        )
    if "match mark" in kinds:
        mark = marks.named(marks.match_mark((6.0, 0.0), ""), "2", "Z-202")
        rows.append(LegendRow((_plain(mark),), "THE VIEW GOES ON: VIEW OVER SHEET", 14.0))
    if "part balloon" in kinds:
        leader = line((7.8, 0.0), (16.0, 0.0), "leader")
        rows.append(
            LegendRow(
                (marks.balloon((3.9, 0.0), "A1", "", (leader,), (disc((16.0, 0.0), 0.55),)),),
                "PART, BY ITS MARK IN THE SCHEDULE",
                9.0,
            )
        )
    if "keynote" in kinds:
        leader = line((7.8, 0.0), (16.0, 0.0), "leader")
        key = marks.balloon((3.9, 0.0), "K1", "", (leader,), (disc((16.0, 0.0), 0.55),), key=True)
        rows.append(LegendRow((key,), "NOTE UNDER THE TITLE OF THE VIEW", 9.0))
    if "centre line" in kinds:
        rows.append(
            LegendRow(
                (line((0.0, -2.0), (15.0, -2.0), "centre"), marks.centre_letters((17.6, -2.0))),
                "AXIS OF SYMMETRY",
                7.0,
            )
        )
    if "hidden" in pens:
        rows.append(LegendRow((line((0.0, 0.0), (16.0, 0.0), "hidden"),), "EDGE HIDDEN BEHIND", 5.0))
    if "overhead" in pens:
        rows.append(LegendRow((line((0.0, 0.0), (16.0, 0.0), "overhead"),), "EDGE ABOVE THE CUT", 5.0))
    if "break" in pens:
        zig = Stroke(
            (
                *line((0.0, 0.0), (6.0, 0.0), "break").path,
                *line((6.0, 0.0), (7.2, 1.4), "break").path,
                *line((7.2, 1.4), (8.8, -1.4), "break").path,
                *line((8.8, -1.4), (10.0, 0.0), "break").path,
                *line((10.0, 0.0), (16.0, 0.0), "break").path,
            ),
            "break",
        )
        rows.append(LegendRow((zig,), "GOES ON BEYOND THE DETAIL", 5.0))
    if any(isinstance(i, Dimension) and i.text.plain.endswith("\u00b1") for i in items):
        rows.append(
            LegendRow(
                (words("\u00b1", (7.0, 0.0), 3.5, h="centre", v="middle"),),
                "VERIFY IN FIELD BEFORE CUTTING",
                5.0,
            )
        )
    return tuple(rows)


def _plain(symbol: Symbol) -> Symbol:
    # A sample leads nowhere.
    return replace(symbol, target="", link="")
