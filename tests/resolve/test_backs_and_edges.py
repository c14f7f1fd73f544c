"""Backs, edges and hidden stock as a shop makes them. What has no other source is common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sheets.base.length import inch
from sheets.checks.run import run_checks
from sheets.geometry.solid import volume
from sheets.grammar.reader import read_spec_text
from sheets.model.wall import Wall
from sheets.schedules.hardware import hardware_rows
from tests.resolve.solved import inches, wall_of, with_role

CASE = """
room: {width: 60, ceiling: {height: 96}}
cases:
  - name: one
    width: 36
    height: 80
    depth: 12
    FRAME
    plinth: {height: 4}
    shelves: {count: 4, material: ply, EDGE}
    backer: {BACK}
"""


def made(*, frame: str = "frame: {}", edge: str = "joint: {dado: 1/4}", back: str = "face: 5") -> Wall:
    return wall_of(CASE.replace("FRAME", frame).replace("EDGE", edge).replace("BACK", back))


def test_shelf_of_a_panel_is_as_thick_as_it_is_and_gets_a_solid_lip() -> None:
    # 12 deep: rail 3/4, boards 11/16, frame 3/4, lip 3/4: 9 1/16 of panel is left.
    wall = made()
    shelf, lip = with_role(wall, "shelf")[0], with_role(wall, "shelf edge")[0]
    assert (inches(shelf.thickness), inches(shelf.width)) == (Fraction(3, 4), Fraction(145, 16))
    assert (inches(lip.thickness), inches(lip.width)) == (Fraction(3, 4), Fraction(3, 4))
    assert (lip.material.key, lip.length) == ("oak", shelf.length)
    assert lip.extent.y0 == shelf.extent.y1
    assert "front" in lip.shows
    assert "front" not in shelf.shows


def test_lip_of_an_open_case_lies_between_its_sides() -> None:
    # The dado ends where the lip begins: nothing of it shows, and the shelf wants no notch.
    wall = made(frame="", edge="edge: {thickness: 3/4}")
    shelf, lip = with_role(wall, "shelf")[0], with_role(wall, "shelf edge")[0]
    assert shelf.length - lip.length == 2 * inch("1/4")
    assert not any(joint.kind == "notch" for joint in shelf.joints)
    # A thin one stands before a dado that stops 1/2 in behind the front: 1/4 of notch is left.
    thin = with_role(made(frame="", edge="edge: {thickness: 1/4}"), "shelf")[0]
    notches = [joint for joint in thin.joints if joint.kind == "notch"]
    assert [(notch.width, notch.depth) for notch in notches] == [(inch("1/4"), inch("1/4"))] * 2
    block = thin.thickness * thin.width * thin.length
    cut = 2 * inch("1/4") * inch("1/4") * thin.thickness
    assert volume(thin.solid) == pytest.approx(float(block - cut))


def test_every_edge_of_an_open_case_is_covered() -> None:
    wall = made(frame="", edge="edge: veneer")
    for role in ("side", "bottom", "top", "shelf"):
        assert all(part.edged == ("front",) for part in with_role(wall, role)), role
    seen = next(report for report in run_checks(wall) if report.rule == "seen-faces")
    assert seen.findings == ()


def test_plain_back_lies_in_the_rabbet_before_the_rails() -> None:
    # 36 wide, sides of 3/4: 34 1/2 clear, let in 1/4 less 1/16 on each side; rail 3/4 behind it.
    wall = made(back="kind: plain")
    (back,) = with_role(wall, "back")
    assert inches(back.width) == Fraction(69, 2) + 2 * Fraction(3, 16)
    assert back.extent.y0 == inch("3/4")
    assert back.material.kind == "panel"
    assert {rail.extent.y1 for rail in with_role(wall, "nailing rail")} == {inch("3/4")}
    assert len(with_role(wall, "nailing rail")) == 2


def test_rails_are_of_secondary_stock_poplar_where_none_is_named() -> None:
    rails = with_role(made(), "nailing rail")
    assert {(rail.material.name, rail.material.kind) for rail in rails} == {("yellow-poplar", "wood")}


def test_each_head_of_a_wall_screw_through_a_seen_face_has_a_plug() -> None:
    rows = hardware_rows(made())
    screws = sum(row.quantity for row in rows if "to wall" in row.use)
    plugs = sum(row.quantity for row in rows if "plug" in row.item)
    assert screws == plugs > 0


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("shelves: {material: oak, edge: veneer}", "wrong-material"),
        ("shelves: {material: ply, edge: {material: ply}}", "wrong-material"),
        ("shelves: {material: ply, thickness: 1}", "panel-thickness"),
        ("backer: {kind: plain, material: oak}", "wrong-material"),
        ("backer: {material: ply}", "wrong-material"),
        ("backer: {kind: plain, thickness: 1/4}", "panel-thickness"),
        ("backer: {kind: planks}", "unknown-word"),
    ],
)
def test_what_cannot_be_made_is_refused(said: str, code: str) -> None:
    text = (
        "project: {title: T}\nmaterials: {oak: {species: white oak}, ply: {panel: veneer-core plywood}}\n"
        f"room: {{width: 60}}\ncases: [{{name: one, height: 80, {said}}}]\n"
    )
    spec, _, found = read_spec_text(text)
    assert spec is None
    assert [each.code for each in found if each.severity == "error"] == [code]


@pytest.mark.parametrize("stock", ["{masonry: slate}", "{species: poplar, thickness: 3/8}"])
def test_secondary_stock_takes_a_screw(stock: str) -> None:
    text = (
        f"project: {{title: T}}\nmaterials: {{oak: {{species: white oak}}, secondary: {stock}}}\n"
        "room: {width: 60}\ncases: [{name: one, height: 80}]\n"
    )
    assert read_spec_text(text)[0] is None
