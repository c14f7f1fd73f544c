"""How little tips a case, or a mantel on its posts, that is not fixed."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.mechanics.anchors import rows_high_up
from sheets.checks.mechanics.assemblies import AsMoved, carried_as_moved, cases_as_moved, weight_of
from sheets.checks.mechanics.balance import Balance, balance, feet_of, floors
from sheets.checks.mechanics.decided_at import decided, material
from sheets.checks.rules.anchorage import CAUTIONS
from sheets.checks.wording import KG_PER_LB, WHAT_IS_UNKNOWN, fine, weight
from sheets.model.wall import Wall
from sheets.tables.figures import figure
from sheets.tables.read import Cited

NAME = "tipping"

EXPLAIN = """\
Reads each case as it stands empty and unfixed, and a mantel that stands on its posts: weight and centre of
gravity from its pieces, and the toe, the foremost line that touches floor or hearth. It turns about the toe,
which a plinth that is set back moves towards the wall. With its centre of gravity in front of the toe it
falls by itself. Else three loads are tried:
  a level pull of 50 lb at the top, a child who climbs and leans back;
  the level pull of 10 lb at the top, no higher than 56 in, by which ASTM F2057-23 stands for a child's pull;
  the weight of 60 lb on the front edge, on carpet, of the same standard: the back raised 0.43 in, the edge
  taken at the top and no higher than 56 in.
A level pull tips by weight x (toe to centre of gravity) / height of the pull. A weight on the front edge tips
only as far as the edge stands, or leans, out before the toe. Of drawers or doors the standard wants all open:
the language has none yet, so the edge is the front of the work as it stands. The standard covers clothing
storage units of 27 in and up and leaves bookcases and built-ins out: it is a measure here, nothing more.
What fixes it is a rail in its upper third with at least one stud that is surely behind it. Whatever tips and
has none is a warning, what falls by itself and has none an error; what falls by itself until it is fixed is a
warning. A piece whose weight no table has leaves it unjudged, which is a warning.
Sources: statics; ASTM F2057-23 (the weight seen in a notice of the standard's committee, the rest from
memory); the pull of 50 lb is common practice, from memory."""


@dataclass(frozen=True, slots=True)
class _Trial:
    """One load that is tried, and the least of its kind that tips; kg, or kg of force."""

    how: str
    tips_at: float
    tried: float
    cited: Cited

    @property
    def tips(self) -> bool:
        return self.tips_at < self.tried


def _trials(body: Balance) -> tuple[_Trial, ...]:
    at_top = figure("stability", "level pull at the top")
    standard, height = figure("stability", "pull of the standard"), figure("stability", "height of its pull")
    edge, raised = figure("stability", "weight on an edge"), figure("stability", "heel raised on carpet")
    low = min(body.height, float(height.value))
    kg = [float(limit.value) * KG_PER_LB for limit in (at_top, standard, edge)]
    return (
        _Trial("level pull at its top", body.pull_at(body.height), kg[0], at_top.cited),
        _Trial("the standard's level pull", body.pull_at(low), kg[1], standard.cited),
        _Trial(
            "weight on its front edge, on carpet",
            body.weight_on_edge(low, float(raised.value)),
            kg[2],
            edge.cited,
        ),
    )


def _judge(wall: Wall) -> Outcome:
    tall, ground = figure("stability", "tall from"), floors(wall)
    standing = [
        (each, balance(each.parts, ground)) for each in (*cases_as_moved(wall), *carried_as_moved(wall))
    ]
    bodies = [(each, body) for each, body in standing if body is not None and body.height >= tall.value]
    findings: list[Finding] = []
    measures: list[Measure] = []
    unweighed = [
        moved
        for moved, body in standing
        if body is None and moved.height >= tall.value and feet_of(moved.parts, ground)
    ]
    findings += [_unweighed(moved) for moved in unweighed]
    for moved, body in bodies:
        fixed = any(row.screws.sure for row in rows_high_up(wall, moved.component))
        trials = _trials(body)
        findings += _findings(wall, moved, body, trials, fixed)
        if not moved.component.twin:
            measures += [
                Measure(
                    f"{moved.component.name.lower()}, empty and unfixed: {trial.how}",
                    f"tips at {weight(wall, trial.tips_at, beside=trial.tried)}"
                    if trial.tips_at < inf
                    else "tips at none",
                    weight(wall, trial.tried),
                    "within limit" if not trial.tips else "for information" if fixed else "to judge",
                    trial.cited,
                )
                for trial in trials
            ]
    return Outcome(len(bodies) + len(unweighed), tuple(findings), tuple(measures))


def _unweighed(moved: AsMoved) -> Finding:
    _, unknown = weight_of(moved.parts)
    named = ", ".join(dict.fromkeys(part.material.name for part in unknown))
    return about(
        NAME,
        "warning",
        f"{moved.component.name.lower()} holds {len(unknown)} pieces of {named}, whose weight no table has: "
        "whether it tips was not judged",
        moved.component,
        *unknown,
        cure=WHAT_IS_UNKNOWN,
        cited=Cited("no table", "confirmed"),
        made_from=material(unknown[0]),
    )


def _findings(
    wall: Wall, moved: AsMoved, body: Balance, trials: tuple[_Trial, ...], fixed: bool
) -> tuple[Finding, ...]:
    name, component = moved.component.name.lower(), moved.component
    rails = rows_high_up(wall, component)
    fix = (
        "have blocking set behind its rails and say so with blocking: true under checks"
        if rails
        else "fix it through a rail in its upper third into studs or blocking"
    )
    nothing = "no stud is sure behind its rails" if rails else "nothing fixes it to the wall"
    if body.falls:
        before = f"its centre of gravity is {fine(wall, -body.behind)} before the toe that it stands on"
        return (
            about(
                NAME,
                "warning" if fixed else "error",
                f"{name} falls over by itself until it is fixed: {before}"
                if fixed
                else f"{name} falls over by itself, and {nothing}: {before}",
                component,
                cure="bring its feet forward, or hold it until its rail is screwed to studs or blocking"
                if fixed
                else f"bring its feet forward, and {fix}",
                cited=Cited("statics: it turns about its toe", "computed"),
                made_from=decided(component, "setback", "y"),
            ),
        )
    tipping = [trial for trial in trials if trial.tips]
    if fixed or not tipping:
        return ()
    worst = min(tipping, key=lambda trial: trial.tips_at / trial.tried)
    return (
        about(
            NAME,
            "warning",
            f"{name}, {weight(wall, body.kg)}, tips at {weight(wall, worst.tips_at, beside=worst.tried)} of "
            f"{worst.how}, {weight(wall, worst.tried)} is tried, and {nothing}",
            component,
            cure=fix,
            cited=worst.cited,
            made_from=decided(component, "anchors"),
        ),
    )


RULE = Rule(NAME, "Tipping of what is not fixed", "stability", 20, _judge, EXPLAIN, CAUTIONS)
