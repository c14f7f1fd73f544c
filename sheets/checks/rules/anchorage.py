"""What each case is fixed to the wall by: a rail high up, and studs behind that very rail."""

from __future__ import annotations

from fractions import Fraction

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.anchors import Row, anchor_rows, passed, rows_high_up
from sheets.checks.mechanics.assemblies import parts_of
from sheets.checks.mechanics.decided_at import at, decided
from sheets.checks.wording import called, length, on_grid
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.tables.figures import figure

NAME = "anchorage"

CAUTIONS = (
    "Studs are found and verified on site; what the wall is made of governs the fastener. Others size what "
    "carries load.",
    "No case is loaded, climbed on or left alone before it is fixed.",
)

EXPLAIN = """\
Reads the rails at the wall of each case, and of each rail the studs that it is sure to cover wherever they
stand, its own length less 3/4 in at each end over the stud spacing (`checks: stud_spacing`, 16 in on centre
unless the spec says otherwise); rails side by side at one height count together. Where the spec says
`blocking: true` solid backing stands behind the rails, and a screw finds it everywhere.
A case taller than 27 in wants a rail to screw through in its upper third: none is a warning. Fewer than two
sure studs behind the rails there: a warning. A wall screw that goes less than six of its diameters into the
stud, through the rail, the boards before it and 1/2 in of lining, holds nothing that can be counted: an
error. So is a rail of fibreboard or particleboard, which such a screw breaks out of.
Sources: IRC R602.3(5) for stud spacing, from memory; NDS 12.1 for the screw; two points in the upper third is
common practice, from memory."""


def _judge(wall: Wall) -> Outcome:
    tall = figure("stability", "tall from")
    cases = [c for c in wall.components if c.kind.arrives == "stood up" and c.extent.size("z") >= tall.value]
    findings = [finding for case in cases for finding in _rails(wall, case)]
    measures = [_measure(wall, case) for case in cases if not case.twin]
    held = [c for c in wall.components if any(part.does.anchors for part in parts_of(wall, c))]
    for component in held:
        findings += _screws(wall, component)
        findings += _fibreboard(component, parts_of(wall, component))
    return Outcome(len(dict.fromkeys(c.key for c in (*cases, *held))), tuple(findings), tuple(measures))


def _sure(rows: tuple[Row, ...]) -> int:
    return max((row.screws.sure for row in rows), default=0)


def _rails(wall: Wall, case: Component) -> tuple[Finding, ...]:
    wanted, above = figure("stability", "studs at least"), figure("stability", "anchors above")
    rows = rows_high_up(wall, case)
    if not rows:
        low = case.extent.z0 + case.extent.size("z") * above.value
        return (
            about(
                NAME,
                "warning",
                f"{case.name.lower()}, {length(wall, case.extent.size('z'))} high, has no rail to screw "
                "to the wall in its upper third",
                case,
                cure=f"leave room for a rail at the wall above {on_grid(wall, low, 'up')}",
                cited=above.cited,
                made_from=decided(case, "anchors"),
            ),
        )
    if _sure(rows) >= wanted.value:
        return ()
    rail = max(rows[-1].pieces, key=lambda piece: piece.extent.size("x"))
    spacing, end = wall.settings.checks.stud_spacing, figure("stability", "screw from an end").value
    wide = wanted.value * spacing + 2 * end
    return (
        about(
            NAME,
            "warning",
            f"{called(rail)}, {length(wall, rail.extent.size('x'))} long, is sure of {_sure(rows)} "
            f"stud{'' if _sure(rows) == 1 else 's'} at {length(wall, spacing)} on centre; "
            f"{int(wanted.value)} are wanted",
            rail,
            case,
            cure="have blocking set behind it and say so with blocking: true under checks"
            + (
                f"; a rail {length(wall, wide)} long would be sure of {int(wanted.value)}"
                if wide <= case.extent.size("x")
                else ""
            ),
            cited=wanted.cited,
            made_from=decided(case, "x"),
        ),
    )


def _measure(wall: Wall, case: Component) -> Measure:
    wanted, rows = figure("stability", "studs at least"), rows_high_up(wall, case)
    return Measure(
        f"{case.name.lower()}, rails at the wall",
        f"{len(rows)} in the upper third, {_sure(rows)} sure "
        + ("places on blocking" if wall.settings.checks.blocking else "studs behind it"),
        f"1 rail, {int(wanted.value)} studs",
        "within limit" if _sure(rows) >= wanted.value else "to judge",
        wanted.cited,
    )


def _screws(wall: Wall, component: Component) -> tuple[Finding, ...]:
    least = figure("stability", "screw into the stud")
    shallow: dict[Fraction, Part] = {}
    for row in anchor_rows(wall, component):
        if not row.screw.deep_enough:
            piece = max(row.pieces, key=passed)
            shallow.setdefault(passed(piece), piece)
    fasteners = wall.settings.fasteners
    lining = figure("stability", "lining of the wall").value
    found = []
    for thick, piece in shallow.items():
        wanted = thick + lining + least.value * fasteners.wall_diameter
        into = max(Fraction(0), fasteners.wall_length - thick - lining)
        found.append(
            about(
                NAME,
                "error",
                f"the wall screw, {length(wall, fasteners.wall_length)} long, goes {length(wall, into)} into "
                f"the stud through {called(piece)}; "
                f"{length(wall, least.value * fasteners.wall_diameter)} is the least",
                piece,
                cure=f"a screw of {on_grid(wall, wanted, 'up')} or longer would do",
                cited=least.cited,
                made_from=at(piece.made_from, "fasteners", "wall_length"),
            )
        )
    return tuple(found)


def _fibreboard(component: Component, parts: tuple[Part, ...]) -> tuple[Finding, ...]:
    held = [part for part in parts if part.does.anchors and part.material.look == "fibreboard"]
    if not held:
        return ()
    return (
        about(
            NAME,
            "error",
            f"{called(held[0])}, by which {component.name.lower()} is fixed, is of {held[0].material.name}; "
            "a wall screw breaks out of it",
            *held,
            cure="solid wood or veneer-core plywood would do: say so with secondary under materials",
            cited=figure("stability", "screw into the stud").cited,
            made_from=at(held[0].made_from, "materials", held[0].material.key),
        ),
    )


RULE = Rule(NAME, "Fixing to the wall", "stability", 10, _judge, EXPLAIN, CAUTIONS)
