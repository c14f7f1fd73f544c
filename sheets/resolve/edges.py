"""Boards that run round a corner: fascias, cap edges, posts, baseboards. Profiles in plan, stacked up z.

A run along the wall turns the corner to a return; the corner is mitred at 45 degrees or square (the run
covers the end of the return). Saw cuts are grooves along the outer face, so they are slabs of the same
plan set in by their depth.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sheets.base.length import split_even
from sheets.geometry.region import Region, polygon, rectangle
from sheets.geometry.solid import Solid, stack
from sheets.grammar.schema import SawCuts
from sheets.model.part import Extent, Joint

Corner = Literal["mitred", "square", "dies"]
"""At an end of a run: a mitre, a square end that shows, or an end that dies into what stands there."""


@dataclass(frozen=True, slots=True)
class Kerfs:
    """Saw cuts along a face, by their heights; depth into the face."""

    levels: tuple[tuple[Fraction, Fraction], ...] = ()
    depth: Fraction = Fraction(0)

    def joints(self) -> tuple[Joint, ...]:
        if not self.levels:
            return ()
        low, high = self.levels[0]
        return (Joint("saw cut", width=high - low, depth=self.depth, count=len(self.levels)),)

    def edges(self) -> tuple[Fraction, ...]:
        """Return the heights of all edges of the cuts, ascending."""
        return tuple(z for pair in self.levels for z in pair)


NO_KERFS = Kerfs()


def saw_cuts(z0: Fraction, z1: Fraction, said: SawCuts | None, grid: Fraction) -> tuple[Kerfs, Fraction]:
    """Return saw cuts that break a face from z0 to z1 into bands equal on the grid, one more than there are
    cuts, and what is left over."""
    if said is None:
        return NO_KERFS, Fraction(0)
    bands, leftover = split_even(z1 - z0 - said.count * said.width, said.count + 1, grid)
    levels = []
    at = z0
    for band in bands[:-1]:
        levels.append((at + band, at + band + said.width))
        at += band + said.width
    return Kerfs(tuple(levels), said.depth), leftover


def run(
    x0: Fraction,
    x1: Fraction,
    front: Fraction,
    thickness: Fraction,
    z0: Fraction,
    z1: Fraction,
    left: Corner,
    right: Corner,
    cuts: Kerfs = NO_KERFS,
) -> tuple[Extent, Solid]:
    """Return a run along the wall: its outer face at y = front, from x0 to x1 at that face."""
    where = Extent(x0, x1, front - thickness, front, z0, z1)

    def plan(inset: Fraction) -> Region:
        y, back = front - inset, front - thickness
        a0 = x0 + (inset if left != "dies" else 0)
        b0 = x0 + (thickness if left == "mitred" else inset if left == "square" else 0)
        a1 = x1 - (inset if right != "dies" else 0)
        b1 = x1 - (thickness if right == "mitred" else inset if right == "square" else 0)
        return polygon(((b0, back), (b1, back), (a1, y), (a0, y)))

    return where, _stacked(z0, z1, cuts, plan)


def left_return(
    x: Fraction,
    back: Fraction,
    front: Fraction,
    thickness: Fraction,
    z0: Fraction,
    z1: Fraction,
    corner: Corner,
    cuts: Kerfs = NO_KERFS,
) -> tuple[Extent, Solid]:
    """Return the return at the left end: its outer face at x, from y = back to the run's face at y = front.

    With a square corner it ends behind the run, whose thickness is the same.
    """
    end = front if corner == "mitred" else front - thickness
    where = Extent(x, x + thickness, back, end, z0, z1)

    def plan(inset: Fraction) -> Region:
        outer, inner = x + inset, x + thickness
        if corner == "mitred":
            return polygon(
                ((outer, back), (inner, back), (inner, front - thickness), (outer, front - inset))
            )
        return rectangle(outer, back, inner, end)

    return where, _stacked(z0, z1, cuts, plan)


def plan_solid(points: tuple[tuple[Fraction, Fraction], ...], z0: Fraction, z1: Fraction) -> Solid:
    """Return a board of this outline in plan; points that repeat or lie in line are left out by the
    region."""
    return stack("z", ((z0, z1, (polygon(points),)),))


def _stacked(z0: Fraction, z1: Fraction, cuts: Kerfs, plan: Callable[[Fraction], Region]) -> Solid:
    rows: list[tuple[Fraction, Fraction, tuple[Region, ...]]] = []
    at = z0
    full = (plan(Fraction(0)),)
    for low, high in cuts.levels:
        if low > at:
            rows.append((at, low, full))
        rows.append((low, high, (plan(cuts.depth),)))
        at = high
    if z1 > at:
        rows.append((at, z1, full))
    return stack("z", rows)
