"""The cases: on the wall, under the ceiling, and what is in them."""

from fractions import Fraction
from itertools import pairwise

from sheets.base.diagnostics import SpecPath
from sheets.base.source import Source
from sheets.grammar.casework import Graduated, Offset, Ratio
from sheets.grammar.measure import clear_height, highest_here, middle_width, written
from sheets.grammar.rules.fault import Findings, error, warning
from sheets.grammar.rules.mantel import saw_cuts
from sheets.grammar.schema import Backer, Case, Shelves, Spec

_STEEPEST = Fraction(2)
_LEAST_FACE = Fraction(10)
_SLACK_SHOWN = 6


def check(spec: Spec, source: Source) -> Findings:
    """Yield what does not fit about the cases."""
    for number, case in enumerate(spec.cases):
        path = ("cases", number)
        yield from _place(spec, case, path, source)
        yield from _built(spec, case, path, source)
        if case.right is not None:
            if not case.mirrored:
                yield error(
                    source,
                    (*path, "right"),
                    "case-place",
                    "only a mirrored case has a right side that departs from it",
                    "Write `mirrored: true`, or write what is meant in the case itself.",
                )
            yield from _built(spec, case.on_the_right, (*path, "right"), source)
    yield from _along_wall(spec, source)


def _built(spec: Spec, case: Case, path: SpecPath, source: Source) -> Findings:
    yield from _carcass(spec, case, path, source)
    yield from _backer(spec, case, path, source)
    if case.shelves:
        yield from _shelves(spec, case, case.shelves, (*path, "shelves"), source)


def _place(spec: Spec, case: Case, path: SpecPath, source: Source) -> Findings:
    at, half = (*path, "at"), spec.room.width / 2
    if isinstance(case.at, Offset):
        if case.width == "fill":
            yield error(
                source, (*path, "width"), "case-width", "a case at an offset has a width of its own, not fill"
            )
        elif abs(case.at.offset) + case.width / 2 > half:
            yield error(source, at, "too-wide", "at this offset the case goes beyond the wall")
        elif case.mirrored and -case.at.offset < case.width / 2:
            yield error(
                source,
                at,
                "case-place",
                "a mirrored case stands on the left: its offset is below zero by half its width or more",
            )
    elif case.mirrored and case.at != "left":
        yield error(
            source,
            at,
            "case-place",
            f"a mirrored case is written where it stands on the left, not at {case.at}",
            "Write `at: left`, or leave it out.",
        )
    elif case.at == "centre" and middle_width(spec) > 0:
        yield error(source, at, "case-place", "at the centre of this wall is the fireplace")
    if case.depth > spec.room.width * 2:
        yield error(source, (*path, "depth"), "case-depth", "the case is deeper than twice the wall's width")
    at_wall = case.at in ("left", "right")
    if at_wall and 0 < case.scribe < spec.room.out_of_plumb:
        yield warning(
            source,
            (*path, "scribe"),
            "scribe",
            f"a scribe of {written(case.scribe, spec)} does not take a wall out of plumb by "
            f"{written(spec.room.out_of_plumb, spec)}",
        )


