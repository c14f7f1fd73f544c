"""How tongue-and-groove boards are laid out over a width: full boards and two equal ends."""

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from sheets.base.length import snap


@dataclass(frozen=True, slots=True)
class BoardLayout:
    """Visible faces in order; they add up to the width exactly. ripped: the width of each end board, 0 if
    all are full."""

    faces: tuple[Fraction, ...]
    ripped: Fraction
    leftover: Fraction


def lay_boards(width: Fraction, face: Fraction, grid: Fraction) -> BoardLayout:
    """Return n - 1 full boards and two equal ends of half of what is left, never under half a face.

    n = floor(width / face), r = width - n face; r = 0: n full boards; else the ends are (face + r) / 2
    each, which lies between half a face and a face. A width below one face is one ripped board. Ends off
    the grid by half a step are kept so: the layout stays symmetric and closes.
    Source: common practice of balancing a panelled wall (the last board not narrow, both ends alike).
    """
    n = floor(width / face)
    rest = width - n * face
    if rest == 0:
        return BoardLayout((face,) * n, Fraction(0), Fraction(0))
    if n == 0:
        return BoardLayout((width,), width, Fraction(0))
    end = (face + rest) / 2
    return BoardLayout((end, *((face,) * (n - 1)), end), end, 2 * (end - snap(end, grid, "down")))
