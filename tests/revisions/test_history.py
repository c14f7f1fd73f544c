"""Twelve revisions of one wall, issued one after the other: reports, clouds, marks and sheets, measured at
each.

What changed on a sheet is found here a second way, by sampling its lines and measuring distances with
shapely.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pypdf
import shapely
import shapely.affinity

from sheets.drawing.items import Dimension, DrawingSet, Stroke, Symbol, Text, Viewport
from sheets.drawing.lettering import box as text_box
from sheets.drawing.walk import leaves
from sheets.geometry.path import Arc
from sheets.model.wall import Wall
from tests.revisions.turns import Turn

BUILT = {"cut", "outline", "step", "edge", "fine", "beyond", "hidden", "overhead"}


def built(wall: Wall) -> dict[str, tuple[object, ...]]:
    """What a part is, told without the code under test: box, material, joints."""
    return {
        p.key: (
            p.extent,
            p.material.name,
            Counter((j.kind, j.width, j.depth) for j in p.joints for _ in range(j.count)),
        )
        for p in wall.parts
        if p.maker != "room"  # drawn as far as the drawing goes; its sizes are told as the room's
    }


def test_the_report_names_what_changed_and_nothing_else(turns: tuple[Turn, ...]) -> None:
    for turn in turns:
        before, after = built(turn.found.before), built(turn.found.after)
        changed = {key for key in before.keys() | after.keys() if before.get(key) != after.get(key)}
        reported = turn.found.changes.parts
        only_cut = {c.key for c in reported if c.kinds == ("shape",)}
        assert {c.key for c in reported} - only_cut == changed, turn.step.name
        assert {c.key for c in reported if "added" in c.kinds} == after.keys() - before.keys()
        assert {c.key for c in reported if "removed" in c.kinds} == before.keys() - after.keys()


def test_the_report_says_it_in_the_words_expected(turns: tuple[Turn, ...]) -> None:
    for turn in turns:
        changes, step = turn.found.changes, turn.step
        if step.sizes:
            assert {size.name for size in changes.sizes} == step.sizes, step.name
        if step.roles:
            done = {(kind, c.part.role) for c in changes.parts if c.part.maker == "shop" for kind in c.kinds}
            assert done == step.roles, step.name
        assert {word.name for word in changes.words} == step.words, step.name
    quiet = [
        turn
        for turn in turns
        if turn.step.name in ("keys in another order, comments changed", "lengths in other units")
    ]
    assert len(quiet) == 2
    assert not any(turn.found.changes for turn in quiet)


def test_sheets_that_did_not_change_are_the_same_and_keep_their_number(
    turns: tuple[Turn, ...],
) -> None:
    kept = 0
    for turn in turns:
        old, new = (
            {s["number"]: s for s in json.loads((folder / "manifest.json").read_text("utf-8"))["sheets"]}
            for folder in (turn.made.folder.parent / turn.old.record.number, turn.made.folder)  # type: ignore[union-attr]
        )
        for number, sheet in new.items():
            if sheet["revision"] != turn.number:
                kept += 1
                assert sheet == old[number], (turn.step.name, number)
        assert new["Z-001"]["revision"] == turn.number, "the index is issued anew"
    quiet = next(turn for turn in turns if turn.step.name == "lengths in other units")
    fresh = [s.number for s in quiet.made.record.sheets if s.revision == quiet.number]
    # The record of revisions grew by a row; it stands on the index or on the notes after it.
    assert fresh[0] == "Z-001"
    assert all(number.startswith("Z-0") for number in fresh)
    assert len(fresh) <= 2
    assert kept > 30


def drawing_set(folder: Path) -> Path:
    """The PDF of an issue that carries its spec."""
    (issued,) = [p for p in folder.glob("*.pdf") if pypdf.PdfReader(p).attachments]
    return issued


def page_streams(folder: Path) -> dict[str, bytes]:
    """What the PDF of an issue stores of each page, by the sheet's number."""
    issued = drawing_set(folder)
    reader = pypdf.PdfReader(issued)
    found: dict[str, bytes] = {}
    for label, page in zip(reader.page_labels, reader.pages, strict=True):
        contents = page["/Contents"].get_object()
        assert isinstance(contents, pypdf.generic.StreamObject)
        found[label.split()[0]] = contents._data
    return found


def test_the_page_of_a_sheet_that_did_not_change_is_the_same_bytes(turns: tuple[Turn, ...]) -> None:
    kept = 0
    for turn in turns:
        assert turn.old.record is not None
        old, new = (
            page_streams(turn.made.folder.parent / number) for number in (turn.old.record.number, turn.number)
        )
        for sheet in turn.made.record.sheets:
            if sheet.revision != turn.number:
                kept += 1
                assert new[sheet.number] == old[sheet.number], (turn.step.name, sheet.number)
            else:
                assert new[sheet.number] != old.get(sheet.number), (turn.step.name, sheet.number)
    assert kept > 30


def test_no_issue_has_a_defect_that_the_audit_sees(turns: tuple[Turn, ...]) -> None:
    for turn in turns:
        manifest = json.loads((turn.made.folder / "manifest.json").read_text("utf-8"))
        assert manifest["audit"] == [], turn.step.name


