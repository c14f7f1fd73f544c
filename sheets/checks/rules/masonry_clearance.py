"""What burns around a masonry fireplace's opening: on its front, and as far as it stands out of it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from sheets.base.length import inch
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.codes import CHOSEN, Judge, asked_for, judge_of, unjudged
from sheets.checks.mechanics.decided_at import decided
from sheets.checks.mechanics.fireside import CAUTIONS, Block, Piece, burning, named
from sheets.checks.mechanics.fireside_picture import Limits, clearance_picture
from sheets.checks.wording import called, length, on_grid
from sheets.model.wall import Wall
from sheets.tables.clearances import Clearance, of_where

NAME = "masonry-clearance"

EXPLAIN = """\
Reads the opening and every combustible piece at or before the masonry's front: wood, panels, gypsum board,
and all that no list knows as noncombustible; mantel, cases, trim and the room's own finish alike. Each block
of each piece is measured: its distance is the shortest way in elevation to the opening, its projection is
from the finished face that the opening is in (the facing when there is one).
Nothing combustible stands nearer than 6 in. Editions of the IRC to 2018: within 12 in, no more projection
than 1/8 in for each inch of distance, above and beside alike: 3/4 in at 6, 1 in at 8, 1 1/4 in at 10,
1 1/2 in at 12 in. From 2021 (from memory): that rule right above the opening, and beside it a projection
over 1 1/2 in stands 6 in and its own length away. Without an edition the worse of both holds. Where a
piece is aside of the opening and above or below its height at once, both must be broken.
`codes:` chooses what judges: the IRC, an edition of it, none, the manual alone, or a table of your own. For
masonry fireplaces alone: a listed appliance goes by its own manual.
Source: IRC R1001.11, exception 4; each figure says whether a copy was read."""


def broken_by(rows: Iterable[Clearance], block: Block) -> Clearance | None:
    """Return the row that a block breaks, the one that asks for the greatest distance; None when it breaks
    none.

    Monotone: a block that is nearer on either way, or stands out more, breaks at least as much. So where it
    is both aside and above (or below), only what is broken by the rows for above and by those for beside
    counts.
    """
    failing = [row for row in applying(rows, block) if row.fails(block.distance, block.projection)]
    slanted = block.upright > 0 and (block.aside > 0 or not block.higher)
    if slanted and {row.where for row in failing} & {"above", "beside"} != {"above", "beside"}:
        failing = [row for row in failing if row.where == "around"]
    return max(failing, key=lambda row: _wanted(row, block), default=None)


def applying(rows: Iterable[Clearance], block: Block) -> tuple[Clearance, ...]:
    """Return the rows for where a block is: right above the opening, at its sides, or elsewhere."""
    if block.upright and not block.aside and block.higher:
        return of_where(rows, "around", "above")
    if block.aside and not block.upright:
        return of_where(rows, "around", "beside")
    return of_where(rows, "around", "above", "beside")


def _wanted(row: Clearance, block: Block) -> Fraction:
    return row.wanted(block.projection) or Fraction(0)


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None or opening.appliance != "masonry":
        return Outcome(0)
    judge = judge_of(wall)
    back = opening.masonry.extent.y1 if opening.masonry else opening.extent.y1
    pieces = tuple(
        Piece(piece.part, before)
        for piece in burning(wall, opening)
        if (before := tuple(block for block in piece.blocks if block.extent.y1 > back))
    )
    if judge.severity is None:
        near = [piece.part for piece in pieces if piece.nearest.distance <= _FAR]
        what = f"nothing that burns at the opening was held against a distance; within 12 in: {named(near)}"
        return Outcome(len(pieces) + 1, (unjudged(wall, NAME, what, judge),), _measures(wall, judge, pieces))
    findings = [found for piece in pieces if (found := _finding(wall, judge, piece)) is not None]
    picture = clearance_picture(wall, opening, tuple(piece.part for piece in pieces), _border(judge))
    return Outcome(
        len(pieces) + 1, (*asked_for(wall, NAME), *findings), _measures(wall, judge, pieces), (picture,)
    )


_FAR = inch(12)
"""What is measured and shown, whether it is judged or not."""


def _finding(wall: Wall, judge: Judge, piece: Piece) -> Finding | None:
    block = piece.worst(lambda each: broken_by(judge.rows, each) is not None)
    if block is None or judge.severity is None:
        return None
    row = broken_by(judge.rows, block)
    assert row is not None
    far = _far(wall, row, block)
    return about(
        NAME,
        judge.severity,
        judge.line(
            f"{called(piece.part)} is combustible, stands {length(wall, block.distance)} from the opening "
            f"and projects {length(wall, block.projection)}; that wants {far}"
        ),
        piece.part,
        cure=_cure(wall, judge, block, far),
        cited=row.cited,
        made_from=decided(piece.part, "off_fire"),
    )


def _far(wall: Wall, row: Clearance, block: Block) -> str:
    wanted, beyond = _wanted(row, block), row.no_limit_beyond
    if beyond is not None and wanted > beyond:
        return f"more than {length(wall, beyond)}"
    return f"{on_grid(wall, wanted, 'up')} or more"


def _cure(wall: Wall, judge: Judge, block: Block, far: str) -> str:
    most = most_projection(judge.rows, block)
    if most is None or most >= block.projection:
        return f"would do at {far} from the opening"
    return f"would do at {far} from the opening, or at a projection of {on_grid(wall, most, 'down')}"


def most_projection(rows: Iterable[Clearance], block: Block) -> Fraction | None:
    """Return how far a piece may stand out at the distance of a block, mm; None where nothing may be."""
    table = tuple(rows)
    steps: list[Fraction] = [Fraction(0)]
    for row in of_where(table, "around", "above", "beside"):
        if row.per_projection:
            steps.append((block.distance - row.distance) / row.per_projection)
        if row.projects_over is not None:
            steps.append(row.projects_over)
    good = [step for step in steps if step >= 0 and broken_by(table, _projecting(block, step)) is None]
    return max(good, default=None)


def _projecting(block: Block, projection: Fraction) -> Block:
    return Block(block.extent, block.aside, block.upright, block.higher, projection)


def _border(judge: Judge) -> Limits:
    """The border of what is allowed above the opening."""
    rows = of_where(judge.rows, "around", "above")
    near = max((row.distance for row in rows if row.projects_over is None), default=Fraction(0))
    points = [(Fraction(0), near)]
    for row in rows:
        if row.per_projection and row.no_limit_beyond is not None:
            points += [
                (near / row.per_projection, near),
                (row.no_limit_beyond / row.per_projection, row.no_limit_beyond),
            ]
            break
    return tuple(points)


def _measures(wall: Wall, judge: Judge, pieces: tuple[Piece, ...]) -> tuple[Measure, ...]:
    near = [piece for piece in pieces if piece.nearest.distance <= _FAR]
    shown = near or sorted(pieces, key=lambda piece: piece.nearest.distance)[:1]
    return tuple(_measure(wall, judge, piece) for piece in shown if not piece.part.twin)


def _measure(wall: Wall, judge: Judge, piece: Piece) -> Measure:
    worst = piece.worst(lambda each: broken_by(judge.rows, each) is not None)
    shown = worst or piece.nearest
    row = broken_by(judge.rows, shown) or max(
        (
            row
            for row in applying(judge.rows, shown)
            if row.no_limit_beyond is None or shown.distance <= row.no_limit_beyond
        ),
        key=lambda row: _wanted(row, shown),
        default=None,
    )
    said = f"projects {length(wall, shown.projection)} at {length(wall, shown.distance)}"
    if judge.severity is None or row is None:
        return Measure(called(piece.part), said, f"by {judge.says}", "to judge", CHOSEN)
    return Measure(
        called(piece.part),
        said,
        f"{_far(wall, row, shown)}, by {judge.says}",
        "beyond limit" if worst else "within limit",
        row.cited,
    )


RULE = Rule(NAME, "Combustibles at a masonry opening", "clearance", 10, _judge, EXPLAIN, CAUTIONS)