def _carcass(spec: Spec, case: Case, path: SpecPath, source: Source) -> Findings:
    # Where it stands, and how high a vault is over it, is known once the row is laid out.
    if case.height > spec.room.ceiling.height:
        yield error(
            source,
            (*path, "height"),
            "too-high",
            f"a case {written(case.height, spec)} high does not stand under the ceiling",
            highest_here(spec, Fraction(0)),
        )
    clear = clear_height(case, spec)
    if clear <= 0:
        yield error(
            source,
            (*path, "height"),
            "too-low",
            f"plinth, cap, bottom and top leave nothing of a height of {written(case.height, spec)}",
        )
    board = spec.materials[case.material].thickness
    if isinstance(case.width, Fraction) and case.width <= (case.bays + 1) * board:
        yield error(
            source,
            (*path, "width"),
            "case-width",
            f"sides and dividers leave nothing of a width of {written(case.width, spec)}",
        )
    if case.frame:
        if isinstance(case.width, Fraction) and 2 * case.frame.stile >= case.width:
            yield error(
                source, (*path, "frame", "stile"), "case-width", "two stiles leave no opening between them"
            )
        if 2 * case.frame.rail >= case.height:
            yield error(
                source, (*path, "frame", "rail"), "too-high", "two rails leave no opening between them"
            )
        if case.frame.thickness >= case.depth:
            yield error(
                source, (*path, "frame", "thickness"), "case-depth", "the face frame is as deep as the case"
            )
    if case.plinth and case.plinth.setback >= case.depth:
        yield error(
            source,
            (*path, "plinth", "setback"),
            "case-depth",
            "the plinth is set back beyond the case's depth",
        )
    if case.cap:
        yield from saw_cuts(
            spec, source, (*path, "cap", "saw_cuts"), case.cap.saw_cuts, case.cap.thickness, case.depth
        )


def _backer(spec: Spec, case: Case, path: SpecPath, source: Source) -> Findings:
    backer = case.backer
    if backer is None:
        return
    path = (*path, "backer")
    if backer.kind == "boards":
        yield from _boards(backer, path, source)
    frame = case.frame.thickness if case.frame else Fraction(0)
    if backer.thickness + frame >= case.depth:
        yield error(
            source,
            (*path, "thickness"),
            "case-depth",
            "backer and face frame leave nothing of the case's depth",
        )


def _boards(backer: Backer, path: SpecPath, source: Source) -> Findings:
    if backer.face < _LEAST_FACE:
        yield error(source, (*path, "face"), "backer", "a board's face is 10 mm or more")
    if backer.groove.width >= backer.face:
        yield error(source, (*path, "groove", "width"), "backer", "the V takes the whole face of the board")
    if backer.tongue.thickness + backer.groove.depth > backer.thickness:
        yield error(
            source,
            (*path, "tongue", "thickness"),
            "backer",
            "tongue and V together are thicker than the board",
        )
    if backer.gap >= backer.tongue.length:
        yield error(
            source, (*path, "gap"), "backer", "the gap is as wide as the tongue is long: light would show"
        )


def _shelves(spec: Spec, case: Case, shelves: Shelves, path: SpecPath, source: Source) -> Findings:
    board = spec.materials[case.material].thickness
    if shelves.count and shelves.joint.dado >= board:
        yield error(
            source,
            (*path, "joint", "dado"),
            "dado",
            f"a dado {written(shelves.joint.dado, spec)} deep goes through a side of {written(board, spec)}",
            "A third to a half of the side is usual.",
        )
    clear = clear_height(case, spec) - shelves.count * shelves.thickness
    if clear_height(case, spec) <= 0:
        return
    if clear <= 0:
        yield error(
            source,
            (*path, "count"),
            "shelves",
            f"{shelves.count} shelves of {written(shelves.thickness, spec)} leave nothing of a clear "
            "height of "
            f"{written(clear_height(case, spec), spec)}",
        )
    elif isinstance(shelves.spacing, tuple):
        yield from _listed(spec, case, shelves, shelves.spacing, path, source)
    elif isinstance(shelves.spacing, Graduated):
        highest = (clear + shelves.spacing.graduated * shelves.count * (shelves.count + 1) / 2) / (
            shelves.count + 1
        )
        if highest - shelves.count * shelves.spacing.graduated <= 0:
            yield error(
                source,
                (*path, "spacing", "graduated"),
                "shelves",
                f"graduated by {written(shelves.spacing.graduated, spec)}, "
                f"the top of {shelves.count + 1} bays "
                "has no height left",
            )
    elif isinstance(shelves.spacing, Ratio) and not 1 / _STEEPEST <= shelves.spacing.ratio <= _STEEPEST:
        yield error(source, (*path, "spacing", "ratio"), "shelves", "the ratio of two bays is from 0.5 to 2")