def test_marks_are_kept_and_retired_ones_never_come_back(turns: tuple[Turn, ...]) -> None:
    retired: set[str] = set()
    for turn in turns:
        before = {p.key: p.mark for p in turn.found.before.parts if p.mark}
        after = {p.key: p.mark for p in turn.found.after.parts if p.mark}
        assert not retired & set(after.values()), turn.step.name
        assert all(after[key] == mark for key, mark in before.items() if key in after), turn.step.name
        fresh = {c.key for c in turn.found.changes.parts if "added" in c.kinds and c.key in after}
        alike = set(before.values()) & {after[key] for key in fresh}
        assert alike <= {after[key] for key in after if key in before}, "only beside parts that are alike"
        retired |= set(before.values()) - set(after.values())
        assert set(turn.made.record.retired) == retired
    assert len(retired) >= 3, "the history retires the marks of the posts"


def clouds_of(view: Viewport) -> list[Stroke]:
    return [i for i in view.items if isinstance(i, Stroke) and i.pen == "revision" and i.key == "cloud"]


def enclosed(view: Viewport) -> shapely.Geometry:
    """What the drawn lines of a view's clouds go round; a cloud within a cloud leaves its inside out."""
    found: shapely.Geometry = shapely.Polygon()
    for cloud in clouds_of(view):
        points = [p for s in cloud.path for p in (s.flatten(0.02)[:-1] if isinstance(s, Arc) else (s.a,))]
        found = shapely.symmetric_difference(found, shapely.make_valid(shapely.Polygon(points)))
    shapely.prepare(found)
    return found


def inside(region: shapely.Geometry, point: tuple[float, float]) -> bool:
    return bool(shapely.contains_xy(region, *point))


def views(drawing: DrawingSet) -> dict[str, Viewport]:
    return {i.id: i for sheet in drawing.sheets for i in sheet.items if isinstance(i, Viewport)}


def full_size(view: Viewport, point: tuple[float, float]) -> tuple[float, float]:
    s = float(view.scale)
    return ((point[0] - view.origin[0]) / s, (point[1] - view.origin[1]) / s)


def lines_by_pen(view: Viewport) -> dict[str, shapely.Geometry]:
    found: dict[str, list[shapely.LineString]] = {}
    for item in view.items:
        if isinstance(item, Stroke) and item.pen in BUILT:
            for s in item.path:
                points = s.flatten(0.02) if isinstance(s, Arc) else (s.first, s.last)
                found.setdefault(item.pen, []).append(
                    shapely.LineString([full_size(view, p) for p in points])
                )
    return {pen: shapely.MultiLineString(lines) for pen, lines in found.items()}


def points_far_from(
    lines: dict[str, shapely.Geometry], others: dict[str, shapely.Geometry]
) -> list[tuple[float, float]]:
    """Points along lines that no line of the same pen comes near, full size."""
    found: list[tuple[float, float]] = []
    for pen, geometry in lines.items():
        other = others.get(pen, shapely.MultiLineString())
        for line in geometry.geoms:
            spots = [line.interpolate(t, normalized=True) for t in (0.02, 0.25, 0.5, 0.75, 0.98)]
            found += [(p.x, p.y) for p in spots if other.is_empty or p.distance(other) > 0.3]
    return found


def corner(view: Viewport) -> tuple[float, float]:
    return full_size(view, view.drawn[:2])


Points = list[tuple[float, float]]


def changed_points(before: Viewport, after: Viewport) -> tuple[Points, Points]:
    """Points on lines that came, and on lines that went, full size. A detail may have moved with what it
    shows."""
    shifts = [(0.0, 0.0)]
    if after.id.startswith("detail/"):
        (x0, y0), (x1, y1) = corner(before), corner(after)
        shifts.append((x1 - x0, y1 - y0))
    now, found = lines_by_pen(after), []
    for dx, dy in shifts:
        was = {pen: shapely.affinity.translate(lines, dx, dy) for pen, lines in lines_by_pen(before).items()}
        found.append((points_far_from(now, was), points_far_from(was, now)))
    return min(found, key=lambda sides: len(sides[0]) + len(sides[1]))


def test_clouds_enclose_every_changed_line(turns: tuple[Turn, ...]) -> None:
    came, went = 0, 0
    for turn in turns:
        old, new = views(turn.earlier_drawing), views(turn.made.drawing)
        for view_id, view in new.items():
            if view_id not in old:
                continue
            clouds, s = enclosed(view), float(view.scale)
            lettering = shapely.union_all(
                [
                    shapely.box(*text_box(leaf))
                    for _, leaf in leaves(view.items)
                    if isinstance(leaf, Text) and leaf.pen != "revision"
                ]
            )
            x0, y0, x1, y1 = view.drawn
            added, removed = changed_points(old[view_id], view)
            for number, p in enumerate((*added, *removed)):
                on_paper = (view.origin[0] + p[0] * s, view.origin[1] + p[1] * s)
                if not (x0 <= on_paper[0] <= x1 and y0 <= on_paper[1] <= y1):
                    continue  # out of the view's window now
                if number >= len(added) and shapely.Point(on_paper).distance(lettering) < 2.5:
                    continue  # lettering has taken the place of what is gone
                came, went = came + (number < len(added)), went + (number >= len(added))
                assert inside(clouds, on_paper), (turn.step.name, view_id, on_paper)
    assert came > 300
    assert went > 200


