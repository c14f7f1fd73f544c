"""Caps and counters that stand out beyond what carries them, with a person leaning on the edge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import inf
from typing import Literal

from sheets.base.length import MM_PER_INCH
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.strengths import rupture_psi
from sheets.checks.mechanics.touching import shared
from sheets.checks.wording import KG_PER_LB, WHAT_IS_UNKNOWN, called, length, on_grid, weight
from sheets.model.part import Axis, Extent, Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited, together

NAME = "overhangs"

EXPLAIN = """\
Reads each level plate that lies on others of its component and stands out beyond them, to the front or at an
end: a cap, a counter, a shelf on a fascia. Pieces of one level that lie edge to edge, as the board, the front
and the returns of a cap do, are one plate, out to the farthest edge. It is a cantilever, and a person leans
on its edge with 200 lb, spread over a hand of 4 in and at 45 degrees from there. Stress = 6 x load x overhang
/ (breadth x thickness squared), at the weakest of the pieces that stand out. Solid wood that bends across its
grain, as the front edge of a cap does, has a twentieth of its strength along it. Between corbels and the like
nothing carries a plate as far out as they do: there it stands out from what is behind, or bridges along its
grain from one to the next. More than the strength less
a factor of 1 1/2: a warning; more than the strength: an error.
Sources: Wood Handbook tables 5-3b and 9-1; the person: ASCE 7 and IRC table R301.5, from memory; strength
across the grain, spread and factor from memory."""


@dataclass(frozen=True, slots=True)
class _Overhang:
    """How far a plate stands out, mm, and which way; the piece of it that breaks first. used: how much of its
    strength the person takes, 1 breaks it; inf where no table has its strength.
    """

    part: Part
    out: Fraction
    to: Literal["the front", "the front, where nothing carries that out", "an end"]
    used: float
    cited: Cited


@dataclass(frozen=True, slots=True)
class _Run:
    """A stretch of a plate along its front, mm: how far it stands out there, and how far it is from one thing
    that carries the front to the next, 0 where that runs along; beyond the last it has an end that is free.
    """

    out: Fraction
    over: tuple[Part, ...]  # the pieces that stand out there
    bare: Fraction = Fraction(0)
    free: bool = False


def _judge(wall: Wall) -> Outcome:
    found = [each for plate in _plates(wall) for each in _overhangs(wall, plate)]
    findings = [finding for each in found for finding in _findings(wall, each)]
    measures = [_measure(wall, each) for each in found if not each.part.twin and each.used < inf]
    return Outcome(len(found), tuple(findings), tuple(measures))


def _plates(wall: Wall) -> list[tuple[Part, ...]]:
    """The level pieces of each component, those that lie edge to edge together, in the wall's order."""
    level = [
        part
        for part in wall.parts
        if part.maker == "shop"
        and part.thickness_axis == "z"
        and not part.does.bears
        and not part.does.carries
    ]
    plates: list[list[Part]] = []
    for part in level:
        beside = [plate for plate in plates if any(_edge_to_edge(part, other) for other in plate)]
        plates = [plate for plate in plates if plate not in beside]
        plates.append([*(other for plate in beside for other in plate), part])
    return [tuple(plate) for plate in plates]


def _edge_to_edge(one: Part, other: Part) -> bool:
    a, b = one.extent, other.extent
    return (
        one.assembly == other.assembly
        and shared(a, b, "z") > 0
        and min(shared(a, b, "x"), shared(a, b, "y")) >= 0
        and max(shared(a, b, "x"), shared(a, b, "y")) > 0
    )


def _overhangs(wall: Wall, plate: tuple[Part, ...]) -> tuple[_Overhang, ...]:
    """Those of a plate to the front and to an end, the farther one of both ends."""
    within = {part.key for part in plate}
    under = [
        other.extent
        for other in wall.parts
        if other.assembly == plate[0].assembly
        and other.key not in within
        and any(
            other.extent.z1 == part.extent.z0
            and shared(part.extent, other.extent, "x") > 0
            and shared(part.extent, other.extent, "y") > 0
            for part in plate
        )
    ]
    if not under:
        return ()
    tried = [_to_the_front(run) for run in _runs(plate, under) if run.out > 0]
    left, right = min(other.x0 for other in under), max(other.x1 for other in under)
    beside = [part for part in plate if part.extent.x0 < left or part.extent.x1 > right]
    ends = max((max(left - part.extent.x0, part.extent.x1 - right) for part in beside), default=Fraction(0))
    return (
        *([max(tried, key=lambda each: each.used)] if tried else ()),
        *([_weakest(beside, ends, "an end", "x")] if beside else ()),
    )


