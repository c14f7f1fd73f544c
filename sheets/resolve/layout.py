"""Where everything stands along the wall and out of it: the planes that the components are built between.

World frame, exact mm. Cases are laid from the side walls inwards; what the grid leaves over goes to the
scribes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from sheets.base.diagnostics import Diagnostic
from sheets.base.keys import slug
from sheets.base.length import snap
from sheets.grammar.measure import highest_here, is_under_ceiling, middle_width, written
from sheets.grammar.schema import Case, Offset, Spec
from sheets.model.wall import Leftover
from sheets.resolve.built import NOTHING, Built, Origin, left_over

Meets = Literal["wall", "middle", "case", "free"]
"""What stands at an end of a case: a side wall, mantel or surround, another case, nothing."""


@dataclass(frozen=True, slots=True)
class End:
    """One end of a case. gap: from the case to the side wall, which the scribe fills. other: place of the
    neighbour. seen: whether some of the case's side shows, beside what is lower or shallower than it."""

    meets: Meets
    gap: Fraction = Fraction(0)
    other: int = -1
    seen: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """A case in its place: x0 to x1 without the scribe. `mirror_of`: place in the row of the one that it
    mirrors. `from_the_right`: stands by itself in the row that begins at the right side wall."""

    index: int  # in the spec
    key: str
    case: Case
    x0: Fraction
    x1: Fraction
    left: End = End("free")
    right: End = End("free")
    mirror_of: int = -1
    from_the_right: bool = False

    @property
    def in_mirror(self) -> Standing:
        """The case as a mirror on the wall's axis shows it; the places of its neighbours are as they were."""
        return replace(self, x0=-self.x1, x1=-self.x0, left=self.right, right=self.left)

    @property
    def width(self) -> Fraction:
        return self.x1 - self.x0

    @property
    def path(self) -> tuple[str | int, ...]:
        """Where the spec says how it is built; of a twin where it departs."""
        return ("cases", self.index) if self.mirror_of < 0 else ("cases", self.index, "right")

    @property
    def cap_bottom(self) -> Fraction:
        return self.case.height - (self.case.cap.thickness if self.case.cap else 0)


@dataclass(frozen=True, slots=True)
class Layout:
    """All cases from left to right, and the half width that mantel and surround take at the middle (0
    without)."""

    cases: tuple[Standing, ...]
    middle: Fraction
    half_room: Fraction

    def beside_middle(self, side: int) -> Standing | None:
        """Return the case that touches mantel or surround on the left (-1) or right (+1)."""
        for standing in self.cases:
            end = standing.right if side < 0 else standing.left
            if end.meets == "middle":
                return standing
        return None

    @property
    def front(self) -> Fraction:
        """Return the foremost case front; 0 without cases."""
        return max((s.case.depth for s in self.cases), default=Fraction(0))

    @property
    def in_mirror(self) -> Layout:
        """The layout as a mirror on the wall's axis shows it."""
        last = len(self.cases) - 1

        def end(one: End) -> End:
            return one if one.other < 0 else replace(one, other=last - one.other)

        turned = (standing.in_mirror for standing in self.cases[::-1])
        return replace(self, cases=tuple(replace(s, left=end(s.left), right=end(s.right)) for s in turned))


@dataclass(slots=True)
class _Slot:
    index: int
    case: Case
    side: Literal["left", "right", "centre"]
    width: Fraction | None
    mirror: bool = False


def lay_out(spec: Spec, origin: Origin) -> tuple[Layout, Built]:
    """Return where the cases stand, what the grid left over, and errors: the layout is then of no use."""
    half = spec.room.width / 2
    middle = middle_width(spec) / 2
    if middle == 0 and spec.fireplace:
        frame = spec.fireplace.frame
        middle = spec.fireplace.opening.width / 2 + (frame.width if frame else 0)
    placed, made = _placed(spec, origin, half, middle)
    standing = tuple(_with_ends(placed, half, middle))
    overlaps = _refused_overlaps(spec, origin, standing, half, middle)
    above = _refused_above_ceiling(spec, origin, standing, half)
    return Layout(standing, middle, half), made + Built(found=(*overlaps, *above))


def _slots(spec: Spec) -> list[_Slot]:
    made = []
    for index, case in enumerate(spec.cases):
        width = None if case.width == "fill" else Fraction(case.width)
        side: Literal["left", "right", "centre"] = "centre" if isinstance(case.at, Offset) else case.at
        made.append(_Slot(index, case, "left" if case.mirrored and side != "centre" else side, width))
        if case.mirrored:
            place: Literal["left", "right", "centre"] = "right" if made[-1].side == "left" else side
            made.append(_Slot(index, case.on_the_right, place, width, mirror=True))
    return made


