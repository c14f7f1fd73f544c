"""Marks: alike parts share one, hands differ, earlier marks stay."""

from dataclasses import replace

from sheets.base.length import inch
from sheets.geometry.path import loop_from_points
from sheets.geometry.solid import Solid, box, cut_box, extrude, mirrored_x
from sheets.model.marks import is_own_mirror
from sheets.model.marks import marks_of as marks_by_letter
from sheets.model.part import Extent, Material, Part

OAK = Material("oak", "wood", "white oak")


def marks_of(parts: list[Part], kept: dict[str, str] | None = None) -> dict[str, str]:
    """Marks where cases are C and the mantel M."""
    return marks_by_letter(parts, lambda key: "C" if key.startswith("cases/") else "M", kept)


def part(key: str, name: str = "Shelf", solid: Solid | None = None, at: int = 0, long: int = 30) -> Part:
    e = Extent(inch(at), inch(at + long), inch(0), inch(10), inch(0), inch(1))
    body = solid or box(float(e.x0), float(e.x1), float(e.y0), float(e.y1), float(e.z0), float(e.z1))
    return Part(key, name, name.lower(), key.rsplit("/", 1)[0], OAK, e, body, "z", "y", "x")


def test_alike_parts_share_a_mark_wherever_they_stand() -> None:
    parts = [part("cases/a/shelf-1"), part("cases/a/shelf-2"), part("cases/b/shelf-1", at=40)]
    assert set(marks_of(parts).values()) == {"C1"}


def test_size_name_and_material_tell_parts_apart() -> None:
    one = part("cases/a/shelf-1")
    others = [
        part("cases/a/shelf-2", long=31),
        part("cases/a/top", name="Top"),
        replace(part("cases/a/shelf-3"), material=replace(OAK, key="ash")),
    ]
    assert len(set(marks_of([one, *others]).values())) == 4


def test_hands_that_cannot_be_turned_into_each_other_have_two_marks() -> None:
    # A groove along one long edge and a notch in one end of it: like a left and a right shoe.
    body = cut_box(box(0, 762, 0, 254, 0, 25.4), (-1, 763, 200, 210, 20, 30))
    body = cut_box(body, (-1, 50, 240, 260, -1, 30))
    left = part("cases/a/left", solid=body)
    right = part("cases/a/right", solid=mirrored_x(body))
    assert not is_own_mirror(left)
    assert len(set(marks_of([left, right]).values())) == 2


def test_a_mitred_piece_serves_both_hands_when_turned_end_for_end() -> None:
    body = extrude("z", loop_from_points(((0, 0), (20, 0), (20, 80), (0, 100))), 0, 150)
    left, right = part("mantel/left", solid=body), part("mantel/right", solid=mirrored_x(body))
    assert is_own_mirror(left)
    assert marks_of([left, right]) == {"mantel/left": "M1", "mantel/right": "M1"}


def test_numbers_follow_the_keys_not_the_order_given() -> None:
    parts = [part(f"cases/a/shelf-{n}", long=20 + n) for n in (10, 9, 2)]
    assert marks_of(parts) == {"cases/a/shelf-2": "C1", "cases/a/shelf-9": "C2", "cases/a/shelf-10": "C3"}


def test_earlier_marks_stay_and_retired_ones_are_not_given_again() -> None:
    kept = {"cases/a/shelf-1": "C3", "cases/a/gone": "C7"}
    marks = marks_of([part("cases/a/shelf-1"), part("cases/a/top", name="Top")], kept)
    assert marks == {"cases/a/shelf-1": "C3", "cases/a/top": "C8"}


def test_a_group_that_splits_leaves_the_mark_with_the_larger_share() -> None:
    kept = {f"cases/a/shelf-{n}": "C1" for n in (1, 2, 3)}
    parts = [part("cases/a/shelf-1", long=29), part("cases/a/shelf-2"), part("cases/a/shelf-3")]
    assert marks_of(parts, kept) == {
        "cases/a/shelf-1": "C2",
        "cases/a/shelf-2": "C1",
        "cases/a/shelf-3": "C1",
    }


def test_only_the_shops_parts_are_marked() -> None:
    assert marks_of([replace(part("surround/slab"), maker="others")]) == {}