def _listed(
    spec: Spec, case: Case, shelves: Shelves, bays: tuple[object, ...], path: SpecPath, source: Source
) -> Findings:
    place = (*path, "spacing")
    if len(bays) != shelves.count + 1:
        yield error(
            source,
            place,
            "shelves",
            f"{shelves.count} shelves make {shelves.count + 1} bays; this list has {len(bays)}",
            "Bays are listed from the bottom up.",
        )
        return
    fixed = [bay for bay in bays if isinstance(bay, Fraction)]
    fills = len(bays) - len(fixed)
    clear = clear_height(case, spec)
    boards = shelves.count * shelves.thickness
    total = sum(fixed, Fraction(0)) + boards
    if (total == clear and not fills) or (total < clear and fills):
        return
    shown = " + ".join(written(bay, spec) for bay in fixed[:_SLACK_SHOWN])
    shown += " + ..." if len(fixed) > _SLACK_SHOWN else ""
    rest = " leave nothing to fill" if fills else ""
    yield error(
        source,
        place,
        "shelves",
        f"the bays do not add up: {shown} + {shelves.count} shelves of {written(shelves.thickness, spec)} = "
        f"{written(total, spec)}{rest}; the clear height is {written(clear, spec)}",
        f"Floor to cap {written(case.height, spec)}, less cap, plinth, bottom and top. Let one bay say fill.",
    )


def _along_wall(spec: Spec, source: Source) -> Findings:
    for number, case in enumerate(spec.cases):
        scribe = case.scribe if case.at in ("left", "right") else 0
        copies = 2 if case.mirrored else 1
        if isinstance(case.width, Fraction) and copies * (case.width + scribe) > spec.room.width:
            both = " on both sides" if case.mirrored else ""
            yield error(
                source,
                ("cases", number, "width"),
                "too-wide",
                f"a case {written(case.width, spec)} wide{both} does not fit on a wall of "
                f"{written(spec.room.width, spec)}",
            )
            return
    yield from _sides(spec, source)


def _sides(spec: Spec, source: Source) -> Findings:
    centre = [(n, c) for n, c in enumerate(spec.cases) if c.at == "centre"]
    for (_, _), (number, _) in pairwise(centre):
        yield error(
            source, ("cases", number, "at"), "case-place", "two cases cannot both stand at the centre"
        )
    fixed_centre = max((c.width for _, c in centre if isinstance(c.width, Fraction)), default=Fraction(0))
    middle = max(middle_width(spec), fixed_centre)
    if middle >= spec.room.width:
        return  # what stands in the middle is told to be too wide for the wall
    left = [(n, c) for n, c in enumerate(spec.cases) if c.at == "left"]
    right = [(n, c) for n, c in enumerate(spec.cases) if c.at == "right" or (c.at == "left" and c.mirrored)]
    half = (spec.room.width - middle) / 2
    limits = [(half, left), (half, right)]
    if middle == 0 and not (left and right and all(c.mirrored for _, c in left)):
        limits = [(spec.room.width, [*left, *((n, c) for n, c in right if not c.mirrored)])]
    told: set[SpecPath | None] = set()
    for free, row in limits:
        for fault in _row(spec, source, free, row):
            if fault.path not in told:
                told.add(fault.path)
                yield fault


def _row(spec: Spec, source: Source, free: Fraction, row: list[tuple[int, Case]]) -> Findings:
    taken = Fraction(0)
    fills = [number for number, case in row if case.width == "fill"]
    for position, (number, case) in enumerate(row):
        # Only the case at the side wall has a scribe there.
        taken += (case.scribe if position == 0 else 0) + (
            case.width if isinstance(case.width, Fraction) else 0
        )
        if taken > free:
            yield error(
                source,
                ("cases", number, "width"),
                "too-wide",
                f"up to this case {written(taken, spec)} of the wall are taken; only "
                f"{written(free, spec)} are free here",
            )
            return
    if fills and taken >= free:
        yield error(
            source,
            ("cases", fills[0], "width"),
            "too-wide",
            f"nothing is left to fill: {written(free, spec)} are free here, {written(taken, spec)} are taken",
        )
