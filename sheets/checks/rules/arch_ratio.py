"""The flat curves of one wall: each arch's rise to its chord, beside the ceiling's."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.wording import called, length
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

NAME = "arch-ratio"

EXPLAIN = """\
Reads each arch across the wall, and the vault of the ceiling when there is one: rise over chord. Curves
that are seen together and differ in ratio by more than a quarter of the ceiling's look unrelated: a
note, with the rise that would match. Small brackets such as corbels curve another way and are not
compared.
Source: common practice of composition, from memory."""


def rise_ratio(chord: Fraction, rise: Fraction) -> Fraction:
    """Return rise over chord."""
    return rise / chord


def _judge(wall: Wall) -> Outcome:
    arches = [
        part
        for part in wall.parts
        if part.curve is not None and part.curve.across == "y" and not part.twin and part.maker != "room"
    ]
    apart = figure("order", "arch ratio apart")
    vault = rise_ratio(wall.room.width, wall.room.rise) if wall.room.rise > 0 else None
    findings: list[Finding] = []
    measures: list[Measure] = []
    if vault is not None:
        measures.append(
            Measure(
                f"ceiling, chord {length(wall, wall.room.width)}, rise {length(wall, wall.room.rise)}",
                _one_in(vault),
                "the measure of the others",
                "for information",
                apart.cited,
            )
        )
    for part in arches:
        assert part.curve is not None
        ratio = rise_ratio(part.curve.chord, part.curve.rise)
        differs = vault is not None and abs(ratio - vault) > apart.value * vault
        measures.append(
            Measure(
                f"{called(part)}, chord {length(wall, part.curve.chord)}, rise "
                f"{length(wall, part.curve.rise)}",
                _one_in(ratio),
                _one_in(vault) if vault is not None else "no ceiling to compare",
                "to judge" if differs else "for information",
                apart.cited,
            )
        )
        if differs and vault is not None:
            findings.append(_finding(wall, part, ratio, vault))
    return Outcome(len(arches), tuple(findings), tuple(measures))


def _one_in(ratio: Fraction) -> str:
    return f"1 in {float(1 / ratio):.1f}"


def _finding(wall: Wall, part: Part, ratio: Fraction, vault: Fraction) -> Finding:
    assert part.curve is not None
    steps = part.curve.chord * vault / wall.grid
    match = round(steps) * wall.grid
    return about(
        NAME,
        "note",
        f"{called(part)} rises {_one_in(ratio)} of its chord, the ceiling {_one_in(vault)}: the curves look "
        "unrelated",
        part,
        cure=f"a rise of {length(wall, match)} over the same chord would match the ceiling",
        cited=figure("order", "arch ratio apart").cited,
        word=("rise",),
    )


RULE = Rule(NAME, "Arches beside the ceiling", "order", 50, _judge, EXPLAIN)
