"""Where cases stand along the wall, and what cannot stand there."""

from fractions import Fraction

import pytest

from tests.resolve.solved import inches, solve, wall_of

CASE = "height: 60, depth: 12, scribe: 1/2, material: ply"


def spans(body: str) -> dict[str, tuple[Fraction, Fraction]]:
    wall = wall_of(body)
    sides: dict[str, list[Fraction]] = {}
    for part in wall.parts:
        if part.role == "side":
            sides.setdefault(part.assembly, []).extend([part.extent.x0, part.extent.x1])
    return {key: (inches(min(xs)), inches(max(xs))) for key, xs in sides.items()}


def test_fill_takes_what_is_left_beside_the_surround() -> None:
    # 160 wall, 60 surround: 50 a side, less a scribe of 1/2.
    found = spans(
        f"""
        room: {{width: 160}}
        fireplace: {{opening: {{width: 30, height: 20}}}}
        surround: {{material: slate, width: 60, height: 40}}
        cases: [{{name: a, mirrored: true, width: fill, {CASE}}}]
        """
    )
    assert found == {"cases/a/left": (Fraction(-159, 2), -30), "cases/a/right": (30, Fraction(159, 2))}


def test_mirrored_cases_without_a_middle_meet_at_the_axis() -> None:
    found = spans(f"room: {{width: 100}}\ncases: [{{name: a, mirrored: true, width: fill, {CASE}}}]")
    assert found == {"cases/a/left": (Fraction(-99, 2), 0), "cases/a/right": (0, Fraction(99, 2))}


def test_rows_start_at_their_side_walls_in_the_order_written() -> None:
    found = spans(
        f"""
        room: {{width: 120}}
        cases:
          - {{name: a, width: 30, {CASE}}}
          - {{name: b, width: 20, {CASE}}}
          - {{name: c, at: right, width: fill, {CASE}}}
        """
    )
    assert found == {
        "cases/a": (Fraction(-119, 2), Fraction(-59, 2)),
        "cases/b": (Fraction(-59, 2), Fraction(-19, 2)),
        "cases/c": (Fraction(-19, 2), Fraction(119, 2)),
    }


@pytest.mark.parametrize(
    ("first", "a", "b"),
    [
        # In a wall of 120, scribed 1/2 at each side, the twin stands where its original is mirrored; what
        # fills takes the rest of its own side, or all that is left between the two.
        ("b", (-20, 0), (Fraction(-119, 2), -20)),
        ("a", (Fraction(-119, 2), Fraction(-79, 2)), (Fraction(-79, 2), Fraction(79, 2))),
    ],
)
def test_what_fills_beside_a_mirrored_case_leaves_its_twin_alone(
    first: str, a: tuple[Fraction, Fraction], b: tuple[Fraction, Fraction]
) -> None:
    rows = [f"  - {{name: a, mirrored: true, width: 20, {CASE}}}", f"  - {{name: b, width: fill, {CASE}}}"]
    rows = rows if first == "a" else rows[::-1]
    found = spans("room: {width: 120}\ncases:\n" + "\n".join(rows))
    assert found == {"cases/a/left": a, "cases/a/right": (-a[1], -a[0]), "cases/b": b}


def test_fill_leaves_an_appliance_frame_uncovered() -> None:
    frame = "frame: {width: 3/2, projection: 1/2}"
    found = spans(
        f"""
        room: {{width: 120}}
        fireplace: {{opening: {{width: 30, height: 20}}, sill: 10, {frame}}}
        cases: [{{name: a, width: fill, {CASE}}}]
        """
    )
    assert found == {"cases/a": (Fraction(-119, 2), Fraction(-33, 2))}


def test_centre_and_offset_are_measured_from_the_axis() -> None:
    found = spans(
        f"""
        room: {{width: 200}}
        cases:
          - {{name: a, at: centre, width: 40, {CASE}}}
          - {{name: b, at: {{offset: 50}}, width: 30, {CASE}}}
        """
    )
    assert found == {"cases/a": (-20, 20), "cases/b": (35, 65)}


def test_what_the_grid_leaves_over_goes_to_the_scribe_and_is_said() -> None:
    wall = wall_of(f"room: {{width: 100-1/32}}\ncases: [{{name: a, mirrored: true, width: fill, {CASE}}}]")
    left, right = (wall.component(f"cases/a/{side}") for side in ("left", "right"))
    assert left.facts["width"] == right.facts["width"]
    assert inches(Fraction(left.facts["width"])) == Fraction(99, 2)
    assert inches(Fraction(left.facts["scribe"])) == Fraction(1, 2) + Fraction(1, 64)
    assert [(one.owner, inches(one.amount), one.placed) for one in wall.leftovers] == [
        (f"cases/a/{side}", Fraction(1, 64), "in the scribe at the wall") for side in ("left", "right")
    ]


@pytest.mark.parametrize(
    ("body", "code", "path"),
    [
        (
            f"cases: [{{name: a, at: {{offset: -40}}, width: 60, {CASE}}},"
            f" {{name: b, at: {{offset: 10}}, width: 60, {CASE}}}]",
            "cases-overlap",
            ("cases", 1, "width"),
        ),
        (
            "surround: {material: slate, width: 60, height: 40}\n"
            f"cases: [{{name: a, at: {{offset: 50}}, width: 60, {CASE}}}]",
            "case-in-the-middle",
            ("cases", 0, "width"),
        ),
    ],
)
def test_what_only_solving_can_tell_has_its_place(body: str, code: str, path: object) -> None:
    wall, said = solve("room: {width: 200}\n" + body)
    assert wall is None
    fault = next(d for d in said if d.code == code)
    assert fault.severity == "error"
    assert fault.path == path
    assert fault.place is not None
    assert fault.place.file == "made-up.yaml"


def test_a_case_under_the_low_end_of_a_vault_is_refused() -> None:
    body = """
    room: {width: 200, ceiling: {height: 100, vault: {spring: 60}}}
    cases: [{name: a, at: {offset: OFFSET}, width: 20, height: 90, depth: 12, material: ply}]
    """
    assert solve(body.replace("OFFSET", "0"))[0] is not None
    wall, said = solve(body.replace("OFFSET", "80"))
    assert wall is None
    assert [d.code for d in said] == ["above-the-ceiling"]
