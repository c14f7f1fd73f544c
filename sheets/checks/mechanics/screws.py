"""What one screw into a stud holds: pulled out, pushed down, and both at once. Pounds and inches inside, as
the published formulas are written; N and mm at the door.

Sources: withdrawal and the yield modes as in the National Design Specification and AWC Technical Report 12.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import hypot, sqrt

from sheets.base.length import MM_PER_INCH
from sheets.checks.mechanics.strengths import species
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.figures import figure

N_PER_LB = 4.4482216
"""One pound of force in N. Source: NIST SP 811 (2008), appendix B.8."""

_WITHDRAWAL = 2850.0
"""Pounds per inch of thread, times gravity squared and diameter. Source: NDS 12.2-2 (National Design
Specification), seen in a copy of the formula with its worked example: 0.45 and 0.190 in give 109 lb."""
_BEARING, _BEARING_POWER = 16600.0, 1.84
"""Dowel bearing strength, psi, of gravity. Source: NDS 12.3.3, from memory, as is the rest below."""
_STEEL = ((0.142, 100e3), (0.177, 90e3), (0.236, 80e3), (0.273, 70e3), (0.344, 60e3), (9.0, 45e3))
"""Bending yield strength of a screw, psi, up to a diameter in inches. Source: NDS appendix I, from memory."""
_ROOT = 2 / 3
"""Diameter at the root of the thread, of that over it. Source: Wood Handbook chapter 8."""
_THREAD = 2 / 3
"""Part of a screw's length that is threaded. Source: Wood Handbook chapter 8."""
_THIN, _MIDDLE, _SLOPE, _LEAST = 0.17, 0.25, 10.0, 2.2
"""Reduction of yield loads: 2.2 up to 0.17 in, 10 D + 0.5 from there. Source: NDS table 12.3.1B."""


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw through a piece into a stud. All inches; gravity of the piece and of the stud."""

    diameter: float
    length: float
    side: float  # thickness of the piece
    gap: float  # thickness of the wall's lining between, and of boards that cover the piece
    side_gravity: float
    stud_gravity: float

    @property
    def reach(self) -> float:
        """How far it goes into the stud; 0 when it does not."""
        return max(0.0, self.length - self.side - self.gap)

    @property
    def deep_enough(self) -> bool:
        """Whether it goes six diameters into the stud, the least that counts."""
        return self.reach >= float(figure("stability", "screw into the stud").value) * self.diameter

    @property
    def withdrawal(self) -> float:
        """Allowable pull, pounds."""
        thread = min(self.reach, _THREAD * self.length)
        return _WITHDRAWAL * self.stud_gravity**2 * self.diameter * thread if self.deep_enough else 0.0

    @property
    def lateral(self) -> float:
        """Allowable load square to the screw, pounds: the least of the yield modes."""
        if not self.deep_enough:
            return 0.0
        return yield_load(
            self.diameter * _ROOT, self.side, self.reach, self.gap,
            _BEARING * self.side_gravity**_BEARING_POWER, _BEARING * self.stud_gravity**_BEARING_POWER,
            bending_yield(self.diameter),
        )  # fmt: skip

    def used(self, pull: float, push: float) -> float:
        """Return how much of what it holds a pull and a push down, pounds, take together: 1 is all.

        Source: EN 1995-1-1, 8.3.3 (8.28), for screws, from memory. The form of NDS 12.4.1 would let a small
        pull beside a push make it milder.
        """
        if not pull and not push:
            return 0.0
        if not self.withdrawal or not self.lateral:
            return float("inf")
        return hypot(pull / self.withdrawal, push / self.lateral)


def bending_yield(diameter: float) -> float:
    """Return the bending yield strength, psi, of a screw's steel by its diameter, inches."""
    return next(strength for most, strength in _STEEL if diameter <= most)


def yield_load(
    diameter: float, side: float, main: float, gap: float, side_fe: float, main_fe: float, steel: float
) -> float:
    """Return the allowable lateral load, pounds, of a dowel in single shear across a gap.

    Source: AWC Technical Report 12, six yield modes with a gap.
    """
    qs, qm, moment = side_fe * diameter, main_fe * diameter, steel * diameter**3 / 6

    def bent(a: float, b: float, c: float) -> float:
        return (-b + sqrt(b * b + 4 * a * c)) / (2 * a)

    crush_side, crush_main = qs * side**2 / 4, qm * main**2 / 4
    modes = (
        qm * main,
        qs * side,
        bent(1 / (4 * qs) + 1 / (4 * qm), side / 2 + gap + main / 2, crush_side + crush_main),
        bent(1 / (2 * qs) + 1 / (4 * qm), gap + main / 2, moment + crush_main),
        bent(1 / (4 * qs) + 1 / (2 * qm), side / 2 + gap, crush_side + moment),
        bent(1 / (2 * qs) + 1 / (2 * qm), gap, 2 * moment),
    )
    reduced = _LEAST if diameter <= _THIN else _SLOPE * min(diameter, _MIDDLE) + 0.5
    return min(modes) / reduced


def screw_of(wall: Wall, piece: Part) -> Screw:
    """Return the screw that holds a piece to the wall."""
    fasteners, stud = wall.settings.fasteners, figure("stability", "gravity of studs")
    wood = species(piece.material)
    return Screw(
        _inches(fasteners.wall_diameter),
        _inches(fasteners.wall_length),
        _inches(piece.extent.size("y")),
        _inches(figure("stability", "lining of the wall").value + piece.does.covered),
        wood.specific_gravity if wood else float(stud.value),
        float(stud.value),
    )


def _inches(mm: Fraction) -> float:
    return float(mm / MM_PER_INCH)