def _placed(spec: Spec, origin: Origin, half: Fraction, middle: Fraction) -> tuple[list[Standing], Built]:
    slots = _slots(spec)
    centre = [s for s in slots if s.side == "centre"]
    rows = {side: [s for s in slots if s.side == side] for side in ("left", "right")}
    placed = [_at_centre(s) for s in centre if s.width is not None]
    # The limit of each row is the nearest thing that stands already, or the axis when both rows fill
    # towards it.
    limit_left = min([-middle] * (middle > 0) + [s.x0 for s in placed], default=None)
    limit_right = max([middle] * (middle > 0) + [s.x1 for s in placed], default=None)
    filling = {side: any(s.width is None for s in row) for side, row in rows.items()}
    if limit_left is None and limit_right is None:
        fixed_right = _taken(rows["right"])
        fixed_left = _taken(rows["left"])
        twins = bool(rows["right"]) and all(s.mirror for s in rows["right"])
        if (twins and len(rows["right"]) == len(rows["left"])) or (filling["left"] and filling["right"]):
            limit_left = limit_right = Fraction(0)
        elif rows["right"]:
            limit_left = half - fixed_right
            limit_right = -half + fixed_left
        else:
            # One row over the whole wall: its last case meets the other side wall and is scribed to it.
            limit_left = half - (rows["left"][-1].case.scribe if rows["left"] else 0)
            limit_right = -half
        if rows["right"] and not rows["left"]:
            limit_right = -half + rows["right"][-1].case.scribe
    if _mirrored_after_fill(rows["left"]):
        # What is mirrored stands on its own side of the axis, whatever fills the wall outside of it.
        limit_left = min(Fraction(0), limit_left if limit_left is not None else Fraction(0))
    limit_left = half if limit_left is None else limit_left
    limit_right = -half if limit_right is None else limit_right
    left, made = _row(spec, origin, rows["left"], half + limit_left, half, mirrored=False)
    right, more = _row(spec, origin, rows["right"], half - limit_right, half, mirrored=True)
    placed = _mirrored([*placed, *left, *right])
    placed += _filled_centre(centre, placed, half)
    return sorted(placed, key=lambda s: (s.x0, s.x1, s.index)), made + more


def _mirrored_after_fill(row: list[_Slot]) -> bool:
    fills = [k for k, slot in enumerate(row) if slot.width is None]
    return bool(fills) and any(slot.case.mirrored for slot in row[fills[0] + 1 :])


def _mirrored(placed: list[Standing]) -> list[Standing]:
    """Put every twin where its original is mirrored; one that is in the way of others is refused later."""
    originals = {s.index: s for s in placed if s.mirror_of < 0}
    return [
        s if s.mirror_of < 0 else replace(s, x0=-originals[s.mirror_of].x1, x1=-originals[s.mirror_of].x0)
        for s in placed
    ]


def _taken(row: list[_Slot]) -> Fraction:
    return sum((s.width or Fraction(0) for s in row), Fraction(0)) + (row[0].case.scribe if row else 0)


def _at_centre(slot: _Slot) -> Standing:
    assert slot.width is not None
    offset = slot.case.at.offset if isinstance(slot.case.at, Offset) else Fraction(0)
    middle = -offset if slot.mirror else offset
    return _standing(slot, middle - slot.width / 2, middle + slot.width / 2)


def _standing(slot: _Slot, x0: Fraction, x1: Fraction) -> Standing:
    key = f"cases/{slug(slot.case.name)}"
    if slot.case.mirrored:
        key += "/right" if slot.mirror else "/left"
    return Standing(
        slot.index, key, slot.case, x0, x1,
        mirror_of=slot.index if slot.mirror else -1,
        from_the_right=slot.side == "right" and not slot.mirror,
    )  # fmt: skip


