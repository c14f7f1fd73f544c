"""What a part's solid lacks of its box, cell by cell, and the blocks that it lacks: a second way to its joints."""

from __future__ import annotations

from itertools import pairwise, product

from sheets.geometry.box import Box
from sheets.geometry.path import Arc
from sheets.geometry.solid import AXES, PROFILE, Solid, bounds
from sheets.model.part import Joint, Part

Cell = tuple[int, int, int]
Block = tuple[tuple[int, int], tuple[int, int], tuple[int, int]]

SAME = 1e-6  # mm
SQUARE = ("dado", "rabbet", "groove", "notch", "saw cut")
"""Joints that take a block of wood away, of their width and depth."""
SLANTED = ("mitre", "bevel", "scribe")
"""Joints that leave a face which is not square to the box, or that are cut on site."""


def is_square(solid: Solid) -> bool:
    """Return whether every edge of its profiles runs along an axis."""
    return all(
        not isinstance(s, Arc) and (abs(s.a[0] - s.b[0]) < SAME or abs(s.a[1] - s.b[1]) < SAME)
        for slab in solid.slabs
        for region in slab.regions
        for loop in region.loops
        for s in loop.segments
    )


def unexplained(part: Part) -> list[str]:
    """Return what the solid of a part lacks that no joint of its row says, and what they say that it does not."""
    if not is_square(part.solid):
        said = part.curve or part.bend or any(j.kind in SLANTED or j.kind in ("groove", "tongue") for j in part.joints)
        return [] if said else ["a slanted or curved face that nothing names"]
    levels, missing = _missing(part.solid)
    blocks = _maximal(missing, tuple(len(row) - 1 for row in levels))
    sizes = {block: tuple(levels[k][b] - levels[k][a] for k, (a, b) in enumerate(block)) for block in blocks}
    found: list[str] = []
    covered: set[Cell] = set()
    for (kind, *size), count in _wanted(part.joints).items():
        fits = [block for block in blocks if _has(sizes[block], kind, size)]
        if len(fits) < count:
            found.append(f"{count} {kind} {size} listed, {len(fits)} cut")
        for block in fits:
            covered |= set(product(*(range(a, b) for a, b in block)))
    bare = missing - covered
    if bare:
        left = [tuple(round(v, 3) for v in sizes[b]) for b in blocks if _cells(b) & bare]
        found.append(f"cut out and not listed: {left}")
    return found


def _wanted(joints: tuple[Joint, ...]) -> dict[tuple[object, ...], int]:
    wanted: dict[tuple[object, ...], int] = {}
    for joint in joints:
        if joint.kind in SQUARE:
            key = (joint.kind, joint.width, joint.depth)
        elif joint.kind in ("tongue", "stub tenon"):
            key = (joint.kind, joint.depth)
        else:
            continue
        wanted[key] = wanted.get(key, 0) + joint.count
    return wanted


def _has(size: tuple[float, ...], kind: object, wanted: list[object]) -> bool:
    left = list(size)
    for one in wanted:
        if one is None:
            return False
        fit = next((v for v in left if abs(v - float(one)) < 1e-3), None)  # type: ignore[arg-type]
        if fit is None:
            return False
        left.remove(fit)
    return True


def _cells(block: Block) -> set[Cell]:
    return set(product(*(range(a, b) for a, b in block)))


def _missing(solid: Solid) -> tuple[tuple[list[float], ...], set[Cell]]:
    p, q = PROFILE[solid.axis]
    s = AXES.index(solid.axis)
    box = bounds(solid)
    at: list[set[float]] = [{box[0], box[1]}, {box[2], box[3]}, {box[4], box[5]}]
    for slab in solid.slabs:
        at[s] |= {slab.lo, slab.hi}
        for region in slab.regions:
            for loop in region.loops:
                for one in loop.segments:
                    at[p].add(one.a[0])
                    at[q].add(one.a[1])
    levels = tuple(_apart(row) for row in at)
    missing: set[Cell] = set()
    for cell in product(*(range(len(row) - 1) for row in levels)):
        middle = [(levels[k][i] + levels[k][i + 1]) / 2 for k, i in enumerate(cell)]
        slab = next((one for one in solid.slabs if one.lo < middle[s] < one.hi), None)
        if slab is None or not any(_inside(region.loops, middle[p], middle[q]) for region in slab.regions):
            missing.add(cell)
    return levels, missing


def _apart(values: set[float]) -> list[float]:
    row = sorted(values)
    return [row[0], *(b for a, b in pairwise(row) if b - a > SAME)]


def _inside(loops, x: float, y: float) -> bool:  # type: ignore[no-untyped-def]
    crossings = 0
    for loop in loops:
        for one in loop.segments:
            (a, b), (c, d) = (one.a[0], one.a[1]), (one.b[0], one.b[1])
            if abs(a - c) < SAME and min(b, d) < y < max(b, d) and a > x:
                crossings += 1
    return crossings % 2 == 1


def _maximal(missing: set[Cell], shape: tuple[int, ...]) -> list[Block]:
    """Blocks of missing cells that no larger one holds."""
    found: list[Block] = []
    spans = [[(a, b) for a in range(n) for b in range(a + 1, n + 1)] for n in shape]
    for block in product(*spans):
        if _cells(block) <= missing and not any(  # type: ignore[arg-type]
            _cells(_grown(block, k, end)) <= missing  # type: ignore[arg-type]
            for k in range(3) for end in (0, 1)
            if 0 <= (block[k][0] - 1 if end == 0 else block[k][1]) < shape[k]
        ):
            found.append(block)  # type: ignore[arg-type]
    return found


def _grown(block: Block, k: int, end: int) -> Block:
    a, b = block[k]
    grown = (a - 1, b) if end == 0 else (a, b + 1)
    return tuple(grown if n == k else span for n, span in enumerate(block))  # type: ignore[return-value]