def test_clouds_cross_no_lettering(turns: tuple[Turn, ...]) -> None:
    looked_at = 0
    for turn in turns:
        for view in views(turn.made.drawing).values():
            texts = [
                shapely.box(*text_box(leaf)).buffer(-0.12)
                for _, leaf in leaves(view.items)
                if isinstance(leaf, Text) and leaf.pen != "revision"
            ]
            tree = shapely.STRtree(texts)
            for cloud in clouds_of(view):
                points = [
                    p
                    for seg in cloud.path
                    for p in (seg.flatten(0.02) if isinstance(seg, Arc) else (seg.a, seg.b))
                ]
                looked_at += 1
                assert not len(tree.query(shapely.LineString(points), "intersects")), (
                    turn.step.name,
                    view.id,
                )
    assert looked_at > 100


def dimensions(view: Viewport) -> list[Dimension]:
    return [i for i in view.items if isinstance(i, Dimension)]


def middle(d: Dimension) -> tuple[float, float]:
    x0, y0, x1, y1 = text_box(d.text)
    return ((x0 + x1) / 2, (y0 + y1) / 2)


def test_clouds_enclose_changed_dimensions_and_no_other_dimension_text(turns: tuple[Turn, ...]) -> None:
    changed, kept = 0, 0
    for turn in turns:
        old, new = views(turn.earlier_drawing), views(turn.made.drawing)
        carries = {
            i.id: sheet.revision
            for sheet in turn.made.drawing.sheets
            for i in sheet.items
            if isinstance(i, Viewport)
        }
        for view_id, view in new.items():
            if carries[view_id] != turn.number or view_id not in old:
                continue  # a sheet left alone keeps the clouds it had
            clouds = enclosed(view)
            said = Counter((d.id, d.parts, d.text.plain) for d in dimensions(old[view_id]))
            at = {(d.angle, round(sum(d.a + d.b)), d.text.plain) for d in dimensions(old[view_id])}
            for d in dimensions(view):
                identity = (d.id, d.parts, d.text.plain)
                if said[identity] > 0:
                    said[identity] -= 1
                    kept += 1
                    assert not inside(clouds, middle(d)), (turn.step.name, view_id, d.text.plain)
                elif (d.angle, round(sum(d.a + d.b)), d.text.plain) not in at:
                    changed += 1
                    assert inside(clouds, middle(d)), (turn.step.name, view_id, d.text.plain)
    assert changed > 30
    assert kept > 100


def test_the_latest_revision_is_clouded_and_earlier_triangles_stay(turns: tuple[Turn, ...]) -> None:
    for turn in turns:
        for sheet in turn.made.drawing.sheets:
            if sheet.revision != turn.number:
                continue
            numbers = {
                i.fields["revision"]
                for view in sheet.items
                if isinstance(view, Viewport)
                for i in view.items
                if isinstance(i, Symbol) and i.kind == "revision triangle"
            }
            has_clouds = any(clouds_of(view) for view in sheet.items if isinstance(view, Viewport))
            assert (turn.number in numbers) == has_clouds, (turn.step.name, sheet.number)
    last = turns[-1].made.drawing
    elevation = views(last)["elevation"]
    kept = {
        i.fields["revision"]
        for i in elevation.items
        if isinstance(i, Symbol) and i.kind == "revision triangle"
    }
    assert kept <= {"12", "13"}, "those of the last two issues"
    assert "13" in kept


def test_triangles_cover_no_lettering(turns: tuple[Turn, ...]) -> None:
    looked_at = 0
    for sheet in (sheet for turn in turns for sheet in turn.made.drawing.sheets):
        for view in (i for i in sheet.items if isinstance(i, Viewport)):
            texts = [text_box(d.text) for d in dimensions(view)]
            for mark in (i for i in view.items if isinstance(i, Symbol) and i.kind == "revision triangle"):
                (outline,) = mark.strokes
                triangle = shapely.Polygon([s.first for s in outline.path])
                looked_at += 1
                assert not any(triangle.intersects(shapely.box(*text)) for text in texts), (
                    sheet.number,
                    mark.fields,
                )
    assert looked_at > 100


def test_a_set_drawn_again_from_its_pdf_is_the_same(turns: tuple[Turn, ...], tmp_path: Path) -> None:
    from sheets.commands.drawing import Job, draw_one

    for turn in (turns[3], turns[-1]):
        folder = turn.made.folder
        issued = drawing_set(folder)
        done = draw_one(Job(issued, tmp_path / turn.number))
        assert done.sheets
        again = sorted(done.job.folder.iterdir())
        assert len(again) > 2
        for file in again:
            assert file.read_bytes() == (folder / file.name).read_bytes(), file.name
