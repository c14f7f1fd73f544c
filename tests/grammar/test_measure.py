from fractions import Fraction
from math import hypot, sqrt

from hypothesis import given
from hypothesis import strategies as st

from sheets.base.length import inch
from sheets.grammar.measure import arc_radius, clear_height, is_under_ceiling
from sheets.grammar.reader import read_spec_text
from sheets.grammar.schema import Ceiling, Vault


def test_radius_from_chord_and_rise() -> None:
    # R. G. Hatfield, American House Carpenter, art. 518: chord 120, rise 30 gives a radius of 75.
    assert arc_radius(Fraction(120), Fraction(30)) == 75


def test_under_a_flat_ceiling() -> None:
    flat = Ceiling(height=Fraction(2400))
    assert is_under_ceiling(flat, Fraction(3000), Fraction(1500), Fraction(2400))
    assert not is_under_ceiling(flat, Fraction(3000), Fraction(0), Fraction(2401))


@given(st.integers(-1499, 1499), st.integers(1800, 2600))
def test_under_a_vault(x: int, z: int) -> None:
    # The distance to the centre of the circle, in floats, is the other way to know.
    vault = Ceiling(height=Fraction(2500), vault=Vault(spring=Fraction(2100)))
    radius = float(arc_radius(Fraction(3000), Fraction(400)))
    assert abs(hypot(1500, 2100 - (2500 - radius)) - radius) < 1e-9
    ceiling_at_x = 2500 - radius + sqrt(radius**2 - x**2)
    if abs(z - ceiling_at_x) > 1e-6:
        assert is_under_ceiling(vault, Fraction(3000), Fraction(x), Fraction(z)) == (z < ceiling_at_x)


def test_clear_height_of_a_case() -> None:
    spec, _, _ = read_spec_text(
        "project: {title: x}\nroom: {width: 120}\nmaterials: {ply: {panel: ply, thickness: 3/4}}\n"
        "cases: [{name: a, height: 80, plinth: {height: 4, material: ply}}]\n"
    )
    assert spec is not None
    # 80 less the plinth's 4 and two boards of 3/4.
    assert clear_height(spec.cases[0], spec) == inch("74.5")
