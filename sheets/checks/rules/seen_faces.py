"""What is seen in the finished work: no raw plies at the edge of a panel, no stock that is to be hidden."""

from __future__ import annotations

from sheets.checks.finding import Finding, Measure, Outcome, Rule, about
from sheets.checks.wording import called
from sheets.model.part import Axis, Part
from sheets.model.wall import Wall
from sheets.tables.read import Cited

NAME = "seen-faces"

EXPLAIN = """\
Reads the faces of each piece that are seen in the finished work. An edge of a panel with a veneered face that
is seen shows its plies, where neither a strip of solid wood stands before it nor veneer is laid on it: a
warning. A piece of the secondary stock, of which hidden work is made, that is seen at all: a warning.
Fibreboard is left out: its edges are filled and painted.
Source: common practice, from memory."""

HIDDEN = "secondary"
_CITED = Cited("common practice: edges of panels are covered where they are seen", "from memory")
_FACES: dict[str, Axis] = {"front": "y", "back": "y", "left": "x", "right": "x", "top": "z", "bottom": "z"}


def _judge(wall: Wall) -> Outcome:
    seen = [part for part in wall.parts if part.maker == "shop" and part.shows]
    findings = [finding for part in seen for finding in (*_raw(part), *_hidden(part))]
    covered = [part for part in seen if part.edged]
    measures = (
        Measure("edges of panels that are seen", f"{len(covered)} pieces veneered", "none raw",
                "to judge" if findings else "within limit", _CITED),
    )  # fmt: skip
    panels = any(part.material.look == "panel" for part in seen)
    return Outcome(len(seen), tuple(findings), measures if panels else ())


def _raw(part: Part) -> tuple[Finding, ...]:
    if part.material.look != "panel":
        return ()
    raw = [
        face
        for face in part.shows
        if _FACES.get(face, part.thickness_axis) != part.thickness_axis and face not in part.edged
    ]
    return tuple(
        about(
            NAME,
            "warning",
            f"{called(part)} shows the plies of its {face} edge",
            part,
            cure="make it of solid wood, or cover the edge",
            cited=_CITED,
            word=("material",),
        )
        for face in raw
    )


def _hidden(part: Part) -> tuple[Finding, ...]:
    if part.material.key != HIDDEN:
        return ()
    return (
        about(
            NAME,
            "warning",
            f"{called(part)} is seen and is of {part.material.name}, the stock of what is hidden",
            part,
            cure="name a material that is meant to be seen",
            cited=_CITED,
            word=("material",),
        ),
    )


RULE = Rule(NAME, "What is seen", "order", 60, _judge, EXPLAIN)
