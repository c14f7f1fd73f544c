"""What changed between two walls: frozen values, by key, that can be applied to the earlier one.

Sizes are exact mm in the wall's frame. A change holds both sides, so that it can be read either way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, TypeVar

from sheets.model.part import Part
from sheets.model.wall import Component

PartKind = Literal["added", "removed", "resized", "moved", "material", "joints", "shape", "details"]
PART_KINDS: tuple[PartKind, ...] = (
    "added",
    "removed",
    "resized",
    "moved",
    "material",
    "joints",
    "shape",
    "details",
)
Value = Fraction | int | str | tuple[Fraction | str, ...] | None
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class PartChange:
    """One part: as it was and as it is, None on the side where it is not."""

    key: str
    kinds: tuple[PartKind, ...]  # in the order of PART_KINDS
    before: Part | None
    after: Part | None

    @property
    def part(self) -> Part:
        """The part as it is, or as it was when it is gone."""
        found = self.after if self.after is not None else self.before
        assert found is not None
        return found


@dataclass(frozen=True, slots=True)
class ComponentChange:
    """An assembly that came, went or got another name."""

    key: str
    before: Component | None
    after: Component | None


@dataclass(frozen=True, slots=True)
class SizeChange:
    """One dimension: of what (key of the owner, "" for the room), its name in the trade's words, both values.

    A value is exact mm, a count, a word or a list of these; None where there is none. at: the length, exact
    mm, that `{at}` in the name stands for.
    """

    owner: str
    name: str
    before: Value
    after: Value
    at: Fraction | None = None


@dataclass(frozen=True, slots=True)
class FindingLine:
    """A finding as it is compared: its rule, severity, what it says and of which parts."""

    rule: str
    severity: str
    message: str
    subjects: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Restated:
    """A finding that stands on both sides with other numbers or of other pieces."""

    before: FindingLine
    after: FindingLine


@dataclass(frozen=True, slots=True)
class TakeOffLine:
    """What the parts need of one material and thickness, both sides; 0 where it is not used.

    amount: `BD FT` or `M³` of solid wood, `SQ FT` or `M²` of panels: the blanks, without waste.
    """

    material: str
    stock: str
    unit: str
    pieces_before: int
    pieces_after: int
    before: Fraction
    after: Fraction


@dataclass(frozen=True, slots=True)
class Changes:
    """All that is different. Empty when the two walls are built alike."""

    parts: tuple[PartChange, ...] = ()
    components: tuple[ComponentChange, ...] = ()
    sizes: tuple[SizeChange, ...] = ()
    words: tuple[SizeChange, ...] = ()  # of the project, the paper and the notes: nothing that is built
    gained: tuple[FindingLine, ...] = ()
    lost: tuple[FindingLine, ...] = ()
    restated: tuple[Restated, ...] = ()
    take_off: tuple[TakeOffLine, ...] = ()  # lines that differ
    slack: Fraction = Fraction(0)  # mm: sizes that differ by no more are taken as the same

    def __bool__(self) -> bool:
        return bool(
            self.parts
            or self.components
            or self.sizes
            or self.words
            or self.gained
            or self.lost
            or self.restated
            or self.take_off
        )

    @property
    def keys(self) -> frozenset[str]:
        """Keys of all parts that changed."""
        return frozenset(change.key for change in self.parts)


def mirrored(changes: Changes) -> Changes:
    """Return the same changes read the other way: what undoes them."""
    opposite: Mapping[PartKind, PartKind] = {"added": "removed", "removed": "added"}
    return Changes(
        parts=tuple(
            replace(
                c, before=c.after, after=c.before, kinds=tuple(opposite.get(kind, kind) for kind in c.kinds)
            )
            for c in changes.parts
        ),
        components=tuple(replace(c, before=c.after, after=c.before) for c in changes.components),
        sizes=tuple(replace(c, before=c.after, after=c.before) for c in changes.sizes),
        words=tuple(replace(c, before=c.after, after=c.before) for c in changes.words),
        gained=changes.lost,
        lost=changes.gained,
        restated=tuple(Restated(r.after, r.before) for r in changes.restated),
        take_off=tuple(
            replace(
                c, pieces_before=c.pieces_after, pieces_after=c.pieces_before, before=c.after, after=c.before
            )
            for c in changes.take_off
        ),
        slack=changes.slack,
    )
