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


# Chord 240 and rise 45, springing 60 above the floor: the radius is (120**2 + 45**2) / (2 * 45) = 182 1/2,
# and the crown stands at 105. At x from the axis the ceiling is 105 - 182 1/2 + sqrt(182 1/2 ** 2 - x ** 2):
# 49 1/2 gives sqrt(33306.25 - 2450.25) = 175.66, so 98.16; 60 gives 172.36 and 94.86; 80 gives 164.03 and
# 86.53; 100 gives 152.67 and 75.17; 120, at the side wall, the spring, 60.
VAULT = "room: {width: 240, ceiling: {height: 105, vault: {spring: 60}}}\n"


def low(name: str, place: str, width: object = 40) -> str:
    return f"{{name: {name}, {place}, width: {width}, height: 40, depth: 12, scribe: 0, material: ply}}"


def tall(place: str, width: object, height: str, cap: str = "") -> str:
    more = f", cap: {{thickness: 1, overhang: {cap}}}" if cap else ""
    sizes = f"width: {width}, height: {height}, depth: 12, scribe: 0"
    return f"{{name: tall, {place}, {sizes}, material: ply{more}}}"


@pytest.mark.parametrize(
    ("cases", "just_fits", "just_not", "word"),
    [
        # Second from the wall, its corner nearest the wall 80 from the axis.
        (lambda h: [low("low", "at: left"), tall("at: left", 40, h)], "86-1/2", "86-9/16", "height"),
        # The same on the right.
        (lambda h: [low("low", "at: right"), tall("at: right", 40, h)], "86-1/2", "86-9/16", "height"),
        # Both sides from one description.
        (
            lambda h: [low("low", "mirrored: true"), tall("mirrored: true", 40, h)],
            "86-1/2",
            "86-9/16",
            "height",
        ),
        # Third from the wall: 60 from the axis.
        (
            lambda h: [low("a", "at: left"), low("b", "at: left", 20), tall("at: left", 40, h)],
            "94-13/16",
            "94-7/8",
            "height",
        ),
        # Second by what is left to fill: from 80 left of the axis to 60 right of it.
        (
            lambda h: [low("a", "at: left"), tall("at: left", "fill", h), low("b", "at: right", 60)],
            "86-1/2",
            "86-9/16",
            "height",
        ),
        # At the centre it is held over its own ends, 60 from the axis, not over the crown.
        (lambda h: [tall("at: centre", 120, h)], "94-13/16", "94-7/8", "height"),
        # Unlike sides: 20 left of the axis, 100 right of it.
        (lambda h: [tall("at: {offset: 40}", 120, h)], "75-1/8", "75-3/16", "height"),
        # At the wall itself: the spring.
        (lambda h: [tall("at: left", 40, h)], "60", "60-1/16", "height"),
        # The cap hangs over its free ends: body to 48 1/2, cap to 49 1/2 from the axis.
        (lambda h: [tall("at: centre", 97, h, "1")], "98-1/8", "98-3/16", "overhang"),
        # Over the low case beside it, too: from 78 to 80.
        (
            lambda h: [low("low", "at: left", 42), tall("at: left", 30, h, "2")],
            "86-1/2",
            "86-9/16",
            "overhang",
        ),
    ],
)
def test_a_case_is_held_against_the_ceiling_over_itself(cases, just_fits, just_not, word) -> None:  # type: ignore[no-untyped-def]
    def said(height: str):  # type: ignore[no-untyped-def]
        return solve(VAULT + f"cases: [{', '.join(cases(height))}]")

    wall, found = said(just_fits)
    assert wall is not None, found
    wall, found = said(just_not)
    assert wall is None
    assert [(d.code, d.path[-1]) for d in found if d.path] == [("above-the-ceiling", word)]
    shown = just_fits.replace("-", " ") if "/" in just_fits else just_fits
    feet, inch = divmod(int(shown.split()[0]), 12)
    assert f"{feet}'-{inch}" in found[0].help
