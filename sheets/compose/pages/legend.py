"""Samples of the hatches and marks that a set uses, each with what it means. Paper mm, left middle at (0,
0)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sheets.annotate.notes import material_words
from sheets.compose.ink import disc, frame, line, polyline, words
from sheets.compose.page_sizes import LEGEND
from sheets.compose.pages.page import Page
from sheets.compose.placing import mark_symbols as marks
from sheets.compose.placing.texture import hatch_of
from sheets.compose.view_sizes import MARK
from sheets.drawing.hatches import HATCHES
from sheets.drawing.items import Area, Dimension, Item, Stroke, Symbol
from sheets.drawing.walk import ungrouped
from sheets.geometry.box import Box
from sheets.geometry.region import rectangle
from sheets.model.wall import Wall


@dataclass(frozen=True, slots=True)
class LegendRow:
    """One sample and its meaning."""

    items: tuple[Item, ...]
    says: str
    tall: float


def materials(pages: Sequence[Page], wall: Wall) -> tuple[LegendRow, ...]:
    """A sample of each material as it is cut, with its name; then the faces, and the grey of thin parts."""
    areas = [i for i in _in_views(pages) if isinstance(i, Area)]
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
    if any(
        a.fill is not None and LEGEND.thin_grey[0] < a.fill < LEGEND.thin_grey[1] and not a.hatch
        for a in areas
    ):
        box = Box(*LEGEND.swatch)
        fill = Area((rectangle(*box),), fill=LEGEND.grey)
        rows.append(
            LegendRow((fill, frame(box, "table rule")), "CUT, TOO THIN ON PAPER TO HATCH", LEGEND.swatch_tall)
        )
    return tuple(rows)


def _in_views(pages: Sequence[Page]) -> list[Item]:
    return [i for page in pages for placed, _ in page.views for i in ungrouped(placed.items)]


def _sample(name: str, materials: Sequence[str]) -> LegendRow:
    box = Box(*LEGEND.swatch)
    area = Area(
        (rectangle(*box),),
        hatch=name,
        pitch=LEGEND.face_pitch if name.endswith("face") else 1.0,
        origin=(box.x0, box.y0),
    )
    says = HATCHES[name].says + (": " + "; ".join(materials) if materials else "")
    return LegendRow((area, frame(box, "table rule")), says, LEGEND.swatch_tall)


def symbols(pages: Sequence[Page]) -> tuple[LegendRow, ...]:
    """The marks and lines that occur, each with its meaning."""
    items = _in_views(pages)
    kinds = {i.kind for i in items if isinstance(i, Symbol)}
    pens = {i.pen for i in items if isinstance(i, Stroke)}
    rows: list[LegendRow] = []
    if "section mark" in kinds:
        mark = marks.cut_mark(LEGEND.cut_at, (-1.0, 0.0), (0.0, 1.0), "")
        stroke = line(LEGEND.cut_at, (LEGEND.sample, 0.0), "cutting plane")
        rows.append(
            LegendRow(
                (_plain(marks.named(mark, "1", "Z-301")), stroke),
                "CUT HERE, SEEN AS THE POINTER LOOKS: VIEW OVER SHEET",
                LEGEND.cut_tall,
            )
        )
    if "detail mark" in kinds:
        outline = marks.detail_outline(Box(*LEGEND.detail), "")
        mark = marks.detail_mark(LEGEND.ring_at, LEGEND.detail_foot, "", outline)
        rows.append(
            LegendRow(
                (_plain(marks.named(mark, "1", "Z-501")),), "ENLARGED: DETAIL OVER SHEET", LEGEND.ring_tall
            )
        )
    if "match mark" in kinds:
        mark = marks.named(marks.match_mark(LEGEND.ring_at, ""), "2", "Z-202")
        rows.append(LegendRow((_plain(mark),), "THE VIEW GOES ON: VIEW OVER SHEET", LEGEND.ring_tall))
    if "part balloon" in kinds:
        leader = line(LEGEND.leader_from, LEGEND.leader_to, "leader")
        rows.append(
            LegendRow(
                (marks.balloon(LEGEND.balloon_at, "A1", "", (leader,), (disc(LEGEND.leader_to, MARK.dot),)),),
                "PART, BY ITS MARK IN THE SCHEDULE",
                LEGEND.balloon_tall,
            )
        )
    if "keynote" in kinds:
        leader = line(LEGEND.leader_from, LEGEND.leader_to, "leader")
        key = marks.balloon(
            LEGEND.balloon_at, "K1", "", (leader,), (disc(LEGEND.leader_to, MARK.dot),), key=True
        )
        rows.append(LegendRow((key,), "NOTE UNDER THE TITLE OF THE VIEW", LEGEND.balloon_tall))
    if "centre line" in kinds:
        rows.append(
            LegendRow(
                (line(*LEGEND.axis, "centre"), marks.centre_letters(LEGEND.axis_letters)),
                "AXIS OF SYMMETRY",
                LEGEND.axis_tall,
            )
        )
    if "hidden" in pens:
        rows.append(
            LegendRow((line((0.0, 0.0), LEGEND.line_to, "hidden"),), "EDGE HIDDEN BEHIND", LEGEND.line_tall)
        )
    if "overhead" in pens:
        rows.append(
            LegendRow((line((0.0, 0.0), LEGEND.line_to, "overhead"),), "EDGE ABOVE THE CUT", LEGEND.line_tall)
        )
    if "break" in pens:
        zig = polyline(LEGEND.zigzag, "break")
        rows.append(LegendRow((zig,), "GOES ON BEYOND THE DETAIL", LEGEND.line_tall))
    if any(isinstance(i, Dimension) and i.text.plain.endswith("\u00b1") for i in items):
        rows.append(
            LegendRow(
                (words("\u00b1", LEGEND.verify_at, LEGEND.verify_high, h="centre", v="middle"),),
                "VERIFY IN FIELD BEFORE CUTTING",
                LEGEND.line_tall,
            )
        )
    return tuple(rows)


def _plain(symbol: Symbol) -> Symbol:
    # A sample leads nowhere.
    return replace(symbol, target="", link="")
