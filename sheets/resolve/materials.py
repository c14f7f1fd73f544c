"""From the materials of the spec to those of the parts."""

from dataclasses import dataclass
from fractions import Fraction

from sheets.base.length import MM_PER_INCH, Unit, snap
from sheets.grammar.inherit import SECONDARY
from sheets.grammar.schema import Masonry, OtherMaterial, Panel, SolidWood, Spec
from sheets.model.part import Material


@dataclass(frozen=True, slots=True)
class Sizes:
    """Sizes of our own choosing, as each of the two traditions has them, and the grid they land on."""

    unit: Unit
    grid: Fraction

    def of(self, pair: tuple[str, str]) -> Fraction:
        """Return the size, in mm, of a pair (inches, millimetres)."""
        return Fraction(pair[0]) * MM_PER_INCH if self.unit == "inch" else Fraction(pair[1])

    def on_grid_below(self, value: Fraction) -> Fraction:
        """Return the size on the grid that is no greater."""
        return snap(value, self.grid, "down")

    def on_grid(self, value: Fraction) -> Fraction:
        """Return the size on the grid, at least one step of it."""
        return max(self.grid, snap(value, self.grid))


class Materials:
    """The materials of a spec by role name; a name that is not there (the reader refuses it) gives a bare
    one."""

    def __init__(self, spec: Spec) -> None:
        self.by_key = {key: material_of(key, said) for key, said in spec.materials.items()}
        self.sizes = Sizes(spec.units, spec.precision)

    def __getitem__(self, key: str) -> Material:
        return self.by_key.get(key) or Material(key, "other", key, thickness=self.board)

    def under(self, visible: str) -> Material:
        """Return what a wide face that is seen from below is made of: the first panel of wood, which does not
        move, else the visible material.
        """
        panels = (m for m in self.by_key.values() if m.look == "panel" and m.key != SECONDARY)
        return next(panels, self[visible])

    @property
    def secondary(self) -> Material:
        """What is hidden is made of it: rails and battens, blocking, cleats, packing."""
        return self[SECONDARY]

    def thickness(self, key: str) -> Fraction:
        """Return the thickness of a board or panel of this material."""
        return self[key].thickness or self.board

    @property
    def board(self) -> Fraction:
        """The usual dressed board: 3/4 in or 19 mm (common practice)."""
        return self.sizes.of(("3/4", "19"))


def material_of(key: str, said: object) -> Material:
    """Return one material of the spec as parts carry it."""
    if isinstance(said, SolidWood):
        return Material(key, "wood", said.species, cut=said.cut, finish=said.finish, thickness=said.thickness)
    if isinstance(said, Panel):
        return Material(
            key, "panel", said.panel, face=said.face, finish=said.finish, thickness=said.thickness
        )
    if isinstance(said, Masonry):
        return Material(key, "masonry", said.masonry, finish=said.finish, thickness=said.thickness)
    if isinstance(said, OtherMaterial):
        return Material(key, "other", said.other, finish=said.finish, thickness=said.thickness)
    return Material(key, "other", key)


GYPSUM = Material("gypsum", "gypsum", "gypsum board")
FLOORING = Material("floor", "wood", "finished floor")
ENCLOSURE = Material("enclosure", "other", "noncombustible framing by others")
FRAMING = Material("enclosure", "other", "framing by others")
MASONRY_BREAST = Material("enclosure", "masonry", "masonry by others")
HUNG = Material("hung", "other", "by others")
FIREBOX = Material("firebox", "other", "firebox, by others")
