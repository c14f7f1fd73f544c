"""What hangs on the wall: its weight, how far it leans out, and the screws that hold it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import fsum, inf

from sheets.base.diagnostics import Severity
from sheets.base.length import MM_PER_INCH
from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.anchors import Row, anchor_rows
from sheets.checks.mechanics.assemblies import AsMoved, carried_as_moved, weight_of
from sheets.checks.mechanics.balance import feet_of, floors
from sheets.checks.mechanics.decided_at import at, decided, material
from sheets.checks.mechanics.loading import lasting_load
from sheets.checks.mechanics.screws import N_PER_LB
from sheets.checks.mechanics.strengths import weight_kg
from sheets.checks.rules.anchorage import CAUTIONS
from sheets.checks.wording import KG_PER_LB, WHAT_IS_UNKNOWN, length, on_grid, weight
from sheets.geometry.solid import centroid
from sheets.model.part import Part
from sheets.model.wall import Component, Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited

NAME = "hanging"

EXPLAIN = """\
Reads what is carried in and fixed: a mantel without posts, with its corbels, a shelf, panelling. Its weight
and centre of gravity come from its pieces.
On a shelf of it lies what the spec has shelves carry, in the middle of its depth; a person leans on its
front edge with 200 lb. All of that is carried down by the screws that surely find a stud through the very
pieces that are screwed, and what stands out pulls at them: the work turns about the lowest line in which it
bears on the wall, corbels that are screwed to it counted, and each row of screws takes of the moment by its
height above that line.
A screw holds, pulled out, 2850 x gravity of the stud squared x diameter an inch of thread in the stud, and,
pushed down, the least of the yield modes across 1/2 in of lining; both together by EN 1995-1-1 8.3.3. Studs
count as spruce-pine-fir, the lightest of usual ones. These are allowable loads, about a fifth of what
breaks.
What stands on its feet is carried by them; its screws hold what stands out before its toe from tipping.
More than its screws hold under weight and load alone, no screw at all or none that is sure of a stud: an
error; what holds until the person leans on it: a warning.
Sources: National Design Specification 12.2 and 12.3, EN 1995-1-1 and AWC Technical Report 12; the
withdrawal formula was seen in a copy, the rest is from memory. The person: ASCE 7 and IRC table R301.5,
from memory."""


@dataclass(frozen=True, slots=True)
class _Hung:
    """A thing on the wall, pounds and inches. toe: how far out its feet carry it, 0 where it has none. out:
    from there to its centre of gravity; pivot: height of the line that it turns about; edge: how far out
    before the toe its front edge is.
    """

    component: Component
    rows: tuple[Row, ...]
    stands: bool
    weight: float
    out: float
    pivot: float
    load: float  # what lies on its shelf
    load_out: float
    edge: float
    shelf: bool

    def asked(self, *, leaned_on: bool) -> tuple[float, float]:
        """What pulls it down, pounds, and the moment that turns it out, pound-inches."""
        person = float(figure("stability", "person who leans").value) if leaned_on and self.shelf else 0.0
        down = self.weight + self.load + person
        moment = self.weight * self.out + self.load * self.load_out + person * max(0.0, self.edge)
        return down, max(0.0, moment)

    def used(self, *, leaned_on: bool) -> float:
        """Return how much of the worst of its screws is used: 1 is all that it may take."""
        down, moment = self.asked(leaned_on=leaned_on)
        screws = sum(row.screws.screws for row in self.rows)
        arms = [max(0.0, _inches(row.middle) - self.pivot) for row in self.rows]
        stiff = fsum(row.screws.screws * arm**2 for row, arm in zip(self.rows, arms, strict=True))
        if self.stands:
            down = 0.0
        if not (moment or down):
            return 0.0
        if not screws or (moment and not stiff):
            return inf
        return max(
            row.screw.used(moment * arm / stiff if stiff else 0.0, down / screws)
            for row, arm in zip(self.rows, arms, strict=True)
            if row.screws.screws
        )


def _judge(wall: Wall) -> Outcome:
    moved_in = carried_as_moved(wall)
    hung = [_hung(wall, moved.component, moved.parts) for moved in moved_in]
    findings = [finding for one in hung for finding in _findings(wall, one)]
    findings += [finding for moved in moved_in for finding in _unweighed(moved)]
    measures = [row for one in hung if one.rows for row in _measures(wall, one)]
    return Outcome(len(hung), tuple(findings), tuple(measures))


def _hung(wall: Wall, component: Component, parts: tuple[Part, ...]) -> _Hung:
    weights = [(found[0] / KG_PER_LB, part) for part in parts if (found := weight_kg(part)) is not None]
    whole = fsum(pounds for pounds, _ in weights)
    out = fsum(pounds * centroid(part.solid)[1] for pounds, part in weights) / (whole or 1.0)
    shelf = [part.extent for part in parts if part.does.face == "cap" or part.does.bears]
    front, long = Fraction(0), Fraction(0)
    if shelf:
        front = max(box.y1 for box in shelf)
        long = max(box.x1 for box in shelf) - min(box.x0 for box in shelf)
    load = lasting_load(wall.settings.checks, front) * float(long) / N_PER_LB
    feet = feet_of(parts, floors(wall))
    toe = max((high for _, high in feet), default=0.0) / float(MM_PER_INCH)
    return _Hung(
        component,
        anchor_rows(wall, component),
        bool(feet),
        whole,
        out / float(MM_PER_INCH) - toe,
        0.0 if feet else _pivot(wall, parts),
        load,
        _inches(front) / 2 - toe,
        _inches(front) - toe,
        bool(shelf),
    )


def _unweighed(moved: AsMoved) -> tuple[Finding, ...]:
    _, unknown = weight_of(moved.parts)
    if not unknown:
        return ()
    named = ", ".join(dict.fromkeys(part.material.name for part in unknown))
    return (
        about(
            NAME,
            "warning",
            f"{moved.component.name.lower()} holds {len(unknown)} pieces of {named}, whose weight no table "
            "has: what its screws hold was judged without them",
            moved.component,
            *unknown,
            cure=WHAT_IS_UNKNOWN,
            cited=Cited("no table", "confirmed"),
            made_from=material(unknown[0]),
        ),
    )


def _pivot(wall: Wall, parts: tuple[Part, ...]) -> float:
    """The lowest edge of what lies against the wall or its facing and is joined to the rest."""
    facings = [part.extent.y1 for part in wall.parts if part.does.fire == "facing"]
    backs = {Fraction(0), *facings}
    joined = {part.key for part in parts if any(joint.mate or joint.fastening for joint in part.joints)}
    bearing = [part.extent.z0 for part in parts if part.extent.y0 in backs and part.key in joined]
    return _inches(min(bearing, default=min(part.extent.z0 for part in parts)))


def _findings(wall: Wall, hung: _Hung) -> tuple[Finding, ...]:
    component, least = hung.component, figure("stability", "studs at least")
    used = (hung.used(leaned_on=False), hung.used(leaned_on=True))
    if max(used) <= 1:
        return ()
    whole = f", {weight(wall, hung.weight * KG_PER_LB)}, {_middle(wall, hung)}" if hung.weight else ""
    said = f"{component.name.lower()}{whole}"
    severity: Severity = "warning" if used[0] <= 1 else "error"
    if not hung.rows:
        return (
            about(
                NAME,
                severity,
                f"{said}, {_asks(wall, hung, used)}, and no piece of it is screwed to the wall",
                component,
                cure="give it a layer under its cap: what is behind a layer is screwed to the studs"
                + ("" if hung.stands else "; or stand it on posts"),
                cited=least.cited,
                made_from=decided(component, "anchors"),
            ),
        )
    if not sum(row.screws.sure for row in hung.rows):
        return (
            about(
                NAME,
                severity,
                f"{said}, {_asks(wall, hung, used)}, and is screwed through pieces that are sure of no "
                f"stud at {length(wall, wall.settings.checks.stud_spacing)} on centre",
                component,
                cure="have blocking set behind them and say so with blocking: true under checks",
                cited=least.cited,
                made_from=decided(component, "x"),
            ),
        )
    worst = used[0] if used[0] > 1 else used[1]
    screws = sum(row.screws.screws for row in hung.rows)
    if worst == inf and not all(row.screw.deep_enough for row in hung.rows):
        return (
            about(
                NAME,
                severity,
                f"{said}, {_asks(wall, hung, used)}: more than screws hold that do not reach far "
                "enough into a "
                "stud",
                component,
                cure="longer wall screws, as said of fixing to the wall, or a thinner piece to go through",
                cited=_cited(),
                made_from=at(component.made_from, "fasteners", "wall_length"),
            ),
        )
    over = "more than its screws hold where they are" if worst == inf else (
        f"{worst:.2f} times what its {screws} sure screws may hold"
    )  # fmt: skip
    return (
        about(
            NAME,
            severity,
            f"{said}, {_asks(wall, hung, used)}: {over}",
            component,
            cure="would do with more screws to a stud, thicker or longer ones, or with blocking: true under "
            "checks; or with higher corbels, or posts",
            cited=_cited(),
            made_from=at(component.made_from, "fasteners", "screws_per_stud"),
        ),
    )


def _middle(wall: Wall, hung: _Hung) -> str:
    """Where its weight is, in words."""
    out = on_grid(wall, abs(hung.out) * float(MM_PER_INCH))
    if not hung.stands:
        return f"its middle {out} out from the wall"
    return f"its middle {out} {'behind' if hung.out <= 0 else 'before'} its toe"


def _asks(wall: Wall, hung: _Hung, used: tuple[float, float]) -> str:
    """What is too much for it: itself, what lies on it, or a person as well."""
    leaned_on = used[0] <= 1
    beside = hung.asked(leaned_on=leaned_on)[0] - hung.weight
    if not beside:
        return "carries itself"
    with_whom = "with a person leaning on its edge" if leaned_on else "of what lies on it"
    return f"carries {weight(wall, beside * KG_PER_LB)} {with_whom}"


def _measures(wall: Wall, hung: _Hung) -> tuple[Measure, ...]:
    made = []
    screws = sum(row.screws.screws for row in hung.rows)
    for leaned_on in (False, True) if hung.shelf else (False,):
        down, _ = hung.asked(leaned_on=leaned_on)
        used = hung.used(leaned_on=leaned_on)
        made.append(
            Measure(
                f"{hung.component.name.lower()}, {weight(wall, down * KG_PER_LB)}, "
                + ("a person leaning on its edge" if leaned_on else "its weight and what lies on it"),
                f"{screws} sure screws, the worst used to {used:.0%}",
                "100%",
                "within limit" if used <= 1 else "to judge" if leaned_on else "beyond limit",
                _cited(),
            )
        )
    return tuple(made)


def _cited() -> Cited:
    return Cited("NDS 12.2 and 12.3, AWC Technical Report 12, EN 1995-1-1 8.3.3", "from memory")


def _inches(mm: Fraction) -> float:
    return float(mm / MM_PER_INCH)


RULE = Rule(NAME, "What hangs on the wall", "stability", 15, _judge, EXPLAIN, CAUTIONS)