def _runs(plate: tuple[Part, ...], under: list[Extent]) -> list[_Run]:
    """The stretches of a plate along its front: those over what carries it farthest out, and the bare ones
    between and beyond."""
    foremost = max(other.y1 for other in under)
    stops = sorted({x for box in (*under, *(part.extent for part in plate)) for x in (box.x0, box.x1)})
    first = min(box.x0 for box in under if box.y1 == foremost)
    last = max(box.x1 for box in under if box.y1 == foremost)
    found: list[_Run] = []
    bare = Fraction(0)
    for a, b in pairwise(stops):
        if b <= min(box.x0 for box in under) or a >= max(box.x1 for box in under):
            continue  # it stands out at an end
        here = tuple(part for part in plate if part.extent.x0 <= a and b <= part.extent.x1)
        carried = max((box.y1 for box in under if box.x0 <= a and b <= box.x1), default=Fraction(0))
        over = tuple(part for part in here if part.extent.y1 > carried)
        if not over:
            bare = Fraction(0)
            continue
        bare = bare + b - a if carried < foremost else Fraction(0)
        out = max(part.extent.y1 for part in over) - carried
        found.append(_Run(out, over, bare, free=carried < foremost and (b <= first or a >= last)))
    return found


def _to_the_front(run: _Run) -> _Overhang:
    """What the person takes of a stretch: as a cantilever, or, where it is bare, as a beam along its grain
    from one thing that carries the front to the next, or out beyond the last. It holds if either holds.
    """
    across = _weakest(run.over, run.out, "the front", "y")
    if not run.bare or across.used == inf:
        return across
    along = [part for part in run.over if part.length_axis == "x"]
    spans = [_beam(part, run) for part in along]
    used = min((across.used, *(each for each in spans if each is not None)))
    return replace(across, used=used, to="the front, where nothing carries that out")


def _beam(part: Part, run: _Run) -> float | None:
    """How much of its strength along the grain a piece needs to bridge a bare stretch; None where none is
    known."""
    strength = rupture_psi(part.material, along=True)
    if strength is None:
        return None
    person, hand = figure("stability", "person who leans"), figure("stability", "hand that leans")
    arm = _inches(run.bare) if run.free else _inches(run.bare) / 4  # P a at its root, P L / 4 in its middle
    breadth, thick = _inches(hand.value), _inches(part.thickness)
    return 6 * float(person.value) * arm / (breadth * thick**2) / strength[0]


def _weakest(
    pieces: Sequence[Part], out: Fraction, to: Literal["the front", "an end"], axis: Axis
) -> _Overhang:
    """The piece that stands out and breaks first; one of no known strength before all others."""
    tried = []
    for part in pieces:
        strength = rupture_psi(part.material, along=part.length_axis == axis)
        if strength is None:
            return _Overhang(part, out, to, inf, Cited("no table", "confirmed"))
        used = _stress(_inches(out), _inches(part.thickness)) / strength[0]
        tried.append(_Overhang(part, out, to, used, strength[1]))
    return max(tried, key=lambda each: each.used)


def _stress(out: float, thick: float) -> float:
    """Return the stress, psi, of the person at an overhang and a thickness, inches."""
    person, hand = figure("stability", "person who leans"), figure("stability", "hand that leans")
    breadth = _inches(hand.value) + 2 * out
    return 6 * float(person.value) * out / (breadth * thick**2)


def _findings(wall: Wall, each: _Overhang) -> tuple[Finding, ...]:
    safety, person = figure("stability", "safety against breaking"), figure("stability", "person who leans")
    factor = float(safety.value)
    if each.used == inf:
        return (
            about(
                NAME,
                "warning",
                f"{called(each.part)} stands {length(wall, each.out)} out to {each.to}; no strength "
                "is known for "
                f"{each.part.material.name}, and whether it holds a person was not judged",
                each.part,
                cure=WHAT_IS_UNKNOWN,
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
            f"{called(each.part)} stands {length(wall, each.out)} out to {each.to}, "
            f"{length(wall, each.part.thickness)} thick; "
            f"{weight(wall, float(person.value) * KG_PER_LB)} on its edge is {each.used:.2f} times "
            f"what breaks it, 1/{factor:g} is the most",
            each.part,
            cure=f"would do {_least(wall, each, factor)} thick, or standing out less",
            cited=together(each.cited, person.cited, safety.cited),
            made_from=decided(each.part, "front", "thickness"),
        ),
    )


def _least(wall: Wall, each: _Overhang, factor: float) -> str:
    thick = float(each.part.thickness) * (each.used * factor) ** 0.5  # the stress goes by its square
    return on_grid(wall, thick, "up")


def _measure(wall: Wall, each: _Overhang) -> Measure:
    safety, person = figure("stability", "safety against breaking"), figure("stability", "person who leans")
    most = 1 / float(safety.value)
    return Measure(
        f"{called(each.part)}, {length(wall, each.out)} out to {each.to}, "
        f"{length(wall, each.part.thickness)} thick, "
        f"{weight(wall, float(person.value) * KG_PER_LB)} on its edge",
        f"{each.used:.0%} of what breaks it",
        f"{most:.0%}",
        "within limit" if each.used <= most else "beyond limit" if each.used > 1 else "to judge",
        together(each.cited, person.cited),
    )


def _inches(mm: Fraction) -> float:
    return float(mm / MM_PER_INCH)


RULE = Rule(NAME, "Caps that stand out, leaned on", "sag", 20, _judge, EXPLAIN)
