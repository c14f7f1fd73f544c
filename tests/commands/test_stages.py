"""What each stage made, as text: for whoever looks for the stage where a size went wrong."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

import pytest
from typer.testing import CliRunner

from sheets.base.length import read_length
from sheets.base.notation import exact_length
from sheets.base.printed import printed
from sheets.cli import app
from sheets.commands.stages import Stage, stage_text

SPEC = Path(__file__).resolve().parents[1] / "acceptance" / "specs" / "plain-mantel.yaml"


@dataclass(frozen=True, slots=True)
class Board:
    name: str
    wide: Fraction
    at: tuple[float, float] = (0.0, 0.0)
    knots: tuple[str, ...] = ()
    facts: dict[str, int] = field(default_factory=dict)


def text(value: object) -> str:
    return printed(value, lambda length: exact_length(length, "inch", Fraction(127, 80)))


def test_what_is_short_stands_on_one_line_and_defaults_are_left_out() -> None:
    # 92.075 mm / 25.4 = 3 5/8 in
    assert text(Board("rail", Fraction("92.075"))) == 'Board(name: "rail", wide: 3-5/8)\n'


def test_what_is_long_has_a_line_a_field() -> None:
    knots = ("x" * 40, "y" * 40)
    board = Board("the long rail at the wall", Fraction(254), (1.23456, -0.00001), knots, {"b": 2, "a": 1})
    assert text(board).splitlines() == [
        "Board",
        '  name: "the long rail at the wall"',
        "  wide: 10",
        "  at: (1.235, 0)",
        f'  knots: ("{"x" * 40}", "{"y" * 40}")',
        "  facts: (a: 1, b: 2)",
    ]


def test_what_does_not_cross_a_stage_is_refused() -> None:
    with pytest.raises(TypeError, match="set does not cross a stage"):
        text((Board("rail", Fraction(1)), {1, 2}))


@pytest.mark.parametrize("mm", ["3.175", "92.075", "1/3", "100", "0.4", "-19.05", "1000000/7"])
@pytest.mark.parametrize("unit", ["inch", "mm"])
def test_an_exact_length_reads_back(mm: str, unit) -> None:  # type: ignore[no-untyped-def]
    written = exact_length(Fraction(mm), unit, Fraction(127, 80))
    assert read_length(written, unit=unit) == Fraction(mm)


@pytest.mark.parametrize(
    ("stage", "says"),
    [
        ("spec", "mantel:\n"),
        ("wall", '    - Part\n      key: "mantel/'),
        ("views", '- View\n  id: "plan"'),
        ("annotated", "strings:\n"),
        ("composed", "sheet Z-201 | "),
    ],
)
def test_each_stage_is_printed_the_same_each_time(stage: Stage, says: str) -> None:
    done = CliRunner().invoke(app, ["dump", stage, str(SPEC)])
    assert done.exit_code == 0
    assert says in done.stdout
    assert stage_text(SPEC, stage)[0] == done.stdout


def test_a_spec_that_is_wrong_is_told_of_as_ever(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text("project: {titel: A}\n", "utf-8")
    done = CliRunner().invoke(app, ["dump", "wall", str(wrong)])
    assert done.exit_code == 2
    assert done.stdout == ""
    assert "wrong.yaml:1:" in done.stderr
