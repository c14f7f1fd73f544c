"""What a joint joins, and how much of it may be glued where one piece moves and the other does not."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from sheets.model.part import AXES, Joint, Material, Part
from sheets.tables.figures import figure


def glue_most() -> Fraction:
    """Return how much of a joint across the grain is glued at most, mm; the rest is left free to move."""
    return figure("joinery", "cross-grain glue most").value


def part_glued(run: Fraction, one: Material, other: Material) -> Fraction | None:
    """Return how much of a joint is glued, from the front, where solid wood meets a panel along its width: a
    third, and no more than holds. None where all of it may be.

    Source: common practice (glued at the front, free behind, so that the front edges stay flush).
    """
    if (one.kind == "wood") == (other.kind == "wood") or run <= glue_most():
        return None
    return min(run / 3, glue_most())


def across_glued(width: Fraction) -> Fraction | None:
    """Return how much of an end glued to the edge of a piece across it is glued; None for all of it."""
    return glue_most() if width > glue_most() else None


def mated(parts: Sequence[Part]) -> list[Part]:
    """Return the parts of a component with each screw joint and dowel that names no mate given the piece that
    it meets in the largest face, one that no joint between the two names yet.
    """
    return [replace(part, joints=_mated(part, parts)) for part in parts]


def _mated(part: Part, parts: Sequence[Part]) -> tuple[Joint, ...]:
    open_ones = [j for j in part.joints if not j.mate and (j.fastening == "screw" or j.kind == "dowel")]
    if not open_ones:
        return part.joints
    named = {joint.mate for joint in part.joints}
    named |= {other.key for other in parts if any(joint.mate == part.key for joint in other.joints)}
    touching = sorted(
        ((area, other.key) for other in parts if (area := _contact(part, other)) and other.key not in named),
        key=lambda found: (-found[0], found[1]),
    )
    mates = iter(key for _, key in touching)
    return tuple(
        replace(joint, mate=next(mates, "")) if any(joint is one for one in open_ones) else joint
        for joint in part.joints
    )


def _contact(one: Part, other: Part) -> Fraction:
    """The area in which the boxes of two pieces touch, 0 where they do not, or share space."""
    if one.key == other.key:
        return Fraction(0)
    shared = []
    for axis in AXES:
        (a, b), (c, d) = one.extent.span(axis), other.extent.span(axis)
        shared.append(min(b, d) - max(a, c))
    if min(shared) < 0 or sum(size == 0 for size in shared) != 1:
        return Fraction(0)
    first, second = (size for size in shared if size)
    return first * second
