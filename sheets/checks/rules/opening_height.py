"""The middle of the opening against the eyes of those who sit before it."""

from __future__ import annotations

from dataclasses import replace

from sheets.checks.finding import Measure, Outcome, Rule, about
from sheets.checks.wording import length, on_grid
from sheets.model.wall import Wall
from sheets.tables.people import body, seated_eye_height

NAME = "opening-height"

EXPLAIN = """\
Reads the height of the middle of the opening above the floor. From a lounge seat eyes are some 38 to 44
in above the floor; on an upright seat between the bounds that a small woman and a large man give, the
sum of seat height and eye height above the seat (summing percentiles is only a bound). A raised opening,
its sill 8 in or more above the floor, whose middle is above the highest of these eyes is looked up at: a
note. A fire on the hearth is looked down on, as ever, and is not remarked on.
Sources: Pheasant, Bodyspace, for civilians; the lounge seat is common practice; both from memory."""


def _judge(wall: Wall) -> Outcome:
    opening = wall.opening
    if opening is None:
        return Outcome(0)
    middle = opening.extent.middle("z")
    lounge, upright = body("lounge seat eye height"), seated_eye_height()
    measures = tuple(
        Measure(
            f"middle of the opening, {said}",
            on_grid(wall, middle),
            f"eyes {on_grid(wall, eyes.least)} to {on_grid(wall, eyes.most)}",
            "to judge" if middle > eyes.most else "for information",
            eyes.cited,
        )
        for said, eyes in (("lounge seat", lounge), ("upright seat", upright))
    )
    if middle <= lounge.most:
        return Outcome(1, (), measures)
    return Outcome(
        1,
        (
            about(
                NAME,
                "note",
                f"the middle of the opening is {length(wall, middle)} above the floor; from a lounge seat "
                f"eyes are at {on_grid(wall, lounge.least)} to {on_grid(wall, lounge.most)}: the fire is "
                "looked up at",
                made_from=replace(opening.made_from, path=("fireplace", "sill")),
                cited=lounge.cited,
                cure=f"would do with a sill {on_grid(wall, middle - lounge.most, 'up')} lower",
            ),
        ),
        measures,
    )


RULE = Rule(NAME, "Height of the opening", "use", 10, _judge, EXPLAIN)