def _row(
    spec: Spec, origin: Origin, row: list[_Slot], free: Fraction, half: Fraction, *, mirrored: bool
) -> tuple[list[Standing], Built]:
    """Lay one row from its side wall inwards; `free` is what it may take, the scribe at the wall included."""
    if not row:
        return [], NOTHING
    found: tuple[Diagnostic, ...] = ()
    leftovers: tuple[Leftover, ...] = ()
    scribe = row[0].case.scribe
    fills = [s for s in row if s.width is None]
    rest = free - _taken(row)
    if rest < 0 or (fills and rest < spec.precision * len(fills)):
        path = ("cases", (fills or row)[-1].index, "width")
        said = (
            f"the cases of this row take {written(free - rest, spec)}; only "
            f"{written(free, spec)} of the wall are free here"
        )
        found = (origin.fault("too-wide", path, said),)
        rest = max(rest, spec.precision * max(1, len(fills)))
    widths: dict[int, Fraction] = {}
    if fills:
        each = snap(rest / len(fills), spec.precision, "down")
        over = rest - each * len(fills)
        for slot in fills:
            widths[slot.index] = each
        owner = _standing(row[0], Fraction(0), Fraction(1)).key
        leftovers = left_over(owner, "width of the row", over, "in the scribe at the wall")
        scribe += over
    at = scribe
    made = []
    for slot in row:
        width = slot.width if slot.width is not None else widths[slot.index]
        x0, x1 = -half + at, -half + at + width
        made.append(_standing(slot, -x1, -x0) if mirrored else _standing(slot, x0, x1))
        at += width
    return made, Built(leftovers=leftovers, found=found)


def _filled_centre(centre: list[_Slot], placed: list[Standing], half: Fraction) -> list[Standing]:
    made = []
    for slot in centre:
        if slot.width is None:
            reach = min([abs(s.x1 if s.x1 <= 0 else s.x0) for s in placed] + [half - slot.case.scribe])
            if reach > 0:
                made.append(_standing(slot, -reach, reach))
    return made


def _with_ends(placed: list[Standing], half: Fraction, middle: Fraction) -> list[Standing]:
    made = []
    for k, standing in enumerate(placed):
        before = placed[k - 1] if k else None
        after = placed[k + 1] if k + 1 < len(placed) else None
        left, right = End("free", seen=True), End("free", seen=True)
        if before and before.x1 == standing.x0:
            left = End("case", other=k - 1, seen=_stands_out(standing, before))
        elif middle and standing.x0 == middle:
            left = End("middle", seen=True)
        elif standing.x0 + half <= _scribe_reach(standing):
            left = End("wall", gap=standing.x0 + half)
        if after and after.x0 == standing.x1:
            right = End("case", other=k + 1, seen=_stands_out(standing, after))
        elif middle and standing.x1 == -middle:
            right = End("middle", seen=True)
        elif half - standing.x1 <= _scribe_reach(standing):
            right = End("wall", gap=half - standing.x1)
        made.append(replace(standing, left=left, right=right))
    return made


def _stands_out(standing: Standing, beside: Standing) -> bool:
    return standing.case.depth > beside.case.depth or standing.case.height > beside.case.height


def _scribe_reach(standing: Standing) -> Fraction:
    # The grid's leftover may have been added to the scribe; nothing nearer than an inch is left open
    # beside a wall.
    return standing.case.scribe + Fraction(127, 5)


def _refused_overlaps(
    spec: Spec, origin: Origin, standing: Sequence[Standing], half: Fraction, middle: Fraction
) -> Iterator[Diagnostic]:
    for k, one in enumerate(standing):
        path = ("cases", one.index, "width")
        if one.x0 < -half or one.x1 > half:
            yield origin.fault(
                "too-wide",
                path,
                f"this case reaches beyond the wall, which is {written(2 * half, spec)} wide",
            )
        elif middle and one.x0 < middle and one.x1 > -middle:
            yield origin.fault(
                "case-in-the-middle",
                path,
                "this case reaches into the mantel, surround or opening at the "
                f"middle of the wall, which takes {written(2 * middle, spec)}",
            )
        for other in standing[k + 1 :]:
            if other.x0 < one.x1:
                yield origin.fault(
                    "cases-overlap",
                    ("cases", other.index, "width"),
                    f"the cases '{one.case.name}' and '{other.case.name}' overlap by "
                    f"{written(min(one.x1, other.x1) - other.x0, spec)}",
                )


def _refused_above_ceiling(
    spec: Spec, origin: Origin, standing: Sequence[Standing], half: Fraction
) -> Iterator[Diagnostic]:
    """Each case is held against the ceiling over itself: over its corner farthest from the wall's axis."""
    told: set[tuple[int, Fraction]] = set()
    for one in standing:
        outer = min(half, max(abs(one.x0 - one.left.gap), abs(one.x1 + one.right.gap)))
        place = (one.index, one.case.height)
        if place not in told and not is_under_ceiling(
            spec.room.ceiling, spec.room.width, outer, one.case.height
        ):
            told.add(place)
            yield origin.fault(
                "above-the-ceiling",
                (*one.path, "height"),
                f"the case is {written(one.case.height, spec)} high; the ceiling is lower "
                f"{written(outer, spec)} from the wall's axis",
                help=highest_here(spec, outer),
            )
