"""Specs as text, solved: what the tests of this folder start from."""

import textwrap
from fractions import Fraction

from sheets.base.diagnostics import Diagnostic, print_text
from sheets.base.length import inch
from sheets.grammar.reader import read_spec_text
from sheets.model.part import Part
from sheets.model.wall import Wall
from sheets.resolve.solve import resolve

HEAD = """
project: {title: Made up for a test}
materials:
  oak:    {species: white oak}
  walnut: {species: black walnut}
  ply:    {panel: veneer-core plywood, face: white oak, thickness: 3/4}
  slate:  {masonry: slate, thickness: 3/4}
"""


def solve(body: str) -> tuple[Wall | None, tuple[Diagnostic, ...]]:
    """Resolve a spec of inches; `body` is what follows the materials. The reader must accept it."""
    spec, source, said = read_spec_text(HEAD + textwrap.dedent(body), "made-up.yaml")
    assert spec is not None, print_text(said)
    return resolve(spec, source)


def wall_of(body: str) -> Wall:
    """Resolve a spec that can be built."""
    wall, said = solve(body)
    assert wall is not None, print_text(said)
    return wall


def with_role(wall: Wall, role: str, assembly: str = "") -> list[Part]:
    """Return the parts of a role, in order."""
    return [p for p in wall.parts if p.role == role and p.assembly.startswith(assembly)]


def inches(length: Fraction) -> Fraction:
    """Return a length of the model in inches."""
    return length / inch(1)
