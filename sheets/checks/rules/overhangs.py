"""Caps and counters that stand out beyond what carries them, with a person leaning on the edge."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import inf

from sheets.base.length import MM_PER_INCH
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.strengths import rupture_psi
from sheets.checks.mechanics.touching import shared
from sheets.checks.wording import KG_PER_LB, called, length, on_grid, weight
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited, together

NAME = "overhangs"

EXPLAIN = """\
Reads each level piece that lies on others of its component and stands out beyond them, to the front or at an
end: a cap, a counter, a shelf on a fascia. It is a cantilever, and a person leans on its edge with 200 lb,
spread over a hand of 4 in and at 45 degrees from there. Stress = 6 x load x overhang / (breadth x thickness
squared). Solid wood that bends across its grain, as the front edge of a cap does, has a twentieth of its
strength along it. More than the strength less a factor of 1 1/2: a warning; more than the strength: an error.
Sources: Wood Handbook tables 5-3b and 9-1; the person: ASCE 7 and IRC table R301.5, from memory; strength
across the grain, spread and factor from memory."""


@dataclass(frozen=True, slots=True)
class _Overhang:
    """How far a piece stands out, mm; strength, psi, the way it bends, inf where no table has it."""

    part: Part
    out: Fraction
    strength: float
    cited: Cited

    def stress(self, out: float, thick: float) -> float:
        """Return the stress, psi, of the person at an overhang and a thickness, inches."""
        person, hand = figure("stability", "person who leans"), figure("stability", "hand that leans")
        breadth = _inches(hand.value) + 2 * out
        return 6 * float(person.value) * out / (breadth * thick**2)

    @property
    def used(self) -> float:
        """How much of its strength is used: 1 breaks it."""
        return self.stress(_inches(self.out), _inches(self.part.thickness)) / self.strength


def _judge(wall: Wall) -> Outcome:
    found = [each for part in wall.parts for each in _overhangs(wall, part)]
    findings = [finding for each in found for finding in _findings(wall, each)]
    measures = [_measure(wall, each) for each in found if not each.part.twin and each.strength < inf]
    return Outcome(len(found), tuple(findings), tuple(measures))


def _overhangs(wall: Wall, part: Part) -> tuple[_Overhang, ...]:
    """Those of a piece to the front and to an end, the farther one of both ends."""
    if part.maker != "shop" or part.thickness_axis != "z" or part.does.bears or part.does.carries:
        return ()
    box = part.extent
    under = [
        other.extent
        for other in wall.parts
        if other.assembly == part.assembly
        and other.extent.z1 == box.z0
        and shared(box, other.extent, "x") > 0
        and shared(box, other.extent, "y") > 0
    ]
    if not under:
        return ()
    front = box.y1 - max(other.y1 for other in under)
    ends = max(min(other.x0 for other in under) - box.x0, box.x1 - max(other.x1 for other in under))
    made = []
    for out, axis in ((front, "y"), (ends, "x")):
        strength = rupture_psi(part.material, along=part.length_axis == axis)
        if out > 0:
            made.append(_Overhang(part, out, *(strength or (inf, Cited("no table", "confirmed")))))
    return tuple(made)


def _findings(wall: Wall, each: _Overhang) -> tuple[Finding, ...]:
    safety, person = figure("stability", "safety against breaking"), figure("stability", "person who leans")
    factor = float(safety.value)
    if each.strength == inf:
        return (
            about(
                NAME,
                "note",
                f"{called(each.part)} stands {length(wall, each.out)} out; no strength is known for "
                f"{each.part.material.name}, and whether it holds a person was not judged",
                each.part,
                cure="name a species or a panel of the tables",
                cited=each.cited,
                word=("material",),
            ),
        )
    if each.used * factor <= 1:
        return ()
    return (
        about(
            NAME,
            "error" if each.used > 1 else "warning",
            f"{called(each.part)} stands {length(wall, each.out)} out, {length(wall, each.part.thickness)} "
            f"thick; {weight(wall, float(person.value) * KG_PER_LB)} on its edge is {each.used:.2f} times "
            f"what breaks it, 1/{factor:g} is the most",
            each.part,
            cure=f"would do {_least(wall, each, factor)} thick, or standing out less",
            cited=together(each.cited, person.cited, safety.cited),
            made_from=decided(each.part, "front", "thickness"),
        ),
    )


def _least(wall: Wall, each: _Overhang, factor: float) -> str:
    thick = (each.stress(_inches(each.out), 1.0) * factor / each.strength) ** 0.5
    return on_grid(wall, thick * float(MM_PER_INCH), "up")


def _measure(wall: Wall, each: _Overhang) -> Measure:
    safety, person = figure("stability", "safety against breaking"), figure("stability", "person who leans")
    most = 1 / float(safety.value)
    return Measure(
        f"{called(each.part)}, {length(wall, each.out)} out, {length(wall, each.part.thickness)} thick, "
        f"{weight(wall, float(person.value) * KG_PER_LB)} on its edge",
        f"{each.used:.0%} of what breaks it",
        f"{most:.0%}",
        "within limit" if each.used <= most else "beyond limit" if each.used > 1 else "to judge",
        together(each.cited, person.cited),
    )


def _inches(mm: Fraction) -> float:
    return float(mm / MM_PER_INCH)


RULE = Rule(NAME, "Caps that stand out, leaned on", "sag", 20, _judge, EXPLAIN)
