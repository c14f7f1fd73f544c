"""Numbers in words, in the units of the wall: lengths, small sags, weights, loads.

What a rule compares is never rounded; only what is said is.
"""

from __future__ import annotations

from fractions import Fraction

from sheets.base.length import MM_PER_FOOT, MM_PER_INCH, SnapMode, snap
from sheets.base.notation import size_words
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.tables.loads import N_PER_MM2_PER_LB_PER_FT2, N_PER_MM_PER_LB_PER_FT
from sheets.tables.woods import KG_PER_M3_PER_LB_PER_FT3, MPA_PER_MILLION_PSI

_MM_PER_METRE = 1000
KG_PER_LB = 0.45359237
"""Source: NIST SP 811 (2008), appendix B.8."""
WHAT_IS_UNKNOWN = (
    "write the whole trade name of what it is; where no table has it, let somebody who knows it judge"
)
"""The cure where a table has no row: never another name that would pass."""


def length(wall: Wall, value: Fraction) -> str:
    """Return an exact length, mm, as the wall writes lengths: 5'-2 1/2", or 1588 mm."""
    return size_words(value, wall.notation)


def on_grid(wall: Wall, value: Fraction | float, mode: SnapMode = "nearest") -> str:
    """Return a length, mm, landed on the drawing's grid: `down` for the most, `up` for the least
    that passes.
    """
    return length(wall, snap(Fraction(value), wall.grid, mode))


def fine(wall: Wall, mm: float | Fraction) -> str:
    """Return a small or computed length in decimals: 0.063 in, or 1.61 mm."""
    value = float(mm)
    return f"{value:.2f} mm" if wall.units == "mm" else f"{value / float(MM_PER_INCH):.3f} in"


def surface(wall: Wall, mm2: Fraction) -> str:
    """Return an area, mm2, in words: 4.52 square feet, or 0.42 square metres."""
    if wall.units == "mm":
        return f"{float(mm2 / _MM_PER_METRE**2):.2f} square metres"
    return f"{float(mm2 / MM_PER_FOOT**2):.2f} square feet"


def weight(wall: Wall, kg: float, *, beside: float | None = None) -> str:
    """Return a weight: 48 lb, or 22 kg; with a decimal when it would else read as the one that it is held
    against, kg.
    """
    unit, per = ("kg", 1.0) if wall.units == "mm" else ("lb", KG_PER_LB)
    places = 1 if beside is not None and round(kg / per) == round(beside / per) else 0
    return f"{kg / per:.{places}f} {unit}"


def line_load(wall: Wall, newton_per_mm: float) -> str:
    """Return a load along a length: 25 lb per ft, or 0.36 N/mm."""
    if wall.units == "mm":
        return f"{newton_per_mm:.2f} N/mm"
    return f"{newton_per_mm / N_PER_MM_PER_LB_PER_FT:.0f} lb per ft"


def area_load(wall: Wall, newton_per_mm2: float) -> str:
    """Return a load on an area: 40 lb per sq ft, or 1.92 kN/m2."""
    if wall.units == "mm":
        return f"{newton_per_mm2 * 1000:.2f} kN/m2"
    return f"{newton_per_mm2 / N_PER_MM2_PER_LB_PER_FT2:.0f} lb per sq ft"


def modulus(wall: Wall, mpa: float) -> str:
    """Return a modulus of elasticity: E 1.82 million psi, or E 12500 N/mm2."""
    if wall.units == "mm":
        return f"E {round(mpa, -2):.0f} N/mm2"
    return f"E {mpa / MPA_PER_MILLION_PSI:.2f} million psi"


def density(wall: Wall, kg_per_m3: float) -> str:
    """Return a weight by volume, to two figures as woods scatter: 44 lb per cu ft, or 700 kg/m3."""
    if wall.units == "mm":
        return f"{round(kg_per_m3, -1):.0f} kg/m3"
    return f"{kg_per_m3 / KG_PER_M3_PER_LB_PER_FT3:.0f} lb per cu ft"


def span_ratio(span_mm: float, sag_mm: float) -> str:
    """Return a sag as a part of the span: L/569."""
    return f"L/{span_mm / sag_mm:.0f}"


def called(part: Part) -> str:
    """Return what to call a part in a sentence: its mark and name when it has a mark, and where it
    belongs.
    """
    where = part.assembly.rsplit("/", 1)[-1].replace("-", " ")
    mark = f"{part.mark} " if part.mark else ""
    return f"{mark}{part.name.lower()} ({where})" if where else f"{mark}{part.name.lower()}"
