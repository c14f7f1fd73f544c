"""Sizes that follow from a spec by adding and taking away, for the rules here and for the solving."""

from fractions import Fraction

from sheets.base.notation import Notation, format_length
from sheets.grammar.schema import Arch, Baseboard, Case, Ceiling, Fireplace, Mantel, Spec


def notation_of(spec: Spec) -> Notation:
    """Return how this spec's lengths are written."""
    return Notation(spec.dimensions, spec.precision)


def written(length: Fraction, spec: Spec) -> str:
    """Return a length, in mm, as the spec's user would write it."""
    return format_length(length, notation_of(spec)).plain


def opening_top(fireplace: Fireplace) -> Fraction:
    """Return the height of the top of the opening above the floor, in mm."""
    return fireplace.sill + fireplace.opening.height


def layers_height(mantel: Mantel) -> Fraction:
    """Return the height of all layers of the mantel together, in mm."""
    layers = mantel.layers
    heights = (
        layers.cap and layers.cap.thickness,
        layers.fascia and layers.fascia.height,
        layers.sub_fascia and layers.sub_fascia.height,
    )
    return sum((height for height in heights if height), Fraction(0))


def mantel_width(spec: Spec) -> Fraction | None:
    """Return the width of the mantel's breast in mm, or None when there is no mantel or nothing gives its
    width.
    """
    if spec.mantel is None:
        return None
    if isinstance(spec.mantel.width, Fraction):
        return spec.mantel.width
    return spec.surround.width if spec.surround else None


def middle_width(spec: Spec) -> Fraction:
    """Return the width in mm that mantel and surround take at the middle of the wall; 0 without them."""
    return max(mantel_width(spec) or Fraction(0), spec.surround.width if spec.surround else Fraction(0))


def arch_chord(arch: Arch, fireplace: Fireplace | None) -> Fraction | None:
    """Return the chord of the mantel's arch in mm, or None when it is to be the opening's and there is
    none.
    """
    if isinstance(arch.chord, Fraction):
        return arch.chord
    return fireplace.opening.width if fireplace else None


def arc_radius(chord: Fraction, rise: Fraction) -> Fraction:
    """Return the radius, in mm, of the arc with this chord and rise.

    Source: R. G. Hatfield, American House Carpenter, art. 518: the square of half the chord plus the square
    of the rise, divided by twice the rise.
    """
    return ((chord / 2) ** 2 + rise**2) / (2 * rise)


def is_under_ceiling(ceiling: Ceiling, room_width: Fraction, x: Fraction, z: Fraction) -> bool:
    """Return whether the point x from the wall's axis, z above the floor (mm) is under the ceiling or on
    it.
    """
    if ceiling.vault is None or z <= ceiling.vault.spring:
        return z <= ceiling.height
    rise = ceiling.height - ceiling.vault.spring
    if rise <= 0:
        return z <= ceiling.height
    radius = arc_radius(room_width, rise)
    above_centre = z - (ceiling.height - radius)
    return above_centre <= 0 or above_centre**2 + x**2 <= radius**2


def highest_here(spec: Spec, x: Fraction) -> str:
    """Return a sentence that says how high the ceiling is x mm from the wall's axis, down to the grid."""
    ceiling, grid = spec.room.ceiling, spec.precision
    low, high = 0, ceiling.height // grid
    while low < high:  # the highest whole step under the ceiling
        middle = (low + high + 1) // 2
        if is_under_ceiling(ceiling, spec.room.width, x, middle * grid):
            low = middle
        else:
            high = middle - 1
    return f"The ceiling is {written(low * grid, spec)} high there."


def crosses_plinth(board: Baseboard, case: Case) -> bool:
    """Return whether a baseboard crosses a case's plinth: one flush with the case front. A plinth set back is
    a toe space and stays open.
    """
    plinth = case.plinth
    return (
        board.stops_at == "surround"
        and plinth is not None
        and plinth.setback == 0
        and plinth.height >= board.height
    )


def clear_height(case: Case, spec: Spec) -> Fraction:
    """Return the height in mm between a case's bottom and its top board, which bays and shelves fill exactly.

    It is the case's height less the cap, the plinth, the bottom and the top board; the bottom's top is flush
    with the top of a face frame's bottom rail, so that books slide out over it.
    """
    board = spec.materials[case.material].thickness
    cap = case.cap.thickness if case.cap else Fraction(0)
    plinth = case.plinth.height if case.plinth else Fraction(0)
    bottom = max(board, case.frame.rail) if case.frame else board
    return case.height - cap - plinth - bottom - board
